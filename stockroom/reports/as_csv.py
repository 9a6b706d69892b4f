"""Reports as CSV: one heading row with units, plain numbers, ISO dates.

A spreadsheet takes a cell that begins with = + - @ a tab or a carriage return for a formula, so
such a cell gets an apostrophe before it, unless it is a plain number (OWASP, CSV Injection,
published).
"""

from __future__ import annotations

import csv
import io
import re

from stockroom.reports.plain import clean, is_control
from stockroom.reports.values import Column, Row, Table

_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
_PLAIN_NUMBER = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?", re.ASCII)
_KEPT = "\n\t"


def as_csv(table: Table) -> str:
    """The whole table with its hidden columns; every line ends with a newline."""
    page = io.StringIO()
    writer = csv.writer(page, lineterminator="\n")
    writer.writerow([column.csv_heading for column in table.columns if column.key])
    writer.writerows(_cells(table.columns, row) for row in table.rows)
    return page.getvalue()


def safe_cell(text: str) -> str:
    """A cell no spreadsheet runs and no terminal obeys; line breaks inside it stay."""
    if text.startswith(_FORMULA_STARTS) and not _PLAIN_NUMBER.fullmatch(text):
        text = f"'{text}"
    if text.isprintable():
        return text
    return "".join(
        clean(character) if is_control(character) and character not in _KEPT else character
        for character in text
    )


def _cells(columns: tuple[Column, ...], row: Row) -> list[str]:
    """One row as text; a value not known is an empty cell."""
    return [
        "" if value is None else safe_cell(column.kind.to_csv(value))
        for column, value in zip(columns, row, strict=True)
        if column.key
    ]
