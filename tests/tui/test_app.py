"""What works on every screen: going about, undo, the palette, other programs, trouble, defects."""

from __future__ import annotations

import pytest
from textual.app import App

from stockroom.domain.conditions import Event
from stockroom.errors import StoreDamaged
from stockroom.services import packages, places
from stockroom.services.session import Stockroom
from stockroom.store.connection import Store
from stockroom.store.writing import write
from stockroom.tui import app as app_module
from stockroom.tui.app import StockroomApp, run_app
from stockroom.tui.modal import TroubleScreen
from stockroom.tui.palette import KeyCommands
from stockroom.tui.screens.journal import JournalScreen
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.tabs import TABS, Tab
from tests.tui.driving import Driver, driving
from tests.tui.stocked import stock
from tests.world import World

BANNED = {
    *(f"ctrl+{letter}" for letter in "sqmij"),
    "ctrl+enter",
    "alt+left",
    "alt+right",
    "alt+up",
    "alt+down",
}
"""Keys that terminals and multiplexers take, or cannot tell from plain ones."""

WINDOWS: tuple[tuple[str, ...], ...] = (
    ("1",),
    ("1", "s", "v"),
    ("1", "s", "v", "2"),
    ("1", "k"),
    ("1", "k", "enter"),
    ("1", "k", "enter", "2"),
    ("1", "k", "enter", "s", "escape"),
    ("1", "full_stop"),
    ("1", "enter", "p"),
    ("1", "question_mark"),
    ("1", "x"),
    ("1", "enter"),
    ("1", "enter", "w"),
    ("1", "comma"),
    ("1", "j"),
    ("2",),
    ("2", "slash"),
    ("2", "p"),
    ("2", "c"),
    ("2", "m"),
    ("2", "d"),
    ("2", "n"),
    ("2", "a"),
    ("3",),
    ("4",),
    ("5",),
    ("5", "e"),
    ("5", "t"),
    ("5", "v"),
    ("5", "g"),
    ("5", "o"),
    ("5", "r"),
    ("5", "f"),
    ("7",),
    ("7", "f"),
    ("7", "i"),
    ("7", "l"),
    ("7", "v"),
    ("7", "enter"),
)
"""Keys that lead to every screen and window of the Round and the Shelves, and beyond."""


def mode_of(driver: Driver) -> str:
    """The main screen in view."""
    return driver.app.current_mode


# Going about


@pytest.mark.parametrize("tab", [tab for tab in TABS if tab.mode in StockroomApp.MODES])
async def test_a_digit_or_a_function_key_leads_to_each_screen(world: World, tab: Tab) -> None:
    stock(world)
    async with driving(world) as driver:
        for key in (tab.digit, "1", tab.function_key):
            await driver.press(key)
            wanted = "round" if key == "1" else tab.mode
            assert mode_of(driver) == wanted


