"""The Menu by keys: searching, keeping, locking, swapping, cooking, and what it says."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from threading import Event
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.menu_records import MenuDish, MenuOffer
from stockroom.domain.menu_wishes import USUAL, Between
from stockroom.services import history, kitchen, menu
from stockroom.services.menu_shown import shown_menu
from stockroom.services.menu_solver import Progress
from stockroom.services.menu_wishes import menu_wishes, set_menu_wishes
from stockroom.store.writing import write
from stockroom.tui.screens import menu as menu_screen
from stockroom.tui.screens.cook import CookScreen
from stockroom.tui.screens.kitchen import KitchenScreen
from stockroom.tui.screens.menu import MenuScreen
from stockroom.tui.screens.menu_words import dish_key, search_text
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.menus import kept, larder, soften
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import SIZES
from tests.world import TODAY, World

SameScreen = Callable[[App[Any], str], None]


async def to_menu(driver: Driver) -> MenuScreen:
    """Open the menu from the Kitchen."""
    await driver.press("4", "p")
    assert isinstance(driver.screen, MenuScreen)
    return driver.screen


async def come(driver: Driver, there: Callable[[], bool]) -> None:
    """Wait until something is so."""
    for _ in range(500):
        if there():
            break
        await driver.pilot.pause(0.01)
    assert there()
    await driver.pilot.pause()


def dishes(world: World) -> tuple[MenuDish, ...]:
    """The dishes of the kept menu."""
    return shown_menu(world.room).dishes


@pytest.mark.parametrize("size", SIZES)
async def test_without_a_menu_it_says_what_to_do(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    larder(world)
    async with driving(world, size) as driver:
        await to_menu(driver)
        assert "No menu is kept. Press s" in driver.words
        same_screen(driver.app, "menu-empty")
        await driver.press("escape")
        assert isinstance(driver.screen, KitchenScreen)


@pytest.mark.parametrize("size", SIZES)
async def test_a_kept_menu(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    larder(world)
    kept(world)
    first = dishes(world)[0]
    menu.cook_planned(world.room, first.on, first.name)
    second = dishes(world)[1]
    menu.lock_dish(world.room, second.on, second.name)
    async with driving(world, size) as driver:
        await to_menu(driver)
        assert "cooked" in driver.text and "locked" in driver.text
        same_screen(driver.app, "menu-kept")
        await driver.press("a")
        assert isinstance(driver.screen, ReadScreen)
        same_screen(driver.app, "menu-account")


async def test_s_asks_for_days_searches_and_k_keeps(world: World) -> None:
    larder(world)
    before = world.dump()
    async with driving(world, notices=True) as driver:
        screen = await to_menu(driver)
        await driver.press("s")
        assert isinstance(driver.screen, FormScreen)
        await driver.press("enter")
        await driver.clear()
        await driver.enter("3")
        await driver.settle()
        assert driver.screen is screen
        assert screen.offer is not None and "not kept yet: k keeps it" in driver.words
        assert world.dump() == before
        await driver.press("k")
        assert screen.offer is None and "kept a menu of" in driver.words
        assert screen.kept is not None and screen.kept.kept
    assert len({dish.on for dish in dishes(world)}) == 3
    history.undo(world.room)
    assert world.dump() == before


async def test_a_menu_not_kept_is_left_with_escape(world: World) -> None:
    larder(world)
    kept(world)
    before = world.dump()
    async with driving(world) as driver:
        screen = await to_menu(driver)
        await driver.press("s")
        assert screen.offer is not None
        await driver.press("escape")
        assert screen.offer is None and driver.screen is screen
        assert world.dump() == before


async def test_escape_ends_the_search_with_the_best_found(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    larder(world)
    kept(world)
    begun = Event()

    def slowly(room: Any, request: Any, **more: Any) -> MenuOffer:
        more["first"](menu.quick_menu(room, request))
        more["progress"](Progress(10, 20, 1_000_000, 1.5))
        begun.set()
        for _ in range(1_000):
            if more["cancelled"]():
                return menu.plan_menu(room, request, cancelled=more["cancelled"])
            Event().wait(0.01)
        raise AssertionError("nobody ended the search")

    monkeypatch.setattr(menu_screen, "plan_menu", slowly)
    async with driving(world) as driver:
        screen = await to_menu(driver)
        await driver.pilot.press("s")
        assert begun.wait(10)
        await come(driver, lambda: "value 10, at most 20, gap 100.0 %" in driver.words)
        assert screen.offer is not None and screen.searching
        await driver.pilot.press("k", "l", "w")
        assert driver.screen is screen and screen.searching
        await driver.press("escape")
        await come(driver, lambda: not screen.searching)
        assert screen.offer is not None and screen.offer.plan.dishes
        await driver.press("k")
        assert screen.kept is not None and screen.kept.dishes


async def test_leaving_the_program_ends_the_search(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    larder(world)
    kept(world)
    begun, ended = Event(), Event()

    def endless(room: Any, request: Any, **more: Any) -> MenuOffer:
        begun.set()
        for _ in range(1_000):
            if more["cancelled"]():
                ended.set()
                break
            Event().wait(0.01)
        return menu.quick_menu(room, request)

    monkeypatch.setattr(menu_screen, "plan_menu", endless)
    async with driving(world) as driver:
        await to_menu(driver)
        await driver.pilot.press("s")
        assert begun.wait(10)
    assert ended.wait(10)


async def test_l_locks_and_frees_the_dish_under_the_cursor(world: World) -> None:
    larder(world)
    kept(world)
    async with driving(world, notices=True) as driver:
        screen = await to_menu(driver)
        await driver.press("l")
        assert not any(dish.locked for dish in dishes(world))
        await driver.press("down", "l")
        assert [dish.locked for dish in dishes(world)].count(True) == 1
        assert screen.dish is not None and screen.dish.mark == "locked"
        await driver.press("l")
        assert not any(dish.locked for dish in dishes(world))
        await driver.press("u")
        assert dishes(world)[0].locked


async def test_enter_opens_the_sheet_and_t_cooks_the_dish_of_its_day(world: World) -> None:
    larder(world)
    kept(world)
    before = world.dump()
    async with driving(world, notices=True) as driver:
        screen = await to_menu(driver)
        await driver.press("enter")
        assert driver.screen is screen
        await driver.press("down", "enter")
        assert isinstance(driver.screen, CookScreen)
        await driver.press("t", "enter")
        await driver.press("escape")
        assert driver.screen is screen
        assert screen.dish is not None and screen.dish.cooked
        await driver.press("enter", "l")
        assert driver.screen is screen
    (meal,) = kitchen.list_meals(world.room)
    assert dishes(world)[0].cooked and dishes(world)[0].name == meal.name
    history.undo(world.room)
    assert world.dump() == before


async def test_x_puts_another_dish_in_its_place(world: World) -> None:
    larder(world, dishes=4)
    kept(world)
    first = dishes(world)[0]
    taken = {dish.name for dish in dishes(world)}
    other = next(name for name in (f"Porridge {n}" for n in range(4)) if name not in taken)
    async with driving(world) as driver:
        screen = await to_menu(driver)
        await driver.press("down", "x")
        await driver.type(other)
        await driver.press("enter", "f9")
        await driver.settle()
        assert screen.offer is not None
        swapped = screen.offer.page.on(first.on)[0]
        assert (swapped.name, swapped.locked) == (other, True)
        await driver.press("k")
    assert dishes(world)[0].name == other


async def test_g_shows_what_to_buy_added_up(world: World) -> None:
    larder(world)
    offer = kept(world)
    async with driving(world) as driver:
        await to_menu(driver)
        await driver.press("g")
        assert isinstance(driver.screen, ReadScreen)
        rice = next(need for need in offer.page.shopping if need.item == "rice")
        assert f"{rice.amount} g rice" in driver.words


async def test_w_sets_the_wishes(world: World) -> None:
    larder(world)
    async with driving(world, notices=True) as driver:
        await to_menu(driver)
        await driver.press("w")
        await driver.press("f9")
        assert "these already" in driver.words
        await driver.clear()
        await driver.enter("0-2")
        await driver.press("f9")
        assert isinstance(driver.screen, MenuScreen)
    assert menu_wishes(world.room) == replace(USUAL, breakfasts=Between(0, 2))


async def test_unreadable_wishes_are_said_and_the_form_sets_them_anew(world: World) -> None:
    larder(world)
    with write(world.room.store):
        world.room.store.run("INSERT INTO setting (key, value) VALUES ('menu_wishes', '[]')")
    async with driving(world, notices=True) as driver:
        await to_menu(driver)
        await driver.press("s")
        assert "cannot be read" in driver.words
        await driver.press("w")
        await driver.clear()
        await driver.enter("0-1")
        await driver.press("f9")
    assert menu_wishes(world.room).breakfasts == Between(0, 1)


@pytest.mark.parametrize("size", SIZES)
async def test_what_does_not_fit_is_said_and_e_eases_the_wishes(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    larder(world)
    set_menu_wishes(world.room, replace(USUAL, apart_days=9))
    async with driving(world, size) as driver:
        screen = await to_menu(driver)
        await driver.press("s", "f9")
        await driver.settle()
        assert screen.offer is not None and screen.offer.page.give_up
        assert "e plans with wishes eased" in driver.words
        same_screen(driver.app, "menu-eased")
        await driver.press("e")
        await driver.settle()
        assert screen.offer.page.give_up == ()


async def test_stock_that_changed_is_said(world: World) -> None:
    codes = larder(world)
    kept(world)
    for code in codes[:6]:
        soften(world, code)
    async with driving(world) as driver:
        await to_menu(driver)
        assert "not now" in driver.text
        assert "the shelves do not hold enough for it any more" in driver.words


async def test_no_recipes_are_said(world: World) -> None:
    async with driving(world, notices=True) as driver:
        screen = await to_menu(driver)
        await driver.press("s", "f9")
        await driver.settle()
        assert "There are no recipes to plan a menu from." in driver.words
        assert not screen.searching


def test_rows_of_days_and_dishes_have_their_own_keys() -> None:
    keys = {dish_key(TODAY, place) for place in range(5)}
    keys |= {dish_key(TODAY.replace(day=26), place) for place in range(5)}
    assert len(keys) == 10


def test_a_search_without_a_menu_yet_says_so() -> None:
    assert search_text(Progress(None, None, None, 2.4)).startswith("Searching 2 s: no menu yet.")
