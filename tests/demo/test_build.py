"""The demo is the same store every time, whole, and an ordinary one once it is built."""

from __future__ import annotations

import os
import sqlite3
import stat
import subprocess
import sys
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from seeds_demo import build
from seeds_demo.build import DEMO_DAY, FIRST_DAY, build_demo, story
from seeds_demo.steps import Part, Step
from stockroom.errors import StoreExists
from stockroom.services.history import journal_page, redo, undo
from stockroom.services.session import Stockroom
from tests.dumps import Dump, difference, dump, whole_dump

MIGRATIONS = "_sqlite_migrations"


def comparable(path: Path) -> Dump:
    """Every table, without the time stamp the migration library takes from the system's clock."""
    tables = whole_dump(path)
    assert all(len(row) == 4 for row in tables[MIGRATIONS])
    return {**tables, MIGRATIONS: tuple(row[:3] for row in tables[MIGRATIONS])}


def standing(path: Path) -> Dump:
    """What undo answers for, and the projections without the day they were computed on."""
    tables = dump(path)
    return {**tables, "projection": tuple(row[:-1] for row in tables["projection"])}


def test_same_build_same_store(demo_file: Path, tmp_path: Path) -> None:
    again = tmp_path / "again.db"
    build_demo(again).close()
    assert difference(comparable(demo_file), comparable(again)) == {}


def test_same_store_whatever_the_hash_seed(demo_file: Path, tmp_path: Path) -> None:
    """Another process sees sets in another order; the store must not."""
    again = tmp_path / "again.db"
    code = (
        "import pathlib, sys; from seeds_demo.build import build_demo;"
        " build_demo(pathlib.Path(sys.argv[1])).close()"
    )
    environment = {**os.environ, "PYTHONHASHSEED": "20261125"}
    subprocess.run([sys.executable, "-c", code, again], check=True, env=environment)
    assert difference(comparable(demo_file), comparable(again)) == {}


def test_ordinary_store_afterwards(demo_file: Path) -> None:
    assert stat.S_IMODE(demo_file.stat().st_mode) == 0o600
    assert [one.name for one in demo_file.parent.iterdir()] == [demo_file.name]
    with closing(sqlite3.connect(demo_file)) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []


def test_opened_on_its_day_with_full_sync(tmp_path: Path) -> None:
    room = build_demo(tmp_path / "demo.db", until=FIRST_DAY)
    assert room.today == FIRST_DAY
    assert room.store.value("PRAGMA synchronous") == 2
    room.close()


def test_does_not_overwrite(demo: Stockroom) -> None:
    before = whole_dump(demo.path)
    with pytest.raises(StoreExists):
        build_demo(demo.path)
    assert whole_dump(demo.path) == before


def test_half_built_is_taken_away(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(room: Stockroom) -> None:
        raise OSError("power cut")

    broken = (*story(FIRST_DAY), Step(FIRST_DAY, Part.SHELVES, "cook", fail))
    monkeypatch.setattr(build, "story", lambda until: broken)
    with pytest.raises(OSError, match="power cut"):
        build_demo(tmp_path / "demo.db")
    assert list(tmp_path.iterdir()) == []


def test_shorter_story_is_the_beginning_of_the_longer(demo: Stockroom, tmp_path: Path) -> None:
    midway = date(2025, 9, 7)
    short = build_demo(tmp_path / "short.db", until=midway)
    entries = journal_page(short, count=10_000)
    whole = journal_page(demo, count=10_000)
    assert whole[-len(entries) :] == entries
    assert entries[0].on_day <= midway < whole[-len(entries) - 1].on_day
    assert short.store.query("SELECT started_on, state FROM run WHERE state = 'open'") == [
        ("2025-09-06", "open")
    ]
    short.close()


def test_journal_tells_the_days_in_order(demo: Stockroom) -> None:
    entries = list(reversed(journal_page(demo, count=10_000)))
    days = [entry.on_day for entry in entries]
    assert days == sorted(days)
    assert (days[0], days[-1]) == (FIRST_DAY, DEMO_DAY)
    assert {entry.actor for entry in entries} == {"cook", "warden"}
    assert min(sum(entry.actor == who for entry in entries) for who in ("cook", "warden")) > 300
    assert all(entry.at.date() == entry.on_day for entry in entries)


def test_undo_and_redo_walk_back_and_forth(demo: Stockroom) -> None:
    """Far enough back to take meals, packing, a closed run and checks along."""
    before = standing(demo.path)
    undone = [undo(demo).words for _ in range(60)]
    assert {words.split()[1] for words in undone} >= {
        "took", "cooked", "packed", "closed", "checked", "loaded", "weighed", "recorded"
    }  # fmt: skip
    assert standing(demo.path) != before
    for _ in range(60):
        redo(demo)
    assert difference(before, standing(demo.path)) == {}
