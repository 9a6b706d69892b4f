"""Whatever goes wrong at whatever moment, an action is done whole or not at all."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest

from stockroom.clock import FixedClock
from stockroom.domain.quantities import UnitSystem
from stockroom.errors import StoreLocked, StoreUnwritable
from stockroom.services import household
from stockroom.services.acting import acting
from stockroom.services.household import create_stockroom
from stockroom.store.connection import Store, create_store
from tests.dumps import difference
from tests.services.cases import CASES
from tests.services.writing import writing_services
from tests.store.breaking import Breaking, Counting, Full
from tests.world import TODAY, World, copied_world

FOUNDERS = {"household.create_stockroom", "importing.record_into_new_store"}


def test_every_service_that_writes_has_a_case() -> None:
    assert set(writing_services()) == {*CASES, *FOUNDERS}


@pytest.fixture
def prepared(room_template: Path, tmp_path: Path, service: str) -> Iterator[World]:
    """A world on a connection that can fail, with all the service needs."""
    world = copied_world(room_template, tmp_path / "stockroom.db", factory=Breaking)
    CASES[service].prepare(world)
    yield world
    world.room.close()


def _connection(world: World) -> Breaking:
    connection = world.room.store.connection
    assert isinstance(connection, Breaking)
    return connection


def _statements(world: World, service: str, path: Path) -> int:
    """How many statements the service needs, counted on a copy."""
    other = copied_world(world.path, path, factory=Breaking)
    connection = _connection(other)
    connection.arm(0, KeyboardInterrupt())
    CASES[service].act(other.room)
    other.room.close()
    return connection.asked


@pytest.mark.parametrize("service", CASES)
def test_a_full_disk_at_any_statement_changes_nothing(
    prepared: World, service: str, tmp_path: Path
) -> None:
    """Before each statement in turn, the commit among them; then it works after all."""
    connection = _connection(prepared)
    last = _statements(prepared, service, tmp_path / "counted.db")
    before = prepared.whole_dump()
    assert last > 5
    for at in range(1, last + 1):
        connection.arm(at, sqlite3.OperationalError("database or disk is full"))
        with pytest.raises(StoreUnwritable):
            CASES[service].act(prepared.room)
        assert connection.broke, f"statement {at}"
        connection.disarm()
        assert not connection.in_transaction, f"statement {at}"
        after = prepared.whole_dump()
        assert after == before, f"statement {at}: {difference(before, after)}"
    CASES[service].act(prepared.room)
    assert prepared.whole_dump() != before


@pytest.mark.parametrize("service", CASES)
def test_an_interrupt_after_any_statement_changes_nothing(
    prepared: World, service: str, tmp_path: Path
) -> None:
    """After each statement in turn but the commit: what was committed stands."""
    connection = _connection(prepared)
    last = _statements(prepared, service, tmp_path / "counted.db")
    before = prepared.whole_dump()
    for at in range(1, last):
        connection.arm(at, KeyboardInterrupt(), after=True)
        with pytest.raises(KeyboardInterrupt):
            CASES[service].act(prepared.room)
        connection.disarm()
        assert not connection.in_transaction, f"statement {at}"
        assert prepared.whole_dump() == before, f"statement {at}"
    CASES[service].act(prepared.room)
    assert prepared.whole_dump() != before


@pytest.mark.parametrize("service", CASES)
def test_a_file_that_may_not_grow_changes_nothing_or_all(
    room_template: Path, tmp_path: Path, service: str
) -> None:
    """SQLite's own limit on pages, at every size from none to enough."""
    world = copied_world(room_template, tmp_path / "stockroom.db")
    CASES[service].prepare(world)
    world.room.close()
    for room_for in range(0, 12, 3):
        tight = copied_world(world.path, tmp_path / f"tight{room_for}.db", factory=Full)
        before = tight.whole_dump()
        pages = tight.room.store.value("PRAGMA max_page_count")
        tight.room.store.query(f"PRAGMA max_page_count = {pages + room_for}")
        try:
            CASES[service].act(tight.room)
        except StoreUnwritable:
            assert tight.whole_dump() == before
        assert not tight.room.store.connection.in_transaction
        tight.room.close()


@pytest.mark.parametrize("service", CASES)
def test_another_program_writing_is_waited_for_and_told(prepared: World, service: str) -> None:
    prepared.room.store.connection.execute("PRAGMA busy_timeout = 1")
    other = prepared.beside()
    before = prepared.whole_dump()
    other.room.store.connection.execute("BEGIN IMMEDIATE")
    with pytest.raises(StoreLocked):
        CASES[service].act(prepared.room)
    other.room.store.connection.execute("ROLLBACK")
    assert prepared.whole_dump() == before
    other.room.close()


@pytest.mark.parametrize("service", CASES)
def test_the_lock_is_held_from_the_first_look_to_the_last(
    room_template: Path, tmp_path: Path, service: str
) -> None:
    """What a service decides by is read under the lock, so another program cannot change it."""
    world = copied_world(room_template, tmp_path / "stockroom.db", factory=Counting)
    CASES[service].prepare(world)
    connection = world.room.store.connection
    assert isinstance(connection, Counting)
    connection.statements = []
    CASES[service].act(world.room)
    assert connection.statements[0] == "BEGIN IMMEDIATE"
    assert connection.statements[-1] == "COMMIT", "a look after the commit may fail though done"
    assert connection.statements.count("COMMIT") == 1
    world.room.close()


@pytest.mark.parametrize("service", CASES)
def test_one_action_is_one_entry_with_its_words(prepared: World, service: str) -> None:
    store = prepared.room.store
    before = store.value("SELECT max(id) FROM journal")
    done = CASES[service].act(prepared.room)
    entries = store.query("SELECT words, actor, on_day FROM journal WHERE id > ?", (before,))
    assert entries == [(done.words, "tester", TODAY.isoformat())]  # type: ignore[attr-defined]
    assert store.value("SELECT count(*) FROM change WHERE journal_id > ?", (before,)) > 0


def test_an_action_without_words_is_a_defect_and_undone(world: World) -> None:
    before = world.whole_dump()
    with pytest.raises(RuntimeError, match="without words"), acting(world.room, "test") as act:
        act.store.run("INSERT INTO setting (key, value) VALUES ('a', 'b')")
    assert world.whole_dump() == before


def test_a_founding_that_fails_at_any_statement_leaves_no_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "new" / "stockroom.db"
    made: list[Breaking] = []

    def create(where: Path, *, durable: bool) -> Store:
        store = create_store(where, durable=durable, factory=Breaking)
        connection = store.connection
        assert isinstance(connection, Breaking)
        connection.arm(at, sqlite3.OperationalError("database or disk is full"))
        made.append(connection)
        return store

    def found() -> None:
        create_stockroom(
            path,
            clock=FixedClock(TODAY),
            actor="tester",
            units=UnitSystem.METRIC,
            people=2,
            durable=False,
        ).close()

    monkeypatch.setattr(household, "create_store", create)
    at = 0
    found()
    last = made[0].asked
    assert last >= 8
    path.unlink()
    for at in range(1, last + 1):
        with pytest.raises(StoreUnwritable):
            found()
        assert list(path.parent.iterdir()) == [], f"statement {at}"
