"""The Bench: runs on the machine, and lots that wait to be packed."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical

from stockroom.domain.quantities import UnitSystem, read_day, show_weight
from stockroom.domain.records import Lot, Run
from stockroom.services import bench, packing
from stockroom.services.results import Done
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import say
from stockroom.tui.screens.foods import FoodsScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.pack import begin_packing
from stockroom.tui.screens.run import RunScreen
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.widgets.window_table import WindowTable

NO_RUNS = "No runs yet. Press n to start one, then load its trays."
NO_LOTS_TO_PACK = "No lot waits to be packed. Closing a run makes its lots."
NO_LOTS = "No lots yet. Closing a run makes its lots."

MOST_SHOWN = 200
"""Runs and lots listed here; older ones are found by their packages (engineering judgement)."""

RUN_COLUMNS = (
    Column("Run", 5, align="right"),
    Column("State", 9, look="tone"),
    Column("Started", 10, priority=1),
    Column("Trays", 5, align="right", priority=2),
    Column("Foods", 12, weight=1, look="main"),
)
LOT_COLUMNS = (
    Column("Lot", 6),
    Column("Food", 12, weight=1, look="main"),
    Column("Made", 10, priority=2),
    Column("Dry", 11, align="right", priority=1),
    Column("Left to pack", 12, align="right", look="tone"),
)


class BenchScreen(BaseScreen):
    """Runs, the open ones first, and lots with something left to pack."""

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
        self.shows_all_lots = False

    def compose_body(self) -> ComposeResult:
        """The two lists, one under the other."""
        with Vertical(classes="part", id="runs-part") as part:
            part.border_title = "Runs"
            yield ShortTable(RUN_COLUMNS, empty=NO_RUNS, id="runs")
        with Vertical(classes="part", id="lots-part") as part:
            part.border_title = "Lots to pack"
            yield ShortTable(LOT_COLUMNS, empty=NO_LOTS_TO_PACK, id="lots")

    def on_mount(self) -> None:
        """Show what there is, the cursor on the runs."""
        self.reload()
        self.query_one("#runs").focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read both lists again."""
        self._reload_runs()
        self._reload_lots()
        self.refresh_bindings()

    def _reload_runs(self) -> None:
        runs = self.attempt(bench.list_runs, self.stockroom, count=MOST_SHOWN)
        if runs is None:
            return
        ordered = sorted(runs, key=lambda run: (run.state != "open", -run.run_id))
        self.runs = {run.run_id: run for run in ordered}
        self.query_one("#runs", ShortTable).show_rows([run_row(run) for run in ordered])
        self.query_one("#runs-part").border_subtitle = cut_text(len(runs))

    def _reload_lots(self) -> None:
        lots = self.attempt(self._lots_wanted)
        units = self.attempt(lambda: self.stockroom.units)
        if lots is None or units is None:
            return
        self.lots = {lot.lot_id: lot for lot in lots}
        table = self.query_one("#lots", ShortTable)
        table.empty = NO_LOTS if self.shows_all_lots else NO_LOTS_TO_PACK
        table.show_rows([lot_row(lot, units) for lot in lots])
        part = self.query_one("#lots-part")
        part.border_title = "All lots, the latest first" if self.shows_all_lots else "Lots to pack"
        part.border_subtitle = cut_text(len(lots)) if self.shows_all_lots else ""

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
        """Pack the lot under the cursor."""
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


def cut_text(count: int) -> str:
    """Says that a list was cut, when it was."""
    return f"the latest {MOST_SHOWN}" if count >= MOST_SHOWN else ""


def run_row(run: Run) -> Row:
    """A run on one line."""
    tone: Tone = "due" if run.state == "open" else ""
    cells = (
        str(run.run_id),
        run.state,
        run.started_on.isoformat(),
        str(run.trays),
        run.foods or run.note or "nothing loaded yet",
    )
    return Row(run.run_id, cells, tone)


def lot_row(lot: Lot, units: UnitSystem) -> Row:
    """A lot on one line."""
    left = show_weight(lot.left_dg, units) if lot.left_dg else "nothing"
    cells = (lot.code, lot.food, lot.made_on.isoformat(), show_weight(lot.dry_dg, units), left)
    return Row(lot.lot_id, cells, "due" if lot.left_dg else "")
