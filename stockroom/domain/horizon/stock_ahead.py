"""The stock of each food group through the months of a forecast, with the part that will pass.

A package is taken to be eaten evenly from the first to the last day of its use; one that is still
being eaten at the end of the forecast, at the pace of its food (`EATEN_EVENLY`).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.domain.calendar import add_months
from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.forecast import Fate, PackageForecast
from stockroom.domain.horizon.pages import FoodHorizon, HorizonPage
from stockroom.domain.horizon.stock import NONE
from stockroom.domain.working import Source, Standing

EATEN_EVENLY = Source(
    "eaten-evenly",
    "Between the first and the last day of its use a package is taken to be eaten evenly",
    Standing.ENGINEERING_JUDGEMENT,
)


@dataclass(frozen=True, slots=True)
class StockThen:
    """What is in time at the start of a day, in servings."""

    on_day: date
    servings: Fraction
    at_risk: Fraction
    """The part of them that passes its best-by unused, if it is eaten as said."""
    unsaid: Fraction
    """The part of them of which nobody said how it is eaten: nothing is told of its waste."""


@dataclass(frozen=True, slots=True)
class GroupAhead:
    """A food group through the months; without a group it is all of them together."""

    group: FoodGroup | None
    months: tuple[StockThen, ...]


def stock_ahead(page: HorizonPage) -> tuple[GroupAhead, ...]:
    """All foods together, then each group there is any of, month by month from today on."""
    days = tuple(_month_days(page))
    groups = [group for group in FoodGroup if any(one.food.group is group for one in page.foods)]
    wanted: tuple[FoodGroup | None, ...] = (None, *groups)
    return tuple(
        GroupAhead(group, tuple(_then(page, group, day) for day in days)) for group in wanted
    )


def _month_days(page: HorizonPage) -> Iterator[date]:
    """Today and the same day of each month, as far as the forecast goes."""
    number, day = 0, page.today
    while day <= page.until:
        yield day
        number += 1
        day = add_months(page.today, number)


def _then(page: HorizonPage, group: FoodGroup | None, day: date) -> StockThen:
    """The stock of a group at the start of a day."""
    servings = at_risk = unsaid = NONE
    for food in page.foods:
        if group is not None and food.food.group is not group:
            continue
        for one in food.in_time:
            if one.package.best_by <= day:
                continue
            left = one.package.servings - _eaten_before(food, one, day, page.until)
            servings += left
            if food.known:
                at_risk += one.unused_servings
            else:
                unsaid += left
    return StockThen(day, servings, at_risk, unsaid)


def _eaten_before(food: FoodHorizon, one: PackageForecast, day: date, until: date) -> Fraction:
    """What is eaten of a package before a day (`EATEN_EVENLY`)."""
    if one.from_day is None or one.to_day is None or day <= one.from_day:
        return NONE
    if one.fate is Fate.LEFT:
        pace = food.how.servings_per_day or NONE
        return min(one.package.servings, pace * (min(day, until) - one.from_day).days)
    days = (one.to_day - one.from_day).days + 1
    gone = min((day - one.from_day).days, days)
    return (one.package.servings - one.unused_servings) * Fraction(gone, days)
