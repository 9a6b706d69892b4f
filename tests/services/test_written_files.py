"""A file a person asks for takes the place of nothing unasked, and is whole or not there."""

from __future__ import annotations

import errno
import os
import stat
import threading
from pathlib import Path

import pytest

from stockroom.errors import BadInput
from stockroom.services import written_files
from stockroom.services.written_files import (
    FileInTheWay,
    FileUnwritable,
    StoreInTheWay,
    check_target,
    path_of,
    write_file,
)
from tests.world import World

OLD, NEW = b"BEGIN our own, earlier", b"BEGIN our own, later"


def is_ours(head: bytes) -> bool:
    """What this test's own files begin with."""
    return head.startswith(b"BEGIN our own")


def check(world: World, path: Path, *, replace: bool = False) -> None:
    """Ask whether a file may be written there."""
    check_target(world.room, path, "list", is_ours=is_ours, replace=replace)


@pytest.mark.parametrize("typed", ["", "  ", "a\0b"])
def test_what_is_no_path_is_refused(typed: str) -> None:
    with pytest.raises(BadInput) as refused:
        path_of(typed)
    assert refused.value.what == "file"


def test_a_tilde_is_the_home_and_an_unknown_user_part_of_the_name(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("HOME", str(tmp_path))
    assert path_of(" ~/due.ics ") == tmp_path / "due.ics"
    assert path_of("~nobody-of-that-name/x.ics") == Path("~nobody-of-that-name/x.ics")


def test_a_new_file_an_empty_one_and_one_of_ours_may_be_written(
    world: World, tmp_path: Path
) -> None:
    path = tmp_path / "list"
    check(world, path)
    path.touch()
    check(world, path)
    path.write_bytes(OLD)
    check(world, path)


def test_anything_else_is_left_alone_unless_it_is_to_be_replaced(
    world: World, tmp_path: Path
) -> None:
    path = tmp_path / "letters.txt"
    path.write_bytes(b"dear " + OLD)
    with pytest.raises(FileInTheWay) as refused:
        check(world, path)
    assert str(path) in refused.value.message and "--force" in refused.value.hint
    check(world, path, replace=True)
    assert path.read_bytes() == b"dear " + OLD


@pytest.mark.parametrize("replace", [False, True])
@pytest.mark.parametrize("end", ["", "-wal", "-shm"])
def test_the_store_is_never_replaced(world: World, tmp_path: Path, end: str, replace: bool) -> None:
    world.packed()
    store = world.path.with_name(world.path.name + end)
    assert store.exists()
    link, hard = tmp_path / "link", tmp_path / "hard"
    link.symlink_to(store)
    os.link(store, hard)
    for path in (store, link, hard, store.parent / "." / store.name):
        with pytest.raises(StoreInTheWay):
            check(world, path, replace=replace)


def test_what_sqlite_would_put_beside_the_store_is_kept_free(world: World) -> None:
    journal = world.path.with_name(world.path.name + "-journal")
    assert not journal.exists()
    with pytest.raises(StoreInTheWay):
        check(world, journal)


def test_a_folder_is_no_file(world: World, tmp_path: Path) -> None:
    with pytest.raises(FileUnwritable, match="it is a folder"):
        check(world, tmp_path, replace=True)


def test_a_file_that_cannot_be_looked_at_is_said(world: World) -> None:
    with pytest.raises(FileUnwritable, match="File name too long"):
        check(world, Path("/" + "x" * 300))


def test_what_was_there_is_replaced_with_its_permissions(tmp_path: Path) -> None:
    path = tmp_path / "list"
    path.write_bytes(OLD)
    path.chmod(0o640)
    write_file(path, NEW)
    assert path.read_bytes() == NEW
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert list(tmp_path.iterdir()) == [path]


def test_a_link_goes_on_pointing_where_it_did(tmp_path: Path) -> None:
    kept = tmp_path / "kept"
    kept.mkdir()
    (kept / "list").write_bytes(OLD)
    link = tmp_path / "link"
    link.symlink_to(kept / "list")
    write_file(link, NEW)
    assert link.is_symlink()
    assert (kept / "list").read_bytes() == NEW


def test_a_full_disk_leaves_what_was_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "list"
    path.write_bytes(OLD)

    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(written_files.os, "fsync", full)
    with pytest.raises(FileUnwritable, match="No space left on device") as refused:
        write_file(path, NEW)
    assert refused.value.hint.startswith("Check the folder")
    assert path.read_bytes() == OLD
    assert list(tmp_path.iterdir()) == [path]


def test_a_file_that_may_not_be_written_is_not_replaced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "list"
    path.write_bytes(OLD)
    path.chmod(0o400)
    # Whoever may write anything is asked as if they might not.
    monkeypatch.setattr(written_files.os, "access", lambda *_: False)
    with pytest.raises(FileUnwritable, match="Permission denied"):
        write_file(path, NEW)
    assert path.read_bytes() == OLD


@pytest.mark.parametrize("where", ["missing/list", "file/list"])
def test_a_folder_that_is_not_there_is_said_and_not_made(tmp_path: Path, where: str) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(FileUnwritable):
        write_file(tmp_path / where, NEW)
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_a_pipe_is_written_to_and_stays_a_pipe(world: World, tmp_path: Path) -> None:
    path = tmp_path / "pipe"
    os.mkfifo(path)
    check(world, path)
    heard: list[bytes] = []
    reader = threading.Thread(target=lambda: heard.append(path.read_bytes()))
    reader.start()
    write_file(path, NEW)
    reader.join(10)
    assert heard == [NEW]
    assert stat.S_ISFIFO(path.stat().st_mode)
