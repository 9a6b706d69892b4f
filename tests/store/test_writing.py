"""One unit of work: locks before it reads, all or nothing, and trouble in a person's words."""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import pytest

from stockroom.errors import StoreDamaged, StoreLocked, StoreUnwritable
from stockroom.store import connection as connection_module
from stockroom.store.connection import Store, trouble_from
from stockroom.store.journal import close_entry, open_entry
from stockroom.store.settings import read_settings, save_setting
from stockroom.store.writing import write
from tests.dumps import whole_dump
from tests.store.breaking import Breaking, Full, ReadOnly
from tests.store.entries import NOON, entered


def _count(store: Store, by: int) -> None:
    with write(store), entered(store):
        had = int(read_settings(store).get("count", "0"))
        save_setting(store, "count", str(had + by))


def test_a_unit_is_kept_whole(store: Store) -> None:
    _count(store, 1)
    assert not store.connection.in_transaction
    with closing(Store(store.path)) as other:
        assert read_settings(other) == {"count": "1"}


def test_a_unit_that_raises_leaves_nothing(store: Store) -> None:
    _count(store, 1)
    before = whole_dump(store.path)
    with pytest.raises(KeyError), write(store), entered(store):
        save_setting(store, "count", "7")
        raise KeyError("changed my mind")
    assert not store.connection.in_transaction
    assert whole_dump(store.path) == before


def test_units_do_not_nest(store: Store) -> None:
    with pytest.raises(RuntimeError, match="inside"), write(store), write(store):
        pass
    assert not store.connection.in_transaction
    _count(store, 1)


@pytest.mark.parametrize("many", [False, True])
def test_a_change_outside_a_unit_is_a_defect(store: Store, many: bool) -> None:
    sql = "INSERT INTO setting (key, value) VALUES ('a', 'b')"
    with pytest.raises(RuntimeError, match="outside"):
        if many:
            store.run_many(sql, [()])
        else:
            store.run(sql)
    assert read_settings(store) == {}


def test_two_programs_reading_then_writing_both_survive(store: Store) -> None:
    """Forty read-then-write units each from two connections: a deferred begin loses or fails."""
    start = threading.Barrier(2)

    def add(path: Path) -> None:
        with closing(Store(path, durable=False)) as mine:
            start.wait()
            for _ in range(40):
                _count(mine, 1)

    with ThreadPoolExecutor(max_workers=2) as pool:
        for done in [pool.submit(add, store.path) for _ in range(2)]:
            done.result()
    assert read_settings(store) == {"count": "80"}


def test_two_threads_of_one_program_both_survive(store: Store) -> None:
    start = threading.Barrier(2)

    def add() -> None:
        start.wait()
        for _ in range(20):
            _count(store, 1)

    with ThreadPoolExecutor(max_workers=2) as pool:
        for done in [pool.submit(add) for _ in range(2)]:
            done.result()
    assert read_settings(store) == {"count": "40"}


def test_the_lock_is_taken_before_anything_is_read(store: Store) -> None:
    with closing(Store(store.path, durable=False)) as other:
        other.connection.execute("PRAGMA busy_timeout = 0")
        with write(store):
            with pytest.raises(StoreLocked), write(other):
                raise AssertionError("two programs held the lock")
            assert read_settings(other) == {}
        _count(other, 1)


