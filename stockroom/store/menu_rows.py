"""Kept menus and their dishes, and the stock a menu is planned from."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu_records import MenuStock, StoredDish, StoredMenu
from stockroom.store.connection import Store
from stockroom.store.rows import day, day_or_none, marks

_LEFT_WATER = (
    "package.water_dg - CASE WHEN package.taken_dg = 0 THEN 0 ELSE"
    " ifnull((SELECT sum(water_dg) FROM draw WHERE package_id = package.id), 0) END"
)


def menu_stock(store: Store) -> list[MenuStock]:
    """Every package that may be eaten from, of the foods of all recipes.

    Within a food in the order they are used: part-used first, then first in first out.
    """
    rows = store.query(
        "SELECT package.id, package.code, package.food_id, package.dry_dg - package.taken_dg,"
        f" {_LEFT_WATER}, projection.best_by, package.opened_on IS NOT NULL,"
        " projection.discard_by IS NOT NULL, lot.preparation = 'raw', ifnull(place_path.path, '')"
        " FROM package JOIN lot ON lot.id = package.lot_id"
        " LEFT JOIN projection ON projection.package_id = package.id"
        " LEFT JOIN place_path ON place_path.id = package.location_id"
        " WHERE package.condition IN ('settling', 'sound', 'opened')"
        " AND package.taken_dg < package.dry_dg"
        " AND package.food_id IN (SELECT food_id FROM recipe_line WHERE food_id IS NOT NULL)"
        " ORDER BY package.food_id, package.opened_on IS NULL, lot.made_on,"
        " ifnull(projection.best_by, lot.made_on), package.id"
    )
    return [
        MenuStock(
            *row[:5],
            best_by=day_or_none(row[5]),
            opened=bool(row[6]),
            goes=bool(row[7]),
            raw=bool(row[8]),
            place=row[9],
        )
        for row in rows
    ]


def menus(store: Store) -> list[StoredMenu]:
    """Every kept menu, the latest first."""
    rows = store.query(
        "SELECT id, made_on, from_day, days, wishes, gap_millionths FROM menu ORDER BY id DESC"
    )
    return [StoredMenu(row[0], day(row[1]), day(row[2]), row[3], row[4], row[5]) for row in rows]


def planned_between(store: Store, first: date, last: date) -> list[StoredDish]:
    """The dishes of all menus on these days, both included, by day and as they were planned."""
    rows = store.query(
        f"{_DISH} WHERE on_day BETWEEN ? AND ? ORDER BY on_day, menu_id, position",
        (first.isoformat(), last.isoformat()),
    )
    return [_dish(row) for row in rows]


_DISH = (
    "SELECT planned_dish.id, menu_id, on_day, position, recipe_id, planned_dish.name, people,"
    " locked, meal_id, ifnull(recipe.occasion, 'main')"
    " FROM planned_dish LEFT JOIN recipe ON recipe.id = planned_dish.recipe_id"
)


def _dish(row: tuple[Any, ...]) -> StoredDish:
    return StoredDish(
        row[0], row[1], day(row[2]), row[3], row[4], row[5], row[6], bool(row[7]), row[8],
        Occasion(row[9]),
    )  # fmt: skip


def eaten_between(store: Store, first: date, last: date) -> list[tuple[int, date]]:
    """Recipes cooked on these days, both included, with the day."""
    rows = store.query(
        "SELECT DISTINCT recipe_id, on_day FROM meal WHERE recipe_id IS NOT NULL"
        " AND on_day BETWEEN ? AND ? ORDER BY on_day, recipe_id",
        (first.isoformat(), last.isoformat()),
    )
    return [(row[0], day(row[1])) for row in rows]


def insert_menu(store: Store, menu: StoredMenu) -> int:
    """Record a menu (its `menu_id` is ignored); returns its id."""
    return store.run(
        f"INSERT INTO menu (made_on, from_day, days, wishes, gap_millionths) VALUES ({marks(5)})",
        (
            menu.made_on.isoformat(),
            menu.from_day.isoformat(),
            menu.days,
            menu.wishes,
            menu.gap_millionths,
        ),
    )


def insert_dish(store: Store, dish: StoredDish) -> int:
    """Record a planned dish (its `dish_id` is ignored); returns its id."""
    return store.run(
        "INSERT INTO planned_dish (menu_id, on_day, position, recipe_id, name, people, locked,"
        f" meal_id) VALUES ({marks(8)})",
        (
            dish.menu_id,
            dish.on.isoformat(),
            dish.position,
            dish.recipe_id,
            dish.name,
            dish.people,
            int(dish.locked),
            dish.meal_id,
        ),
    )


def delete_dishes(store: Store, dish_ids: Iterable[int]) -> None:
    """Take dishes out, and menus that have none left."""
    for dish_id in dish_ids:
        store.run("DELETE FROM planned_dish WHERE id = ?", (dish_id,))
    store.run(
        "DELETE FROM menu WHERE NOT EXISTS"
        " (SELECT 1 FROM planned_dish WHERE planned_dish.menu_id = menu.id)"
    )


def set_locked(store: Store, dish_id: int, *, locked: bool) -> None:
    """Lock a dish in its place, or free it."""
    store.run("UPDATE planned_dish SET locked = ? WHERE id = ?", (int(locked), dish_id))


def set_meal(store: Store, dish_id: int, meal_id: int) -> None:
    """Say which meal a planned dish became."""
    store.run("UPDATE planned_dish SET meal_id = ? WHERE id = ?", (meal_id, dish_id))


_USABLE = "ifnull(json_extract({row}, '$.condition') IN ('settling', 'sound', 'opened'), 0)"


def packages_changed_since(store: Store, menu_id: int, action: str) -> int:
    """Packages that came, went or were taken from since a menu was kept, other than by `action`."""
    return int(
        store.value(
            "SELECT count(DISTINCT change.row_id) FROM change"
            " JOIN journal ON journal.id = change.journal_id"
            " WHERE change.journal_id > (SELECT max(journal_id) FROM change"
            "  WHERE table_name = 'menu' AND row_id = ? AND before IS NULL)"
            " AND table_name = 'package' AND journal.action <> ?"
            f" AND ({_USABLE.format(row='before')} <> {_USABLE.format(row='after')}"
            "  OR json_extract(before, '$.taken_dg') <> json_extract(after, '$.taken_dg'))",
            (menu_id, action),
        )
    )
