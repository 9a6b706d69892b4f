"""Packing advice for a lot: the ways side by side, the best first, and what to bear in mind."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Static

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.services.advice import Packed, PackingAdvice, advise_lot
from stockroom.services.session import Stockroom
from stockroom.tui.plaintext import plain_lines
from stockroom.tui.screens.package_words import LIMIT_WORDS
from stockroom.tui.screens.table_window import TableWindow
from stockroom.tui.screens.whatif_words import NO_DATE, SHORT_LIMITS
from stockroom.tui.screens.windows import Cautions
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row

COLUMNS = (
    Column("Pack it into", 16, weight=1, look="main"),
    Column("Dry each", 9, align="right", priority=2),
    Column("Absorber", 8, align="right"),
    Column("Best by", 10, look="tone"),
    Column("Limit", 8, priority=1, look="quiet"),
)
NOTHING_SUITS = "No container of the household suits what is left of this lot."
REPLACES = "! Enter replaces the lines typed so far."


class AdviceScreen(TableWindow[Packed]):
    """The ways to pack a lot; Enter closes with the one under the cursor, for the packing form."""

    BINDINGS: ClassVar[list[BindingType]] = [
        working_binding("advice", "Show how absorber and best-by of this way were reached."),
    ]
    DEFAULT_CSS = """
    AdviceScreen {
        .warning { color: $warning; padding: 0 1; }
        .section { color: $primary; text-style: bold; margin-top: 1; }
    }
    """

    def __init__(
        self, room: Stockroom, advice: PackingAdvice, *, place: str | None, replaces: bool
    ) -> None:
        """`replaces` says that lines already typed would go."""
        super().__init__(
            room,
            f"Packing advice for lot {advice.lot.code}",
            COLUMNS,
            above=above_lines(advice, room.units, place),
            empty=NOTHING_SUITS,
        )
        self.advice = advice
        self.units = room.units
        self.place = place
        self.replaces = replaces
        self.ways: tuple[Packed, ...] = (
            *([advice.advised] if advice.advised is not None else []),
            *advice.others,
        )

    def compose_inside(self) -> ComposeResult:
        """What would be lost is said before the ways."""
        if self.replaces and self.advice.advised is not None:
            yield Static(REPLACES, classes="warning")
        yield from super().compose_inside()

    def compose_below(self) -> ComposeResult:
        """Why the advised way, and the cautions that belong to it."""
        why = "Why the first is advised" if self.advice.advised else "Why"
        yield Static(why, classes="section")
        yield Static(plain_lines([f"· {one}" for one in self.advice.reasons]), classes="text")
        if self.advice.cautions:
            yield Static("Bear in mind", classes="section")
            yield Cautions(self.advice.cautions)

    def on_mount(self) -> None:
        """Show the ways, the advised one under the cursor."""
        super().on_mount()
        self.show_rows([self._row(key, way) for key, way in enumerate(self.ways)])

    def _row(self, key: int, way: Packed) -> Row:
        fit = way.fit
        cells = (
            f"{fit.count} × {fit.container.name}",
            show_weight(fit.each_dg, self.units),
            "none" if way.absorber is None else f"{way.absorber.absorber_cc} cc",
            way.best_by.isoformat() if way.best_by else NO_DATE,
            SHORT_LIMITS.get(way.limited_by, ""),
        )
        return Row(key, cells, "good" if way is self.advice.advised else "")

    def words_of(self, key: int) -> Sequence[str]:
        """The way in full."""
        way = self.ways[key]
        best_by = best_by_words(way)
        advised = "Advised: " if way is self.advice.advised else ""
        return [
            f"{advised}{packed_words(way, self.units)}.",
            f"{best_by[:1].upper()}{best_by[1:]}.",
        ]

    def chosen(self, key: int) -> None:
        """Close with the way under the cursor; one the model gives no date is not filled in."""
        way = self.ways[key]
        if way.best_by is not None:
            self.dismiss(way)

    def action_working(self) -> None:
        """Show how the figures of the way under the cursor were reached."""
        from stockroom.services.outlook_workings import advice_working

        key = self.table.cursor_key
        if key is not None:
            way = self.ways[key]
            heading = f"Working: {way.fit.count} × {way.fit.container.name}"
            open_working(self, heading, advice_working, self.room, self.advice, way)


def advice_screen(
    room: Stockroom, lot_code: str, place: str | None, *, replaces: bool
) -> AdviceScreen:
    """The window for a lot. Raises as `advise_lot` does."""
    advice = advise_lot(room, lot_code, place=place)
    return AdviceScreen(room, advice, place=place, replaces=replaces)


def above_lines(advice: PackingAdvice, units: UnitSystem, place: str | None) -> list[str]:
    """What is to be packed, and where it would stand."""
    standing = f"standing in {place}" if place else "in a place near 21 °C: none is picked yet"
    return [
        f"{advice.lot.food}: {show_weight(advice.lot.left_dg, units)} dry left to pack,"
        f" {standing}. Every date is a {QUALITY_NOT_SAFETY}. Enter fills the form in.",
    ]


def packed_words(packed: Packed, units: UnitSystem) -> str:
    """So many of which container, how full, with which absorber."""
    fit = packed.fit
    each = show_weight(fit.each_dg, units)
    absorber = "no absorber"
    if packed.absorber is not None:
        absorber = f"{packed.absorber.absorber_cc} cc absorber"
    dry = "dry each" if fit.count > 1 else "dry"
    return f"{fit.count} × {fit.container.name}, {each} {dry}, {absorber}"


def best_by_words(packed: Packed) -> str:
    """The best-by with its band and limit, or why there is none."""
    if packed.best_by is None:
        return f"no best-by: {packed.why_not.rstrip('.')}"
    limit = LIMIT_WORDS.get(packed.limited_by, packed.limited_by)
    return (
        f"best by {packed.best_by}, between {packed.low} and {packed.high}"
        f" ({QUALITY_NOT_SAFETY}); {limit}"
    )
