"""The whole record out and in again, and lists of packages taken in."""

from __future__ import annotations

import csv
import io
import json
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stockroom.clock import FixedClock
from stockroom.domain.exchange.whole_record import ExportDamaged, ExportNewer
from stockroom.errors import StockroomError, StoreExists, StoreUnwritable
from stockroom.reports.exchange import is_our_record, record_file, table_file
from stockroom.services import importing
from stockroom.services.doctor import examine
from stockroom.services.exporting import exported_tables, one_table, whole_record
from stockroom.services.history import redo, undo
from stockroom.services.importing import record_into_new_store
from stockroom.services.keeping import projections_are_current, refresh_everything
from stockroom.store.connection import Store, create_store
from stockroom.store.derived import TRACKED
from stockroom.store.journal import NothingToUndo
from tests.dumps import dump, whole_dump
from tests.invariants import all_troubles
from tests.services.steps import STEPS
from tests.services.test_undo import same
from tests.store.breaking import Breaking
from tests.world import TODAY, World, copied_world

STEP_NAMES = sorted(STEPS)


@pytest.fixture
def season(season_template: Path, tmp_path: Path) -> Iterator[World]:
    """A stockroom with a past: rows in every table."""
    world = copied_world(season_template, tmp_path / "season.db")
    yield world
    world.room.close()


def written(world: World, *, with_changes: bool = False) -> str:
    """The document of a store."""
    return record_file(whole_record(world.room, with_changes=with_changes), TODAY).decode()


def taken_in(text: str, path: Path) -> World:
    """A new store of a document."""
    clock = FixedClock(TODAY)
    _, room = record_into_new_store(
        path, "record.json", text, clock=clock, actor="tester", durable=False
    )
    return World(room)


def changed(text: str, change: Callable[[Any], object]) -> str:
    """A document with something done to it."""
    document = json.loads(text)
    change(document)
    return json.dumps(document)


def test_every_table_a_person_fills_goes_out(season: World) -> None:
    tables = json.loads(written(season))["tables"]
    assert set(tables) == {*TRACKED, "calendar_entry", "journal"}
    assert set(json.loads(written(season, with_changes=True))["tables"]) - set(tables) == {"change"}
    every = season.whole_dump()
    assert {name: len(rows) for name, rows in tables.items()} == {n: len(every[n]) for n in tables}
    lot = season.room.store.one("SELECT code, dry_dg, made_on FROM lot ORDER BY id")
    assert tuple(tables["lot"][0][key] for key in ("code", "dry_dg", "made_on")) == lot


def test_a_store_made_of_the_document_is_the_same(season: World, tmp_path: Path) -> None:
    new = taken_in(written(season), tmp_path / "new.db")
    assert same(season.dump(), new.dump()) == {}
    assert whole_dump(new.path)["calendar_entry"] == season.whole_dump()["calendar_entry"]
    assert (
        all_troubles(new.room) == [] and examine(new.path, clock=FixedClock(TODAY)).findings == ()
    )
    (entry,) = new.room.store.query("SELECT action, words FROM journal")
    assert entry[0] == "init" and entry[1].startswith("took in the whole record from record.json")
    with pytest.raises(NothingToUndo):
        undo(new.room)
    new.room.close()


def test_with_the_changes_the_past_can_be_undone_as_before(season: World, tmp_path: Path) -> None:
    new = taken_in(written(season, with_changes=True), tmp_path / "new.db")
    assert same(season.dump(), new.dump()) == {}
    for table in ("journal", "change"):
        assert new.whole_dump()[table] == season.whole_dump()[table]
    for _ in range(12):
        assert undo(new.room).words == undo(season.room).words
        assert same(season.dump(), new.dump()) == {}
    redo(new.room)
    assert examine(new.path, clock=FixedClock(TODAY)).findings == ()
    new.room.close()


