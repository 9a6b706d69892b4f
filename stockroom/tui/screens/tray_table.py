"""The trays of a run as a list, which gives up its letters while a weight is being typed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType

from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import Tray
from stockroom.tui.screens.run_sums import food_sums, ratio_text
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone

NO_TRAYS = "No trays yet. Press a to add one: what is on it, and its weight if you have it."
MISSING = "–"
LEAST_LINES = 4
"""Lines the list takes at least, so that its sentence shows when it is empty."""


class TrayTable(ShortTable):
    """The trays by number. A digit begins a weight as long as the run is open."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "0,1,2,3,4,5,6,7,8,9",
            "screen.weigh('dry')",
            "Dry weight",
            show=False,
            id="run-dry",
            tooltip="Digits and Enter are the dry weight of the tray under the cursor.",
        ),
    ]

    def __init__(self) -> None:
        super().__init__(tray_columns(UnitSystem.METRIC), empty=NO_TRAYS, id="trays")
        self.is_typing = False

    def show_trays(self, trays: Sequence[Tray], units: UnitSystem) -> None:
        """Show these trays. Ounces and pounds need more room than grams."""
        if self.columns != tray_columns(units):
            self.set_columns(tray_columns(units))
        self.styles.height = max(LEAST_LINES, len(trays) + 1)
        self.show_rows([tray_row(tray, units) for tray in trays])

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """While a weight is being typed no letter is a command."""
        return self.is_typing and character is not None and character.isprintable()


def tray_columns(units: UnitSystem) -> tuple[Column, ...]:
    """The columns of the trays."""
    cells = 11 if units is UnitSystem.US else 8
    return (
        Column("Tray", 4, align="right"),
        Column("Food", 10, weight=1, look="main"),
        Column("Loaded", cells, align="right", priority=1),
        Column("Dry", cells, align="right", look="tone"),
        Column("Water", cells, align="right"),
        Column("Per g", 6, align="right"),
        Column("Lot", 6, priority=2),
    )


def tray_row(tray: Tray, units: UnitSystem) -> Row:
    """A tray on one line."""
    wet = MISSING if tray.wet_dg is None else show_weight(tray.wet_dg, units)
    dry = "to weigh" if tray.dry_dg is None else show_weight(tray.dry_dg, units)
    water = ratio = MISSING
    if tray.wet_dg is not None and tray.dry_dg:
        (one,) = food_sums([tray])
        assert one.totals is not None
        water = show_weight(one.totals.water_removed_dg, units)
        ratio = ratio_text(one.totals.water_per_dry)
    tone: Tone = "due" if tray.dry_dg is None else ""
    cells = (str(tray.position), tray.food, wet, dry, water, ratio, tray.lot_code or "")
    return Row(tray.tray_id, cells, tone)
