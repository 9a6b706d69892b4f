"""Backups: sound, made while others write, whole or not at all, and no more than wanted."""

from __future__ import annotations

import sqlite3
import stat
import subprocess
import sys
import textwrap
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stockroom.errors import StoreDamaged, StoreLocked
from stockroom.services import packages
from stockroom.services.backups import back_up, backup_folder, backups_of
from stockroom.services.written_files import path_of
from stockroom.store import copies
from stockroom.store.connection import open_store
from stockroom.store.copies import CopyUnsound, CopyUnwritable
from tests.dumps import whole_dump
from tests.source import ROOT
from tests.world import World

NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)

WRITER = textwrap.dedent("""
    import sqlite3, sys
    connection = sqlite3.connect(sys.argv[1], isolation_level=None, timeout=10)
    print("ready", flush=True)
    number = 0
    while True:
        number += 1
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("INSERT INTO setting (key, value) VALUES (?, 'a')", (f"{number} a",))
        connection.execute("INSERT INTO setting (key, value) VALUES (?, 'b')", (f"{number} b",))
        connection.execute("COMMIT")
""")
"""A program that always writes two rows together."""


def mode(path: Path) -> int:
    """The permissions of a file or folder."""
    return stat.S_IMODE(path.stat().st_mode)


def names(folder: Path) -> set[str]:
    """What is in a folder."""
    return {path.name for path in folder.iterdir()}


def instant(path: str) -> str:
    """The instant in a backup's name, to the second."""
    return Path(path).name.removeprefix("stockroom-")[: len("2026-11-25T063000Z")]


def test_a_backup_is_private_whole_and_one_file(world: World) -> None:
    world.packed()
    made = back_up(world.path, now=NOW)
    path = Path(made.path)
    assert path == world.path.parent / "backups" / "stockroom-2026-11-25T063000Z.db"
    assert (mode(path), mode(path.parent)) == (0o600, 0o700)
    assert whole_dump(path) == whole_dump(world.path)
    assert names(path.parent) == {path.name}
    assert made.size_bytes == path.stat().st_size
    facts = made.facts
    assert (facts.packages, facts.live, facts.lots, facts.step) == (2, 2, 1, "0004_kitchen")
    assert facts.last_words.startswith("packed") and facts.last_on == world.room.today
    with closing(open_store(path)) as store:
        assert store.value("PRAGMA integrity_check") == "ok"


def test_a_backup_can_be_read_where_nothing_may_be_written(world: World) -> None:
    """On a read-only disk SQLite could make no log beside it."""
    made = back_up(world.path, now=NOW)
    with closing(sqlite3.connect(f"file:{made.path}?immutable=1&mode=ro", uri=True)) as read:
        assert read.execute("PRAGMA journal_mode").fetchone() == ("delete",)


def test_two_in_one_second_have_two_names(world: World) -> None:
    first, second = back_up(world.path, now=NOW), back_up(world.path, now=NOW)
    assert second.path == first.path.replace("Z.db", "Z-2.db")
    assert backups_of(world.path) == (Path(second.path), Path(first.path))


def test_named_file_and_named_folder(world: World, tmp_path: Path) -> None:
    out = tmp_path / "my copy.db"
    assert back_up(world.path, now=NOW, out=str(out)).path == str(out)
    stick = tmp_path / "stick"
    stick.mkdir()
    made = back_up(world.path, now=NOW, out=str(stick))
    assert made.path == str(stick / "stockroom-2026-11-25T063000Z.db")
    assert not backup_folder(world.path).exists()


