"""How warmth shortens a life, and how different temperatures add up.

The tool's law is piecewise: a Q10 law below 32 °C, at least Q10 5 above it (other reactions take
over), no credit below 5 °C, a warning above 38 °C and no answer above 45 °C. All of it is
engineering judgement, drawn toward published Q10 values that centre near 2 below 32 °C and reach
5 to 18 above (US Army Natick ration chart; National Center for Home Food Preservation). Not for
wet food, melting fat or freezing and thawing.

Times within one call share one unit; what the unit is does not matter, except where named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, isfinite, log

from stockroom.domain.keeping.refusals import ImpossibleFigure, TooWarm

FLOOR_C = 5.0
"""No credit for colder places, freezers included."""
REFERENCE_C = 21.0
"""Class lives are stated at this temperature."""
KNEE_C = 32.0
"""From here on at least `HOT_Q10` holds."""
WARN_ABOVE_C = 38.0
REFUSE_ABOVE_C = 45.0
HOT_Q10 = 5.0

GAS_CONSTANT = 8.314472
"""J/mol/K, in the models."""
MKT_GAS_CONSTANT = 8.3144
"""J/mol/K, as the pharmacopoeia prints it for the mean kinetic temperature."""
MKT_ENERGY_KJ = 83.144
"""kJ/mol unless better data exist: US Pharmacopeia <1160>, USP 29 text (published)."""
KELVIN = 273.15

Readings = Sequence[tuple[float, float]]
"""Pairs of a temperature in °C and the time spent at it."""


@dataclass(frozen=True, slots=True)
class LifeUsed:
    """What a string of stays has used of a life."""

    used_fraction: float
    remaining_years_at_21c: float


def refuse_heat(temp_c: float) -> None:
    """Raise TooWarm above 45 °C, ImpossibleFigure for what is no temperature."""
    if not isfinite(temp_c) or temp_c <= -KELVIN:
        raise ImpossibleFigure("a temperature", f"{temp_c:g} °C", "a plain number of degrees")
    if temp_c > REFUSE_ABOVE_C:
        raise TooWarm(temp_c, REFUSE_ABOVE_C)


def temperature_factor(temp_c: float, q10: float, reference_c: float = REFERENCE_C) -> float:
    """A life at `temp_c` over the same life at the reference temperature. Checks nothing."""
    warm_c = temp_c if temp_c > FLOOR_C else FLOOR_C
    if warm_c <= KNEE_C:
        return q10 ** ((reference_c - warm_c) / 10)
    hot_q10 = q10 if q10 > HOT_Q10 else HOT_Q10
    return q10 ** ((reference_c - KNEE_C) / 10) * hot_q10 ** ((KNEE_C - warm_c) / 10)


def life_at(life_years_at_21: float, q10: float, temp_c: float) -> float:
    """Years a life of `life_years_at_21` lasts at `temp_c`, by the piecewise law.

    Raises TooWarm above 45 °C, ImpossibleFigure for a negative life or a Q10 below 1.
    """
    _refuse_law(life_years_at_21, q10)
    refuse_heat(temp_c)
    return life_years_at_21 * temperature_factor(temp_c, q10)


def plain_life(life_at_reference: float, q10: float, reference_c: float, temp_c: float) -> float:
    """The plain Q10 law without floor or knee: L x Q10^((Tref - T)/10). For comparison."""
    return life_at_reference * q10 ** ((reference_c - temp_c) / 10)


def arrhenius_life(
    life_at_reference: float, ea_kj_mol: float, reference_c: float, temp_c: float
) -> float:
    """The Arrhenius law, L x exp[(Ea/R)(1/T - 1/Tref)] in kelvin. For comparison."""
    inverse_k = 1 / (temp_c + KELVIN) - 1 / (reference_c + KELVIN)
    return life_at_reference * exp(ea_kj_mol * 1000 / GAS_CONSTANT * inverse_k)


def q10_between(cooler_life: float, cooler_c: float, warmer_life: float, warmer_c: float) -> float:
    """The Q10 two lives at two temperatures speak of: (L1/L2)^(10/(T2 - T1))."""
    return (cooler_life / warmer_life) ** (10 / (warmer_c - cooler_c))


def degrees_for(q10: float, factor: float) -> float:
    """How many degrees C change a life by `factor` under a plain Q10 law."""
    return 10 * log(factor) / log(q10)


def q10_of_energy(ea_kj_mol: float, from_c: float = 20.0) -> float:
    """The Q10 from `from_c` to ten degrees above that an activation energy gives."""
    kelvin = from_c + KELVIN
    return exp(ea_kj_mol * 1000 / GAS_CONSTANT * 10 / (kelvin * (kelvin + 10)))


def energy_of_q10(q10: float, from_c: float = 20.0) -> float:
    """The activation energy, kJ/mol, that matches a Q10 from `from_c` to ten degrees above."""
    kelvin = from_c + KELVIN
    return log(q10) * GAS_CONSTANT * kelvin * (kelvin + 10) / 10 / 1000


def mean_temperature(readings: Readings) -> float:
    """The mean of temperatures, each weighted by its time, °C."""
    total = _total_time(readings)
    return sum(temp_c * time for temp_c, time in readings) / total


def mean_kinetic_temperature(readings: Readings, ea_kj_mol: float = MKT_ENERGY_KJ) -> float:
    """The one temperature that wears as much as these readings did, weighted by time, °C.

    (dH/R) / -ln[sum t exp(-dH/(R T)) / sum t], US Pharmacopeia <1160> (published), whose form is
    for equal times. The pharmacopoeia's energy goes with its R of 8.3144, any other with
    8.314472. Never below the mean. Beside a Q10 figure use `energy_of_q10`, or they disagree.
    Raises ImpossibleFigure without any time, or for an energy that is not above zero.
    """
    if not 0 < ea_kj_mol < 1000:
        raise ImpossibleFigure(
            "the activation energy", f"{ea_kj_mol:g} kJ/mol", "above 0 and below 1000 kJ/mol"
        )
    total = _total_time(readings)
    gas_constant = MKT_GAS_CONSTANT if ea_kj_mol == MKT_ENERGY_KJ else GAS_CONSTANT
    energy_k = ea_kj_mol * 1000 / gas_constant
    # Counted from the warmest reading, so that no exponential runs out of range.
    warmest_k = max(temp_c for temp_c, time in readings if time > 0) + KELVIN
    wear = sum(
        time * exp(energy_k * (1 / warmest_k - 1 / (temp_c + KELVIN))) for temp_c, time in readings
    )
    return energy_k / (energy_k / warmest_k - log(wear / total)) - KELVIN


def life_used(life_years: float, q10: float, stays: Readings) -> LifeUsed:
    """The share of a life used by stays of (°C, months), and what remains at 21 °C.

    `life_years` is the life at 21 °C. Raises TooWarm when one stay was above 45 °C,
    ImpossibleFigure for negative figures.
    """
    _refuse_law(life_years, q10)
    if life_years == 0:
        raise ImpossibleFigure("a life", "0 years", "more than 0 years")
    used = 0.0
    for temp_c, months in stays:
        if not 0 <= months < float("inf"):
            raise ImpossibleFigure("a stay", f"{months:g} months", "0 months or more")
        used += months / 12 / life_at(life_years, q10, temp_c)
    return LifeUsed(used, max(0.0, 1 - used) * life_years)


def equivalent_temperature(q10: float, stays: Readings) -> float:
    """The constant temperature that uses as much life as these stays, by the piecewise law.

    From 5 °C up: colder counts as 5. `q10` is above 1.
    """
    total = _total_time(stays)
    wear = sum(time / temperature_factor(temp_c, q10) for temp_c, time in stays) / total
    at_knee = 1 / temperature_factor(KNEE_C, q10)
    if wear <= at_knee:
        return REFERENCE_C + degrees_for(q10, wear)
    return KNEE_C + degrees_for(max(q10, HOT_Q10), wear / at_knee)


def _total_time(readings: Readings) -> float:
    """The time all readings cover; raises ImpossibleFigure for none, or a negative one."""
    for temp_c, time in readings:
        if not isfinite(temp_c) or temp_c <= -KELVIN:
            raise ImpossibleFigure("a temperature", f"{temp_c:g} °C", "a plain number of degrees")
        if not 0 <= time < float("inf"):
            raise ImpossibleFigure("a time", f"{time:g}", "0 or more")
    total = sum(time for _, time in readings)
    if total <= 0:
        raise ImpossibleFigure("the time of all readings", "0", "more than 0")
    return total


def _refuse_law(life: float, q10: float) -> None:
    """Refuse a negative life and a Q10 below 1."""
    if not 0 <= life < float("inf"):
        raise ImpossibleFigure("a life", f"{life:g} years", "0 years or more")
    if not 1 <= q10 < float("inf"):
        raise ImpossibleFigure("Q10", f"{q10:g}", "1 or more: warmth never lengthens a life here")
