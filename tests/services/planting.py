"""Faults planted in a store by raw SQL, each with what the doctor has to say of it."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from stockroom.domain.findings import Severity

A_PEA = 2
"""The sound package of the season's store, 26244A02I; 3 and 4 are used, 8 was drawn from."""
CODE = "26244A02I"


@dataclass(frozen=True, slots=True)
class Planted:
    """What is done to the store past every rule, and the one finding it has to give."""

    sql: tuple[str, ...]
    subject: str
    severity: Severity
    words: str
    mendable: bool = False
    past: str = ""
    """The trigger that is taken away before and put back after."""


def plant(path: Path, *statements: str, past: str = "") -> None:
    """Carry out statements as a program would that knows of no rule."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        found = connection.execute("SELECT sql FROM sqlite_master WHERE name = ?", (past,))
        trigger = [str(row[0]) for row in found.fetchall()]
        taken = [f"DROP TRIGGER {past}"] if past else []
        for one in (*taken, *statements, *trigger):
            connection.execute(one)


def _package(change: str, words: str, package_id: int = A_PEA, code: str = CODE) -> Planted:
    return Planted(
        (f"UPDATE package SET {change} WHERE id = {package_id}",), code, Severity.FAULT, words
    )


FAULTS: dict[str, Planted] = {
    "gone without a day": _package("gone_on = NULL", "gone without a day", 3, "26244A03G"),
    "a day and not gone": _package("gone_on = '2026-10-30'", "gone without a day"),
    "opened without a day": Planted(
        (
            f"UPDATE package SET condition = 'opened' WHERE id = {A_PEA}",
            "INSERT INTO package_event (package_id, on_day, event, to_condition)"
            " SELECT id, '2026-10-01', 'open', 'opened' FROM package"
            " WHERE condition = 'opened' AND opened_on IS NULL",
        ),
        CODE,
        Severity.FAULT,
        "nothing says since when",
    ),
    "another condition than its history": _package(
        "condition = 'suspect'", "left it in another condition"
    ),
    "used up with food left": Planted(
        (
            "UPDATE package SET taken_dg = 195 WHERE id = 4",
            "UPDATE draw SET dry_dg = 195 WHERE package_id = 4",
        ),
        "26244A04E",
        Severity.FAULT,
        "used up with food left",
    ),
    "taken past its draws": _package("taken_dg = 7", "not the sum of its draws"),
    "sealed before it was made": _package("sealed_on = '2026-08-01'", "sealed before its lot"),
    "opened before it was sealed": _package("opened_on = '2026-08-31'", "opened before it was"),
    "in a place that is not there": Planted(
        (f"UPDATE package SET location_id = 999 WHERE id = {A_PEA}",),
        "package",
        Severity.FAULT,
        "in a place that is not there: 26244A02I",
    ),
    "more packed than the lot had": Planted(
        ("UPDATE lot SET dry_dg = 1000 WHERE id = 1",),
        "26244A",
        Severity.FAULT,
        "More dry food",
    ),
    "water that does not add up": Planted(
        ("UPDATE lot_loss SET water_dg = water_dg + 3 WHERE id = 1",),
        "26244A",
        Severity.FAULT,
        "The water of its packages",
    ),
    "less than was before drying again": Planted(
        ("UPDATE lot SET dealt_before_dg = 1100 WHERE id = 3",),
        "26263A",
        Severity.FAULT,
        "Less is accounted for",
    ),
    "water of the draws": Planted(
        ("UPDATE draw SET water_dg = water_dg + 100000 WHERE id = (SELECT min(id) FROM draw)",),
        "26244B046",
        Severity.FAULT,
        "water of its draws",
    ),
    "held and not in the queue": Planted(
        (
            f"UPDATE package SET condition = 'held' WHERE id = {A_PEA}",
            "INSERT INTO package_event (package_id, on_day, event, to_condition)"
            " SELECT id, '2026-10-01', 'hold', 'held' FROM package WHERE condition = 'held'"
            " AND id NOT IN (SELECT package_id FROM redrying WHERE ended_on IS NULL"
            " AND package_id IS NOT NULL)",
        ),
        CODE,
        Severity.FAULT,
        "does not wait for the machine",
    ),
    "places in a circle": Planted(
        (
            "UPDATE location SET parent_id = (SELECT id FROM location WHERE name = 'bin 2')"
            " WHERE name = 'cellar'",
        ),
        "places",
        Severity.FAULT,
        "in a circle: cellar, rack 1, bin 2",
    ),
    "a day that has not come": Planted(
        ("UPDATE equipment_check SET on_day = '2031-02-03' WHERE id = 1",),
        "clock",
        Severity.WARNING,
        "the machine was checked on 2031-02-03",
    ),
    "an entry that is missing": Planted(
        (
            "INSERT INTO journal (id, at, on_day, actor, kind, action, words)"
            " SELECT id + 3, at, on_day, actor, 'do', 'note', 'noted' FROM journal"
            " WHERE id = (SELECT max(id) FROM journal)",
        ),
        "journal",
        Severity.WARNING,
        "Entries of the journal are missing",
    ),
    "an entry without words": Planted(
        (
            "INSERT INTO journal (at, on_day, actor, kind, action)"
            " VALUES ('2026-10-01T12:00:00+00:00', '2026-10-01', 'Runa', 'do', 'note')",
        ),
        "journal",
        Severity.FAULT,
        "do not say what was done",
    ),
    "a change without entry": Planted(
        (
            "INSERT INTO change (journal_id, table_name, row_id, before)"
            " VALUES (99999, 'meal', 999, '{}')",
        ),
        "change",
        Severity.FAULT,
        "Changes belong to no entry of the journal",
    ),
    "a row changed past the journal": Planted(
        ("UPDATE food SET note = 'by hand' WHERE id = 1",),
        "food",
        Severity.WARNING,
        "row 1",
        past="food_tracks_update",
    ),
    "a number of people that is none": Planted(
        ("UPDATE setting SET value = 'a few' WHERE key = 'people'",),
        "settings",
        Severity.FAULT,
        "people is “a few”",
    ),
    "units that are none": Planted(
        ("UPDATE setting SET value = 'stones' WHERE key = 'units'",),
        "settings",
        Severity.FAULT,
        "units is “stones”",
    ),
    "weekdays that are none": Planted(
        ("INSERT INTO setting (key, value) VALUES ('recheck.set_aside', 'Mon')",),
        "settings",
        Severity.FAULT,
        "recheck.set_aside is “Mon”",
    ),
    "a sheet that is none": Planted(
        ("INSERT INTO setting (key, value) VALUES ('label_sheet:A', '{\"rows\": 3}')",),
        "settings",
        Severity.FAULT,
        "label_sheet:A",
    ),
    "a value its table does not allow": Planted(
        ("UPDATE container SET volume_ml = -4 WHERE id = 1",),
        "container",
        Severity.FAULT,
        "values their table does not allow",
    ),
    "a table of another program": Planted(
        ("ALTER TABLE meal ADD COLUMN colour TEXT",),
        "store file",
        Severity.FAULT,
        "changed: meal",
    ),
    "an index that is missing": Planted(
        ("DROP INDEX lot_first_in",), "store file", Severity.FAULT, "changed: lot_first_in"
    ),
    "a trigger that is missing": Planted(
        ("DROP TRIGGER lot_tracks_update",),
        "views and triggers",
        Severity.FAULT,
        "lot_tracks_update",
        mendable=True,
    ),
    "a view that is another": Planted(
        ("DROP VIEW lot_balance", "CREATE VIEW lot_balance AS SELECT 1 AS lot_id"),
        "views and triggers",
        Severity.FAULT,
        "lot_balance",
        mendable=True,
    ),
    "a trigger that is not ours": Planted(
        ("CREATE TRIGGER extra AFTER INSERT ON meal BEGIN SELECT 1; END",),
        "views and triggers",
        Severity.FAULT,
        "extra",
        mendable=True,
    ),
    "a note index out of step": Planted(
        ("INSERT INTO package_note (package_note) VALUES ('delete-all')",),
        "note index",
        Severity.FAULT,
        "too little or too much",
        mendable=True,
    ),
    "the log turned off": Planted(
        ("PRAGMA journal_mode = DELETE",), "store file", Severity.NOTE, "log is off", mendable=True
    ),
    "a best-by that is missing": Planted(
        (f"DELETE FROM projection WHERE package_id = {A_PEA}",),
        "best-by dates",
        Severity.WARNING,
        "Missing for: 26244A02I",
        mendable=True,
    ),
    "a best-by that is stale": Planted(
        (f"UPDATE projection SET high = '2099-01-01' WHERE package_id = {A_PEA}",),
        "best-by dates",
        Severity.WARNING,
        "Not what the record gives now: 26244A02I",
        mendable=True,
    ),
    "a best-by of a used package": Planted(
        (
            "INSERT INTO projection (package_id, refused, model, computed_on)"
            " VALUES (3, 'none', 'full model', '2026-10-01')",
        ),
        "best-by dates",
        Severity.WARNING,
        "Kept for packages that have none: ",
        mendable=True,
    ),
    "a recheck that is missing": Planted(
        (f"DELETE FROM recheck WHERE package_id = {A_PEA}",),
        "rechecks",
        Severity.WARNING,
        "Missing for: 26244A02I",
        mendable=True,
    ),
    "a recheck that is stale": Planted(
        (f"UPDATE recheck SET risk = 1000 - risk WHERE package_id = {A_PEA}",),
        "rechecks",
        Severity.WARNING,
        "Not what the record gives now: 26244A02I",
        mendable=True,
    ),
}
"""What is wrong → how it comes about and what has to be found, and nothing else."""