async def test_a_function_key_leads_away_even_while_typing(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("2", "slash", "f2")
        assert isinstance(driver.screen, RoundScreen)


async def test_q_leaves(world: World) -> None:
    async with driving(world) as driver:
        await driver.pilot.press("q")
        assert driver.app.return_code == 0


async def test_control_c_says_how_to_leave(world: World) -> None:
    async with driving(world, notices=True) as driver:
        await driver.press("ctrl+c")
        assert "Press q on a main screen to leave" in driver.words


@pytest.mark.parametrize("keys", WINDOWS)
async def test_every_key_that_works_is_explained_and_none_is_banned(
    world: World, keys: tuple[str, ...]
) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press(*keys)
        ours = [one for one in driver.screen.active_bindings.values() if one.binding.id]
        assert len(ours) > 3
        for active in ours:
            binding = active.binding
            assert binding.key not in BANNED, binding
            assert binding.description and binding.tooltip, binding
            assert binding.tooltip.endswith("."), binding


@pytest.mark.parametrize("keys", [keys for keys in WINDOWS if len(keys) == 1])
async def test_no_printable_key_is_bound_twice_on_a_screen(
    world: World, keys: tuple[str, ...]
) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press(*keys)
        chain = driver.screen.focused.ancestors_with_self if driver.screen.focused else []
        seen: dict[str, str] = {}
        for node in chain:
            for key, binding in node._bindings:
                if len(key) == 1 or key in ("slash", "comma", "question_mark", "space"):
                    assert key not in seen, (key, seen.get(key), binding.action)
                    seen[key] = binding.action


async def test_ids_are_unique_so_that_keys_can_be_changed(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        for key in "12347":
            await driver.press(key)
            actions: dict[str, str] = {}
            for active in driver.screen.active_bindings.values():
                name, action = active.binding.id, active.binding.action
                if name:
                    assert actions.setdefault(name, action) == action


async def test_the_palette_holds_every_action_of_the_screen(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        provider = KeyCommands(driver.screen)
        offered = {hit.text async for hit in provider.discover()}
        assert {"Crisp", "Soft", "Take", "Undo", "Redo", "Journal", "Household", "Quit"} <= offered
        assert {tab.name for tab in TABS if tab.mode in StockroomApp.MODES} <= offered


async def test_colours_are_chosen_in_the_palette(world: World) -> None:
    async with driving(world) as driver:
        commands = {one.title: one for one in driver.app.get_system_commands(driver.screen)}
        assert list(commands) == ["Colours: cellar", "Colours: pantry"]
        commands["Colours: pantry"].callback()
        await driver.settle()
        assert driver.app.theme == "pantry"


# Undo and redo


async def test_undo_and_redo_say_the_journals_words(world: World) -> None:
    stocked = stock(world)
    packages.note_package(world.room, stocked.hard[0], "[b]x[/b]")
    async with driving(world, notices=True) as driver:
        await driver.press("2", "u")
        assert world.package(stocked.hard[0]).note == ""
        assert f"undid: noted on {stocked.hard[0]}: [b]x[/b]" in driver.words
        await driver.press("U")
        assert world.package(stocked.hard[0]).note == "[b]x[/b]"
        assert "redid: noted on" in driver.words


async def test_nothing_to_redo_is_a_notice(world: World) -> None:
    async with driving(world, notices=True) as driver:
        await driver.press("U")
        assert "Only what was undone last, before anything new." in driver.words


async def test_undo_does_not_reach_through_a_window(world: World) -> None:
    stocked = stock(world)
    packages.note_package(world.room, stocked.hard[0], "kept")
    async with driving(world) as driver:
        await driver.press("s", "v", "u")
        assert world.package(stocked.hard[0]).condition == "suspect"
        assert world.package(stocked.hard[0]).note == "kept"


# Other programs, other days


async def test_the_timer_sees_what_another_program_wrote(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(app_module, "LOOK_AGAIN_SECONDS", 0.01)
    stocked = stock(world)
    async with driving(world) as driver:
        packages.check_package(world.beside().room, stocked.hard[0], Event.CRISP)
        for _ in range(200):
            if "4 settle checks" in driver.text:
                break
            await driver.pilot.pause(0.01)
        assert "4 settle checks" in driver.text


async def test_coming_back_to_the_terminal_looks_at_once(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        places.add_place(world.beside().room, "Shed")
        driver.app.on_app_focus()
        await driver.press("2")
        assert "Shed" in driver.text


async def test_looking_again_costs_nothing_when_nothing_changed(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        screen = driver.screen
        assert isinstance(screen, RoundScreen)
        page = screen.page
        for _ in range(5):
            driver.app.look_again()
        await driver.settle()
        assert screen.page is page


async def test_a_new_day_reads_everything_again(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        driver.app.stockroom = world.later(1).room
        driver.app.look_again()
        await driver.settle()
        assert "Thu 26 Nov 2026" in driver.text
        assert "due 2 days ago" in driver.text


async def test_screens_out_of_view_catch_up(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "1", "c", "2", "slash", *stocked.hard[0])
        assert "settling" not in driver.text
        await driver.press("escape", "u", "1")
        assert "5 settle checks" in driver.text


# Trouble


async def test_a_store_held_by_another_program_is_said_and_nothing_is_lost(
    world: World,
) -> None:
    stocked = stock(world)
    other = Store(world.path, durable=False)
    world.room.store.connection.execute("PRAGMA busy_timeout = 1")
    async with driving(world, (60, 20)) as driver:
        with write(other):
            await driver.press("c")
            assert isinstance(driver.screen, TroubleScreen)
            assert "Another program is writing" in driver.words
            await driver.press("escape")
        assert world.package(stocked.hard[0]).condition == "settling"
        await driver.press("c")
        assert world.package(stocked.hard[0]).condition == "sound"
    other.close()


async def test_a_form_keeps_what_was_typed_when_the_store_is_held(world: World) -> None:
    stocked = stock(world)
    other = Store(world.path, durable=False)
    world.room.store.connection.execute("PRAGMA busy_timeout = 1")
    async with driving(world, (60, 20)) as driver:
        await driver.press("D")
        with write(other):
            await driver.enter("went soft")
            assert "try again in a moment" in driver.words
        await driver.press("enter")
        assert world.package(stocked.hard[0]).condition == "discarded"
    other.close()


async def test_trouble_found_by_the_timer_is_said_once(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    def damaged(room: Stockroom) -> int:
        raise StoreDamaged(str(room.path), "it is gone")

    async with driving(world) as driver:
        monkeypatch.setattr(Stockroom, "version_seen", damaged)
        driver.app.look_again()
        await driver.settle()
        assert isinstance(driver.screen, TroubleScreen)
        await driver.press("escape")
        driver.app.look_again()
        await driver.settle()
        assert isinstance(driver.screen, RoundScreen)


def test_a_defect_is_raised_once_the_terminal_is_restored(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    error = ZeroDivisionError("a defect")

    def broken(self: App[None], **_: object) -> None:
        self._exception = error
        self._fatal_error()

    monkeypatch.setattr(StockroomApp, "run", broken)
    with pytest.raises(ZeroDivisionError) as caught:
        run_app(world.room)
    assert caught.value is error


def test_leaving_gives_the_exit_code(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(StockroomApp, "run", lambda self: None)
    assert run_app(world.room) == 0


async def test_the_journal_opens_over_any_screen_and_goes_back_there(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("2", "j")
        assert isinstance(driver.screen, JournalScreen)
        await driver.press("2")
        assert isinstance(driver.screen, ShelvesScreen)
