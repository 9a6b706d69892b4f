"""Refusals of menus."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

from stockroom.domain.foods import Allergen
from stockroom.domain.menu.quick import FixedBeyondStock
from stockroom.domain.menu_records import MenuOffer, MenuRequest, Swap
from stockroom.domain.menu_wishes import USUAL, WishesUnreadable
from stockroom.domain.person import Activity, Sex
from stockroom.errors import BadInput, NotFound
from stockroom.services import (
    foods,
    kitchen,
    menu,
    menu_reading,
    menu_shown,
    menu_solver,
    menu_wishes,
    people,
)
from stockroom.services.finding import Ambiguous
from stockroom.services.household import change_household
from stockroom.services.people import Told
from stockroom.services.session import Stockroom
from tests.menus import asked, kept, larder, soften
from tests.services.cases_menu import menu_kept
from tests.services.refusals.base import HALF_A_PAIR, Refusal, nothing
from tests.store.entries import acted
from tests.world import PEAS, TODAY, World

_KEPT: list[MenuOffer] = []


def _offer(world: World, days: int = 2) -> None:
    _KEPT[:] = [menu.plan_menu(world.room, asked(world, days))]


def _offered(world: World) -> None:
    larder(world, dishes=2)
    _offer(world)


def cooked(world: World) -> None:
    """The main dish of today is cooked, an offer made before that."""
    menu_kept(world)
    _offer(world)
    menu.cook_planned(world.room, TODAY, "pea")


def recipe_gone(world: World) -> None:
    """The main dish of today has lost its recipe."""
    menu_kept(world)
    name = next(dish.name for dish in menu_shown.shown_menu(world.room).dishes
                if dish.on == TODAY and dish.name.startswith("Pea"))  # fmt: skip
    kitchen.remove_recipe(world.room, name)


def allergic(world: World) -> None:
    """Somebody came who must not get what is in the peas."""
    menu_kept(world)
    foods.change_food(world.room, PEAS, allergens=[Allergen.MILK])
    people.add_member(
        world.room, "Zoë", sex=Sex.FEMALE, age_years=Fraction(41), activity=Activity.LOW,
        told=Told(allergens=[Allergen.MILK]),
    )  # fmt: skip


def two_mains(world: World) -> None:
    """Two main dishes on one day."""
    larder(world, dishes=3)
    kept(world, 1, replace(USUAL, mains=replace(USUAL.mains, least=2)))


def _unreadable(world: World) -> None:
    larder(world, dishes=2)
    with acted(world.room.store):
        world.room.store.run(
            "INSERT INTO setting (key, value) VALUES ('menu_wishes', '{\"reach_days\": -1}')"
        )


def _unreadable_menu(world: World) -> None:
    menu_kept(world)
    with acted(world.room.store):
        world.room.store.run("UPDATE menu SET wishes = '{\"feast\": 1}'")


def _softened(world: World) -> None:
    codes = larder(world, dishes=2)
    _offer(world)
    for code in codes:
        soften(world, code)


def _more_eaters(world: World) -> None:
    """The helpings are others than those the plan was made with."""
    _offered(world)
    change_household(world.room, people=7)


def _no_book(world: World) -> None:
    """Every recipe was taken out of the book since."""
    _offered(world)
    for recipe in kitchen.list_recipes(world.room):
        kitchen.remove_recipe(world.room, recipe.name)


def _all_gone(world: World) -> None:
    """Every dish has a reason against it, so that the menu is empty."""
    allergic(world)
    for name in ("Porridge 0", "Porridge 1"):
        kitchen.change_recipe(world.room, name, allergens=[Allergen.MILK])
    menu.unlock_dish(world.room, TODAY, "porridge")
    _offer(world)


def _locked_beyond(world: World) -> None:
    codes = larder(world, dishes=2)
    kept(world, 2)
    menu.lock_dish(world.room, TODAY, "porridge")
    for code in codes:
        soften(world, code)


def _keep(room: Stockroom) -> object:
    return menu.keep_menu(room, _KEPT[0])


def _keep_request(request: MenuRequest) -> Callable[[Stockroom], object]:
    return lambda room: menu.keep_menu(room, replace(_KEPT[0], request=request))


def _request(swap: Swap | None = None, days: int = 2, ahead: int = 0) -> MenuRequest:
    return MenuRequest(TODAY + timedelta(days=ahead), days, USUAL, swap)


def _plan(request: MenuRequest) -> Callable[[Stockroom], object]:
    return lambda room: menu.plan_menu(room, request)


def _solve(room: Stockroom) -> object:
    question = menu_reading.ask(room, menu.request_again(room)).question
    return menu_solver.plan_menu(question, menu_solver.Effort(seconds=5))


_WAYS: tuple[tuple[str, Callable[[MenuRequest], Callable[[Stockroom], object]]], ...] = (
    ("menu.plan_menu", _plan),
    ("menu.quick_menu", lambda request: lambda room: menu.quick_menu(room, request)),
    ("menu_reading.ask", lambda request: lambda room: menu_reading.ask(room, request)),
    ("menu.keep_menu", _keep_request),
)
_SWAPS = (
    (cooked, menu_reading.DishCooked, Swap(TODAY, "pea", "Porridge 1"), ("cooked",)),
    (allergic, menu_reading.DishNotPlannable, Swap(TODAY, "porridge", "Pea dish 0"),
     ("holds milk, which Zoë must not get",)),
    (menu_kept, NotFound, Swap(TODAY, "gruel", "Pea dish 0"), ("no planned dish “gruel on",)),
    (two_mains, Ambiguous, Swap(TODAY, "pea", "Porridge 0"), ("more than one planned dish",)),
    (menu_kept, BadInput, Swap(TODAY, HALF_A_PAIR, "Pea dish 0"), ("dish",)),
)  # fmt: skip
_DAYS = (
    (_request(days=0), ("days", "“0”", "1 to 60")),
    (_request(days=61), ("days", "“61”")),
    (_request(ahead=-1), ("first day", "today or a later day")),
    (_request(ahead=3_651), ("first day", "ten years")),
)


def _prepared(prepare: Callable[[World], object]) -> Callable[[World], object]:
    """With an offer at hand, for the service that keeps one."""

    def both(world: World) -> None:
        prepare(world)
        if prepare is not cooked:
            _KEPT[:] = [menu.quick_menu(world.room, asked(world, 2))]

    return both


def _barred(service: str) -> tuple[Refusal, ...]:
    """What locking, freeing and cooking a dish have in common."""
    act = {
        "menu.lock_dish": menu.lock_dish,
        "menu.unlock_dish": menu.unlock_dish,
        "menu.cook_planned": menu.cook_planned,
        "menu_reading.find_planned": menu_reading.find_planned,
    }[service]
    return (
        Refusal(service, NotFound, menu_kept, lambda room: act(room, TODAY, "gruel"),
                ("“gruel on 2026-11-25”", "Nearest: Porridge")),
        Refusal(service, Ambiguous, menu_kept, lambda room: act(room, TODAY, ""),
                ("names more than one planned dish", "Pea dish")),
        Refusal(service, BadInput, menu_kept, lambda room: act(room, TODAY, HALF_A_PAIR),
                ("dish", "UTF-8")),
    )  # fmt: skip


MENU = (
    *(
        Refusal(service, error, _prepared(prepare), way(_request(swap)), facts)
        for service, way in _WAYS
        for prepare, error, swap, facts in _SWAPS
    ),
    *(
        Refusal(service, BadInput, _prepared(menu_kept), way(request), facts)
        for service, way in _WAYS
        for request, facts in _DAYS
    ),
    *(
        Refusal(service, menu_reading.NoRecipes, nothing, way(_request()), ("no recipes",))
        for service, way in _WAYS[:3]
    ),
    Refusal(
        "menu.plan_menu",
        BadInput,
        menu_kept,
        _plan(_request(Swap(TODAY + timedelta(days=1), "pea", "Porridge 0"), days=1)),
        ("day", "still to come"),
    ),
    Refusal(
        "menu_reading.menu_question",
        menu_reading.NoRecipes,
        nothing,
        lambda room: menu_reading.menu_question(room, TODAY, 2, USUAL),
        ("no recipes", "Write some first"),
    ),
    Refusal(
        "menu_reading.menu_question",
        BadInput,
        menu_kept,
        lambda room: menu_reading.menu_question(room, TODAY, 99, USUAL),
        ("days", "“99”"),
    ),
    *(
        Refusal(service, FixedBeyondStock, _locked_beyond, act, ("Porridge", "fixed on 2026-11-25"))
        for service, act in (
            ("menu.plan_menu", _plan(_request())),
            ("menu.quick_menu", lambda room: menu.quick_menu(room, _request())),
            ("menu_solver.plan_menu", _solve),
        )
    ),
    Refusal("menu.keep_menu", menu.MenuOutdated, _softened, _keep, ("no longer fits", "again")),
    Refusal("menu.keep_menu", menu.MenuOutdated, _more_eaters, _keep, ("no longer fits",)),
    Refusal("menu.keep_menu", menu_reading.NoRecipes, _no_book, _keep, ("no recipes",)),
    Refusal("menu.keep_menu", menu.EmptyMenu, _all_gone, _keep, ("no dish in this menu",)),
    *_barred("menu.lock_dish"),
    *_barred("menu.unlock_dish"),
    *_barred("menu.cook_planned"),
    *_barred("menu_reading.find_planned"),
    *(
        Refusal(service, menu_reading.DishCooked, cooked, act, ("was cooked already",))
        for service, act in (
            ("menu.lock_dish", lambda room: menu.lock_dish(room, TODAY, "pea")),
            ("menu.unlock_dish", lambda room: menu.unlock_dish(room, TODAY, "pea")),
            ("menu.cook_planned", lambda room: menu.cook_planned(room, TODAY, "pea")),
        )
    ),
    *(
        Refusal(service, menu.RecipeGone, recipe_gone, act, ("taken out of the book",))
        for service, act in (
            ("menu.lock_dish", lambda room: menu.lock_dish(room, TODAY, "pea")),
            ("menu.cook_planned", lambda room: menu.cook_planned(room, TODAY, "pea")),
        )
    ),
    *(
        Refusal(service, menu_reading.DishNotPlannable, allergic, act, ("holds milk, which Zoë",))
        for service, act in (
            ("menu.lock_dish", lambda room: menu.lock_dish(room, TODAY, "pea")),
            ("menu.cook_planned", lambda room: menu.cook_planned(room, TODAY, "pea")),
            (
                "menu_reading.refuse_unfit",
                lambda room: menu_reading.refuse_unfit(menu_reading.MenuBook(room), 1),
            ),
        )
    ),
    Refusal(
        "menu.lock_dish", menu.SameLock, menu_kept,
        lambda room: menu.lock_dish(room, TODAY, "porridge"), ("is locked already",),
    ),
    Refusal(
        "menu.unlock_dish", menu.SameLock, menu_kept,
        lambda room: menu.unlock_dish(room, TODAY, "pea"), ("is not locked already",),
    ),
    *(
        Refusal(service, menu.NoMenu, larder, act, ("No menu is kept", "stockroom menu --days 7"))
        for service, act in (
            ("menu.request_again", menu.request_again),
            ("menu.standing_menu", menu.standing_menu),
            ("menu_shown.shown_menu", menu_shown.shown_menu),
        )
    ),
    *(
        Refusal(service, WishesUnreadable, _unreadable_menu, act, ("“feast” is no wish",))
        for service, act in (
            ("menu.request_again", menu.request_again),
            ("menu_shown.shown_menu", menu_shown.shown_menu),
        )
    ),
    Refusal(
        "menu_wishes.menu_wishes", WishesUnreadable, _unreadable, menu_wishes.menu_wishes,
        ("cannot be read: reach", "stockroom menu wishes --usual"),
    ),
    Refusal(
        "menu_wishes.set_menu_wishes", menu_wishes.SameWishes, nothing,
        lambda room: menu_wishes.set_menu_wishes(room, USUAL), ("these already",),
    ),
)  # fmt: skip
