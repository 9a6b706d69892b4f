"""The journal: who did what, in words, with what it takes to undo and redo it.

Each action opens an entry; triggers copy every tracked row it changes, before and after, under
that entry. To undo an entry is to put the rows back in reverse order as a new entry of kind
`undo`, whose own changes are copied in the same way; so to redo is to undo the undo. Nothing in
the journal is ever changed or removed.

The entry to undo next is the latest `do` or `redo` no other entry reverses; the one to redo next
is the latest `undo` not reversed, unless something new has been done since. Starting the store
(action `init`) stays: without its settings there would be nothing to stand on.
"""

from __future__ import annotations

import json
from array import array
from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from stockroom.domain.records import JournalEntry
from stockroom.errors import Refused
from stockroom.store.connection import Store
from stockroom.store.derived import TRACKED
from stockroom.store.rows import marks

FOUNDING = "init"
"""The action that starts a store: it is kept in the journal and never undone."""


class ChangedSince(Refused):
    """A row is no longer as the entry left it, so putting it back would lose a later change."""

    def __init__(self, words: str) -> None:
        super().__init__(
            f"Cannot undo “{words}”: what it changed has been changed again since.",
            "Look at the journal, and correct the record by hand.",
        )


class NothingToUndo(Refused):
    """The journal holds nothing that is still in effect."""

    def __init__(self) -> None:
        super().__init__("There is nothing to undo.", "The journal lists what was done.")


class NothingToRedo(Refused):
    """Nothing was undone since the last new action."""

    def __init__(self) -> None:
        super().__init__(
            "There is nothing to redo.", "Only what was undone last, before anything new."
        )


def open_entry(
    store: Store,
    *,
    at: datetime,
    on_day: date,
    actor: str,
    action: str,
    kind: str = "do",
    reverses_id: int | None = None,
) -> int:
    """Begin an entry inside `write()`; every tracked change from here on belongs to it."""
    return store.run(
        "INSERT INTO journal (at, on_day, actor, kind, action, reverses_id)"
        " VALUES (?, ?, ?, ?, ?, ?)",
        (
            at.isoformat(timespec="seconds"),
            on_day.isoformat(),
            actor,
            kind,
            action,
            reverses_id,
        ),
    )


def close_entry(store: Store, entry_id: int, words: str) -> None:
    """Write the entry's sentence, once."""
    store.run("UPDATE journal SET words = ? WHERE id = ?", (words, entry_id))


_ENTRY = (
    "SELECT id, at, on_day, actor, kind, action, words, reverses_id,"
    " EXISTS (SELECT 1 FROM journal AS later WHERE later.reverses_id = entry.id)"
    " FROM journal AS entry"
)


def _entry(row: tuple[Any, ...]) -> JournalEntry:
    return JournalEntry(
        entry_id=row[0],
        at=datetime.fromisoformat(row[1]),
        on_day=date.fromisoformat(row[2]),
        actor=row[3],
        kind=row[4],
        action=row[5],
        words=row[6],
        reverses_id=row[7],
        reversed=bool(row[8]),
    )


def entries(store: Store, *, count: int, before_id: int | None = None) -> list[JournalEntry]:
    """The latest entries first; `before_id` asks for the page after that entry."""
    limit = "WHERE entry.id < ?" if before_id is not None else "WHERE ? IS NULL"
    rows = store.query(f"{_ENTRY} {limit} ORDER BY entry.id DESC LIMIT ?", (before_id, count))
    return [_entry(row) for row in rows]


def entry_ids(store: Store) -> array[int]:
    """The ids of all entries, the latest first: for lists that read only what is in view."""
    return array("q", (row[0] for row in store.query("SELECT id FROM journal ORDER BY id DESC")))


def entries_by_ids(store: Store, entry_ids: Sequence[int]) -> list[JournalEntry]:
    """The entries of these ids, the latest first."""
    rows = store.query(
        f"{_ENTRY} WHERE entry.id IN ({marks(len(entry_ids))}) ORDER BY entry.id DESC", entry_ids
    )
    return [_entry(row) for row in rows]


def next_to_undo(store: Store) -> JournalEntry:
    """The latest entry still in effect, but for the founding one. Raises NothingToUndo."""
    row = store.one(
        f"{_ENTRY} WHERE entry.kind IN ('do', 'redo') AND entry.action <> ? AND NOT EXISTS"
        " (SELECT 1 FROM journal AS later WHERE later.reverses_id = entry.id)"
        " ORDER BY entry.id DESC LIMIT 1",
        (FOUNDING,),
    )
    if row is None:
        raise NothingToUndo
    return _entry(row)


def next_to_redo(store: Store) -> JournalEntry:
    """The latest undo not itself reversed, if nothing new was done since. Or NothingToRedo."""
    row = store.one(
        f"{_ENTRY} WHERE entry.kind = 'undo' AND NOT EXISTS"
        " (SELECT 1 FROM journal AS later WHERE later.reverses_id = entry.id)"
        " AND entry.id > ifnull((SELECT max(id) FROM journal WHERE kind = 'do'), 0)"
        " ORDER BY entry.id DESC LIMIT 1"
    )
    if row is None:
        raise NothingToRedo
    return _entry(row)


def put_back(store: Store, entry: JournalEntry) -> None:
    """Put every row the entry changed back as it was, last change first, inside `write()`.

    Raises ChangedSince when a row is no longer as the entry left it.
    """
    changes = store.query(
        "SELECT table_name, row_id, before, after FROM change WHERE journal_id = ?"
        " ORDER BY id DESC",
        (entry.entry_id,),
    )
    for table, row_id, before, after in changes:
        if table not in TRACKED:
            raise ValueError(f"journal names an unknown table {table!r}")
        if not _is_as_left(_row_now(store, table, row_id), after and json.loads(after)):
            raise ChangedSince(entry.words)
        _restore(store, table, row_id, before and json.loads(before))


def _is_as_left(now: dict[str, Any] | None, left: dict[str, Any] | None) -> bool:
    # Only the columns the entry knew: a later schema may have added some.
    if now is None or left is None:
        return now is left
    return all(name in now and now[name] == value for name, value in left.items())


def _row_now(store: Store, table: str, row_id: int) -> dict[str, Any] | None:
    with_names = store.connection.execute(f"SELECT * FROM {table} WHERE id = ?", (row_id,))
    row = with_names.fetchone()
    if row is None:
        return None
    return {column[0]: value for column, value in zip(with_names.description, row, strict=True)}


def _restore(store: Store, table: str, row_id: int, row: dict[str, Any] | None) -> None:
    if row is None:
        store.run(f"DELETE FROM {table} WHERE id = ?", (row_id,))
        return
    names = ", ".join(row)
    marks = ", ".join(f":{name}" for name in row)
    present = store.one(f"SELECT 1 FROM {table} WHERE id = ?", (row_id,)) is not None
    if present:
        pairs = ", ".join(f"{name} = :{name}" for name in row)
        store.run(f"UPDATE {table} SET {pairs} WHERE id = :id", row)
    else:
        store.run(f"INSERT INTO {table} ({names}) VALUES ({marks})", row)


def changed_rows(store: Store, entry_id: int) -> dict[str, frozenset[int]]:
    """Table name → ids of the rows an entry changed."""
    found: dict[str, set[int]] = {}
    for table, row_id in store.query(
        "SELECT DISTINCT table_name, row_id FROM change WHERE journal_id = ?", (entry_id,)
    ):
        found.setdefault(table, set()).add(row_id)
    return {table: frozenset(ids) for table, ids in found.items()}
