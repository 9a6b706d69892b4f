"""Oxygen: what is in the package, what absorbers take, what comes in, and the life it leaves.

Quality is lost with time, and faster with oxygen (additive damage, engineering judgement):

    t/Lfree + min( [left + max(0, in t - reserve)] / dry, umax t ) / tolerance = 1

`left` is the oxygen the absorber leaves and `reserve` what it can still take, both in cc; `in`
is what comes through film or lid, cc a day; `dry` is grams of dried food and umax = tolerance
(1/Lair - 1/Lfree), so that air alone gives the life in air. The food is taken to use up what
arrives; an absorber's rating is taken as real and available.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from stockroom.domain.keeping.headspace import (
    OXYGEN_IN_AIR,
    SEA_LEVEL_THOUSANDTH_INHG,
    SOLID_DENSITY_MG_PER_ML,
    gas_ml,
    oxygen_cc,
    oxygen_left_cc,
)
from stockroom.domain.keeping.refusals import ImpossibleFigure
from stockroom.domain.quantities import nearest_whole

ABSORBER_MARGIN = Fraction(5, 4)
"""More absorber than oxygen, for handling and age (engineering judgement)."""

AIR_SHARE = float(OXYGEN_IN_AIR)

# The standard atmosphere's pressure over height; from memory, confirm before showing to users.
_LAPSE_PER_M = 2.25577e-5
_PRESSURE_EXPONENT = 5.25588
LOWEST_M = -430
HIGHEST_M = 9000


@dataclass(frozen=True, slots=True)
class AbsorberFigures:
    """What a package needs to lose its oxygen. Volumes in mL or cc at one atmosphere."""

    gas_ml: float
    oxygen_cc: float
    """At closing."""
    absorber_cc: int
    """All absorbers together: the ones given, or the stock size advised."""
    absorbers: tuple[int, ...]
    """The same, one by one, largest first; more than one above the largest stock size."""
    residual_oxygen_cc: float
    """What they leave."""
    reserve_cc: float
    """What they can still take afterwards."""
    oxygen_percent_after: float
    """Oxygen left in percent of one atmosphere, not of the gas that is left."""


def absorber_figures(
    volume_ml: int,
    dry_dg: int,
    sizes_cc: Sequence[int],
    *,
    density_mg_per_ml: int = SOLID_DENSITY_MG_PER_ML,
    vacuum_tenth_inhg: int | None = None,
    barometer_thousandth_inhg: int | None = None,
    absorber_cc: int | None = None,
) -> AbsorberFigures:
    """The oxygen of a package and the absorber for it: the advised one unless `absorber_cc`.

    Raises TooMuchForContainer, VacuumBeyondBarometer, ImpossibleFigure for what cannot be.
    """
    refuse_closure(
        volume_ml,
        dry_dg,
        density_mg_per_ml,
        vacuum_tenth_inhg,
        barometer_thousandth_inhg,
        absorber_cc or 0,
    )
    gas = gas_ml(volume_ml, dry_dg, density_mg_per_ml)
    oxygen = oxygen_cc(gas, vacuum_tenth_inhg, barometer_thousandth_inhg)
    chosen = (absorber_cc,) if absorber_cc is not None else advised_absorbers(oxygen, sizes_cc)
    total_cc = sum(chosen)
    left = oxygen_left_cc(oxygen, total_cc)
    return AbsorberFigures(
        gas_ml=float(gas),
        oxygen_cc=float(oxygen),
        absorber_cc=total_cc,
        absorbers=chosen,
        residual_oxygen_cc=float(left),
        reserve_cc=float(max(Fraction(0), total_cc - oxygen)),
        oxygen_percent_after=float(100 * left / gas),
    )


def refuse_closure(
    volume_ml: int,
    dry_dg: int,
    density_mg_per_ml: int | None,
    vacuum_tenth_inhg: int | None,
    barometer_thousandth_inhg: int | None,
    absorber_cc: int,
) -> None:
    """Raise ImpossibleFigure for the first of a package's figures that cannot be."""
    for what, value, least in (
        ("the volume", volume_ml, 1),
        ("the dry weight", dry_dg, 0),
        ("the density of the solids", density_mg_per_ml, 1),
        ("the gauge vacuum", vacuum_tenth_inhg, 0),
        ("the barometer", barometer_thousandth_inhg, 1),
        ("the absorber", absorber_cc, 0),
    ):
        if value is not None and value < least:
            shown = "negative" if value < 0 else "nothing"
            raise ImpossibleFigure(what, shown, "above nothing" if least else "nothing or more")


