"""Restoring: the file is checked, the present store kept; one of the two always stands whole."""

from __future__ import annotations

import os
import shutil
import sqlite3
import stat
import subprocess
import sys
import textwrap
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from stockroom.clock import FixedClock
from stockroom.domain.store_copies import Restored, RestorePreview
from stockroom.errors import StoreLocked, StoreNewer, StoreUnwritable
from stockroom.services import packages
from stockroom.services.backups import (
    BackupMissing,
    BackupUnusable,
    back_up,
    prepared_restore,
    restore,
)
from stockroom.services.doctor import examine
from stockroom.services.written_files import StoreInTheWay
from stockroom.store import copies, replacing
from stockroom.store.connection import Store, open_store
from stockroom.store.copies import CopyUnwritable
from stockroom.store.migrations import STEPS
from stockroom.store.replacing import StoreInUse
from tests.dumps import Dump, dump, whole_dump
from tests.source import ROOT
from tests.world import TODAY, World

NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)
CLOCK = FixedClock(TODAY)
KEPT = "stockroom-replaced-2026-11-25T063000Z.db"


@pytest.fixture
def backup(world: World, tmp_path: Path) -> Path:
    """A backup; since then a package was noted, so the store differs from it. Nobody is on it."""
    code = world.packed()[0]
    path = Path(back_up(world.path, now=NOW, out=str(tmp_path / "copy.db")).path)
    packages.note_package(world.room, code, "later")
    world.room.close()
    return path


def put_back(store: Path, file: Path) -> Restored:
    """Restore without a question."""
    with prepared_restore(store, str(file)) as ready:
        return restore(ready, now=NOW)


def preview(store: Path, file: Path) -> RestorePreview:
    """What a restore would change."""
    with prepared_restore(store, str(file)) as ready:
        return ready.preview


def names(folder: Path) -> set[str]:
    """What is in a folder."""
    return {path.name for path in folder.iterdir()}


def test_what_was_there_is_kept_and_what_was_asked_for_is_there(world: World, backup: Path) -> None:
    new, old = whole_dump(backup), whole_dump(world.path)
    assert new != old
    content = backup.read_bytes()
    done = put_back(world.path, backup)
    assert whole_dump(world.path) == new
    assert Path(done.kept).name == KEPT
    assert whole_dump(Path(done.kept)) == old
    assert backup.read_bytes() == content
    assert stat.S_IMODE(world.path.stat().st_mode) == 0o600
    assert names(world.path.parent) == {"stockroom.db", KEPT, "copy.db"}
    with closing(open_store(world.path)) as store:
        assert store.value("PRAGMA journal_mode") == "wal"
    assert examine(world.path, clock=CLOCK).findings == ()


def test_back_and_forth_loses_nothing(world: World, backup: Path) -> None:
    old = whole_dump(world.path)
    kept = put_back(world.path, backup).kept
    again = put_back(world.path, Path(kept))
    assert whole_dump(world.path) == old
    assert Path(again.kept).name == KEPT.replace("Z.db", "Z-2.db")


def test_preview_says_what_changes_and_changes_nothing(world: World, backup: Path) -> None:
    before = {path.name: path.read_bytes() for path in world.path.parent.iterdir()}
    found = preview(world.path, backup)
    assert (found.lost, found.regained, found.migrated_from, found.trouble) == (1, 0, "", "")
    assert found.present is not None
    assert found.present.entries == found.wanted.entries + 1
    assert (found.wanted.packages, found.wanted.live) == (2, 2)
    assert "later" in found.present.last_words and "later" not in found.wanted.last_words
    assert found.wanted.first_on == found.wanted.last_on == TODAY
    assert {path.name: path.read_bytes() for path in world.path.parent.iterdir()} == before


def test_where_no_store_is_one_is_put(world: World, backup: Path, tmp_path: Path) -> None:
    target = tmp_path / "elsewhere" / "kept" / "stockroom.db"
    assert preview(target, backup).present is None
    done = put_back(target, backup)
    assert done.kept == ""
    assert whole_dump(target) == whole_dump(backup)
    assert names(target.parent) == {"stockroom.db"}
    assert stat.S_IMODE(target.parent.stat().st_mode) == 0o700


