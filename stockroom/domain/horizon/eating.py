"""How a food is eaten from today on: a pace that may change with the months.

Within the forecast a food's servings are whole parts of a serving, so that nothing is lost to
rounding: `Curve` counts how many parts are eaten by a day, and on which day a part is eaten.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from itertools import pairwise

from stockroom.domain.horizon.stock import in_parts


@dataclass(frozen=True, slots=True)
class Pace:
    """So many servings a day from a day on, until the next pace begins."""

    from_day: date
    servings_per_day: Fraction


@dataclass(frozen=True, slots=True)
class FoodEating:
    """How one food is eaten, planned uses aside; its paces in order of day, each day once.

    Before the first pace nothing is eaten. ValueError for a pace below nought or out of order.
    """

    food_id: int
    paces: tuple[Pace, ...]

    def __post_init__(self) -> None:
        days = [pace.from_day for pace in self.paces]
        if any(later <= earlier for earlier, later in pairwise(days)):
            raise ValueError(f"paces out of order: {days}")
        if any(pace.servings_per_day < 0 for pace in self.paces):
            raise ValueError(f"food {self.food_id} at a pace below nought")


def steady(food_id: int, servings_per_day: Fraction) -> FoodEating:
    """The same every day."""
    return FoodEating(food_id, (Pace(date.min, servings_per_day),))


@dataclass(frozen=True, slots=True)
class Curve:
    """Parts eaten by each day, if there is enough; day 0 is the first day of the forecast."""

    starts: tuple[int, ...]
    """The day each stretch begins, the first of them 0."""
    before: tuple[int, ...]
    """Parts eaten before each stretch."""
    a_day: tuple[int, ...]
    """Parts eaten on each day of a stretch."""
    days: int
    """Length of the forecast; after it nothing is known."""

    def eaten_in(self, days: int) -> int:
        """Parts eaten in the first so many days."""
        if days <= 0:
            return 0
        within = days if days < self.days else self.days
        at = bisect_right(self.starts, within) - 1
        return self.before[at] + (within - self.starts[at]) * self.a_day[at]

    def day_of(self, part: int) -> int:
        """The day on which a part, counted from 0, is eaten; it must lie within the forecast."""
        at = bisect_right(self.before, part) - 1
        return self.starts[at] + (part - self.before[at]) // self.a_day[at]


def curve_of(eating: FoodEating | None, from_day: date, days: int, parts: int) -> Curve:
    """The curve of a food; None is a food that is eaten only where that is planned."""
    starts, rates = [0], [0]
    for pace in () if eating is None else eating.paces:
        rate = in_parts(pace.servings_per_day, parts)
        start = (pace.from_day - from_day).days
        if start >= days:
            break
        if start <= 0:
            rates[0] = rate
        else:
            starts.append(start)
            rates.append(rate)
    before = [0]
    for at in range(1, len(starts)):
        before.append(before[-1] + (starts[at] - starts[at - 1]) * rates[at - 1])
    return Curve(tuple(starts), tuple(before), tuple(rates), days)


def rates_of(eating: FoodEating | None) -> Iterable[Fraction]:
    """The rates of a food's paces."""
    return () if eating is None else (pace.servings_per_day for pace in eating.paces)
