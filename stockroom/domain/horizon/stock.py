"""A package as the horizon sees it, and the one order in which packages come up.

The order is best-by, then day made, then number in the store. A best-by is a quality estimate, not
safety. Days are counted from today: a package best by 10 days on has 10 days to be eaten in, or
11 where its best-by day counts too (engineering judgement: it does not unless asked for).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import lcm

NONE = Fraction(0)
"""No servings."""


@dataclass(frozen=True, slots=True)
class StockPackage:
    """One package with what is left in it. `low` and `high` are the band of its best-by."""

    package_id: int
    food_id: int
    made_on: date
    best_by: date
    servings: Fraction
    code: str = ""
    packed_in: str = ""
    """What holds it, in words: "foil pouch"."""
    opened: bool = False
    low: date | None = None
    high: date | None = None


def earliest_best_by_first(packages: Iterable[StockPackage]) -> tuple[StockPackage, ...]:
    """By best-by, then day made, then number in the store."""
    return tuple(sorted(packages, key=lambda one: (one.best_by, one.made_on, one.package_id)))


def first_in_first_out(packages: Iterable[StockPackage]) -> tuple[StockPackage, ...]:
    """Opened before unopened; then by day made, best-by and number in the store."""
    return tuple(
        sorted(
            packages,
            key=lambda one: (not one.opened, one.made_on, one.best_by, one.package_id),
        )
    )


def days_to_eat(from_day: date, best_by: date, *, count_best_by_day: bool = False) -> int:
    """Whole days from `from_day` on in which eating is in time; none or fewer: it is past."""
    return (best_by - from_day).days + count_best_by_day


def common_parts(amounts: Iterable[Fraction]) -> int:
    """Into how many equal parts a serving is cut so that every amount is a whole number of them."""
    return lcm(*{one.denominator for one in amounts})


def in_parts(amount: Fraction, parts: int) -> int:
    """An amount in such parts, exactly; `parts` is one that `common_parts` gave for it."""
    return amount.numerator * (parts // amount.denominator)
