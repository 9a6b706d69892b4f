"""Reading the tables shipped with the program: CSV in, checked text cells out.

Every table has a header, a `source` column whose keys stand in sources.csv, and (but for
sources.csv itself) is read only by the loader of its own concern. An empty cell is "not known",
never zero.
"""

from __future__ import annotations

import csv
import pkgutil
from collections.abc import Mapping
from fractions import Fraction

from stockroom.errors import StockroomError

Row = Mapping[str, str]


class ReferenceDamaged(StockroomError):
    """A table shipped with the program cannot be read: the installation is not whole."""

    def __init__(self, table: str, why: str) -> None:
        super().__init__(
            f"The reference table {table} cannot be used: {why}.",
            "Install stockroom again; your own store was not touched.",
        )
        self.table = table
        self.why = why


def read_table(name: str) -> tuple[Row, ...]:
    """The rows of data/<name>.csv, each a mapping of column to text.

    Raises ReferenceDamaged when the file is missing, has no rows or a row is short or long.
    """
    rows = list(csv.reader(_text(name).splitlines()))
    if len(rows) < 2:
        raise ReferenceDamaged(name, "it has no rows")
    header = rows[0]
    for number, cells in enumerate(rows[1:], start=2):
        if len(cells) != len(header):
            raise ReferenceDamaged(name, f"line {number} has {len(cells)} cells")
    return tuple(dict(zip(header, cells, strict=True)) for cells in rows[1:])


def whole(table: str, row: Row, column: str) -> int:
    """The whole number in a cell; an empty or other cell raises ReferenceDamaged."""
    text = row[column]
    if not text.isdecimal():
        raise ReferenceDamaged(table, f"{column} is “{text}”, not a whole number")
    return int(text)


def whole_or_none(table: str, row: Row, column: str) -> int | None:
    """The whole number in a cell, or None where the cell is empty: unknown is not zero."""
    return whole(table, row, column) if row[column] else None


def exact(table: str, row: Row, column: str) -> Fraction:
    """The decimal number in a cell, exactly; a cell that is none raises ReferenceDamaged."""
    try:
        return Fraction(row[column])
    except ValueError:
        raise ReferenceDamaged(table, f"{column} is “{row[column]}”, not a number") from None


def yes(table: str, row: Row, column: str) -> bool:
    """A yes or no cell; any other word raises ReferenceDamaged."""
    if row[column] not in ("yes", "no"):
        raise ReferenceDamaged(table, f"{column} is “{row[column]}”, neither yes nor no")
    return row[column] == "yes"


def _text(name: str) -> str:
    """The text of one table file."""
    try:
        data = pkgutil.get_data("stockroom.reference", f"data/{name}.csv")
    except OSError:
        data = None
    if data is None:
        raise ReferenceDamaged(name, "the file is missing")
    return data.decode("utf-8")
