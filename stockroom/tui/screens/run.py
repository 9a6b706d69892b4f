"""One run: its trays, and their weights by digits and Enter."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.domain.quantities import UnitSystem
from stockroom.errors import NotFound, StockroomError
from stockroom.services import bench
from stockroom.services.results import Done, RunDetail
from stockroom.tui.base import tell
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.pack import begin_packing
from stockroom.tui.screens.run_forms import TrayForm, close_form, unit_word
from stockroom.tui.screens.run_sums import (
    expected_text,
    food_sums,
    missing_weights,
    sum_text,
)
from stockroom.tui.screens.run_weighing import WeighingScreen
from stockroom.tui.screens.tray_table import TrayTable
from stockroom.tui.screens.weigh_line import WeighLine
from stockroom.tui.screens.windows import Cautions, ReadScreen, open_window
from stockroom.tui.widgets.window_table import WindowTable

GRAVE = ("raw-stays-raw", "raw-apart", "raw-egg")
"""Cautions that are shown in a window the first time they apply to a run."""

OPEN_ACTIONS = ("add_tray", "weigh", "close", "take_out", "abandon")
"""What can be done with an open run only."""


class RunScreen(WeighingScreen):
    """The trays of a run. Digits on a tray are its dry weight."""

    MODE = "bench"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("a", "add_tray", "Add tray", id="run-add", tooltip="Put a food on a tray."),
        Binding(
            "w", "weigh('wet')", "Wet weight", id="run-wet", tooltip="Type the loaded weight again."
        ),
        Binding(
            "t",
            "weigh('tare')",
            "Tare",
            id="run-tare",
            tooltip="Type the weight of the empty tray, then the gross weight.",
        ),
        Binding("p", "pack", "Pack", id="run-pack", tooltip="Pack the lot of this tray."),
        Binding("c", "close", "Close run", id="run-close", tooltip="Make the lots."),
        Binding(
            "d", "take_out", "Take out", id="run-take-out", tooltip="Take the tray out of the run."
        ),
        Binding(
            "x",
            "abandon",
            "Abandon",
            id="run-abandon",
            tooltip="Give the run up: it makes no lots.",
        ),
        Binding(
            "exclamation_mark",
            "cautions",
            "Cautions",
            id="run-cautions",
            tooltip="Read what to bear in mind for this load, with sources.",
        ),
        Binding("escape", "back", "Back", id="run-back", tooltip="Leave the entry, or the run."),
    ]
    DEFAULT_CSS = """
    RunScreen {
        .heading { padding: 0 1; color: $primary; text-style: bold; }
        #trays { max-height: 60%; }
        .sums { height: 1fr; padding: 0 1; margin-top: 1; scrollbar-size-vertical: 1; }
        #expected { color: $foreground-muted; }
    }
    """

    # What is shown

    def compose_body(self) -> ComposeResult:
        """The trays, what they add up to, and the line for a weight."""
        yield Static(classes="heading")
        yield TrayTable()
        with VerticalScroll(classes="sums"):
            yield Static(id="totals")
            yield Static(id="expected")
            yield Cautions(id="care")
        yield WeighLine()

    def on_mount(self) -> None:
        """Show the run, the cursor on its first tray."""
        self.reload()
        self.table.focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the run again; one that is undone has no page any more."""
        try:
            self.detail = bench.run_detail(self.stockroom, self.run_id)
            self.units = self.stockroom.units
        except NotFound:
            self.app.pop_screen()
            return
        except StockroomError as error:
            tell(self.app, error)
            return
        self._show(self.detail, self.units)
        self.refresh_bindings()

    def _show(self, detail: RunDetail, units: UnitSystem) -> None:
        """Paint everything from one reading."""
        self.query_one(".heading", Static).update(plain(_heading(detail)))
        self.table.show_trays(detail.trays, units)
        self.line.unit = unit_word(units)
        totals = [sum_text(one, units) for one in food_sums(detail.trays)]
        self.query_one("#totals", Static).update(plain_lines(totals))
        self.query_one("#expected", Static).update(plain(expected_text(detail, units)))
        bears_on = detail.trays and detail.run.state == "open"
        self.query_one("#care", Cautions).show(detail.cautions if bears_on else ())
        self.describe_tray()

    @on(WindowTable.RowChosen)
    def _chosen(self) -> None:
        """Enter on a tray: its dry weight, or once the run is closed its lot."""
        tray = self.tray
        if self.is_open:
            self.action_weigh("dry")
        elif tray is not None and tray.lot_code:
            self.app.push_screen(LotScreen(tray.lot_code))

    # Other actions

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A run that is closed or given up changes no more; a weight being typed comes first."""
        if self.is_typing and action in ("pack", "cautions", *OPEN_ACTIONS):
            return False
        if action in OPEN_ACTIONS:
            return self.is_open
        if action == "pack":
            return bool(self.detail and self.detail.lots)
        return super().check_action(action, parameters)

    def action_add_tray(self) -> None:
        """Ask what is on the next tray."""
        if self.detail:
            open_window(self, self._tray_added, TrayForm, self.stockroom, self.detail)

    def _tray_added(self, done: Done | None) -> None:
        if done is None or self.detail is None:
            return
        before = {caution.key for caution in self.detail.cautions}
        fresh = [one for one in done.cautions if one.key in GRAVE and one.key not in before]
        self.announce("run", "food")
        self.reload()
        self.table.go_to_key(done.made_id)
        if fresh:
            self.app.push_screen(ReadScreen("Bear in mind for this load", (), fresh))

    def action_take_out(self) -> None:
        """Take the tray under the cursor out of the run."""
        tray = self.tray
        if tray is None:
            return
        done = self.attempt(bench.unload_tray, self.stockroom, tray.position, run_id=self.run_id)
        if done:
            self.announce("run")
            say(self.app, "u undoes it.", title=done.words)

    def action_close(self) -> None:
        """Show the lots the run would make and ask for the day, or name what is missing."""
        if self.detail is None:
            return
        missing = missing_weights(self.detail.trays)
        if missing or not self.detail.trays:
            lines = [f"· {one}" for one in missing] or ["It has no trays: add one, or abandon it."]
            head = ["These weights are still missing:"] if missing else []
            heading = f"Run {self.run_id} cannot be closed yet"
            self.app.push_screen(ReadScreen(heading, [*head, *lines]))
            self._go_to_missing(self.detail)
            return
        open_window(self, self._run_closed, close_form, self.stockroom, self.detail)

    def _go_to_missing(self, detail: RunDetail) -> None:
        """Put the cursor on the first tray that lacks a weight."""
        lacking = [tray for tray in detail.trays if tray.wet_dg is None or tray.dry_dg is None]
        if lacking:
            self.table.go_to_key(lacking[0].tray_id)

    def _run_closed(self, done: Done | None) -> None:
        if done is None:
            return
        self.announce("run", "lot")
        say(self.app, "p packs the lot of a tray; Enter opens it.", title=done.words)

    def action_pack(self) -> None:
        """Pack the lot the tray under the cursor went into."""
        tray = self.tray
        if tray is not None and tray.lot_code:
            begin_packing(self, tray.lot_code)

    def action_abandon(self) -> None:
        """Give the run up, after asking."""
        lines = ["No lots are made of it; its weights stay in the record. u undoes it."]
        self.app.push_screen(ConfirmScreen(f"Abandon run {self.run_id}?", lines), self._abandon)

    def _abandon(self, sure: bool | None) -> None:
        if not sure:
            return
        done = self.attempt(bench.abandon_run, self.stockroom, run_id=self.run_id)
        if done:
            self.announce("run")
            say(self.app, done.words)

    def action_cautions(self) -> None:
        """Read the cautions of the load in full."""
        if self.detail:
            self.app.push_screen(ReadScreen("Cautions for this load", (), self.detail.cautions))

    def action_back(self) -> None:
        """Leave the weight that is being typed, or the run."""
        if self.is_typing:
            self.rest()
        else:
            self.app.pop_screen()


def _heading(detail: RunDetail) -> str:
    """The run in one line."""
    run = detail.run
    closed = f" {run.closed_on.isoformat()}" if run.closed_on else ""
    note = f" · {run.note}" if run.note else ""
    return f"Run {run.run_id} · {run.state}{closed} · started {run.started_on.isoformat()}{note}"
