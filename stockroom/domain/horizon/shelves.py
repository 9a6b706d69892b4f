"""The packages of each food in best-by order, with the planned uses taken out of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from itertools import groupby
from operator import attrgetter
from typing import NamedTuple

from stockroom.domain.horizon.eating import Curve, FoodEating, curve_of, rates_of
from stockroom.domain.horizon.planned import PlannedUse, Setting, Unserved, set_out, take_planned
from stockroom.domain.horizon.stock import StockPackage, common_parts

LONGEST_DAYS = 36_525
"""A hundred years: nothing here keeps as long."""


class Frame(NamedTuple):
    """What holds for every food of a forecast."""

    from_day: date
    days: int
    count_best_by_day: bool

    def day(self, number: int | None) -> date | None:
        """The day of the calendar; None stays None."""
        return None if number is None else date.fromordinal(self.from_day.toordinal() + number)


class Shelf(NamedTuple):
    """One food: its packages in order, what is left in them for free eating, and its pace."""

    food_id: int
    packages: tuple[StockPackage, ...]
    setting: Setting
    curve: Curve
    eating: FoodEating | None
    unserved: tuple[Unserved, ...]


def shelves_of(
    packages: Iterable[StockPackage],
    eating: Iterable[FoodEating],
    planned: Iterable[PlannedUse],
    frame: Frame,
) -> tuple[Shelf, ...]:
    """Every food that has a package or a planned use, by its number in the store.

    ValueError for a length below 1 or above 100 years, two paces for one food, or planned uses in
    the past or of nothing.
    """
    if not 1 <= frame.days <= LONGEST_DAYS:
        raise ValueError(f"a forecast of {frame.days} days")
    paces = _by_food(eating)
    uses: dict[int, list[PlannedUse]] = {}
    for use in planned:
        uses.setdefault(use.food_id, []).append(use)
    ordered = sorted(packages, key=attrgetter("food_id", "best_by", "made_on", "package_id"))
    stock = {food: tuple(some) for food, some in groupby(ordered, attrgetter("food_id"))}
    return tuple(
        _shelf(food, stock.get(food, ()), paces.get(food), uses.get(food, ()), frame)
        for food in sorted({*stock, *uses})
    )


def _by_food(eating: Iterable[FoodEating]) -> dict[int, FoodEating]:
    """The pace of each food. ValueError for a second one of a food."""
    found: dict[int, FoodEating] = {}
    for one in eating:
        if one.food_id in found:
            raise ValueError(f"two paces for food {one.food_id}")
        found[one.food_id] = one
    return found


def _shelf(
    food_id: int,
    packages: tuple[StockPackage, ...],
    eating: FoodEating | None,
    uses: Sequence[PlannedUse],
    frame: Frame,
) -> Shelf:
    """One food, its planned uses taken out."""
    amounts = (one.servings for one in packages)
    parts = common_parts((*amounts, *rates_of(eating), *(use.servings for use in uses)))
    setting = set_out(packages, frame.from_day, parts, count_best_by_day=frame.count_best_by_day)
    unserved = take_planned(packages, setting, uses, frame.from_day)
    curve = curve_of(eating, frame.from_day, frame.days, parts)
    return Shelf(food_id, packages, setting, curve, eating, unserved)
