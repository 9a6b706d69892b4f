"""What the last calendar file said, and the days the next one is made of.

`calendar_entry` is bookkeeping like the projections: written inside `write()` without a journal
entry and outside undo, since a file that was given out cannot be taken back by an undo.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from stockroom.domain.calendar_entries import Remembered
from stockroom.store.connection import Store
from stockroom.store.rows import day, marks

# Ids per statement: below SQLite's parameter limit on every build.
_BATCH = 500


@dataclass(frozen=True, slots=True)
class LotBestBy:
    """A lot and the first best-by to come among its packages that may be eaten from."""

    lot_id: int
    lot_code: str
    first: date


def remembered(store: Store) -> list[Remembered]:
    """What was last said under every UID ever given out."""
    rows = store.query(
        "SELECT uid, sequence, digest, on_day, summary, revised_at, cancelled"
        " FROM calendar_entry ORDER BY id"
    )
    return [
        Remembered(
            uid=row[0],
            sequence=row[1],
            digest=row[2],
            on_day=day(row[3]),
            summary=row[4],
            revised_at=datetime.fromisoformat(row[5]),
            cancelled=bool(row[6]),
        )
        for row in rows
    ]


def save_remembered(store: Store, said: Sequence[Remembered]) -> None:
    """Write what a file says under these UIDs, replacing what was there, inside `write()`."""
    store.run_many(
        "INSERT INTO calendar_entry (uid, sequence, digest, on_day, summary, revised_at, cancelled)"
        f" VALUES ({marks(7)}) ON CONFLICT (uid) DO UPDATE SET sequence = excluded.sequence,"
        " digest = excluded.digest, on_day = excluded.on_day, summary = excluded.summary,"
        " revised_at = excluded.revised_at, cancelled = excluded.cancelled",
        [_row(one) for one in said],
    )


def _row(one: Remembered) -> tuple[Any, ...]:
    return (
        one.uid,
        one.sequence,
        one.digest,
        one.on_day.isoformat(),
        one.summary,
        one.revised_at.isoformat(timespec="seconds"),
        int(one.cancelled),
    )


def first_best_bys(store: Store, today: date, conditions: Sequence[str]) -> list[LotBestBy]:
    """The first best-by from `today` on of each lot with a package in these conditions."""
    rows = store.query(
        "SELECT package.lot_id, lot.code, min(projection.best_by) FROM projection"
        " JOIN package ON package.id = projection.package_id JOIN lot ON lot.id = package.lot_id"
        f" WHERE projection.best_by >= ? AND package.condition IN ({marks(len(conditions))})"
        " GROUP BY package.lot_id ORDER BY 3, 2",
        (today.isoformat(), *conditions),
    )
    return [LotBestBy(row[0], row[1], day(row[2])) for row in rows]


def best_bys_of(
    store: Store, lot_ids: Sequence[int], today: date, conditions: Sequence[str]
) -> dict[int, list[tuple[int, date]]]:
    """For each of these lots its packages in these conditions: (id, best-by), the first first.

    Best-by dates before `today` and packages without one are left out.
    """
    found: dict[int, list[tuple[int, date]]] = {one: [] for one in lot_ids}
    for start in range(0, len(lot_ids), _BATCH):
        batch = lot_ids[start : start + _BATCH]
        rows = store.query(
            "SELECT package.lot_id, package.id, projection.best_by FROM package"
            " JOIN projection ON projection.package_id = package.id"
            f" WHERE package.lot_id IN ({marks(len(batch))}) AND projection.best_by >= ?"
            f" AND package.condition IN ({marks(len(conditions))})"
            " ORDER BY projection.best_by, package.id",
            (*batch, today.isoformat(), *conditions),
        )
        for lot_id, package_id, best_by in rows:
            found[lot_id].append((int(package_id), day(best_by)))
    return found


def count_without_best_by(store: Store, conditions: Sequence[str]) -> int:
    """Packages in these conditions that the model gives no best-by."""
    return int(
        store.value(
            "SELECT count(*) FROM projection JOIN package ON package.id = projection.package_id"
            " WHERE projection.best_by IS NULL"
            f" AND package.condition IN ({marks(len(conditions))})",
            tuple(conditions),
        )
    )
