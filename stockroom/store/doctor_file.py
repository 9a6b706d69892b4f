"""Looking through the store's file: whether it is whole and every object of it as it should be.

Every check has one signature, reads a copy of the store that nobody else uses, and gives what it
found; on a store with nothing in it that is ().
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date

from stockroom.domain.findings import Finding, Severity, named
from stockroom.errors import StoreDamaged
from stockroom.store.connection import Store
from stockroom.store.derived import VIEWS, expected_objects
from stockroom.store.migrations import STEPS, schema_step, split_statements
from stockroom.store.writing import write

Check = Callable[[Store, date], tuple[Finding, ...]]
"""A check looks at a store on a day and gives its findings."""

THE_FILE = "store file"
FROM_BACKUP = "Put a backup in its place: stockroom restore FILE. Keep this file beside it."
_AS_RULED = ("CHECK constraint", "NULL value", "non-unique", "value in")
"""How SQLite begins what it says of a row that breaks a rule of its table."""


def file_is_whole(store: Store, today: date) -> tuple[Finding, ...]:
    """Damage SQLite finds in the pages and indexes of the file."""
    try:
        said = [str(row[0]) for row in store.query("PRAGMA integrity_check")]
    except StoreDamaged as damage:
        said = [damage.message]
    # Later releases of SQLite look through the note index too; it has a check of its own.
    wrong = [one for one in said if one != "ok" and not of_rule(one) and "package_note" not in one]
    if not wrong:
        return ()
    message = f"The file is damaged; SQLite says: {' '.join(wrong[0].split())}"
    more = f", and {len(wrong) - 1} more" if len(wrong) > 1 else ""
    return (Finding(THE_FILE, Severity.FAULT, f"{message.rstrip('.')}{more}.", FROM_BACKUP),)


def tables_are_ours(store: Store, today: date) -> tuple[Finding, ...]:
    """Tables and indexes that are missing or not as this version makes them."""
    wanted, found = _fresh_schema(), _tables(store.connection)
    wrong = sorted(name for name, sql in wanted.items() if found.get(name) != sql)
    if not wrong:
        return ()
    message = f"Tables or indexes are missing or changed: {named(wrong)}."
    return (Finding(THE_FILE, Severity.FAULT, message, FROM_BACKUP),)


_PLAIN = {
    ("package", "location"): "Packages are in a place that is not there",
    ("change", "journal"): "Changes belong to no entry of the journal",
    ("package", "lot"): "Packages belong to a lot that is not there",
    ("draw", "package"): "Food was taken out of a package that is not there",
    ("package_event", "package"): "Something happened to a package that is not there",
}


def references_hold(store: Store, today: date) -> tuple[Finding, ...]:
    """Records that refer to others that are not there."""
    rows: dict[tuple[str, str], list[int]] = {}
    for table, row_id, parent, _ in store.query("PRAGMA foreign_key_check"):
        rows.setdefault((str(table), str(parent)), []).append(int(row_id))
    return tuple(
        Finding(
            pair[0],
            Severity.FAULT,
            f"{_PLAIN.get(pair, f'Rows of {pair[0]} refer to a {pair[1]} that is not there')}:"
            f" {named(row_names(store, pair[0], ids))}.",
            "Another program wrote them: put a backup in place with stockroom restore FILE.",
        )
        for pair, ids in sorted(rows.items())
    )


def derived_are_made(store: Store, today: date) -> tuple[Finding, ...]:
    """Views and triggers that are missing, changed or too many, and views that cannot be read."""
    if tables_are_ours(store, today):
        return ()  # They are made from the tables, which have to be put right first.
    wanted = {name: _plain(sql) for name, sql in expected_objects(store.connection).items()}
    found = {
        str(name): _plain(sql)
        for name, sql in store.query(
            "SELECT name, sql FROM sqlite_master WHERE type IN ('view', 'trigger')"
            " OR name = 'package_note'"
        )
    }
    wrong = sorted(
        name for name in wanted.keys() | found.keys() if wanted.get(name) != found.get(name)
    )
    wrong += [name for name in VIEWS if name not in wrong and not _can_be_read(store, name)]
    if not wrong:
        return ()
    return (
        Finding(
            "views and triggers",
            Severity.FAULT,
            f"Missing, changed or not ours: {named(wrong)}. Without them changes escape the"
            " journal, or lists are wrong.",
            "stockroom doctor --mend makes them anew.",
            mendable=True,
        ),
    )


def notes_are_indexed(store: Store, today: date) -> tuple[Finding, ...]:
    """A note index that is not what the packages' notes say (FTS5's integrity check, rank 1)."""
    if not _has_table(store, "package_note"):
        return ()  # Told by the check of the derived objects.
    try:
        with write(store):
            store.run("INSERT INTO package_note (package_note, rank) VALUES ('integrity-check', 1)")
    except StoreDamaged:
        return (
            Finding(
                "note index",
                Severity.FAULT,
                "Searching the notes of packages finds too little or too much: its index is not in"
                " step with them.",
                "stockroom doctor --mend makes it anew.",
                mendable=True,
            ),
        )
    return ()


def log_is_ahead(store: Store, today: date) -> tuple[Finding, ...]:
    """A store without its write-ahead log: whole, but two programs stand in each other's way."""
    if store.value("PRAGMA journal_mode") == "wal":
        return ()
    return (
        Finding(
            THE_FILE,
            Severity.NOTE,
            "The write-ahead log is off: while one program writes, others have to wait.",
            "stockroom doctor --mend turns it on.",
            mendable=True,
        ),
    )


FILE_CHECKS: tuple[Check, ...] = (
    file_is_whole,
    tables_are_ours,
    references_hold,
    derived_are_made,
    notes_are_indexed,
    log_is_ahead,
)


def of_rule(said: str) -> bool:
    """Whether a line of SQLite's is about a row that breaks a rule, not about the file."""
    return any(words in said for words in _AS_RULED)


def row_names(store: Store, table: str, row_ids: list[int]) -> list[str]:
    """Codes of the rows of a table where they have one, else their numbers."""
    if table in ("package", "lot"):
        by_id = {int(one): str(code) for one, code in store.query(f"SELECT id, code FROM {table}")}
        return [by_id.get(row_id, str(row_id)) for row_id in row_ids]
    return [f"row {row_id}" for row_id in row_ids]


def _tables(connection: sqlite3.Connection) -> dict[str, str]:
    """Name → SQL of every table and index that was declared."""
    rows = connection.execute(
        "SELECT name, sql FROM sqlite_master WHERE type IN ('table', 'index')"
        " AND sql IS NOT NULL AND name NOT LIKE 'package_note%' AND name NOT LIKE '!_sqlite%'"
        " ESCAPE '!'"
    )
    return {str(name): _plain(str(sql)) for name, sql in rows}


def _fresh_schema() -> dict[str, str]:
    """The tables and indexes of a store made today."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        for name in STEPS:
            for statement in split_statements(schema_step(name)):
                connection.execute(statement)
        return _tables(connection)


def _plain(sql: str) -> str:
    """SQL without the white space that makes no difference."""
    return " ".join(sql.split())


def _has_table(store: Store, name: str) -> bool:
    return (
        store.one("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?", (name,))
        is not None
    )


def _can_be_read(store: Store, view: str) -> bool:
    try:
        store.connection.execute(f"SELECT * FROM {view} LIMIT 1").fetchall()
    except sqlite3.Error:
        return False
    return True
