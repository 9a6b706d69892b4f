"""The checker finds what is planted: each fault in an otherwise sound plan."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.checker import check
from stockroom.domain.menu.plans import Plan
from stockroom.domain.menu.quick import quick_plan
from stockroom.domain.menu.records import Dislike, Locked, OccasionWish, Question, Share
from tests.domain.menu_questions import FOODS, FREE, day, days, dish, package

OPTIONS = (dish(1, [(1, 1000)]), dish(2, [(1, 500)], cooks=True))
ASKED = Question(days(2), FOODS, (package(1, 1200, 1), package(2, 1800, None)), OPTIONS[:1], FREE)
PLAN = quick_plan(ASKED).plan


def wished(**wishes) -> Question:
    """The question with other wishes."""
    return replace(ASKED, wishes=replace(FREE, **wishes))


def account(**parts) -> Plan:
    """The plan with another account."""
    return replace(PLAN, account=replace(PLAN.account, **parts))


def test_the_plan_is_sound() -> None:
    assert [(each.code, each.fresh_dg) for each in PLAN.takings] == [
        ("P1", 1000),
        ("P1", 200),
        ("P2", 800),
    ]
    assert check(ASKED, PLAN) == ()


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (wished(energy=Share(101, 200)), "kcal are too few"),
        (wished(energy=Share(0, 99)), "kcal are too many"),
        (wished(plan_energy=Share(101, 200)), "kcal in all are too few"),
        (wished(plan_energy=Share(0, 99)), "kcal in all are too many"),
        (wished(protein_percent=101), "protein are too few"),
        (wished(water_ml_a_day=999), "mL of water are too many"),
        (wished(water_ml_in_all=1999), "mL of water in all are too many"),
        (wished(apart_days=2), "stands on 2026-12-01 too"),
        (wished(people=(6,)), "not wanted for 4"),
        (wished(dislikes=(Dislike(food_id=1, hard=True),)), "not liked"),
        (wished(occasions=(OccasionWish(Occasion.MAIN, 2, 3),)), "main dishes are too few"),
        (wished(occasions=()), "main dishes are too many"),
        (wished(left_open_points=1), "points, not"),
        (replace(ASKED, locked=(Locked(day(0), 1, 4),)), "said to be fixed wrongly"),
        (
            replace(
                ASKED, options=(replace(OPTIONS[0], cooks=True),),
                wishes=replace(FREE, cooking_weekdays=(1,)),
            ),
            "on a day without cooking",
        ),
        (replace(ASKED, options=(dish(1, [(1, 1000)], why_not="raw"),)), "may not be planned: raw"),
        (replace(ASKED, options=(dish(1, [(1, 900)]),)), "takes 1000 and uses 900"),
        (replace(ASKED, options=(dish(1, []),)), "which does not use it"),
        (replace(ASKED, options=(dish(2, []),)), "was not asked about"),
        (replace(ASKED, packages=(package(1, 1200, 1),)), "P2 was not asked about"),
        (replace(ASKED, packages=(package(1, 1200, 0), package(2, 1800, None))), "past its due"),
        (replace(ASKED, packages=(package(1, 1100, 1), package(2, 1800, None))), "not so much"),
        (
            replace(ASKED, packages=(package(1, 1200, None), package(2, 1800, 1))),
            "P2 should be used before P1",
        ),
        (
            replace(ASKED, packages=(package(2, 1800, None), package(1, 1200, None))),
            "P2 should be used before P1",
        ),
    ],
)  # fmt: skip
def test_another_question_makes_the_plan_unsound(asked: Question, words: str) -> None:
    assert any(words in each.words for each in check(asked, PLAN))


@pytest.mark.parametrize(
    ("plan", "words"),
    [
        (account(value=7), "not 7"),
        (account(at_risk=()), "at risk is told wrongly"),
        (account(left_open=()), "left open is told wrongly"),
        (
            account(days=(replace(PLAN.account.days[0], kcal=1), *PLAN.account.days[1:])),
            "sums of the day",
        ),
        (replace(PLAN, takings=PLAN.takings[::-1]), "out of order"),
        (replace(PLAN, takings=PLAN.takings[1:]), "takes 0 and uses 1000"),
        (
            replace(PLAN, takings=(replace(PLAN.takings[0], fresh_dg=0), *PLAN.takings[1:])),
            "gives nothing",
        ),
    ],
)
def test_a_changed_plan_is_unsound(plan: Plan, words: str) -> None:
    assert any(words in each.words for each in check(ASKED, plan))


def test_a_locked_dish_that_is_missing_is_told() -> None:
    asked = replace(ASKED, options=OPTIONS, locked=(Locked(day(0), 2, 4),))
    assert any("was fixed and is not" in each.words for each in check(asked, PLAN))


def test_each_fault_is_one_sentence_about_a_day_or_the_plan() -> None:
    tell: Callable[[Question], list[str]] = lambda asked: [  # noqa: E731
        each.words for each in check(asked, PLAN)
    ]
    assert all(words.endswith(".") for words in tell(wished(energy=Share(101, 200))))
