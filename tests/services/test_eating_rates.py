"""Eating rates and targets: kept exactly, undone, and read with care."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.household_eating import Basis
from stockroom.services import eating_rates, history
from stockroom.services.provision import targets
from stockroom.store.settings import read_settings
from tests.horizon_store import by_hand
from tests.services.cases_horizon import eaten
from tests.services.cases_people import some_foods
from tests.world import APPLE, PEAS, World


def rate(world: World, food: str = PEAS) -> tuple[Basis, Fraction | None]:
    found = {one.food.name: one.how for one in eating_rates.list_rates(world.room)}
    return found[food].basis, found[food].servings_per_day


@pytest.mark.parametrize("a_day", [Fraction(1, 7), Fraction(4800, 146_097), Fraction(0)])
def test_a_rate_is_kept_exactly(world: World, a_day: Fraction) -> None:
    some_foods(world)
    eating_rates.set_rate(world.room, PEAS, a_day)
    assert rate(world) == (Basis.SET, a_day)
    assert rate(world, APPLE) == (Basis.NOBODY, None)


def test_a_rate_is_undone_and_done_again(world: World) -> None:
    eaten(world)
    done = eating_rates.set_rate(world.room, PEAS, Fraction(0))
    assert done.words == f"set the eating of {PEAS} to never"
    history.undo(world.room)
    assert rate(world) == (Basis.SET, Fraction(6, 5))
    history.redo(world.room)
    assert rate(world) == (Basis.SET, 0)
    assert eating_rates.clear_rate(world.room, PEAS).words == f"cleared the eating of {PEAS}"
    assert rate(world) == (Basis.NOBODY, None)


def test_the_journal_says_it_in_words(world: World) -> None:
    some_foods(world)
    done = eating_rates.set_rate(world.room, PEAS, Fraction(3, 7))
    assert done.words == f"set the eating of {PEAS} to 3 servings a week"
    done = eating_rates.set_rate(world.room, PEAS, Fraction(1, 7))
    assert done.words.endswith("to 1 serving a week")
    assert eating_rates.set_target(world.room, 1).words.endswith("to 1 day")


def test_targets_are_set_and_cleared(world: World) -> None:
    eaten(world)
    found = targets(world.room)
    assert (found.days, found.was_set) == (30, True)
    # Peas are eaten 6/5 a day, but a set target goes before 30 days of that.
    (row,) = found.groups
    assert (row.group, row.servings, row.was_set) == (FoodGroup.VEGETABLE, 60, True)
    eating_rates.clear_target(world.room, FoodGroup.VEGETABLE)
    (row,) = targets(world.room).groups
    assert (row.servings, row.was_set) == (36, False)
    eating_rates.clear_target(world.room)
    assert (targets(world.room).days, targets(world.room).was_set) == (14, False)
    assert not [key for key in read_settings(world.room.store) if key.startswith("target")]


@pytest.mark.parametrize("value", ["", "often", "1/0", "-3", "100000", "nan"])
def test_what_no_program_of_ours_wrote_is_passed_over(world: World, value: str) -> None:
    eaten(world)
    by_hand(world, "UPDATE setting SET value = ? WHERE key LIKE 'eat:%'", value)
    by_hand(world, "UPDATE setting SET value = ? WHERE key LIKE 'target%'", value)
    assert rate(world) == (Basis.NOBODY, None)
    found = targets(world.room)
    assert (found.days, found.was_set) == (14, False)
    assert all(row.servings < 100_001 for row in found.groups)
