"""A file of an earlier schema: copied first, brought up to date whole or not at all, data kept."""

from __future__ import annotations

import json
import resource
import sqlite3
import stat
import threading
from collections.abc import Generator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from stockroom.errors import StoreDamaged, StoreLocked, StoreNewer, StoreUnwritable
from stockroom.store import connection as connection_module
from stockroom.store import derived, migrations
from stockroom.store.backup import copy_store
from stockroom.store.connection import Store, create_store, open_store
from stockroom.store.journal import entries, put_back
from stockroom.store.migrations import STEPS, applied_steps, split_statements
from tests.dumps import Dump, whole_dump
from tests.store import pins
from tests.store.entries import acted
from tests.store.samples import insert, insert_samples

ADDED = "9000_colour"
ADDED_SQL = """
-- A column, an index, and a change to rows that are there; semicolons in texts; are no ends.
ALTER TABLE package ADD COLUMN colour TEXT NOT NULL DEFAULT 'grey; plain';
CREATE INDEX package_of_colour ON package (colour);
UPDATE food SET note = note || ' (of old)';
"""
REBUILT_SQL = """
CREATE TABLE location_wider (
    id INTEGER PRIMARY KEY,
    parent_id INTEGER REFERENCES location (id),
    name TEXT NOT NULL,
    kind TEXT NOT NULL,
    temperature_dc INTEGER,
    note TEXT NOT NULL DEFAULT '',
    humidity_percent INTEGER
) STRICT;
INSERT INTO location_wider SELECT * FROM location;
DROP TABLE location;
ALTER TABLE location_wider RENAME TO location;
"""


@pytest.fixture
def old(store: Store) -> Path:
    """A closed store of the schema before the added step, with one row in every table."""
    insert_samples(store)
    store.close()
    return store.path


def _add_step(monkeypatch: pytest.MonkeyPatch, sql: str, *, name: str = ADDED) -> None:
    released = migrations.schema_step
    monkeypatch.setattr(migrations, "STEPS", (*STEPS, name))
    monkeypatch.setattr(
        migrations, "schema_step", lambda step: sql if step == name else released(step)
    )


def _copies(path: Path) -> list[Path]:
    return sorted(path.parent.glob(f"{path.name}.before-*"))


def _rows(dump: Dump) -> Dump:
    kept = {name: rows for name, rows in dump.items() if not name.startswith("package_note")}
    del kept["_sqlite_migrations"]
    return kept


