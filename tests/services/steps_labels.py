"""One plausible use of every service about label sheets, drawn by chance."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from stockroom.services import label_sheets
from stockroom.services.session import Stockroom
from tests.services.cases_labels import OWN_SHEET


def _save(room: Stockroom, pick: Random) -> object:
    sheet = replace(
        OWN_SHEET, name=f"Sheet {pick.randrange(3)}", rows=pick.randrange(1, 9), down_um=500
    )
    return label_sheets.save_sheet(room, sheet)


def _remove(room: Stockroom, pick: Random) -> object:
    own = label_sheets.own_sheets(room)
    return label_sheets.remove_sheet(room, pick.choice(own).name if own else "Sheet 0")


LABEL_STEPS = {"label_sheets.save_sheet": _save, "label_sheets.remove_sheet": _remove}
"""Service → a step that uses it."""
