"""Refusals of backups, restores and the doctor: each leaves the store and every file as it was."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from stockroom.errors import BadInput, StoreMissing, StoreNewer
from stockroom.services import backups, doctor
from stockroom.services.session import Stockroom
from stockroom.services.written_files import StoreInTheWay
from stockroom.store.copies import CopyUnsound, CopyUnwritable
from stockroom.store.replacing import StoreInUse
from tests.services.refusals.base import Refusal, nothing, packed
from tests.world import World

NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)


def _beside(room: Stockroom, name: str) -> Path:
    return room.path.with_name(name)


def _copied(world: World) -> None:
    packed(world)
    backups.back_up(world.path, now=NOW, out=str(_beside(world.room, "copy.db")))


def _copied_by_a_later_version(world: World) -> None:
    _copied(world)
    with closing(sqlite3.connect(_beside(world.room, "copy.db"), isolation_level=None)) as copy:
        copy.execute(
            "INSERT INTO _sqlite_migrations (migration_set, name, applied_at)"
            " VALUES ('stockroom', '9999_later', '2030-01-01')"
        )


def _referring_to_nothing(world: World) -> None:
    with closing(sqlite3.connect(world.path, isolation_level=None)) as connection:
        connection.execute("INSERT INTO food_allergen (food_id, allergen) VALUES (77, 'milk')")


def _prepare(room: Stockroom, file: str) -> None:
    with backups.prepared_restore(room.path, file):
        pass


def _restore(room: Stockroom) -> None:
    """With the test's own connections still on the store."""
    with backups.prepared_restore(room.path, str(_beside(room, "copy.db"))) as ready:
        backups.restore(ready, now=NOW)


BACKUPS = (
    Refusal(
        "backups.back_up",
        StoreMissing,
        nothing,
        lambda room: backups.back_up(_beside(room, "none.db"), now=NOW),
        ("none.db", "stockroom init"),
    ),
    Refusal(
        "backups.back_up",
        CopyUnwritable,
        nothing,
        lambda room: backups.back_up(room.path, now=NOW, out=str(_beside(room, "no") / "copy.db")),
        ("no/copy.db", "No such file"),
    ),
    Refusal(
        "backups.back_up",
        CopyUnsound,
        _referring_to_nothing,
        lambda room: backups.back_up(room.path, now=NOW),
        ("not sound", "not there", "stockroom doctor"),
    ),
    Refusal(
        "backups.back_up",
        backups.BackupInTheWay,
        _copied,
        lambda room: backups.back_up(room.path, now=NOW, out=str(_beside(room, "copy.db"))),
        ("copy.db", "never replaces", "--out"),
    ),
    Refusal(
        "backups.back_up",
        BadInput,
        nothing,
        lambda room: backups.back_up(room.path, now=NOW, keep=0),
        ("keep", "from 1 to 1000"),
    ),
    Refusal(
        "backups.back_up",
        BadInput,
        nothing,
        lambda room: backups.back_up(room.path, now=NOW, out=" "),
        ("out", "the path of a file"),
    ),
    Refusal(
        "backups.prepared_restore",
        BadInput,
        nothing,
        lambda room: _prepare(room, "a\0b"),
        ("the path of a file",),
    ),
    Refusal(
        "backups.prepared_restore",
        backups.BackupMissing,
        nothing,
        lambda room: _prepare(room, str(_beside(room, "none.db"))),
        ("none.db", "backups"),
    ),
    Refusal(
        "backups.prepared_restore",
        backups.BackupUnusable,
        nothing,
        lambda room: _prepare(room, str(room.path.parent)),
        ("not a file", "Nothing was changed"),
    ),
    Refusal(
        "backups.prepared_restore",
        StoreInTheWay,
        nothing,
        lambda room: _prepare(room, str(room.path)),
        ("the store itself",),
    ),
    Refusal(
        "backups.prepared_restore",
        StoreNewer,
        _copied_by_a_later_version,
        lambda room: _prepare(room, str(_beside(room, "copy.db"))),
        ("copy.db", "9999_later", "changed nothing"),
    ),
    Refusal(
        "backups.restore", StoreInUse, _copied, _restore, ("stockroom.db", "open", "leave the")
    ),
    Refusal(
        "doctor.examine",
        StoreMissing,
        nothing,
        lambda room: doctor.examine(_beside(room, "none.db"), clock=room.clock),
        ("none.db",),
    ),
    Refusal(
        "doctor.mend",
        StoreMissing,
        nothing,
        lambda room: doctor.mend(_beside(room, "none.db"), clock=room.clock),
        ("none.db",),
    ),
)
