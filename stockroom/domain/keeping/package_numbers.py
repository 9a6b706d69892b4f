"""One package as the formulas want it: plain numbers worked out once from the case."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from stockroom.domain.keeping.headspace import (
    SOLID_DENSITY_MG_PER_ML,
    gas_ml,
    oxygen_cc,
    oxygen_left_cc,
)
from stockroom.domain.keeping.interface import KeepingCase, PackageKind, TooMoistToProject
from stockroom.domain.keeping.oxygen import refuse_closure
from stockroom.domain.keeping.refusals import ImpossibleFigure

LOW_OXYGEN_MOISTURE_CEILING = Fraction(1, 10)
"""Wet basis. Intellectual Reserve, An Approach to Longer-Term Food Storage, 2007 (published)."""

# Both faces of a pouch or bag of which only the volume is known (engineering judgement).
AREA_AT_1500_ML_M2 = 0.12
AREA_VOLUME_ML = 1500


class PackageNumbers(NamedTuple):
    """The numbers of one closed package."""

    dry_g: float
    solids_g: float
    """Dry food less its residual moisture."""
    left_cc: float
    """Oxygen the absorbers leave."""
    reserve_cc: float
    """What they can still take."""
    area_m2: float
    """Film, both faces; 0 for a jar."""


def refuse_moist(case: KeepingCase) -> None:
    """Raise TooMoistToProject for food above 10 % moisture under vacuum or with an absorber."""
    low_oxygen = case.absorber_cc > 0 or case.vacuum_tenth_inhg is not None
    moisture = case.residual_moisture
    if low_oxygen and moisture is not None and moisture > LOW_OXYGEN_MOISTURE_CEILING:
        raise TooMoistToProject(moisture)


def refuse_impossible(case: KeepingCase) -> None:
    """Raise ImpossibleFigure for a reading of the case that cannot be."""
    refuse_closure(
        case.volume_ml,
        case.dry_dg,
        case.solid_density_mg_per_ml,
        case.vacuum_tenth_inhg,
        case.barometer_thousandth_inhg,
        case.absorber_cc,
    )
    if case.dry_dg == 0:
        raise ImpossibleFigure("the dry weight", "nothing", "above nothing")
    if case.area_mm2 is not None and case.area_mm2 < 0:
        raise ImpossibleFigure("the film's area", "negative", "nothing or more")
    for what, share in (
        ("the fat of the solids", case.fat_of_solids),
        ("the residual moisture", case.residual_moisture),
        ("the share of life used", case.life_used_before_redrying),
    ):
        if share is not None and not 0 <= share <= 1:
            raise ImpossibleFigure(what, f"{float(share * 100):.1f} %", "from 0 to 100 %")
    if case.residual_moisture == 1:
        raise ImpossibleFigure("the residual moisture", "100 %", "below 100 %")


def package_of(case: KeepingCase, residual_moisture: float) -> PackageNumbers:
    """The numbers of a case; `residual_moisture` stands where the lot's was not recorded.

    Raises TooMuchForContainer or VacuumBeyondBarometer for figures that cannot be.
    """
    density = case.solid_density_mg_per_ml or SOLID_DENSITY_MG_PER_ML
    gas = gas_ml(case.volume_ml, case.dry_dg, density)
    oxygen = oxygen_cc(gas, case.vacuum_tenth_inhg, case.barometer_thousandth_inhg)
    moisture = residual_moisture
    if case.residual_moisture is not None:
        moisture = float(case.residual_moisture)
    dry_g = case.dry_dg / 10
    return PackageNumbers(
        dry_g=dry_g,
        solids_g=dry_g * (1 - moisture),
        left_cc=float(oxygen_left_cc(oxygen, case.absorber_cc)),
        reserve_cc=float(max(Fraction(0), case.absorber_cc - oxygen)),
        area_m2=film_area_m2(case),
    )


def film_area_m2(case: KeepingCase) -> float:
    """Film both faces: none for a jar, else as given, else 0.12 (V/1500)^(2/3) m2."""
    if case.package_kind is PackageKind.JAR:
        return 0.0
    if case.area_mm2 is not None:
        return case.area_mm2 / 1_000_000
    return AREA_AT_1500_ML_M2 * (case.volume_ml / AREA_VOLUME_ML) ** (2 / 3)