@settings(
    max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    seeds=st.lists(
        st.tuples(st.sampled_from(STEP_NAMES), st.integers(0, 2**32 - 1)), min_size=4, max_size=14
    ),
    with_changes=st.booleans(),
)
def test_any_store_survives_the_trip(
    season_template: Path, seeds: list[tuple[str, int]], with_changes: bool
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        world = copied_world(season_template, Path(folder) / "stockroom.db")
        for service, seed in seeds:
            try:
                STEPS[service](world.room, Random(seed))
            except StockroomError:
                continue
        if not projections_are_current(world.room):
            refresh_everything(world.room)
        new = taken_in(written(world, with_changes=with_changes), Path(folder) / "new.db")
        assert same(world.dump(), new.dump()) == {}
        again = taken_in(written(new, with_changes=with_changes), Path(folder) / "again.db")
        assert same(world.dump(), again.dump()) == {}
        for one in (world, new, again):
            one.room.close()


def _later(key: str, value: Any) -> Callable[[Any], object]:
    return lambda document: document.update({key: value})


@pytest.mark.parametrize(
    ("change", "words"),
    [(_later("version", 2), "version 2"), (_later("schema", "0099_moon"), "0099_moon")],
)
def test_a_document_of_a_later_version_is_refused(
    season: World, tmp_path: Path, change: Callable[[Any], object], words: str
) -> None:
    with pytest.raises(ExportNewer, match=words):
        taken_in(changed(written(season), change), tmp_path / "new" / "s.db")
    assert list((tmp_path / "new").iterdir()) == []


def _row(table: str, **cells: Any) -> Callable[[Any], object]:
    return lambda document: document["tables"][table][0].update(cells)


@pytest.mark.parametrize(
    ("change", "part"),
    [
        (_later("format", "another"), "format"),
        (_later("version", "1"), "version"),
        (_later("schema", None), "schema"),
        (_later("tables", []), "tables"),
        (lambda one: one["tables"].pop("lot"), "table lot: it is missing"),
        (lambda one: one["tables"].update(moon=[]), "table “moon”"),
        (lambda one: one["tables"].update(lot={}), "table lot"),
        (lambda one: one["tables"]["lot"].insert(1, 7), "row 2 of lot"),
        (lambda one: one["tables"]["lot"][0].pop("dry_dg"), "row 1 of lot: dry_dg is missing"),
        (lambda one: one["tables"]["lot"][1].pop("dry_dg"), "row 2 of lot: dry_dg is missing"),
        (lambda one: one["tables"]["lot"].pop(0), "refers to a row of lot"),
        (_row("lot", moon=1), "moon is not known"),
        (_row("lot", dry_dg=1.5), "row 1 of lot: dry_dg is neither"),
        (_row("lot", dry_dg=True), "row 1 of lot: dry_dg is neither"),
        (_row("lot", dry_dg=2**63), "row 1 of lot: dry_dg is neither"),
        (_row("lot", dry_dg=-4), "row 1 of lot: CHECK"),
        (_row("lot", dry_dg="much"), "row 1 of lot: cannot store TEXT"),
        (_row("lot", note="\ud800"), "row 1 of lot: note is neither"),
        (_row("lot", made_on="2026-02-30"), "row 1 of lot: CHECK"),
        (_row("package", condition="mouldy"), "row 1 of package: CHECK"),
        (lambda one: one["tables"]["food"].append(one["tables"]["food"][0]), "of food: UNIQUE"),
        (_row("setting", key="people", value="many"), "setting"),
    ],
)
def test_a_damaged_document_is_refused_with_its_part(
    season: World, tmp_path: Path, change: Callable[[Any], object], part: str
) -> None:
    with pytest.raises(ExportDamaged) as caught:
        taken_in(changed(written(season), change), tmp_path / "new" / "s.db")
    assert part in caught.value.message, caught.value.message
    assert list((tmp_path / "new").iterdir()) == []


@pytest.mark.parametrize("text", ["", "[]", "{", "\0", "[" * 100_000, '{"format": NaN}'])
def test_what_is_no_document_is_refused(tmp_path: Path, text: str) -> None:
    with pytest.raises(ExportDamaged):
        taken_in(text, tmp_path / "s.db")
    assert list(tmp_path.iterdir()) == []


def test_a_document_cut_off_anywhere_is_refused(season: World, tmp_path: Path) -> None:
    text = written(season)
    for share in range(1, 20):
        with pytest.raises(ExportDamaged, match="line"):
            taken_in(text[: len(text) * share // 20], tmp_path / "s.db")


def test_an_earlier_document_gets_what_new_rows_have(season: World, tmp_path: Path) -> None:
    def make_older(document: Any) -> None:
        document["schema"] = "0003_rechecks"
        for table in ("food_measure", "menu", "planned_dish"):
            document["tables"].pop(table)
        for row in document["tables"]["recipe"]:
            row.pop("hold_back_percent")

    new = taken_in(changed(written(season), make_older), tmp_path / "s.db")
    shares = new.room.store.query("SELECT DISTINCT hold_back_percent FROM recipe")
    assert shares == [(30,)] and new.dump()["package"] == season.dump()["package"]
    new.room.close()


def test_a_store_that_is_there_is_left_as_it_is(season: World, world: World) -> None:
    before = world.whole_dump()
    with pytest.raises(StoreExists):
        taken_in(written(season), world.path)
    assert world.whole_dump() == before


def test_a_full_disk_now_and_then_leaves_no_file(
    season: World, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[Breaking] = []
    at = 0

    def create(where: Path, *, durable: bool) -> Store:
        store = create_store(where, durable=durable, factory=Breaking)
        connection = store.connection
        assert isinstance(connection, Breaking)
        connection.arm(at, sqlite3.OperationalError("database or disk is full"))
        made.append(connection)
        return store

    monkeypatch.setattr(importing, "create_store", create)
    text, path = written(season), tmp_path / "new" / "s.db"
    taken_in(text, path).room.close()
    last = made[0].asked
    path.unlink()
    for at in (*range(1, last, max(1, last // 30)), last):
        with pytest.raises(StoreUnwritable):
            taken_in(text, path)
        assert list(path.parent.iterdir()) == [], f"statement {at}"


def test_one_moment_is_written_whatever_another_program_does(season: World) -> None:
    text = written(season)
    other = season.beside()
    from stockroom.store.exchange_rows import one_moment

    with one_moment(season.room.store):
        before = season.room.store.value("SELECT count(*) FROM location")
        other.places("shed")
        assert season.room.store.value("SELECT count(*) FROM location") == before
    assert not season.room.store.connection.in_transaction
    assert written(season) != text
    other.room.close()


def test_tables_are_csv_that_no_spreadsheet_runs(world: World) -> None:
    from stockroom.services import places

    for name in ("=1+1", "+x", "-x", "@x", "plain", 'a "b", c'):
        places.add_place(world.room, name, temperature_dc=-180)
    rows = list(csv.DictReader(io.StringIO(table_file(one_table(world.room, "location")).decode())))
    names = [row["name"] for row in rows]
    assert names == ["'=1+1", "'+x", "'-x", "'@x", "plain", 'a "b", c']
    assert rows[0]["temperature_dc"] == "-180" and rows[0]["parent_id"] == ""
    for name in exported_tables():
        assert one_table(world.room, name).name == name


def test_our_own_document_is_known_by_its_beginning(season: World) -> None:
    assert is_our_record(written(season).encode()[:4096])
    assert not is_our_record(b'{"format": "another"}')
    assert dump(season.path)
