"""One appetite for all foods: due-date order against every order and against a linear programme."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations
from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from stockroom.domain.horizon.appetite import (
    DUE_ORDER_AIMS,
    Job,
    due_date_order,
    eat_in_turn,
    eaten_in_due_order,
    jobs_of,
    least_worth_lost,
)
from stockroom.domain.horizon.use_order import worst_lateness
from tests.domain.horizon_cases import START, package


def jobs(*pairs: tuple[Fraction | int, int]) -> list[Job]:
    """Jobs of an amount, in time within so many days."""
    return [Job(key, days, Fraction(amount)) for key, (amount, days) in enumerate(pairs)]


ONE = Fraction(1)
SIX = jobs((1, 3), (2, 6), (1, 9), (4, 8), (3, 15), (2, 14))


def test_six_jobs_of_the_textbook() -> None:
    # (duration, due): in due-date order the worst is 1 day early, the best of all 720 orders; as
    # listed it is just in time. Computed.
    assert worst_lateness(eat_in_turn(due_date_order(SIX), ONE)) == -1
    assert worst_lateness(eat_in_turn(SIX, ONE)) == 0
    assert min(worst_lateness(eat_in_turn(some, ONE)) or 0 for some in permutations(SIX)) == -1


@given(
    st.lists(st.tuples(st.integers(0, 6), st.integers(-2, 15)), min_size=1, max_size=5),
    st.sampled_from([ONE, Fraction(1, 2), Fraction(7, 3)]),
)
def test_no_order_is_less_late_at_the_worst(pairs: list[tuple[int, int]], a_day: Fraction) -> None:
    some = jobs(*pairs)
    best = worst_lateness(eat_in_turn(due_date_order(some), a_day))
    assert best == min(worst_lateness(eat_in_turn(order, a_day)) for order in permutations(some))


def test_turns_follow_each_other() -> None:
    turns = eat_in_turn(jobs((3, 5), (4, 2)), Fraction(2))
    assert [(one.starts_days, one.ends_days) for one in turns] == [
        (0, Fraction(3, 2)), (Fraction(3, 2), Fraction(7, 2)),
    ]  # fmt: skip
    assert [one.lateness_days for one in turns] == [Fraction(-7, 2), Fraction(3, 2)]
    for act in (eat_in_turn, eaten_in_due_order, least_worth_lost):
        with pytest.raises(ValueError, match="an appetite of -1"):
            act(SIX, Fraction(-1))


def programme(some: list[Job], a_day: Fraction) -> float:
    """Least worth lost by a linear programme: eaten amounts, no more by a day than was possible."""
    days = sorted({max(job.days, 0) for job in some})
    matrix = np.array([[max(job.days, 0) <= day for job in some] for day in days], dtype=float)
    room = np.array([float(a_day) * day for day in days])
    worth = np.array([float(job.worth) for job in some])
    amount = np.array([float(job.amount) for job in some])
    found = linprog(
        -worth, A_ub=matrix, b_ub=room, bounds=list(zip(amount * 0, amount, strict=True))
    )
    assert found.success
    return float(worth @ amount + found.fun)


@pytest.mark.parametrize("seed", range(60))
def test_least_worth_lost_is_that_of_a_linear_programme(seed: int) -> None:
    # Solved by HiGHS through scipy.
    chance = Random(seed)
    a_day = Fraction(chance.randrange(1, 9), chance.randrange(1, 4))
    some = [
        Job(key, chance.randrange(-2, 40), Fraction(chance.randrange(60), 4),
            Fraction(chance.randrange(1, 10)))
        for key in range(chance.randrange(1, 14))
    ]  # fmt: skip
    best = least_worth_lost(some, a_day)
    assert float(best.lost_worth) == pytest.approx(programme(some, a_day), abs=1e-6)
    in_order = eaten_in_due_order(some, a_day)
    assert in_order.lost_worth >= best.lost_worth
    # Where every unit counts the same, due-date order is as good as any.
    plain = [job._replace(worth=ONE) for job in some]
    assert float(in_order.lost_amount) == pytest.approx(programme(plain, a_day), abs=1e-6)
    assert least_worth_lost(plain, a_day).lost_amount == in_order.lost_amount
    for eaten in (best, in_order):
        _can_be_eaten(eaten.jobs, eaten.amounts, a_day)


def _can_be_eaten(some: tuple[Job, ...], eaten: tuple[Fraction, ...], a_day: Fraction) -> None:
    """In best-by order all of it is in time, and no job gives more than it has."""
    so_far = Fraction(0)
    for job, amount in zip(some, eaten, strict=True):
        assert 0 <= amount <= job.amount
        so_far += amount
        assert not amount or so_far <= a_day * job.days


def test_due_order_may_lose_more_worth() -> None:
    # One day, one serving a day: the plain one is due today, the dear one too, but later in line.
    some = [Job(1, 1, ONE, ONE), Job(2, 1, ONE, Fraction(5))]
    assert eaten_in_due_order(some, ONE).lost_worth == 5
    best = least_worth_lost(some, ONE)
    assert best.lost_worth == 1 and [job.key for job in best.jobs_touched] == [1]
    assert "worth" in DUE_ORDER_AIMS and "Moore" in DUE_ORDER_AIMS


def test_nothing_eaten_loses_all_and_the_past_is_lost() -> None:
    assert least_worth_lost(SIX, Fraction(0)).lost_amount == 13
    assert eaten_in_due_order(jobs((4, 0), (4, 4)), ONE).lost == (4, 0)
    assert eaten_in_due_order([], ONE).lost_amount == 0


def test_packages_become_jobs_in_the_projects_order() -> None:
    some = [package(3, 20, 2), package(2, 10, 4, made=-5), package(1, 10, 3, made=-4)]
    found = jobs_of(some, START)
    assert [(job.key, job.days, job.amount, job.worth) for job in found] == [
        (2, 10, 4, 1), (1, 10, 3, 1), (3, 20, 2, 1),
    ]  # fmt: skip
    by_energy = jobs_of(
        some, START, amount=lambda one: one.servings * 250, worth=lambda _: Fraction(1, 10),
        count_best_by_day=True,
    )  # fmt: skip
    assert next((job.days, job.amount, job.worth) for job in by_energy) == (
        11,
        1000,
        Fraction(1, 10),
    )
