"""A long list on screen, driven by keys: what is read, where the cursor stays, what is told."""

from __future__ import annotations

import asyncio
from array import array
from collections.abc import Callable
from threading import Event
from typing import Any, TypeVar

import pytest
from textual.app import App
from textual.message import Message

from stockroom.errors import Refused
from stockroom.tui.widgets.window_messages import KeysRead
from stockroom.tui.widgets.window_rows import MARGIN_ROWS
from stockroom.tui.widgets.window_table import WindowTable
from tests.tui.fakes import EMPTY, FakeApp, FakeSource, settle, shown
from tests.tui.screen_text import HARD_NAME, SIZES, screen_text

pytestmark = pytest.mark.painted
"""Which rows are read depends on what is painted."""

MANY = 100_000
SameScreen = Callable[[App[Any], str], None]


M = TypeVar("M", bound=Message)


def told(seen: list[Message], kind: type[M]) -> list[M]:
    """The messages of one kind, each once, in order."""
    return list(dict.fromkeys(message for message in seen if isinstance(message, kind)))


# What is read


async def test_the_first_paint_reads_the_view_and_its_margin() -> None:
    source = FakeSource(range(1, MANY + 1))
    async with shown(source) as (app, _):
        view = app.table.scrollable_content_region.height - 1
        assert source.rows_given <= view + MARGIN_ROWS
        assert len(source.asked_first) == 1
        assert source.asked_rows == []
        assert app.table.count_text == "1 of 100,000"


async def test_rows_are_painted_before_the_list_is_counted() -> None:
    source = FakeSource(range(1, MANY + 1))
    source.gate = Event()
    app = FakeApp(source)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "P000001" in screen_text(app)
        assert app.table.count_text == "1 of …"
        source.gate.set()
        await settle(pilot)
        assert app.table.count_text == "1 of 100,000"


@pytest.mark.parametrize("size", SIZES)
async def test_a_page_down_reads_no_more_than_the_view_and_its_margin(
    size: tuple[int, int],
) -> None:
    source = FakeSource(range(1, MANY + 1))
    async with shown(source, size) as (app, pilot):
        view = app.table.scrollable_content_region.height - 1
        for _ in range(3):
            before = source.rows_given
            await pilot.press("pagedown")
            await pilot.pause()
            assert 0 < source.rows_given - before <= view + MARGIN_ROWS
        assert app.table.cursor_row == 3 * view


async def test_the_end_of_the_list_is_one_reading_away() -> None:
    source = FakeSource(range(1, MANY + 1))
    async with shown(source) as (app, pilot):
        await pilot.press("end")
        await pilot.pause()
        view = app.table.scrollable_content_region.height - 1
        assert app.table.cursor_key == MANY
        assert "P100000" in screen_text(app)
        assert [len(keys) for keys in source.asked_rows] == [view + MARGIN_ROWS]


async def test_a_late_answer_to_an_earlier_question_is_dropped() -> None:
    source = FakeSource(range(1, 51))
    async with shown(source) as (app, pilot):
        slow = FakeSource(range(1, 11))
        slow.gate = Event()
        app.table.show(slow)
        await pilot.pause()
        app.table.show(FakeSource(range(1, 31)))
        await settle(pilot)
        assert app.table.count_text == "1 of 30"
        slow.gate.set()
        assert await asyncio.to_thread(slow.answered.wait, 10)
        await pilot.pause()
        await pilot.pause()
        assert app.table.count_text == "1 of 30"


async def test_a_late_failure_of_an_earlier_question_is_not_told() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        slow = FakeSource(range(1, 11))
        slow.gate, slow.error = Event(), Refused("Too late.")
        app.table.show(slow)
        await pilot.pause()
        app.table.show(FakeSource(range(1, 31)))
        await settle(pilot)
        slow.gate.set()
        assert await asyncio.to_thread(slow.answered.wait, 10)
        await pilot.pause()
        await pilot.pause()
        assert "Too late." not in screen_text(app)


async def test_an_answer_already_on_its_way_when_another_is_asked_is_dropped() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        app.table.post_message(KeysRead(app.table, 0, array("q", [7])))
        await pilot.pause()
        assert app.table.count_text == "1 of 50"


async def test_a_reload_shows_what_changed_in_a_record() -> None:
    source = FakeSource(range(1, 51))
    async with shown(source) as (app, pilot):
        assert "999 g" not in screen_text(app)
        source.weighed_again = {1}
        app.table.reload()
        await settle(pilot)
        assert screen_text(app).count("999 g") == 1


# The cursor and the marks are keys


