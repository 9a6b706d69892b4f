"""Whole tables out of a store and into a new one, and the rows of a list, many at once."""

from __future__ import annotations

import sqlite3
from collections.abc import Generator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date

from stockroom.domain.exchange.whole_record import BadPart, RecordTable, WholeRecord
from stockroom.store.connection import Store, translated
from stockroom.store.derived import TRACKED, columns_of, drop_derived, rebuild_derived
from stockroom.store.migrations import STEPS
from stockroom.store.rows import marks, text_of

RECORD = (*TRACKED, "calendar_entry")
"""What people made, and what the last calendar file held; the rest is computed from it."""
JOURNAL = "journal"
CHANGES = "change"
EXPORTED = (*RECORD, JOURNAL)
"""The tables that go out unless the changes are asked for as well."""


@contextmanager
def one_moment(store: Store) -> Generator[None]:
    """Read several tables as they are at one moment, whatever another program writes meanwhile."""
    connection = store.connection
    with translated(store.path):
        connection.execute("BEGIN")
    try:
        yield
    finally:
        connection.rollback()


def read_record(store: Store, names: Sequence[str]) -> WholeRecord:
    """These tables, all of one moment."""
    with one_moment(store):
        tables = [read_table(store, name) for name in names]
    return WholeRecord(STEPS[-1], tuple(tables))


def read_table(store: Store, name: str) -> RecordTable:
    """One table with all its rows. The name is one of this module's, never typed text."""
    columns = columns_now(store, name)
    rows = store.query(f"SELECT {', '.join(columns)} FROM {name} ORDER BY id")
    return RecordTable(name, columns, tuple(rows))


def columns_now(store: Store, name: str) -> tuple[str, ...]:
    """The columns a table has today."""
    with translated(store.path):
        return columns_of(store.connection, name)


def fill_record(store: Store, record: WholeRecord) -> None:
    """Put whole tables into a store just made, inside `write()`; or BadPart.

    With every change in it the journal comes along as it is; without, the triggers note each row
    under the entry that is open. What refers to a row that is not there is found at the end.
    """
    store.run("PRAGMA defer_foreign_keys = ON")
    if record.with_journal:
        drop_derived(store.connection)
    for table in record.tables:
        _fill(store, table)
    if record.with_journal:
        rebuild_derived(store.connection)
    broken = store.query("PRAGMA foreign_key_check")
    if broken:
        name, row_id, above, _ = broken[0]
        raise BadPart(f"row {row_id} of {name}", f"it refers to a row of {above} that is not there")


def _fill(store: Store, table: RecordTable) -> None:
    sql = f"INSERT INTO {table.name} ({', '.join(table.columns)}) VALUES"
    sql += f" ({marks(len(table.columns))})"
    connection = store.connection
    with translated(store.path):
        for number, row in enumerate(table.rows, start=1):
            try:
                connection.execute(sql, row)
            except (sqlite3.IntegrityError, sqlite3.InterfaceError) as error:
                raise BadPart(f"row {number} of {table.name}", str(error)) from error


@dataclass(frozen=True, slots=True)
class ListedLot:
    """A lot as a list tells it: its packages together are all of it."""

    code: str
    run_id: int
    food_id: int
    made_on: date
    preparation: str
    wet_dg: int
    dry_dg: int
    note: str


@dataclass(frozen=True, slots=True)
class ListedPackage:
    """A package as a list tells it; `lot_at` counts from 0 among the lots put in with it."""

    code: str
    lot_at: int
    food_id: int
    number: int
    container_id: int
    absorber_cc: int
    vacuum: bool
    dry_dg: int
    water_dg: int
    sealed_on: date
    place_id: int | None
    note: str
    gate_reason: str


def insert_listed_run(store: Store, day: date, note: str) -> int:
    """A run that was closed on the day it was started; returns its id."""
    return store.run(
        "INSERT INTO run (started_on, closed_on, state, note) VALUES (?, ?, 'closed', ?)",
        (day.isoformat(), day.isoformat(), note),
    )


def insert_listed(
    store: Store, lots: Sequence[ListedLot], packages: Sequence[ListedPackage]
) -> None:
    """Put in many lots and packages at once, settling, each with its sealing."""
    first_lot = _next_id(store, "lot")
    store.run_many(
        "INSERT INTO lot (id, code, run_id, food_id, made_on, preparation, wet_dg, dry_dg, note)"
        f" VALUES ({marks(9)})",
        [
            (first_lot + at, one.code, one.run_id, one.food_id, one.made_on.isoformat(),
             one.preparation, one.wet_dg, one.dry_dg, one.note)
            for at, one in enumerate(lots)
        ],
    )  # fmt: skip
    first = _next_id(store, "package")
    store.run_many(
        "INSERT INTO package (id, code, lot_id, food_id, number, container_id, absorber_cc, vacuum,"
        " dry_dg, water_dg, sealed_on, location_id, note, gate_reason, condition)"
        f" VALUES ({marks(14)}, 'settling')",
        [
            (first + at, one.code, first_lot + one.lot_at, one.food_id, one.number,
             one.container_id, one.absorber_cc, int(one.vacuum), one.dry_dg, one.water_dg,
             one.sealed_on.isoformat(), one.place_id, one.note, one.gate_reason)
            for at, one in enumerate(packages)
        ],
    )  # fmt: skip
    store.run_many(
        "INSERT INTO package_event (package_id, on_day, event, to_condition, to_location_id)"
        " VALUES (?, ?, 'sealed', 'settling', ?)",
        [
            (first + at, text_of(one.sealed_on), one.place_id)
            for at, one in enumerate(packages)
        ],
    )  # fmt: skip


def say_sound(store: Store, codes: Sequence[str], on_day: date, note: str) -> None:
    """Note that packages are sound because somebody says so, not because they were looked at."""
    store.run_many(
        "INSERT INTO package_event (package_id, on_day, event, from_condition, to_condition, note)"
        " SELECT id, ?, 'noted', 'settling', 'sound', ? FROM package WHERE code = ?",
        [(on_day.isoformat(), note, code) for code in codes],
    )
    store.run_many(
        "UPDATE package SET condition = 'sound' WHERE code = ?", [(code,) for code in codes]
    )


def _next_id(store: Store, table: str) -> int:
    return int(store.value(f"SELECT ifnull(max(id), 0) + 1 FROM {table}"))
