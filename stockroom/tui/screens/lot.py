"""One lot: the trays it came from, its packages, its losses, and that they add up."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.domain.packing import servings_in
from stockroom.domain.quantities import UnitSystem, read_weight, show_servings, show_weight
from stockroom.domain.records import Lot, LotLoss, Package
from stockroom.errors import NotFound, StockroomError
from stockroom.services import packing, shelves
from stockroom.services.packing import LossReason
from stockroom.services.results import Done, LotDetail
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen, tell
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.loss_words import LOSS_WORDS
from stockroom.tui.screens.pack import begin_packing
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.run_forms import unit_word
from stockroom.tui.screens.run_sums import tray_text, water_text
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.screens.windows import Cautions, ReadScreen, open_window
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.widgets.window_table import WindowTable
from stockroom.tui.words import GONE, NO_PLACE

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
        #sums { padding: 0 1; margin-bottom: 1; }
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
        """The sums, the packages, and below them losses, trays and cautions."""
        yield Static(classes="heading")
        yield Static(id="sums")
        yield ShortTable(PACKAGE_COLUMNS, empty=NO_PACKAGES, id="packages")
        with VerticalScroll(classes="below"):
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
            units = self.stockroom.units
        except NotFound:
            self.app.pop_screen()
            return
        except StockroomError as error:
            tell(self.app, error)
            return
        self._show(self.detail, units)
        self.refresh_bindings()

    def _show(self, detail: LotDetail, units: UnitSystem) -> None:
        """Paint everything from one reading."""
        self.query_one(".heading", Static).update(plain(_heading(detail.lot)))
        self.query_one("#sums", Static).update(plain_lines(sum_lines(detail.lot, units)))
        rows = [package_row(package, units) for package in detail.packages]
        table = self.query_one("#packages", ShortTable)
        table.styles.height = max(4, len(rows) + 1)
        table.show_rows(rows)
        losses = [loss_text(loss, units) for loss in detail.losses]
        self.query_one("#losses", Static).update(plain_lines(losses))
        trays = [tray_text(tray, units) for tray in detail.trays]
        self.query_one("#trays", Static).update(plain_lines(trays))
        self.query_one("#care", Cautions).show(detail.cautions)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A lot with nothing left is neither packed nor lost."""
        if action in ("pack", "loss", "advice"):
            return bool(self.detail and self.detail.lot.left_dg)
        if action == "what_if":
            return self._package() is not None
        return super().check_action(action, parameters)

    def _package(self) -> Package | None:
        """The package under the cursor, unless it stands nowhere any more."""
        key = self.query_one("#packages", ShortTable).cursor_key
        packages = self.detail.packages if self.detail else ()
        return next(
            (one for one in packages if one.package_id == key and one.condition not in GONE), None
        )

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

    def _moved(self, done: Done | None) -> None:
        if done:
            self.announce("package")
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


def loss_form(room: Stockroom, lot: Lot) -> FormScreen[Done]:
    """Asks how much went into no package, and why; records it."""
    units = room.units
    reasons = [Choice(str(reason), str(reason), LOSS_WORDS[reason]) for reason in LossReason]

    def search(letters: str) -> list[Choice]:
        return [one for one in reasons if one.label.startswith(letters.strip().casefold())]

    def record(answers: Answers) -> Done:
        typed = answers.text("weight").strip()
        return packing.record_loss(
            room,
            lot.code,
            read_weight(typed, units) if typed else None,
            LossReason(str(answers.key("reason") or LossReason.UNACCOUNTED)),
            note=answers.text("note"),
        )

    left = show_weight(lot.left_dg, units)
    return FormScreen(
        f"Record a loss of lot {lot.code}",
        (
            Field("weight", "Dry weight", unit=unit_word(units), hint=f"Empty: all {left} left."),
            Picker("reason", "Reason", search, reasons[0]),
            Field("note", "Note", hint="May stay empty."),
        ),
        record,
        about=(f"{lot.food}: {left} of dry food neither packed nor recorded as lost.",),
    )


def sum_lines(lot: Lot, units: UnitSystem) -> list[str]:
    """Where the lot's food and water went: the parts add up to the dry weight."""
    percent = 100 * lot.water_removed_dg / lot.wet_dg
    loaded, dry = show_weight(lot.wet_dg, units), show_weight(lot.dry_dg, units)
    packages = "1 package" if lot.packages == 1 else f"{lot.packages} packages"
    return [
        f"Loaded {loaded}, dry {dry}, {water_text(lot.wet_dg, lot.dry_dg, units)}"
        f" ({percent:.1f} % of the loaded weight).",
        f"Dry {dry} = packed {show_weight(lot.packed_dg, units)} in {packages}"
        f" + lost {show_weight(lot.lost_dg, units)} + left {show_weight(lot.left_dg, units)}.",
    ]


def package_row(package: Package, units: UnitSystem) -> Row:
    """A package of the lot on one line, as it was packed."""
    tone: Tone = "due" if package.condition in ("settling", "suspect", "held") else ""
    quiet: Tone = "quiet" if package.condition in ("used", "discarded") else tone
    servings = servings_in(package.dry_dg, package.water_dg, package.serving_dg)
    cells = (
        package.code,
        show_weight(package.dry_dg, units),
        show_weight(package.water_dg, units),
        show_servings(servings),
        package.condition,
        package.place or NO_PLACE,
        package.container,
    )
    return Row(package.package_id, cells, quiet)


def loss_text(loss: LotLoss, units: UnitSystem) -> str:
    """A loss in one line."""
    note = f", {loss.note}" if loss.note else ""
    weight = show_weight(loss.dry_dg, units)
    return f"{loss.on_day.isoformat()}: {weight} dry {loss.reason}{note}."


def _heading(lot: Lot) -> str:
    """The lot in one line."""
    made = lot.made_on.isoformat()
    return f"Lot {lot.code} · {lot.food} · {lot.preparation} · made {made} · run {lot.run_id}"