async def test_the_cursor_stays_on_its_record_through_a_reload() -> None:
    source = FakeSource(range(1, MANY + 1))
    async with shown(source) as (app, pilot):
        await pilot.press("end", *["up"] * 5)
        key, line = app.table.cursor_key, app.table.cursor_row - app.table.scroll_offset.y
        source.order = array("q", [*range(-300, 0), *source.order])
        app.table.reload()
        await settle(pilot)
        assert app.table.cursor_key == key == MANY - 5
        assert app.table.cursor_row == MANY - 6 + 300
        assert app.table.cursor_row - app.table.scroll_offset.y == line


async def test_another_order_keeps_the_cursor_and_the_marks() -> None:
    source = FakeSource(range(1, 1001))
    async with shown(source) as (app, pilot):
        await pilot.press("down", "space", "space")
        app.table.show(FakeSource(range(1000, 0, -1)))
        await settle(pilot)
        assert app.table.cursor_key == 4
        assert app.table.cursor_row == 996
        assert app.table.marked == (2, 3)
        assert "▸  P000004" in screen_text(app)
        assert " ✓ P000003" in screen_text(app)


async def test_a_filter_that_hides_the_cursor_moves_it_to_the_next_record_left() -> None:
    async with shown(FakeSource(range(1, 101))) as (app, pilot):
        await pilot.press(*["down"] * 9)
        assert app.table.cursor_key == 10
        app.table.show(FakeSource(range(3, 101, 9)))
        await settle(pilot)
        assert app.table.cursor_key == 12


async def test_a_record_that_is_used_up_gives_its_place_to_the_next() -> None:
    source = FakeSource(range(1, 51))
    async with shown(source) as (app, pilot):
        await pilot.press("down", "down")
        source.order.remove(3)
        app.table.reload()
        await settle(pilot)
        assert (app.table.cursor_row, app.table.cursor_key) == (2, 4)


async def test_from_the_top_when_asked() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        await pilot.press("end")
        app.table.show(FakeSource(range(2, 51)), from_top=True)
        await settle(pilot)
        assert app.table.cursor_key == 2
        assert app.table.scroll_offset.y == 0


async def test_a_record_asked_for_while_the_list_is_read_is_found() -> None:
    source = FakeSource(range(1, MANY + 1))
    source.gate = Event()
    app = FakeApp(source)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert not app.table.go_to_key(70_000)
        source.gate.set()
        await settle(pilot)
        assert app.table.cursor_key == 70_000
        assert app.table.go_to_key(5)
        assert app.table.cursor_row == 4


async def test_actions_take_the_marked_rows_and_escape_clears_them() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        screen: Any = app.screen
        await pilot.press("m", "space", "down", "space", "m", "escape", "m")
        assert screen.moved == [(1,), (1, 3), (4,)]
        assert "✓" not in screen_text(app)


# Keys, mouse, messages


@pytest.mark.parametrize(
    ("keys", "row"),
    [
        (["down", "down", "up"], 1),
        (["up"], 0),
        (["end"], 499),
        (["end", "down"], 499),
        (["end", "pageup"], 480),
        (["pagedown", "pageup"], 0),
        (["pagedown", "home"], 0),
    ],
)
async def test_keys_move_the_cursor(keys: list[str], row: int) -> None:
    async with shown(FakeSource(range(1, 501))) as (app, pilot):
        await pilot.press(*keys)
        await pilot.pause()
        assert app.table.cursor_row == row
        assert f"▸  P{row + 1:06}" in screen_text(app)


async def test_the_screen_is_told_by_key() -> None:
    seen: list[Message] = []
    async with shown(FakeSource(range(10, 60)), seen=seen) as (_, pilot):
        await pilot.press("down", "enter")
        await pilot.pause()
        keys = [message.key for message in told(seen, WindowTable.RowHighlighted)]
        counts = [message.text for message in told(seen, WindowTable.CountChanged)]
        assert keys == [10, 11]
        assert counts[-2:] == ["1 of 50", "2 of 50"]
        assert [message.key for message in told(seen, WindowTable.RowChosen)] == [11]


async def test_a_click_moves_a_double_click_chooses_the_edge_marks() -> None:
    seen: list[Message] = []
    async with shown(FakeSource(range(1, 51)), seen=seen) as (app, pilot):
        await pilot.click(WindowTable, offset=(20, 5))
        assert app.table.cursor_key == 4
        assert told(seen, WindowTable.RowChosen) == []
        await pilot.click(WindowTable, offset=(2, 7))
        assert app.table.marked == (6,)
        await pilot.click(WindowTable, offset=(30, 8), times=2)
        await pilot.pause()
        assert [message.key for message in told(seen, WindowTable.RowChosen)] == [7]


