"""Plausible uses of the services about menus, drawn by chance."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

from stockroom.domain.menu_records import MenuRequest
from stockroom.domain.menu_wishes import USUAL, Between, MenuWishes
from stockroom.services import menu, menu_wishes
from stockroom.services.session import Stockroom
from stockroom.store import menu_rows

LOOSE = MenuWishes(
    breakfasts=Between(1, 1),
    mains=Between(1, 2),
    extras=Between(1, 1),
    energy=Between(0, 1_000),
    plan_energy=Between(0, 1_000),
    protein_percent=0,
    apart_days=1,
)
"""Any dish may stand on any day, and some should."""


def _wishes(room: Stockroom, pick: Random) -> object:
    return menu_wishes.set_menu_wishes(room, pick.choice((USUAL, LOOSE, LOOSE)))


def _keep(room: Stockroom, pick: Random) -> object:
    """The menu found at once, or around what is locked."""
    if pick.random() < 0.3:
        request = menu.request_again(room, LOOSE)
    else:
        first = room.today + timedelta(days=pick.choice((0, 0, 1, 400)))
        request = MenuRequest(first, pick.randrange(1, 4), LOOSE)
    return menu.keep_menu(room, menu.quick_menu(room, request))


def _dish(room: Stockroom, pick: Random) -> tuple[date, str]:
    """A planned dish, if there is one."""
    far = timedelta(days=1_000)
    every = menu_rows.planned_between(room.store, room.today - far, room.today + far)
    if not every:
        return room.today, ""
    one = pick.choice(every)
    return one.on, one.name


MENU_STEPS = {
    "menu_wishes.set_menu_wishes": _wishes,
    "menu.keep_menu": _keep,
    "menu.lock_dish": lambda room, pick: menu.lock_dish(room, *_dish(room, pick)),
    "menu.unlock_dish": lambda room, pick: menu.unlock_dish(room, *_dish(room, pick)),
    "menu.cook_planned": lambda room, pick: menu.cook_planned(room, *_dish(room, pick)),
}
"""Service → a step that uses it."""
