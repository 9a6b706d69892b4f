"""Stored rechecks: when each sealed package is to be looked at again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from stockroom.domain.records import StoredRecheck
from stockroom.store.connection import Store
from stockroom.store.rows import day, day_or_none, marks

_COLUMNS = "package_id, earliest_on, wanted_on, latest_on, risk"


def _recheck(row: tuple[Any, ...]) -> StoredRecheck:
    return StoredRecheck(row[0], day(row[1]), day(row[2]), day(row[3]), row[4])


def recheck_of(store: Store, package_id: int) -> StoredRecheck | None:
    """When a package is to be looked at again; None for one that is not sound and sealed."""
    row = store.one(f"SELECT {_COLUMNS} FROM recheck WHERE package_id = ?", (package_id,))
    return None if row is None else _recheck(row)


def wanted_by(store: Store, today: date, *, count: int) -> list[StoredRecheck]:
    """Those wanted by a day, the ones that can wait least first, at most `count` of them."""
    rows = store.query(
        f"SELECT {_COLUMNS} FROM recheck WHERE wanted_on <= ? ORDER BY latest_on, package_id"
        " LIMIT ?",
        (today.isoformat(), count),
    )
    return [_recheck(row) for row in rows]


def count_late(store: Store, today: date) -> int:
    """How many were to be looked at before a day."""
    return int(
        store.value("SELECT count(*) FROM recheck WHERE latest_on < ?", (today.isoformat(),))
    )


def all_until(store: Store, until: date) -> list[StoredRecheck]:
    """Every recheck that may be due by a day."""
    rows = store.query(
        f"SELECT {_COLUMNS} FROM recheck WHERE earliest_on <= ? ORDER BY wanted_on, package_id",
        (until.isoformat(),),
    )
    return [_recheck(row) for row in rows]


def save_rechecks(store: Store, rechecks: Sequence[StoredRecheck]) -> None:
    """Write rechecks, replacing what was there, inside `write()`."""
    store.run_many(
        f"INSERT INTO recheck ({_COLUMNS}) VALUES ({marks(5)})"
        " ON CONFLICT (package_id) DO UPDATE SET earliest_on = excluded.earliest_on,"
        " wanted_on = excluded.wanted_on, latest_on = excluded.latest_on, risk = excluded.risk",
        [
            (
                one.package_id,
                one.earliest_on.isoformat(),
                one.wanted_on.isoformat(),
                one.latest_on.isoformat(),
                one.risk,
            )
            for one in rechecks
        ],
    )


def drop_rechecks(store: Store, package_ids: Iterable[int]) -> None:
    """Forget the rechecks of packages that are no longer sound and sealed."""
    store.run_many("DELETE FROM recheck WHERE package_id = ?", [(one,) for one in package_ids])


def looked_at(store: Store, lot_ids: Sequence[int]) -> dict[int, dict[int, bool]]:
    """For each of these lots its packages that were ever looked at: id → went soft.

    Soft and then crisp on one day was a slip, which the second look mended.
    """
    found: dict[int, dict[int, bool]] = {one: {} for one in lot_ids}
    rows = store.query(
        "SELECT package.lot_id, package.id, max(package_event.event = 'soft' AND NOT EXISTS ("
        "  SELECT 1 FROM package_event AS mended WHERE mended.package_id = package.id"
        "  AND mended.event = 'crisp' AND mended.on_day = package_event.on_day"
        "  AND mended.id > package_event.id)) FROM package"
        " JOIN package_event ON package_event.package_id = package.id"
        " AND package_event.event IN ('crisp', 'soft', 'leak', 'damaged')"
        f" WHERE package.lot_id IN ({marks(len(lot_ids))}) GROUP BY package.id",
        lot_ids,
    )
    for lot_id, package_id, soft in rows:
        found[lot_id][package_id] = bool(soft)
    return found


def sound_of_soft_lots(store: Store, lot_ids: Sequence[int]) -> list[int]:
    """The sound packages of those of these lots in which one was ever found soft."""
    rows = store.query(
        "SELECT id FROM package WHERE condition = 'sound' AND lot_id IN ("
        " SELECT package.lot_id FROM package"
        " JOIN package_event ON package_event.package_id = package.id"
        f" AND package_event.event = 'soft' WHERE package.lot_id IN ({marks(len(lot_ids))}))",
        lot_ids,
    )
    return [int(row[0]) for row in rows]


def bands_of(
    store: Store, package_ids: Sequence[int]
) -> dict[int, tuple[date | None, date | None]]:
    """The stored best-by and low edge of these packages; None where the model gives none."""
    rows = store.query(
        f"SELECT package_id, best_by, low FROM projection"
        f" WHERE package_id IN ({marks(len(package_ids))})",
        package_ids,
    )
    return {int(row[0]): (day_or_none(row[1]), day_or_none(row[2])) for row in rows}