def test_a_log_left_by_a_store_that_is_gone_is_moved_away(world: World, backup: Path) -> None:
    """Beside the new store SQLite would take it for that one's."""
    world.path.unlink()
    world.path.with_name("stockroom.db-wal").write_bytes(b"of another store")
    put_back(world.path, backup)
    assert whole_dump(world.path) == whole_dump(backup)
    assert world.path.with_name(f"{KEPT}-wal").read_bytes() == b"of another store"


def test_a_damaged_store_is_replaced_and_kept(world: World, backup: Path) -> None:
    world.path.write_bytes(b"no store " * 900)
    found = preview(world.path, backup)
    assert found.present is None and "cannot be used" in found.trouble
    done = put_back(world.path, backup)
    assert Path(done.kept).read_bytes() == b"no store " * 900
    assert whole_dump(world.path) == whole_dump(backup)


@pytest.mark.parametrize("release", ["0001_foundation", "0002_keeping", "0003_rechecks"])
def test_an_older_backup_is_brought_to_today(world: World, tmp_path: Path, release: str) -> None:
    world.room.close()
    file = tmp_path / "old.db"
    script = (ROOT / "tests/store/releases" / f"{release}.sql").read_text(encoding="utf-8")
    with closing(sqlite3.connect(file)) as connection:
        connection.executescript(script)
    content = file.read_bytes()
    assert preview(world.path, file).migrated_from == release
    put_back(world.path, file)
    assert file.read_bytes() == content
    with closing(open_store(world.path)) as store:
        assert store.query("SELECT name FROM _sqlite_migrations ORDER BY id") == [
            (step,) for step in STEPS
        ]
    assert names(tmp_path) == {"old.db", "stockroom.db", KEPT}


def test_a_store_in_use_can_be_restored_from(world: World, tmp_path: Path) -> None:
    """What is in its log only is restored too."""
    code = world.packed()[0]
    packages.note_package(world.room, code, "in the log")
    assert world.path.with_name("stockroom.db-wal").exists()
    target = tmp_path / "elsewhere.db"
    put_back(target, world.path)
    assert dump(target) == world.dump()


def test_a_file_cut_short_in_the_middle_of_writing_is_taken_back(
    world: World, backup: Path, tmp_path: Path
) -> None:
    """A program died while it wrote: its journal lies beside the file, which stays as it is."""
    before = whole_dump(backup)
    crashed = tmp_path / "crashed"
    crashed.mkdir()
    file = crashed / "copy.db"
    with closing(sqlite3.connect(backup, isolation_level=None)) as other:
        other.execute("PRAGMA cache_size = 1")
        other.execute("BEGIN IMMEDIATE")
        other.execute("UPDATE food SET note = 'x'")
        other.execute("INSERT INTO setting (key, value) VALUES ('half', hex(zeroblob(200000)))")
        for end in ("", "-journal"):
            shutil.copyfile(f"{backup}{end}", f"{file}{end}")
    assert file.read_bytes() != backup.read_bytes(), "it was half written"
    content = {path.name: path.read_bytes() for path in crashed.iterdir()}
    put_back(world.path, file)
    assert whole_dump(world.path) == before
    assert {path.name: path.read_bytes() for path in crashed.iterdir()} == content


# What cannot be restored from.


def _random(path: Path) -> None:
    path.write_bytes(bytes(range(256)) * 40)


def _other(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE package (id INTEGER PRIMARY KEY)")


def _cut(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:70_000])


def _spoilt(path: Path) -> None:
    content = bytearray(path.read_bytes())
    middle = len(content) // 2 // 4096 * 4096
    content[middle : middle + 4096] = b"\xff" * 4096
    path.write_bytes(content)


def _dangling(path: Path) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("INSERT INTO food_allergen (food_id, allergen) VALUES (77, 'milk')")


def _empty(path: Path) -> None:
    path.write_bytes(b"")


def _folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


UNUSABLE: dict[str, tuple[Callable[[Path], None], str]] = {
    "random bytes": (_random, "damaged, or no store at all"),
    "another program's database": (_other, "not a stockroom store"),
    "cut short": (_cut, ""),
    "a spoilt page": (_spoilt, ""),
    "rows that refer to nothing": (_dangling, "refer to others"),
    "an empty file": (_empty, "it is empty"),
    "a folder": (_folder, "not a file"),
}


