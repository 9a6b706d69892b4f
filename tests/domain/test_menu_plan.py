"""What a plan takes from the shelf, and what the account says of it, on questions told by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.menu.checker import check
from stockroom.domain.menu.choices import choices
from stockroom.domain.menu.draft import taken_by_group
from stockroom.domain.menu.plans import proof
from stockroom.domain.menu.quick import FixedBeyondStock, quick_plan
from stockroom.domain.menu.reading import read_plan
from stockroom.domain.menu.records import (
    Concession,
    Day,
    Dislike,
    Eaten,
    Locked,
    Question,
    Wish,
)
from stockroom.domain.menu.relax import words_for
from stockroom.domain.menu.shelf import shelves
from tests.domain.menu_questions import FOODS, FREE, day, days, dish, package, questions


def question(*packages, options=None, wishes=FREE, count=2, locked=(), eaten=()) -> Question:
    """A question about peas: 100 g of them a day unless told otherwise."""
    every = options or (dish(1, [(1, 1000)]),)
    return Question(days(count), FOODS, packages, every, wishes, locked, eaten)


def taken(asked: Question) -> list[tuple[int, str, int]]:
    """Day, package and amount of each taking of the quick plan."""
    plan = quick_plan(asked).plan
    assert check(asked, plan) == ()
    return [((each.on - day(0)).days, each.code, each.fresh_dg) for each in plan.takings]


def test_part_used_first_then_as_given() -> None:
    asked = question(
        package(1, 900, None), package(2, 700, None), package(3, 600, None, opened=True)
    )
    assert taken(asked) == [(0, "P3", 600), (0, "P1", 400), (1, "P1", 500), (1, "P2", 500)]


def test_food_at_risk_goes_before_older_food() -> None:
    asked = question(package(1, 900, None), package(2, 1100, 1))
    assert taken(asked) == [(0, "P2", 1000), (1, "P2", 100), (1, "P1", 900)]


def test_the_due_day_itself_may_be_used_and_no_later_one() -> None:
    asked = question(package(1, 1000, 0), package(2, 1000, 0), package(3, 1000, 1))
    assert taken(asked) == [(0, "P1", 1000), (1, "P3", 1000)]
    risk = {each.code: each.unused_dg for each in quick_plan(asked).plan.account.at_risk}
    assert risk == {"P1": 0, "P2": 1000, "P3": 0}


def test_food_past_its_due_day_is_planned_only_when_wished() -> None:
    asked = question(package(1, 1000, -1), package(2, 1000, None))
    plan = quick_plan(asked)
    assert not plan.fits
    assert [each.subject for each in plan.plan.account.findings] == ["P1"]
    wished = replace(asked, wishes=replace(FREE, past_due_may_be_eaten=True))
    assert taken(wished) == [(0, "P1", 1000), (1, "P2", 1000)]
    assert "best-by" in quick_plan(wished).plan.account.findings[0].words
    firm = replace(wished, packages=(replace(asked.packages[0], firm=True), asked.packages[1]))
    assert [each.code for each in quick_plan(firm).plan.takings] == ["P2"]


def test_reach_counts_food_due_after_the_plan() -> None:
    asked = question(package(1, 2000, 8), count=2)
    assert quick_plan(asked).plan.account.at_risk == ()
    far = replace(asked, wishes=replace(FREE, reach_days=7))
    account = quick_plan(far).plan.account
    assert (account.saved_dg, account.unsaved_dg, account.value) == (2000, 0, 2000)
    assert account.at_risk[0].used_kcal == 160


def test_food_left_open_counts_packages_open_before_too() -> None:
    asked = question(package(1, 300, None, opened=True, food_id=2), package(2, 2500, None), count=2)
    account = quick_plan(asked).plan.account
    assert [(each.code, each.fresh_dg) for each in account.left_open] == [("P2", 500), ("P1", 300)]


def test_locked_dishes_stay_whatever_speaks_against_them() -> None:
    options = (dish(1, [(1, 1000)]), dish(2, [(1, 500)], why_not="contains milk"))
    asked = question(package(1, 3000, None), options=options, locked=(Locked(day(1), 2, 4),))
    plan = quick_plan(asked).plan
    assert [each.name for each in plan.dishes] == ["dish 1", "dish 2"]
    assert [each.why for each in plan.account.excluded] == ["contains milk"]
    assert plan.account.findings[0].words == "dish 2 stays as fixed, although: contains milk."
    assert check(asked, plan) == ()


def test_locked_dishes_beyond_the_store_are_refused() -> None:
    asked = question(package(1, 900, None), locked=(Locked(day(1), 1, 4),))
    with pytest.raises(FixedBeyondStock, match="dish 1, fixed on 2026-12-02"):
        quick_plan(asked)


def test_a_dish_eaten_the_day_before_is_kept_apart() -> None:
    wishes = replace(FREE, apart_days=2)
    options = (dish(1, [(1, 1000)]), dish(2, []))
    asked = question(
        package(1, 9000, 1), options=options, wishes=wishes, eaten=(Eaten(1, day(-1)),)
    )
    assert [each.recipe_id for each in quick_plan(asked).plan.dishes] == [2, 1]


def test_unknown_energy_is_nought_and_said() -> None:
    asked = question(package(1, 9000, None), options=(dish(1, [(1, 100)], None),))
    account = quick_plan(asked).plan.account
    assert account.days[0].kcal == 0
    assert account.findings[0].words == "The energy of dish 1 is not known: counted as 0."


@pytest.mark.parametrize(
    ("option", "wishes", "why"),
    [
        (dish(1, [(1, 1000)], cooks=True), replace(FREE, cooking_dates=()), "no day is a cooking"),
        (dish(1, [(1, 9999)]), FREE, "not enough peas"),
        (dish(1, []), replace(FREE, dislikes=(Dislike(1, hard=True),)), "not liked"),
        (dish(1, []), replace(FREE, people=(6,)), "none of the helpings"),
    ],
)
def test_a_dish_that_fits_no_day_says_why(option, wishes, why) -> None:
    asked = question(package(1, 3000, None), options=(option,), wishes=wishes)
    assert why in quick_plan(asked).plan.account.excluded[0].why


@pytest.mark.parametrize(
    "change",
    [
        {"days": ()},
        {"days": (Day(day(1), 1, 1), Day(day(0), 1, 1))},
        {"days": (Day(day(0), -1, 1),)},
        {"foods": ()},
        {"packages": (package(1, 0, None),)},
        {"packages": (package(1, 5, None), package(1, 5, None))},
        {"options": (dish(1, [(9, 5)]),)},
        {"options": (dish(1, [(1, 0)]),)},
        {"options": (dish(1, [(1, 5), (1, 5)]),)},
        {"options": (dish(1, [(1, 5)], -1),)},
        {"locked": (Locked(day(7), 1, 4),)},
        {"locked": (Locked(day(0), 1, 5),)},
    ],
)
def test_a_question_whose_parts_do_not_fit_is_no_question(change) -> None:
    with pytest.raises(ValueError):
        replace(question(package(1, 900, None)), **change)


def test_a_plan_the_store_does_not_cover_is_not_read() -> None:
    asked = question(package(1, 1500, None))
    with pytest.raises(ValueError, match="short of 500"):
        read_plan(asked, choices(asked, shelves(asked)))


def test_the_gap_is_rounded_up_and_never_below_nought() -> None:
    assert proof(3000, 3001).gap_millionths == 334
    assert proof(3000, 2999).gap_millionths == 0
    assert proof(0, None).gap_millionths is None


def test_words_of_concessions() -> None:
    asked = question(package(1, 900, None), wishes=replace(FREE, apart_days=4))
    given_up = (
        Concession(Wish.ENERGY_LEAST, 240, day(0)),
        Concession(Wish.ENERGY_LEAST, 100, day(1)),
        Concession(Wish.APART, 2),
        Concession(Wish.COOKING_DAY, on=day(1)),
        Concession(Wish.DISLIKE, recipe_id=1),
    )
    assert words_for(asked, given_up) == (
        "Plan less energy on 2 days, by 12 % at most.",
        "Allow the same dish again after 2 days instead of 4.",
        "Cook on 2026-12-02 too.",
        "Allow dish 1, though not liked.",
    )


@given(questions())
@settings(max_examples=80, deadline=None)
def test_a_quick_plan_that_fits_is_sound(asked: Question) -> None:
    try:
        quick = quick_plan(asked)
    except FixedBeyondStock:
        return
    found = check(asked, quick.plan)
    assert quick.fits is (found == ())
    assert all("too few" in each.words for each in found)


@given(questions(), st.data())
@settings(max_examples=120, deadline=None)
def test_taking_by_group_is_what_taking_dish_by_dish_comes_to(asked: Question, data) -> None:
    """The closed form the model rests on against taking package by package, day by day."""
    shelf = shelves(asked)[data.draw(st.integers(1, 3))]
    used = [data.draw(st.integers(0, 12)) * 35 for _ in asked.days]
    left = [placed.package.fresh_dg for placed in shelf.placed]
    short = False
    for number, wanted in enumerate(used):
        for place, placed in enumerate(shelf.placed):
            if placed.last_day >= number:
                take = min(wanted, left[place])
                left[place] -= take
                wanted -= take
        short = short or wanted > 0
    found = taken_by_group(shelf, used)
    assert (found is None) is short
    if found is not None:
        stays = dict(zip((each.package.package_id for each in shelf.placed), left, strict=True))
        assert found == [
            group.fresh_dg - sum(stays[each.package.package_id] for each in group.placed)
            for group in shelf.groups
        ]
