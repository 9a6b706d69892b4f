"""The stock through the months of a forecast, against eating day by day and sums by hand."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from fractions import Fraction

import pytest

from stockroom.domain.calendar import add_months
from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.stock_ahead import GroupAhead, StockThen, stock_ahead
from stockroom.services.eating_rates import set_rate
from stockroom.services.horizon import horizon
from tests.horizon_store import CHECK_STOCK, stock
from tests.world import APPLE, PEAS, TODAY, World


def ahead(world: World, a_day: int, packages: Sequence[tuple[int, int]]) -> list[GroupAhead]:
    """The stock of peas eaten so many a day."""
    stock(world, packages)
    set_rate(world.room, PEAS, Fraction(a_day))
    return list(stock_ahead(horizon(world.room, months=4, advise=False)))


def by_day(a_day: int, packages: Sequence[tuple[int, int]], day: int) -> tuple[int, int]:
    """What is in time at the start of a day, and what of it passes: a day at a time."""
    left = sorted(([days, servings] for servings, days in packages), key=lambda one: one[0])
    then: list[list[int]] = []
    for number in range(200):
        left = [one for one in left if one[0] > number or one[1] == 0]
        if number == day:
            then = [list(one) for one in left]
        appetite = a_day
        for one in left:
            taken = min(one[1], appetite)
            one[1] -= taken
            appetite -= taken
            if number >= day:
                match = next(each for each in then if each[0] == one[0])
                match[1:] = [match[1], (match[2] if len(match) > 2 else 0) + taken]
    servings = sum(one[1] for one in then)
    eaten_later = sum(one[2] for one in then if len(one) > 2)
    return servings, servings - eaten_later


@pytest.mark.parametrize("a_day", [1, 2, 3])
@pytest.mark.parametrize("packages", [CHECK_STOCK, ((12, 40), (66, 70), (18, 110))])
def test_each_month_holds_what_eating_day_by_day_leaves(
    world: World, a_day: int, packages: tuple[tuple[int, int], ...]
) -> None:
    every, vegetables = ahead(world, a_day, packages)
    assert every.group is None and every.months == vegetables.months
    days = [add_months(TODAY, number) for number in range(5)]
    assert [then.on_day for then in every.months] == days
    for then in every.months:
        servings, lost = by_day(a_day, packages, (then.on_day - TODAY).days)
        # A package that is begun or finished within a day may be off by part of that day's food.
        assert abs(then.servings - servings) <= a_day
        assert (then.at_risk, then.unsaid) == (lost, 0)


def test_sums_by_hand(world: World) -> None:
    """At one a day 6 of the second pass on day 30, which is 25 December; 24 are left then."""
    every, _ = ahead(world, 1, CHECK_STOCK)
    today, after_one, after_two, *_ = every.months
    assert (today.servings, today.at_risk) == (60, 6)
    assert after_one == StockThen(
        TODAY + timedelta(days=30), Fraction(24), Fraction(0), Fraction(0)
    )
    assert after_two.servings == 0


def test_what_outlasts_the_forecast_goes_at_its_pace(world: World) -> None:
    every, _ = ahead(world, 1, [(300, 900)])
    gone = [300 - then.servings for then in every.months]
    assert gone == [(then.on_day - TODAY).days for then in every.months]
    assert all(then.at_risk == 0 for then in every.months)


def test_of_what_nobody_spoke_no_waste_is_told_and_groups_stay_apart(world: World) -> None:
    stock(world, [(10, 20)])
    stock(world, [(7, 300)], food=APPLE)
    set_rate(world.room, PEAS, Fraction(0))
    found = {one.group: one for one in stock_ahead(horizon(world.room, months=2, advise=False))}
    fruit = found[FoodGroup.FRUIT].months
    assert [(one.servings, one.at_risk, one.unsaid) for one in fruit] == [(7, 0, 7)] * 3
    every = found[None].months
    assert [(one.servings, one.at_risk, one.unsaid) for one in every] == [
        (17, 10, 7),
        (7, 0, 7),
        (7, 0, 7),
    ]


def test_nothing_on_the_shelves(world: World) -> None:
    (every,) = stock_ahead(horizon(world.room, months=1, advise=False))
    assert [one.servings for one in every.months] == [0, 0]
