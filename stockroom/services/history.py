"""The journal, undo and redo."""

from __future__ import annotations

from array import array
from collections.abc import Sequence

from stockroom.domain.records import JournalEntry
from stockroom.services.acting import acting
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import journal


def journal_page(
    room: Stockroom, *, count: int = 50, before_id: int | None = None
) -> tuple[JournalEntry, ...]:
    """The latest entries first; `before_id` asks for what came before that entry."""
    return tuple(journal.entries(room.store, count=count, before_id=before_id))


def journal_keys(room: Stockroom) -> array[int]:
    """The ids of all entries, the latest first."""
    return journal.entry_ids(room.store)


def journal_entries(room: Stockroom, entry_ids: Sequence[int]) -> tuple[JournalEntry, ...]:
    """The entries of these ids, the latest first."""
    return tuple(journal.entries_by_ids(room.store, entry_ids))


def undo(room: Stockroom) -> Done:
    """Take back the latest action still in effect, whoever did it.

    Raises NothingToUndo, or ChangedSince when something done since stands in the way.
    """
    return _reverse(room, "undo")


def redo(room: Stockroom) -> Done:
    """Do again what was undone last, unless something new was done since."""
    return _reverse(room, "redo")


def _reverse(room: Stockroom, kind: str) -> Done:
    choose = journal.next_to_undo if kind == "undo" else journal.next_to_redo
    with acting(room, kind, kind=kind, reversing=choose) as act:
        assert act.reverses is not None
        journal.put_back(room.store, act.reverses)
        said = act.reverses.words.removeprefix("undid: ").removeprefix("redid: ")
        act.words = f"{'undid' if kind == 'undo' else 'redid'}: {said}"
    return Done(act.words)
