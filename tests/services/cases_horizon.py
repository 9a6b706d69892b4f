"""One ordinary use of every service about eating rates and targets."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.foods import FoodGroup
from stockroom.services import eating_rates
from tests.services.case import Case
from tests.services.cases_people import some_foods
from tests.world import PEAS, World


def eaten(world: World) -> None:
    """Peas are eaten six every five days; the store is to last 30 days and hold 60 vegetables."""
    some_foods(world)
    eating_rates.set_rate(world.room, PEAS, Fraction(6, 5))
    eating_rates.set_target(world.room, 30)
    eating_rates.set_group_target(world.room, FoodGroup.VEGETABLE, Fraction(60))


HORIZON_CASES: dict[str, Case] = {
    "eating_rates.set_rate": Case(
        some_foods, lambda room: eating_rates.set_rate(room, PEAS, Fraction(3, 7))
    ),
    "eating_rates.clear_rate": Case(eaten, lambda room: eating_rates.clear_rate(room, PEAS)),
    "eating_rates.set_target": Case(eaten, lambda room: eating_rates.set_target(room, 183)),
    "eating_rates.set_group_target": Case(
        eaten,
        lambda room: eating_rates.set_group_target(room, FoodGroup.LEGUME_COOKED, Fraction(7, 2)),
    ),
    "eating_rates.clear_target": Case(
        eaten, lambda room: eating_rates.clear_target(room, FoodGroup.VEGETABLE)
    ),
}
"""Service → a use of it."""
