"""Sound copies of a store: made while it is in use, opened and checked before they count as made.

SQLite's own backup call copies one moment of the store: what another program writes meanwhile is
in the copy wholly or not at all. A copy is one file, without anything beside it.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Generator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

from stockroom.domain.store_copies import StoreFacts
from stockroom.errors import (
    StockroomError,
    StoreDamaged,
    StoreMissing,
    StoreNewer,
    StoreTrouble,
    StoreUnwritable,
)
from stockroom.store.connection import LOCK_WAIT_MS, trouble_from
from stockroom.store.migrations import STEPS, applied_steps
from stockroom.store.rows import day_or_none

PART = ".part"
"""The end of a copy's name until it is found sound."""
BESIDE = ("-wal", "-shm", "-journal")
"""What SQLite keeps beside a store, under the store's name."""


class CopyUnsound(StoreTrouble):
    """The copy was made but is not a whole store, so it was not kept."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The copy {path} was not kept, for it is not sound: {why}.",
            "The store itself may be damaged: `stockroom doctor` looks through it.",
        )


class CopyUnwritable(StoreTrouble):
    """The disk is full, or the folder of the copy is missing or closed."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The copy {path} could not be written: {why}.",
            "The store is as it was; free some space, check the folder, or name another place.",
        )


def make_copy(source: Path, target: Path, *, as_it_is: bool = False) -> StoreFacts:
    """Copy a store that may be in use into a new 0600 file; says what is in it.

    The copy has `target`'s name only once it was checked; nothing stays of one that fails.
    `as_it_is` also keeps a copy of a store with faults in it, and its kind of log. Raises
    StoreMissing, StoreNewer, StoreDamaged, StoreLocked, CopyUnwritable or CopyUnsound.
    """
    if not source.is_file():
        raise StoreMissing(str(source))
    part = target.with_name(target.name + PART)
    _make_private(part)
    try:
        with _troubles(source, part), closing(_connect(source, "rw")) as reader:
            counts = _copied(reader, part, one_file=not as_it_is)
        facts = _checked(part, counts, as_it_is=as_it_is)
        part.rename(target)
        write_folder(target.parent)
    except OSError as error:
        remove_store(part)
        raise CopyUnwritable(str(target), error.strerror or str(error)) from error
    except BaseException:
        remove_store(part)
        raise
    return facts


def take_from(file: Path, target: Path) -> None:
    """Copy a store somebody named into `target`, leaving the file and its folder as they are.

    Raises StoreDamaged, StoreLocked or CopyUnwritable.
    """
    _make_private(target)
    beside = any(file.with_name(file.name + end).exists() for end in BESIDE)
    with _troubles(file, target):
        try:
            with closing(_connect(file, "ro" if beside else "ro&immutable=1")) as reader:
                _copied(reader, target, one_file=True)
        except sqlite3.OperationalError as error:
            # Cut short in the middle of writing: what to take back lies in the journal beside it,
            # and doing that would change the file. So it is done in the copy.
            if "readonly" not in str(error):
                raise
            _with_journal(file, target)


def _with_journal(file: Path, target: Path) -> None:
    """Copy a file and the journal beside it as they are; SQLite takes back what was half done."""
    try:
        for end in ("", "-journal"):
            shutil.copyfile(file.with_name(file.name + end), target.with_name(target.name + end))
    except OSError as error:
        raise CopyUnwritable(str(target), error.strerror or str(error)) from error


def look_into(path: Path) -> tuple[StoreFacts, frozenset[tuple[object, ...]]]:
    """What is in a store, and the entries of its journal to compare with another's.

    Raises StoreDamaged, StoreLocked or StoreUnwritable.
    """
    with _troubles(path, None), closing(_connect(path, "rw")) as connection:
        entries = connection.execute("SELECT id, at, actor, words FROM journal").fetchall()
        return _facts(connection), frozenset(entries)


def wrong_with(path: Path) -> str:
    """Why a file is no whole store, in a few words; "" for a sound one."""
    with closing(_connect(path, "rw")) as connection:
        try:
            return _fault(connection)
        except sqlite3.DatabaseError as error:
            return f"SQLite says {error}"


def steps_of(path: Path) -> list[str]:
    """The steps of the schema a file has; none for another program's file, or for no database."""
    with closing(_connect(path, "rw")) as connection:
        try:
            return applied_steps(connection)
        except sqlite3.DatabaseError:
            return []


def remove_store(path: Path) -> None:
    """Take a copy away, with what SQLite keeps beside it."""
    for end in ("", *BESIDE):
        with suppress(OSError):
            path.with_name(path.name + end).unlink(missing_ok=True)


