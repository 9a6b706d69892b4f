"""The Bench: runs on the machine, what waits for it, and lots that wait to be packed."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical

from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.quantities import read_day
from stockroom.domain.records import Lot, Run
from stockroom.services import bench, dryness, packing, redrying
from stockroom.services.results import Done
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import say
from stockroom.tui.screens.bench_rows import (
    LOT_COLUMNS,
    NO_LOTS,
    NO_LOTS_TO_PACK,
    NO_RUNS,
    QUEUE_COLUMNS,
    Moment,
    cut_text,
    lot_row,
    queue_row,
    run_columns,
    run_row,
)
from stockroom.tui.screens.foods import FoodsScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.pack import begin_packing
from stockroom.tui.screens.package_actions import PackageActions
from stockroom.tui.screens.repack import begin_repacking
from stockroom.tui.screens.run import RunScreen
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.window_table import WindowTable

MOST_SHOWN = 200
"""Runs and lots listed here; older ones are found by their packages (engineering judgement)."""


class BenchScreen(PackageActions):
    """Runs, the open ones first; the queue for the machine; lots with something left to pack."""

    MODE = "bench"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "new_run", "New run", id="bench-new", tooltip="Start a run of the machine."),
        Binding("p", "pack", "Pack", id="bench-pack", tooltip="Pack the lot under the cursor."),
        Binding(
            "l",
            "all_lots",
            "All lots",
            id="bench-all-lots",
            tooltip="Show every lot, or again only those with something left to pack.",
        ),
        Binding("f", "foods", "Foods", id="bench-foods", tooltip="Look at the household's foods."),
    ]
    DEFAULT_CSS = """
    BenchScreen .part { height: 1fr; }
    """

    def __init__(self) -> None:
        super().__init__()
        self.runs: dict[int, Run] = {}
        self.lots: dict[int, Lot] = {}
        self.queue: dict[int, QueueEntry] = {}
        self.shows_all_lots = False

    def compose_body(self) -> ComposeResult:
        """The lists, one under the other; the queue as long as something waits."""
        with Vertical(classes="part", id="runs-part") as part:
            part.border_title = "Runs"
            yield ShortTable(run_columns(with_hours=False), empty=NO_RUNS, id="runs")
        with Vertical(classes="part", id="queue-part") as part:
            part.border_title = "Waiting for the machine, first come first served"
            yield ShortTable(QUEUE_COLUMNS, empty="", id="queue")
        with Vertical(classes="part", id="lots-part") as part:
            part.border_title = "Lots to pack"
            yield ShortTable(LOT_COLUMNS, empty=NO_LOTS_TO_PACK, id="lots")

    def on_mount(self) -> None:
        """Show what there is, the cursor on the runs."""
        self.reload()
        self.query_one("#runs").focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read every list again."""
        self._reload_runs()
        self._reload_queue()
        self._reload_lots()
        self.refresh_bindings()

    def _reload_runs(self) -> None:
        runs = self.attempt(bench.list_runs, self.stockroom, count=MOST_SHOWN)
        waited_for = None if runs is None else self.attempt(dryness.waited_for, self.stockroom)
        if runs is None or waited_for is None:
            return
        extra = {one.run_id: one for one in waited_for}
        ordered = sorted(runs, key=lambda run: (run.state != "open", -run.run_id))
        self.runs = {run.run_id: run for run in ordered}
        table = self.query_one("#runs", ShortTable)
        columns = run_columns(with_hours=bool(extra))
        if table.columns != columns:
            table.set_columns(columns)
        now = Moment(self.room.clock.now(), self.room.today)
        table.show_rows([run_row(run, extra.get(run.run_id), now, bool(extra)) for run in ordered])
        self.query_one("#runs-part").border_subtitle = cut_text(len(runs), MOST_SHOWN)

    def _reload_queue(self) -> None:
        queue = self.attempt(redrying.machine_queue, self.stockroom)
        units = self.attempt(lambda: self.stockroom.units)
        if queue is None or units is None:
            return
        self.queue = {entry.entry_id: entry for entry in queue}
        rows = [queue_row(turn, entry, units) for turn, entry in enumerate(queue, start=1)]
        self.query_one("#queue", ShortTable).show_rows(rows)
        part = self.query_one("#queue-part")
        if not queue and part.display and self.query_one("#queue").has_focus:
            self.query_one("#runs").focus()
        part.display = bool(queue)

    def _reload_lots(self) -> None:
        lots = self.attempt(self._lots_wanted)
        units = self.attempt(lambda: self.stockroom.units)
        if lots is None or units is None:
            return
        self.lots = {lot.lot_id: lot for lot in lots}
        table = self.query_one("#lots", ShortTable)
        table.empty = NO_LOTS if self.shows_all_lots else NO_LOTS_TO_PACK
        waiting = {one.lot_id for one in self.queue.values() if one.package_id is None}
        rows = [lot_row(lot, units, waits=lot.lot_id in waiting) for lot in lots]
        table.show_rows(rows)
        part = self.query_one("#lots-part")
        part.border_title = "All lots, the latest first" if self.shows_all_lots else "Lots to pack"
        part.border_subtitle = cut_text(len(lots), MOST_SHOWN) if self.shows_all_lots else ""

    def _lots_wanted(self) -> tuple[Lot, ...]:
        """Every lot, the latest first, or those with something left to pack."""
        if self.shows_all_lots:
            return packing.list_lots(self.stockroom, count=MOST_SHOWN)
        return packing.lots_to_pack(self.stockroom)

    @property
    def lot(self) -> Lot | None:
        """The lot under the cursor of the lots, whichever list has the keys."""
        return self.lots.get(self.query_one("#lots", ShortTable).cursor_key or 0)

    @on(WindowTable.RowChosen, "#runs")
    def _open_run(self, message: WindowTable.RowChosen) -> None:
        """Enter on a run opens it."""
        self.app.push_screen(RunScreen(message.key))

    @on(WindowTable.RowChosen, "#lots")
    def _open_lot(self, message: WindowTable.RowChosen) -> None:
        """Enter on a lot opens its page."""
        lot = self.lots.get(message.key)
        if lot is not None:
            self.app.push_screen(LotScreen(lot.code))

    @on(WindowTable.RowChosen, "#queue")
    def _go_on_with(self, message: WindowTable.RowChosen) -> None:
        """Enter on what waits: load it, look at its run, or pack what came off the machine."""
        entry = self.queue.get(message.key)
        if entry is None:
            return
        if entry.state == "waiting":
            self.load_again([entry.code])
        elif entry.state == "loaded" and entry.run_id is not None:
            self.app.push_screen(RunScreen(entry.run_id))
        else:
            pack_waiting(self, entry)

    def action_new_run(self) -> None:
        """Ask for the day of a new run, then open it."""
        self.app.push_screen(self._new_run_form(), self._run_started)

    def _new_run_form(self) -> FormScreen[Done]:
        room = self.stockroom

        def start(answers: Answers) -> Done:
            day = read_day(answers.text("day"), room.today, "day")
            return bench.start_run(room, started_on=day, note=answers.text("note"))

        return FormScreen(
            "Start a run",
            (
                Field("day", "Started on", "today", hint="today, yesterday, -2 or YYYY-MM-DD"),
                Field("note", "Note", hint="Anything to remember; may stay empty."),
            ),
            start,
        )

    def _run_started(self, done: Done | None) -> None:
        if done is None:
            return
        self.announce("run")
        self.app.push_screen(RunScreen(done.made_id))

    def action_pack(self) -> None:
        """Pack the lot under the cursor; in the queue, what came off the machine."""
        entry = self.queue.get(self.query_one("#queue", ShortTable).cursor_key or 0)
        if self.query_one("#queue").has_focus and entry is not None:
            pack_waiting(self, entry)
            return
        lot = self.lot
        if lot is not None:
            begin_packing(self, lot.code)
        else:
            say(self.app, NO_LOTS_TO_PACK, title="Nothing to pack")

    def action_all_lots(self) -> None:
        """Show all lots, or only those to pack."""
        self.shows_all_lots = not self.shows_all_lots
        self._reload_lots()

    def action_foods(self) -> None:
        """Show the household's foods."""
        self.app.push_screen(FoodsScreen())


def pack_waiting(screen: BaseScreen, entry: QueueEntry) -> None:
    """Pack what came off the machine, or tell why it cannot be packed yet."""
    if entry.package_id is None:
        begin_packing(screen, entry.lot_code)
    else:
        begin_repacking(screen, [entry.code])
