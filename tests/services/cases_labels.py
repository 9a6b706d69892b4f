"""One ordinary use of every service about label sheets."""

from __future__ import annotations

from dataclasses import replace

from stockroom.domain.labels.sheets import Sheet
from stockroom.services import label_sheets
from tests.services.case import Case
from tests.world import World

OWN_SHEET = Sheet("Für Zoë", 210_000, 297_000, 8_000, 12_000, 64_000, 34_000, 1_000, 0, 3, 8)


def sheet_saved(world: World) -> None:
    """The household has a sheet of its own."""
    label_sheets.save_sheet(world.room, OWN_SHEET)


LABEL_CASES: dict[str, Case] = {
    "label_sheets.save_sheet": Case(
        sheet_saved,
        lambda room: label_sheets.save_sheet(room, replace(OWN_SHEET, name="FÜR zoë", rows=7)),
    ),
    "label_sheets.remove_sheet": Case(
        sheet_saved, lambda room: label_sheets.remove_sheet(room, "für")
    ),
}
