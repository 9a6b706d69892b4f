"""The forecast against a plain simulation, day by day, and the law of what must be wasted."""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from stockroom.domain.horizon.eating import FoodEating, Pace, steady
from stockroom.domain.horizon.eating_rate import Due, least_rate
from stockroom.domain.horizon.forecast import Fate, FoodForecast, PackageForecast, forecast
from stockroom.domain.horizon.planned import PlannedUse
from stockroom.domain.horizon.stock import StockPackage
from tests.domain.horizon_cases import START, amounts, day, package, rates, shelves

DAYS = 30


def one_food(
    shelf: list[StockPackage],
    a_day: Fraction | int,
    *planned: PlannedUse,
    days: int = DAYS,
    count: bool = False,
) -> FoodForecast:
    """The forecast of the only food."""
    (found,) = forecast(
        shelf, [steady(1, Fraction(a_day))], START, days=days, planned=planned,
        count_best_by_day=count,
    ).foods  # fmt: skip
    return found


def told(found: FoodForecast) -> list[tuple[int, str, int | None, int | None, Fraction]]:
    """Number, fate, first and last day from the start, and what passes."""
    return [
        (
            one.package.package_id,
            one.fate.name,
            None if one.from_day is None else (one.from_day - START).days,
            None if one.to_day is None else (one.to_day - START).days,
            one.unused_servings,
        )
        for one in found.packages
    ]


def test_a_shelf_by_hand() -> None:
    # Two a day. 1 is past. 2 (10 servings, 4 days) gives 8 and loses 2; 3 (3 servings, 6 days)
    # is eaten on days 4 and 5, when 1 of 4 is eaten too; 4 (9 servings) to day 9.
    shelf = [package(4, 25, 9), package(3, 6, 3), package(2, 4, 10), package(1, 0, 7)]
    found = one_food(shelf, 2)
    assert told(found) == [
        (1, "PAST", None, None, 7),
        (2, "PARTLY", 0, 3, 2),
        (3, "USED", 4, 5, 0),
        (4, "USED", 5, 9, 0),
    ]
    assert (found.past_servings, found.unused_servings) == (7, 2)
    assert found.shortfall is not None
    assert (found.shortfall.best_by, found.shortfall.servings) == (day(4), 2)
    assert found.shortfall.package.package_id == 2
    assert found.runs_out_on == found.last_day == day(9)


def test_the_best_by_day_may_count() -> None:
    assert told(one_food([package(1, 4, 10)], 2, count=True)) == [(1, "USED", 0, 4, 0)]
    assert told(one_food([package(1, 0, 1)], 2, count=True)) == [(1, "USED", 0, 0, 0)]


def test_what_keeps_past_the_end_is_left() -> None:
    found = one_food([package(1, 10, 10), package(2, 400, 60), package(3, 500, 5)], 2)
    assert told(found) == [
        (1, "USED", 0, 4, 0), (2, "LEFT", 5, 29, 0), (3, "LEFT", None, None, 0),
    ]  # fmt: skip
    assert found.lasts and found.runs_out_on is None and found.last_day == day(29)
    assert found.shortfall is None


def test_the_first_shortfall_of_all_foods_is_named() -> None:
    shelf = [package(1, 20, 50, food=1), package(2, 8, 30, food=2), package(3, 8, 4, food=2)]
    found = forecast(shelf, [steady(1, Fraction(2)), steady(2, Fraction(3))], START, days=DAYS)
    assert not found.feasible
    short = found.first_shortfall
    assert short is not None
    # 34 of food 2 are due by day 8, when 24 are eaten.
    assert (short.food_id, short.best_by, short.servings) == (2, day(8), 10)
    assert found.unused_servings == 20
    assert forecast([], [], START, days=1).feasible


def test_food_without_a_pace_is_not_eaten() -> None:
    shelf = [package(1, 5, 2)]
    (found,) = forecast(shelf, [], START, days=DAYS).foods
    assert told(found) == [(1, "UNUSED", None, None, 2)]
    assert found.last_day is None and found.runs_out_on is None


def test_a_pace_may_change_and_rest() -> None:
    eating = FoodEating(
        1, (Pace(day(-5), Fraction(1)), Pace(day(3), Fraction(0)), Pace(day(10), Fraction(4)))
    )
    (found,) = forecast([package(1, 20, 3), package(2, 20, 6)], [eating], START, days=DAYS).foods
    assert told(found) == [(1, "USED", 0, 2, 0), (2, "USED", 10, 11, 0)]