@pytest.mark.parametrize("what", UNUSABLE)
def test_what_is_no_sound_store_is_refused(world: World, backup: Path, what: str) -> None:
    spoil, words = UNUSABLE[what]
    if what == "another program's database":
        backup.unlink()
    spoil(backup)
    before = whole_dump(world.path)
    with pytest.raises(BackupUnusable) as caught:
        preview(world.path, backup)
    assert str(backup) in caught.value.message and words in caught.value.message
    assert ".part" not in caught.value.message
    assert whole_dump(world.path) == before
    assert names(world.path.parent) == {"stockroom.db", "copy.db"}


def test_a_backup_of_a_later_version_is_refused(world: World, backup: Path) -> None:
    with closing(sqlite3.connect(backup, isolation_level=None)) as connection:
        connection.execute(
            "INSERT INTO _sqlite_migrations (migration_set, name, applied_at)"
            " VALUES ('stockroom', '9999_later', '2030-01-01')"
        )
    with pytest.raises(StoreNewer) as caught:
        preview(world.path, backup)
    assert str(backup) in caught.value.message and "9999_later" in caught.value.message


def test_nothing_and_the_store_itself_are_refused(world: World, backup: Path) -> None:
    with pytest.raises(BackupMissing):
        preview(world.path, backup.with_name("none.db"))
    linked = backup.with_name("linked.db")
    linked.symlink_to(world.path)
    for named in (world.path, linked):
        with pytest.raises(StoreInTheWay):
            preview(world.path, named)


# Other programs on the store.


def test_another_program_that_has_looked_stops_it(world: World, backup: Path) -> None:
    with closing(Store(world.path)) as other:
        other.value("SELECT count(*) FROM package")
        before = whole_dump(world.path)
        with pytest.raises(StoreInUse):
            put_back(world.path, backup)
        assert whole_dump(world.path) == before
        assert other.value("PRAGMA journal_mode") == "wal"
    assert names(world.path.parent) == {"stockroom.db", "copy.db"}
    put_back(world.path, backup)


