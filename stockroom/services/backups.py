"""Backups of the store, and putting one back in its place.

Neither is an action of the record: a backup changes nothing, and a restore puts another record,
with a journal of its own, in the place of the one that is there, which is kept beside it.
"""

from __future__ import annotations

import re
import shutil
import tempfile
from collections.abc import Generator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from stockroom.domain.store_copies import BackupMade, Restored, RestorePreview
from stockroom.errors import (
    BadInput,
    Refused,
    StoreDamaged,
    StoreMissing,
    StoreNewer,
    StoreTrouble,
    StoreUnwritable,
)
from stockroom.services.written_files import StoreInTheWay, path_of
from stockroom.store.connection import open_store
from stockroom.store.copies import (
    BESIDE,
    PART,
    CopyUnwritable,
    free_name,
    look_into,
    make_copy,
    steps_of,
    take_from,
    wrong_with,
)
from stockroom.store.migrations import STEPS
from stockroom.store.replacing import put_in_place, write_ahead

KEEP = 10
"""How many backups stay when nothing is said: engineering judgement."""
MOST_KEPT = 1000
FOLDER = "backups"

_INSTANT = "%Y-%m-%dT%H%M%SZ"
_INSTANT_PATTERN = r"(\d{4}-\d{2}-\d{2}T\d{6}Z)(?:-(\d+))?"


class BackupInTheWay(Refused):
    """There is a file where the backup was to be written."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"There is already a file {path}, and a backup never replaces one.",
            "Name another file with --out, or leave it out.",
        )


class BackupMissing(StoreTrouble):
    """There is no file to restore from."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"There is no file {path} to restore from.",
            "Nothing was changed; backups are in the folder “backups” beside the store.",
        )


class BackupUnusable(StoreTrouble):
    """The file cannot be restored from."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The file {path} cannot be restored from: {why}.",
            "Nothing was changed; name another copy, such as the one before it.",
        )


def backup_folder(store: Path) -> Path:
    """Where backups of a store are kept unless another place is named."""
    return store.parent / FOLDER


def back_up(
    store: Path, *, now: datetime, out: str | None = None, keep: int | None = KEEP
) -> BackupMade:
    """Make a sound copy of a store, which may be in use; `now` is the instant in UTC.

    `out` names the file, or a folder to put it in; without it the copy goes to the folder beside
    the store, where the newest `keep` stay (all of them with None). Raises StoreMissing,
    CopyUnwritable, CopyUnsound, BackupInTheWay, BadInput or another StoreTrouble.
    """
    if keep is not None and not 1 <= keep <= MOST_KEPT:
        raise BadInput("keep", str(keep), f"a whole number from 1 to {MOST_KEPT}")
    if not store.is_file():
        raise StoreMissing(str(store))
    target = _named(store, now, out) if out is not None else _dated(store, now)
    facts = make_copy(store, target)
    removed = () if out is not None or keep is None else _rotate(store, target, keep)
    return BackupMade(str(target), target.stat().st_size, facts, removed)


def back_up_as_it_is(store: Path, *, now: datetime) -> str:
    """Copy a store with all its faults before it is mended; returns the copy's path.

    No older backup gives way. Raises a StoreTrouble.
    """
    target = _dated(store, now)
    make_copy(store, target, as_it_is=True)
    return str(target)


def backups_of(store: Path) -> tuple[Path, ...]:
    """The backups of a store in the folder beside it, the newest first."""
    pattern = re.compile(
        f"{re.escape(store.stem)}-{_INSTANT_PATTERN}{re.escape(store.suffix)}", re.ASCII
    )
    found: list[tuple[str, int, Path]] = []
    with suppress(OSError):
        for path in backup_folder(store).iterdir():
            match = pattern.fullmatch(path.name)
            if match and path.is_file() and not path.is_symlink():
                found.append((match[1], int(match[2] or 1), path))
    return tuple(path for _, _, path in sorted(found, reverse=True))


def half_copies(store: Path) -> tuple[Path, ...]:
    """What backups and restores that were cut short have left beside the store."""
    here = (f".{store.name}-", store.parent)
    there = (f"{store.stem}-", backup_folder(store))
    found: list[Path] = []
    for start, folder in (here, there):
        with suppress(OSError):
            found += [
                path
                for path in sorted(folder.iterdir())
                if path.name.startswith(start) and path.name.endswith(PART)
            ]
    return tuple(found)


def _dated(store: Path, now: datetime) -> Path:
    """A free name in the folder of backups, which is made when it is missing."""
    folder = backup_folder(store)
    try:
        folder.mkdir(mode=0o700, exist_ok=True)
    except OSError as error:
        raise CopyUnwritable(str(folder), error.strerror or str(error)) from error
    return free_name(folder / _name(store, now))


def _name(store: Path, now: datetime) -> str:
    return f"{store.stem}-{now.strftime(_INSTANT)}{store.suffix}"


def _named(store: Path, now: datetime, typed: str) -> Path:
    """The file a person named, or a dated one in the folder they named."""
    path = path_of(typed, "out")
    try:
        if path.is_dir():
            return free_name(path / _name(store, now))
        taken = path.exists() or path.is_symlink()
    except (OSError, ValueError) as error:
        raise CopyUnwritable(str(path), getattr(error, "strerror", "") or str(error)) from error
    if taken:
        raise BackupInTheWay(str(path))
    return path


def _rotate(store: Path, newest: Path, keep: int) -> tuple[str, ...]:
    """Take away all but the newest backups; one that cannot be removed stays.

    Only files of our own naming count. What was just made stays whatever the clock says.
    """
    older = [path for path in backups_of(store) if path != newest]
    removed: list[str] = []
    for path in older[keep - 1 :]:
        with suppress(OSError):
            path.unlink()
            removed.append(str(path))
    return tuple(removed)


@dataclass(frozen=True, slots=True)
class Prepared:
    """A copy drawn from a file, checked and brought to today's schema, ready to be put in place."""

    store: Path
    fresh: Path
    preview: RestorePreview