def test_planned_uses_are_taken_out_first() -> None:
    # The named package serves its use; the other use, on day 9, needs what still keeps then.
    shelf = [package(1, 8, 6), package(2, 12, 6), package(3, 20, 6)]
    named = PlannedUse(1, day(5), Fraction(4), package_id=3)
    late = PlannedUse(1, day(9), Fraction(7))
    found = one_food(shelf, Fraction(3, 2), named, late)
    assert told(found) == [
        (1, "USED", 0, 3, 0), (2, "USED", 9, 9, 0), (3, "USED", 4, 9, 0),
    ]  # fmt: skip
    assert found.unserved == ()


def test_what_cannot_be_served_is_told() -> None:
    shelf = [package(1, 8, 6), package(2, 12, 6)]
    asked = (
        PlannedUse(1, day(9), Fraction(7)),
        PlannedUse(1, day(2), Fraction(1), package_id=77),
        PlannedUse(1, day(20), Fraction(1)),
        PlannedUse(4, day(1), Fraction(2)),
    )
    found = forecast(shelf, [], START, days=DAYS, planned=asked)
    assert not found.feasible
    missing = [(one.use, one.missing_servings) for food in found.foods for one in food.unserved]
    assert missing == [(asked[1], 1), (asked[0], 1), (asked[2], 1), (asked[3], 2)]


def test_a_named_package_serves_even_past_its_best_by() -> None:
    use = PlannedUse(1, day(2), Fraction(1), package_id=1)
    found = one_food([package(1, -4, 3)], 1, use)
    assert told(found) == [(1, "PAST", 2, 2, 2)]


@pytest.mark.parametrize("days", [0, 40_000])
def test_a_length_that_is_none(days: int) -> None:
    with pytest.raises(ValueError, match="a forecast of"):
        forecast([], [], START, days=days)


def test_faults_of_the_caller_are_told() -> None:
    with pytest.raises(ValueError, match="two paces for food 1"):
        forecast([], [steady(1, Fraction(1))] * 2, START, days=1)
    with pytest.raises(ValueError, match="below nought"):
        steady(1, Fraction(-1))
    with pytest.raises(ValueError, match="out of order"):
        FoodEating(1, (Pace(day(2), Fraction(1)), Pace(day(2), Fraction(2))))
    for use in (PlannedUse(1, day(-1), Fraction(1)), PlannedUse(1, day(1), Fraction(0))):
        with pytest.raises(ValueError, match="a planned use"):
            forecast([], [], START, days=5, planned=[use])


def simulated(
    shelf: list[StockPackage], eating: FoodEating
) -> dict[int, tuple[int | None, int | None, Fraction]]:
    """First day, last day and what is left of each package, eaten day by day, a serving at most."""
    order = sorted(shelf, key=lambda one: (one.best_by, one.made_on, one.package_id))
    left = {one.package_id: one.servings for one in order}
    first: dict[int, int] = {}
    last: dict[int, int] = {}
    for number in range(DAYS):
        today = START + timedelta(days=number)
        appetite = Fraction(0)
        for pace in eating.paces:
            appetite = pace.servings_per_day if pace.from_day <= today else appetite
        for one in order:
            eaten = min(appetite, left[one.package_id]) if one.best_by > today else Fraction(0)
            if eaten:
                left[one.package_id] -= eaten
                appetite -= eaten
                first.setdefault(one.package_id, number)
                last[one.package_id] = number
    return {key: (first.get(key), last.get(key), rest) for key, rest in left.items()}


paces = st.lists(st.tuples(st.integers(-5, 35), rates), max_size=4, unique_by=lambda one: one[0])


@given(shelves(), paces)
def test_the_forecast_is_what_a_plain_simulation_does(
    shelf: list[StockPackage], changes: list[tuple[int, Fraction]]
) -> None:
    eating = FoodEating(1, tuple(Pace(day(number), rate) for number, rate in sorted(changes)))
    found = forecast(shelf, [eating], START, days=DAYS)
    if not shelf:
        assert found.foods == ()
        return
    plain = simulated(shelf, eating)
    for one in found.foods[0].packages:
        first, last, rest = plain[one.package.package_id]
        assert one.from_day == (None if first is None else day(first))
        assert one.to_day == (None if last is None else day(last))
        assert one.fate is _fate(one, rest)
        assert one.unused_servings == (0 if one.fate is Fate.LEFT else rest)


