"""The solver's plans against trying everything, what is given up, and how a search is watched."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, product

import pytest
from hypothesis import assume, given, settings

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.checker import check
from stockroom.domain.menu.choices import Choice, choices
from stockroom.domain.menu.model import build
from stockroom.domain.menu.plans import Plan
from stockroom.domain.menu.quick import FixedBeyondStock, quick_plan
from stockroom.domain.menu.reading import read_plan
from stockroom.domain.menu.records import OccasionWish, Question, Share, Wish, Wishes
from stockroom.domain.menu.relax import conceded
from stockroom.domain.menu.shelf import shelves
from stockroom.domain.menu.start import start_values
from stockroom.services.menu_solver import Effort, Ending, Progress, plan_menu, solve
from tests.benchmarks.menu import household
from tests.domain.menu_questions import FOODS, FREE, days, dish, package, questions

EXACT = Effort(gap_millionths=0, seconds=60)
MOST_PLANS = 2_500


def every_plan(question: Question) -> Iterator[Plan]:
    """Every plan of at most two dishes a day, or three with a fixed one, that is sound."""
    every = choices(question, shelves(question))
    by_day = [list(_sets([one for one in every if one.day == number]))
              for number in range(len(question.days))]  # fmt: skip
    for parts in product(*by_day):
        chosen = [one for part in parts for one in part]
        try:
            plan = read_plan(question, chosen)
        except ValueError:
            continue
        if not check(question, plan):
            yield plan


def _sets(of_day: list[Choice]) -> Iterator[tuple[Choice, ...]]:
    locked = tuple(one for one in of_day if one.locked)
    free = [one for one in of_day if not one.locked]
    for count in range(4):
        for some in combinations(free, count):
            if len({one.recipe_id for one in some}) == count:
                yield (*locked, *some)


def fewer(question: Question) -> Question:
    """Three dishes at most, so that every plan can be tried."""
    return replace(question, options=question.options[:3])


@given(questions())
@settings(max_examples=70, deadline=None)
def test_no_plan_is_better_than_the_proven_one(drawn: Question) -> None:
    """Trying everything is the oracle: the same value, or nothing fits for both."""
    question = fewer(drawn)
    every = choices(question, shelves(question))
    counts = [sum(1 for one in every if one.day == number) for number in range(3)]
    assume(max(counts) <= 4)
    try:
        answer = plan_menu(question, EXACT)
    except FixedBeyondStock:
        assert not list(every_plan(question))
        return
    best = max((plan.account.value for plan in every_plan(question)), default=None)
    asked = conceded(question, answer.concessions)
    assert check(asked, answer.plan) == ()
    assert answer.fits and answer.ending is Ending.PROVEN
    assert (best is None) is bool(answer.concessions) is bool(answer.give_up)
    if best is not None:
        assert answer.plan.account.value == answer.proof.bound == best
        assert answer.proof.gap_millionths == 0


@given(questions())
@settings(max_examples=60, deadline=None)
def test_a_plan_keeps_its_value_as_a_start_of_the_model(question: Question) -> None:
    """The values of the columns of any plan keep every row, and cost what the plan is worth."""
    try:
        quick = quick_plan(question)
    except FixedBeyondStock:
        return
    model = build(question)
    values = start_values(model, question, quick.chosen, quick.plan)
    cost = sum(one * value for one, value in zip(model.cost, values, strict=True))
    assert cost + model.offset == quick.plan.account.value
    for row, (first, last) in enumerate(zip(model.starts, model.starts[1:], strict=False)):
        total = sum(
            model.factor[place] * values[model.index[place]] for place in range(first, last)
        )
        assert total <= model.row_high[row]
        assert total >= model.row_low[row] or not quick.fits


def plain(wishes: Wishes, *options, count: int = 4) -> Question:
    """Some days of peas without end."""
    shelf = (package(1, 90_000, None),)
    every = options or (dish(1, [(1, 1000)]), dish(2, [(1, 1000)]))
    return Question(days(count), FOODS, shelf, every, wishes)


@pytest.mark.parametrize(
    ("question", "words", "kinds"),
    [
        (
            plain(replace(FREE, apart_days=4)),
            "Allow the same dish again after 2 days instead of 4.",
            {Wish.APART},
        ),
        (
            plain(replace(FREE, energy=Share(112, 200)), dish(1, [(1, 1000)])),
            "Plan less energy on 4 days, by 12 % at most.",
            {Wish.ENERGY_LEAST},
        ),
        (
            plain(replace(FREE, cooking_weekdays=(1, 2, 3)), dish(1, [(1, 1000)], cooks=True)),
            "Cook on 2026-12-04 too.",
            {Wish.COOKING_DAY},
        ),
        (
            plain(replace(FREE, water_ml_a_day=950), dish(1, [(1, 1000)])),
            "Have 50 mL more water at hand, on 4 days.",
            {Wish.WATER},
        ),
        (
            plain(
                replace(FREE, occasions=(OccasionWish(Occasion.EXTRA, 1, 1),)),
                dish(1, []),
                count=1,
            ),
            "Plan fewer extra dishes on 1 day.",
            {Wish.DISHES_LEAST},
        ),
    ],
)
def test_what_to_give_up_is_said_and_leads_to_a_plan(question, words, kinds) -> None:
    answer = plan_menu(question, EXACT)
    assert answer.give_up == (words,)
    assert {each.wish for each in answer.concessions} == kinds
    assert check(conceded(question, answer.concessions), answer.plan) == ()
    assert check(question, answer.plan) != ()
    assert answer.proof.gap_millionths == 0


def test_an_empty_shelf_leads_to_a_plan_all_the_same() -> None:
    question = replace(plain(Wishes(), count=2), packages=())
    answer = plan_menu(question, EXACT)
    assert answer.plan.dishes == ()
    assert {each.wish for each in answer.concessions} >= {Wish.ENERGY_LEAST, Wish.DISHES_LEAST}


def test_a_search_tells_how_far_it_is() -> None:
    told: list[Progress] = []
    question = household(days=4, recipes=20, packages=300)
    answer = plan_menu(question, Effort(gap_millionths=20_000, seconds=60), told.append)
    quick = quick_plan(question)
    values = [each.value for each in told if each.value is not None]
    assert values == sorted(values)
    assert values[0] >= quick.plan.account.value
    assert answer.plan.account.value == values[-1]
    for each in told:
        if each.value is not None and each.bound is not None:
            assert each.bound >= answer.plan.account.value and each.gap_millionths is not None
    assert check(question, answer.plan) == ()
    assert answer.proof.gap_millionths is not None and answer.proof.gap_millionths <= 20_000


def test_the_same_question_gets_the_same_plan() -> None:
    question = household(days=4, recipes=20, packages=300)
    effort = Effort(gap_millionths=20_000, seconds=60)
    assert plan_menu(question, effort).plan == plan_menu(question, effort).plan


def test_a_stopped_search_keeps_the_best_so_far() -> None:
    question = household(days=7, recipes=30, packages=500)
    quick = quick_plan(question)
    assert quick.fits
    answer = plan_menu(question, EXACT, cancelled=lambda: True)
    assert answer.ending is Ending.STOPPED and answer.fits
    assert answer.plan.account.value >= quick.plan.account.value
    assert check(question, answer.plan) == ()


def test_out_of_time_says_so() -> None:
    answer = plan_menu(household(days=7, recipes=30, packages=500), Effort(0, 0.0))
    assert answer.ending is Ending.OUT_OF_TIME and answer.fits


def test_the_model_alone_says_when_nothing_fits() -> None:
    question = plain(replace(FREE, energy=Share(150, 200)), dish(1, []))
    assert solve(build(question), EXACT).ending is Ending.NOTHING_FITS


def test_the_solver_is_loaded_late_and_says_nothing() -> None:
    script = (
        "import sys\n"
        "from stockroom.services.menu_solver import Effort, plan_menu\n"
        "assert 'highspy' not in sys.modules and 'numpy' not in sys.modules\n"
        "from tests.services.test_menu_solver import plain, FREE\n"
        "plan_menu(plain(FREE), Effort())\n"
        "assert 'highspy' in sys.modules\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=120
    )
    assert (done.stdout, done.stderr) == ("", "")