def test_the_newest_stay_and_what_others_put_there(world: World) -> None:
    folder = backup_folder(world.path)
    for day in range(4):
        back_up(world.path, now=NOW + timedelta(days=day))
    strangers = {
        "stockroom-2020-01-01T000000Z.db.old",
        "stockroom-mine.db",
        "other-2020-01-01T000000Z.db",
        "stockroom-2020-01-01T000000Z.txt",
        "stockroom-2020-01-01.db",
    }
    for name in strangers:
        (folder / name).touch()
    (folder / "stockroom-2020-02-01T000000Z.db").mkdir()
    (folder / "stockroom-2020-03-01T000000Z.db").symlink_to(folder / "stockroom-mine.db")
    made = back_up(world.path, now=NOW + timedelta(days=4), keep=2)
    assert [Path(one).name[10:20] for one in made.removed] == [
        "2026-11-27",
        "2026-11-26",
        "2026-11-25",
    ]
    assert [path.name[10:20] for path in backups_of(world.path)] == ["2026-11-29", "2026-11-28"]
    assert names(folder) >= strangers | {
        "stockroom-2020-02-01T000000Z.db",
        "stockroom-2020-03-01T000000Z.db",
    }


def test_ten_stay_when_nothing_is_said(world: World) -> None:
    for day in range(12):
        back_up(world.path, now=NOW + timedelta(days=day))
    assert len(backups_of(world.path)) == 10


@settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.lists(st.integers(0, 400), min_size=1, max_size=6), st.integers(1, 4))
def test_rotation_keeps_the_newest_and_what_was_just_made(
    world: World, hours: list[int], keep: int
) -> None:
    """Also when the clock goes back between two backups."""
    for path in backups_of(world.path):
        path.unlink()
    made: list[str] = []
    for hour in hours:
        done = back_up(world.path, now=NOW + timedelta(hours=hour), keep=keep)
        made.append(done.path)
        left = {str(path) for path in backups_of(world.path)}
        assert done.path in left
        assert len(left) <= keep
        assert left | set(done.removed) <= set(made)
        others = left - {done.path}
        assert all(instant(gone) <= instant(stays) for gone in done.removed for stays in others)


def test_while_another_program_writes_all_the_time(world: World, tmp_path: Path) -> None:
    """What the other writes together is in each copy together, or not at all."""
    with subprocess.Popen(
        [sys.executable, "-c", WRITER, str(world.path)], stdout=subprocess.PIPE
    ) as other:
        assert other.stdout is not None
        other.stdout.readline()
        sizes: list[int] = []
        try:
            for number in range(6):
                made = back_up(world.path, now=NOW, out=str(tmp_path / f"{number}.db"))
                with closing(sqlite3.connect(made.path)) as copy:
                    pairs = copy.execute(
                        "SELECT value, count(*), max(id) FROM setting WHERE value IN ('a', 'b')"
                        " GROUP BY value ORDER BY value"
                    ).fetchall()
                if pairs:
                    assert [pairs[0][0], pairs[0][1]] == ["a", pairs[1][1]]
                    sizes.append(pairs[0][1])
        finally:
            other.kill()
    assert len(set(sizes)) > 1, "the other program wrote between the copies"
    assert sizes == sorted(sizes)


