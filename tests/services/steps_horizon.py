"""Plausible uses of the services about eating rates and targets, drawn by chance."""

from __future__ import annotations

from fractions import Fraction
from random import Random

from stockroom.domain.foods import FoodGroup
from stockroom.services import eating_rates, foods
from stockroom.services.session import Stockroom
from tests.world import PEAS

RATES = (Fraction(0), Fraction(3, 7), Fraction(6, 5), Fraction(1001))
GROUPS = (FoodGroup.VEGETABLE, FoodGroup.FRUIT)


def _food(room: Stockroom, pick: Random) -> str:
    return pick.choice([PEAS, *(food.name for food in foods.list_foods(room))])


def _set_group(room: Stockroom, pick: Random) -> object:
    servings = Fraction(pick.choice((0, 20, 60)))
    return eating_rates.set_group_target(room, pick.choice(GROUPS), servings)


HORIZON_STEPS = {
    "eating_rates.set_rate": lambda room, pick: eating_rates.set_rate(
        room, _food(room, pick), pick.choice(RATES)
    ),
    "eating_rates.clear_rate": lambda room, pick: eating_rates.clear_rate(room, _food(room, pick)),
    "eating_rates.set_target": lambda room, pick: eating_rates.set_target(
        room, pick.choice((0, 14, 183))
    ),
    "eating_rates.set_group_target": _set_group,
    "eating_rates.clear_target": lambda room, pick: eating_rates.clear_target(
        room, pick.choice((None, *GROUPS))
    ),
}
"""Service → a step that uses it."""
