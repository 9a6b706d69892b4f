"""A list as a spreadsheet writes it: its signs, its cells with their lines, and its headings."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass

from stockroom.domain.exchange.headings import Field, Heading, find_headings
from stockroom.domain.quantities import unreadable
from stockroom.errors import BadInput

MOST_ROWS = 200_000
_BETWEEN = "\t;,|"
_HEADER_LINES = 30
_ZIPPED = b"PK\x03\x04"
"""How the spreadsheets themselves begin (ZIP file format specification, published)."""
_SEP = re.compile(r"sep=(.)", re.IGNORECASE)
_GUARDED = re.compile(r"'[=+\-@\t\r]")


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A row that is not blank: the line it begins on, from 1, and its cells."""

    line: int
    cells: tuple[str, ...]

    def cell(self, heading: Heading | None) -> str:
        """The cell under a heading; "" where the row is shorter, or there is no such heading."""
        if heading is None or heading.at >= len(self.cells):
            return ""
        return self.cells[heading.at]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A list with its columns found; `unused` are headings of columns nothing is read from, `width`
    how many columns the row of headings has."""

    between: str
    heading_line: int
    width: int
    headings: Mapping[Field, Heading]
    unused: tuple[str, ...]
    rows: tuple[SheetRow, ...]


def decode_sheet(held: bytes) -> str | None:
    """The text of a file in UTF-8, UTF-16 or Windows-1252; None when it is no text.

    A byte-order mark tells; without one UTF-16 shows by its empty bytes, and what is no UTF-8
    is Windows-1252, which old spreadsheets write.
    """
    if held.startswith(_ZIPPED):
        return None
    if held.startswith((b"\xff\xfe", b"\xfe\xff")):
        encodings: tuple[str, ...] = ("utf-16",)
    elif b"\0" in held[:200]:
        encodings = ("utf-16-le", "utf-16-be")
        if held[:1] == b"\0":
            encodings = encodings[::-1]
    else:
        encodings = ("utf-8-sig", "cp1252")
    for encoding in encodings:
        try:
            text = held.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text
    return None


def read_sheet(text: str, said: Mapping[Field, str]) -> Sheet:
    """The cells of a list under their headings.

    `said` are headings given to fields. Lines above the headings, such as a title over merged
    cells, are passed over. Raises BadInput when no headings can be found.
    """
    lines = [f"{line}\n" for line in re.split(r"\r\n|\r|\n", text.lstrip("\ufeff"))]
    if len(lines) > MOST_ROWS:
        raise BadInput("list", f"{len(lines)} lines", f"a list of at most {MOST_ROWS} lines")
    skipped, marks = 0, _BETWEEN
    if stated := _SEP.fullmatch(lines[0].strip()):
        lines, skipped, marks = lines[1:], 1, stated[1]
    between, at = _layout(lines, said, marks)
    rows = list(_rows(lines, between, skipped))
    head = rows[at]
    headings = find_headings(head.cells, said)
    _refuse_missing(head, headings, said)
    used = {one.at for one in headings.values()}
    unused = tuple(cell for n, cell in enumerate(head.cells) if cell and n not in used)
    return Sheet(between, head.line, len(head.cells), headings, unused, tuple(rows[at + 1 :]))


def _layout(lines: Sequence[str], said: Mapping[Field, str], marks: str) -> tuple[str, int]:
    """The sign between cells, and which row has the headings: where most of them are known."""
    best, between, at = 0, ",", 0
    for mark in marks:
        for place, row in enumerate(_first_rows(lines, mark)):
            count = len(find_headings(row.cells, said))
            if count > best:
                best, between, at = count, mark, place
    if best < 2:
        first = next((line.strip() for line in lines if line.strip()), "")
        raise unreadable("headings", first, "a row of headings with at least food and dry weight")
    return between, at


def _first_rows(lines: Sequence[str], between: str) -> list[SheetRow]:
    """As many of the first rows as can be read: where they are cut, a quote may stand open."""
    found: list[SheetRow] = []
    with suppress(BadInput):
        found.extend(_rows(lines[: 2 * _HEADER_LINES], between, 0))
    return found[:_HEADER_LINES]


def _rows(lines: Sequence[str], between: str, skipped: int) -> Iterator[SheetRow]:
    """The rows that hold something, each with the line it begins on."""
    reader = csv.reader(lines, delimiter=between, strict=True)
    begun = 0
    try:
        for cells in reader:
            line, begun = begun + 1 + skipped, reader.line_num
            tidy = tuple(_tidy(cell) for cell in cells)
            if any(tidy):
                yield SheetRow(line, tidy)
    except csv.Error as error:
        raise BadInput(
            "list",
            f"line {begun + 1 + skipped}",
            "it with its quotes closed: a cell there begins with one that is not",
        ) from error


def _tidy(cell: str) -> str:
    """A cell without space round it, and without the apostrophe that guards against formulas."""
    cell = cell.strip().strip("\u00a0")
    return cell[1:] if cell[:1] == "'" and _GUARDED.match(cell) else cell


def _refuse_missing(
    head: SheetRow, headings: Mapping[Field, Heading], said: Mapping[Field, str]
) -> None:
    """Refuse a list without what each package needs, and headings that are not there."""
    there = ", ".join(cell for cell in head.cells if cell)
    for field, heading in said.items():
        if field not in headings:
            raise unreadable("--column", f"{field}={heading}", f"a heading of the list: {there}")
    for field in (Field.FOOD, Field.DRY):
        if field not in headings:
            raise BadInput(
                f"column of {field}", "", f"--column {field}=HEADING with one of: {there}"
            )
    if Field.SEALED_ON not in headings and Field.MADE_ON not in headings:
        raise BadInput("column of dates", "", f"--column sealed_on=HEADING with one of: {there}")