def _fate(one: PackageForecast, rest: Fraction) -> Fate:
    """What the simulation's rest means."""
    days = (one.package.best_by - START).days
    if not rest:
        return Fate.USED
    if days <= 0:
        return Fate.PAST
    if days > DAYS:
        return Fate.LEFT
    return Fate.UNUSED if one.from_day is None else Fate.PARTLY


@given(shelves(), rates)
def test_what_passes_is_the_largest_lag_of_eating(
    shelf: list[StockPackage], a_day: Fraction
) -> None:
    # Jackson: nothing passes exactly when by every best-by day no more is due than is eaten; and
    # no order loses less than the largest amount by which that fails.
    live = [one for one in shelf if 0 < (one.best_by - START).days <= DAYS]
    lags = [
        sum((one.servings for one in live if one.best_by <= last.best_by), Fraction(0))
        - a_day * (last.best_by - START).days
        for last in live
    ]
    found = forecast(shelf, [steady(1, a_day)], START, days=DAYS)
    assert found.unused_servings == max([*lags, Fraction(0)])
    assert found.feasible == (found.unused_servings == 0)
    short = found.first_shortfall
    if short is not None:
        over = {one.best_by: lag for one, lag in zip(live, lags, strict=True) if lag > 0}
        assert (short.best_by, short.servings) == min(over.items())


@given(shelves())
def test_at_the_least_rate_nothing_passes(shelf: list[StockPackage]) -> None:
    rate = least_rate([Due(one.servings, one.best_by) for one in shelf], START)
    long = 60
    enough = forecast(shelf, [steady(1, rate.servings_per_day)], START, days=long)
    assert enough.feasible and not any(food.lasts for food in enough.foods)
    if rate.servings_per_day:
        less = steady(1, rate.servings_per_day * Fraction(99, 100))
        assert not forecast(shelf, [less], START, days=long).feasible


uses = st.lists(st.tuples(st.integers(0, 35), st.fractions(Fraction(1, 4), 9)), max_size=5)


@given(shelves(most=6), uses, rates)
def test_planned_uses_get_all_that_can_be_had(
    shelf: list[StockPackage], asked: list[tuple[int, Fraction]], a_day: Fraction
) -> None:
    planned = [PlannedUse(1, day(number), servings) for number, servings in asked]
    found = forecast(shelf, [steady(1, a_day)], START, days=40, planned=planned)
    missing = sum(
        (one.missing_servings for food in found.foods for one in food.unserved), Fraction(0)
    )
    wanted = sum((use.servings for use in planned), Fraction(0))
    assert float(wanted - missing) == pytest.approx(_most_served(shelf, planned), abs=1e-6)
    for food in found.foods:
        for one in food.packages:
            assert 0 <= one.unused_servings <= one.package.servings


def _most_served(shelf: list[StockPackage], planned: list[PlannedUse]) -> float:
    """The most that planned uses can get in time, by a linear programme."""
    pairs = [
        (at, use)
        for at, one in enumerate(shelf)
        for use in range(len(planned))
        if one.best_by > planned[use].on_day
    ]
    if not pairs:
        return 0.0
    rows = [[float(pair[0] == at) for pair in pairs] for at in range(len(shelf))]
    rows += [[float(pair[1] == use) for pair in pairs] for use in range(len(planned))]
    room = [*(one.servings for one in shelf), *(use.servings for use in planned)]
    found = linprog(-np.ones(len(pairs)), A_ub=np.array(rows), b_ub=[float(one) for one in room])
    assert found.success
    return -float(found.fun)


@given(shelves(foods=3), st.lists(rates, min_size=3, max_size=3))
def test_foods_do_not_touch_each_other(shelf: list[StockPackage], a_day: list[Fraction]) -> None:
    eating = [steady(food, rate) for food, rate in enumerate(a_day, start=1)]
    together = forecast(shelf, eating, START, days=DAYS).foods
    apart = tuple(
        forecast([one for one in shelf if one.food_id == food], eating, START, days=DAYS).foods[0]
        for food in sorted({one.food_id for one in shelf})
    )
    assert together == apart


@given(amounts, st.integers(1, 29))
def test_a_single_package_runs_out_on_its_last_day(servings: Fraction, best: int) -> None:
    found = one_food([package(1, best, servings)], 1)
    eaten = min(servings, Fraction(best))
    last = -((-eaten) // 1) - 1
    assert found.last_day == (day(int(last)) if servings else None)
