"""What the foods of a dish bring along: allergens, raw food, ingredients to be looked at."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from stockroom.domain.foods import FoodGroup, Preparation
from stockroom.domain.records import Food
from stockroom.domain.safe_cooking import RawCheck, RawFood, least_for_raw


@dataclass(frozen=True, slots=True)
class DishFacts:
    """Facts carried up from the foods of a dish and from what its recipe says, each sorted."""

    allergens: tuple[str, ...]
    ingredients_unknown: tuple[str, ...]
    """Foods whose ingredients are to be checked for allergens."""
    raw: RawCheck
    """Its raw foods by what they are on record as; the packages themselves decide at the stove."""


def dish_facts(
    foods: Sequence[Food], own_allergens: Iterable[str], cook_to_dc: int | None
) -> DishFacts:
    """The facts of a dish of these stored foods; `own_allergens` are those of its fresh items."""
    raw = [food for food in foods if food.preparation == Preparation.RAW]
    return DishFacts(
        tuple(sorted({*own_allergens, *(one for food in foods for one in food.allergens)})),
        tuple(sorted(food.name for food in foods if food.ingredients_unknown)),
        raw_check(raw, cook_to_dc),
    )


def raw_check(raw_foods: Iterable[Food], cook_to_dc: int | None) -> RawCheck:
    """Raw foods by name beside what they are cooked to."""
    named = sorted(raw_foods, key=lambda food: food.name)
    return RawCheck(
        tuple(RawFood(food.name, least_for_raw(FoodGroup(food.food_group))) for food in named),
        cook_to_dc,
    )