def test_while_another_program_is_in_the_middle_of_writing(world: World) -> None:
    before = whole_dump(world.path)
    with closing(sqlite3.connect(world.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        other.execute("INSERT INTO setting (key, value) VALUES ('half', 'done')")
        made = back_up(world.path, now=NOW)
        other.execute("COMMIT")
    assert whole_dump(Path(made.path)) == before


def test_a_store_locked_against_everybody_is_told(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(copies, "LOCK_WAIT_MS", 50)
    world.room.close()
    with closing(sqlite3.connect(world.path, isolation_level=None)) as other:
        other.execute("PRAGMA journal_mode = DELETE")
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(StoreLocked):
            back_up(world.path, now=NOW)
    assert names(backup_folder(world.path)) == set()


class Full(sqlite3.Connection):
    """A connection whose new files may not grow past a page: SQLite says the disk is full."""

    def __init__(self, database: object, **more: Any) -> None:
        super().__init__(database, **more)  # type: ignore[arg-type]
        if ".part" in str(database):
            self.execute("PRAGMA max_page_count = 1")


def full_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every copy meet a disk that is full."""
    connect = sqlite3.connect
    monkeypatch.setattr(
        copies.sqlite3, "connect", lambda *args, **more: connect(*args, factory=Full, **more)
    )


def test_a_full_disk_is_one_sentence_and_no_half_copy(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    full_disk(monkeypatch)
    with pytest.raises(CopyUnwritable, match="full"):
        back_up(world.path, now=NOW)
    assert names(backup_folder(world.path)) == set()


@pytest.mark.parametrize("where", ["missing/copy.db", "file/copy.db"])
def test_a_folder_that_is_not_there_is_told(world: World, tmp_path: Path, where: str) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(CopyUnwritable) as caught:
        back_up(world.path, now=NOW, out=str(tmp_path / where))
    assert str(path_of(where)) in caught.value.message


def test_a_folder_that_may_not_be_written_is_told(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    def forbidden(*_: object) -> int:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(copies.os, "open", forbidden)
    with pytest.raises(CopyUnwritable, match="Permission denied"):
        back_up(world.path, now=NOW)


@pytest.mark.parametrize(
    "spoil",
    [
        "DELETE FROM setting",
        "PRAGMA writable_schema = ON; DELETE FROM sqlite_master WHERE name = 'lot_of_run'",
    ],
)
def test_a_copy_that_is_not_the_store_is_not_kept(
    world: World, monkeypatch: pytest.MonkeyPatch, spoil: str
) -> None:
    """Between copying and checking something spoils the copy: that is seen."""
    copied = copies._copied  # type: ignore[attr-defined]

    def spoilt(reader: sqlite3.Connection, target: Path, *, one_file: bool) -> dict[str, int]:
        counts: dict[str, int] = copied(reader, target, one_file=one_file)
        with closing(sqlite3.connect(target, isolation_level=None)) as connection:
            connection.executescript(spoil)
        return counts

    monkeypatch.setattr(copies, "_copied", spoilt)
    with pytest.raises(CopyUnsound) as caught:
        back_up(world.path, now=NOW)
    assert caught.value.message.startswith("The copy ")
    assert names(backup_folder(world.path)) == set()


def test_a_copy_with_rows_that_refer_to_nothing_is_not_kept(world: World) -> None:
    with closing(sqlite3.connect(world.path, isolation_level=None)) as connection:
        connection.execute("INSERT INTO food_allergen (food_id, allergen) VALUES (77, 'milk')")
    with pytest.raises(CopyUnsound, match="refer to others"):
        back_up(world.path, now=NOW)


def test_an_interrupt_leaves_no_half_copy(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(copies, "_checked", interrupted)
    with pytest.raises(KeyboardInterrupt):
        back_up(world.path, now=NOW)
    assert names(backup_folder(world.path)) == set()


def test_what_a_crash_left_half_made_is_no_backup_and_gives_way(world: World) -> None:
    folder = backup_folder(world.path)
    folder.mkdir()
    (folder / "stockroom-2026-11-25T063000Z.db.part").write_bytes(b"half")
    assert backups_of(world.path) == ()
    made = back_up(world.path, now=NOW)
    assert names(folder) == {Path(made.path).name}


def test_another_program_s_file_is_no_store(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE package (id INTEGER PRIMARY KEY)")
    with pytest.raises(StoreDamaged, match="not a stockroom store"):
        back_up(path, now=NOW)


@pytest.mark.parametrize("release", ["0001_foundation", "0002_keeping", "0003_rechecks"])
def test_an_older_store_is_backed_up_as_it_is(tmp_path: Path, release: str) -> None:
    path = tmp_path / "stockroom.db"
    script = (ROOT / "tests/store/releases" / f"{release}.sql").read_text(encoding="utf-8")
    with closing(sqlite3.connect(path)) as connection:
        connection.executescript(script)
    made = back_up(path, now=NOW)
    assert made.facts.step == release
    assert whole_dump(Path(made.path)) == whole_dump(path)


def test_a_backup_is_no_action(world: World) -> None:
    code = world.packed()[0]
    before = world.whole_dump()
    back_up(world.path, now=NOW)
    assert world.whole_dump() == before
    packages.note_package(world.room, code, "and on it goes")
