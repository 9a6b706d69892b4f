"""The calendar: every thing due once, under one name for good, whatever happens between files."""

from __future__ import annotations

import sqlite3
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from stockroom.domain.calendar_entries import CalendarEntry
from stockroom.domain.conditions import Event
from stockroom.errors import BadInput, StockroomError, StoreLocked, StoreUnwritable
from stockroom.services import bench, dryness, history, packages, places, rechecks, upkeep
from stockroom.services import calendar_feed as calendar_service
from stockroom.services.calendar_feed import calendar_feed
from stockroom.services.results import CalendarFeed
from stockroom.services.session import Stockroom
from tests.calendars import Calendar
from tests.dumps import whole_dump
from tests.services.steps import STEPS
from tests.store.breaking import Breaking
from tests.world import APPLE, BEEF_RAW, PEAS, TODAY, World, copied_world

YEARS = 3660
AT_THE_SHELF = (
    "packages.check_package",
    "packages.draw_package",
    "packages.move_packages",
    "packages.discard_packages",
)
ZIP = "2xbag-zip-1000"


def entry(feed: CalendarFeed, kind: str) -> CalendarEntry:
    """The one entry of a kind."""
    (found,) = (one for one in feed.entries if one.uid.startswith(f"{kind}-"))
    return found


def kinds(feed: CalendarFeed) -> list[str]:
    """What the entries are about, in the order of the file."""
    return [one.uid.split("-")[0] for one in feed.entries]


# What is in it


def test_a_stockroom_just_started_has_nothing_due(world: World) -> None:
    feed = calendar_feed(world.room)
    assert feed.entries == ()
    assert (feed.today, feed.until) == (TODAY, TODAY + timedelta(days=90))


def test_settle_checks_stand_on_the_day_after_sealing_or_today(world: World) -> None:
    codes = world.packed()
    first = entry(calendar_feed(world.room), "settle")
    assert first.on_day == TODAY + timedelta(days=1)
    assert first.summary == "Settle check of 2 packages"
    assert f"- {PEAS}: {', '.join(codes)}" in first.lines
    late = entry(calendar_feed(world.later(9).room), "settle")
    assert late.on_day == TODAY + timedelta(days=9)
    assert late.uid != first.uid


def test_each_day_of_rechecks_is_the_plan_of_that_day(world: World) -> None:
    world.places("cellar", "loft")
    for place in ("cellar", "loft"):
        for code in world.packed(PEAS, "6xpouch-400-foil:10,absorber=100", place=place):
            packages.check_package(world.later(1).room, code, Event.CRISP)
    room = world.later(1).room
    feed = calendar_feed(room, days=200)
    planned = rechecks.recheck_plan(room, feed.until)
    assert len(planned) == 12
    said = {one.on_day: one for one in feed.entries if one.uid.startswith("recheck-")}
    assert set(said) == {one.on_day for one in planned}
    for day, one in said.items():
        count = sum(plan.on_day == day for plan in planned)
        assert one.summary.startswith(f"Recheck {count} package")
        assert one.uid.startswith(f"recheck-{day:%Y%m%d}@")
        assert one.at is None


def test_the_first_best_by_of_each_lot_is_named_by_its_code(world: World) -> None:
    world.packed(PEAS, ZIP)
    world.packed(APPLE, ZIP)
    feed = calendar_feed(world.room, days=YEARS)
    said = [one for one in feed.entries if one.uid.startswith("use-first-")]
    assert sorted(one.uid.split("@")[0] for one in said) == [
        "use-first-26329A",
        "use-first-26329B",
    ]
    for one, lot in zip(sorted(said, key=lambda one: one.uid), "AB", strict=True):
        assert one.on_day == world.package(f"26329{lot}01").best_by
        assert one.summary.endswith(f"26329{lot}, 2 packages")


def test_packages_of_a_lot_that_keep_longer_are_only_counted(world: World) -> None:
    world.packed(PEAS, "1xbag-zip-1000:20", "2xpouch-1500-foil:40,absorber=300")
    one = entry(calendar_feed(world.room, days=YEARS), "use")
    assert one.summary == f"Use first: {PEAS} 26329A, 1 package"
    assert "2 more packages of this lot keep longer." in one.lines


