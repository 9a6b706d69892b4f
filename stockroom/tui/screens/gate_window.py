"""What shows that a lot, or food dried again, is dry: its trays, their tests, the gate."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from stockroom.domain.batch_evidence import Evidence, TrayRecord
from stockroom.services import dryness
from stockroom.services.dryness import DrynessTest
from stockroom.services.evidence import batch_working
from stockroom.services.session import Stockroom
from stockroom.tui.modal import attempt
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.dryness_words import (
    COLOURS,
    cell_of_test,
    dryness_text,
    gate_text,
    residual_text,
    slowest_text,
    tone_of_tray,
    weight_word,
)
from stockroom.tui.screens.run_sums import tray_text
from stockroom.tui.screens.table_window import TableWindow
from stockroom.tui.screens.tray_readings import ReadingsScreen
from stockroom.tui.screens.tray_tests import AFTER_FAILING, HOW_TO_TEST, bindings_for_tests
from stockroom.tui.screens.windows import Cautions
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone

COLUMNS = (
    Column("Tray", 4, align="right", look="main"),
    Column("Run", 4, align="right", look="quiet", priority=1),
    Column("Weight", 12, weight=1, look="tone"),
    Column("Cold", 5, look="tone"),
    Column("Break", 5, look="tone"),
    Column("", 7, look="quiet"),
)

AFTER_CLOSING = "It is not dry: it goes in the queue for the machine (g on the lot's page)."


class GateScreen(TableWindow[None]):
    """The trays of one batch. Tests are recorded here also after the run was closed."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings_for_tests("gate"),
        Binding(
            "r",
            "readings",
            "Readings",
            id="gate-readings",
            tooltip="Everything weighed and tested on the tray under the cursor; Enter too.",
        ),
        working_binding("gate", "Show how the gate was judged, tray by tray."),
    ]
    DEFAULT_CSS = """
    GateScreen .care { margin-top: 1; }
    """

    def __init__(self, room: Stockroom, heading: str, read: Callable[[], Evidence]) -> None:
        """`read` reads the evidence of one batch, anew after each test; may raise NotFound."""
        self.read = read
        self.evidence = read()
        self.units = room.units
        super().__init__(room, heading, COLUMNS, above=self._above())

    @property
    def trays(self) -> tuple[TrayRecord, ...]:
        """The trays in order."""
        return self.evidence.trays

    def _above(self) -> list[str]:
        batch = self.evidence.batches[0]
        again = any(record.tray.again for record in batch.trays)
        open_run = self.evidence.run.state == "open"
        lines = (gate_text(batch.gate, open_run=open_run), slowest_text(batch.gate))
        return [*(one for one in lines if one), residual_text(batch.gate, again=again)]

    def compose_below(self) -> ComposeResult:
        """The keys in words, and what to bear in mind at the gate."""
        yield Static(HOW_TO_TEST, classes="text")
        yield Cautions(self.evidence.batches[0].gate.cautions, id="gate-care")

    def on_mount(self) -> None:
        """Show the trays."""
        super().on_mount()
        self._show()

    def _show(self) -> None:
        verdict, *others = self._above()
        tone: Tone = "good" if self.evidence.batches[0].gate.open else "due"
        lines = [plain(verdict, COLOURS[tone]), *(plain(one) for one in others)]
        self.query_one(".above", Static).update(Content("\n").join(lines))
        self.show_rows([self._row(one) for one in self.trays])

    def _row(self, record: TrayRecord) -> Row:
        cells = (
            str(record.tray.position),
            str(record.tray.run_id),
            weight_word(record),
            cell_of_test(record, DrynessTest.COLD),
            cell_of_test(record, DrynessTest.BREAK),
            "slowest" if record.finding.slowest and len(self.trays) > 1 else "",
        )
        return Row(record.tray.tray_id, cells, tone_of_tray(record))

    def _record(self, key: int | None) -> TrayRecord | None:
        return next((one for one in self.trays if one.tray.tray_id == key), None)

    def words_of(self, key: int) -> Sequence[str]:
        """The tray in full."""
        record = self._record(key)
        if record is None:
            return ()
        shown = dryness_text(record)
        return [tray_text(record.tray, self.units), *([shown] if shown else [])]

    def action_tested(self, kind: str, passed: bool) -> None:
        """Record a test of the tray under the cursor and go on to the next."""
        record = self._record(self.table.cursor_key)
        if record is None:
            return
        done = attempt(
            self.app,
            dryness.record_test,
            self.room,
            record.tray.position,
            DrynessTest(kind),
            passed,
            run_id=record.tray.run_id,
        )
        evidence = None if done is None else attempt(self.app, self.read)
        if done is None or evidence is None:
            return
        app: Any = self.app
        app.announce("run")
        self.evidence = evidence
        self._show()
        self.query_one(".words", Static).update(plain_lines(self.words_of(record.tray.tray_id)))
        if not passed:
            what = AFTER_FAILING if evidence.run.state == "open" else AFTER_CLOSING
            say(self.app, what, "warning", title=done.words)
        self.table.action_move(1)

    def chosen(self, key: int) -> None:
        """Show everything weighed and tested on a tray."""
        record = self._record(key)
        if record is not None:
            window = attempt(self.app, ReadingsScreen, self.room, self.evidence, record)
            if window is not None:
                self.app.push_screen(window)

    def action_readings(self) -> None:
        """The same for the tray under the cursor."""
        if self.table.cursor_key is not None:
            self.chosen(self.table.cursor_key)

    def action_working(self) -> None:
        """Show how the gate was judged."""
        open_working(self, f"Working: {self.heading}", batch_working, self.evidence.batches[0])
