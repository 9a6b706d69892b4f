"""What a long list costs: run by `python -m tests.benchmarks.tables`.

Measures in one run a bare app's first paint, and a windowed table over SQLite with 100,000 and
with 30 rows: its first paint, a page down, and the bare queries behind them.
"""

from __future__ import annotations

import asyncio
import random
import sqlite3
from array import array
from collections.abc import Sequence
from time import perf_counter
from typing import Any

from textual.app import App, ComposeResult
from textual.widgets import Static

from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.widgets.window_table import WindowTable
from tests.benchmarks.measure import (
    Ratio,
    Timing,
    ratios_table,
    repeat,
    repeat_async,
    timings_table,
)

MANY, FEW = 100_000, 30
SIZE = (80, 24)
PAGE_ROWS = 40
COLUMNS = (
    Column("Code", 10),
    Column("Food", 14, weight=2, look="main"),
    Column("State", 9, look="tone"),
    Column("Best by", 10),
)
FOODS = ("peas", "sweetcorn", "venison stew", "apple slices", "rice pudding")


def filled(rows: int) -> sqlite3.Connection:
    """A table of packages in memory, indexed by the order in which it is shown."""
    chance = random.Random(rows)
    connection = sqlite3.connect(":memory:", check_same_thread=False)
    connection.execute(
        "CREATE TABLE package (id INTEGER PRIMARY KEY, code TEXT NOT NULL, food TEXT NOT NULL,"
        " state TEXT NOT NULL, best_by TEXT NOT NULL) STRICT"
    )
    connection.executemany(
        "INSERT INTO package VALUES (?, ?, ?, 'sound', ?)",
        (
            (key, f"26{key:07}", chance.choice(FOODS), f"20{chance.randrange(30, 55)}-06-15")
            for key in range(1, rows + 1)
        ),
    )
    connection.execute("CREATE INDEX package_order ON package (best_by, id)")
    return connection


class PackageSource:
    """The packages by their best-by, a window at a time."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection

    def first(self, count: int) -> Sequence[Row]:
        """The first packages by the index."""
        return self._rows("ORDER BY best_by, id LIMIT ?", (count,))

    def keys(self) -> Sequence[int]:
        """The ids of all packages in order."""
        cursor = self.connection.execute("SELECT id FROM package ORDER BY best_by, id")
        return array("q", (key for (key,) in cursor))

    def rows(self, keys: Sequence[int]) -> Sequence[Row]:
        """The packages of these ids."""
        places = ",".join("?" * len(keys))
        return self._rows(f"WHERE id IN ({places})", tuple(keys))

    def _rows(self, rest: str, values: tuple[int, ...]) -> Sequence[Row]:
        sql = f"SELECT id, code, food, state, best_by FROM package {rest}"
        return [Row(key, tuple(cells)) for key, *cells in self.connection.execute(sql, values)]


class BareApp(App[None]):
    """Nothing but a line of text: what any Textual program costs."""

    def __init__(self) -> None:
        super().__init__()
        self.painted = asyncio.Event()

    def compose(self) -> ComposeResult:
        """One line."""
        yield Static("bare")

    def on_mount(self) -> None:
        """Tell when the first paint is done."""
        self.call_after_refresh(self.painted.set)


class TimedTable(WindowTable):
    """A table that tells when the row awaited has been drawn."""

    def __init__(self, source: PackageSource) -> None:
        super().__init__(COLUMNS, source)
        self.drawn = asyncio.Event()
        self.awaited_row = 0

    def render_line(self, y: int) -> Any:
        """Draw as ever, below the line of headings."""
        strip = super().render_line(y)
        if self.cursor_key is not None and self.scroll_offset.y + y - 1 == self.awaited_row:
            self.drawn.set()
        return strip

    async def painted(self, row: int) -> None:
        """Wait until a row is drawn and the refresh it was drawn in is over."""
        self.awaited_row = row
        self.drawn.clear()
        await self.drawn.wait()
        over = asyncio.Event()
        self.call_after_refresh(over.set)
        await over.wait()


class TableApp(App[None]):
    """One windowed table."""

    def __init__(self, source: PackageSource) -> None:
        super().__init__()
        self.table = TimedTable(source)

    def compose(self) -> ComposeResult:
        """The table."""
        yield self.table


async def bare_paint() -> float:
    """Milliseconds from starting a bare app to its first paint."""
    began = perf_counter()
    app = BareApp()
    async with app.run_test(size=SIZE):
        await app.painted.wait()
        return (perf_counter() - began) * 1000


async def first_paint(connection: sqlite3.Connection) -> float:
    """Milliseconds from starting the app to the first painted row."""
    began = perf_counter()
    app = TableApp(PackageSource(connection))
    async with app.run_test(size=SIZE):
        await app.table.painted(0)
        return (perf_counter() - began) * 1000


async def page_down(connection: sqlite3.Connection) -> float:
    """Milliseconds from the first page down to the painted page, both its last row."""
    app = TableApp(PackageSource(connection))
    async with app.run_test(size=SIZE) as pilot:
        await app.workers.wait_for_complete()
        await pilot.pause()
        began = perf_counter()
        app.table.action_page(1)
        last_in_view = app.table.scroll_offset.y + app.table.size.height - 2
        await app.table.painted(last_in_view)
        return (perf_counter() - began) * 1000


def queries(name: str, source: PackageSource) -> tuple[Timing, Timing, Timing]:
    """The bare queries: first rows, a page by its keys, all keys."""
    keys = source.keys()
    page = keys[len(keys) // 2 :][:PAGE_ROWS]
    return (
        repeat(f"query, first {PAGE_ROWS} of {name}", lambda: source.first(PAGE_ROWS)),
        repeat(f"query, a page of {name} by key", lambda: source.rows(page)),
        repeat(f"query, all keys of {name}", source.keys),
    )


async def measure() -> tuple[list[Timing], list[Ratio]]:
    """Everything, in one run."""
    many, few = filled(MANY), filled(FEW)
    bare = await repeat_async("first paint, bare app", bare_paint)
    paint_many = await repeat_async(f"first paint, {MANY:,} rows", lambda: first_paint(many))
    paint_few = await repeat_async(f"first paint, {FEW} rows", lambda: first_paint(few))
    page_many = await repeat_async(f"page, {MANY:,} rows", lambda: page_down(many))
    page_few = await repeat_async(f"page, {FEW} rows", lambda: page_down(few))
    raw = queries(f"{MANY:,}", PackageSource(many))
    timings = [bare, paint_many, paint_few, page_many, page_few, *raw]
    ratios = [
        Ratio(f"first paint: {MANY:,} rows / {FEW} rows", paint_many, paint_few),
        Ratio(f"first paint: {MANY:,} rows / bare app", paint_many, bare),
        Ratio(f"page: {MANY:,} rows / {FEW} rows", page_many, page_few),
        Ratio("page on screen / its bare query", page_many, raw[1]),
    ]
    return timings, ratios


def main() -> None:
    """Measure and print."""
    timings, ratios = asyncio.run(measure())
    print("\n".join([*timings_table(timings), "", *ratios_table(ratios)]))


if __name__ == "__main__":
    main()
