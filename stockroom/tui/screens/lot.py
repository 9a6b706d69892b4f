"""One lot: the trays it came from, its packages, its losses, and that they add up."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.domain.batch_evidence import Evidence
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Package
from stockroom.errors import NotFound, StockroomError
from stockroom.services import packing, redrying, shelves
from stockroom.services.evidence import lot_evidence
from stockroom.services.results import Done, LotDetail
from stockroom.tui.base import BaseScreen, tell
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.dryness_words import gate_text, residual_text
from stockroom.tui.screens.gate_window import GateScreen
from stockroom.tui.screens.lot_words import (
    again_form,
    heading_text,
    loss_form,
    loss_text,
    package_row,
    queue_text,
    sum_lines,
    tray_lines,
)
from stockroom.tui.screens.pack import begin_packing
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.sample_keys import sample_binding
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.screens.windows import Cautions, ReadScreen, open_window
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_table import WindowTable
from stockroom.tui.words import GONE

NO_PACKAGES = "Nothing is packed yet. Press p to pack this lot."

PACKAGE_COLUMNS = (
    Column("Package", 10, look="main"),
    Column("Dry", 9, align="right"),
    Column("Water", 9, align="right"),
    Column("Servings", 8, align="right", priority=1),
    Column("State", 9, look="tone"),
    Column("Place", 12, weight=3, priority=2, keep="end"),
    Column("Container", 16, weight=1, priority=3),
)


class LotScreen(BaseScreen):
    """The page of one lot."""

    MODE = "bench"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("p", "pack", "Pack", id="lot-pack", tooltip="Pack what is left of the lot."),
        Binding(
            "l",
            "loss",
            "Record a loss",
            id="lot-loss",
            tooltip="Record dry food that goes into no package: tasted, spilt, discarded.",
        ),
        Binding(
            "a",
            "advice",
            "Advice",
            id="lot-advice",
            tooltip="How it would be packed best, and why; fills in the packing form.",
        ),
        Binding(
            "f",
            "what_if",
            "What if",
            id="lot-what-if",
            tooltip="The package under the cursor elsewhere, or packed otherwise.",
        ),
        Binding(
            "r",
            "readings",
            "Readings",
            id="lot-readings",
            tooltip="What shows that it is dry, tray by tray; tests are recorded there.",
        ),
        Binding(
            "g",
            "again",
            "Dry again",
            id="lot-again",
            tooltip="Put what is left in the queue for the machine, or take it out again.",
        ),
        Binding(
            "L",
            "labels",
            "Labels",
            show=False,
            id="lot-labels",
            tooltip="Print labels of its packages, or one for its bin.",
        ),
        sample_binding("lot-sample", "How many of the lot to look at, and which ones."),
        working_binding("lot", "How water and moisture were reached, and the package's figures."),
        Binding(
            "exclamation_mark",
            "cautions",
            "Cautions",
            id="lot-cautions",
            tooltip="Read what to bear in mind for this lot, with sources.",
        ),
        Binding("escape", "back", "Back", id="lot-back", tooltip="Leave the lot."),
    ]
    DEFAULT_CSS = """
    LotScreen {
        .heading { padding: 0 1; color: $primary; text-style: bold; }
        #sums { padding: 0 1; }
        #dryness { padding: 0 1; color: $warning; margin-bottom: 1; }
        #dryness.-shown { color: $success; }
        #packages { max-height: 55%; }
        .below { height: 1fr; padding: 0 1; margin-top: 1; scrollbar-size-vertical: 1; }
    }
    """

    def __init__(self, code: str) -> None:
        """`code` is the lot's code."""
        super().__init__()
        self.code = code
        self.detail: LotDetail | None = None

    def compose_body(self) -> ComposeResult:
        """The sums, the gate, the packages; below them moisture, losses, trays and cautions."""
        yield Static(classes="heading")
        yield Static(id="sums")
        yield Static(id="dryness")
        yield ShortTable(PACKAGE_COLUMNS, empty=NO_PACKAGES, id="packages")
        with VerticalScroll(classes="below"):
            yield Static(id="moisture")
            yield Static(id="losses")
            yield Static(id="trays")
            yield Cautions(id="care")

    def on_mount(self) -> None:
        """Show the lot."""
        self.reload()
        self.query_one("#packages").focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the lot again; one whose run was opened again has no page any more."""
        try:
            self.detail = packing.lot_detail(self.stockroom, self.code)
            evidence = lot_evidence(self.stockroom, self.code)
            units = self.stockroom.units
        except NotFound:
            self.app.pop_screen()
            return
        except StockroomError as error:
            tell(self.app, error)
            return
        self._show(self.detail, evidence, units)
        self.refresh_bindings()

    def _show(self, detail: LotDetail, evidence: Evidence, units: UnitSystem) -> None:
        """Paint everything from one reading."""
        self.query_one(".heading", Static).update(plain(heading_text(detail.lot)))
        self.query_one("#sums", Static).update(plain_lines(sum_lines(detail.lot, units)))
        rows = [package_row(package, units) for package in detail.packages]
        table = self.query_one("#packages", ShortTable)
        table.styles.height = max(4, len(rows) + 1)
        table.show_rows(rows)
        losses = [loss_text(loss, units) for loss in detail.losses]
        self.query_one("#losses", Static).update(plain_lines(losses))
        self._show_dryness(detail, evidence)
        self.query_one("#trays", Static).update(plain_lines(tray_lines(detail, evidence, units)))
        self.query_one("#care", Cautions).show(detail.cautions)

    def _show_dryness(self, detail: LotDetail, evidence: Evidence) -> None:
        """The gate, the place in the queue, and the moisture left with what it is worth."""
        batch = evidence.batches[0]
        line = self.query_one("#dryness", Static)
        line.set_class(batch.gate.open, "-shown")
        left = detail.lot.left_dg > 0
        lines = [gate_text(batch.gate, open_run=False) if left else batch.gate.words]
        if detail.queued is not None:
            queue = self.attempt(redrying.machine_queue, self.stockroom) or ()
            lines.append(queue_text(detail.queued, queue))
        line.update(plain_lines(lines))
        again = any(record.tray.again for record in batch.trays)
        self.query_one("#moisture", Static).update(plain(residual_text(batch.gate, again=again)))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A lot with nothing left is neither packed nor lost, one in the queue waits."""
        left = bool(self.detail and self.detail.lot.left_dg)
        if action in ("pack", "advice"):
            return left and not (self.detail and self.detail.queued)
        if action in ("loss", "again"):
            return left
        if action == "what_if":
            return self._package() is not None
        if action == "sample":
            packages = self.detail.packages if self.detail else ()
            return any(one.condition not in GONE for one in packages)
        return super().check_action(action, parameters)

    def _under_cursor(self) -> Package | None:
        """The package under the cursor, gone or not."""
        key = self.query_one("#packages", ShortTable).cursor_key
        packages = self.detail.packages if self.detail else ()
        return next((one for one in packages if one.package_id == key), None)

    def _package(self) -> Package | None:
        """The package under the cursor, unless it stands nowhere any more."""
        package = self._under_cursor()
        return None if package is None or package.condition in GONE else package

    @on(WindowTable.RowHighlighted)
    def _follow_cursor(self) -> None:
        """What can be done follows the cursor."""
        self.refresh_bindings()

    @on(WindowTable.RowChosen)
    def _open_package(self, message: WindowTable.RowChosen) -> None:
        """Enter on a package shows it in full."""
        packages = {one.package_id: one for one in (self.detail.packages if self.detail else ())}
        chosen = packages.get(message.key)
        found = chosen and self.attempt(shelves.package_detail, self.stockroom, chosen.code)
        if found:
            self.app.push_screen(PackageScreen(self.MODE, found))

    def action_pack(self) -> None:
        """Pack the lot."""
        begin_packing(self, self.code)

    def action_advice(self) -> None:
        """Show how it would be packed best, over the packing form."""
        begin_packing(self, self.code, advise=True)

    def action_what_if(self) -> None:
        """Show what would become of the package elsewhere or packed otherwise."""
        from stockroom.tui.screens.whatif import what_if_screen

        package = self._package()
        if package is not None:
            open_window(self, self._moved, what_if_screen, self.stockroom, package)

    def action_sample(self) -> None:
        """Show how many of the lot to look at, and which ones."""
        from stockroom.tui.screens.sample import open_sample

        open_sample(self, self.MODE, self.code)

    def action_working(self) -> None:
        """Show how the lot's figures were reached, and those of the package under the cursor."""
        from stockroom.services.workings import lot_working

        if self.detail:
            lot = self.detail.lot
            heading = f"Working: lot {lot.code} {lot.food}"
            package = self._under_cursor()
            open_working(self, heading, lot_working, self.stockroom, lot.code, package)

    def _moved(self, done: Done | None) -> None:
        if done:
            self.announce("package")
            say(self.app, done.words)

    def action_readings(self) -> None:
        """Show what shows that the lot is dry."""
        room, code = self.stockroom, self.code
        heading = f"Is lot {code} dry?"
        open_window(self, None, GateScreen, room, heading, lambda: lot_evidence(room, code))

    def action_labels(self) -> None:
        """Ask how labels of its packages, or one for its bin, are to be printed."""
        from stockroom.tui.screens.label_form import Wanted, open_labels

        if self.detail:
            lot = self.detail.lot
            live = any(one.condition not in GONE for one in self.detail.packages)
            words = f"For lot {lot.code} {lot.food}."
            open_labels(self, self.stockroom, Wanted(words, (lot.code,), lots=not live))

    def action_again(self) -> None:
        """Put what is left in the queue for the machine, after asking why; or take it out."""
        if self.detail is None:
            return
        if self.detail.queued is None:
            open_window(self, self._queued, again_form, self.stockroom, self.detail.lot)
        else:
            self._queued(self.attempt(redrying.leave_queue, self.stockroom, self.code))

    def _queued(self, done: Done | None) -> None:
        if done:
            self.announce("lot", "queue")
            say(self.app, done.words)

    def action_loss(self) -> None:
        """Ask what was lost."""
        if self.detail:
            open_window(self, self._lost, loss_form, self.stockroom, self.detail.lot)

    def _lost(self, done: Done | None) -> None:
        if done:
            self.announce("lot")
            say(self.app, done.words)

    def action_cautions(self) -> None:
        """Read the cautions of the lot in full."""
        if self.detail:
            self.app.push_screen(ReadScreen("Cautions for this lot", (), self.detail.cautions))

    def action_back(self) -> None:
        """Leave the lot."""
        self.app.pop_screen()
