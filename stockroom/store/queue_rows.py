"""The queue for the machine: held packages and food of lots that wait to be dried again."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from stockroom.domain.evidence_records import Inspection, QueueEntry
from stockroom.store.connection import Store
from stockroom.store.place_rows import place_paths
from stockroom.store.rows import day, day_or_none, marks, text_of

_ENTRY = """
    SELECT redrying.id, redrying.lot_id, lot.code, redrying.package_id, ifnull(package.code, ''),
        food.name, redrying.dry_dg, redrying.since, redrying.reason,
        CASE WHEN redrying.tray_id IS NULL THEN 'waiting'
             WHEN run.state = 'open' THEN 'loaded' ELSE 'dried' END,
        run.id, redrying.tray_id, tray.position, tray_weight.dry_dg, package.location_id
    FROM redrying JOIN lot ON lot.id = redrying.lot_id JOIN food ON food.id = lot.food_id
    LEFT JOIN package ON package.id = redrying.package_id
    LEFT JOIN tray ON tray.id = redrying.tray_id LEFT JOIN run ON run.id = tray.run_id
    LEFT JOIN tray_weight ON tray_weight.tray_id = tray.id"""


def _entries(store: Store, rest: str, parameters: Sequence[Any] = ()) -> list[QueueEntry]:
    paths = place_paths(store)
    return [_entry(row, paths) for row in store.query(f"{_ENTRY} {rest}", parameters)]


def _entry(row: tuple[Any, ...], paths: dict[int, str]) -> QueueEntry:
    return QueueEntry(
        *row[:7],
        since=day(row[7]),
        reason=row[8],
        state=row[9],
        run_id=row[10],
        tray_id=row[11],
        tray_position=row[12],
        dried_dg=row[13],
        place=paths.get(row[14], ""),
    )


def queue(store: Store) -> list[QueueEntry]:
    """Everything that waits for the machine, is on it or came off it, first come first served."""
    return _entries(store, "WHERE redrying.ended_on IS NULL ORDER BY redrying.since, redrying.id")


def entry_of_package(store: Store, package_id: int) -> QueueEntry | None:
    """The place of a held package in the queue, or None."""
    found = _entries(
        store, "WHERE redrying.ended_on IS NULL AND redrying.package_id = ?", (package_id,)
    )
    return found[0] if found else None


def entry_of_lot(store: Store, lot_id: int) -> QueueEntry | None:
    """The place in the queue of a lot's food that is not packed yet, or None."""
    found = _entries(
        store,
        "WHERE redrying.ended_on IS NULL AND redrying.lot_id = ? AND redrying.package_id IS NULL",
        (lot_id,),
    )
    return found[0] if found else None


def entries_on_tray(store: Store, tray_id: int) -> list[QueueEntry]:
    """What is dried again on one tray, ended or not."""
    return _entries(
        store, "WHERE redrying.tray_id = ? ORDER BY redrying.since, redrying.id", (tray_id,)
    )


def tray_of_redried_lot(store: Store, lot_id: int) -> int | None:
    """The tray a lot's unpacked food was last dried again on, or None."""
    return store.value(
        "SELECT tray_id FROM redrying WHERE lot_id = ? AND package_id IS NULL"
        " AND ending = 'dried' ORDER BY id DESC LIMIT 1",
        (lot_id,),
    )


def driven_off(store: Store, lot_id: int) -> int:
    """Water that drying a lot's food again took out of it in all, dg."""
    return int(
        store.value(
            "SELECT ifnull(sum(driven_off_dg), 0) FROM redrying WHERE lot_id = ?", (lot_id,)
        )
    )


def first_sources(store: Store, package_ids: Sequence[int]) -> dict[int, int]:
    """For packages repacked out of others: the first of those each holds food of."""
    rows = store.query(
        "SELECT package_id, min(source_package_id) FROM package_source"
        f" WHERE package_id IN ({marks(len(package_ids))}) GROUP BY package_id",
        package_ids,
    )
    return {int(row[0]): int(row[1]) for row in rows}


