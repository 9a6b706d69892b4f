"""Putting a store in the place of another, which is kept beside it under a name of its own.

What can be known of other programs: one that is writing holds SQLite's write lock; one that has
read a store with a write-ahead log (as every stockroom store has) keeps a lock for as long as it
has it open, so turning that log off fails. A program that has opened the file and not yet read
it, or a store whose log is off already, leaves no sign. While a store is replaced it is locked
against everybody; who came to it in that instant and waits goes on with the store that is kept.

At any moment either the old store or the new one stands in the place, whole.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Generator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from stockroom.errors import StoreExists, StoreTrouble, StoreUnwritable
from stockroom.store.connection import LOCK_WAIT_MS, translated, trouble_from
from stockroom.store.copies import BESIDE, PART, free_name, write_folder, write_through

_UNREADABLE = ("malformed", "not a database", "corrupt")


class StoreInUse(StoreTrouble):
    """Another program has the store open, so it may not be taken from under it."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"Another program has the store at {path} open.",
            "Nothing was changed; leave the screens and every other program on it, then try again.",
        )


@dataclass(slots=True)
class _Hold:
    """A store held against everybody else; `replaced` once another stands in its place."""

    connection: sqlite3.Connection
    replaced: bool = False


def write_ahead(path: Path) -> None:
    """Turn a store's write-ahead log on. Raises StoreLocked when that is not possible now."""
    with translated(path), _connection(path) as connection:
        connection.execute("PRAGMA journal_mode = WAL")


def put_in_place(fresh: Path, path: Path, kept: Path) -> Path | None:
    """Put the store `fresh`, a file on the same disk, at `path`; returns where the old one is.

    The old one is kept as `kept`, or with a number where that is taken; None when there was none.
    Raises StoreLocked, StoreInUse, StoreExists or StoreUnwritable.
    """
    try:
        write_through(fresh)
        if not path.exists():
            _set_aside(path, free_name(kept))
            _put_new(fresh, path)
            return None
        with _held(path) as hold:
            return _replace(fresh, path, kept, hold)
    except OSError as error:
        raise StoreUnwritable(str(path), error.strerror or str(error)) from error


def _replace(fresh: Path, path: Path, kept: Path, hold: _Hold) -> Path:
    """Give the old store its second name, then let the new one take the first, in one step."""
    chosen = _keep(path, kept)
    try:
        _set_aside(path, chosen)
        write_folder(path.parent)
        fresh.replace(path)
        hold.replaced = True
        write_folder(path.parent)
    except BaseException:
        # Only a second name of what still stands in its place is taken back.
        with suppress(OSError):
            if chosen.samefile(path):
                chosen.unlink()
        raise
    return chosen


def _keep(path: Path, kept: Path) -> Path:
    """A second name for the store, or a copy where the disk knows no second names."""
    while True:
        chosen = free_name(kept)
        try:
            os.link(path, chosen)
        except FileExistsError:
            continue
        except OSError:
            part = chosen.with_name(chosen.name + PART)
            try:
                shutil.copy2(path, part)
                write_through(part)
                part.rename(chosen)
            except BaseException:
                part.unlink(missing_ok=True)
                raise
        return chosen


def _set_aside(path: Path, kept: Path) -> None:
    """Move what SQLite left beside a store: beside another it would be read as part of that."""
    for end in BESIDE:
        beside = path.with_name(path.name + end)
        if beside.exists():
            beside.replace(kept.with_name(kept.name + end))


def _put_new(fresh: Path, path: Path) -> None:
    try:
        os.link(fresh, path)
    except FileExistsError as error:
        raise StoreExists(str(path)) from error
    except OSError:
        fresh.replace(path)
    write_folder(path.parent)


@contextmanager
def _connection(path: Path) -> Generator[sqlite3.Connection]:
    connection = sqlite3.connect(
        path.absolute().as_uri() + "?mode=rw",
        uri=True,
        isolation_level=None,
        timeout=LOCK_WAIT_MS / 1000,
    )
    try:
        yield connection
    finally:
        connection.close()


@contextmanager
def _held(path: Path) -> Generator[_Hold]:
    """Hold a store so that nobody reads or writes it; one that is damaged cannot be held."""
    with translated(path), _connection(path) as connection:
        hold = _Hold(connection)
        try:
            _lock(connection, path)
            yield hold
        finally:
            _let_go(hold)


def _lock(connection: sqlite3.Connection, path: Path) -> None:
    try:
        # Whoever writes now is waited for; then the log is turned off, which only the one
        # program that has the store open can do.
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("COMMIT")
        try:
            connection.execute("PRAGMA journal_mode = DELETE")
        except sqlite3.OperationalError as error:
            if "locked" in str(error):
                raise StoreInUse(str(path)) from error
            raise
        connection.execute("BEGIN EXCLUSIVE")
    except sqlite3.DatabaseError as error:
        if not any(words in str(error) for words in _UNREADABLE):
            raise trouble_from(error, path) or error from error


def _let_go(hold: _Hold) -> None:
    """Unlock; a store that stays gets its write-ahead log again."""
    with suppress(sqlite3.Error):
        if hold.connection.in_transaction:
            hold.connection.rollback()
        if not hold.replaced:
            hold.connection.execute("PRAGMA journal_mode = WAL")
