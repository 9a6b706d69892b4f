"""Twelve monthly temperatures out of a logger's readings, each weighted as ageing weights it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.keeping.temperature import (
    mean_kinetic_temperature,
    mean_temperature,
)
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.records import TemperatureReading
from stockroom.errors import Refused

LONGEST_GAP_HOURS = 48.0
"""A reading speaks for the time until the next one, two days at most (engineering judgement)."""

LIFE_ENERGY_KJ = 51.216
"""The activation energy of a life that halves every 10 °C near 25 °C (computed), so that mean
kinetic temperature and life used agree."""


class TooFewReadings(Refused):
    """One reading alone has no duration."""

    def __init__(self, count: int) -> None:
        super().__init__(
            f"Usable readings in the file: {count}; that says nothing about a year.",
            "Bring a file with readings over some weeks at least.",
        )


@dataclass(frozen=True, slots=True)
class YearProfile:
    """What a logger's readings come to.

    `monthly_dc` are mean kinetic temperatures of the months, January first; `measured_months`
    those with readings, the others filled from their neighbours in the year.
    """

    monthly_dc: tuple[int, ...]
    measured_months: tuple[int, ...]
    mean_c: float
    kinetic_c: float
    hours: float


def weighted(readings: Sequence[TemperatureReading]) -> list[tuple[int, float, float]]:
    """(month, °C, hours it speaks for) of each reading; the last speaks as long as the one before.

    Readings are in order of time. Raises TooFewReadings for fewer than two.
    """
    if len(readings) < 2:
        raise TooFewReadings(len(readings))
    found: list[tuple[int, float, float]] = []
    hours = 0.0
    for this, following in zip(readings, [*readings[1:], None], strict=True):
        if following is not None:
            gap = (following.at - this.at).total_seconds() / 3600
            hours = min(gap, LONGEST_GAP_HOURS)
        found.append((this.at.month, this.temperature_dc / 10, hours))
    return found


def year_profile(readings: Sequence[TemperatureReading]) -> YearProfile:
    """Twelve months from readings; a month without any is drawn between its neighbours."""
    rows = weighted(readings)
    by_month: dict[int, list[tuple[float, float]]] = {}
    for month, at_c, hours in rows:
        by_month.setdefault(month, []).append((at_c, hours))
    known = {
        month: nearest_whole_tenth(mean_kinetic_temperature(part, LIFE_ENERGY_KJ))
        for month, part in by_month.items()
    }
    everything = [(at_c, hours) for _, at_c, hours in rows]
    return YearProfile(
        monthly_dc=filled(known),
        measured_months=tuple(sorted(known)),
        mean_c=mean_temperature(everything),
        kinetic_c=mean_kinetic_temperature(everything, LIFE_ENERGY_KJ),
        hours=sum(hours for _, hours in everything),
    )


def filled(known: dict[int, int]) -> tuple[int, ...]:
    """Twelve months from some: the others on the straight line between their neighbours.

    The year is a ring: December's neighbour is January. At least one month must be known.
    """
    months = sorted(known)
    year: list[int] = []
    for month in range(1, 13):
        before = max((one for one in months if one <= month), default=months[-1] - 12)
        after = min((one for one in months if one >= month), default=months[0] + 12)
        low, high = known[(before - 1) % 12 + 1], known[(after - 1) % 12 + 1]
        share = 0.0 if after == before else (month - before) / (after - before)
        year.append(nearest_whole_tenth((low + (high - low) * share) / 10))
    return tuple(year)


def nearest_whole_tenth(at_c: float) -> int:
    """Degrees as whole tenths."""
    return nearest_whole(Fraction(at_c) * 10)
