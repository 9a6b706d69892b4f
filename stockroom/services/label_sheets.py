"""Sheets of labels: the built-in grids, and the household's own, kept among its settings."""

from __future__ import annotations

import json
from dataclasses import asdict, replace
from difflib import get_close_matches

from stockroom.domain.labels.layout import layout
from stockroom.domain.labels.lengths import show_size
from stockroom.domain.labels.sheets import (
    BUILT_IN,
    MOST_ACROSS,
    MOST_DOWN,
    PAPER_UM,
    Paper,
    Sheet,
    check_sheet,
)
from stockroom.domain.quantities import UnitSystem
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.services.acting import acting
from stockroom.services.names import clean_name
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import settings

_PREFIX = "label_sheet:"


class SheetNameTaken(Refused):
    """A built-in sheet has the name."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"“{name}” is a sheet that is always there.",
            "Save your own under another name; only your own can be removed.",
        )


class SameSheet(Refused):
    """A sheet of the same name and measures is saved already."""

    def __init__(self, name: str) -> None:
        super().__init__(f"The sheet “{name}” has these measures already.", "Change one of them.")


class LabelsTooSmall(Refused):
    """No label of the sheet has room for the code symbol."""

    def __init__(self, width_um: int, height_um: int) -> None:
        super().__init__(
            f"A label of {show_size(width_um, height_um)} has no room for the code symbol with its"
            " blank margin.",
            "Take labels of 17 × 17 mm at least; most texts need more.",
        )


def own_sheets(room: Stockroom) -> tuple[Sheet, ...]:
    """The household's own sheets, by name."""
    stored = settings.read_settings(room.store)
    found = (_read(value) for key, value in stored.items() if key.startswith(_PREFIX))
    return tuple(sorted(found, key=lambda sheet: sheet.name.casefold()))


def list_sheets(room: Stockroom) -> tuple[Sheet, ...]:
    """Every sheet that can be printed on, the household's own first."""
    return (*own_sheets(room), *BUILT_IN)


def usual_sheet(room: Stockroom) -> Sheet:
    """What is printed on when nothing is said: the first grid of the household's paper."""
    paper = Paper.LETTER if room.units is UnitSystem.US else Paper.A4
    return next(
        sheet
        for sheet in BUILT_IN
        if (sheet.page_width_um, sheet.page_height_um) == PAPER_UM[paper]
    )


def find_sheet(room: Stockroom, typed: str) -> Sheet:
    """The sheet of a name, or of the beginning of one that is unique ("a4 3x8").

    Case, spaces, commas and the sign for "times" make no difference. Raises NotFound, BadInput.
    """
    if not _plain(typed):
        raise BadInput("label sheet", typed, "its name, or how it begins")
    sheets = list_sheets(room)
    wanted = _plain(typed)
    exact = [sheet for sheet in sheets if _plain(sheet.name) == wanted]
    found = exact or [sheet for sheet in sheets if _plain(sheet.name).startswith(wanted)]
    if len(found) == 1 or exact:
        return found[0]
    names = {_plain(sheet.name): sheet.name for sheet in sheets}
    near = [sheet.name for sheet in found] or [
        names[one] for one in get_close_matches(wanted, names, n=3, cutoff=0.4)
    ]
    raise NotFound("label sheet", typed.strip(), near[:3])


def save_sheet(room: Stockroom, sheet: Sheet) -> Done:
    """Keep a sheet under its name, in place of the household's own one of that name.

    Raises BadInput, SheetOffPage, LabelsTooSmall, SheetNameTaken, SameSheet.
    """
    name = clean_name(sheet.name, "sheet name")
    if not _plain(name):
        raise BadInput("sheet name", name, "a name with at least one letter or digit")
    _check(sheet)
    if any(_plain(one.name) == _plain(name) for one in BUILT_IN):
        raise SheetNameTaken(name)
    wanted = replace(sheet, name=name)
    with acting(room, "label sheet") as act:
        same = [one for one in own_sheets(room) if _plain(one.name) == _plain(name)]
        if wanted in same:
            raise SameSheet(name)
        for one in same:
            settings.remove_setting(room.store, _PREFIX + one.name)
        settings.save_setting(room.store, _PREFIX + name, json.dumps(asdict(wanted)))
        did = "changed" if same else "saved"
        act.words = f"{did} the label sheet {name}: {wanted.words}"
    return Done(act.words)


def remove_sheet(room: Stockroom, typed: str) -> Done:
    """Forget one of the household's own sheets. Raises NotFound, BadInput, SheetNameTaken."""
    with acting(room, "label sheet") as act:
        sheet = find_sheet(room, typed)
        if sheet in BUILT_IN:
            raise SheetNameTaken(sheet.name)
        settings.remove_setting(room.store, _PREFIX + sheet.name)
        act.words = f"removed the label sheet {sheet.name}"
    return Done(act.words)


def _check(sheet: Sheet) -> None:
    """Raise what is wrong with the measures of a sheet."""
    for what, count, most in (
        ("columns", sheet.columns, MOST_ACROSS),
        ("rows", sheet.rows, MOST_DOWN),
    ):
        if not 1 <= count <= most:
            raise BadInput(what, str(count), f"a whole number from 1 to {most}")
    check_sheet(sheet)
    if layout(sheet.label_width_um, sheet.label_height_um) is None:
        raise LabelsTooSmall(sheet.label_width_um, sheet.label_height_um)


def _read(value: str) -> Sheet:
    """A stored sheet; the store holds only what was written here."""
    return Sheet(**json.loads(value))


def _plain(name: str) -> str:
    """A name as it is compared."""
    folded = name.casefold().replace("×", "x")
    return "".join(sign for sign in folded if sign.isalnum() or sign == ".")
