"""Bringing a file to today's schema: numbered, append-only steps, a backup copy first.

A released step is never edited; tests pin each one's hash. Steps run through sqlite-utils'
Migrations, which keeps the list of those applied in the file. Derived objects (views, triggers,
search index) are dropped before the steps and made again from `derived` after them, so a step
never has to know about them.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from stockroom.errors import StoreDamaged, StoreNewer
from stockroom.store.backup import copy_store
from stockroom.store.connection import configure
from stockroom.store.derived import derived_is_current, drop_derived, rebuild_derived

if TYPE_CHECKING:
    from sqlite_utils.db import Database

STEPS = ("0001_foundation", "0002_keeping", "0003_rechecks", "0004_kitchen")
"""Names of the schema steps in order; each is schema/NAME.sql."""

_SET = "stockroom"
# The bookkeeping table of sqlite_utils.Migrations; read directly so that an ordinary open need
# not import the library (70 to 115 ms).
_APPLIED = "SELECT name FROM _sqlite_migrations WHERE migration_set = ? ORDER BY id"


def schema_step(name: str) -> str:
    """The SQL text of one step."""
    # Imported here: it brings a good deal with it, and a store that is up to date needs no step.
    from importlib.resources import files

    return (files("stockroom.store") / "schema" / f"{name}.sql").read_text(encoding="utf-8")


def applied_steps(connection: sqlite3.Connection) -> list[str]:
    """The steps this file has, in order; empty when it has no bookkeeping table."""
    known = connection.execute(
        "SELECT 1 FROM sqlite_master WHERE name = '_sqlite_migrations'"
    ).fetchone()
    if known is None:
        return []
    return [str(row[0]) for row in connection.execute(_APPLIED, (_SET,))]


def bring_up_to_date(path: Path) -> None:
    """Refuse a file that is not ours or is newer; migrate an older one; else touch nothing."""
    connection = _connect(path)
    try:
        applied = applied_steps(connection)
        if not applied:
            raise StoreDamaged(str(path), "it is not a stockroom store")
        unknown = [name for name in applied if name not in STEPS]
        if unknown:
            raise StoreNewer(str(path), unknown)
        if len(applied) < len(STEPS) or not derived_is_current(connection):
            _migrate(connection, path, copy_first=True)
    finally:
        connection.close()


def build_new(path: Path, *, durable: bool = True) -> None:
    """Write the whole schema into an empty file and switch it to write-ahead logging."""
    connection = _connect(path, durable=durable)
    try:
        connection.execute("PRAGMA journal_mode = WAL")
        _migrate(connection, path, copy_first=False)
    finally:
        connection.close()


def _connect(path: Path, *, durable: bool = True) -> sqlite3.Connection:
    connection = sqlite3.connect(path, isolation_level=None)
    try:
        configure(connection, durable=durable)
    except BaseException:
        connection.close()
        raise
    return connection


def _migrate(connection: sqlite3.Connection, path: Path, *, copy_first: bool) -> None:
    # Off while tables may be rebuilt; the whole file is checked before it is committed.
    connection.execute("PRAGMA foreign_keys = OFF")
    connection.execute("BEGIN IMMEDIATE")
    try:
        # Asked again under the lock: another program may have migrated meanwhile.
        applied = applied_steps(connection)
        pending = [name for name in STEPS if name not in applied]
        if pending and copy_first:
            copy_store(path, path.with_name(f"{path.name}.before-{pending[0]}"))
        if pending:
            drop_derived(connection)
            _apply_steps(connection)
        if pending or not derived_is_current(connection):
            rebuild_derived(connection)
            if connection.execute("PRAGMA foreign_key_check").fetchone() is not None:
                raise StoreDamaged(str(path), "records refer to others that are not there")
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.rollback()
        raise
    finally:
        connection.execute("PRAGMA foreign_keys = ON")


def _apply_steps(connection: sqlite3.Connection) -> None:
    from sqlite_utils import Migrations
    from sqlite_utils.db import Database

    migrations = Migrations(_SET)
    for name in STEPS:
        migrations(name=name)(_step(name))
    migrations.apply(Database(connection, execute_plugins=False))


def _step(name: str) -> Callable[[Database], None]:
    def run(db: Database) -> None:
        for statement in split_statements(schema_step(name)):
            db.conn.execute(statement)

    return run


def split_statements(script: str) -> list[str]:
    """The statements of a SQL script, one by one: executescript would commit the transaction."""
    statements: list[str] = []
    gathered = ""
    for line in script.splitlines(keepends=True):
        gathered += line
        if sqlite3.complete_statement(gathered):
            statements.append(gathered.strip())
            gathered = ""
    if gathered.strip():
        raise ValueError(f"unfinished statement in schema: {gathered.strip()[:60]}")
    return statements
