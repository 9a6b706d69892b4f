"""The Shelves by keys: finding, narrowing, ordering, marking, and what is done with packages."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.conditions import Event
from stockroom.domain.quantities import UnitSystem
from stockroom.services import packages
from stockroom.services.history import journal_page
from stockroom.services.household import change_household
from stockroom.tui.screens.check_screens import CheckScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.shelf_rows import EVERYTHING
from stockroom.tui.screens.shelves import ORDERS, STATES, ShelvesScreen
from stockroom.tui.screens.working import WorkingScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import Stocked, stock
from tests.world import PEAS, World

pytestmark = pytest.mark.painted
"""Which rows are read depends on what is painted."""

SameScreen = Callable[[App[Any], str], None]

NARROW = (60, 20)


def the_shelves(driver: Driver) -> ShelvesScreen:
    """The Shelves, which lie at the bottom of their mode."""
    screen = driver.app.screen_stack[0]
    assert isinstance(screen, ShelvesScreen)
    return screen


def under_cursor(driver: Driver) -> str:
    """The code of the package under the cursor."""
    row = the_shelves(driver).table.current
    return row.cells[0] if row else ""


def listed(driver: Driver, world: World) -> list[str]:
    """The codes of the whole list, in its order."""
    keys = list(the_shelves(driver).table._state.keys)
    every = {
        package.package_id: code for code in all_codes(world) for package in [world.package(code)]
    }
    return [every[key] for key in keys]


def all_codes(world: World) -> list[str]:
    """Every package there ever was."""
    return world.listed(gone=True, order="code")


# What it shows


@pytest.mark.parametrize("size", SIZES)
async def test_everything_by_best_by(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await driver.press("2")
        same_screen(driver.app, "shelves")
        assert listed(driver, world) == world.listed()
        assert "1 of 11" in driver.text


@pytest.mark.parametrize("size", SIZES)
async def test_empty_shelves_say_what_to_do(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        await driver.press("2")
        same_screen(driver.app, "shelves-empty")
        assert "Press 3 for the Bench" in driver.text


async def test_a_best_by_gone_by_has_a_sign_and_words(world: World) -> None:
    stocked = stock(world)
    async with driving(world, (100, 24)) as driver:
        await driver.press("2")
        line = next(line for line in driver.text.splitlines() if stocked.apples[0] in line)
        best_by = world.package(stocked.apples[0]).best_by
        assert f"{best_by}!" in line
        assert f"past its best-by {best_by} (quality estimate, not safety)" in driver.text


async def test_the_strip_says_what_the_package_holds(world: World) -> None:
    stock(world)
    async with driving(world, (100, 24)) as driver:
        await driver.press("2", "slash", *"jar", "enter")
        assert f"{HARD_NAME} · Cold cellar/Rack 1/Bin 1 · foil pouch 1.5 L" in driver.text
        assert "60.0 g dry, 1 serving · water 180.0 g · 180 mL · about ¾ US cup" in driver.text


async def test_us_units_are_ounces(world: World) -> None:
    stock(world)
    change_household(world.room, units=UnitSystem.US)
    async with driving(world, (100, 24)) as driver:
        await driver.press("2", "slash", *"jar", "enter")
        assert "2.12 oz dry" in driver.text


# Searching


@pytest.mark.parametrize("size", SIZES)
async def test_found_as_it_is_typed(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("2", "slash")
        await driver.type("[soft] cellar")
        same_screen(driver.app, "shelves-search")
        assert listed(driver, world) == list(stocked.hard)
        await driver.press("enter")
        assert under_cursor(driver) == stocked.hard[0]
        await driver.press("escape")
        assert len(listed(driver, world)) == 11
        assert "Find" not in driver.text


@pytest.mark.parametrize(
    "words", ["26289a", "galley", "peas", "zzz", "[/]", "%", "_", '"', "冷凍", "  peas   bin  "]
)
async def test_the_screen_finds_what_the_service_finds(world: World, words: str) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash")
        await driver.type(words)
        assert listed(driver, world) == world.listed(words)


async def test_nothing_found_says_how_to_see_everything(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash")
        await driver.type("zzz")
        assert "Nothing like that is on the shelves. Esc shows" in driver.words
        await driver.press("escape")
        assert "1 of 11" in driver.text


async def test_letters_in_the_search_line_are_no_commands(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash")
        await driver.type("mxdcotpgq12")
        assert isinstance(driver.screen, ShelvesScreen)
        assert the_shelves(driver).search.value == "mxdcotpgq12"


async def test_a_find_keeps_while_other_screens_are_looked_at(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash")
        await driver.type("jar")
        await driver.press("enter", "1", "2")
        assert listed(driver, world) == list(stocked.hard)
        assert "“jar”" in driver.text


# Order and state


async def test_orders_go_round_and_the_cursor_keeps_its_package(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("2", "down", "down", "down")
        code = under_cursor(driver)
        for order in (*ORDERS[1:], ORDERS[0]):
            await driver.press("o")
            assert listed(driver, world) == world.listed(order=order)
            assert under_cursor(driver) == code


async def test_states_go_round(world: World) -> None:
    stocked = stock(world)
    packages.discard_packages(world.room, [stocked.apples[1]], "moths")
    async with driving(world) as driver:
        await driver.press("2")
        for state in (*STATES[1:], STATES[0]):
            await driver.press("t")
            assert listed(driver, world) == world.listed(condition=state)
            assert (f"only {state}" in driver.text) == (state is not None)


# The panel


@pytest.mark.parametrize("size", SIZES)
async def test_the_panel_narrows_to_a_place_and_all_below_it(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("2", "p", "down", "down")
        same_screen(driver.app, "shelves-place")
        await driver.press("enter")
        assert the_shelves(driver).table.has_focus
        assert set(listed(driver, world)) == {*stocked.hard, *stocked.beef, *stocked.peas}
        await driver.press("escape")
        assert len(listed(driver, world)) == 11


@pytest.mark.parametrize("size", SIZES)
async def test_the_panel_by_food(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("2", "g", "p", "down")
        same_screen(driver.app, "shelves-food")
        assert set(listed(driver, world)) == set(stocked.hard)
        await driver.press("g")
        assert the_shelves(driver).side_table.cursor_key == EVERYTHING
        assert len(listed(driver, world)) == 11


async def test_the_panel_comes_and_goes(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("2")
        assert the_shelves(driver).side_table.display
        await driver.press("p")
        assert the_shelves(driver).side_table.has_focus
        await driver.press("p")
        assert the_shelves(driver).table.has_focus
        assert not the_shelves(driver).side_table.display


async def test_on_a_narrow_screen_the_panel_takes_the_place_of_the_list(world: World) -> None:
    stocked = stock(world)
    async with driving(world, NARROW) as driver:
        await driver.press("2")
        assert not the_shelves(driver).side_table.display
        await driver.press("p")
        assert not the_shelves(driver).table.display
        await driver.press("x")
        assert isinstance(driver.screen, ShelvesScreen), "no key works on a list out of sight"
        await driver.press("end", "enter")
        assert the_shelves(driver).table.display
        assert set(listed(driver, world)) == set(stocked.apples)


# Doing


async def test_several_are_moved_at_once(world: World) -> None:
    stocked = stock(world)
    async with driving(world, notices=True) as driver:
        await driver.press("2", "slash", *"jar", "enter", "space", "space", "m")
        assert isinstance(driver.screen, FormScreen)
        await driver.type("galley")
        await driver.press("enter")
        places = [world.package(code).place for code in stocked.hard]
        assert places == ["Galley cupboard", "Galley cupboard", "Cold cellar/Rack 1/Bin 1"]
        assert the_shelves(driver).table.marked == ()
        assert len(journal_page(world.room, count=1)) == 1
        assert "moved 2 packages of" in journal_page(world.room, count=1)[0].words
        assert "undoes" in driver.words
        await driver.press("u")
        assert world.package(stocked.hard[0]).place == "Cold cellar/Rack 1/Bin 1"


@pytest.mark.parametrize("size", SIZES)
async def test_the_form_to_move(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await driver.press("2", "space", "space", "m")
        await driver.type("rack")
        same_screen(driver.app, "move-form")


async def test_a_place_that_is_not_there_is_refused_and_nothing_typed_is_lost(
    world: World,
) -> None:
    stock(world)
    async with driving(world, NARROW) as driver:
        await driver.press("2", "m")
        await driver.enter("zzzz")
        assert "Nothing matches “zzzz”." in driver.words
        assert "zzzz" in driver.text


@pytest.mark.parametrize("size", SIZES)
async def test_the_form_to_take(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await driver.press("2", "slash", *"jar", "enter", "x")
        await driver.type("20")
        same_screen(driver.app, "take-form")
        assert "20.0 g dry, water to add 60.0 g" in driver.words


@pytest.mark.parametrize(
    ("typed", "taken_dg"),
    [
        ("", 600),
        ("all", 600),
        ("20", 200),
        ("20,5 g", 205),
        ("1/2 sv", 300),
        ("0.25 servings", 150),
    ],
)
async def test_amounts_to_take(world: World, typed: str, taken_dg: int) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash", *"jar", "enter", "x")
        await driver.enter(typed)
        assert world.package(stocked.hard[0]).taken_dg == taken_dg


@pytest.mark.parametrize("typed", ["61", "0", "abc", "-1", "2 sv", "1,500", "sv"])
async def test_impossible_amounts_are_refused_in_the_form(world: World, typed: str) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash", *"jar", "enter", "x")
        await driver.enter(typed)
        assert isinstance(driver.screen, FormScreen)
        assert driver.screen.fields[0].text == typed
        assert world.package(stocked.hard[0]).taken_dg == 0


async def test_a_suspect_package_is_not_eaten_from(world: World) -> None:
    stocked = stock(world)
    async with driving(world, NARROW) as driver:
        await driver.press("2", "slash", *stocked.peas[1], "enter", "x", "enter")
        assert world.package(stocked.peas[1]).condition == "suspect"
        assert "it is suspect" in driver.words
        assert "Check it again, or decide what becomes of it." in driver.words


async def test_several_are_thrown_away_with_one_reason(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("2", "space", "down", "space", "d")
        await driver.enter("moths in the cupboard")
        gone = [code for code in all_codes(world) if world.package(code).condition == "discarded"]
        assert gone == world.listed(condition="discarded", order="code")
        assert len(gone) == 2
        await driver.press("u")
        assert len(world.listed()) == 11


async def test_a_note_is_kept_exactly_and_found(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash", *stocked.hard[1], "enter", "n")
        await driver.enter("[b]crème[/b] for 冷 \\[days")
        assert world.package(stocked.hard[1]).note == "[b]crème[/b] for 冷 \\[days"
        await driver.press("escape", "slash")
        await driver.type("creme")
        assert listed(driver, world) == [stocked.hard[1]]


async def test_a_check_is_chosen_then_recorded(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash", *stocked.peas[2], "enter", "c")
        assert isinstance(driver.screen, CheckScreen)
        await driver.press("enter")
        assert isinstance(driver.screen, CheckScreen), "Enter needs a choice"
        await driver.press("s", "c", "enter")
        assert journal_page(world.room)[0].words.endswith("crisp, now sound")


async def test_a_used_package_is_not_checked(world: World) -> None:
    stocked = stock(world)
    packages.draw_package(world.room, stocked.apples[0])
    async with driving(world, notices=True) as driver:
        await driver.press("2", "t", "t", "t", "t", "t", "t")
        assert under_cursor(driver) == stocked.apples[0]
        await driver.press("c")
        assert isinstance(driver.screen, ShelvesScreen)
        assert "If that was recorded by mistake, undo it." in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_the_working_is_shown_with_sources(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await driver.press("2", "slash", *"jar", "enter", "w")
        assert isinstance(driver.screen, WorkingScreen)
        same_screen(driver.app, "working")
        assert "= 800.0 g - 200.0 g" in driver.text
        assert "(your own record)" in driver.text


async def test_enter_opens_and_escape_returns_to_the_same_row(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("2", "down", "down", "enter")
        assert isinstance(driver.screen, PackageScreen)
        code = driver.screen.detail.package.code
        await driver.press("escape")
        assert under_cursor(driver) == code


# Other programs


async def test_another_programs_move_appears_and_the_cursor_stays(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "o", "o", "home", "down", "down", "down")
        code = under_cursor(driver)
        assert code == stocked.beef[0]
        packages.move_packages(world.beside().room, [code], "Galley cupboard")
        packages.check_package(world.beside().room, stocked.hard[2], Event.CRISP)
        driver.app.look_again()
        await driver.settle()
        assert under_cursor(driver) == code
        assert listed(driver, world) == world.listed(order="place")
        assert "Galley cupboard" in driver.words


async def test_the_rows_read_are_those_in_view(world: World) -> None:
    world.packed(PEAS, "200xjar-240:0.5", wet_g=1000, dry_g=155)
    async with driving(world) as driver:
        await driver.press("2")
        table = the_shelves(driver).table
        assert "1 of 200" in driver.text
        assert len(table._cache) <= table.size.height + 2 * table._cache.margin_rows
        await driver.press("end")
        assert len(table._cache) <= table.size.height + 2 * table._cache.margin_rows


def test_stocked_is_what_the_tests_take_it_for(world: World) -> None:
    stocked: Stocked = stock(world)
    states = {code: world.package(code).condition for code in all_codes(world)}
    assert [states[code] for code in stocked.peas] == ["opened", "suspect", "sound", "sound"]
    assert {states[code] for code in (*stocked.hard, *stocked.beef)} == {"settling"}
    assert {states[code] for code in stocked.apples} == {"sound"}
