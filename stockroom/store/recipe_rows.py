"""Recipes, their lines, and the meals cooked from them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from stockroom.domain.records import Meal, RecipeLine, RecipeRecord, RecipeSummary
from stockroom.store.connection import Store
from stockroom.store.rows import day, day_or_none, marks


def recipe_summaries(store: Store) -> list[RecipeSummary]:
    """Every recipe by name."""
    rows = store.query(
        "SELECT id, name, serves,"
        " (SELECT count(food_id) FROM recipe_line WHERE recipe_id = recipe.id),"
        " (SELECT count(item) FROM recipe_line WHERE recipe_id = recipe.id),"
        " (SELECT max(on_day) FROM meal WHERE recipe_id = recipe.id)"
        " FROM recipe ORDER BY name"
    )
    return [
        RecipeSummary(row[0], row[1], row[2], row[3], row[4], day_or_none(row[5])) for row in rows
    ]


def recipe_names(store: Store) -> list[str]:
    """The names alone."""
    return [str(row[0]) for row in store.query("SELECT name FROM recipe ORDER BY name")]


def recipe_by_name(store: Store, name: str) -> RecipeRecord | None:
    """The recipe of this name, whatever the case, or None."""
    return _recipe(store, "name = ?", name.strip())


def recipe_by_id(store: Store, recipe_id: int) -> RecipeRecord | None:
    """The recipe of this id, or None."""
    return _recipe(store, "id = ?", recipe_id)


def _recipe(store: Store, where: str, value: str | int) -> RecipeRecord | None:
    row = store.one(
        f"SELECT id, name, serves, cooking_water_dg, steps FROM recipe WHERE {where}", (value,)
    )
    if row is None:
        return None
    lines = store.query(
        "SELECT position, food_id, food.name, basis, weight_dg, servings_hundredths, item,"
        " amount_thousandths, unit FROM recipe_line LEFT JOIN food ON food.id = food_id"
        " WHERE recipe_id = ? ORDER BY position",
        (row[0],),
    )
    return RecipeRecord(
        recipe_id=row[0],
        name=row[1],
        serves=row[2],
        cooking_water_dg=row[3],
        steps=row[4],
        lines=tuple(RecipeLine(*line) for line in lines),
    )


def insert_recipe(
    store: Store,
    *,
    name: str,
    serves: int,
    cooking_water_dg: int,
    steps: str,
    lines: Sequence[RecipeLine],
) -> int:
    """Add a recipe with its lines; returns its id."""
    recipe_id = store.run(
        "INSERT INTO recipe (name, serves, cooking_water_dg, steps) VALUES (?, ?, ?, ?)",
        (name, serves, cooking_water_dg, steps),
    )
    _insert_lines(store, recipe_id, lines)
    return recipe_id


def update_recipe(store: Store, recipe: RecipeRecord) -> None:
    """Write a recipe anew: its fields, and its lines in place of those it had."""
    store.run(
        "UPDATE recipe SET name = ?, serves = ?, cooking_water_dg = ?, steps = ? WHERE id = ?",
        (recipe.name, recipe.serves, recipe.cooking_water_dg, recipe.steps, recipe.recipe_id),
    )
    store.run("DELETE FROM recipe_line WHERE recipe_id = ?", (recipe.recipe_id,))
    _insert_lines(store, recipe.recipe_id, recipe.lines)


def _insert_lines(store: Store, recipe_id: int, lines: Sequence[RecipeLine]) -> None:
    for line in lines:
        store.run(
            "INSERT INTO recipe_line (recipe_id, position, food_id, basis, weight_dg,"
            f" servings_hundredths, item, amount_thousandths, unit) VALUES ({marks(9)})",
            (
                recipe_id,
                line.position,
                line.food_id,
                line.basis,
                line.weight_dg,
                line.servings_hundredths,
                line.item,
                line.amount_thousandths,
                line.unit,
            ),
        )


def delete_recipe(store: Store, recipe_id: int) -> None:
    """Remove a recipe; meals cooked from it keep their name."""
    store.run("UPDATE meal SET recipe_id = NULL WHERE recipe_id = ?", (recipe_id,))
    store.run("DELETE FROM recipe_line WHERE recipe_id = ?", (recipe_id,))
    store.run("DELETE FROM recipe WHERE id = ?", (recipe_id,))


def insert_meal(
    store: Store,
    *,
    recipe_id: int | None,
    name: str,
    people: int,
    on_day: date,
    rehydration_water_dg: int,
    cooking_water_dg: int,
) -> int:
    """Record a cooked meal; returns its id."""
    return store.run(
        "INSERT INTO meal (recipe_id, name, people, on_day, rehydration_water_dg,"
        f" cooking_water_dg) VALUES ({marks(6)})",
        (
            recipe_id,
            name,
            people,
            on_day.isoformat(),
            rehydration_water_dg,
            cooking_water_dg,
        ),
    )


def meals(store: Store, *, count: int) -> list[Meal]:
    """The latest meals first."""
    rows = store.query(
        "SELECT id, name, people, on_day, rehydration_water_dg, cooking_water_dg FROM meal"
        " ORDER BY on_day DESC, id DESC LIMIT ?",
        (count,),
    )
    return [Meal(row[0], row[1], row[2], day(row[3]), row[4], row[5]) for row in rows]