async def test_a_click_on_a_heading_names_its_column() -> None:
    seen: list[Message] = []
    async with shown(FakeSource(range(1, 51)), seen=seen) as (_, pilot):
        await pilot.click(WindowTable, offset=(17, 1))
        await pilot.pause()
        assert [message.column for message in told(seen, WindowTable.HeaderChosen)] == [1]


async def test_the_wheel_moves_the_view_and_leaves_the_cursor() -> None:
    source = FakeSource(range(1, 501))
    async with shown(source) as (app, pilot):
        app.table.scroll_down(animate=False)
        app.table.scroll_to(y=50, animate=False, immediate=True)
        await pilot.pause()
        assert app.table.cursor_key == 1
        assert "P000051" in screen_text(app)
        await pilot.press("down")
        await pilot.pause()
        assert "▸  P000002" in screen_text(app)


# Copying


async def test_copying_a_row_the_marked_rows_and_a_cell() -> None:
    async with shown(FakeSource(range(1, 51))) as (app, pilot):
        await pilot.press("down", "y")
        assert app.copied[-1].split("\t")[:2] == ["P000002", HARD_NAME]
        await pilot.press("space", "y")
        assert app.copied[-1].startswith("P000002\t")
        await pilot.press("space", "y")
        assert [line[:7] for line in app.copied[-1].splitlines()] == ["P000002", "P000003"]
        assert "\x1b" not in app.copied[-1]
        await pilot.press("up", "up", "Y", "right", "right", "Y")
        assert app.copied[-2:] == ["P000002", HARD_NAME]


# What it looks like


@pytest.mark.parametrize("size", SIZES)
async def test_the_list_as_it_looks(size: tuple[int, int], same_screen: SameScreen) -> None:
    async with shown(FakeSource(range(1, MANY + 1)), size) as (app, pilot):
        await pilot.press("down", "space", "space", "down")
        await pilot.pause()
        same_screen(app, "window-table")


async def test_people_s_names_are_whole_and_harmless() -> None:
    async with shown(FakeSource(range(1, 51)), (120, 24)) as (app, _):
        seen = screen_text(app)
        assert HARD_NAME in seen
        assert "Egg␛[31m·flow␊x" in seen
        assert not any(character in seen for character in "\x1b\u202e")


async def test_an_empty_list_says_what_to_do() -> None:
    async with shown(FakeSource([])) as (app, pilot):
        assert EMPTY in screen_text(app)
        assert app.table.count_text == "none"
        await pilot.press("down", "enter", "space", "y", "Y", "pagedown", "end")
        assert app.table.cursor_key is None
        assert app.copied == []


async def test_the_sentence_of_an_empty_list_may_hold_a_person_s_words() -> None:
    async with shown(FakeSource([])) as (app, pilot):
        app.table.show(FakeSource([]), empty=f"Nothing is called {HARD_NAME}\x1b[31m.")
        await settle(pilot)
        assert f"Nothing is called {HARD_NAME}␛[31m." in screen_text(app)


async def test_a_list_that_empties_and_fills_again() -> None:
    source = FakeSource(range(1, 4))
    async with shown(source) as (app, pilot):
        source.order = array("q")
        app.table.reload()
        await settle(pilot)
        assert EMPTY in screen_text(app)
        source.order = array("q", [8, 9])
        app.table.reload()
        await settle(pilot)
        assert app.table.cursor_key == 8
        assert EMPTY not in screen_text(app)


# When the store is in the way


async def test_a_list_that_cannot_be_read_says_so_and_keeps_what_it_shows() -> None:
    source = FakeSource(range(1, 501))
    async with shown(source) as (app, pilot):
        source.error = Refused("The list is locked [/].", "Try again.")
        app.table.reload()
        await settle(pilot)
        await pilot.pause()
        seen = screen_text(app)
        assert "The list is locked [/]." in seen
        assert "P000001" in seen
        await pilot.press("end")
        await pilot.pause()
        assert "▸  …" in screen_text(app)
        source.error = None
        app.table.reload()
        await settle(pilot)
        assert "P000500" in screen_text(app)


async def test_a_list_that_cannot_be_opened_opens_on_a_later_reload() -> None:
    source = FakeSource(range(1, 51))
    source.error = Refused("Not now.")
    async with shown(source) as (app, pilot):
        assert "Not now." in screen_text(app)
        source.error = None
        app.table.reload()
        await settle(pilot)
        assert "P000001" in screen_text(app)


class Defect(Exception):
    """A mistake in our own code."""


async def test_a_defect_in_a_source_is_not_hidden() -> None:
    class Broken(FakeSource):
        def keys(self) -> array[int]:
            raise Defect

    with pytest.raises(Defect):
        async with shown(Broken(range(1, 51))):
            pass
