"""When each package is likely used, which pass their best-by unused, when each food runs out.

Planned uses are taken out first. The rest of a food is eaten at its pace in best-by order; what
is not eaten by its best-by is set aside and takes no appetite any more. By Jackson nothing passes
its best-by exactly when, for every best-by day, no more is due by then than is eaten by then; and
what passes in all is the largest amount by which that fails, so no other order saves more.

One sort and one pass: n log n for n packages. A best-by is a quality estimate, not safety.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction
from typing import NamedTuple

from stockroom.domain.horizon.eating import Curve, FoodEating
from stockroom.domain.horizon.planned import PlannedUse, Setting, Unserved
from stockroom.domain.horizon.shelves import Frame, Shelf, shelves_of
from stockroom.domain.horizon.stock import NONE, StockPackage


class Fate(StrEnum):
    """What becomes of a package."""

    USED = "used in time"
    PARTLY = "partly used in time"
    UNUSED = "passes its best-by unused"
    LEFT = "left at the end"
    """Of the forecast; its best-by is later still."""
    PAST = "past its best-by already"


class PackageForecast(NamedTuple):
    """What becomes of one package: the days it is eaten from, and what passes its best-by.

    The days are those of its first and its last use, planned ones among them; None: never.
    """

    package: StockPackage
    fate: Fate
    from_day: date | None
    to_day: date | None
    unused_servings: Fraction
    """What passes its best-by within the forecast; of a package that is past, all of it."""


@dataclass(frozen=True, slots=True)
class Shortfall:
    """The first best-by day by which too little is eaten, and by how much."""

    food_id: int
    best_by: date
    servings: Fraction
    package: StockPackage
    """The first package that is not finished by then."""


@dataclass(frozen=True, slots=True)
class FoodForecast:
    """The forecast of one food; its packages in best-by order."""

    food_id: int
    packages: tuple[PackageForecast, ...]
    last_day: date | None
    """The last day anything is eaten; None: nothing ever is."""
    lasts: bool
    """Something that is still in time is left at the end of the forecast."""
    unused_servings: Fraction
    """What passes its best-by in the forecast, without what is past already."""
    past_servings: Fraction
    shortfall: Shortfall | None
    unserved: tuple[Unserved, ...]

    @property
    def runs_out_on(self) -> date | None:
        """The last day there is any to eat in time; None where some is left at the end."""
        return None if self.lasts else self.last_day


@dataclass(frozen=True, slots=True)
class Forecast:
    """The forecast of every food, by its number in the store."""

    from_day: date
    days: int
    count_best_by_day: bool
    foods: tuple[FoodForecast, ...]

    @property
    def feasible(self) -> bool:
        """Nothing passes its best-by and every planned use is served."""
        return self.first_shortfall is None and not any(food.unserved for food in self.foods)

    @property
    def first_shortfall(self) -> Shortfall | None:
        """The earliest best-by day, of any food, by which too little is eaten."""
        found = [food.shortfall for food in self.foods if food.shortfall is not None]
        return min(found, key=lambda one: (one.best_by, one.food_id), default=None)

    @property
    def unused_servings(self) -> Fraction:
        """What passes its best-by, all foods together."""
        return sum((food.unused_servings for food in self.foods), NONE)


def forecast(
    packages: Iterable[StockPackage],
    eating: Iterable[FoodEating],
    from_day: date,
    *,
    days: int,
    planned: Iterable[PlannedUse] = (),
    count_best_by_day: bool = False,
) -> Forecast:
    """The forecast for so many days from `from_day` on.

    The pace of a food is what is eaten beside its planned uses. A food without a pace is eaten
    only where that is planned. ValueError for a length below 1 or above 100 years, two paces for
    one food, or planned uses in the past.
    """
    frame = Frame(from_day, days, count_best_by_day)
    shelves = shelves_of(packages, eating, planned, frame)
    return Forecast(
        from_day, days, count_best_by_day, tuple(_food_forecast(one, frame) for one in shelves)
    )


def _food_forecast(shelf: Shelf, frame: Frame) -> FoodForecast:
    """One food, its packages in order."""
    begins = _eat(shelf.setting, shelf.curve)
    found = tuple(
        _package_forecast(package, shelf, at, begins, frame)
        for at, package in enumerate(shelf.packages)
    )
    past = sum((one.unused_servings for one in found if one.fate is Fate.PAST), NONE)
    return FoodForecast(
        shelf.food_id,
        found,
        max((one.to_day for one in found if one.to_day is not None), default=None),
        any(one.fate is Fate.LEFT for one in found),
        sum((one.unused_servings for one in found if one.unused_servings), NONE) - past,
        past,
        _shortfall(shelf.food_id, found),
        shelf.unserved,
    )


def _eat(setting: Setting, curve: Curve) -> list[int]:
    """Go through the packages once; what is not eaten by its best-by is set aside.

    Takes what is eaten out of the setting; returns where each package begins, in parts of the
    food eaten before it. What is eaten of it begins there.
    """
    begins: list[int] = []
    so_far = 0
    for at, (left, days) in enumerate(zip(setting.left, setting.days, strict=True)):
        begins.append(so_far)
        # In best-by order, so no more was eaten so far than there is appetite for by this day.
        so_far = min(so_far + left, curve.eaten_in(days))
        setting.left[at] = left - (so_far - begins[at])
    begins.append(so_far)
    return begins


def _package_forecast(
    package: StockPackage, shelf: Shelf, at: int, begins: Sequence[int], frame: Frame
) -> PackageForecast:
    """What becomes of one package."""
    setting, curve = shelf.setting, shelf.curve
    first, last = setting.first_use[at], setting.last_use[at]
    if begins[at] < begins[at + 1]:
        start, end = curve.day_of(begins[at]), curve.day_of(begins[at + 1] - 1)
        first = start if first is None or start < first else first
        last = end if last is None or end > last else last
    from_day, to_day = frame.day(first), frame.day(last)
    left = setting.left[at]
    if not left:
        return PackageForecast(package, Fate.USED, from_day, to_day, NONE)
    fate = _fate(setting.days[at], first, frame)
    unused = NONE if fate is Fate.LEFT else Fraction(left, setting.parts)
    return PackageForecast(package, fate, from_day, to_day, unused)


def _fate(days: int, first: int | None, frame: Frame) -> Fate:
    """What becomes of a package that is not finished in time."""
    if days <= 0:
        return Fate.PAST
    if days > frame.days:
        return Fate.LEFT
    return Fate.UNUSED if first is None else Fate.PARTLY


def _shortfall(food_id: int, found: Sequence[PackageForecast]) -> Shortfall | None:
    """The first best-by day that comes with something left, and all that is left then."""
    short = [one for one in found if one.fate in (Fate.UNUSED, Fate.PARTLY)]
    if not short:
        return None
    first = short[0].package
    same_day = (one.unused_servings for one in short if one.package.best_by == first.best_by)
    return Shortfall(food_id, first.best_by, sum(same_day, NONE), first)
