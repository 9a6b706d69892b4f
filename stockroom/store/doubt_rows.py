"""What is on record of doubtful packages: their findings, and the last decision on each."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from stockroom.store.connection import Store
from stockroom.store.rows import day, marks

_BATCH = 500


def doubtful_events(store: Store, package_ids: Sequence[int]) -> dict[int, list[tuple[date, str]]]:
    """Checks, sisters gone soft and recalls of each package, in order: (day, event)."""
    found: dict[int, list[tuple[date, str]]] = {one: [] for one in package_ids}
    for start in range(0, len(package_ids), _BATCH):
        batch = package_ids[start : start + _BATCH]
        rows = store.query(
            "SELECT package_id, on_day, event FROM package_event WHERE event IN"
            " ('crisp', 'soft', 'leak', 'damaged', 'sister_soft', 'recall')"
            f" AND package_id IN ({marks(len(batch))}) ORDER BY package_id, on_day, id",
            batch,
        )
        for package_id, on_day, event in rows:
            found[package_id].append((day(on_day), event))
    return found


def last_decisions(store: Store, package_ids: Sequence[int]) -> dict[int, tuple[date, str]]:
    """The last decision on each package there was one on: (day, outcome)."""
    found: dict[int, tuple[date, str]] = {}
    for start in range(0, len(package_ids), _BATCH):
        batch = package_ids[start : start + _BATCH]
        rows = store.query(
            "SELECT package_id, on_day, outcome FROM inspection"
            f" WHERE package_id IN ({marks(len(batch))}) ORDER BY id",
            batch,
        )
        found.update({row[0]: (day(row[1]), row[2]) for row in rows})
    return found
