"""Refusals of the calendar, and of files a person asks for."""

from __future__ import annotations

from pathlib import Path

from stockroom.errors import BadInput
from stockroom.services import calendar_feed, written_files
from stockroom.services.session import Stockroom
from tests.services.refusals.base import Refusal, nothing, packed
from tests.world import World


def _letters(world: World) -> None:
    world.path.with_name("letters.txt").write_text("dear reader\n", encoding="utf-8")


def _check(room: Stockroom, path: Path, *, replace: bool = False) -> None:
    written_files.check_target(room, path, "calendar", is_ours=lambda _: False, replace=replace)


CALENDAR = (
    Refusal(
        "calendar_feed.calendar_feed",
        BadInput,
        packed,
        lambda room: calendar_feed.calendar_feed(room, days=0),
        ("days", "“0”", "from 1 to 3660"),
    ),
    Refusal(
        "written_files.path_of",
        BadInput,
        nothing,
        lambda _: written_files.path_of("  "),
        ("file", "nothing"),
    ),
    Refusal(
        "written_files.check_target",
        written_files.FileInTheWay,
        _letters,
        lambda room: _check(room, room.path.with_name("letters.txt")),
        ("letters.txt", "no calendar of stockroom's", "--force"),
    ),
    Refusal(
        "written_files.check_target",
        written_files.StoreInTheWay,
        packed,
        lambda room: _check(room, room.path, replace=True),
        ("stockroom.db", "the store itself"),
    ),
    Refusal(
        "written_files.check_target",
        written_files.FileUnwritable,
        nothing,
        lambda room: _check(room, room.path.parent),
        ("it is a folder",),
    ),
    Refusal(
        "written_files.write_file",
        written_files.FileUnwritable,
        nothing,
        lambda room: written_files.write_file(room.path / "due.ics", b"x"),
        ("due.ics", "Not a directory"),
    ),
)
