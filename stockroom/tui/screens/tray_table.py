"""The trays of a run as a list, which gives up its letters while a weight is being typed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType

from stockroom.domain.batch_evidence import TrayRecord
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import Tray
from stockroom.services.dryness import DrynessTest
from stockroom.tui.screens.dryness_words import (
    NOT_DONE,
    cell_of_test,
    lost_cell,
    tone_of_tray,
    weight_word,
)
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row

NO_TRAYS = "No trays yet. Press a to add one: what is on it, and its weight if you have it."
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

    def show_trays(
        self, trays: Sequence[TrayRecord], units: UnitSystem, *, closed: bool = False
    ) -> None:
        """Show these trays; of a closed run their lots in place of what each lost last."""
        columns = tray_columns(units, closed=closed)
        if self.columns != columns:
            self.set_columns(columns)
        self.styles.height = max(LEAST_LINES, len(trays) + 1)
        self.show_rows([tray_row(record, units, closed=closed) for record in trays])

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """While a weight is being typed no letter is a command."""
        return self.is_typing and character is not None and character.isprintable()


def tray_columns(units: UnitSystem, *, closed: bool = False) -> tuple[Column, ...]:
    """The columns of the trays. Ounces and pounds need more room than grams."""
    cells = 11 if units is UnitSystem.US else 8
    lost, lot = Column("Lost", cells, align="right", priority=2), Column("Lot", 6)
    return (
        Column("Tray", 4, align="right"),
        Column("Food", 8, weight=1, look="main"),
        Column("Loaded", cells, align="right", priority=3),
        Column("Dry", cells, align="right", priority=1 if closed else 0),
        *(() if closed else (lost,)),
        Column("Weight", 12, look="tone"),
        Column("Cold", 5, look="tone"),
        Column("Break", 5, look="tone"),
        *((lot,) if closed else ()),
    )


def tray_row(record: TrayRecord, units: UnitSystem, *, closed: bool = False) -> Row:
    """A tray on one line: its last weight, what that says, and its tests."""
    tray = record.tray
    wet = NOT_DONE if tray.wet_dg is None else show_weight(tray.wet_dg, units)
    dry = NOT_DONE if tray.dry_dg is None else show_weight(tray.dry_dg, units)
    cells = (
        str(tray.position),
        _what_is_on(tray),
        wet,
        dry,
        *(() if closed else (lost_cell(record, units),)),
        weight_word(record),
        cell_of_test(record, DrynessTest.COLD),
        cell_of_test(record, DrynessTest.BREAK),
        *((tray.lot_code or "",) if closed else ()),
    )
    return Row(tray.tray_id, cells, tone_of_tray(record))


def _what_is_on(tray: Tray) -> str:
    """The food; of food dried again its code first, with how many more share the tray."""
    if not tray.again:
        return tray.food
    first, *others = tray.again
    more = f"+{len(others)}" if others else ""
    return f"{first}{more} {tray.food}"