def test_a_best_by_that_has_passed_gives_way_to_the_next_of_its_lot(world: World) -> None:
    world.packed(PEAS, "1xbag-zip-1000:20", "2xpouch-1500-foil:40,absorber=300")
    bag, pouch = world.package("26329A01").best_by, world.package("26329A02").best_by
    assert bag is not None and pouch is not None and bag < pouch
    first = entry(calendar_feed(world.on(bag).room, days=YEARS), "use")
    assert first.on_day == bag
    second = entry(calendar_feed(world.on(bag).later(1).room, days=YEARS), "use")
    assert (second.uid, second.on_day, second.sequence) == (first.uid, pouch, 1)


def test_raw_food_carries_its_caution(world: World) -> None:
    world.packed(BEEF_RAW, ZIP)
    one = entry(calendar_feed(world.room, days=YEARS), "use")
    assert any("Raw stays raw" in line for line in one.lines)


def test_what_may_not_be_eaten_is_not_to_be_used_first(world: World) -> None:
    codes = world.packed(PEAS, ZIP)
    for code in codes:
        packages.check_package(world.room, code, Event.DAMAGED)
    assert "use" not in kinds(calendar_feed(world.room, days=YEARS))


def test_packages_without_a_best_by_are_counted(world: World) -> None:
    # Above 45 °C the model gives no date.
    places.add_place(world.room, "boiler room", temperature_dc=520)
    world.packed(PEAS, ZIP, place="boiler room")
    feed = calendar_feed(world.room, days=YEARS)
    assert "use" not in kinds(feed)
    assert feed.without_best_by == 2


def test_the_end_of_extra_drying_is_an_instant(world: World) -> None:
    run_id = bench.start_run(world.room).made_id
    bench.load_tray(world.room, 1, PEAS, gross_dg=10_000)
    dryness.dry_longer(world.room, Fraction(5, 2))
    one = entry(calendar_feed(world.room), "drying")
    assert one.uid.startswith(f"drying-run-{run_id}@")
    assert one.at == world.room.clock.now() + timedelta(hours=2, minutes=30)
    dryness.dry_longer(world.room, Fraction(4))
    moved = entry(calendar_feed(world.room), "drying")
    assert (moved.uid, moved.sequence) == (one.uid, 1)
    assert moved.at == world.room.clock.now() + timedelta(hours=4)
    bench.weigh_tray(world.room, 1, "dry", 1_500)
    assert entry(calendar_feed(world.room), "drying").cancelled


def test_a_check_of_the_machine_moves_on_when_it_is_done(world: World) -> None:
    bench.start_run(world.room)
    first = {one.uid: one for one in calendar_feed(world.room).entries}
    (uid,) = (one for one in first if one.startswith("upkeep-leak@"))
    day = first[uid].on_day
    assert day == TODAY + timedelta(days=30)
    done_on = world.on(day)
    assert {one.uid: one for one in calendar_feed(done_on.room).entries}[uid].on_day == day
    upkeep.record_check(done_on.room, "leak")
    after = {one.uid: one for one in calendar_feed(done_on.room).entries}[uid]
    assert (after.on_day, after.sequence) == (day + timedelta(days=30), 1)
    assert not after.cancelled


# One file after another


def test_the_same_twice_is_the_same(world: World) -> None:
    world.packed()
    first = calendar_feed(world.room, days=YEARS)
    before = whole_dump(world.path)
    second = calendar_feed(world.room, days=YEARS)
    assert second.entries == first.entries
    assert (second.new, second.changed, second.cancelled) == (0, 0, 0)
    assert whole_dump(world.path) == before


def test_a_file_that_changes_nothing_wakes_no_other_program(world: World) -> None:
    world.packed()
    other = world.beside()
    calendar_feed(world.room)
    seen = other.room.version_seen()
    calendar_feed(world.room)
    assert other.room.version_seen() == seen
    other.room.close()


def test_what_was_done_is_taken_back_the_same_day(world: World) -> None:
    codes = world.packed()
    tomorrow = world.later(1)
    assert not entry(calendar_feed(tomorrow.room), "settle").cancelled
    packages.check_package(tomorrow.room, codes[0], Event.CRISP)
    one = entry(calendar_feed(tomorrow.room), "settle")
    assert (one.summary, one.sequence) == ("Settle check of 1 package", 1)
    packages.check_package(tomorrow.room, codes[1], Event.CRISP)
    gone = entry(calendar_feed(tomorrow.room), "settle")
    assert (gone.cancelled, gone.sequence) == (True, 2)
    assert "settle" not in kinds(calendar_feed(world.later(2).room))


