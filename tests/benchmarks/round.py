"""What the screens cost on full shelves: run by `python -m tests.benchmarks.round`.

Measures in one run, on a store of 100,000 packages:

- the first useful paint of the Round against the first paint of a bare app of one line, both from
  starting Python to the words standing in a terminal, taken in turns;
- a page down on the Shelves against the same on 30 packages.

Beside them stand the bare queries, and both paints once more inside one warm process, where only
the framework's and our own drawing count. The last lines say whether the aims are met.
"""

from __future__ import annotations

import asyncio
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from stockroom.services.session import Stockroom
from stockroom.services.shelves import package_keys, packages_for, shelf_filter
from stockroom.services.today import lots_for_today, round_for_today
from stockroom.tui.app import StockroomApp
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.widgets.window_table import WindowTable
from tests.benchmarks.full_store import TODAY, full_store
from tests.benchmarks.launch import painted_ms
from tests.benchmarks.measure import (
    Ratio,
    Timing,
    ratios_table,
    repeat,
    repeat_async,
    timings_table,
)
from tests.benchmarks.tables import FEW, MANY, PAGE_ROWS, SIZE, bare_paint

AIMS = (1.6, 3.0)
"""The most the two ratios may be."""
LAUNCHES = 21

BARE = """
from textual.app import App
from textual.widgets import Static

class Bare(App):
    def compose(self):
        yield Static("one bare line")

Bare().run()
"""
BARE_WORD = b"one bare line"
OURS = f"""
import sys
from datetime import date
from pathlib import Path
from stockroom.clock import FixedClock
from stockroom.services.session import open_stockroom
from stockroom.tui.start import run_app

clock = FixedClock(date.fromisoformat("{TODAY.isoformat()}"))
run_app(open_stockroom(Path(sys.argv[1]), clock=clock, actor="tester"))
"""
OURS_WORD = b"Settle check"


class FastestRatio(Ratio):
    """Compares the fastest of each: a launch takes two processors and more, so that whatever
    else the machine does at the time makes most launches longer, and none shorter."""

    @property
    def value(self) -> float:
        """How many times as long the fastest of the first takes."""
        return min(self.top.times_ms) / min(self.bottom.times_ms)


def launches(path: Path) -> tuple[Timing, Timing]:
    """First paints from a cold start, a bare app and the Round in turns."""
    bare: list[float] = []
    ours: list[float] = []
    for _ in range(LAUNCHES):
        bare.append(painted_ms(BARE, BARE_WORD))
        ours.append(painted_ms(OURS, OURS_WORD, str(path)))
    return (
        Timing("start to first paint, bare app", tuple(bare)),
        Timing(f"start to first paint, Round of {MANY:,}", tuple(ours)),
    )


async def _painted(table: WindowTable) -> None:
    """Wait until the rows the table shows now have been painted."""
    over = asyncio.Event()
    table.call_after_refresh(over.set)
    await over.wait()


async def round_paint(room: Stockroom) -> float:
    """Milliseconds from making the app to the painted rows of the Round, in this process."""
    began = perf_counter()
    app = StockroomApp(room)
    async with app.run_test(size=SIZE) as pilot:
        screen = app.screen
        assert isinstance(screen, RoundScreen)
        while screen.table.cursor_key is None:
            await asyncio.sleep(0)
        await _painted(screen.table)
        taken = (perf_counter() - began) * 1000
        await app.workers.wait_for_complete()
        await pilot.pause()
    return taken


async def page_down(room: Stockroom) -> float:
    """Milliseconds from a page down on the Shelves to the painted page."""
    app = StockroomApp(room)
    async with app.run_test(size=SIZE) as pilot:
        await pilot.press("2")
        await app.workers.wait_for_complete()
        await pilot.pause()
        screen = app.screen
        assert isinstance(screen, ShelvesScreen)
        before = screen.table.cursor_key
        began = perf_counter()
        screen.table.action_page(1)
        await _painted(screen.table)
        taken = (perf_counter() - began) * 1000
        assert screen.table.cursor_key != before
        await pilot.pause()
    return taken


def queries(room: Stockroom) -> tuple[Timing, ...]:
    """The bare queries behind the screens."""
    wanted = shelf_filter(room)
    keys = package_keys(room, wanted)
    page = keys[len(keys) // 2 :][:PAGE_ROWS]
    return (
        repeat("query, the Round's first page", lambda: round_for_today(room, with_lots=False)),
        repeat("query, lots to pack (after the paint)", lambda: lots_for_today(room)),
        repeat(f"query, a page of {PAGE_ROWS} by key", lambda: packages_for(room, page)),
        repeat("query, all keys", lambda: package_keys(room, wanted)),
    )


async def _inside(many: Stockroom, few: Stockroom) -> tuple[Timing, ...]:
    """What is measured in this process."""
    return (
        await repeat_async("warm first paint, bare app", bare_paint),
        await repeat_async(f"warm first paint, Round of {MANY:,}", lambda: round_paint(many)),
        await repeat_async(f"page down, Shelves of {MANY:,}", lambda: page_down(many)),
        await repeat_async(f"page down, Shelves of {FEW}", lambda: page_down(few)),
    )


def measure(folder: Path) -> tuple[list[Timing], tuple[Ratio, Ratio], list[Ratio]]:
    """Everything, in one run: the timings, the ratios that have an aim, and others."""
    many = full_store(folder / "many.db", MANY)
    few = full_store(folder / "few.db", FEW)
    bare, paint = launches(many.path)
    warm_bare, warm, page, page_few = asyncio.run(_inside(many, few))
    raw = queries(many)
    many.close()
    few.close()
    aimed = (
        FastestRatio(f"first paint: Round of {MANY:,} / bare app, fastest", paint, bare),
        Ratio(f"page down: Shelves of {MANY:,} / of {FEW}", page, page_few),
    )
    others = [
        Ratio("first paint: Round / bare app, median", paint, bare),
        Ratio("warm first paint: Round / bare app", warm, warm_bare),
        Ratio("page down / its bare query", page, raw[2]),
    ]
    return [bare, paint, warm_bare, warm, page, page_few, *raw], aimed, others


def main() -> int:
    """Print what was measured; 1 when an aim is missed."""
    with TemporaryDirectory() as folder:
        timings, aimed, others = measure(Path(folder))
    lines = [*timings_table(timings), "", *ratios_table([*aimed, *others]), ""]
    met = [ratio.value <= aim for ratio, aim in zip(aimed, AIMS, strict=True)]
    lines += [
        f"{ratio.name}: {'met' if good else 'MISSED'} (at most {aim})"
        for ratio, aim, good in zip(aimed, AIMS, met, strict=True)
    ]
    sys.stdout.write("\n".join(lines) + "\n")
    return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main())
