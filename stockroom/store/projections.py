"""Stored projections: what the keeping model last said of each live package."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from stockroom.domain.records import RefusedProjection, StoredProjection
from stockroom.store.connection import Store
from stockroom.store.queue_rows import first_sources
from stockroom.store.rows import day, day_or_none, marks, text_of

# Ids per statement: below SQLite's parameter limit on every build.
_BATCH = 500


def projection_of(store: Store, package_id: int) -> StoredProjection | None:
    """The stored projection of a package; None when there is none or the model gave none."""
    row = store.one(
        "SELECT package_id, best_by, low, high, recheck_by, limited_by, model, computed_on,"
        " discard_by FROM projection WHERE package_id = ? AND best_by IS NOT NULL",
        (package_id,),
    )
    if row is None:
        return None
    return StoredProjection(
        package_id=row[0],
        best_by=day(row[1]),
        low=day(row[2]),
        high=day(row[3]),
        recheck_by=day(row[4]),
        limited_by=row[5],
        model=row[6],
        computed_on=day(row[7]),
        discard_by=day_or_none(row[8]),
    )


def refusal_of(store: Store, package_id: int) -> str:
    """Why the model gives a package no best-by; "" when it gives one."""
    return str(
        store.value("SELECT refused FROM projection WHERE package_id = ?", (package_id,)) or ""
    )


_SAVE = (
    "INSERT INTO projection (package_id, best_by, low, high, recheck_by, discard_by, limited_by,"
    f" refused, model, computed_on) VALUES ({marks(10)}) ON CONFLICT (package_id) DO UPDATE SET"
    " best_by = excluded.best_by, low = excluded.low, high = excluded.high,"
    " recheck_by = excluded.recheck_by, discard_by = excluded.discard_by,"
    " limited_by = excluded.limited_by, refused = excluded.refused, model = excluded.model,"
    " computed_on = excluded.computed_on"
)


def save_projections(
    store: Store, projections: Sequence[StoredProjection | RefusedProjection]
) -> None:
    """Write projections, or why there is none, replacing what was there, inside `write()`."""
    store.run_many(_SAVE, [_row(one) for one in projections])


def _row(one: StoredProjection | RefusedProjection) -> tuple[object, ...]:
    if isinstance(one, RefusedProjection):
        nothing = (None,) * 6
        return (one.package_id, *nothing, one.why, one.model, one.computed_on.isoformat())
    return (
        one.package_id,
        one.best_by.isoformat(),
        one.low.isoformat(),
        one.high.isoformat(),
        one.recheck_by.isoformat(),
        text_of(one.discard_by),
        one.limited_by,
        "",
        one.model,
        one.computed_on.isoformat(),
    )


def read_basis(store: Store) -> str:
    """The model and settings the stored projections were computed with; "" before the first."""
    return str(store.value("SELECT basis FROM projection_basis") or "")


def save_basis(store: Store, basis: str) -> None:
    """Say what the stored projections were computed with, inside `write()`."""
    store.run(
        "INSERT INTO projection_basis (id, basis) VALUES (1, ?)"
        " ON CONFLICT (id) DO UPDATE SET basis = excluded.basis",
        (basis,),
    )


def live_package_ids(store: Store) -> list[int]:
    """Every package that is not used up or discarded, lot by lot."""
    rows = store.query(
        "SELECT id FROM package WHERE condition NOT IN ('used', 'discarded') ORDER BY lot_id, id"
    )
    return [int(row[0]) for row in rows]


def drop_projections(store: Store, package_ids: Iterable[int]) -> None:
    """Forget the projections of packages that are gone."""
    store.run_many("DELETE FROM projection WHERE package_id = ?", [(one,) for one in package_ids])


def packages_touched(store: Store, entry_id: int) -> list[int]:
    """Packages whose dates an entry may have changed: their own row, lot, food or place.

    Also those that the food of these went into.
    """
    # CROSS JOIN: packages have no index by container, so they are looked through only when an
    # entry did change a container.
    rows = store.query(
        "WITH RECURSIVE touched (table_name, row_id) AS ("
        "  SELECT DISTINCT table_name, row_id FROM change WHERE journal_id = ?1),"
        " below (id) AS ("
        "  SELECT row_id FROM touched WHERE table_name = 'location'"
        "  UNION SELECT json_extract(ifnull(after, before), '$.location_id') FROM change"
        "   WHERE journal_id = ?1 AND table_name = 'location_temperature'"
        "  UNION SELECT location.id FROM location JOIN below ON location.parent_id = below.id),"
        " found (id) AS ("
        "  SELECT row_id FROM touched WHERE table_name = 'package'"
        "  UNION SELECT json_extract(ifnull(after, before), '$.package_id') FROM change"
        "   WHERE journal_id = ?1 AND table_name = 'package_event'"
        "  UNION SELECT package.id FROM package JOIN touched ON touched.row_id = package.lot_id"
        "   WHERE table_name = 'lot'"
        "  UNION SELECT package.id FROM package JOIN touched ON touched.row_id = package.food_id"
        "   WHERE table_name = 'food'"
        "  UNION SELECT package.id FROM touched CROSS JOIN package"
        "   ON package.container_id = touched.row_id WHERE table_name = 'container'"
        "  UNION SELECT package_event.package_id FROM package_event JOIN below"
        "   ON below.id = package_event.to_location_id"
        "  UNION SELECT package_source.package_id FROM found JOIN package_source"
        "   ON package_source.source_package_id = found.id)"
        " SELECT id FROM found",
        (entry_id,),
    )
    return [int(row[0]) for row in rows]


def stays_of(store: Store, package_ids: Sequence[int]) -> dict[int, list[tuple[date, int | None]]]:
    """Where each package's food stood, in order: (from this day, place id or None).

    Food that was in a package before begins where that one stood.
    """
    found: dict[int, list[tuple[date, int | None]]] = {one: [] for one in package_ids}
    for batch in _batches(package_ids):
        rows = store.query(
            "SELECT package_id, on_day, to_location_id FROM package_event"
            f" WHERE event IN ('sealed', 'moved') AND package_id IN ({marks(len(batch))})"
            " ORDER BY package_id, on_day, id",
            batch,
        )
        for package_id, on_day, place_id in rows:
            found[package_id].append((day(on_day), place_id))
        _put_first(store, found, first_sources(store, batch))
    return found


def _put_first(
    store: Store,
    found: dict[int, list[tuple[date, int | None]]],
    sources: dict[int, int],
) -> None:
    """Put where the food stood before it was packed anew at the front."""
    if not sources:
        return
    before = stays_of(store, sorted(set(sources.values())))
    for package_id, source_id in sources.items():
        stays = found[package_id]
        stays[:0] = [stay for stay in before[source_id] if stay[0] < stays[0][0]]


def checks_of(store: Store, package_ids: Sequence[int]) -> dict[int, list[tuple[date, str]]]:
    """What was found at each check of each package, in order: (day, finding)."""
    found: dict[int, list[tuple[date, str]]] = {one: [] for one in package_ids}
    for batch in _batches(package_ids):
        rows = store.query(
            "SELECT package_id, on_day, event FROM package_event"
            " WHERE event IN ('crisp', 'soft', 'leak', 'damaged')"
            f" AND package_id IN ({marks(len(batch))}) ORDER BY package_id, on_day, id",
            batch,
        )
        for package_id, on_day, finding in rows:
            found[package_id].append((day(on_day), finding))
    return found


def first_looks(store: Store, since: date) -> dict[int, date]:
    """Every package that was looked at on a day or after it, with the day it first was."""
    rows = store.query(
        "SELECT package_id, min(on_day) FROM package_event WHERE on_day >= ?"
        " AND event IN ('crisp', 'soft', 'leak', 'damaged') GROUP BY package_id",
        (since.isoformat(),),
    )
    return {int(row[0]): day(row[1]) for row in rows}


def _batches(package_ids: Sequence[int]) -> list[Sequence[int]]:
    return [package_ids[start : start + _BATCH] for start in range(0, len(package_ids), _BATCH)]
