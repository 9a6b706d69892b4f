"""What shows that food is dry: weighings and tests of trays, and a few more hours."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from stockroom.domain.evidence_records import DrynessCheck, ExtraDrying, Weighing
from stockroom.store.connection import Store
from stockroom.store.rows import day, marks


def weighings_of(store: Store, tray_ids: Sequence[int]) -> list[Weighing]:
    """Every weighing of these trays, in the order taken."""
    rows = store.query(
        "SELECT id, tray_id, stage, gross_dg - tare_dg, hours_tenths, on_day, at FROM weighing"
        f" WHERE tray_id IN ({marks(len(tray_ids))}) ORDER BY id",
        tray_ids,
    )
    return [_weighing(row) for row in rows]


def _weighing(row: tuple[Any, ...]) -> Weighing:
    weighing_id, tray_id, stage, net_dg, hours_tenths, on_day, at = row
    instant = datetime.fromisoformat(at)
    return Weighing(weighing_id, tray_id, stage, net_dg, hours_tenths, day(on_day), instant)


def checks_of_trays(store: Store, tray_ids: Sequence[int]) -> list[DrynessCheck]:
    """Every cold-touch and break test of these trays, in the order made."""
    rows = store.query(
        "SELECT id, tray_id, kind, passed, on_day, at, note FROM dryness_check"
        f" WHERE tray_id IN ({marks(len(tray_ids))}) ORDER BY id",
        tray_ids,
    )
    return [
        DrynessCheck(
            row[0],
            row[1],
            row[2],
            bool(row[3]),
            day(row[4]),
            datetime.fromisoformat(row[5]),
            row[6],
        )
        for row in rows
    ]


def insert_check(
    store: Store, *, tray_id: int, kind: str, passed: bool, on_day: date, at: datetime, note: str
) -> int:
    """Record a test of a tray, `kind` cold or break; returns its id.

    The id comes after every one that extra drying left behind, though that was taken out since.
    """
    return store.run(
        "INSERT INTO dryness_check (id, tray_id, kind, passed, on_day, at, note)"
        " VALUES ((SELECT 1 + max(ifnull((SELECT max(id) FROM dryness_check), 0),"
        f" ifnull((SELECT max(last_check_id) FROM extra_drying), 0))), {marks(6)})",
        (tray_id, kind, int(passed), on_day.isoformat(), at.isoformat(timespec="seconds"), note),
    )


_EXTRA = (
    "SELECT id, run_id, hours_tenths, on_day, due_at, last_weighing_id, last_check_id, note"
    " FROM extra_drying"
)


def _extra(row: tuple[Any, ...]) -> ExtraDrying:
    return ExtraDrying(
        row[0], row[1], row[2], day(row[3]), datetime.fromisoformat(row[4]), row[5], row[6], row[7]
    )


def extra_dryings_of(store: Store, run_id: int) -> list[ExtraDrying]:
    """The extra hours of a run, in the order begun."""
    return [_extra(row) for row in store.query(f"{_EXTRA} WHERE run_id = ? ORDER BY id", (run_id,))]


def extra_dryings_waited_for(store: Store) -> list[ExtraDrying]:
    """The last extra hours of each open run with no weighing since, the earliest end first."""
    rows = store.query(
        f"{_EXTRA} WHERE id IN (SELECT max(id) FROM extra_drying GROUP BY run_id)"
        " AND run_id IN (SELECT id FROM run WHERE state = 'open')"
        " AND NOT EXISTS (SELECT 1 FROM weighing JOIN tray ON tray.id = weighing.tray_id"
        " WHERE tray.run_id = extra_drying.run_id AND weighing.id > last_weighing_id)"
        " ORDER BY due_at, id"
    )
    return [_extra(row) for row in rows]


def insert_extra_drying(
    store: Store,
    *,
    run_id: int,
    hours_tenths: int,
    on_day: date,
    at: datetime,
    due_at: datetime,
    note: str,
) -> int:
    """Begin extra hours: every weighing and test so far is left behind; returns the row's id."""
    return store.run(
        "INSERT INTO extra_drying (run_id, hours_tenths, on_day, at, due_at, last_weighing_id,"
        " last_check_id, note) VALUES (?, ?, ?, ?, ?,"
        " (SELECT ifnull(max(id), 0) FROM weighing),"
        " (SELECT ifnull(max(id), 0) FROM dryness_check), ?)",
        (
            run_id,
            hours_tenths,
            on_day.isoformat(),
            at.isoformat(timespec="seconds"),
            due_at.isoformat(timespec="minutes"),
            note,
        ),
    )
