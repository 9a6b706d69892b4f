"""Foods on the shelves that could stand in for those a dish is short of."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from stockroom.domain.cooking import CookLine, CookPlan, scale
from stockroom.domain.foods import Allergen, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.records import Food
from stockroom.domain.substitutes import (
    KnownFood,
    StandIn,
    Stocked,
    Substitute,
    Substitution,
    fresh_equivalent,
    least_safe,
    stand_ins,
)
from stockroom.services.cooking_shelf import plan_from_shelf
from stockroom.services.kitchen import cook_sheet
from stockroom.services.results import CookSheet
from stockroom.services.session import Stockroom
from stockroom.services.written_recipes import NO_SWAPS, written_recipe
from stockroom.store import candidate_rows, food_rows

MOST_OPTIONS = 5
"""Foods offered for one that is short: more are no help in choosing; engineering judgement."""


def substitutes(
    room: Stockroom,
    name: str,
    people: int | None = None,
    *,
    servings: Fraction | None = None,
    swaps: Mapping[int, int] = NO_SWAPS,
) -> tuple[Substitution, ...]:
    """For each food a dish is short of, those in stock that could take its place, the best first.

    Amounts and `swaps` as in `cook_sheet`: a swap offered here can be added to them. Raises
    NotFound, BadInput, MeasureMissing.
    """
    sheet = cook_sheet(room, name, people, servings=servings, swaps=swaps)
    short = {line.need.food_id: line for line in sheet.plan.short}
    if not short:
        return ()
    foods = {food.food_id: food for food in food_rows.all_foods(room.store)}
    wanted = {line.food_id for line in sheet.recipe.lines if line.food_id is not None}
    original = {swaps.get(food_id, food_id): food_id for food_id in wanted}
    found: list[Substitution] = []
    for food_id, line in short.items():
        others = _stock(room, _alike(foods[food_id], foods.values()))
        options = stand_ins(
            _known(foods[food_id], Preparation(foods[food_id].preparation)),
            fresh_equivalent(line.need, foods[food_id].water_cg) or line.need.wanted_dg,
            others,
            [Allergen(one) for one in sheet.allergens],
        )
        tried = (_tried(room, sheet, one, original[food_id], swaps) for one in options)
        offered = tuple(one for one in tried if one is not None)[:MOST_OPTIONS]
        found.append(Substitution(original[food_id], line.need.food_name, line, offered))
    return tuple(found)


def _alike(wanted: Food, foods: Iterable[Food]) -> dict[int, Food]:
    """Foods of the same group or class."""
    return {
        food.food_id: food
        for food in foods
        if food.food_id != wanted.food_id
        and (food.food_group == wanted.food_group or food.food_class == wanted.food_class)
    }


def _stock(room: Stockroom, foods: Mapping[int, Food]) -> list[Stocked]:
    """What may be eaten of these foods; its preparation is that of the least safe lot."""
    sums = candidate_rows.stock_sums(room.store, list(foods))
    return [
        Stocked(
            _known(foods[food_id], least_safe(Preparation(one.preparation) for one in mine)),
            sum(one.dry_dg for one in mine),
            sum(one.water_dg for one in mine),
        )
        for food_id in dict.fromkeys(one.food_id for one in sums)
        if (mine := [one for one in sums if one.food_id == food_id])
    ]


def _known(food: Food, preparation: Preparation) -> KnownFood:
    return KnownFood(
        food.food_id,
        food.name,
        FoodGroup(food.food_group),
        FoodClass(food.food_class),
        preparation,
        tuple(Allergen(one) for one in food.allergens),
        food.ingredients_unknown,
    )


def _tried(
    room: Stockroom,
    sheet: CookSheet,
    option: StandIn,
    food_id: int,
    swaps: Mapping[int, int],
) -> Substitute | None:
    """A stand-in with what the dish would take of it; None where other lines leave too little."""
    recipe = written_recipe(room, sheet.recipe, {**swaps, food_id: option.food.food_id})
    plan = plan_from_shelf(room, scale(recipe, sheet.plan.people, sheet.plan.servings))
    lines = _lines_of(plan, option.food.food_id)
    if any(line.shortfall_dg for line in lines):
        return None
    taken = [line for line in lines if line.need.instead_of]
    return Substitute(
        food_id=option.food.food_id,
        food=option.food.name,
        preparation=option.food.preparation,
        same_group=option.same_group,
        same_class=option.same_class,
        new_allergens=tuple(str(one) for one in option.new_allergens),
        check_ingredients=option.food.check_ingredients,
        dry_dg=sum(line.dry_dg for line in taken),
        water_dg=sum(line.water_dg for line in taken),
    )


def _lines_of(plan: CookPlan, food_id: int) -> list[CookLine]:
    return [line for line in plan.lines if line.need.food_id == food_id]