def test_another_program_that_is_writing_stops_it(
    world: World, backup: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(replacing, "LOCK_WAIT_MS", 50)
    with closing(sqlite3.connect(world.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreLocked):
            put_back(world.path, backup)
        other.execute("INSERT INTO setting (key, value) VALUES ('went', 'on')")
        other.execute("COMMIT")
    with closing(open_store(world.path)) as store:
        assert store.value("SELECT value FROM setting WHERE key = 'went'") == "on"


def test_whoever_comes_meanwhile_waits_and_is_told(
    world: World, backup: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At the moment the store is replaced nobody can write into what is put aside."""
    said: list[str] = []
    keep = replacing._keep  # type: ignore[attr-defined]

    def meanwhile(path: Path, kept: Path) -> Path:
        with closing(sqlite3.connect(path, isolation_level=None, timeout=0)) as other:
            try:
                other.execute("BEGIN IMMEDIATE")
            except sqlite3.OperationalError as error:
                said.append(str(error))
        chosen: Path = keep(path, kept)
        return chosen

    monkeypatch.setattr(replacing, "_keep", meanwhile)
    put_back(world.path, backup)
    assert said == ["database is locked"]


# Whatever stops it, one of the two stands whole.

CALLS = (
    ("os", "link"),
    ("os", "fsync"),
    ("Path", "replace"),
    ("shutil", "copy2"),
    ("Path", "rename"),
)


class Broken(BaseException):
    """What no handler of the program's knows."""


def whole_one(path: Path, old: Dump, new: Dump) -> str:
    """Which of the two stands at the path; neither would be a failure."""
    found = whole_dump(path)
    assert found in (old, new)
    return "old" if found == old else "new"


@pytest.mark.parametrize("linking", [True, False], ids=["with links", "without links"])
@pytest.mark.parametrize("after", [False, True], ids=["before", "after"])
@pytest.mark.parametrize("error", [Broken(), OSError(28, "No space left on device")], ids=str)
def test_failing_at_every_call_leaves_one_of_the_two(
    world: World,
    backup: Path,
    tmp_path: Path,
    error: BaseException,
    after: bool,
    linking: bool,
) -> None:
    old, new = whole_dump(world.path), whole_dump(backup)
    stood: list[str] = []
    for at in range(1, 30):
        folder = tmp_path / f"{at}"
        folder.mkdir()
        path = folder / "stockroom.db"
        shutil.copyfile(world.path, path)
        broke = _break_at(path, backup, at, error, after=after, linking=linking)
        stood.append(whole_one(path, old, new))
        kept = [one for one in folder.glob("*replaced*") if one.suffix == ".db"]
        if stood[-1] == "new":
            assert [whole_dump(one) for one in kept] == [old]
        assert not list(folder.glob("*.part")) and not list(folder.glob(".*"))
        if not broke:
            break
    assert stood[0] == "old" and stood[-1] == "new"
    if isinstance(error, Broken):
        # A disk that knows no second names, or keeps folders by itself, is no hindrance.
        assert stood == sorted(stood, reverse=True), "once replaced, always replaced"
    assert len(stood) > 4


def _break_at(
    path: Path, file: Path, at: int, error: BaseException, *, after: bool, linking: bool
) -> bool:
    """Restore with the `at`th call of the system failing; whether it came so far."""
    asked = 0
    with pytest.MonkeyPatch.context() as patch, prepared_restore(path, str(file)) as ready:

        def failing(real: Callable[..., object], name: str) -> Callable[..., object]:
            def call(*words: object, **more: object) -> object:
                nonlocal asked
                if name == "link" and not linking:
                    raise OSError(95, "Operation not supported")
                asked += 1
                if asked == at and not after:
                    raise error
                answer = real(*words, **more)
                if asked == at and after:
                    raise error
                return answer

            return call

        for owner, name in CALLS:
            thing = Path if owner == "Path" else getattr(replacing, owner)
            patch.setattr(thing, name, failing(getattr(thing, name), name))
        # Those of the folder's names are in the module of copies, by the same system calls.
        assert copies.os is os
        try:
            restore(ready, now=NOW)
        except (Broken, StoreUnwritable):
            return True
    return asked >= at


KILLED = textwrap.dedent("""
    import os, sys
    from datetime import UTC, datetime
    from pathlib import Path
    from stockroom.services.backups import prepared_restore, restore

    path, file, at = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
    asked = 0

    def dying(real):
        def call(*words, **more):
            global asked
            asked += 1
            if asked == at:
                os._exit(9)
            return real(*words, **more)
        return call

    with prepared_restore(path, file) as ready:
        os.link, os.fsync, Path.replace = dying(os.link), dying(os.fsync), dying(Path.replace)
        restore(ready, now=datetime(2026, 11, 25, 6, 30, tzinfo=UTC))
""")
"""A restore by a program that is killed at a chosen call: nothing of it is cleaned up."""


def test_killed_at_every_call_leaves_one_of_the_two(
    world: World, backup: Path, tmp_path: Path
) -> None:
    old, new = whole_dump(world.path), whole_dump(backup)
    stood: list[str] = []
    for at in range(1, 12):
        folder = tmp_path / f"{at}"
        folder.mkdir()
        path = folder / "stockroom.db"
        shutil.copyfile(world.path, path)
        words = [sys.executable, "-c", KILLED, str(path), str(backup), str(at)]
        code = subprocess.run(words, check=False, cwd=ROOT).returncode
        stood.append(whole_one(path, old, new))
        with closing(open_store(path)) as store:
            assert store.value("PRAGMA integrity_check") == "ok"
        found = {one.subject: one.severity for one in examine(path, clock=CLOCK).findings}
        assert set(found.values()) <= {"note"}
        assert ("half copies" in found) == (code != 0)
        if code == 0:
            break
        assert code == 9
    assert set(stood) == {"old", "new"}
    assert stood == sorted(stood, reverse=True)


def test_a_full_disk_is_one_sentence(
    world: World, backup: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from tests.services.test_backups import full_disk

    before = whole_dump(world.path)
    full_disk(monkeypatch)
    with pytest.raises(CopyUnwritable, match="full"):
        preview(world.path, backup)
    assert whole_dump(world.path) == before
    assert names(world.path.parent) == {"stockroom.db", "copy.db"}


def test_a_folder_that_may_not_be_written_is_one_sentence(
    world: World, backup: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def forbidden(*_: object, **__: object) -> str:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("tempfile.mkdtemp", forbidden)
    with pytest.raises(StoreUnwritable, match="Permission denied"):
        preview(world.path, backup)
