"""A store of the first release opened today: the record as it was, every best-by computed anew."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from stockroom.clock import FixedClock
from stockroom.services import history, shelves
from stockroom.services.keeping import projections_are_current, refresh_everything
from stockroom.services.session import open_stockroom
from tests.invariants import all_troubles, balance_troubles, package_troubles
from tests.store import pins
from tests.store.test_derived import in_step
from tests.world import TODAY, World

FIRST = "0001_foundation"


@pytest.fixture
def earlier(tmp_path: Path) -> Iterator[World]:
    """The small store of the first release, opened by today's program."""
    path = tmp_path / "stockroom.db"
    pins.restore(FIRST, path)
    room = open_stockroom(path, clock=FixedClock(TODAY), actor="tester")
    yield World(room)
    room.close()


def test_the_record_is_whole_before_any_date_is_computed(earlier: World) -> None:
    """Every live package stands in the lists, its date still to come."""
    room = earlier.room
    assert balance_troubles(room) == package_troubles(room) == []
    live = room.store.value(
        "SELECT count(*) FROM package WHERE condition NOT IN ('used', 'discarded')"
    )
    assert live > 4
    assert len(earlier.listed()) == live
    assert len(earlier.listed(order="code")) == live


def test_refreshing_gives_every_package_its_date_and_says_so(earlier: World) -> None:
    room = earlier.room
    before = len(earlier.listed(order="code"))
    assert not projections_are_current(room)
    told: list[tuple[int, int]] = []
    assert refresh_everything(room, lambda done, of: told.append((done, of))) == before
    assert told[-1] == (before, before)
    assert projections_are_current(room)
    assert all_troubles(room) == []
    for package in shelves.find_packages(room, shelves.shelf_filter(room)):
        stored = shelves.package_detail(room, package.code).projection
        assert stored is not None
        assert stored.low <= stored.best_by <= stored.high
        assert stored.recheck_by == stored.low
        assert stored.limited_by in ("temperature", "oxygen", "moisture", "cap", "opened")


def test_what_was_done_before_can_be_undone_after(earlier: World) -> None:
    """The entries of the first release know nothing of the new columns, and still come back."""
    room = earlier.room
    refresh_everything(room)
    lived = earlier.dump()
    for _ in range(12):
        history.undo(room)
        assert all_troubles(room) == []
    for _ in range(12):
        history.redo(room)
    assert all_troubles(room) == []
    kept = {table: rows for table, rows in lived.items() if table != "projection"}
    assert {**earlier.dump(), "projection": ()} == {**kept, "projection": ()}
    assert in_step(room.store)


def test_the_small_store_of_the_first_release_is_as_it_was_released() -> None:
    """It names the table of lives it was computed with: a store made today would not."""
    text = (pins.RELEASES / f"{FIRST}.sql").read_text(encoding="utf-8")
    assert "'plain table'" in text
    assert FIRST in json.loads(pins.PINNED.read_text(encoding="utf-8"))["steps"]
