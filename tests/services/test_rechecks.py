"""Rechecks: stored as the record asks for them, and asked for as far as a day goes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date, timedelta

import pytest

from stockroom.domain.conditions import Event
from stockroom.domain.packing import read_split
from stockroom.domain.recheck_factors import MOVED
from stockroom.domain.recheck_facts import STANDARD, RecheckFacts
from stockroom.domain.records import StoredRecheck
from stockroom.services import (
    climate,
    foods,
    history,
    packages,
    places,
    rechecks,
    redrying,
    repacking,
    shelves,
)
from stockroom.services.keeping import (
    projections_are_current,
    refresh_everything,
    surroundings,
)
from stockroom.services.recheck_refresh import facts_for
from stockroom.services.rechecks import (
    change_schedule,
    recheck_plan,
    recheck_reasons,
    recheck_working,
    rechecks_today,
    schedule,
)
from stockroom.services.today import round_for_today
from stockroom.store import projections, recheck_rows
from stockroom.store.writing import write
from tests.invariants import all_troubles, recheck_troubles
from tests.services.cases_rechecks import hold
from tests.services.test_repacking import dried, repack
from tests.world import APPLE, PEAS, TODAY, World

POUCHES = "pouch-1500-foil:10,absorber=300"
SATURDAY = date(2026, 11, 28)


def sound(world: World, count: int, food: str = PEAS, into: str = POUCHES) -> tuple[str, ...]:
    """So many packages, crisp at their settle check a day after sealing."""
    codes = world.packed(food, f"{count}x{into}", wet_g=5_000, dry_g=800, place="cellar")
    for code in codes:
        packages.check_package(world.later(1).room, code, Event.CRISP)
    return codes


@pytest.fixture(autouse=True)
def cellar(world: World) -> World:
    """The cellar and the loft."""
    places.add_place(world.room, "cellar", temperature_dc=120)
    world.places("loft")
    return world


def due_of(world: World, code: str) -> StoredRecheck:
    """The stored recheck."""
    found = shelves.package_detail(world.room, code).recheck
    assert found is not None
    return found


def facts_of(world: World, code: str) -> RecheckFacts:
    """What the schedule is told of a package, whatever its condition."""
    room, package = world.room, world.package(code)
    ids = [package.package_id]
    (facts,) = facts_for(
        room.store,
        surroundings(room),
        [package],
        projections.stays_of(room.store, ids),
        projections.checks_of(room.store, ids),
        recheck_rows.looked_at(room.store, [package.lot_id]),
    )
    return facts


def has_recheck(world: World, code: str) -> bool:
    """Whether it is on the schedule."""
    return shelves.package_detail(world.room, code).recheck is not None


# What is stored


def test_only_what_is_sound_and_sealed_is_on_the_schedule(world: World) -> None:
    codes = world.packed(PEAS, f"6x{POUCHES}", place="cellar")
    day = world.later(1)
    assert not any(has_recheck(world, code) for code in codes), "settling: the settle check is due"
    for code in codes:
        packages.check_package(day.room, code, Event.CRISP)
    assert all(has_recheck(world, code) for code in codes)
    packages.draw_package(day.room, codes[0])
    packages.check_package(day.room, codes[1], Event.LEAK)
    packages.discard_packages(day.room, [codes[2]], "torn")
    packages.check_package(day.room, codes[3], Event.CRISP, opened=True)
    repacking.repack_packages(day.room, [codes[4]], [read_split("1xjar-950")])
    assert [has_recheck(world, code) for code in codes] == [False] * 5 + [True]
    assert all_troubles(day.room) == []
    for _ in range(5):
        history.undo(day.room)
    assert all(has_recheck(world, code) for code in codes)
    assert all_troubles(day.room) == []


def test_the_first_look_comes_within_the_week_and_the_next_within_the_month(world: World) -> None:
    (code,) = sound(world, 1)
    settled = TODAY + timedelta(days=1)
    first = due_of(world, code)
    assert settled < first.earliest_on <= first.wanted_on <= settled + timedelta(days=7)
    packages.check_package(world.later(8).room, code, Event.CRISP)
    second = due_of(world, code)
    assert timedelta(days=7) < second.wanted_on - (TODAY + timedelta(days=8)) <= timedelta(days=30)
    packages.check_package(world.later(38).room, code, Event.CRISP)
    third = due_of(world, code)
    assert third.wanted_on - (TODAY + timedelta(days=38)) > timedelta(days=30)
    history.undo(world.later(38).room)
    assert due_of(world, code) == second


@pytest.mark.parametrize(
    ("what", "container"),
    [
        ("move", "jar-950:10,absorber=200"),
        ("place", "jar-950:10,absorber=200"),
        ("months", "jar-950:10,absorber=200"),
        ("humidity", "bag-vacuum-1500:10,vacuum"),
        ("food", "jar-950:10,absorber=200"),
    ],
)
def test_whatever_decides_it_changes_it_and_undo_brings_it_back(
    world: World, what: str, container: str
) -> None:
    (code,) = sound(world, 1, into=container)
    if what != "humidity":
        packages.check_package(world.later(60).room, code, Event.CRISP)
    before = due_of(world, code)
    room = world.later(61).room
    if what == "move":
        packages.move_packages(room, [code], "loft")
    elif what == "place":
        places.change_place(room, "cellar", temperature_dc=330)
    elif what == "months":
        climate.set_months(room, "cellar", {7: 350})
    elif what == "humidity":
        climate.set_humidity(room, "cellar", 90)
    else:
        foods.change_food(room, PEAS, new_name="Garden peas")
        assert due_of(world, code) == before, "a name decides nothing"
        return
    assert due_of(world, code) != before
    assert all_troubles(room) == []
    history.undo(room)
    assert due_of(world, code) == before


def test_the_first_place_and_where_food_stood_before_are_no_moves(world: World) -> None:
    world.places("freezer")
    codes = world.packed(APPLE, f"2x{POUCHES}", place="cellar")
    packages.check_package(world.room, codes[0], Event.SOFT)
    hold(world, codes[0])
    later = world.later(3)
    dried(later, codes[0], wet_dg=120, dry_dg=100)
    new = repack(later, codes[0], into="1xpouch-1500-foil,absorber=300", place="loft").codes[0]
    assert facts_of(later, new).moved_on is None
    assert facts_of(later, codes[1]).moved_on is None
    packages.check_package(world.later(60).room, new, Event.CRISP)
    assert MOVED.words not in recheck_reasons(world.room, new)
    packages.move_packages(world.later(61).room, [new], "cellar")
    assert facts_of(later, new).moved_on == TODAY + timedelta(days=61)
    assert MOVED.words in recheck_reasons(world.room, new)
    assert recheck_troubles(world.room) == []


def test_a_soft_sister_brings_the_others_forward(world: World) -> None:
    codes = sound(world, 6)
    later = world.later(40)
    for code in codes:
        packages.check_package(later.room, code, Event.CRISP)
    before = {code: due_of(world, code) for code in codes}
    packages.check_package(later.later(1).room, codes[0], Event.SOFT)
    assert not any(has_recheck(world, code) for code in codes)
    for code in codes[1:]:
        packages.check_package(later.later(1).room, code, Event.CRISP)
    for code in codes[1:]:
        assert due_of(world, code).risk > before[code].risk
        assert due_of(world, code).wanted_on < before[code].wanted_on
    assert all_troubles(world.room) == []
    for _ in range(6):
        history.undo(later.room)
    assert {code: due_of(world, code) for code in codes} == before


def test_sisters_that_do_not_share_the_drying_are_brought_forward_too(world: World) -> None:
    """Food dried again is not doubted by a sister of the first drying, but looked at sooner."""
    world.places("freezer")
    codes = world.packed(APPLE, f"5x{POUCHES}", place="cellar")
    packages.check_package(world.room, codes[0], Event.SOFT)
    hold(world, codes[0])
    for code in codes[1:]:
        packages.check_package(world.room, code, Event.CRISP)
    dried(world, codes[0], wet_dg=120, dry_dg=100)
    new = repack(world, codes[0], into="1xpouch-1500-foil,absorber=300").codes[0]
    packages.check_package(world.later(60).room, new, Event.CRISP)
    before = due_of(world, new)
    packages.check_package(world.later(61).room, codes[1], Event.SOFT)
    assert world.package(new).condition == "sound"
    assert due_of(world, new).risk > before.risk
    assert recheck_troubles(world.room) == []
    history.undo(world.later(61).room)
    assert due_of(world, new) == before
    assert recheck_troubles(world.room) == []


def test_a_slip_mended_on_its_day_counts_for_no_sister(world: World) -> None:
    codes = sound(world, 3)
    before = [due_of(world, code) for code in codes[1:]]
    packages.check_package(world.later(1).room, codes[0], Event.SOFT)
    for code in codes:
        packages.check_package(world.later(1).room, code, Event.CRISP)
    after = [due_of(world, code) for code in codes[1:]]
    assert [one.risk for one in after] == [one.risk for one in before]
    assert recheck_troubles(world.room) == []


def test_why_then_is_said_with_its_sources(world: World) -> None:
    (code,) = sound(world, 1)
    assert recheck_reasons(world.room, code)
    working = str(recheck_working(world.room, code))
    assert due_of(world, code).wanted_on.isoformat() in working
    assert "engineering" in working


# What to look at today


def _days(three: Sequence[int]) -> tuple[date, date, date]:
    """Days from today as earliest, wanted and latest."""
    earliest, wanted, latest = (TODAY + timedelta(days=day) for day in three)
    return earliest, wanted, latest


def put(world: World, codes: Sequence[str], rows: Sequence[tuple[int, int, int, int]]) -> None:
    """Rechecks by hand: days from today of earliest, wanted and latest, and the risk."""
    ids = [world.package(code).package_id for code in codes]
    with write(world.room.store):
        recheck_rows.save_rechecks(
            world.room.store,
            [
                StoredRecheck(one, *_days(days[:3]), days[3])
                for one, days in zip(ids, rows, strict=True)
            ],
        )


def asked(world: World) -> list[str]:
    """Codes of what to look at today, in order."""
    return [one.code for one in rechecks_today(world.room).packages]


def test_the_worst_risk_comes_first_up_to_the_number_of_a_day(world: World) -> None:
    codes = sound(world, 6)
    put(world, codes, [(-1, 0, 30, risk) for risk in (100, 900, 300, 500, 0, 200)])
    change_schedule(world.room, most_a_day=4)
    due = rechecks_today(world.room)
    assert [one.risk for one in due.looks] == [900, 500, 300, 200]
    assert [one.package_id for one in due.packages] == [one.package_id for one in due.looks]
    assert due.waiting == 0, "they can wait"
    page = round_for_today(world.room)
    assert (page.recheck, page.looks, page.recheck_waiting) == (due.packages, due.looks, 0)
    assert not page.empty


def test_what_is_not_wanted_yet_is_not_asked_for(world: World) -> None:
    codes = sound(world, 2)
    put(world, codes, [(0, 1, 9, 900), (-3, 0, 9, 10)])
    assert asked(world) == [codes[1]]
    assert asked(world.later(1)) == list(codes)


def test_on_other_days_only_what_cannot_wait_for_the_next(world: World) -> None:
    """Today is a Wednesday, Saturday is set aside: what ends on Friday is looked at today."""
    codes = sound(world, 4)
    put(world, codes, [(-5, -2, 2, 10), (-5, -2, 3, 900), (-5, -2, 0, 20), (-5, 1, 2, 800)])
    change_schedule(world.room, set_aside={5})
    assert asked(world) == [codes[2], codes[0]]
    assert asked(world.later(1)) == [codes[3], codes[2], codes[0]], "one is late by then"
    assert asked(world.on(SATURDAY)) == [codes[1], codes[3], codes[2], codes[0]]


def test_what_was_missed_does_not_pile_up_on_one_day(world: World) -> None:
    codes = sound(world, 12)
    put(world, codes, [(-90, -60, -30 - at, 10 * at) for at in range(12)])
    change_schedule(world.room, most_a_day=5)
    due = rechecks_today(world.room)
    assert [one.risk for one in due.looks] == [110, 100, 90, 80, 70]
    assert due.waiting == 7
    change_schedule(world.room, set_aside={5})
    assert len(rechecks_today(world.room).packages) == 5, "on a day not set aside too"


def test_limits_of_the_day_itself_come_before_what_was_missed(world: World) -> None:
    codes = sound(world, 9)
    limits = [(-9, -3, 0, 10)] * 6 + [(-90, -60, -30, 900)] * 3
    put(world, codes, limits)
    change_schedule(world.room, most_a_day=4)
    due = rechecks_today(world.room)
    assert len(due.packages) == 6, "none of today's limits is passed over for the number"
    assert {one.latest_on for one in due.looks} == {TODAY}
    assert due.waiting == 3


def test_all_that_is_late_is_counted_however_long_the_pile(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(rechecks, "MOST_CONSIDERED", 6)
    codes = sound(world, 10)
    put(world, codes, [(-90, -60, -30, 10 * at) for at in range(10)])
    change_schedule(world.room, most_a_day=4)
    due = rechecks_today(world.room)
    assert (len(due.packages), due.waiting) == (4, 6)


def test_looking_each_day_as_asked_nothing_is_ever_late(world: World) -> None:
    """Thirty packages of one packing day, three a day: the risk-based days are kept."""
    codes = sound(world, 30)
    change_schedule(world.room, most_a_day=3)
    refresh_everything(world.room)
    looks: Counter[date] = Counter()
    day = world.later(2)
    for _ in range(60):
        due = rechecks_today(day.room)
        assert due.waiting == 0
        assert all(one.latest_on >= day.room.today for one in due.looks)
        for package in due.packages:
            packages.check_package(day.room, package.code, Event.CRISP)
            looks[day.room.today] += 1
        assert rechecks_today(day.room).waiting == 0
        day = day.later(1)
    assert sum(looks.values()) >= 2 * len(codes), "each was looked at after a week and a month"
    assert recheck_troubles(day.room) == []


def test_the_plan_names_each_package_once_on_a_day_set_aside(world: World) -> None:
    codes = sound(world, 8)
    change_schedule(world.room, set_aside={5, 6}, most_a_day=3)
    refresh_everything(world.room)
    start = world.later(2)
    planned = recheck_plan(start.room, start.room.today + timedelta(days=60))
    assert sorted(one.package_id for one in planned) == sorted(
        world.package(code).package_id for code in codes
    )
    assert {one.on_day.weekday() for one in planned} <= {5, 6}
    assert list(planned) == sorted(planned, key=lambda one: (one.on_day, -one.risk))
    first = planned[0].on_day
    today = rechecks_today(world.on(first).room)
    assert {one.package_id for one in planned if one.on_day == first} == {
        one.package_id for one in today.packages
    }


# The household's wishes


def test_the_schedule_is_the_standard_until_it_is_changed(world: World) -> None:
    assert schedule(world.room) == STANDARD
    done = change_schedule(world.room, first_days=5, later_days=90, set_aside=[6, 5], most_a_day=8)
    assert done.words == "set the rechecks to 5, 30, then every 90 days; Sat Sun, 8 a day"
    wanted = schedule(world.room)
    assert (wanted.first_days, wanted.second_days, wanted.later_days) == (5, 30, 90)
    assert (wanted.set_aside, wanted.most_a_day) == (frozenset({5, 6}), 8)
    change_schedule(world.room, set_aside=range(7))
    assert schedule(world.room).later_days == 90, "what is not said stays"
    history.undo(world.room)
    assert schedule(world.room) == wanted
    history.undo(world.room)
    assert schedule(world.room) == STANDARD
    assert rechecks.schedule_words(STANDARD) == "7, 30, then every 183 days; every day, 20 a day"


def test_a_change_makes_the_days_old_until_all_are_computed_anew(world: World) -> None:
    (code,) = sound(world, 1)
    packages.check_package(world.later(60).room, code, Event.CRISP)
    before = due_of(world, code)
    assert projections_are_current(world.room)
    change_schedule(world.room, later_days=40)
    assert not projections_are_current(world.room)
    assert due_of(world, code) == before, "the old days stand until then"
    assert recheck_troubles(world.room) != []
    refresh_everything(world.room)
    assert projections_are_current(world.room)
    assert due_of(world, code).wanted_on < before.wanted_on
    assert recheck_troubles(world.room) == []
    history.undo(world.room)
    assert not projections_are_current(world.room)
    refresh_everything(world.room)
    assert due_of(world, code) == before


def test_held_food_is_not_rechecked_but_queued(world: World) -> None:
    world.places("freezer")
    codes = world.packed(APPLE, f"2x{POUCHES}", place="cellar")
    packages.check_package(world.room, codes[0], Event.SOFT)
    hold(world, codes[0])
    assert not has_recheck(world, codes[0])
    assert [one.code for one in redrying.machine_queue(world.room)] == [codes[0]]
    refresh_everything(world.room)
    assert recheck_troubles(world.room) == []
