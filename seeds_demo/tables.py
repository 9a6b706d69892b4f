"""The written record of the demo: its tables, read as they stand in data/."""

from __future__ import annotations

import csv
import pkgutil
from collections.abc import Mapping
from datetime import date
from io import StringIO

from stockroom.domain.quantities import to_dg

Row = Mapping[str, str]


def read_rows(name: str) -> tuple[Row, ...]:
    """The rows of data/<name>.csv; every row has every column, an empty cell is "not said"."""
    return tuple(csv.DictReader(StringIO(read_text(f"{name}.csv")), strict=True))


def read_text(name: str) -> str:
    """The whole text of a file in data/."""
    data = pkgutil.get_data("seeds_demo", f"data/{name}")
    assert data is not None
    return data.decode("utf-8")


def day_of(row: Row, column: str) -> date:
    """The day in a cell."""
    return date.fromisoformat(row[column])


def weight_of(row: Row, column: str) -> int | None:
    """The grams in a cell as tenths of a gram, or None where the cell is empty."""
    return to_dg(float(row[column])) if row[column] else None
