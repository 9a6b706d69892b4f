"""How fast something is eaten, in words a household can follow: "6 every 5 days"."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

LONGEST_DAYS = 14
"""A pace is said over a fortnight at most: longer ones nobody counts (engineering judgement)."""


@dataclass(frozen=True, slots=True)
class Rhythm:
    """So many whole servings every so many days; `exact` or a little faster than asked."""

    servings: int
    days: int
    exact: bool

    @property
    def servings_per_day(self) -> Fraction:
        """The rhythm as a rate."""
        return Fraction(self.servings, self.days)

    @property
    def words(self) -> str:
        """ "6 every 5 days", "2 a day", "none"."""
        if self.servings == 0:
            return "none"
        if self.days == 1:
            return f"{self.servings} a day"
        return f"{self.servings} every {self.days} days"


def rhythm(servings_per_day: Fraction) -> Rhythm:
    """Whole servings over the fewest days: the rate itself, else the nearest that covers it.

    Never slower than asked. ValueError for a rate below nought.
    """
    if servings_per_day < 0:
        raise ValueError(f"{servings_per_day} servings a day")
    if servings_per_day.denominator <= LONGEST_DAYS:
        return Rhythm(servings_per_day.numerator, servings_per_day.denominator, exact=True)
    covering = (
        Fraction(ceil(servings_per_day * days), days) for days in range(1, LONGEST_DAYS + 1)
    )
    found = min(covering)
    return Rhythm(found.numerator, found.denominator, exact=False)


def whole_a_day(servings_per_day: Fraction) -> int:
    """The least whole number of servings a day that covers a rate."""
    return ceil(servings_per_day)
