"""The gas in a closed package and the oxygen in it, exactly.

Gas is what the container holds less the true volume of the dry solids: the pores of freeze-dried
food are gas. A pouch pressed flat holds less than its nominal volume; taking the nominal one is
on the safe side. A gauge vacuum is read against the local barometer.
"""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.keeping.interface import CannotProject

# Dry air, mole fraction, rounded from 0.209476 (US Standard Atmosphere, 1976; from memory).
OXYGEN_IN_AIR = Fraction(2095, 10_000)
# One atmosphere (101.325 kPa) in thousandths of an inch of mercury.
SEA_LEVEL_THOUSANDTH_INHG = 29_921
# Engineering judgement; dry fruit, vegetable and meat solids 1.4 to 1.6 (from memory).
SOLID_DENSITY_MG_PER_ML = 1_500


class TooMuchForContainer(CannotProject):
    """The solids alone would fill the container: a weight or a volume is mistyped."""

    def __init__(self, dry_dg: int, volume_ml: int) -> None:
        super().__init__(
            f"{dry_dg / 10:.1f} g of dry food cannot fit into {volume_ml} mL.",
            "Check the weight and the container.",
        )
        self.dry_dg = dry_dg
        self.volume_ml = volume_ml


class VacuumBeyondBarometer(CannotProject):
    """A gauge cannot read a vacuum deeper than the air outside presses."""

    def __init__(self, vacuum_tenth_inhg: int, barometer_thousandth_inhg: int) -> None:
        super().__init__(
            f"A vacuum of {vacuum_tenth_inhg / 10:.1f} inHg is more than the barometer's"
            f" {barometer_thousandth_inhg / 1000:.2f} inHg.",
            "Check the gauge reading and the barometer.",
        )
        self.vacuum_tenth_inhg = vacuum_tenth_inhg
        self.barometer_thousandth_inhg = barometer_thousandth_inhg


def solids_ml(dry_dg: int, density_mg_per_ml: int = SOLID_DENSITY_MG_PER_ML) -> Fraction:
    """Volume of the dry solids without their pores, mL."""
    return Fraction(dry_dg * 100, density_mg_per_ml)


def gas_ml(
    volume_ml: int, dry_dg: int, density_mg_per_ml: int = SOLID_DENSITY_MG_PER_ML
) -> Fraction:
    """Gas in the closed package, mL. Raises TooMuchForContainer when the solids fill it."""
    gas = volume_ml - solids_ml(dry_dg, density_mg_per_ml)
    if gas <= 0:
        raise TooMuchForContainer(dry_dg, volume_ml)
    return gas


def oxygen_cc(
    gas: Fraction,
    vacuum_tenth_inhg: int | None = None,
    barometer_thousandth_inhg: int | None = None,
) -> Fraction:
    """Oxygen at closing, cc at one atmosphere: 0.2095 x gas x (barometer - gauge) / 29.921.

    None for the gauge is no vacuum, None for the barometer is sea level. Raises
    VacuumBeyondBarometer when the gauge reads at least the barometer.
    """
    barometer = barometer_thousandth_inhg or SEA_LEVEL_THOUSANDTH_INHG
    pressure = barometer - (vacuum_tenth_inhg or 0) * 100
    if pressure <= 0:
        raise VacuumBeyondBarometer(vacuum_tenth_inhg or 0, barometer)
    return OXYGEN_IN_AIR * gas * Fraction(pressure, SEA_LEVEL_THOUSANDTH_INHG)


def oxygen_left_cc(oxygen: Fraction, absorber_cc: int) -> Fraction:
    """Oxygen the absorbers leave behind, cc; the rating is taken as real and available."""
    return max(Fraction(0), oxygen - absorber_cc)
