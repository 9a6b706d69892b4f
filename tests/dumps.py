"""A store as plain values, to compare what it held before and after."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from stockroom.store.derived import TRACKED

COMPUTED = ("projection", "recheck")
"""Tables that are computed from the others, package by package."""

Dump = dict[str, tuple[tuple[Any, ...], ...]]
"""Table name → its rows in order of row id."""


def dump(path: Path) -> Dump:
    """Every tracked table and what is computed from them, as another program would read it."""
    with closing(sqlite3.connect(path)) as connection:
        return {table: _rows(connection, table) for table in (*TRACKED, *COMPUTED)}


def whole_dump(path: Path) -> Dump:
    """Every table of the file: the journal, the search index and the bookkeeping too."""
    with closing(sqlite3.connect(path)) as connection:
        names = connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"
        ).fetchall()
        return {name: _rows(connection, name) for (name,) in names}


def difference(before: Dump, after: Dump) -> dict[str, tuple[set[Any], set[Any]]]:
    """Table → (rows only before, rows only after): what a failing comparison should show."""
    return {
        table: (set(before[table]) - set(after[table]), set(after[table]) - set(before[table]))
        for table in before
        if before[table] != after[table]
    }


def _rows(connection: sqlite3.Connection, table: str) -> tuple[tuple[Any, ...], ...]:
    return tuple(connection.execute(f"SELECT * FROM {table} ORDER BY 1").fetchall())
