"""Opening and creating: what is refused is not touched, what is made is private and durable."""

from __future__ import annotations

import os
import sqlite3
import stat
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from stockroom.errors import (
    StoreDamaged,
    StoreExists,
    StoreMissing,
    StoreNewer,
    StoreTrouble,
    StoreUnwritable,
)
from stockroom.store.connection import Store, configure, create_store, open_store
from stockroom.store.migrations import STEPS
from stockroom.store.settings import save_setting
from tests.store.entries import acted

LATER_STEP = "9999_not_known_here"


def _mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def _files(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {
        entry.name: (entry.read_bytes(), entry.stat().st_mtime_ns) for entry in folder.iterdir()
    }


def _random(path: Path) -> None:
    path.write_bytes(bytes(range(256)) * 40)


def _letter(path: Path) -> None:
    path.write_text("Dear reader, this is a letter.\n" * 100, encoding="utf-8")


def _empty(path: Path) -> None:
    path.touch()


def _others(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE package (id INTEGER PRIMARY KEY)")


def _others_with_steps(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute(
            "CREATE TABLE _sqlite_migrations (id INTEGER PRIMARY KEY, migration_set TEXT,"
            " name TEXT, applied_at TEXT)"
        )
        connection.execute(
            "INSERT INTO _sqlite_migrations (migration_set, name, applied_at)"
            " VALUES ('garden', ?, '2026-01-01')",
            (STEPS[0],),
        )


def _cut_short(path: Path) -> None:
    create_store(path, durable=False).close()
    path.write_bytes(path.read_bytes()[:6000])


NOT_OURS: dict[str, Callable[[Path], None]] = {
    "random bytes": _random,
    "a letter": _letter,
    "an empty file": _empty,
    "another program's database": _others,
    "another program's database with steps": _others_with_steps,
    "a store cut short": _cut_short,
}


def test_a_missing_file_is_refused_and_not_made(tmp_path: Path) -> None:
    path = tmp_path / "no" / "store.db"
    with pytest.raises(StoreMissing) as caught:
        open_store(path)
    assert str(path) in caught.value.message
    assert "stockroom init" in caught.value.hint
    assert not path.parent.exists()


def test_a_folder_is_no_store(tmp_path: Path) -> None:
    with pytest.raises(StoreMissing):
        open_store(tmp_path)


@pytest.mark.parametrize("what", NOT_OURS)
def test_what_is_not_ours_is_refused_and_left_alone(tmp_path: Path, what: str) -> None:
    path = tmp_path / "stockroom.db"
    NOT_OURS[what](path)
    before = _files(tmp_path)
    with pytest.raises(StoreDamaged) as caught:
        open_store(path)
    assert str(path) in caught.value.message
    assert _files(tmp_path) == before


def test_a_newer_store_is_refused_and_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "stockroom.db"
    create_store(path, durable=False).close()
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute(
            "INSERT INTO _sqlite_migrations (migration_set, name, applied_at)"
            " VALUES ('stockroom', ?, '2030-01-01')",
            (LATER_STEP,),
        )
    before = _files(tmp_path)
    with pytest.raises(StoreNewer) as caught:
        open_store(path)
    assert LATER_STEP in caught.value.message
    assert _files(tmp_path) == before


def test_an_open_with_nothing_pending_changes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "stockroom.db"
    create_store(path, durable=False).close()
    before = _files(tmp_path)
    with closing(open_store(path)) as store:
        assert store.value("SELECT count(*) FROM package") == 0
    assert {name: kept for name, (kept, _) in _files(tmp_path).items()} == {
        name: kept for name, (kept, _) in before.items()
    }


def test_a_new_store_is_private(tmp_path: Path) -> None:
    path = tmp_path / "data" / "stockroom" / "stockroom.db"
    before = os.umask(0o000)
    try:
        store = create_store(path)
        with acted(store):
            save_setting(store, "units", "us")
        assert _mode(path.parent) == 0o700
        assert {entry.name: _mode(entry) for entry in path.parent.iterdir()} == {
            "stockroom.db": 0o600,
            "stockroom.db-wal": 0o600,
            "stockroom.db-shm": 0o600,
        }
    finally:
        os.umask(before)
    store.close()


def test_a_store_is_never_made_over_a_file(tmp_path: Path) -> None:
    path = tmp_path / "stockroom.db"
    path.write_bytes(b"mine")
    with pytest.raises(StoreExists):
        create_store(path)
    assert path.read_bytes() == b"mine"


def test_a_folder_that_cannot_be_made_is_named(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(StoreUnwritable) as caught:
        create_store(tmp_path / "file" / "stockroom.db")
    assert "Not a directory" in caught.value.message or "File exists" in caught.value.message


def test_a_store_half_made_is_taken_away(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from stockroom.store import migrations

    monkeypatch.setattr(migrations, "schema_step", lambda name: "CREATE TABLE half (id);\nx;\n")
    with pytest.raises(sqlite3.OperationalError):
        create_store(tmp_path / "stockroom.db")
    assert list(tmp_path.iterdir()) == []


def test_connections_are_set_for_keeping(tmp_path: Path) -> None:
    path = tmp_path / "stockroom.db"
    create_store(path).close()
    with closing(open_store(path)) as store:
        assert store.value("PRAGMA journal_mode") == "wal"
        assert store.value("PRAGMA synchronous") == 2  # FULL, sqlite.org/pragma.html
        assert store.value("PRAGMA foreign_keys") == 1
        assert store.value("PRAGMA busy_timeout") == 3000


def test_only_a_store_that_can_be_built_again_gives_up_the_sync(tmp_path: Path) -> None:
    path = tmp_path / "stockroom.db"
    with closing(create_store(path, durable=False)) as store:
        assert store.value("PRAGMA synchronous") == 0  # OFF
        assert store.value("PRAGMA foreign_keys") == 1
    with closing(open_store(path)) as store:
        assert store.value("PRAGMA synchronous") == 2


class WithoutForeignKeys(sqlite3.Connection):
    """As a SQLite built without foreign keys answers: the pragma gives no row."""

    def execute(self, sql: str, parameters: object = (), /) -> sqlite3.Cursor:
        """Leave the pragma out."""
        if "foreign_keys" in sql:
            return super().execute("SELECT 1 WHERE 0")
        return super().execute(sql, parameters)  # type: ignore[arg-type]


def test_a_sqlite_without_foreign_keys_is_refused() -> None:
    with (
        closing(sqlite3.connect(":memory:", factory=WithoutForeignKeys)) as connection,
        pytest.raises(StoreTrouble, match="foreign keys"),
    ):
        configure(connection)


def test_a_failing_first_connection_is_closed_and_told(tmp_path: Path) -> None:
    path = tmp_path / "stockroom.db"
    create_store(path, durable=False).close()
    with (
        closing(open_store(path, factory=WithoutForeignKeys)) as store,
        pytest.raises(StoreTrouble),
    ):
        store.query("SELECT 1")


def test_a_store_taken_away_while_in_use_is_not_made_again(tmp_path: Path) -> None:
    path = tmp_path / "stockroom.db"
    create_store(path, durable=False).close()
    store = open_store(path)
    path.unlink()
    with pytest.raises(StoreUnwritable):
        store.query("SELECT 1")
    assert not path.exists()
    store.close()


def test_every_thread_has_a_connection_of_its_own(store: Store) -> None:
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(max_workers=1) as pool:
        other = pool.submit(lambda: id(store.connection)).result()
        again = pool.submit(lambda: id(store.connection)).result()
    assert other == again != id(store.connection)
    assert store.connection is store.connection