@contextmanager
def prepared_restore(store: Path, typed: str) -> Generator[Prepared]:
    """Check the file a person named and say what putting it in the store's place would change.

    Nothing is changed until `restore`; the file itself never is. Raises BadInput,
    BackupMissing, BackupUnusable, StoreInTheWay, StoreNewer or another StoreTrouble.
    """
    file = path_of(typed)
    _check_file(store, file)
    with _scratch(store) as folder:
        fresh = folder / store.name
        before = _draw(file, fresh)
        yield Prepared(store, fresh, _preview(store, file, fresh, before))


def restore(ready: Prepared, *, now: datetime) -> Restored:
    """Put a prepared copy in the store's place; `now` is the instant in UTC.

    What is there is kept beside it under a dated name. Raises StoreInUse or another StoreTrouble.
    """
    store = ready.store
    named = f"{store.stem}-replaced-{now.strftime(_INSTANT)}{store.suffix}"
    kept = put_in_place(ready.fresh, store, store.with_name(named))
    return Restored(ready.preview, "" if kept is None else str(kept))


def _check_file(store: Path, file: Path) -> None:
    """Refuse what cannot be a copy: nothing, a folder, or the store itself."""
    try:
        if not file.exists():
            raise BackupMissing(str(file))
        if not file.is_file():
            raise BackupUnusable(str(file), "it is not a file")
        with file.open("rb") as content:
            if not content.read(1):
                raise BackupUnusable(str(file), "it is empty")
        beside = [store, *(store.with_name(store.name + end) for end in BESIDE)]
        if any(one.exists() and one.samefile(file) for one in beside):
            raise StoreInTheWay(str(file))
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", "") or str(error)
        raise BackupUnusable(str(file), why) from error


@contextmanager
def _scratch(store: Path) -> Generator[Path]:
    """A private folder on the store's own disk; it is gone afterwards."""
    try:
        store.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        folder = Path(tempfile.mkdtemp(prefix=f".{store.name}-", suffix=PART, dir=store.parent))
    except OSError as error:
        raise StoreUnwritable(str(store), error.strerror or str(error)) from error
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _draw(file: Path, fresh: Path) -> str:
    """Copy the file, check it and bring the copy to today's schema; the step it was of, if older.

    What is wrong with the copy is told of the file a person named.
    """
    try:
        take_from(file, fresh)
    except StoreDamaged as damage:
        raise BackupUnusable(str(file), "it is damaged, or no store at all") from damage
    applied = steps_of(fresh)
    if not applied:
        raise BackupUnusable(str(file), "it is not a stockroom store")
    unknown = [name for name in applied if name not in STEPS]
    if unknown:
        raise StoreNewer(str(file), unknown)
    if fault := wrong_with(fresh):
        raise BackupUnusable(str(file), fault)
    try:
        open_store(fresh).close()
    except StoreDamaged as damage:
        why = "it cannot be brought to today's schema"
        raise BackupUnusable(str(file), why) from damage
    write_ahead(fresh)
    return "" if len(applied) == len(STEPS) else applied[-1]


def _preview(store: Path, file: Path, fresh: Path, before: str) -> RestorePreview:
    wanted, theirs = look_into(fresh)
    preview = RestorePreview(str(store), str(file), wanted, migrated_from=before)
    if not store.exists():
        return preview
    try:
        present, ours = look_into(store)
    except StoreTrouble as trouble:
        return replace(preview, trouble=trouble.message)
    return replace(preview, present=present, lost=len(ours - theirs), regained=len(theirs - ours))
