"""What was eaten of each food in other years, month by month, and how much it varied.

A month's figure is servings a day over every day on record, days without any of it too. Where a
month has too few days on record its season speaks for it, and failing that the whole record
(`MONTH_ENOUGH`).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from math import sqrt
from typing import NamedTuple

from stockroom.domain.horizon.eating import FoodEating, Pace
from stockroom.domain.horizon.odds import EATING_SPREAD_SHARE
from stockroom.domain.horizon.stock import NONE

MONTH_DAYS, SEASON_DAYS = 20, 40
"""Days on record from which a month, and a season, speak for themselves (`MONTH_ENOUGH`)."""
SEASONS = ((12, 1, 2), (3, 4, 5), (6, 7, 8), (9, 10, 11))
"""Three months each, as weather services count them (common practice, no source)."""


class PastDraw(NamedTuple):
    """So many servings of a food taken on a day."""

    food_id: int
    on_day: date
    servings: Fraction


@dataclass(frozen=True, slots=True)
class Observed:
    """Days on record, what was eaten on them, and the sum of the squares of each day's amount."""

    days: int
    servings: Fraction
    squares: Fraction

    @property
    def servings_per_day(self) -> Fraction:
        """The mean; none where no day is on record."""
        return self.servings / self.days if self.days else NONE

    @property
    def daily_spread(self) -> float | None:
        """Standard deviation of a day's amount; None below two days."""
        if self.days < 2:
            return None
        about_mean = self.squares - self.servings * self.servings / self.days
        return sqrt(about_mean / (self.days - 1))


@dataclass(frozen=True, slots=True)
class EatingPattern:
    """How one food was eaten; `months` are January to December, all years together."""

    food_id: int
    months: tuple[Observed, ...]

    @property
    def seasons(self) -> tuple[Observed, ...]:
        """In the order of `SEASONS`."""
        return tuple(together([self.months[month - 1] for month in some]) for some in SEASONS)

    @property
    def year(self) -> Observed:
        """The whole record."""
        return together(self.months)

    def speaks_for(self, month: int) -> Observed:
        """What stands for a month, 1 to 12: itself, its season or the whole record."""
        own = self.months[month - 1]
        if own.days >= MONTH_DAYS:
            return own
        season = next(one for some, one in zip(SEASONS, self.seasons, strict=True) if month in some)
        return season if season.days >= SEASON_DAYS else self.year


def together(parts: Sequence[Observed]) -> Observed:
    """Several stretches as one."""
    return Observed(
        sum(one.days for one in parts),
        sum((one.servings for one in parts), NONE),
        sum((one.squares for one in parts), NONE),
    )


def eating_patterns(
    draws: Iterable[PastDraw], first_day: date, last_day: date
) -> tuple[EatingPattern, ...]:
    """The pattern of every food drawn from `first_day` to `last_day`, both included.

    Draws on other days are left out. ValueError when the last day is before the first.
    """
    days = _days_in_months(first_day, last_day)
    by_day: dict[int, dict[date, Fraction]] = {}
    for draw in draws:
        if first_day <= draw.on_day <= last_day:
            food = by_day.setdefault(draw.food_id, {})
            food[draw.on_day] = food.get(draw.on_day, NONE) + draw.servings
    return tuple(EatingPattern(food, _months(by_day[food], days)) for food in sorted(by_day))


def paces_of(pattern: EatingPattern, from_day: date, days: int) -> FoodEating:
    """The pattern as the food's eating over the next days: a pace for each month."""
    end = from_day + timedelta(days=days)
    paces: list[Pace] = []
    start = from_day
    while start < end:
        a_day = pattern.speaks_for(start.month).servings_per_day
        if not paces or paces[-1].servings_per_day != a_day:
            paces.append(Pace(start, a_day))
        start = date(start.year + start.month // 12, start.month % 12 + 1, 1)
    return FoodEating(pattern.food_id, tuple(paces))


def relative_spread(pattern: EatingPattern, days: int) -> float:
    """Spread of what is eaten over so many days, as a share of its mean.

    Chance from day to day (`DAYS_APART`) and from year to year (`EATING_SPREAD`), by squares.
    """
    year = pattern.year
    a_day, mean = year.daily_spread, float(year.servings_per_day)
    by_chance = 0.0 if a_day is None or not mean else a_day / mean / sqrt(days)
    return sqrt(by_chance**2 + EATING_SPREAD_SHARE**2)


def _days_in_months(first_day: date, last_day: date) -> list[int]:
    """How many days on record each month of the year has."""
    if last_day < first_day:
        raise ValueError(f"a record from {first_day} to {last_day}")
    found = [0] * 12
    for number in range(first_day.toordinal(), last_day.toordinal() + 1):
        found[date.fromordinal(number).month - 1] += 1
    return found


def _months(by_day: dict[date, Fraction], days: list[int]) -> tuple[Observed, ...]:
    """What was eaten in each month of the year."""
    servings, squares = [NONE] * 12, [NONE] * 12
    for day, amount in by_day.items():
        servings[day.month - 1] += amount
        squares[day.month - 1] += amount * amount
    return tuple(
        Observed(count, amount, square)
        for count, amount, square in zip(days, servings, squares, strict=True)
    )
