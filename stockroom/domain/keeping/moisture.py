"""Moisture coming in through the package until the food is no longer crisp.

The food's isotherm is a GAB curve (Guggenheim, Anderson, de Boer); vapour passes in proportion to
the difference between the room and the food. The time from one water activity to another is

    t = Ws / (P p0(T)) x integral of (dm/da) / (RH - a) da

with Ws the dry solids, P the permeance of the package and p0 the saturation pressure. The
integral depends on the food and the room alone, so it is kept for the next package. Permeance is
held at its 38 °C value, which is on the safe side (engineering judgement). Not with a desiccant
inside, not with condensation, not above 40 °C.
"""

from __future__ import annotations

from functools import lru_cache
from math import exp, inf
from typing import NamedTuple

from stockroom.domain.keeping.temperature import FLOOR_C

STEPS = 400
"""Midpoint steps of the integral; more change nothing that is shown."""
WARMEST_C = 40.0
"""The moisture part is not meant for warmer places."""
DISCARD_ACTIVITY = 0.60
"""No microbial growth below: Beuchat 1981, Cereal Foods World 26:345 (published, secondary)."""

# The conditions barrier figures are measured or stated at.
TRANSMISSION_C = 38.0
TRANSMISSION_HUMIDITY = 0.90
LID_C = 25.0
LID_HUMIDITY_DIFFERENCE = 0.6


class Isotherm(NamedTuple):
    """A GAB curve: water held by the dry solids at a water activity."""

    monolayer: float
    """g water per g dry solids."""
    c: float
    k: float

    @property
    def is_plausible(self) -> bool:
        """Whether the three stand in the order and range they can have at all.

        Some printed tables have columns swapped (engineering judgement on the limits).
        """
        return (
            0.005 <= self.monolayer <= 0.30
            and self.c > 0
            and 0 < self.k <= 1.25
            and self.k * DISCARD_ACTIVITY < 1
        )


def gab_moisture(isotherm: Isotherm, activity: float) -> float:
    """Water held at a water activity, g per g dry solids."""
    monolayer, c, k = isotherm
    ka = k * activity
    return monolayer * c * ka / ((1 - ka) * (1 - ka + c * ka))


def saturation_kpa(at_c: float) -> float:
    """Vapour pressure over water, kPa: Buck's form (from memory; within 0.1 % of steam tables)."""
    return 0.61121 * exp((18.678 - at_c / 234.5) * at_c / (257.14 + at_c))


_FILM_DRIVING_KPA = saturation_kpa(TRANSMISSION_C) * TRANSMISSION_HUMIDITY
_LID_DRIVING_KPA = saturation_kpa(LID_C) * LID_HUMIDITY_DIFFERENCE


def film_permeance(vapour_transmission: float) -> float:
    """g/(m2 day kPa) from g/(m2 day) measured at 38 °C and 90 % humidity."""
    return vapour_transmission / _FILM_DRIVING_KPA


def lid_permeance(lid_vapour_mg: float) -> float:
    """g/(day kPa) of a lid from mg/day at 25 °C and a humidity difference of 0.6."""
    return lid_vapour_mg / 1000 / _LID_DRIVING_KPA


def package_permeance(vapour_transmission: float, area_m2: float, lid_vapour_mg: float) -> float:
    """g/(day kPa) of a whole package, film and lid together."""
    return film_permeance(vapour_transmission) * area_m2 + lid_permeance(lid_vapour_mg)


@lru_cache(maxsize=4096)
def uptake_integral(isotherm: Isotherm, start: float, limit: float, humidity: float) -> float:
    """The integral of (dm/da) / (humidity - a) from water activity `start` to `limit`, g/g.

    Infinite in a room no more humid than the limit; 0 where the food starts at the limit.
    """
    if limit <= start:
        return 0.0
    if humidity <= limit:
        return inf
    step = (limit - start) / STEPS
    total = 0.0
    before = gab_moisture(isotherm, start)
    for number in range(STEPS):
        after = gab_moisture(isotherm, start + (number + 1) * step)
        total += (after - before) / (humidity - start - (number + 0.5) * step)
        before = after
    return total


def driving_kpa(at_c: float) -> float:
    """Saturation pressure of the room, kPa; places below 5 °C count as 5, as for quality."""
    return saturation_kpa(at_c if at_c > FLOOR_C else FLOOR_C)


def moisture_life_days(
    solids_g: float, permeance: float, pressure_kpa: float, integral: float
) -> float:
    """Days until the limit of the integral: infinite where nothing comes in."""
    if integral == 0:
        return 0.0
    if permeance <= 0 or integral == inf:
        return inf
    return solids_g / (permeance * pressure_kpa) * integral
