"""Stored projections: what the keeping model last said of each live package."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from stockroom.domain.records import StoredProjection
from stockroom.store.connection import Store
from stockroom.store.rows import day, marks

# Ids per statement: below SQLite's parameter limit on every build.
_BATCH = 500


def projection_of(store: Store, package_id: int) -> StoredProjection | None:
    """The stored projection of a package, or None."""
    row = store.one(
        "SELECT package_id, best_by, low, high, recheck_by, limited_by, model, computed_on"
        " FROM projection WHERE package_id = ?",
        (package_id,),
    )
    if row is None:
        return None
    return StoredProjection(
        row[0], day(row[1]), day(row[2]), day(row[3]), day(row[4]), row[5], row[6], day(row[7])
    )


def save_projections(store: Store, projections: Sequence[StoredProjection]) -> None:
    """Write projections, replacing those there are, inside `write()`."""
    store.run_many(
        "INSERT INTO projection (package_id, best_by, low, high, recheck_by, limited_by, model,"
        f" computed_on) VALUES ({marks(8)}) ON CONFLICT (package_id) DO UPDATE SET"
        " best_by = excluded.best_by, low = excluded.low, high = excluded.high,"
        " recheck_by = excluded.recheck_by, limited_by = excluded.limited_by,"
        " model = excluded.model, computed_on = excluded.computed_on",
        [
            (
                one.package_id,
                one.best_by.isoformat(),
                one.low.isoformat(),
                one.high.isoformat(),
                one.recheck_by.isoformat(),
                one.limited_by,
                one.model,
                one.computed_on.isoformat(),
            )
            for one in projections
        ],
    )


def drop_projections(store: Store, package_ids: Iterable[int]) -> None:
    """Forget the projections of packages that are gone."""
    store.run_many("DELETE FROM projection WHERE package_id = ?", [(one,) for one in package_ids])


def packages_touched(store: Store, entry_id: int) -> list[int]:
    """Packages whose projection an entry may have changed: their own row, lot, food or place."""
    # CROSS JOIN: packages have no index by container, so they are looked through only when an
    # entry did change a container.
    rows = store.query(
        "WITH RECURSIVE touched (table_name, row_id) AS ("
        "  SELECT DISTINCT table_name, row_id FROM change WHERE journal_id = ?),"
        " below (id) AS ("
        "  SELECT row_id FROM touched WHERE table_name = 'location'"
        "  UNION SELECT location.id FROM location JOIN below ON location.parent_id = below.id)"
        " SELECT row_id FROM touched WHERE table_name = 'package'"
        " UNION SELECT package_id FROM package_event JOIN touched"
        "  ON touched.row_id = package_event.id WHERE table_name = 'package_event'"
        " UNION SELECT package.id FROM package JOIN touched ON touched.row_id = package.lot_id"
        "  WHERE table_name = 'lot'"
        " UNION SELECT package.id FROM package JOIN touched ON touched.row_id = package.food_id"
        "  WHERE table_name = 'food'"
        " UNION SELECT package.id FROM touched CROSS JOIN package"
        "  ON package.container_id = touched.row_id WHERE table_name = 'container'"
        " UNION SELECT package.id FROM package JOIN below ON below.id = package.location_id",
        (entry_id,),
    )
    return [int(row[0]) for row in rows]


def stays_of(store: Store, package_ids: Sequence[int]) -> dict[int, list[tuple[date, int | None]]]:
    """Where each package stood: (from this day, temperature of the place in tenths of a degree)."""
    found: dict[int, list[tuple[date, int | None]]] = {one: [] for one in package_ids}
    for start in range(0, len(package_ids), _BATCH):
        batch = package_ids[start : start + _BATCH]
        rows = store.query(
            "SELECT package_event.package_id, package_event.on_day, place_path.temperature_dc"
            " FROM package_event LEFT JOIN place_path"
            "  ON place_path.id = package_event.to_location_id"
            " WHERE package_event.event IN ('sealed', 'moved')"
            f" AND package_event.package_id IN ({marks(len(batch))})"
            " ORDER BY package_event.package_id, package_event.on_day, package_event.id",
            batch,
        )
        for package_id, on_day, temperature_dc in rows:
            found[package_id].append((day(on_day), temperature_dc))
    return found