def test_a_best_by_moves_with_its_package(world: World) -> None:
    places.add_place(world.room, "attic", temperature_dc=300)
    places.add_place(world.room, "cellar", temperature_dc=100)
    codes = world.packed(PEAS, ZIP, place="attic")
    first = entry(calendar_feed(world.room, days=YEARS), "use")
    packages.move_packages(world.room, codes, "cellar")
    second = entry(calendar_feed(world.room, days=YEARS), "use")
    assert second.uid == first.uid
    assert second.on_day > first.on_day
    assert (second.sequence, second.cancelled) == (1, False)


def test_one_that_moves_beyond_the_last_day_is_moved_not_taken_back(world: World) -> None:
    places.add_place(world.room, "attic", temperature_dc=300)
    places.add_place(world.room, "cellar", temperature_dc=50)
    codes = world.packed(PEAS, ZIP, place="attic")
    best_by = world.package(codes[0]).best_by
    assert best_by is not None
    days = (best_by - TODAY).days
    first = entry(calendar_feed(world.room, days=days), "use")
    packages.move_packages(world.room, codes, "cellar")
    second = entry(calendar_feed(world.room, days=days), "use")
    assert (second.uid, second.cancelled) == (first.uid, False)
    assert second.on_day > TODAY + timedelta(days=days)
    # Never said before, so not said by a file that does not reach so far.
    world.packed(APPLE, ZIP, place="cellar")
    later = [one.uid for one in calendar_feed(world.room, days=days).entries]
    assert not any(uid.startswith("use-first-26329B") for uid in later)


def test_a_lot_eaten_up_is_taken_back(world: World) -> None:
    codes = world.packed(PEAS, ZIP)
    calendar_feed(world.room, days=YEARS)
    for code in codes:
        packages.draw_package(world.room, code)
    one = entry(calendar_feed(world.room, days=YEARS), "use")
    assert one.cancelled
    assert one.summary == f"No longer due: Use first: {PEAS} 26329A, 2 packages"


def test_the_names_outlive_undo_and_a_restart(world: World, tmp_path: Path) -> None:
    world.packed()
    first = calendar_feed(world.room)
    entries = len(history.journal_page(world.room))
    calendar_feed(world.room)
    assert len(history.journal_page(world.room)) == entries, "a file is no action"
    while entries > 1:
        history.undo(world.room)
        entries -= 1
    history.redo(world.room)
    world.packed(APPLE)
    again = copied_world(world.path, tmp_path / "again.db")
    second = calendar_feed(again.room)
    names = {one.uid.partition("@")[2] for one in (*first.entries, *second.entries)}
    assert len(names) == 1
    again.room.close()


def test_two_stores_have_names_of_their_own(world: World, tmp_path: Path) -> None:
    other = copied_world(world.path, tmp_path / "other.db")
    assert world.packed() == other.packed()
    mine, theirs = calendar_feed(world.room), calendar_feed(other.room)
    assert [one.summary for one in mine.entries] == [one.summary for one in theirs.entries]
    assert not {one.uid for one in mine.entries} & {one.uid for one in theirs.entries}
    other.room.close()


def test_a_what_if_day_is_respected_and_takes_nothing_back_for_good(world: World) -> None:
    world.packed()
    calendar = Calendar()
    calendar.take_in(calendar_feed(world.room, days=YEARS).entries)
    shown = calendar.shown(TODAY, date.max)
    calendar.take_in(calendar_feed(world.later(400).room, days=YEARS).entries)
    back = calendar_feed(world.room, days=YEARS)
    calendar.take_in(back.entries)
    assert calendar.shown(TODAY, TODAY + timedelta(days=399)) == {
        uid: said for uid, said in shown.items() if said[0] < TODAY + timedelta(days=400)
    }


