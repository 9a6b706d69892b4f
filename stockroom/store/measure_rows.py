"""What household measures of foods weigh."""

from __future__ import annotations

from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.store.connection import Store

_MEASURE = (
    "SELECT food_measure.id, food_id, food.name, food_measure.name, basis, weight_dg"
    " FROM food_measure JOIN food ON food.id = food_id"
)


def all_measures(store: Store) -> list[FoodMeasure]:
    """Every measure, by food and name."""
    rows = store.query(f"{_MEASURE} ORDER BY food.name, food_measure.name")
    return [FoodMeasure(*row) for row in rows]


def measures_of_food(store: Store, food_id: int) -> list[FoodMeasure]:
    """The measures of a food by name."""
    rows = store.query(f"{_MEASURE} WHERE food_id = ? ORDER BY food_measure.name", (food_id,))
    return [FoodMeasure(*row) for row in rows]


def measure_by_name(store: Store, food_id: int, name: str) -> FoodMeasure | None:
    """The measure of a food by its name, whatever the case, or None."""
    row = store.one(
        f"{_MEASURE} WHERE food_id = ? AND food_measure.name = ?", (food_id, name.strip())
    )
    return None if row is None else FoodMeasure(*row)


def insert_measure(store: Store, food_id: int, name: str, basis: str, weight_dg: int) -> int:
    """Add a measure; returns its id."""
    return store.run(
        "INSERT INTO food_measure (food_id, name, basis, weight_dg) VALUES (?, ?, ?, ?)",
        (food_id, name, basis, weight_dg),
    )


def update_measure(store: Store, measure_id: int, basis: str, weight_dg: int) -> None:
    """Weigh a measure anew."""
    store.run(
        "UPDATE food_measure SET basis = ?, weight_dg = ? WHERE id = ?",
        (basis, weight_dg, measure_id),
    )


def delete_measure(store: Store, measure_id: int) -> None:
    """Forget a measure."""
    store.run("DELETE FROM food_measure WHERE id = ?", (measure_id,))


def recipes_counting_in(store: Store, food_id: int, name: str) -> list[str]:
    """Names of the recipes with a line of this food in this measure."""
    rows = store.query(
        "SELECT DISTINCT recipe.name FROM recipe_line JOIN recipe ON recipe.id = recipe_id"
        " WHERE food_id = ? AND basis = 'measure' AND unit = ? COLLATE NOCASE"
        " ORDER BY recipe.name",
        (food_id, name),
    )
    return [str(row[0]) for row in rows]
