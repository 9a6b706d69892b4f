"""One run: its trays, and their weights by digits and Enter."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from stockroom.domain.batch_evidence import Evidence
from stockroom.domain.quantities import UnitSystem
from stockroom.errors import NotFound, StockroomError
from stockroom.services import bench, dryness
from stockroom.services.dryness import DrynessTest
from stockroom.services.evidence import run_evidence
from stockroom.services.results import Done, RunDetail
from stockroom.tui.base import tell
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.dryness_words import COLOURS, extra_text, gate_lines
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.run_closing import ask_what_is_next, cannot_close, pack_off_tray
from stockroom.tui.screens.run_forms import TrayForm, close_form, longer_form, unit_word
from stockroom.tui.screens.run_sums import expected_text, load_lines
from stockroom.tui.screens.run_weighing import WeighingScreen
from stockroom.tui.screens.tray_readings import ReadingsScreen
from stockroom.tui.screens.tray_table import TrayTable
from stockroom.tui.screens.tray_tests import AFTER_FAILING, bindings_for_tests
from stockroom.tui.screens.weigh_line import WeighLine
from stockroom.tui.screens.windows import Cautions, ReadScreen, open_window
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.widgets.window_table import WindowTable

GRAVE = ("raw-stays-raw", "raw-apart", "raw-egg")
"""Cautions that are shown in a window the first time they apply to a run."""

OPEN_ACTIONS = ("add_tray", "weigh", "longer", "close", "take_out", "abandon")
"""What can be done with an open run only."""
LETTERS = ("pack", "tested", "readings", "cautions", "working", *OPEN_ACTIONS)
"""What is no command while a weight is being typed."""


class RunScreen(WeighingScreen):
    """The trays of a run. Digits on a tray are its dry weight."""

    MODE = "bench"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("a", "add_tray", "Add tray", id="run-add", tooltip="Put a food on a tray."),
        *bindings_for_tests("run")[:2],
        Binding(
            "h",
            "longer",
            "Hours",
            id="run-longer",
            tooltip="Dry a few more hours: what was shown before counts no more.",
        ),
        Binding(
            "r",
            "readings",
            "Readings",
            id="run-readings",
            tooltip="Everything weighed and tested on the tray, and how it was judged.",
        ),
        Binding("c", "close", "Close", id="run-close", tooltip="Close the run: make the lots."),
        *bindings_for_tests("run")[2:],
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
        Binding("p", "pack", "Pack", id="run-pack", tooltip="Pack what came off this tray."),
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
        working_binding("run", "Show how the water of this load was reached.", key="W"),
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
        #gate { margin-bottom: 1; }
        #expected { color: $foreground-muted; }
    }
    """

    # What is shown

    def compose_body(self) -> ComposeResult:
        """The trays, what shows that they are dry, their sums, and the line for a weight."""
        yield Static(classes="heading")
        yield TrayTable()
        with VerticalScroll(classes="sums"):
            yield Static(id="gate")
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
            self.evidence = run_evidence(self.stockroom, self.run_id)
            self.units = self.stockroom.units
        except NotFound:
            self.app.pop_screen()
            return
        except StockroomError as error:
            tell(self.app, error)
            return
        self._show(self.detail, self.evidence, self.units)
        self.refresh_bindings()

    def _show(self, detail: RunDetail, evidence: Evidence, units: UnitSystem) -> None:
        """Paint everything from one reading."""
        self.query_one(".heading", Static).update(plain(_heading(detail)))
        closed = detail.run.state == "closed"
        self.table.show_trays(evidence.trays, units, closed=closed)
        self.line.unit = unit_word(units)
        self.query_one("#gate", Static).update(Content("\n").join(self._gate(evidence)))
        self.query_one("#gate").display = detail.run.state != "abandoned" and bool(detail.trays)
        self.query_one("#totals", Static).update(plain_lines(load_lines(detail.trays, units)))
        self.query_one("#expected", Static).update(plain(expected_text(detail, units)))
        bears_on = detail.trays and detail.run.state == "open"
        self.query_one("#care", Cautions).show(detail.cautions if bears_on else ())
        self.describe_tray()

    def _gate(self, evidence: Evidence) -> list[Content]:
        """The reminder of a few more hours, then the gate of each batch."""
        lines = [plain(text, COLOURS[tone]) for tone, text in gate_lines(evidence)]
        if evidence.waited_for is not None:
            room = self.stockroom
            words = extra_text(evidence.waited_for, room.clock.now(), room.today)
            lines.insert(0, plain(words, "bold"))
        return lines

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
        if self.is_typing and action in LETTERS:
            return False
        if action == "longer":
            return self.is_open and bool(self.detail and self.detail.trays)
        if action in OPEN_ACTIONS:
            return self.is_open
        state = self.detail.run.state if self.detail else ""
        if action == "pack":
            return state == "closed"
        if action in ("tested", "readings"):
            return self.tray is not None and state != "abandoned"
        if action == "working":
            return bool(self.detail and self.detail.trays)
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
        if self.detail is None or self.evidence is None:
            return
        missing = cannot_close(self.detail)
        if missing is not None:
            self.app.push_screen(missing)
            self._go_to_missing(self.detail)
            return
        open_window(self, self._run_closed, close_form, self.stockroom, self.detail, self.evidence)

    def _go_to_missing(self, detail: RunDetail) -> None:
        """Put the cursor on the first tray that lacks a weight."""
        lacking = [
            tray
            for tray in detail.trays
            if tray.dry_dg is None or (tray.wet_dg is None and not tray.again)
        ]
        if lacking:
            self.table.go_to_key(lacking[0].tray_id)

    def _run_closed(self, done: Done | None) -> None:
        if done is None:
            return
        again = [tray for tray in self.detail.trays if tray.again] if self.detail else []
        self.announce("run", "lot", "package")
        if done.codes:
            say(self.app, "p packs the lot of a tray; Enter opens it.", title=done.words)
        else:
            say(self.app, done.words)
        if again:
            ask_what_is_next(self, again, self.units)

    def action_pack(self) -> None:
        """Pack what came off the tray under the cursor: its lot, or food dried again."""
        if self.tray is not None:
            pack_off_tray(self, self.tray)

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

    # Dryness

    def action_tested(self, kind: str, passed: bool) -> None:
        """Record a test of the tray under the cursor and go on to the next."""
        tray = self.tray
        if tray is None:
            return
        done = self.attempt(
            dryness.record_test,
            self.stockroom,
            tray.position,
            DrynessTest(kind),
            passed,
            run_id=self.run_id,
        )
        if done is None:
            return
        self.announce("run")
        if not passed:
            say(self.app, AFTER_FAILING, "warning", title=done.words)
        self.table.action_move(1)

    def action_longer(self) -> None:
        """Ask how many more hours the run dries."""
        if self.detail:
            open_window(self, self._dries_longer, longer_form, self.stockroom, self.run_id)

    def _dries_longer(self, done: Done | None) -> None:
        if done is None:
            return
        self.announce("run")
        self.reload()
        waited_for = self.evidence.waited_for if self.evidence else None
        if waited_for is not None:
            room = self.stockroom
            say(self.app, extra_text(waited_for, room.clock.now(), room.today))

    def action_readings(self) -> None:
        """Show everything weighed and tested on the tray under the cursor."""
        record, evidence = self.record, self.evidence
        if record is not None and evidence is not None:
            open_window(self, None, ReadingsScreen, self.stockroom, evidence, record)

    # Reading

    def action_working(self) -> None:
        """Show how the water to expect, and the water of each food, were reached."""
        from stockroom.services.workings import run_working

        heading = f"Working: run {self.run_id}"
        open_working(self, heading, run_working, self.stockroom, self.run_id)

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