def test_an_earlier_store_is_migrated_with_its_data(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = _rows(whole_dump(old))
    _add_step(monkeypatch, ADDED_SQL)
    with closing(open_store(old, durable=False)) as store:
        assert applied_steps(store.connection) == [*STEPS, ADDED]
        assert store.query("SELECT colour FROM package") == [("grey; plain",)]
        assert store.query("SELECT note FROM food") == [(" (of old)",)]
        assert store.value("PRAGMA foreign_keys") == 1
    after = _rows(whole_dump(old))
    assert [row[:-1] for row in after.pop("package")] == list(before.pop("package"))
    assert [row[:-1] for row in after.pop("food")] == [row[:-1] for row in before.pop("food")]
    assert after == before


def test_what_a_step_changes_is_no_action_of_anybody(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with closing(Store(old)) as store:
        changes = store.query("SELECT * FROM change ORDER BY id")
    _add_step(monkeypatch, ADDED_SQL)
    with closing(open_store(old, durable=False)) as store:
        assert store.query("SELECT * FROM change ORDER BY id") == changes


def test_an_entry_from_before_a_step_is_undone_after_it(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The old entry knows nothing of the new column: what is put back gets its default."""
    insert_samples(store)
    with acted(store):
        for table in ("draw", "package_event", "package_source", "redrying", "inspection"):
            store.run(f"DELETE FROM {table}")
        store.run("DELETE FROM package")
    store.close()
    _add_step(monkeypatch, ADDED_SQL)
    with closing(open_store(store.path, durable=False)) as later:
        with acted(later):
            put_back(later, entries(later, count=2)[1])
        assert later.query("SELECT code, colour FROM package") == [("26329A01X", "grey; plain")]
        assert later.value("SELECT count(*) FROM draw") == 1


def test_the_copy_is_the_store_as_it_was(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = whole_dump(old)
    _add_step(monkeypatch, ADDED_SQL)
    open_store(old, durable=False).close()
    (copy,) = _copies(old)
    assert copy.name == f"{old.name}.before-{ADDED}"
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    assert whole_dump(copy) == before
    monkeypatch.undo()
    with closing(open_store(copy)) as store:
        assert store.query("PRAGMA integrity_check") == [("ok",)]
        assert applied_steps(store.connection) == list(STEPS)
    with pytest.raises(StoreNewer):
        open_store(old)


def test_a_table_may_be_rebuilt_though_others_refer_to_it(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = _rows(whole_dump(old))
    _add_step(monkeypatch, REBUILT_SQL)
    with closing(open_store(old, durable=False)) as store:
        assert store.query("PRAGMA foreign_key_check") == []
        assert store.query("SELECT path FROM place_path") == [("cellar",)]
        with acted(store):
            store.run("UPDATE location SET name = 'deep cellar'")
        assert store.value("SELECT count(*) FROM change WHERE table_name = 'location'") == 2
    after = _rows(whole_dump(old))
    for name in ("location", "journal", "change"):
        del before[name], after[name]
    assert after == before


@pytest.mark.parametrize(
    "sql",
    [
        "DELETE FROM draw;\nCREATE TABLE colour (id INTEGER);\nINSERT INTO nowhere VALUES (1);\n",
        "UPDATE package SET dry_dg = 0;\n",
        "DELETE FROM food;\n",
        "CREATE TABLE colour (id INTEGER) STRICT;\nno end here",
    ],
)
def test_a_failing_step_is_undone_whole(
    old: Path, monkeypatch: pytest.MonkeyPatch, sql: str
) -> None:
    before = whole_dump(old)
    _add_step(monkeypatch, sql)
    with pytest.raises((sqlite3.Error, StoreDamaged, ValueError)):
        open_store(old, durable=False)
    assert whole_dump(old) == before
    monkeypatch.undo()
    with closing(open_store(old, durable=False)) as store:
        assert store.query("PRAGMA foreign_key_check") == []
        with acted(store):
            insert(store, "setting", {"key": "still", "value": "works"})


def test_records_left_referring_to_nothing_stop_a_step(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _add_step(monkeypatch, "DELETE FROM food;\n")
    with pytest.raises(StoreDamaged, match="refer to others"):
        open_store(old, durable=False)


@contextmanager
def largest_file(size: int) -> Generator[None]:
    """Let no file of this process grow past a size, as a disk with so little room would."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def test_no_room_for_the_copy_stops_a_migration_and_leaves_no_half_copy(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _add_step(monkeypatch, ADDED_SQL)
    before = whole_dump(old)
    with largest_file(64 * 1024), pytest.raises(StoreUnwritable) as caught:
        open_store(old, durable=False)
    assert str(old) in caught.value.message
    assert whole_dump(old) == before
    assert _copies(old) == []
    open_store(old, durable=False).close()
    assert len(_copies(old)) == 1


def test_a_copy_never_replaces_another(old: Path) -> None:
    first = copy_store(old, old.with_name("copy.db"))
    kept = first.read_bytes()
    second = copy_store(old, old.with_name("copy.db"))
    third = copy_store(old, old.with_name("copy.db"))
    assert [first.name, second.name, third.name] == ["copy.db", "copy.db-2", "copy.db-3"]
    assert first.read_bytes() == kept
    assert whole_dump(second) == whole_dump(third) == whole_dump(old)


def test_a_copy_into_no_folder_is_told(old: Path) -> None:
    with pytest.raises(StoreUnwritable, match="No such file"):
        copy_store(old, old.parent / "nowhere" / "copy.db")


def test_a_copy_is_taken_while_another_program_writes(store: Store) -> None:
    """The copy holds what was kept, not what is under way."""
    insert_samples(store)
    before = whole_dump(store.path)
    with acted(store):
        store.run("UPDATE food SET note = 'half done'")
        copy = copy_store(store.path, store.path.with_name("copy.db"))
        assert whole_dump(copy) == before
    assert whole_dump(store.path) != before


@pytest.mark.parametrize("round_", range(3))
def test_six_programs_opening_an_earlier_store_at_once(
    old: Path, monkeypatch: pytest.MonkeyPatch, round_: int
) -> None:
    before = whole_dump(old)
    _add_step(monkeypatch, ADDED_SQL)
    start = threading.Barrier(6)

    def opening() -> list[str]:
        start.wait()
        with closing(open_store(old, durable=False)) as store:
            return applied_steps(store.connection)

    with ThreadPoolExecutor(max_workers=6) as pool:
        found = [done.result() for done in [pool.submit(opening) for _ in range(6)]]
    assert found == [[*STEPS, ADDED]] * 6
    (copy,) = _copies(old)
    assert whole_dump(copy) == before
    with closing(open_store(old, durable=False)) as store:
        assert store.query("SELECT count(*) FROM package") == [(1,)]
        assert store.query("PRAGMA integrity_check") == [("ok",)]
        _assert_derived(store)


def test_an_opener_that_comes_second_makes_nothing_again(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It asks again under the lock, and finds the work done."""
    _add_step(monkeypatch, ADDED_SQL)
    rebuilt: list[str] = []
    first_look = migrations.applied_steps
    looks: list[int] = []

    def late(connection: sqlite3.Connection) -> list[str]:
        """What was applied; the first look of the second opener is from before the migration."""
        looks.append(1)
        if len(looks) == 1:
            found = first_look(connection)
            monkeypatch.setattr(migrations, "applied_steps", first_look)
            open_store(old, durable=False).close()
            monkeypatch.setattr(
                migrations, "rebuild_derived", lambda _: rebuilt.append("made again")
            )
            return found
        return first_look(connection)

    monkeypatch.setattr(migrations, "applied_steps", late)
    open_store(old, durable=False).close()
    assert rebuilt == []
    assert len(_copies(old)) == 1


def test_a_migration_waits_for_the_lock_and_says_so(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _add_step(monkeypatch, ADDED_SQL)
    monkeypatch.setattr(connection_module, "LOCK_WAIT_MS", 40)
    with closing(sqlite3.connect(old, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreLocked):
            open_store(old, durable=False)
    assert _copies(old) == []
    open_store(old, durable=False).close()


def test_a_new_derived_revision_is_made_without_a_copy(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = _rows(whole_dump(old))
    monkeypatch.setattr(derived, "REVISION", derived.REVISION + 1)
    monkeypatch.setitem(
        derived.VIEWS, "food_shout", "CREATE VIEW food_shout AS SELECT upper(name) FROM food"
    )
    with closing(open_store(old, durable=False)) as store:
        assert store.value("PRAGMA user_version") == derived.REVISION
        assert store.query("SELECT * FROM food_shout") == [("PEAS",)]
    assert _copies(old) == []
    assert _rows(whole_dump(old)) == before


def test_a_later_derived_revision_is_left_alone(old: Path) -> None:
    """A newer program of the same schema may have made other views: they are not its data."""
    with closing(sqlite3.connect(old)) as connection:
        connection.execute(f"PRAGMA user_version = {derived.REVISION + 5}")
        connection.execute("CREATE VIEW later AS SELECT 1")
    with closing(open_store(old)) as store:
        assert store.query("SELECT * FROM later") == [(1,)]


def _assert_derived(store: Store) -> None:
    expected = derived.expected_objects(store.connection)
    there = {
        row[0]: row[1]
        for row in store.query(
            "SELECT name, sql FROM sqlite_master WHERE type IN ('view', 'trigger')"
            " OR name = 'package_note'"
        )
    }
    assert there == {name: sql.strip() for name, sql in expected.items()}


def test_an_unfinished_statement_in_a_step_is_a_defect() -> None:
    assert split_statements("SELECT 1;\n-- two; on a line\nSELECT ';';\n") == [
        "SELECT 1;",
        "-- two; on a line\nSELECT ';';",
    ]
    with pytest.raises(ValueError, match="unfinished"):
        split_statements("SELECT 1;\nSELECT 2")


# Released schemas: pinned text, and a small file of each that must become today's.


def test_released_steps_and_derived_objects_are_pinned() -> None:
    """A released step is never edited; a change of derived SQL needs a new REVISION."""
    now, pinned = pins.current(), json.loads(pins.PINNED.read_text(encoding="utf-8"))
    assert now["steps"] == pinned["steps"], "write a new step instead of changing one"
    assert now["derived"] == pinned["derived"], "raise derived.REVISION, then run tests.store.pins"


def test_there_is_a_small_store_of_every_release() -> None:
    assert {path.stem for path in pins.RELEASES.glob("*.sql")} == set(STEPS)


@pytest.mark.parametrize("release", STEPS)
def test_a_store_of_every_release_becomes_todays(tmp_path: Path, release: str) -> None:
    path = tmp_path / "stockroom.db"
    pins.restore(release, path)
    before = _columns(path)
    with closing(open_store(path, durable=False)) as store:
        assert applied_steps(store.connection) == list(STEPS)
        assert store.query("PRAGMA integrity_check") == [("ok",)]
        assert store.query("PRAGMA foreign_key_check") == []
        _assert_derived(store)
        with closing(create_store(tmp_path / "new.db", durable=False)) as new:
            assert _schema(store) == _schema(new)
        assert store.value("SELECT count(*) FROM package_note WHERE package_note MATCH 'soft'") > 0
        with pytest.raises(sqlite3.IntegrityError, match="append-only"):
            store.connection.execute("DELETE FROM journal")
    after = _columns(path)
    for table, columns in before.items():
        if table == "_sqlite_migrations":
            continue
        assert columns and all(columns.values()), f"{table} is empty in the small store"
        if table == "projection" and release == "0001_foundation":
            assert set(after[table].values()) == {()}, "another model's dates are not kept"
        else:
            assert {name: after[table][name] for name in columns} == columns, table


def _columns(path: Path) -> dict[str, dict[str, tuple[object, ...]]]:
    """Table → column → its values in order of row id: what an added column leaves alone."""
    found: dict[str, dict[str, tuple[object, ...]]] = {}
    with closing(sqlite3.connect(path)) as connection:
        tables = connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'package_note%'"
        ).fetchall()
        for (table,) in tables:
            names = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
            rows = connection.execute(f"SELECT * FROM {table} ORDER BY 1").fetchall()
            found[table] = {name: tuple(row[at] for row in rows) for at, name in enumerate(names)}
    return found


def _schema(store: Store) -> set[tuple[str, str]]:
    return {
        (row[0], " ".join(row[1].split()))
        for row in store.query("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL")
    }
