"""A temperature logger's table: which columns hold the time and the degrees, and the readings.

Loggers write what they like: other columns beside, commas or semicolons between, a decimal comma,
°C or °F, a few header lines. What can be read is kept; each row that cannot be is named by its
line number with the reason. A time that could be read two ways (03/04/2025) is settled by the
whole column, never guessed row by row.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from stockroom.domain.quantities import nearest_whole
from stockroom.domain.records import TemperatureReading
from stockroom.domain.units import celsius
from stockroom.errors import BadInput

MOST_ROWS = 500_000
COLDEST_C, HOTTEST_C = -80, 60
"""What a storage place can believably be: outside it, the reading or its unit is wrong."""

_TIME_WORDS = ("date", "time", "datum", "stamp", "when")
_HEAT_WORDS = ("temp", "°c", "°f", "celsius", "fahrenheit", "deg")
_HEADER_LINES = 30
_SAMPLE = 2000
_DEGREES = re.compile(r"([-+−]?\d+(?:[.,]\d+)?)\s*°?\s*([CcFf]?)")
_FORMS = (
    "%Y-%m-%d %H:%M:%S",
    "%Y-%m-%d %H:%M",
    "%Y/%m/%d %H:%M:%S",
    "%Y/%m/%d %H:%M",
    "%Y-%m-%d",
    "%Y/%m/%d",
    "%d.%m.%Y %H:%M:%S",
    "%d.%m.%Y %H:%M",
    "%d.%m.%Y",
    "%d/%m/%Y %H:%M:%S",
    "%d/%m/%Y %H:%M",
    "%d/%m/%Y",
    "%m/%d/%Y %H:%M:%S",
    "%m/%d/%Y %H:%M",
    "%m/%d/%Y %I:%M:%S %p",
    "%m/%d/%Y %I:%M %p",
    "%m/%d/%Y",
)
_DAY_FIRST, _MONTH_FIRST = "%d/", "%m/"


@dataclass(frozen=True, slots=True)
class BadRow:
    """A row that was not taken, by its line number in the file, and why."""

    line: int
    why: str


@dataclass(frozen=True, slots=True)
class LoggerTable:
    """What a file held: the readings in order of time, and the rows left out.

    `fahrenheit` tells how degrees without a unit of their own were read; `time_column` and
    `heat_column` are the headings used, or "column 2" where the file has none.
    """

    readings: tuple[TemperatureReading, ...]
    bad: tuple[BadRow, ...]
    time_column: str
    heat_column: str
    fahrenheit: bool


def read_logger(
    text: str,
    *,
    time_column: str | None = None,
    heat_column: str | None = None,
    fahrenheit: bool | None = None,
) -> LoggerTable:
    """Read a logger's table; columns are found by their headings unless they are given.

    A column is given by its heading or its number from 1. `fahrenheit` None looks for °F in the
    heading; a unit in the row itself ("70 °F") counts before either. Where date and time of day
    have a column each, they are read together. Raises BadInput when a column, or the order of
    day and month, cannot be told.
    """
    rows = _rows(text)
    heading_at = _heading_line(rows)
    headings = rows[heading_at][1] if heading_at is not None else ()
    body = rows[heading_at + 1 :] if heading_at is not None else rows
    time_at = _column(headings, time_column, _TIME_WORDS, "time column", 0)
    heat_at = _column(headings, heat_column, _HEAT_WORDS, "temperature column", 1)
    heat_name = _name(headings, heat_at)
    in_fahrenheit = _says_fahrenheit(heat_name) if fahrenheit is None else fahrenheit
    if time_column is None:
        body = _with_clock(headings, body, time_at)
    read_time = _time_reader([_cell(cells, time_at) for _, cells in body])
    good: dict[datetime, TemperatureReading] = {}
    bad: list[BadRow] = []
    for line, cells in body:
        try:
            reading = _reading(cells, time_at, heat_at, read_time, in_fahrenheit)
        except ValueError as trouble:
            bad.append(BadRow(line, str(trouble)))
            continue
        good[reading.at] = reading
    return LoggerTable(
        tuple(good[at] for at in sorted(good)),
        tuple(bad),
        _name(headings, time_at),
        heat_name,
        in_fahrenheit,
    )


def _rows(text: str) -> list[tuple[int, tuple[str, ...]]]:
    """Line number and cells of every row that is not blank."""
    # Not splitlines: it also breaks at form feeds and the like, so line numbers would be off.
    lines = re.split(r"\r\n|\r|\n", text.lstrip("\ufeff"))
    if len(lines) > MOST_ROWS:
        raise BadInput("readings", f"{len(lines)} lines", f"a file of at most {MOST_ROWS} lines")
    marks = {mark: sum(line.count(mark) for line in lines[:50]) for mark in "\t;,"}
    # A decimal comma stands beside semicolons or tabs; so those win where they occur.
    between = next((mark for mark in "\t;" if marks[mark]), ",")
    rows: list[tuple[int, tuple[str, ...]]] = []
    for number, line in enumerate(lines, start=1):
        cells = _cells(line, between)
        if any(cells):
            rows.append((number, cells))
    if not rows:
        raise BadInput("readings", "", "a file with a time and a temperature in each row")
    return rows


def _cells(line: str, between: str) -> tuple[str, ...]:
    """The cells of a line; one too long to be a row of readings is kept as one cell."""
    try:
        return tuple(cell.strip() for cell in next(csv.reader([line], delimiter=between), ()))
    except csv.Error:
        return (line.strip(),)


def _heading_line(rows: Sequence[tuple[int, tuple[str, ...]]]) -> int | None:
    """The row with a time and a temperature heading, or None."""
    for at, (_, cells) in enumerate(rows[:_HEADER_LINES]):
        folded = [cell.casefold() for cell in cells]
        if _find(folded, _TIME_WORDS) is not None and _find(folded, _HEAT_WORDS) is not None:
            return at
    first = rows[0][1]
    has_figure = any(_DEGREES.fullmatch(cell) for cell in first)
    return None if has_figure else 0


def _with_clock(
    headings: Sequence[str], body: Sequence[tuple[int, tuple[str, ...]]], date_at: int
) -> Sequence[tuple[int, tuple[str, ...]]]:
    """The rows with the time of day put beside its date, where the two have a column each."""
    folded = [heading.casefold() for heading in headings]
    clock_at = next(
        (at for at, one in enumerate(folded) if at != date_at and ("time" in one or "zeit" in one)),
        None,
    )
    dated_only = not any(":" in _cell(cells, date_at) for _, cells in body)
    if clock_at is None or not dated_only:
        return body
    return [(line, _joined(cells, date_at, clock_at)) for line, cells in body]


def _joined(cells: tuple[str, ...], date_at: int, clock_at: int) -> tuple[str, ...]:
    if date_at >= len(cells):
        return cells
    whole = f"{cells[date_at]} {_cell(cells, clock_at)}".strip()
    return (*cells[:date_at], whole, *cells[date_at + 1 :])


def _find(folded: Sequence[str], words: Iterable[str]) -> int | None:
    for word in words:
        for at, cell in enumerate(folded):
            if word in cell:
                return at
    return None


def _column(
    headings: Sequence[str], given: str | None, words: Sequence[str], what: str, fallback: int
) -> int:
    """The place of a column: as given, by its heading, or where it usually stands."""
    folded = [heading.casefold() for heading in headings]
    if given is not None:
        if given.strip().isdecimal() and int(given) >= 1:
            return int(given) - 1
        if given.strip().casefold() in folded:
            return folded.index(given.strip().casefold())
        raise BadInput(what, given, f"one of: {', '.join(headings) or 'a number from 1'}")
    found = _find(folded, words)
    if found is not None:
        return found
    if headings:
        raise BadInput(what, "", f"which column it is, one of: {', '.join(headings)}")
    return fallback


def _name(headings: Sequence[str], at: int) -> str:
    return headings[at] if at < len(headings) else f"column {at + 1}"


def _says_fahrenheit(heading: str) -> bool:
    folded = heading.casefold()
    stands_alone = r"(?<![a-z])(?:deg|degrees|temp)?[ _]?f(?![a-z])"
    return "fahrenheit" in folded or re.search(stands_alone, folded) is not None


def _cell(cells: Sequence[str], at: int) -> str:
    return cells[at] if at < len(cells) else ""


def _time_reader(column: Sequence[str]) -> Callable[[str], datetime]:
    """How the times of a column are written: the form that reads the most of them."""
    filled = [cell for cell in column if cell]
    # From the whole length: a logger's first days may all be days that could be months.
    sample = filled[:: max(1, len(filled) // _SAMPLE)]
    reads = {form: sum(_as(form, cell) is not None for cell in sample) for form in _FORMS}
    iso = sum(_iso(cell) is not None for cell in sample)
    best = max(reads, key=lambda form: reads[form])
    if iso >= reads[best]:
        return _iso_or_refuse
    day_first = max(count for form, count in reads.items() if form.startswith(_DAY_FIRST))
    month_first = max(count for form, count in reads.items() if form.startswith(_MONTH_FIRST))
    if day_first == month_first == reads[best] and reads[best]:
        raise BadInput(
            "dates", sample[0], "dates as 2025-03-04: day and month cannot be told apart here"
        )
    return lambda cell: _strict(best, cell)


def _iso(cell: str) -> datetime | None:
    try:
        return datetime.fromisoformat(cell).replace(tzinfo=None)
    except ValueError:
        return None


def _iso_or_refuse(cell: str) -> datetime:
    found = _iso(cell)
    if found is None:
        raise ValueError(f"the time “{cell[:30]}” cannot be read")
    return found


def _as(form: str, cell: str) -> datetime | None:
    try:
        return datetime.strptime(cell, form)
    except ValueError:
        return None


def _strict(form: str, cell: str) -> datetime:
    found = _as(form, cell)
    if found is None:
        raise ValueError(f"the time “{cell[:30]}” cannot be read")
    return found


def _reading(
    cells: Sequence[str],
    time_at: int,
    heat_at: int,
    read_time: Callable[[str], datetime],
    fahrenheit: bool,
) -> TemperatureReading:
    """One row as a reading; raises ValueError with the reason in words."""
    at = read_time(_cell(cells, time_at))
    typed = _cell(cells, heat_at)
    digits = _DEGREES.fullmatch(typed)
    if digits is None:
        raise ValueError(f"the temperature “{typed[:30]}” cannot be read")
    degrees = Fraction(digits[1].replace(",", ".").replace("−", "-"))
    in_fahrenheit = digits[2] in "Ff" if digits[2] else fahrenheit
    at_c = celsius(degrees) if in_fahrenheit else degrees
    if not COLDEST_C <= at_c <= HOTTEST_C:
        raise ValueError(f"{typed} is not a temperature of a storage place")
    return TemperatureReading(at.replace(second=0, microsecond=0), nearest_whole(at_c * 10))
