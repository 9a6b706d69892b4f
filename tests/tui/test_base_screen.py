"""What every main screen has: tabs, key line, help, palette, reloading, words for refusals."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual import work
from textual.app import App
from textual.binding import Binding
from textual.command import CommandPalette
from textual.widgets import Input

from stockroom.errors import NotFound, Refused, StoreLocked
from stockroom.tui.base import BaseScreen
from stockroom.tui.help import HelpScreen, key_sections
from stockroom.tui.tabs import TABS
from stockroom.tui.widgets.key_line import KeyLine, shown_key
from stockroom.tui.widgets.title_bar import TitleBar
from tests.tui.fakes import FakeApp, FakeSource, OtherScreen, TableScreen, settle, shown
from tests.tui.screen_text import HARD_NAME, SIZES, screen_text

SameScreen = Callable[[App[Any], str], None]


class Defect(Exception):
    """A mistake in our own code."""


class WorkingScreen(TableScreen):
    """A list, and a worker that fails in the way it is told to."""

    @work(thread=True, exclusive=True, exit_on_error=False, group="fail")
    def fail(self, error: Exception) -> None:
        """Raise in a thread."""
        raise error


def fail(error: Exception) -> None:
    """Stands in for a service call that is refused."""
    raise error


# Tabs


async def test_a_digit_or_a_function_key_goes_to_another_screen_and_back() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        await pilot.press("1")
        await pilot.pause()
        assert isinstance(app.screen, OtherScreen)
        assert "▸1 Round" in screen_text(app)
        await pilot.press("f3")
        await pilot.pause()
        assert isinstance(app.screen, TableScreen)
        assert "▸2 Shelves" in screen_text(app)


async def test_a_click_on_a_name_goes_there() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        await pilot.click(TitleBar, offset=(3, 0))
        await pilot.pause()
        assert isinstance(app.screen, OtherScreen)


async def test_a_screen_the_app_does_not_have_is_neither_named_nor_reached() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        assert "Bench" not in screen_text(app).splitlines()[0]
        await pilot.press("3", "f4")
        await pilot.pause()
        assert isinstance(app.screen, TableScreen)


async def test_all_seven_names_fit_the_narrow_screen() -> None:
    class AllApp(FakeApp):
        MODES = {tab.mode: OtherScreen for tab in TABS} | {"shelves": TableScreen}

    app = AllApp(FakeSource([]))
    async with app.run_test(size=(60, 20)) as pilot:
        app.screen.query_one(TitleBar).note = "Wed 25 Nov 2026"
        await pilot.pause()
        bar = screen_text(app).splitlines()[0]
        assert all(tab.name in bar for tab in TABS)
        assert "2026" not in bar


async def test_six_names_keep_their_digits_on_the_narrow_screen() -> None:
    class SixApp(FakeApp):
        MODES = {tab.mode: OtherScreen for tab in TABS if tab.mode != "tally"}
        MODES["shelves"] = TableScreen

    app = SixApp(FakeSource([]))
    async with app.run_test(size=(60, 20)) as pilot:
        await pilot.pause()
        bar = screen_text(app).splitlines()[0]
        assert all(f"{tab.digit} {tab.name}" in bar for tab in TABS if tab.mode != "tally")
        await pilot.click(TitleBar, offset=(3, 0))
        await pilot.pause()
        assert isinstance(app.screen, OtherScreen)


async def test_the_note_stands_at_the_right_when_there_is_room() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        app.screen.query_one(TitleBar).note = HARD_NAME
        await pilot.pause()
        assert screen_text(app).splitlines()[0].endswith(HARD_NAME)


async def test_the_day_of_the_app_stands_at_the_right_as_it_changes() -> None:
    async with shown(FakeSource([])) as (app, pilot):
        for day in ("Wed 25 Nov 2026", "Thu 26 Nov 2026"):
            app.sub_title = day
            await pilot.pause()
            assert screen_text(app).splitlines()[0].endswith(day)


# The key line


class CrowdedScreen(TableScreen):
    """More keys than a line holds."""

    BINDINGS = [
        Binding(letter, f"take('{letter}')", f"Action {letter}", id=f"take-{letter}")
        for letter in "acefgijl"
    ]

    def action_take(self, letter: str) -> None:
        """Write the letter down."""
        self.moved.append((ord(letter),))


class CrowdedApp(FakeApp):
    """The crowded screen."""

    MODES = {"shelves": CrowdedScreen}


@pytest.mark.parametrize("size", SIZES)
async def test_the_key_line_holds_whole_keys_and_always_the_help(size: tuple[int, int]) -> None:
    app = CrowdedApp(FakeSource([]))
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        line = screen_text(app).splitlines()[-1]
        assert len(line) <= size[0]
        assert line.endswith("? Keys")
        words = line.removesuffix("? Keys").split("  ")
        assert all(word.strip() in ("", "m Move", "d Draw") or "Action" in word for word in words)
        assert all(len(word.split()) == 3 for word in words if "Action" in word)


async def test_a_click_on_a_key_presses_it() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        await pilot.click(KeyLine, offset=(3, 0))
        await pilot.pause()
        assert isinstance(app.screen, TableScreen)
        assert app.screen.moved == [(1,)]


async def test_letters_are_text_while_something_is_typed() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        field = Input()
        await app.screen.mount(field)
        field.focus()
        await pilot.press("m", "1", "question_mark")
        await pilot.pause()
        assert field.value == "m1?"
        assert "m Move" not in screen_text(app)


@pytest.mark.parametrize(
    ("key", "shown"),
    [
        ("escape", "Esc"),
        ("f2", "F2"),
        ("question_mark", "?"),
        ("shift+tab", "Shift+Tab"),
        ("y", "y"),
    ],
)
def test_keys_are_written_as_on_the_keyboard(key: str, shown: str) -> None:
    assert shown_key(key) == shown


# Help and palette


async def test_help_lists_every_binding_with_its_keys_and_sentence() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        active = app.screen.active_bindings
        await pilot.press("question_mark")
        await pilot.pause()
        assert isinstance(app.screen, HelpScreen)
        listed = {line.id: line for lines in app.screen.sections.values() for line in lines}
        for key, (_, binding, _, tooltip) in active.items():
            if binding.id is None:
                continue
            assert shown_key(key) in listed[binding.id].keys, binding
            assert listed[binding.id].description == binding.description
            assert listed[binding.id].tooltip == tooltip != ""
        assert {"shelves-move", "table-mark", "go-round", "help", "focus-next"} <= set(listed)
        assert "go-bench" not in listed


async def test_help_shows_the_key_a_person_chose() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        app.set_keymap({"shelves-move": "g"})
        await pilot.press("question_mark")
        await pilot.pause()
        assert isinstance(app.screen, HelpScreen)
        moves = [
            line for line in app.screen.sections["On this screen"] if line.id == "shelves-move"
        ]
        assert [line.keys for line in moves] == [("g",)]


@pytest.mark.parametrize("size", SIZES)
async def test_help_as_it_looks(size: tuple[int, int], same_screen: SameScreen) -> None:
    async with shown(FakeSource(range(1, 51)), size) as (app, pilot):
        await pilot.press("question_mark")
        await pilot.pause()
        same_screen(app, "help")
        await pilot.press("end")
        await pilot.pause()
        assert "shelves" in screen_text(app).lower()
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, TableScreen)


async def test_every_action_is_in_the_palette() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        app.action_command_palette()
        await pilot.pause()
        assert isinstance(app.screen, CommandPalette)
        await pilot.press(*"move")
        await settle(pilot)
        await pilot.pause()
        assert "Move to another place." in screen_text(app)
        await pilot.press("enter")
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        await settle(pilot)
        assert isinstance(app.screen, TableScreen)
        assert app.screen.moved == [(1,)]


async def test_an_action_with_several_keys_is_one_line() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, _):
        lines = key_sections(app.screen.active_bindings)["Screens"]
        assert [line.keys for line in lines] == [("1", "F2"), ("2", "F3")]


# Changes


async def test_a_change_reloads_the_screen_in_view_at_once() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        screen: Any = app.screen
        app.stockroom.order.append(51)
        screen.announce("package")
        await settle(pilot)
        assert app.table.count_text == "1 of 51"


async def test_a_screen_out_of_view_catches_up_when_it_comes_back() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        readings = len(app.stockroom.asked_rows)
        await pilot.press("1")
        await pilot.pause()
        app.stockroom.order.append(51)
        screen: Any = app.screen
        screen.announce("package")
        await settle(pilot)
        assert len(app.stockroom.asked_rows) == readings
        await pilot.press("2")
        await settle(pilot)
        assert app.table.count_text == "1 of 51"


async def test_a_screen_under_a_window_reloads() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        screen: Any = app.screen
        await pilot.press("question_mark")
        app.stockroom.order.append(51)
        screen.announce()
        await settle(pilot)
        assert app.table.count_text == "1 of 51"


# Refusals


async def test_a_refusal_becomes_a_notice_with_the_next_step() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        screen: Any = app.screen
        assert (
            screen.attempt(fail, Refused(f"{HARD_NAME} is used already.", "Undo with z.")) is None
        )
        await pilot.pause()
        seen = screen_text(app)
        assert f"{HARD_NAME} is used already." in seen
        assert "Undo with z." in seen


async def test_a_result_comes_back() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, _):
        screen: Any = app.screen
        assert screen.attempt(divmod, 7, 2) == (3, 1)


async def test_store_trouble_becomes_a_window_once() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        screen: Any = app.screen
        screen.attempt(fail, StoreLocked("/shed/[/]store.db"))
        await pilot.pause()
        screen.attempt(fail, StoreLocked("/shed/[/]store.db"))
        await pilot.pause()
        seen = screen_text(app)
        assert "/shed/[/]store.db" in seen
        assert "Nothing was changed; try again in a moment." in seen
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, TableScreen)


async def test_a_defect_passes_through() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, _):
        screen: Any = app.screen
        with pytest.raises(Defect):
            screen.attempt(fail, Defect())


class WorkingApp(FakeApp):
    """The screen with a worker."""

    MODES = {"shelves": WorkingScreen}


async def test_what_a_worker_raises_is_heard() -> None:
    app = WorkingApp(FakeSource([]))
    async with app.run_test(size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        assert isinstance(app.screen, WorkingScreen)
        worker = app.screen.fail(NotFound("lot", "26[/]A", ("26329A",)))
        await pilot.pause()
        await pilot.pause()
        assert worker.is_finished
        assert "There is no lot “26[/]A”." in screen_text(app)
        assert "Nearest: 26329A." in screen_text(app)


async def test_a_defect_in_a_worker_ends_the_program() -> None:
    app = WorkingApp(FakeSource([]))
    with pytest.raises(Defect):
        async with app.run_test(size=(80, 24)) as pilot:
            await settle(pilot)
            assert isinstance(app.screen, WorkingScreen)
            app.screen.fail(Defect())
            await pilot.pause()
            await pilot.pause()


# Sizes and colours


@pytest.mark.parametrize(("columns", "name"), [(60, "narrow"), (80, "normal")])
async def test_the_width_puts_a_class_on_the_screen(columns: int, name: str) -> None:
    async with shown(FakeSource(range(1, 51)), (columns, 20)) as (app, _):
        assert app.screen.has_class(name)


async def test_without_colour_the_cursor_and_the_state_are_signs_and_words(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        assert app.no_color
        await pilot.press("space")
        await pilot.pause()
        seen = screen_text(app)
        assert " ✓ P000001" in seen
        assert "▸  P000002" in seen
        assert "suspect" in seen


def test_no_key_of_ours_is_one_that_terminals_take() -> None:
    """Those that terminals and multiplexers take or cannot tell from plain keys."""
    banned = {f"ctrl+{letter}" for letter in "sqmij"} | {"ctrl+enter", "alt+left", "alt+right"}
    bindings = [*Binding.make_bindings(BaseScreen.BINDINGS)]
    assert not banned & {binding.key for binding in bindings}
    assert len({binding.key for binding in bindings}) == len(bindings)
    assert all(binding.id and binding.description and binding.tooltip for binding in bindings)
