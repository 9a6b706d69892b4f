"""What looking ahead needs of the record: flat rows, each kind in one query, in order."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from stockroom.store.connection import Store


class ShelfLine(NamedTuple):
    """A live package as the forecast sees it. Days are ISO text, None where none is given."""

    food_id: int
    best_by: str | None
    made_on: str
    package_id: int
    low: str | None
    high: str | None
    code: str
    package_kind: str
    condition: str
    preparation: str
    place_id: int | None
    left_dg: int
    """Dry food still in it."""
    left_water_dg: int
    """The water for that."""


class FoodLine(NamedTuple):
    """A food of the household with what a hundred grams of it as loaded give, where known."""

    food_id: int
    name: str
    food_group: str
    serving_dg: int
    water_cg: int | None
    energy_tenth_kcal: int | None
    protein_cg: int | None
    first_made_on: str | None
    """The day its first lot was made."""


class EatenLine(NamedTuple):
    """What was taken of a food to be eaten on one day, dry food and its water together."""

    food_id: int
    on_day: str
    fresh_dg: int


class PlannedLine(NamedTuple):
    """A stored food of a dish, planned for a day or ("") of a recipe in the book.

    `measure_basis` and `measure_dg` are those of the household measure the line counts in.
    """

    on_day: str
    name: str
    people: int
    serves: int
    food_id: int
    basis: str
    weight_dg: int | None
    servings_hundredths: int | None
    amount_thousandths: int | None
    measure_basis: str | None
    measure_dg: int | None


class DriedLine(NamedTuple):
    """A lot that was dried, by the weight it was loaded with."""

    food_id: int
    made_on: str
    wet_dg: int


class PlaceLine(NamedTuple):
    """A place, the one above it, and its kind."""

    place_id: int
    parent_id: int | None
    kind: str


def shelf_rows(store: Store) -> list[ShelfLine]:
    """Every live package by food, best-by, day made and number in the store."""
    rows = store.query(
        "SELECT package.food_id, projection.best_by, lot.made_on, package.id, projection.low,"
        " projection.high, package.code, container.package_kind, package.condition,"
        " lot.preparation, package.location_id, package.dry_dg - package.taken_dg,"
        " package.water_dg - CASE WHEN package.taken_dg = 0 THEN 0 ELSE"
        "  ifnull((SELECT sum(water_dg) FROM draw WHERE package_id = package.id), 0) END"
        " FROM package JOIN lot ON lot.id = package.lot_id"
        " JOIN container ON container.id = package.container_id"
        " LEFT JOIN projection ON projection.package_id = package.id"
        " WHERE package.condition NOT IN ('used', 'discarded')"
        " ORDER BY package.food_id, projection.best_by, lot.made_on, package.id"
    )
    return list(map(ShelfLine._make, rows))


def food_rows(store: Store) -> list[FoodLine]:
    """Every food by name."""
    rows = store.query(
        "SELECT id, name, food_group, serving_dg, water_cg, energy_tenth_kcal, protein_cg,"
        " (SELECT min(made_on) FROM lot WHERE food_id = food.id) FROM food ORDER BY name"
    )
    return list(map(FoodLine._make, rows))


def eaten_rows(store: Store, first_day: date, last_day: date) -> list[EatenLine]:
    """What was eaten from one day to another, both included, by food and day."""
    rows = store.query(
        "SELECT package.food_id, draw.on_day, sum(draw.dry_dg + draw.water_dg)"
        " FROM draw JOIN package ON package.id = draw.package_id"
        " WHERE draw.purpose = 'eat' AND draw.on_day BETWEEN ? AND ?"
        " GROUP BY 1, 2 ORDER BY 1, 2",
        (first_day.isoformat(), last_day.isoformat()),
    )
    return list(map(EatenLine._make, rows))


_LINE = """recipe.serves, recipe_line.food_id, recipe_line.basis, recipe_line.weight_dg,
    recipe_line.servings_hundredths, recipe_line.amount_thousandths,
    food_measure.basis, food_measure.weight_dg"""
_MEASURE = """LEFT JOIN food_measure ON food_measure.food_id = recipe_line.food_id
    AND food_measure.name = recipe_line.unit AND recipe_line.basis = 'measure'"""


def planned_rows(store: Store, first_day: date, before: date) -> list[PlannedLine]:
    """The stored foods of dishes planned from a day until before another, not cooked yet."""
    rows = store.query(
        f"SELECT planned_dish.on_day, planned_dish.name, planned_dish.people, {_LINE}"
        " FROM planned_dish JOIN recipe ON recipe.id = planned_dish.recipe_id"
        f" JOIN recipe_line ON recipe_line.recipe_id = recipe.id {_MEASURE}"
        " WHERE planned_dish.meal_id IS NULL AND recipe_line.food_id IS NOT NULL"
        "  AND planned_dish.on_day >= ? AND planned_dish.on_day < ?"
        " ORDER BY planned_dish.on_day, planned_dish.position, planned_dish.id,"
        "  recipe_line.position",
        (first_day.isoformat(), before.isoformat()),
    )
    return list(map(PlannedLine._make, rows))


def dish_rows(store: Store, people: int) -> list[PlannedLine]:
    """The stored foods of every recipe, for so many people and no day, by recipe.

    Food that is dried raw is given only of recipes with a cooking step.
    """
    rows = store.query(
        f"SELECT '', recipe.name, ?, {_LINE}"
        " FROM recipe JOIN recipe_line ON recipe_line.recipe_id = recipe.id"
        f" JOIN food ON food.id = recipe_line.food_id {_MEASURE}"
        " WHERE food.preparation <> 'raw' OR recipe.cook_to_dc IS NOT NULL"
        " ORDER BY recipe.name, recipe_line.position",
        (people,),
    )
    return list(map(PlannedLine._make, rows))


def dried_rows(store: Store) -> list[DriedLine]:
    """Every lot there has been, by food and day."""
    rows = store.query("SELECT food_id, made_on, wet_dg FROM lot ORDER BY food_id, made_on, id")
    return list(map(DriedLine._make, rows))


def place_rows(store: Store) -> list[PlaceLine]:
    """Every place in the order they were made."""
    rows = store.query("SELECT id, parent_id, kind FROM location ORDER BY id")
    return list(map(PlaceLine._make, rows))
