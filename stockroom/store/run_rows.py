"""Runs, trays and weighings."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from stockroom.domain.records import Run, Tray
from stockroom.store.connection import Store
from stockroom.store.rows import day, day_or_none, marks

_RUN = """
    SELECT id, started_on, closed_on, state, note,
        (SELECT count(*) FROM tray WHERE run_id = run.id),
        ifnull((SELECT group_concat(name, ', ') FROM (SELECT DISTINCT food.name FROM tray
            JOIN food ON food.id = tray.food_id WHERE run_id = run.id ORDER BY food.name)), '')
    FROM run"""


def _run(row: tuple[Any, ...]) -> Run:
    return Run(row[0], day(row[1]), day_or_none(row[2]), *row[3:])


def runs(store: Store, *, count: int) -> list[Run]:
    """The latest runs first."""
    return [_run(row) for row in store.query(f"{_RUN} ORDER BY id DESC LIMIT ?", (count,))]


def open_runs(store: Store) -> list[Run]:
    """Runs not closed or given up, the latest first."""
    return [_run(row) for row in store.query(f"{_RUN} WHERE state = 'open' ORDER BY id DESC")]


def run_by_id(store: Store, run_id: int) -> Run | None:
    """One run, or None."""
    row = store.one(f"{_RUN} WHERE id = ?", (run_id,))
    return None if row is None else _run(row)


def insert_run(store: Store, *, started_on: date, note: str) -> int:
    """Start a run; returns its id."""
    return store.run(
        "INSERT INTO run (started_on, state, note) VALUES (?, 'open', ?)",
        (started_on.isoformat(), note),
    )


def finish_run(store: Store, run_id: int, *, state: str, closed_on: date) -> None:
    """Close or abandon a run."""
    store.run(
        "UPDATE run SET state = ?, closed_on = ? WHERE id = ?",
        (state, closed_on.isoformat(), run_id),
    )


_TRAY = """
    SELECT tray.id, tray.run_id, tray.position, tray.food_id, food.name, tray.lot_id, lot.code,
        tray_weight.wet_dg, tray_weight.dry_dg,
        (SELECT group_concat(code, ' ') FROM (SELECT ifnull(package.code, of_lot.code) AS code
            FROM redrying JOIN lot AS of_lot ON of_lot.id = redrying.lot_id
            LEFT JOIN package ON package.id = redrying.package_id
            WHERE redrying.tray_id = tray.id ORDER BY redrying.since, redrying.id)),
        ifnull((SELECT tare_dg FROM weighing WHERE tray_id = tray.id ORDER BY id DESC LIMIT 1), 0)
    FROM tray JOIN food ON food.id = tray.food_id
    JOIN tray_weight ON tray_weight.tray_id = tray.id
    LEFT JOIN lot ON lot.id = tray.lot_id"""


def _tray(row: tuple[Any, ...]) -> Tray:
    return Tray(*row[:9], again=tuple((row[9] or "").split()), tare_dg=row[10])


def trays_of_run(store: Store, run_id: int) -> list[Tray]:
    """The trays of a run by position."""
    rows = store.query(f"{_TRAY} WHERE tray.run_id = ? ORDER BY tray.position", (run_id,))
    return [_tray(row) for row in rows]


def trays_of_lot(store: Store, lot_id: int) -> list[Tray]:
    """The trays a lot came from, by position."""
    rows = store.query(f"{_TRAY} WHERE tray.lot_id = ? ORDER BY tray.position", (lot_id,))
    return [_tray(row) for row in rows]


def trays_by_ids(store: Store, tray_ids: Sequence[int]) -> list[Tray]:
    """The trays of these ids, by position."""
    rows = store.query(
        f"{_TRAY} WHERE tray.id IN ({marks(len(tray_ids))}) ORDER BY tray.position", tray_ids
    )
    return [_tray(row) for row in rows]


def insert_tray(store: Store, *, run_id: int, position: int, food_id: int) -> int:
    """Put a food on a tray; returns the tray's id."""
    return store.run(
        "INSERT INTO tray (run_id, position, food_id) VALUES (?, ?, ?)",
        (run_id, position, food_id),
    )


def set_tray_food(store: Store, tray_id: int, food_id: int) -> None:
    """Correct what is on a tray."""
    store.run("UPDATE tray SET food_id = ? WHERE id = ?", (food_id, tray_id))


def delete_tray(store: Store, tray_id: int) -> None:
    """Take a tray out of an open run, with its weighings."""
    store.run("DELETE FROM weighing WHERE tray_id = ?", (tray_id,))
    store.run("DELETE FROM dryness_check WHERE tray_id = ?", (tray_id,))
    store.run("UPDATE redrying SET tray_id = NULL WHERE tray_id = ?", (tray_id,))
    store.run("DELETE FROM tray WHERE id = ?", (tray_id,))


def set_tray_lot(store: Store, tray_id: int, lot_id: int) -> None:
    """Say which lot a tray went into."""
    store.run("UPDATE tray SET lot_id = ? WHERE id = ?", (lot_id, tray_id))


def insert_weighing(
    store: Store,
    *,
    tray_id: int,
    stage: str,
    gross_dg: int,
    tare_dg: int,
    on_day: date,
    at: datetime,
    hours_tenths: int | None = None,
) -> int:
    """Record one weighing of a tray, `stage` wet or dry; returns its id.

    The id comes after every one that extra drying left behind, though that was taken out since.
    """
    return store.run(
        "INSERT INTO weighing (id, tray_id, stage, gross_dg, tare_dg, on_day, at, hours_tenths)"
        " VALUES ((SELECT 1 + max(ifnull((SELECT max(id) FROM weighing), 0),"
        f" ifnull((SELECT max(last_weighing_id) FROM extra_drying), 0))), {marks(7)})",
        (
            tray_id,
            stage,
            gross_dg,
            tare_dg,
            on_day.isoformat(),
            at.isoformat(timespec="seconds"),
            hours_tenths,
        ),
    )


def last_tare(store: Store, tray_id: int) -> int:
    """The tare of the tray's latest weighing, tenths of a gram; 0 when never weighed."""
    return int(
        store.value(
            "SELECT tare_dg FROM weighing WHERE tray_id = ? ORDER BY id DESC LIMIT 1", (tray_id,)
        )
        or 0
    )
