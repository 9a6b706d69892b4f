"""Lists and screens made up for testing the parts that every screen is built of."""

from __future__ import annotations

import asyncio
from array import array
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from dataclasses import replace
from threading import Event
from typing import ClassVar

from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.pilot import Pilot

from stockroom.errors import StockroomError
from stockroom.tui import base
from stockroom.tui.theme import THEMES
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.widgets.window_table import WindowTable
from tests.tui.screen_text import HARD_NAME

COLUMNS = (
    Column("Code", 9, look="quiet"),
    Column("Food", 14, weight=3, look="main"),
    Column("Dry", 6, align="right"),
    Column("State", 8, look="tone"),
    Column("Place", 12, weight=2, priority=2, look="quiet", keep="end"),
    Column("Best by", 10, priority=1),
)
EMPTY = "No packages yet. Pack a lot on the Bench (b)."

FOODS = ("Peas", "Venison stew", HARD_NAME, "Egg\x1b[31m\u202eflow\nx", "Apple slices")
STATES: tuple[tuple[str, Tone], ...] = (
    ("sound", "good"),
    ("settling", "due"),
    ("suspect", "bad"),
    ("opened", ""),
    ("used", "quiet"),
)


def made_row(key: int) -> Row:
    """A package that is the same whenever it is asked for."""
    state, tone = STATES[key % len(STATES)]
    place = f"Cold cellar / Rack {key % 3 + 1} / Bin {key % 12 + 1}"
    food = FOODS[key % len(FOODS)]
    best_by = f"20{30 + key % 20}-0{key % 9 + 1}-15"
    return Row(key, (f"P{key:06}", food, f"{key % 400 + 20} g", state, place, best_by), tone)


async def settle(pilot: Pilot[None]) -> None:
    """Wait until every reading is done or dropped, and painted."""
    while waiting := [worker.wait() for worker in pilot.app.workers if not worker.is_finished]:
        await asyncio.gather(*waiting, return_exceptions=True)
    await pilot.pause()


class FakeSource:
    """A list of made-up rows that writes down what it was asked for."""

    def __init__(self, keys: Sequence[int]) -> None:
        self.order = array("q", keys)
        self.asked_first: list[int] = []
        self.asked_rows: list[tuple[int, ...]] = []
        self.error: StockroomError | None = None
        self.gate: Event | None = None
        self.answered = Event()
        self.weighed_again: set[int] = set()

    @property
    def rows_given(self) -> int:
        """How many rows were asked for in all."""
        return sum(self.asked_first) + sum(len(keys) for keys in self.asked_rows)

    def _check(self) -> None:
        if self.error is not None:
            raise self.error

    def first(self, count: int) -> Sequence[Row]:
        """The first rows, while no error is planned."""
        self._check()
        self.asked_first.append(min(count, len(self.order)))
        return [made_row(key) for key in self.order[:count]]

    def keys(self) -> Sequence[int]:
        """All keys as they are now, once the gate is open."""
        answer = array("q", self.order)
        if self.gate is not None:
            assert self.gate.wait(10)
        self.answered.set()
        self._check()
        return answer

    def rows(self, keys: Sequence[int]) -> Sequence[Row]:
        """The rows of keys that are still in the list."""
        self._check()
        self.asked_rows.append(tuple(keys))
        there = set(self.order)
        return [self._row(key) for key in keys if key in there]

    def _row(self, key: int) -> Row:
        row = made_row(key)
        if key not in self.weighed_again:
            return row
        return replace(row, cells=(*row.cells[:2], "999 g", *row.cells[3:]))


class TableScreen(base.BaseScreen):
    """A list, its count in the frame, and one key."""

    MODE = "shelves"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("m", "move", "Move", id="shelves-move", tooltip="Move to another place."),
        Binding("d", "draw", "Draw", id="shelves-draw", tooltip="Take off the book."),
    ]

    def __init__(self) -> None:
        super().__init__()
        self.moved: list[tuple[int, ...]] = []

    def compose_body(self) -> ComposeResult:
        """One list."""
        yield WindowTable(COLUMNS, self.stockroom, empty=EMPTY, id="packages", classes="part")

    @property
    def table(self) -> WindowTable:
        """The list."""
        return self.query_one(WindowTable)

    def on_window_table_count_changed(self, message: WindowTable.CountChanged) -> None:
        """Show the count in the frame."""
        message.table.border_subtitle = message.text

    def action_move(self) -> None:
        """Write down what would be moved."""
        self.moved.append(self.table.chosen)

    def action_draw(self) -> None:
        """Write down nothing."""


class OtherScreen(base.BaseScreen):
    """A second screen to go to."""

    MODE = "round"


class FakeApp(App[None]):
    """Two main screens, no services."""

    CSS_PATH = "../../stockroom/tui/style.tcss"
    MODES = {"shelves": TableScreen, "round": OtherScreen}
    DEFAULT_MODE = "shelves"

    def __init__(self, stockroom: FakeSource) -> None:
        super().__init__()
        self.stockroom = stockroom
        self.copied: list[str] = []

    @property
    def table(self) -> WindowTable:
        """The list of the first screen."""
        return self.screen_stack[0].query_one(WindowTable)

    def on_mount(self) -> None:
        """Our own colours."""
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = THEMES[0].name

    def copy_to_clipboard(self, text: str) -> None:
        """Write down what was copied."""
        self.copied.append(text)


@asynccontextmanager
async def shown(
    source: FakeSource, size: tuple[int, int] = (80, 24), seen: list[Message] | None = None
) -> AsyncIterator[tuple[FakeApp, Pilot[None]]]:
    """The list on screen, read and painted; every message is added to `seen`."""
    app = FakeApp(source)
    hook = seen.append if seen is not None else None
    async with app.run_test(size=size, message_hook=hook, notifications=True) as pilot:
        await settle(pilot)
        yield app, pilot