def free_name(wanted: Path) -> Path:
    """The name itself, or with a number where it is taken: "name.db", "name-2.db"."""
    number, chosen = 1, wanted
    while chosen.exists() or chosen.is_symlink():
        number += 1
        chosen = wanted.with_name(f"{wanted.stem}-{number}{wanted.suffix}")
    return chosen


def write_through(path: Path) -> None:
    """Have the disk take all of a file before it gets its name."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def write_folder(folder: Path) -> None:
    """Have the disk take the names in a folder; some disks know of no such thing."""
    with suppress(OSError):
        write_through(folder)


def _connect(path: Path, mode: str) -> sqlite3.Connection:
    return sqlite3.connect(
        f"{path.absolute().as_uri()}?mode={mode}",
        uri=True,
        isolation_level=None,
        timeout=LOCK_WAIT_MS / 1000,
    )


def _make_private(path: Path) -> None:
    """An empty file of our own, in place of one an earlier attempt left."""
    remove_store(path)
    try:
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    except (OSError, ValueError) as error:
        raise CopyUnwritable(str(path), getattr(error, "strerror", None) or str(error)) from error


def _copied(reader: sqlite3.Connection, target: Path, *, one_file: bool) -> dict[str, int]:
    """Copy one moment of the store; returns how many rows each table had at that moment."""
    reader.execute("BEGIN")
    counts = _counts(reader)
    with closing(_connect(target, "rw")) as writer:
        reader.backup(writer)
        if one_file:
            # Without its log it can be carried to where nothing may be written beside it.
            writer.execute("PRAGMA journal_mode = DELETE")
    reader.execute("ROLLBACK")
    return counts


def _checked(path: Path, counts: dict[str, int], *, as_it_is: bool) -> StoreFacts:
    """Open a copy and hold it against what was counted in the store."""
    with _troubles(path, path), closing(_connect(path, "rw")) as connection:
        if _counts(connection) != counts:
            raise CopyUnsound(str(path), "it does not hold as many rows as the store")
        if not as_it_is:
            _known_steps(connection, path)
            if fault := _fault(connection):
                raise CopyUnsound(str(path), fault)
        return _facts(connection)


def _counts(connection: sqlite3.Connection) -> dict[str, int]:
    """Rows of every table, but for the note index, which is made from the packages."""
    names = connection.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table'"
        " AND name NOT LIKE 'package_note%' ORDER BY name"
    ).fetchall()
    return {
        name: int(connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0])
        for (name,) in names
    }


def _known_steps(connection: sqlite3.Connection, path: Path) -> list[str]:
    applied = applied_steps(connection)
    if not applied:
        raise StoreDamaged(str(path), "it is not a stockroom store")
    unknown = [name for name in applied if name not in STEPS]
    if unknown:
        raise StoreNewer(str(path), unknown)
    return applied


def _fault(connection: sqlite3.Connection) -> str:
    said = str(connection.execute("PRAGMA integrity_check(1)").fetchone()[0])
    if said != "ok":
        return f"SQLite says {' '.join(said.split())}"
    if connection.execute("PRAGMA foreign_key_check").fetchone() is not None:
        return "records refer to others that are not there"
    return ""


def _facts(connection: sqlite3.Connection) -> StoreFacts:
    def value(sql: str) -> int:
        return int(connection.execute(sql).fetchone()[0])

    last = connection.execute(
        "SELECT words, on_day FROM journal ORDER BY id DESC LIMIT 1"
    ).fetchone() or ("", None)
    first = connection.execute("SELECT on_day FROM journal ORDER BY id LIMIT 1").fetchone()
    return StoreFacts(
        packages=value("SELECT count(*) FROM package"),
        live=value("SELECT count(*) FROM package WHERE condition NOT IN ('used', 'discarded')"),
        lots=value("SELECT count(*) FROM lot"),
        entries=value("SELECT count(*) FROM journal"),
        last_words=last[0],
        last_on=day_or_none(last[1]),
        first_on=day_or_none(first[0] if first else None),
        step=applied_steps(connection)[-1],
    )


@contextmanager
def _troubles(source: Path, target: Path | None) -> Generator[None]:
    """Turn the driver's errors into ours: what cannot be written is the copy, where there is one.

    A file that was read is never at fault for a full disk.
    """
    try:
        yield
    except sqlite3.Error as error:
        trouble = _trouble(error, source, target)
        if trouble is None:
            raise
        raise trouble from error


def _trouble(error: sqlite3.Error, source: Path, target: Path | None) -> StockroomError | None:
    trouble = trouble_from(error, source)
    if isinstance(trouble, StoreUnwritable) and target is not None and "open" not in str(error):
        return CopyUnwritable(str(target), str(error))
    if trouble is None and "no such" in str(error):
        return StoreDamaged(str(source), f"a part of it is missing ({error})")
    return trouble
