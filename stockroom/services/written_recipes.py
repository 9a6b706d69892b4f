"""A recipe of the book as the rules see it: its foods and measures looked up, swaps made."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from stockroom.domain.cooking import (
    Basis,
    FreshNeed,
    Measure,
    MeasureMissing,
    Recipe,
    StoredNeed,
)
from stockroom.domain.records import Food, RecipeLine, RecipeRecord
from stockroom.domain.substitutes import fresh_equivalent
from stockroom.errors import BadInput
from stockroom.services.session import Stockroom
from stockroom.store import food_rows, measure_rows

NO_SWAPS: Mapping[int, int] = {}


def foods_of(room: Stockroom, recipe: RecipeRecord) -> dict[int, Food]:
    """The stored foods of a recipe by id."""
    ids = dict.fromkeys(line.food_id for line in recipe.lines if line.food_id is not None)
    found = (food_rows.food_by_id(room.store, food_id) for food_id in ids)
    return {food.food_id: food for food in found if food is not None}


def swap_foods(
    room: Stockroom, foods: Mapping[int, Food], swaps: Mapping[int, int]
) -> dict[int, Food]:
    """Food of the recipe → the food that stands in for it. Raises BadInput."""
    made: dict[int, Food] = {}
    for wanted, chosen in swaps.items():
        food = food_rows.food_by_id(room.store, chosen)
        if wanted not in foods or food is None or wanted == chosen:
            raise BadInput(
                "swap", f"{wanted}={chosen}", "a food of the recipe and another food for it"
            )
        made[wanted] = food
    return made


def written_recipe(
    room: Stockroom, record: RecipeRecord, swaps: Mapping[int, int] = NO_SWAPS
) -> Recipe:
    """A recipe as it stands in the book, as the rules see it. Raises MeasureMissing, BadInput."""
    foods = foods_of(room, record)
    return as_written(room, record, foods, swap_foods(room, foods, swaps))


def as_written(
    room: Stockroom,
    record: RecipeRecord,
    foods: Mapping[int, Food],
    stand_ins: Mapping[int, Food],
) -> Recipe:
    """The same with its foods read already. Raises MeasureMissing."""
    lines: list[StoredNeed | FreshNeed] = []
    for line in record.lines:
        if line.food_id is None:
            lines.append(FreshNeed(line.item or "", _thousandths(line), line.unit))
            continue
        need = _need(room, line, foods[line.food_id])
        chosen = stand_ins.get(line.food_id)
        lines.append(need if chosen is None else swapped(need, foods[line.food_id], chosen))
    return Recipe(
        record.name,
        record.serves,
        record.cooking_water_dg,
        tuple(lines),
        record.hold_back_percent,
    )


def swapped(need: StoredNeed, food: Food, chosen: Food) -> StoredNeed:
    """The need met by another food: as much of it as keeps the fresh equivalent.

    A dry need is turned by the share of water of the first food as loaded; where that is not
    known, the dry weight stays.
    """
    fresh_dg = fresh_equivalent(need, food.water_cg)
    return StoredNeed(
        chosen.food_id,
        chosen.name,
        Basis.DRY if fresh_dg is None else Basis.FRESH,
        need.wanted_dg if fresh_dg is None else fresh_dg,
        chosen.serving_dg,
        hold_back_percent=need.hold_back_percent,
        instead_of=food.name,
    )


def _need(room: Stockroom, line: RecipeLine, food: Food) -> StoredNeed:
    """A stored line as the rules see it."""
    basis = Basis(line.basis or Basis.FRESH)
    amount: int | Fraction = line.weight_dg or 0
    measure: Measure | None = None
    if basis is Basis.SERVINGS:
        amount = Fraction(line.servings_hundredths or 0, 100)
    if basis is Basis.MEASURE:
        amount = _thousandths(line) or 0
        measure = measure_of(room, food, line.unit or "")
    return StoredNeed(
        food.food_id,
        food.name,
        basis,
        amount,
        food.serving_dg,
        measure,
        line.hold_back_percent,
    )


def measure_of(room: Stockroom, food: Food, name: str) -> Measure:
    """A food's household measure of this name. Raises MeasureMissing."""
    found = measure_rows.measure_by_name(room.store, food.food_id, name)
    if found is None:
        known = [one.name for one in measure_rows.measures_of_food(room.store, food.food_id)]
        raise MeasureMissing(food.name, name, known)
    return Measure(found.name, Basis(found.basis), found.weight_dg)


def _thousandths(line: RecipeLine) -> Fraction | None:
    amount = line.amount_thousandths
    return None if amount is None else Fraction(amount, 1000)
