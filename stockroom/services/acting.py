"""One thing a person does: one unit of work, one journal entry, projections brought up to date.

    with acting(room, "move") as act:
        ...                                  # read, decide, write
        act.words = "moved 26329A07Z to cold cellar"

The entry is opened before anything is changed and gets its sentence at the end; the projections
of every package the entry touched are computed again in the same unit, for undo and redo alike.
Whatever raises inside leaves the store as it was.
"""

from __future__ import annotations

from collections.abc import Callable, Generator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date

from stockroom.domain.records import JournalEntry
from stockroom.services.keeping import refresh_projections
from stockroom.services.session import Stockroom
from stockroom.store import journal, projections
from stockroom.store.connection import Store
from stockroom.store.writing import write


@dataclass(slots=True)
class Act:
    """The action under way. Set `words` before the block ends.

    `reverses` is the entry an undo or redo takes back, chosen under the lock.
    """

    store: Store
    today: date
    entry_id: int
    reverses: JournalEntry | None = None
    words: str = ""


@contextmanager
def acting(
    room: Stockroom,
    action: str,
    *,
    kind: str = "do",
    reversing: Callable[[Store], JournalEntry] | None = None,
) -> Generator[Act]:
    """Do one thing, whole or not at all, and say so in the journal."""
    store = room.store
    with write(store):
        reverses = None if reversing is None else reversing(store)
        entry_id = journal.open_entry(
            store,
            at=room.clock.now(),
            on_day=room.today,
            actor=room.actor,
            action=action,
            kind=kind,
            reverses_id=None if reverses is None else reverses.entry_id,
        )
        act = Act(store, room.today, entry_id, reverses)
        yield act
        if not act.words:
            raise RuntimeError(f"action {action!r} ended without words for the journal")
        refresh_projections(room, projections.packages_touched(store, entry_id))
        journal.close_entry(store, entry_id, act.words)
