"""Small stores for looking ahead: packages of so many servings, best by so many days from today.

One serving of peas is 10 g as loaded, and dried a fifth of it stays: 2 g dry are one serving.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from fractions import Fraction

from stockroom.domain.quantities import to_dg
from stockroom.services import foods
from stockroom.services.session import Stockroom
from stockroom.store.writing import write
from tests.world import PEAS, TODAY, World

SERVING_G = 10
CHECK_STOCK = ((6, 10), (30, 30), (24, 60))
"""Servings and days until the best-by: 6, 36 and 60 servings are due by day 10, 30 and 60. The
least rate is 36 in 30 days, 6/5 a day; at 1.1 a day the second is finished on day 32.73, at 1 a
day on day 36 (worked out by hand from the rule that what is due by a day is eaten by then)."""


def day(number: int) -> date:
    """The day so many days after today."""
    return TODAY + timedelta(days=number)


def stock(
    world: World,
    packages: Iterable[tuple[int, int]],
    *,
    food: str = PEAS,
    place: str | None = None,
    container: str = "pouch-1500-foil",
) -> tuple[str, ...]:
    """One lot of a food in packages of (servings, days until the best-by); their codes."""
    wanted = tuple(packages)
    total = sum(servings for servings, _ in wanted)
    lot = world.dry_lot(food, total * SERVING_G, total * SERVING_G / 5)
    if world.lot(lot).serving_dg != to_dg(SERVING_G):
        foods.change_food(world.room, food, serving_dg=to_dg(SERVING_G))
    splits = [f"1x{container}:{servings * SERVING_G / 5}" for servings, _ in wanted]
    codes = world.pack(lot, *splits, place=place)
    for code, (_, days) in zip(codes, wanted, strict=True):
        set_best_by(world, code, days)
    return codes


def set_best_by(world: World, code: str, days: int) -> None:
    """Give a package a best-by of so many days from today, as the model could have."""
    told = day(days).isoformat()
    by_hand(
        world,
        "UPDATE projection SET best_by = ?, low = ?, high = ?"
        " WHERE package_id = (SELECT id FROM package WHERE code = ?)",
        *(told, told, told, code),
    )


def by_hand(world: World, sql: str, *values: object) -> None:
    """Change the file as no service does, to bring about a state."""
    with write(world.room.store):
        world.room.store.run(sql, values)


def plan_dish(
    world: World, recipe: str, on_days: Iterable[int], *, people: int, cooked: bool = False
) -> None:
    """A dish on the menu on some days; `cooked` as though it had been cooked already."""
    room = world.room
    with write(room.store):
        menu = room.store.run(
            "INSERT INTO menu (made_on, from_day, days, wishes) VALUES (?, ?, 14, '{}')",
            (TODAY.isoformat(), TODAY.isoformat()),
        )
        meal = None
        if cooked:
            meal = room.store.run(
                "INSERT INTO meal (name, people, on_day, rehydration_water_dg, cooking_water_dg)"
                " VALUES (?, ?, ?, 0, 0)",
                (recipe, people, TODAY.isoformat()),
            )
        for number in on_days:
            room.store.run(
                "INSERT INTO planned_dish (menu_id, on_day, position, recipe_id, name, people,"
                " meal_id) SELECT ?, ?, 1, id, name, ?, ? FROM recipe WHERE name = ?",
                (menu, day(number).isoformat(), people, meal, recipe),
            )


def unused_by_eating(
    packages: Iterable[tuple[Fraction, date]], a_day: Iterable[Fraction], today: date
) -> Fraction:
    """What passes its best-by when so much is eaten on each day: day by day, nothing clever.

    Packages are (servings, best-by). A package is eaten on the days before its best-by, the
    earliest first; what is past today or keeps beyond the last day is not counted.
    """
    ordered = sorted((best_by, servings) for servings, best_by in packages if best_by > today)
    left = [servings for _, servings in ordered]
    unused, on_day = Fraction(0), today
    for appetite in a_day:
        for at, servings in enumerate(left):
            taken = min(servings, appetite)
            left[at] -= taken
            appetite -= taken
        on_day += timedelta(days=1)
        for at, (best_by, _) in enumerate(ordered):
            if best_by == on_day:
                unused += left[at]
                left[at] = Fraction(0)
    return unused


def paces(room: Stockroom, paces: Iterable[tuple[date, Fraction]], days: int) -> list[Fraction]:
    """Servings of each day from paces that begin on days, for so many days from today."""
    found = [Fraction(0)] * days
    for begins, rate in paces:
        start = max((begins - room.today).days, 0) if begins > room.today else 0
        found[start:] = [rate] * (days - start)
    return found