def advised_absorbers(oxygen: Fraction, sizes_cc: Sequence[int]) -> tuple[int, ...]:
    """Stock sizes that together take 1.25 times the oxygen: the next size up, largest first.

    Above the largest size several: as many of it as needed, the last one only as large as the
    rest wants. Never less than 1.25 times the oxygen. `sizes_cc` may be in any order.
    """
    if not sizes_cc or min(sizes_cc) <= 0:
        raise ImpossibleFigure("an absorber size", "missing or nothing", "more than 0 cc")
    wanted = oxygen * ABSORBER_MARGIN
    ordered = sorted(sizes_cc)
    largest = ordered[-1]
    chosen: list[int] = []
    while wanted > largest:
        chosen.append(largest)
        wanted -= largest
    chosen.append(next(size for size in ordered if size >= wanted))
    return tuple(chosen)


def barometer_at(altitude_m: int) -> int:
    """The usual barometer at a height above the sea, thousandths of an inHg.

    29.921 x (1 - 2.25577e-5 h)^5.25588, the standard atmosphere (from memory): 26.54 at 1,000 m.
    Raises ImpossibleFigure for heights nobody lives at.
    """
    if not LOWEST_M <= altitude_m <= HIGHEST_M:
        raise ImpossibleFigure(
            "the height above the sea", f"{altitude_m} m", f"from {LOWEST_M} to {HIGHEST_M} m"
        )
    share = (1 - _LAPSE_PER_M * altitude_m) ** _PRESSURE_EXPONENT
    return nearest_whole(Fraction(SEA_LEVEL_THOUSANDTH_INHG * share))


def pull_after_absorbing_inhg(oxygen: Fraction, gas: Fraction) -> float:
    """The vacuum a rigid jar shows once its oxygen is taken up, inHg: 6.27 when closed in air."""
    return float(oxygen / gas) * SEA_LEVEL_THOUSANDTH_INHG / 1000


def ingress_cc_per_day(oxygen_transmission: float, area_m2: float, lid_oxygen: float) -> float:
    """Oxygen coming in, cc a day: film figures are per atmosphere of oxygen, lids in air."""
    return oxygen_transmission * area_m2 * AIR_SHARE + lid_oxygen


class DamageRoot(NamedTuple):
    """Where time and oxygen together reach the end of the quality, before any limit."""

    days: float
    """May be below zero, where the oxygen left is more than the food bears."""
    oxygen_counts: bool
    """Whether oxygen that came in has a part in it; False while the absorber takes it all."""


def damage_root(
    free_days: float,
    left_cc: float,
    reserve_cc: float,
    ingress: float,
    bearable_cc: float,
) -> DamageRoot:
    """The t of t/Lfree + [left + max(0, in t - reserve)] / bearable = 1.

    `bearable_cc` is the oxygen the whole package bears: dry grams times tolerance.
    """
    without = free_days * (1 - left_cc / bearable_cc)
    if ingress * without <= reserve_cc:
        return DamageRoot(without, False)
    taken = (left_cc - reserve_cc) / bearable_cc
    return DamageRoot((1 - taken) / (1 / free_days + ingress / bearable_cc), True)


def quality_life_days(
    free_days: float,
    air_days: float,
    left_cc: float,
    reserve_cc: float,
    ingress: float,
    dry_g: float,
    tolerance: float,
) -> float:
    """Days until time and oxygen have used up the quality: between life in air and oxygen-free.

    The equation at the head of the module, solved exactly: its left side is the smaller of two
    rising straight-edged curves, one of them t/Lair, so the answer is the later of their roots.
    """
    if air_days >= free_days:
        return free_days
    root = damage_root(free_days, left_cc, reserve_cc, ingress, dry_g * tolerance)
    return min(free_days, max(air_days, root.days))
