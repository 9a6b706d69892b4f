"""Opening the store: one file, one connection per thread, the same rules for every opener.

A `Store` is a path and the connections made to it. Reads go through `Store.query`, which returns
lists; writes happen inside `writing.write`. Connections wait three seconds for a lock, keep
foreign keys on and commit with a full sync, so a confirmed action survives a power cut.
"""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Generator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from stockroom.errors import (
    StockroomError,
    StoreDamaged,
    StoreExists,
    StoreLocked,
    StoreMissing,
    StoreTrouble,
    StoreUnwritable,
)

Parameters = Sequence[Any] | Mapping[str, Any]
LOCK_WAIT_MS = 3000


def trouble_from(error: sqlite3.Error, path: Path) -> StockroomError | None:
    """The error a person can act on for a driver error, or None when it is our own defect."""
    # A broken constraint quotes the schema, whose words prove nothing about the file.
    if isinstance(error, sqlite3.IntegrityError):
        return None
    text = str(error)
    if "locked" in text or "busy" in text:
        return StoreLocked(str(path))
    if any(words in text for words in ("full", "readonly", "unable to open", "disk I/O")):
        return StoreUnwritable(str(path), text)
    if any(words in text for words in ("malformed", "not a database", "corrupt")):
        return StoreDamaged(str(path), text)
    return None


@contextmanager
def translated(path: Path) -> Generator[None]:
    """Turn the driver's errors about the file into ours; defects pass unchanged."""
    try:
        yield
    except sqlite3.Error as error:
        trouble = trouble_from(error, path)
        if trouble is None:
            raise
        raise trouble from error


class Store:
    """An open store. Each thread that uses it gets its own connection on first use.

    `factory` is the connection class, so that a test can count or break statements.
    `durable=False` gives up the full sync: only for a store that can be built again.
    """

    def __init__(
        self,
        path: Path,
        *,
        factory: type[sqlite3.Connection] = sqlite3.Connection,
        durable: bool = True,
    ) -> None:
        self.path = path
        self._factory = factory
        self._durable = durable
        self._mine = threading.local()
        self._all: list[sqlite3.Connection] = []
        self._guard = threading.Lock()

    @property
    def connection(self) -> sqlite3.Connection:
        """This thread's connection, opened when first asked for."""
        found: sqlite3.Connection | None = getattr(self._mine, "connection", None)
        if found is None:
            found = self._open()
            self._mine.connection = found
            with self._guard:
                self._all.append(found)
        return found

    def _open(self) -> sqlite3.Connection:
        with translated(self.path):
            # isolation_level=None: the module opens no transaction of its own, write() does.
            # check_same_thread=False: only close() reaches across threads.
            connection = sqlite3.connect(
                self.path.absolute().as_uri() + "?mode=rw",
                uri=True,
                isolation_level=None,
                check_same_thread=False,
                factory=self._factory,
            )
            try:
                configure(connection, durable=self._durable)
            except BaseException:
                connection.close()
                raise
        return connection

    def query(self, sql: str, parameters: Parameters = ()) -> list[tuple[Any, ...]]:
        """All rows of a reading statement, as a list."""
        with translated(self.path):
            return self.connection.execute(sql, parameters).fetchall()

    def one(self, sql: str, parameters: Parameters = ()) -> tuple[Any, ...] | None:
        """The first row of a reading statement, or None."""
        with translated(self.path):
            row: tuple[Any, ...] | None = self.connection.execute(sql, parameters).fetchone()
            return row

    def value(self, sql: str, parameters: Parameters = ()) -> Any:
        """The first column of the first row, or None when there is no row."""
        row = self.one(sql, parameters)
        return None if row is None else row[0]

    def run(self, sql: str, parameters: Parameters = ()) -> int:
        """One changing statement inside `write()`; returns the id of the row it inserted."""
        if not self.connection.in_transaction:
            raise RuntimeError("a change outside write() would not be journalled")
        with translated(self.path):
            return self.connection.execute(sql, parameters).lastrowid or 0

    def run_many(self, sql: str, rows: Sequence[Parameters]) -> None:
        """The same changing statement for many rows, inside `write()`."""
        if not self.connection.in_transaction:
            raise RuntimeError("a change outside write() would not be journalled")
        with translated(self.path):
            self.connection.executemany(sql, rows)

    def data_version(self) -> int:
        """A number that moves when another connection has written; own writes leave it."""
        return int(self.value("PRAGMA data_version"))

    def close(self) -> None:
        """Close every connection made through this store."""
        with self._guard:
            for connection in self._all:
                connection.close()
            self._all.clear()
        self._mine = threading.local()


def configure(connection: sqlite3.Connection, *, durable: bool = True) -> None:
    """Set what every connection to a store must have; foreign keys are read back."""
    connection.execute(f"PRAGMA busy_timeout = {LOCK_WAIT_MS}")
    connection.execute(f"PRAGMA synchronous = {'FULL' if durable else 'OFF'}")
    connection.execute("PRAGMA foreign_keys = ON")
    if connection.execute("PRAGMA foreign_keys").fetchone() != (1,):
        raise StoreTrouble("This SQLite cannot enforce foreign keys.", "Install a full SQLite.")


def open_store(
    path: Path, *, factory: type[sqlite3.Connection] = sqlite3.Connection, durable: bool = True
) -> Store:
    """Open an existing store, migrating it first when it is of an earlier schema.

    Raises StoreMissing, StoreNewer, StoreDamaged, StoreLocked or StoreUnwritable.
    """
    from stockroom.store.migrations import bring_up_to_date

    if not path.is_file():
        raise StoreMissing(str(path))
    with translated(path):
        bring_up_to_date(path)
    return Store(path, factory=factory, durable=durable)


def create_store(
    path: Path, *, factory: type[sqlite3.Connection] = sqlite3.Connection, durable: bool = True
) -> Store:
    """Make a new, empty store: folder 0700, file 0600. Raises StoreExists, StoreUnwritable."""
    from stockroom.store.migrations import build_new

    if path.exists():
        raise StoreExists(str(path))
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        path.touch(mode=0o600, exist_ok=False)
    except OSError as error:
        raise StoreUnwritable(str(path), error.strerror or str(error)) from error
    try:
        with translated(path):
            build_new(path, durable=durable)
    except BaseException:
        path.unlink(missing_ok=True)
        raise
    return Store(path, factory=factory, durable=durable)
