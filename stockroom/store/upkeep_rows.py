"""Checks of the machine, pressure-rise tests, and what the machine has run."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from stockroom.domain.upkeep import CheckHistory
from stockroom.domain.upkeep_records import EquipmentCheck, EquipmentReading
from stockroom.store.connection import Store
from stockroom.store.rows import day, day_or_none, text_of

RUNS_AT_ONCE = 100
"""Runs added up before it is asked whether they are enough; their weighings cost the most."""


@dataclass(frozen=True, slots=True)
class RunTotals:
    """What the machine has run: hours noted in tenths, and runs without noted hours."""

    hours_tenths: int = 0
    unknown_hours: int = 0
    more: bool = False
    """Whether there are runs left that were not added up, those before them being enough."""


def insert_check(store: Store, *, task: str, on_day: date, passed: bool, note: str) -> int:
    """Record a check done; returns its id."""
    return store.run(
        "INSERT INTO equipment_check (task, on_day, passed, note) VALUES (?, ?, ?, ?)",
        (task, on_day.isoformat(), int(passed), note),
    )


def checks_of(store: Store, task: str, *, count: int) -> list[EquipmentCheck]:
    """The times a check was done, the latest first."""
    rows = store.query(
        "SELECT id, task, on_day, passed, note FROM equipment_check WHERE task = ?"
        " ORDER BY on_day DESC, id DESC LIMIT ?",
        (task, count),
    )
    return [EquipmentCheck(row[0], row[1], day(row[2]), bool(row[3]), row[4]) for row in rows]


_HISTORIES = """
    WITH wanted (task) AS (VALUES {marks}),
    found (task, last_id, passed_on, failed_on) AS (
        SELECT task,
            (SELECT id FROM equipment_check AS done WHERE done.task = wanted.task
                ORDER BY on_day DESC, id DESC LIMIT 1),
            (SELECT on_day FROM equipment_check AS done WHERE done.task = wanted.task
                AND passed = 1 ORDER BY on_day DESC, id DESC LIMIT 1),
            (SELECT on_day FROM equipment_check AS done WHERE done.task = wanted.task
                AND passed = 0 ORDER BY on_day DESC, id DESC LIMIT 1)
        FROM wanted
    )
    SELECT found.task, last.on_day, last.passed, found.passed_on, found.failed_on, last.note
    FROM found JOIN equipment_check AS last ON last.id = found.last_id"""


def check_histories(store: Store, tasks: Sequence[str]) -> dict[str, CheckHistory]:
    """What is on record of each of these checks that was ever done.

    What the machine has run since is left at nothing: `run_totals` says it where it is needed.
    """
    if not tasks:
        return {}
    sql = _HISTORIES.format(marks=", ".join(["(?)"] * len(tasks)))
    return {row[0]: _history(row) for row in store.query(sql, tasks)}


def _history(row: tuple[Any, ...]) -> CheckHistory:
    return CheckHistory(
        last_on=day(row[1]),
        last_passed=bool(row[2]),
        passed_on=day_or_none(row[3]),
        failed_on=day_or_none(row[4]),
        note=row[5],
    )


def first_run_on(store: Store) -> date | None:
    """The day the first run on record started."""
    return day_or_none(store.value("SELECT min(started_on) FROM run"))


def runs_since(store: Store, since: date | None) -> int:
    """How many runs started on a day or later; all of them without a day."""
    return int(
        store.value("SELECT count(*) FROM run WHERE ifnull(started_on >= ?, 1)", (text_of(since),))
    )


def run_totals(
    store: Store, since: date | None, *, enough: Callable[[RunTotals], bool]
) -> RunTotals:
    """Hours of the runs that started on a day or later, of all of them without a day.

    A run's hours are the most that any of its weighings says. Adding up ends as soon as `enough`
    is content, so that a machine of many years costs no more than one of few.
    """
    found, last_id = RunTotals(), 0
    while True:
        hours = store.query(_HOURS, (last_id, text_of(since), RUNS_AT_ONCE))
        noted = [row[1] for row in hours if row[1] is not None]
        found = RunTotals(
            found.hours_tenths + sum(noted), found.unknown_hours + len(hours) - len(noted)
        )
        if len(hours) < RUNS_AT_ONCE:
            return found
        last_id = hours[-1][0]
        if enough(found):
            return replace(found, more=True)


_HOURS = """
    SELECT run.id, (SELECT max(weighing.hours_tenths) FROM tray
        JOIN weighing ON weighing.tray_id = tray.id WHERE tray.run_id = run.id)
    FROM run WHERE run.id > ? AND ifnull(run.started_on >= ?, 1) ORDER BY run.id LIMIT ?"""


_READING = (
    "SELECT id, on_day, volume_ml, from_microbar, to_microbar, seconds, dry_empty, note"
    " FROM equipment_reading"
)


def readings(store: Store, *, count: int) -> list[EquipmentReading]:
    """The latest readings by day, the earliest of them first."""
    rows = store.query(f"{_READING} ORDER BY on_day DESC, id DESC LIMIT ?", (count,))
    return [_reading(row) for row in reversed(rows)]


def last_volume_ml(store: Store) -> int | None:
    """The chamber's volume as last written down; None when it never was."""
    found: int | None = store.value(
        "SELECT volume_ml FROM equipment_reading ORDER BY id DESC LIMIT 1"
    )
    return found


def insert_reading(store: Store, reading: EquipmentReading) -> int:
    """Record a reading; its id is made here and returned."""
    return store.run(
        "INSERT INTO equipment_reading (on_day, volume_ml, from_microbar, to_microbar, seconds,"
        " dry_empty, note) VALUES (?, ?, ?, ?, ?, ?, ?)",
        (
            reading.on_day.isoformat(),
            reading.volume_ml,
            reading.from_microbar,
            reading.to_microbar,
            reading.seconds,
            int(reading.dry_empty),
            reading.note,
        ),
    )


def _reading(row: tuple[Any, ...]) -> EquipmentReading:
    return EquipmentReading(
        row[0], day(row[1]), row[2], row[3], row[4], row[5], bool(row[6]), row[7]
    )