@pytest.mark.parametrize("seed", range(6))
def test_whatever_is_done_no_entry_is_doubled_or_left_behind(world: World, seed: int) -> None:
    """Weeks of a household by chance, with files of all lengths taken in by one calendar."""
    world.places("cellar", "loft")
    world.later(-60).packed(APPLE, ZIP, place="loft")
    for food in (PEAS, BEEF_RAW):
        world.later(-20).packed(food, "4xpouch-400-foil:20,absorber=100", place="cellar")
    pick, calendar = Random(seed), Calendar()
    for _ in range(8):
        for _ in range(15):
            step = STEPS[pick.choice(sorted(STEPS) if pick.random() < 0.5 else AT_THE_SHELF)]
            try:
                step(world.room, pick)
            except StockroomError:
                continue
        days = pick.choice((7, 90, 90, 400, YEARS))
        feed = calendar_feed(world.room, days=days, alarm=pick.random() < 0.3)
        calendar.take_in(feed.entries)
        assert calendar.shown(feed.today, feed.until) == {
            one.uid: (one.on_day, one.summary)
            for one in feed.entries
            if not one.cancelled and feed.today <= one.on_day <= feed.until
        }
        assert calendar_feed(world.room, days=days, alarm=feed.alarm).entries == feed.entries
        world = world.later(pick.choice((0, 0, 1, 3, 10)))
    codes = world.packed(PEAS, ZIP)
    calendar.take_in(calendar_feed(world.room, days=YEARS).entries)
    assert calendar.shown(world.room.today, date.max)
    packages.discard_packages(world.room, [*codes, *world.listed()], "the cellar was flooded")
    feed = calendar_feed(world.room, days=YEARS)
    calendar.take_in(feed.entries)
    left = {uid.split("-")[0] for uid in calendar.shown(feed.today, feed.until)}
    assert left <= {"upkeep", "drying"}


# What stands in the way


@pytest.mark.parametrize("days", [0, -1, YEARS + 1])
def test_days_that_are_not_believed_are_refused(world: World, days: int) -> None:
    before = whole_dump(world.path)
    with pytest.raises(BadInput, match="cannot be read"):
        calendar_feed(world.room, days=days)
    assert whole_dump(world.path) == before


def test_a_store_that_cannot_be_written_says_so(world: World) -> None:
    world.packed()
    world.room.store.connection.execute("PRAGMA query_only = ON")
    with pytest.raises(StoreUnwritable) as refused:
        calendar_feed(world.room)
    assert refused.value.message.startswith(f"The store at {world.path} could not be written")
    assert refused.value.hint


def test_a_store_held_by_another_program_says_so(world: World) -> None:
    world.room.store.connection.execute("PRAGMA busy_timeout = 1")
    other = world.beside()
    other.room.store.connection.execute("BEGIN IMMEDIATE")
    with pytest.raises(StoreLocked):
        calendar_feed(world.room)
    other.room.store.connection.execute("ROLLBACK")
    other.room.close()


def test_a_full_disk_at_any_statement_leaves_the_record_as_it_was(
    room_template: Path, tmp_path: Path
) -> None:
    world = copied_world(room_template, tmp_path / "stockroom.db", factory=Breaking)
    world.packed()
    connection = world.room.store.connection
    assert isinstance(connection, Breaking)
    before = whole_dump(world.path)
    at = 0
    while True:
        at += 1
        connection.arm(at, sqlite3.OperationalError("database or disk is full"))
        try:
            calendar_feed(world.room)
        except StoreUnwritable:
            assert whole_dump(world.path) == before, f"statement {at}"
            assert not connection.in_transaction
        else:
            break
    assert at > 8
    world.room.close()


@pytest.mark.parametrize("writes", [1, 2, 3])
def test_what_another_program_does_meanwhile_is_in_the_file(
    world: World, monkeypatch: pytest.MonkeyPatch, writes: int
) -> None:
    """The file is put together without the lock, so what was read may be out of date by then."""
    codes = world.packed(PEAS, "5xpouch-400-foil:10,absorber=100")
    other, done = world.beside(), list[str]()
    read_upkeep = calendar_service.upkeep_now

    def interrupted(room: Stockroom) -> object:
        if len(done) < writes:
            assert not room.store.connection.in_transaction
            done.append(codes[len(done)])
            packages.check_package(other.room, done[-1], Event.CRISP)
        return read_upkeep(room)

    monkeypatch.setattr(calendar_service, "upkeep_now", interrupted)
    feed = calendar_feed(world.room)
    assert len(done) == writes
    assert entry(feed, "settle").summary.startswith(f"Settle check of {5 - writes} package")
    other.room.close()
