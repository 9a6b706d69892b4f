"""What would save food: what each thing saves, worked out by hand, and how they are ranked."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.horizon.advice import (
    Advice,
    AdviceKind,
    FoodCase,
    best_of,
    cook_it,
    eat_more,
    give_away,
    keep_longer,
    ranked,
)
from stockroom.domain.horizon.eating import steady
from stockroom.domain.horizon.eating_rate import Due, least_rate
from stockroom.domain.horizon.forecast import forecast
from stockroom.domain.horizon.stock import StockPackage
from tests.domain.horizon_cases import START, day, package, rates, shelves


def case(
    packages: list[StockPackage], a_day: Fraction | int, *, serving_dg: int = 100, days: int = 180
) -> FoodCase:
    """One food eaten at a steady rate."""
    eating = steady(1, Fraction(a_day))
    found = forecast(packages, [eating], START, days=days)
    (now,) = found.foods
    return FoodCase(
        1, "peas", serving_dg, tuple(packages), eating, (), START, days, now
    )  # fmt: skip


STOCK = [package(1, 10, 6), package(2, 30, 30), package(3, 60, 24)]
"""Eaten one a day: 30 of the 36 due by day 30 are eaten then, so six of package 2 pass."""


def test_eating_at_the_least_rate_saves_all() -> None:
    told = eat_more(case(STOCK, 1))
    assert (told.saved_servings, told.saved_dg) == (6, 600)
    assert (told.words, told.before) == ("eat 6 every 5 days from now on", day(30))
    assert told.servings_per_day == Fraction(6, 5)


def test_a_dish_is_cooked_as_often_as_it_takes() -> None:
    """Six servings too many: two dishes of four take them, one of them leaves two."""
    told = cook_it(case(STOCK, 1), "Pea soup", Fraction(4))
    assert told is not None and told.saved_servings == 6
    assert told.words == "put on the menu twice: Pea soup"
    near = [package(1, 1, 10)]
    told = cook_it(case(near, 1), "Pea soup", Fraction(4))
    # Best by tomorrow there is one day to cook on: 4 of the 9 that would pass.
    assert told is not None and (told.saved_servings, "once" in told.words) == (4, True)


def test_nothing_is_cooked_where_nothing_is_lost() -> None:
    assert cook_it(case(STOCK, 2), "Pea soup", Fraction(4)) is None


def test_a_longer_life_saves_what_is_then_eaten_or_still_good() -> None:
    """Package 2 kept until day 40: 30 days, 24 due by 60 after it; 54 by day 60 at one a day."""
    told = keep_longer(case(STOCK, 1), AdviceKind.MOVE, "move", {2: day(40)}, place="cellar")
    assert (told.saved_servings, told.codes, told.before) == (6, (STOCK[1].code,), day(30))
    # Until day 33 alone, 33 of the 36 are eaten.
    assert keep_longer(case(STOCK, 1), AdviceKind.MOVE, "", {2: day(33)}).saved_servings == 3


def test_only_whole_unopened_packages_are_given_away() -> None:
    assert give_away(case(STOCK, 1)) is None
    told = give_away(case(STOCK, 0))
    assert told is not None and (told.saved_servings, len(told.codes)) == (60, 3)
    assert told.before == day(10)
    opened = [package(1, 10, 6, opened=True)]
    assert give_away(case(opened, 0)) is None


def test_the_most_fresh_weight_goes_first_and_then_the_least_work() -> None:
    def one(kind: AdviceKind, saved: int, serving_dg: int, food: str = "peas") -> Advice:
        return Advice(kind, 1, food, serving_dg, Fraction(saved), "")

    small, large = one(AdviceKind.EAT, 9, 100), one(AdviceKind.MOVE, 2, 1000)
    nothing, give = one(AdviceKind.EAT, 0, 100), one(AdviceKind.GIVE, 2, 1000)
    assert ranked([small, give, nothing, large]) == (large, give, small)
    assert best_of([small, large, nothing]) == small
    assert best_of([nothing]) is None


@given(packages=shelves(), a_day=rates)
def test_no_advice_saves_more_than_is_lost(packages: list[StockPackage], a_day: Fraction) -> None:
    if not packages:
        return
    now = case(packages, a_day, days=60)
    longer = {one.package_id: day(100) for one in packages}
    least = least_rate((Due(one.servings, one.best_by) for one in packages), START)
    told = [
        keep_longer(now, AdviceKind.MOVE, "", longer),
        give_away(now),
        cook_it(now, "Pea soup", Fraction(3)),
    ]
    for one in told:
        if one is not None:
            assert 0 <= one.saved_servings <= now.unused_servings
    faster = steady(1, least.servings_per_day)
    assert forecast(packages, [faster], START, days=60).unused_servings == 0


@given(servings=st.integers(1, 40), of=st.integers(1, 9))
def test_cooking_never_costs_more_than_it_saves(servings: int, of: int) -> None:
    """Each cooking takes `of`: as many as cover the loss, no more of them than there are days."""
    told = cook_it(case([package(1, 20, servings)], 0), "Pea soup", Fraction(of))
    assert told is not None
    assert told.saved_servings == min(servings, 20 * of)
