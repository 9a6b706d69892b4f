"""A list of servings with their best-by, out of a CSV file.

Columns are found by their names, servings and best_by, whatever else stands beside them. Nothing
is left out in silence: one line that cannot be read, and no rate is given, as it would be too low.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from stockroom.domain.horizon.eating_rate import Due
from stockroom.domain.quantities import read_day, read_servings, unreadable
from stockroom.errors import BadInput, StockroomError

MOST_LINES = 500_000
_MOST_SHOWN = 5
_SERVINGS, _BEST_BY = "servings", "best_by"
_ISO_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", re.ASCII)
_NOTHING = re.compile(r"0+(?:[.,]0+)?", re.ASCII)

Row = tuple[int, tuple[str, ...]]
"""Line number in the file, and the cells."""


class DueLinesUnreadable(StockroomError):
    """Some lines of a list of servings and best-by days cannot be read."""

    exit_code = 2

    def __init__(self, bad_lines: tuple[str, ...]) -> None:
        """`bad_lines` says of each line what is wrong with it."""
        shown = "; ".join(bad_lines[:_MOST_SHOWN])
        more = len(bad_lines) - _MOST_SHOWN
        super().__init__(
            f"The list cannot be used: {shown}{f'; and {more} more' if more > 0 else ''}.",
            "Put the lines right: servings as 6 or 1.5, and the best-by day as YYYY-MM-DD.",
        )
        self.bad_lines = bad_lines


def read_dues(text: str) -> tuple[Due, ...]:
    """Every line of the list in order; commas, semicolons or tabs between, a BOM is ignored.

    Raises BadInput where the columns cannot be found and DueLinesUnreadable for bad lines.
    """
    heading, rows = _table(text)
    names = [_folded(cell) for cell in heading]
    at = [_place(names, heading, name) for name in (_SERVINGS, _BEST_BY)]
    found: list[Due] = []
    bad: list[str] = []
    for line, cells in rows:
        typed = [cells[place] if place < len(cells) else "" for place in at]
        try:
            found.append(Due(_servings(typed[0]), _best_by(typed[1])))
        except BadInput as trouble:
            bad.append(f"line {line}, {trouble.message.removesuffix('.')}")
    if bad:
        raise DueLinesUnreadable(tuple(bad))
    return tuple(found)


def _table(text: str) -> tuple[tuple[str, ...], list[Row]]:
    """The heading's cells, and the rows below that are not blank."""
    # Not splitlines: it also breaks at form feeds and the like, so line numbers would be off.
    lines = re.split(r"\r\n|\r|\n", text.lstrip("\ufeff"))
    if len(lines) > MOST_LINES:
        raise BadInput("list", f"{len(lines)} lines", f"a list of at most {MOST_LINES} lines")
    heading = next((line for line in lines if line.strip()), "")
    between = next((mark for mark in ";\t" if mark in heading), ",")
    reader = csv.reader(lines, delimiter=between)
    rows: list[Row] = []
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                rows.append((reader.line_num, tuple(cell.strip() for cell in cells)))
    except csv.Error as trouble:
        raise unreadable(
            f"line {reader.line_num}", lines[reader.line_num - 1], "cells of ordinary length"
        ) from trouble
    return (rows[0][1], rows[1:]) if rows else ((), [])


def _folded(cell: str) -> str:
    """A heading without case, and with an underscore for what may stand between its words."""
    return "_".join(cell.casefold().replace("-", " ").replace("_", " ").split())


def _place(names: Sequence[str], heading: Sequence[str], name: str) -> int:
    """Where a column stands."""
    if names.count(name) > 1:
        raise unreadable("columns", ", ".join(heading), f"a heading with one column {name}")
    if name not in names:
        raise unreadable(
            "columns", ", ".join(heading), f"a first line that names {_SERVINGS} and {_BEST_BY}"
        )
    return names.index(name)


def _servings(typed: str) -> Fraction:
    """Servings of a line; an emptied package may stand there with none."""
    return Fraction(0) if _NOTHING.fullmatch(typed) else read_servings(typed, _SERVINGS)


def _best_by(typed: str) -> date:
    """The day of a line. Only a day of the calendar: a file knows no today."""
    if not _ISO_DAY.fullmatch(typed):
        raise unreadable(_BEST_BY, typed, "a day as YYYY-MM-DD")
    return read_day(typed, date.min, _BEST_BY)
