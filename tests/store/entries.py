"""A journal entry round changes made straight in the store, as an action would open one."""

from __future__ import annotations

from collections.abc import Generator
from contextlib import contextmanager
from datetime import UTC, datetime

from stockroom.store.connection import Store
from stockroom.store.journal import close_entry, open_entry
from stockroom.store.writing import write

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)


@contextmanager
def entered(store: Store, words: str = "did a thing", *, actor: str = "tester") -> Generator[int]:
    """An entry round changes, inside a unit of work; gives its id."""
    entry_id = open_entry(store, at=NOON, on_day=NOON.date(), actor=actor, action="test")
    yield entry_id
    close_entry(store, entry_id, words)


@contextmanager
def acted(store: Store, words: str = "did a thing") -> Generator[int]:
    """A whole unit of work with its entry."""
    with write(store), entered(store, words) as entry_id:
        yield entry_id
