"""A store of an earlier release opened today: the record as it was, every date computed anew."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from stockroom.clock import FixedClock
from stockroom.domain.conditions import Event
from stockroom.domain.packing import read_split
from stockroom.services import history, packages, packing, shelves
from stockroom.services.dryness import GateClosed
from stockroom.services.keeping import projections_are_current, refresh_everything
from stockroom.services.session import open_stockroom
from stockroom.store.journal import NothingToUndo
from stockroom.store.migrations import STEPS
from tests.dumps import Dump
from tests.invariants import all_troubles, balance_troubles, package_troubles
from tests.store import pins
from tests.store.test_derived import in_step
from tests.world import TODAY, World

FIRST = "0001_foundation"


SAME_MODEL = ("0003_rechecks",)
"""Releases whose dates were computed by the model of today."""
WITH_EVIDENCE = ("0003_rechecks",)
"""Releases that know of dryness tests, so that a lot of theirs may have shown that it is dry."""


@pytest.fixture(params=STEPS[:-1])
def release(request: pytest.FixtureRequest) -> str:
    """The name of an earlier release's last step."""
    return str(request.param)


@pytest.fixture
def earlier(tmp_path: Path, release: str) -> Iterator[World]:
    """The small store of an earlier release, opened by today's program."""
    path = tmp_path / "stockroom.db"
    pins.restore(release, path)
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


def test_refreshing_gives_every_package_its_date_and_says_so(earlier: World, release: str) -> None:
    room = earlier.room
    before = len(earlier.listed(order="code"))
    assert projections_are_current(room) is (release in SAME_MODEL)
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
    """The entries of an earlier release know nothing of new columns, and still come back.

    Among them are checks of packages, whose table of events was made anew since.
    """
    room = earlier.room
    refresh_everything(room)
    lived = _without_computed_on(earlier)
    undone = 0
    with pytest.raises(NothingToUndo):
        while True:
            history.undo(room)
            undone += 1
            assert all_troubles(room) == []
    assert undone > 20
    assert room.store.value("SELECT count(*) FROM package_event") == 0
    for _ in range(undone):
        history.redo(room)
    assert all_troubles(room) == []
    assert _without_computed_on(earlier) == lived
    assert in_step(room.store)


def test_new_work_goes_on_from_an_earlier_store(earlier: World, release: str) -> None:
    """What the new columns hold is asked for from now on, of what was there before too."""
    room = earlier.room
    refresh_everything(room)
    packages_before = earlier.listed(order="code")
    sound = [code for code in packages_before if earlier.package(code).condition == "sound"]
    done = packages.check_package(room, sound[0], Event.SOFT)
    assert shelves.package_detail(room, sound[0]).recheck is None
    history.undo(room)
    assert done.codes[0] == sound[0]
    assert shelves.package_detail(room, sound[0]).recheck is not None
    lot = packing.lots_to_pack(room)[0].code
    if release not in WITH_EVIDENCE:
        with pytest.raises(GateClosed):
            packing.pack_lot(room, lot, [read_split("1xjar-475:1,vacuum")])
    packing.pack_lot(room, lot, [read_split("1xjar-475:1,vacuum")], despite="dried last year")
    assert all_troubles(room) == []


def _without_computed_on(world: World) -> Dump:
    found = world.dump()
    return {**found, "projection": tuple(row[:-1] for row in found["projection"])}


def test_the_small_store_of_the_first_release_is_as_it_was_released() -> None:
    """It names the table of lives it was computed with: a store made today would not."""
    text = (pins.RELEASES / f"{FIRST}.sql").read_text(encoding="utf-8")
    assert "'plain table'" in text
    assert FIRST in json.loads(pins.PINNED.read_text(encoding="utf-8"))["steps"]
