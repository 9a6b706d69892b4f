"""One unit of work on the store: all of it or none."""

from __future__ import annotations

from collections.abc import Generator
from contextlib import contextmanager

from stockroom.store.connection import Store, translated


@contextmanager
def write(store: Store) -> Generator[None]:
    """Hold the write lock from the first statement; commit at the end, roll back on any error.

    BEGIN IMMEDIATE takes the lock before anything is read, so what is read inside cannot be
    changed by another program before it is written. Units do not nest: a service composes
    plain functions inside its one unit. Raises StoreLocked after the lock wait.
    """
    connection = store.connection
    if connection.in_transaction:
        raise RuntimeError("write() inside write(): compose plain functions in one unit instead")
    with translated(store.path):
        try:
            # Inside, so that an interrupt during the wait for the lock cannot leave it held.
            connection.execute("BEGIN IMMEDIATE")
            yield
            connection.execute("COMMIT")
        except BaseException:
            if connection.in_transaction:
                connection.rollback()
            raise
