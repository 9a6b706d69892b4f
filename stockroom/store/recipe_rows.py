"""Recipes, their lines, and the meals cooked from them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from stockroom.domain.records import Meal, RecipeLine, RecipeRecord, RecipeSummary
from stockroom.store.connection import Store
from stockroom.store.rows import day, day_or_none, marks, text_of

_FIELDS = (
    "name",
    "serves",
    "cooking_water_dg",
    "steps",
    "hold_back_percent",
    "cook_to_dc",
    "water_temperature_dc",
    "occasion",
    "fresh_kcal",
    "fresh_protein_dg",
    "origin",
)
"""Columns of a recipe that are named like the fields of its record."""

_LINE = (
    "position",
    "food_id",
    "basis",
    "weight_dg",
    "servings_hundredths",
    "item",
    "amount_thousandths",
    "unit",
    "hold_back_percent",
)


def recipe_summaries(store: Store) -> list[RecipeSummary]:
    """Every recipe by name."""
    rows = store.query(
        "SELECT id, name, serves,"
        " (SELECT count(food_id) FROM recipe_line WHERE recipe_id = recipe.id),"
        " (SELECT count(item) FROM recipe_line WHERE recipe_id = recipe.id),"
        " (SELECT max(on_day) FROM meal WHERE recipe_id = recipe.id), occasion, cook_to_dc"
        " FROM recipe ORDER BY name"
    )
    return [
        RecipeSummary(
            *row[:5], last_cooked_on=day_or_none(row[5]), occasion=row[6], cook_to_dc=row[7]
        )
        for row in rows
    ]


def recipe_names(store: Store) -> list[str]:
    """The names alone."""
    return [str(row[0]) for row in store.query("SELECT name FROM recipe ORDER BY name")]


def all_recipes(store: Store) -> list[RecipeRecord]:
    """Every recipe whole, by name."""
    return _recipes(store, "", ())


def recipe_by_name(store: Store, name: str) -> RecipeRecord | None:
    """The recipe of this name, whatever the case, or None."""
    return _first(_recipes(store, "WHERE recipe.name = ?", (name.strip(),)))


def recipe_by_id(store: Store, recipe_id: int) -> RecipeRecord | None:
    """The recipe of this id, or None."""
    return _first(_recipes(store, "WHERE recipe.id = ?", (recipe_id,)))


def _first(recipes: list[RecipeRecord]) -> RecipeRecord | None:
    return recipes[0] if recipes else None


def _recipes(store: Store, where: str, values: Sequence[Any]) -> list[RecipeRecord]:
    """Recipes with their lines and allergens, by name; three queries for however many."""
    rows = store.query(f"SELECT id, {', '.join(_FIELDS)} FROM recipe {where} ORDER BY name", values)
    lines: dict[int, list[RecipeLine]] = {}
    for recipe_id, *line in store.query(
        "SELECT recipe_id, position, food_id, food.name, basis, weight_dg, servings_hundredths,"
        " item, amount_thousandths, unit, recipe_line.hold_back_percent"
        " FROM recipe JOIN recipe_line ON recipe_line.recipe_id = recipe.id"
        f" LEFT JOIN food ON food.id = food_id {where} ORDER BY recipe_id, position",
        values,
    ):
        lines.setdefault(recipe_id, []).append(RecipeLine(*line))
    allergens: dict[int, list[str]] = {}
    for recipe_id, allergen in store.query(
        "SELECT recipe_id, allergen FROM recipe"
        f" JOIN recipe_allergen ON recipe_allergen.recipe_id = recipe.id {where}"
        " ORDER BY recipe_id, allergen",
        values,
    ):
        allergens.setdefault(recipe_id, []).append(str(allergen))
    return [
        RecipeRecord(
            recipe_id=row[0],
            **dict(zip(_FIELDS, row[1:], strict=True)),
            lines=tuple(lines.get(row[0], ())),
            allergens=tuple(allergens.get(row[0], ())),
        )
        for row in rows
    ]


def insert_recipe(store: Store, recipe: RecipeRecord) -> int:
    """Add a recipe (its `recipe_id` is ignored) with its lines; returns its id."""
    recipe_id = store.run(
        f"INSERT INTO recipe ({', '.join(_FIELDS)}) VALUES ({marks(len(_FIELDS))})",
        _values(recipe),
    )
    _insert_parts(store, recipe_id, recipe)
    return recipe_id


def update_recipe(store: Store, recipe: RecipeRecord) -> None:
    """Write a recipe anew: its fields, and its lines and allergens in place of those it had."""
    columns = ", ".join(f"{name} = ?" for name in _FIELDS)
    store.run(f"UPDATE recipe SET {columns} WHERE id = ?", (*_values(recipe), recipe.recipe_id))
    _delete_parts(store, recipe.recipe_id)
    _insert_parts(store, recipe.recipe_id, recipe)


def _values(recipe: RecipeRecord) -> tuple[Any, ...]:
    return tuple(getattr(recipe, name) for name in _FIELDS)


def _insert_parts(store: Store, recipe_id: int, recipe: RecipeRecord) -> None:
    for line in recipe.lines:
        store.run(
            f"INSERT INTO recipe_line (recipe_id, {', '.join(_LINE)})"
            f" VALUES ({marks(1 + len(_LINE))})",
            (recipe_id, *(getattr(line, name) for name in _LINE)),
        )
    for allergen in recipe.allergens:
        store.run(
            "INSERT INTO recipe_allergen (recipe_id, allergen) VALUES (?, ?)",
            (recipe_id, allergen),
        )


def _delete_parts(store: Store, recipe_id: int) -> None:
    store.run("DELETE FROM recipe_line WHERE recipe_id = ?", (recipe_id,))
    store.run("DELETE FROM recipe_allergen WHERE recipe_id = ?", (recipe_id,))


def delete_recipe(store: Store, recipe_id: int) -> None:
    """Remove a recipe; meals cooked from it and dishes planned with it keep their name."""
    store.run("UPDATE meal SET recipe_id = NULL WHERE recipe_id = ?", (recipe_id,))
    store.run("UPDATE planned_dish SET recipe_id = NULL WHERE recipe_id = ?", (recipe_id,))
    _delete_parts(store, recipe_id)
    store.run("DELETE FROM recipe WHERE id = ?", (recipe_id,))


@dataclass(frozen=True, slots=True)
class NewMeal:
    """A meal to be recorded."""

    recipe_id: int | None
    name: str
    people: int
    on_day: date
    rehydration_water_dg: int
    cooking_water_dg: int
    wetted_at: datetime | None = None
    eat_by: date | None = None


def insert_meal(store: Store, meal: NewMeal) -> int:
    """Record a cooked meal; returns its id."""
    return store.run(
        "INSERT INTO meal (recipe_id, name, people, on_day, rehydration_water_dg,"
        f" cooking_water_dg, wetted_at, eat_by) VALUES ({marks(8)})",
        (
            meal.recipe_id,
            meal.name,
            meal.people,
            meal.on_day.isoformat(),
            meal.rehydration_water_dg,
            meal.cooking_water_dg,
            None if meal.wetted_at is None else meal.wetted_at.isoformat(),
            text_of(meal.eat_by),
        ),
    )


def meals(store: Store, *, count: int) -> list[Meal]:
    """The latest meals first."""
    rows = store.query(
        f"SELECT {_MEAL} FROM meal ORDER BY on_day DESC, id DESC LIMIT ?",
        (count,),
    )
    return [_meal(row) for row in rows]


def meal_by_id(store: Store, meal_id: int) -> Meal | None:
    """One meal, or None."""
    row = store.one(f"SELECT {_MEAL} FROM meal WHERE id = ?", (meal_id,))
    return None if row is None else _meal(row)


_MEAL = "id, name, people, on_day, rehydration_water_dg, cooking_water_dg, wetted_at, eat_by"


def _meal(row: tuple[Any, ...]) -> Meal:
    return Meal(
        *row[:3],
        on_day=day(row[3]),
        rehydration_water_dg=row[4],
        cooking_water_dg=row[5],
        wetted_at=None if row[6] is None else datetime.fromisoformat(row[6]),
        eat_by=day_or_none(row[7]),
    )
