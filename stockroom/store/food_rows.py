"""Foods and their allergens, and the household's containers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from stockroom.domain.records import Container, Food
from stockroom.store.connection import Store
from stockroom.store.rows import folded, marks

_FOOD = """
    SELECT id, name, reference_key, food_group, food_class, preparation, serving_dg, water_cg,
        energy_tenth_kcal, protein_cg, fat_cg, ash_cg, carbohydrate_cg, fibre_cg, sugars_cg,
        ingredients_unknown, note,
        (SELECT group_concat(allergen) FROM (SELECT allergen FROM food_allergen
            WHERE food_id = food.id ORDER BY allergen))
    FROM food"""


def _food(row: tuple[Any, ...]) -> Food:
    allergens = tuple(str(row[17]).split(",")) if row[17] else ()
    return Food(*row[:15], ingredients_unknown=bool(row[15]), note=row[16], allergens=allergens)


def all_foods(store: Store) -> list[Food]:
    """Every food of the household by name."""
    return [_food(row) for row in store.query(f"{_FOOD} ORDER BY name")]


def live_counts(store: Store) -> dict[int, int]:
    """Food id → packages of it that are still there; foods without any are left out."""
    rows = store.query(
        "SELECT food_id, count(*) FROM package WHERE condition NOT IN ('used', 'discarded')"
        " GROUP BY food_id"
    )
    return {int(row[0]): int(row[1]) for row in rows}


def food_by_id(store: Store, food_id: int) -> Food | None:
    """One food, or None."""
    row = store.one(f"{_FOOD} WHERE id = ?", (food_id,))
    return None if row is None else _food(row)


def food_by_name(store: Store, name: str) -> Food | None:
    """The food of this name, whatever the case, or None."""
    row = store.one(f"{_FOOD} WHERE name = ?", (name.strip(),))
    return None if row is None else _food(row)


def food_names(store: Store) -> list[str]:
    """The names alone."""
    return [str(row[0]) for row in store.query("SELECT name FROM food ORDER BY name")]


def food_ids_matching(store: Store, word: str) -> list[int]:
    """Foods whose name holds the word, whatever the case and accents."""
    wanted = folded(word)
    rows = store.query("SELECT id, name FROM food")
    return [int(food_id) for food_id, name in rows if wanted in folded(name)]


def insert_food(store: Store, food: Food) -> int:
    """Add a food (its `food_id` is ignored) with its allergens; returns the new id."""
    food_id = store.run(
        "INSERT INTO food (name, reference_key, food_group, food_class, preparation, serving_dg,"
        " water_cg, energy_tenth_kcal, protein_cg, fat_cg, ash_cg, carbohydrate_cg, fibre_cg,"
        f" sugars_cg, ingredients_unknown, note) VALUES ({marks(16)})",
        (
            food.name,
            food.reference_key,
            food.food_group,
            food.food_class,
            food.preparation,
            food.serving_dg,
            food.water_cg,
            food.energy_tenth_kcal,
            food.protein_cg,
            food.fat_cg,
            food.ash_cg,
            food.carbohydrate_cg,
            food.fibre_cg,
            food.sugars_cg,
            int(food.ingredients_unknown),
            food.note,
        ),
    )
    replace_allergens(store, food_id, food.allergens)
    return food_id


def update_food(store: Store, food: Food) -> None:
    """Write the changeable parts of a food: name, class, preparation, serving, note, allergens."""
    store.run(
        "UPDATE food SET name = ?, food_class = ?, preparation = ?, serving_dg = ?,"
        " ingredients_unknown = ?, note = ? WHERE id = ?",
        (
            food.name,
            food.food_class,
            food.preparation,
            food.serving_dg,
            int(food.ingredients_unknown),
            food.note,
            food.food_id,
        ),
    )
    replace_allergens(store, food.food_id, food.allergens)


def replace_allergens(store: Store, food_id: int, allergens: Iterable[str]) -> None:
    """Make the food's allergens exactly these; rows that stay are not touched."""
    wanted = set(allergens)
    had = {
        str(row[0])
        for row in store.query("SELECT allergen FROM food_allergen WHERE food_id = ?", (food_id,))
    }
    for allergen in sorted(had - wanted):
        store.run(
            "DELETE FROM food_allergen WHERE food_id = ? AND allergen = ?", (food_id, allergen)
        )
    for allergen in sorted(wanted - had):
        store.run(
            "INSERT INTO food_allergen (food_id, allergen) VALUES (?, ?)", (food_id, allergen)
        )


_CONTAINER = "SELECT id, key, name, package_kind, volume_ml, width_mm, height_mm FROM container"


def all_containers(store: Store) -> list[Container]:
    """Every container, by kind and volume."""
    rows = store.query(f"{_CONTAINER} ORDER BY package_kind, volume_ml, key")
    return [Container(*row) for row in rows]


def container_by_key(store: Store, key: str) -> Container | None:
    """The container of this key, or None."""
    row = store.one(f"{_CONTAINER} WHERE key = ?", (key.strip().lower(),))
    return None if row is None else Container(*row)


def insert_containers(store: Store, containers: Sequence[Container]) -> None:
    """Add containers; their `container_id` is ignored."""
    store.run_many(
        "INSERT INTO container (key, name, package_kind, volume_ml, width_mm, height_mm)"
        " VALUES (?, ?, ?, ?, ?, ?)",
        [(c.key, c.name, c.package_kind, c.volume_ml, c.width_mm, c.height_mm) for c in containers],
    )
