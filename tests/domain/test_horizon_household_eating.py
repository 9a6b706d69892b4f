"""How fast a household eats: set, on record or unsaid; rates and targets as they are typed."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import pytest

from stockroom.domain.horizon.eating import FoodEating, Pace, steady
from stockroom.domain.horizon.household_eating import (
    Basis,
    Per,
    after_plan,
    eating_of_food,
    read_rate,
)
from stockroom.domain.horizon.past_eating import PastDraw
from stockroom.domain.horizon.store_target import read_target_days
from stockroom.errors import BadInput

TODAY = date(2026, 11, 25)


def back(days: int) -> date:
    return TODAY - timedelta(days=days)


def eaten(first_made_on: date | None, *draws: tuple[int, int]) -> tuple[Basis, Fraction | None]:
    past = [PastDraw(1, back(days), Fraction(servings)) for days, servings in draws]
    found = eating_of_food(1, None, past, first_made_on, TODAY, 365)
    return found.basis, found.servings_per_day


def test_the_record_is_a_year_at_most_and_begins_with_the_first_lot() -> None:
    assert eaten(back(1000), (10, 73), (400, 99)) == (Basis.RECORD, Fraction(1, 5))
    assert eaten(back(100), (10, 25)) == (Basis.RECORD, Fraction(1, 4))


@pytest.mark.parametrize(
    ("first_made_on", "draws"),
    [(None, ()), (back(1000), ()), (back(27), ((3, 9),)), (back(100), ((0, 9),))],
    ids=["never dried", "never eaten", "too short a record", "today alone"],
)
def test_nobody_said(first_made_on: date | None, draws: tuple[tuple[int, int], ...]) -> None:
    assert eaten(first_made_on, *draws) == (Basis.NOBODY, None)


def test_28_days_are_a_record() -> None:
    assert eaten(back(28), (3, 7)) == (Basis.RECORD, Fraction(1, 4))


def test_a_set_rate_goes_before_the_record() -> None:
    draws = [PastDraw(1, back(3), Fraction(9))]
    found = eating_of_food(1, Fraction(0), draws, back(100), TODAY, 365)
    assert (found.basis, found.servings_per_day) == (Basis.SET, 0)
    assert found.eating == steady(1, Fraction(0))


def test_until_its_last_planned_day_the_plan_stands_for_the_pace() -> None:
    two, three = Fraction(2), Fraction(3)
    eating = FoodEating(1, (Pace(back(9), two), Pace(TODAY + timedelta(days=30), three)))
    last = TODAY + timedelta(days=8)
    assert after_plan(eating, last) == FoodEating(
        1, (Pace(TODAY + timedelta(days=9), two), Pace(TODAY + timedelta(days=30), three))
    )
    late = TODAY + timedelta(days=29)
    assert after_plan(eating, late) == FoodEating(1, (Pace(late + timedelta(days=1), three),))
    assert after_plan(eating, None) == eating
    assert after_plan(None, last) is None


@pytest.mark.parametrize(
    ("typed", "per", "a_day"),
    [
        ("3", Per.WEEK, Fraction(3, 7)),
        ("1/2", Per.DAY, Fraction(1, 2)),
        ("146097", Per.YEAR, None),
        ("none", Per.DAY, Fraction(0)),
        ("0", Per.MONTH, Fraction(0)),
        ("-1", Per.DAY, None),
        ("1001", Per.DAY, None),
        ("often", Per.DAY, None),
    ],
)
def test_a_rate_as_it_is_typed(typed: str, per: Per, a_day: Fraction | None) -> None:
    if a_day is None:
        with pytest.raises(BadInput):
            read_rate(typed, per.days)
    else:
        assert read_rate(typed, per.days) == a_day


def test_twelve_months_are_a_year() -> None:
    """365.2425 days: the mean year of the Gregorian calendar."""
    assert 12 * Per.MONTH.days == Per.YEAR.days == Fraction("365.2425")


@pytest.mark.parametrize(
    ("typed", "days"),
    [
        ("14", 14),
        ("14 days", 14),
        ("1 day", 1),
        ("2 weeks", 14),
        ("6 months", 183),
        ("1 Year", 365),
        ("10 years", 3652),
    ],
)
def test_a_target_as_it_is_typed(typed: str, days: int) -> None:
    assert read_target_days(typed) == days


@pytest.mark.parametrize("typed", ["", "0", "weeks", "11 years", "-3", "1.5 years", "99999999"])
def test_a_target_that_is_none(typed: str) -> None:
    with pytest.raises(BadInput):
        read_target_days(typed)
