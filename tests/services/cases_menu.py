"""One ordinary use of every service about menus."""

from __future__ import annotations

from dataclasses import replace

from stockroom.domain.menu_records import MenuOffer
from stockroom.domain.menu_wishes import USUAL, Between
from stockroom.services import menu, menu_wishes
from stockroom.services.session import Stockroom
from tests.menus import kept, larder
from tests.services.case import Case
from tests.world import TODAY, World

_PLANNED: list[MenuOffer] = []
"""The menu that was planned last: a search belongs before the keeping, not into it."""


def menu_kept(world: World) -> None:
    """A menu of two days, its breakfast of the first day locked."""
    larder(world, dishes=2)
    kept(world, 2)
    menu.lock_dish(world.room, TODAY, "Porridge")


def _keep_anew(world: World) -> None:
    """A menu in the place of another, of which a dish is cooked and one is locked."""
    menu_kept(world)
    menu.cook_planned(world.room, TODAY, "Pea dish")
    _PLANNED[:] = [menu.plan_menu(world.room, menu.request_again(world.room))]


def _keep(room: Stockroom) -> object:
    return menu.keep_menu(room, _PLANNED[0])


MENU_CASES: dict[str, Case] = {
    "menu_wishes.set_menu_wishes": Case(
        lambda world: menu_wishes.set_menu_wishes(world.room, replace(USUAL, reach_days=9)),
        lambda room: menu_wishes.set_menu_wishes(room, replace(USUAL, extras=Between(0, 1))),
    ),
    "menu.keep_menu": Case(_keep_anew, _keep),
    "menu.lock_dish": Case(menu_kept, lambda room: menu.lock_dish(room, TODAY, "pea")),
    "menu.unlock_dish": Case(menu_kept, lambda room: menu.unlock_dish(room, TODAY, "porridge")),
    "menu.cook_planned": Case(menu_kept, lambda room: menu.cook_planned(room, TODAY, "pea")),
}