def test_waiting_too_long_says_who_is_in_the_way(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(connection_module, "LOCK_WAIT_MS", 40)
    with closing(Store(store.path, durable=False)) as other, write(store):
        with pytest.raises(StoreLocked) as caught, write(other):
            raise AssertionError("two programs held the lock")
        assert "Another program" in caught.value.message
        assert "Nothing was changed" in caught.value.hint
        assert not other.connection.in_transaction


@pytest.fixture
def breaking(store: Store) -> Iterator[Store]:
    """A second opening of the store that can be told to fail."""
    opened = Store(store.path, durable=False, factory=Breaking)
    yield opened
    opened.close()


@pytest.mark.parametrize("after", [False, True])
def test_an_interrupt_at_any_statement_leaves_no_lock(breaking: Store, after: bool) -> None:
    connection = breaking.connection
    assert isinstance(connection, Breaking)
    connection.arm(0, KeyboardInterrupt())
    _count(breaking, 1)
    last = connection.asked - (1 if after else 0)
    before = whole_dump(breaking.path)
    for at in range(1, last + 1):
        connection.arm(at, KeyboardInterrupt(), after=after)
        with pytest.raises(KeyboardInterrupt):
            _count(breaking, 1)
        assert connection.broke
        connection.disarm()
        assert not connection.in_transaction, f"statement {at}"
        assert whole_dump(breaking.path) == before, f"statement {at}"
    _count(breaking, 1)
    assert read_settings(breaking) == {"count": "2"}


def test_a_full_disk_is_told_and_nothing_is_kept(store: Store) -> None:
    before = whole_dump(store.path)
    with closing(Store(store.path, durable=False, factory=Full)) as full:
        with pytest.raises(StoreUnwritable) as caught, write(full), entered(full):
            for number in range(500):
                save_setting(full, f"key {number}", "x" * 500)
        assert not full.connection.in_transaction
    assert "full" in caught.value.message
    assert "free some space" in caught.value.hint
    assert whole_dump(store.path) == before


def test_a_read_only_store_is_told_and_can_be_read(store: Store) -> None:
    _count(store, 1)
    with closing(Store(store.path, factory=ReadOnly)) as reading:
        with pytest.raises(StoreUnwritable) as caught, write(reading), entered(reading):
            raise AssertionError("a change was begun")
        assert "readonly" in caught.value.message
        assert not reading.connection.in_transaction
        assert read_settings(reading) == {"count": "1"}


def test_a_page_gone_bad_is_told(store: Store) -> None:
    """Every page but the first is overwritten: SQLite finds the damage when it reads one."""
    store.close()
    kept = store.path.read_bytes()
    store.path.write_bytes(kept[:4096] + b"\x07" * (len(kept) - 4096))
    with closing(Store(store.path)) as spoilt, pytest.raises(StoreDamaged):
        spoilt.query("SELECT * FROM package JOIN lot ON lot.id = package.lot_id")


TOLD = (
    ("database is locked", StoreLocked),
    ("database table is locked: package", StoreLocked),
    ("database or disk is full", StoreUnwritable),
    ("attempt to write a readonly database", StoreUnwritable),
    ("unable to open database file", StoreUnwritable),
    ("disk I/O error", StoreUnwritable),
    ("database disk image is malformed", StoreDamaged),
    ("file is not a database", StoreDamaged),
)


@pytest.mark.parametrize(("said", "told"), TOLD)
def test_what_the_driver_says_is_told_in_our_words(said: str, told: type[Exception]) -> None:
    """The driver's texts are those of SQLite's own sqlite3_errstr()."""
    trouble = trouble_from(sqlite3.OperationalError(said), Path("/shelf/stockroom.db"))
    assert type(trouble) is told
    assert "/shelf/stockroom.db" in str(trouble)


@pytest.mark.parametrize(
    "said",
    ["no such column: colour", "UNIQUE constraint failed: food.name", "near x: syntax error"],
)
def test_our_own_defects_are_not_dressed_up(store: Store, said: str) -> None:
    assert trouble_from(sqlite3.OperationalError(said), store.path) is None
    with pytest.raises(sqlite3.OperationalError, match="no such column"):
        store.query("SELECT colour FROM package")


def test_data_version_moves_for_others_and_not_for_us(store: Store) -> None:
    before = store.data_version()
    _count(store, 1)
    assert store.data_version() == before
    with closing(Store(store.path, durable=False)) as other:
        _count(other, 1)
    moved = store.data_version()
    assert moved != before
    assert store.data_version() == moved


def test_a_statement_without_a_row_inserted_gives_no_id(store: Store) -> None:
    with write(store):
        entry_id = open_entry(store, at=NOON, on_day=NOON.date(), actor="tester", action="set")
        assert entry_id == 1
        close_entry(store, entry_id, "set nothing")


def test_one_and_value_without_a_row(store: Store) -> None:
    assert store.one("SELECT * FROM package") is None
    assert store.value("SELECT id FROM package") is None
    assert store.query("SELECT * FROM package") == []
