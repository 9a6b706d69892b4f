"""Packages whose food was put on one tray: from then on it is one heap."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.records import Package
from stockroom.errors import Refused
from stockroom.services.session import Stockroom
from stockroom.store import queue_rows


class OneHeap(Refused):
    """What was put on one tray cannot be told apart any more."""

    def __init__(self, entry: QueueEntry, others: Sequence[str]) -> None:
        where = f"tray {entry.tray_position} of run {entry.run_id}"
        super().__init__(
            f"{entry.code} is one heap with {', '.join(others)}, on {where}.",
            "Discard all of them, or take an open run's tray out of it first.",
        )


def refuse_part_of_heap(room: Stockroom, packages: Sequence[Package]) -> None:
    """Raise OneHeap where other packages lie on the same tray, to be dried or dried already."""
    going = {package.package_id for package in packages}
    for package in packages:
        entry = queue_rows.entry_of_package(room.store, package.package_id)
        if entry is None or entry.tray_id is None:
            continue
        heap = queue_rows.entries_on_tray(room.store, entry.tray_id)
        staying = [one.code for one in heap if one.package_id not in going]
        if staying:
            raise OneHeap(entry, staying)
