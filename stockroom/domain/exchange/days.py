"""Days in the cells of a list. Whether day or month comes first is told by the whole list.

A cell that could be read two ways is never guessed by itself: 25/11 shows that days come first,
11/25 that months do, and a list that shows neither is asked about.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from enum import StrEnum

from stockroom.errors import BadInput

EARLIEST = date(2000, 1, 1)
"""A lot's code has two digits of the year, so it can name days from here on."""


class DayOrder(StrEnum):
    """What comes first where days are written with strokes."""

    DAY_FIRST = "dmy"
    MONTH_FIRST = "mdy"

    @property
    def words(self) -> str:
        """As it is shown for confirmation."""
        if self is DayOrder.DAY_FIRST:
            return "day first: 03/04/2025 is 2025-04-03"
        return "month first: 03/04/2025 is 2025-03-04"


_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", re.ASCII)
_POINTS = re.compile(r"(\d{1,2})\. ?(\d{1,2})\. ?(\d{4}|\d{2})", re.ASCII)
_STROKES = re.compile(r"(\d{1,2})[/-](\d{1,2})[/-](\d{4}|\d{2})", re.ASCII)
_DAY_MONTH = re.compile(r"(\d{1,2})\.?[ -]([a-z]{3,9})\.?,?[ -](\d{4}|\d{2})", re.ASCII)
_MONTH_DAY = re.compile(r"([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})", re.ASCII)
_MIDNIGHT = re.compile(r"[ t]+\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?: ?[ap]m)?$", re.IGNORECASE)
_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip


def day_order(cells: Iterable[str], said: DayOrder | None) -> DayOrder | None:
    """The order of day and month in all the cells; None where no cell needs it.

    Raises BadInput when they can be read two ways and nothing was said.
    """
    pairs = [found for cell in cells if (found := _STROKES.fullmatch(_day_part(cell)))]
    if said is not None or not pairs:
        return said
    day_first = any(int(pair[1]) > 12 for pair in pairs)
    month_first = any(int(pair[2]) > 12 for pair in pairs)
    if day_first != month_first:
        return DayOrder.DAY_FIRST if day_first else DayOrder.MONTH_FIRST
    doubtful = [pair[0] for pair in pairs if pair[1] != pair[2]]
    if not doubtful:
        return DayOrder.DAY_FIRST
    raise BadInput(
        "dates",
        doubtful[0],
        "--dates dmy if the day comes first, --dates mdy if the month does: the list shows "
        + ("both" if day_first else "neither"),
    )


def read_day_cell(text: str, order: DayOrder | None) -> date:
    """A day: ISO, 25.11.2026, 25/11/2026 or 11/25/2026 by the order, 25 Nov 2026.

    A year of two digits is of this century. Raises ValueError with the reason in words.
    """
    cell = _day_part(text)
    if found := _ISO.fullmatch(cell):
        return _date(found[1], found[2], found[3])
    if found := _POINTS.fullmatch(cell):
        return _date(found[3], found[2], found[1])
    if found := _STROKES.fullmatch(cell):
        month, day = (1, 2) if order is DayOrder.MONTH_FIRST else (2, 1)
        return _date(found[3], found[month], found[day])
    if found := _DAY_MONTH.fullmatch(cell.casefold()):
        return _date(found[3], _month(found[2]), found[1])
    if found := _MONTH_DAY.fullmatch(cell.casefold()):
        return _date(found[3], _month(found[1]), found[2])
    raise ValueError("it is no day such as 2026-11-25")


def _day_part(cell: str) -> str:
    """A cell without the time of day a spreadsheet may add."""
    return _MIDNIGHT.sub("", cell.strip())


def _month(word: str) -> str:
    for number, name in enumerate(_MONTHS, start=1):
        if name.startswith(word) or (word == "sept" and number == 9):
            return str(number)
    raise ValueError(f"“{word}” is no month")


def _date(year: str, month: str, day: str) -> date:
    whole = int(year) + (2000 if len(year) == 2 else 0)
    try:
        found = date(whole, int(month), int(day))
    except ValueError:
        raise ValueError("there is no such day") from None
    if found < EARLIEST:
        raise ValueError(f"days before {EARLIEST.isoformat()} have no code")
    return found