def insert_entry(
    store: Store, *, lot_id: int, package_id: int | None, dry_dg: int, since: date, reason: str
) -> int:
    """Put food at the end of the queue; returns the row's id."""
    return store.run(
        f"INSERT INTO redrying (lot_id, package_id, dry_dg, since, reason) VALUES ({marks(5)})",
        (lot_id, package_id, dry_dg, since.isoformat(), reason),
    )


def set_tray(store: Store, entry_id: int, tray_id: int) -> None:
    """Say on which tray it is dried."""
    store.run("UPDATE redrying SET tray_id = ? WHERE id = ?", (tray_id, entry_id))


def leave_tray(store: Store, run_id: int) -> None:
    """Put what is on the trays of a run back in its place in the queue."""
    store.run(
        "UPDATE redrying SET tray_id = NULL WHERE ended_on IS NULL"
        " AND tray_id IN (SELECT id FROM tray WHERE run_id = ?)",
        (run_id,),
    )


def end_entry(
    store: Store, entry_id: int, *, ended_on: date, ending: str, driven_off_dg: int = 0
) -> None:
    """Take it out of the queue. `ending` is packed, dried, discarded or dropped."""
    store.run(
        "UPDATE redrying SET ended_on = ?, ending = ?, driven_off_dg = ? WHERE id = ?",
        (ended_on.isoformat(), ending, driven_off_dg, entry_id),
    )


def insert_source(store: Store, package_id: int, source_package_id: int) -> int:
    """Say that a package holds food that was in another; returns the row's id."""
    return store.run(
        "INSERT INTO package_source (package_id, source_package_id) VALUES (?, ?)",
        (package_id, source_package_id),
    )


def sources_of(store: Store, package_id: int) -> list[str]:
    """Codes of the packages whose food is in this one."""
    rows = store.query(
        "SELECT package.code FROM package_source"
        " JOIN package ON package.id = package_source.source_package_id"
        " WHERE package_source.package_id = ? ORDER BY package.code",
        (package_id,),
    )
    return [str(row[0]) for row in rows]


def successors_of(store: Store, package_id: int) -> list[str]:
    """Codes of the packages this one's food went into."""
    rows = store.query(
        "SELECT package.code FROM package_source"
        " JOIN package ON package.id = package_source.package_id"
        " WHERE package_source.source_package_id = ? ORDER BY package.code",
        (package_id,),
    )
    return [str(row[0]) for row in rows]


def insert_inspection(
    store: Store,
    *,
    package_id: int,
    on_day: date,
    answers: str,
    outcome: str,
    rule: str,
    reason: str,
    use_by: date | None,
    note: str,
) -> int:
    """Keep what was decided of a package; returns the row's id."""
    return store.run(
        "INSERT INTO inspection (package_id, on_day, answers, outcome, rule, reason, use_by, note)"
        f" VALUES ({marks(8)})",
        (
            package_id,
            on_day.isoformat(),
            answers,
            outcome,
            rule,
            reason,
            text_of(use_by),
            note,
        ),
    )


def inspections_of(store: Store, package_id: int) -> list[Inspection]:
    """What was decided of a package, in order."""
    rows = store.query(
        "SELECT id, package_id, on_day, answers, outcome, rule, reason, use_by, note"
        " FROM inspection WHERE package_id = ? ORDER BY id",
        (package_id,),
    )
    return [
        Inspection(
            inspection_id=row[0],
            package_id=row[1],
            on_day=day(row[2]),
            answers=row[3],
            outcome=row[4],
            rule=row[5],
            reason=row[6],
            use_by=day_or_none(row[7]),
            note=row[8],
        )
        for row in rows
    ]


def use_by_of(store: Store, package_ids: Sequence[int]) -> dict[int, date]:
    """For opened packages given free for use now: the last day the decision allowed."""
    rows = store.query(
        "SELECT package_id, min(use_by) FROM inspection"
        " JOIN package ON package.id = inspection.package_id AND package.condition = 'opened'"
        f" WHERE outcome = 'use_now' AND use_by IS NOT NULL AND package_id IN"
        f" ({marks(len(package_ids))}) GROUP BY package_id",
        package_ids,
    )
    return {int(row[0]): day(row[1]) for row in rows}
