"""The machine's checks and leak tests on a real store."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stockroom.domain.leak import Between, LeakVerdict, RiseShape
from stockroom.domain.upkeep import UpkeepItem, UpkeepState
from stockroom.domain.upkeep_intervals import OFF, Every, Interval
from stockroom.services import bench, history, upkeep
from stockroom.services.leak_tests import chamber_volume_ml, leak_of, record_leak_test
from stockroom.store.upkeep_rows import RUNS_AT_ONCE, run_totals, runs_since
from tests.services.refusals.upkeep import readings
from tests.store.entries import acted
from tests.world import PEAS, TODAY, World


def item(world: World, key: str) -> UpkeepItem:
    """One check as it stands."""
    (found,) = (one for one in upkeep.upkeep_now(world.room) if one.check.key == key)
    return found


def due(world: World) -> list[str]:
    """What the day's list would name."""
    return [one.check.key for one in upkeep.upkeep_due(world.room)]


def run_of(world: World, hours: int | None) -> int:
    """A run with one tray; its hours are written beside its weights, if they are said."""
    run_id = bench.start_run(world.room).made_id
    bench.load_tray(world.room, 1, PEAS, gross_dg=10_000, run_id=run_id)
    if hours is not None:
        with acted(world.room.store):
            world.room.store.run(
                "UPDATE weighing SET hours_tenths = ? WHERE tray_id IN"
                " (SELECT id FROM tray WHERE run_id = ?)",
                (hours * 10, run_id),
            )
    return run_id


def test_a_new_stockroom_has_no_machine_to_keep(world: World) -> None:
    assert due(world) == []
    assert {one.state for one in upkeep.upkeep_now(world.room)} == {UpkeepState.UNUSED}


def test_after_a_first_run_the_days_begin_to_count(world: World) -> None:
    world.dry_lot()
    assert item(world, "gasket").state is UpkeepState.DUE
    # By days nothing yet; the oil after 10 h, and a run without noted hours counts as 24.
    assert due(world) == ["oil_change"]
    assert due(world.later(29)) == ["oil_change"]
    assert due(world.later(30)) == ["oil_change", "leak", "scale"]
    assert due(world.later(60)) == ["leak", "scale", "oil_change", "coil"]
    assert item(world.later(31), "leak").overdue_days == 1


def test_a_check_done_is_due_again_after_its_days(world: World) -> None:
    world.dry_lot()
    later = world.later(40)
    done = upkeep.record_check(later.room, "leak", note="pump off")
    assert done.words == "leak test: done, pump off"
    found = item(later, "leak")
    assert found.due_on == later.room.today + timedelta(days=30)
    assert found.history.note == "pump off"
    assert "leak" not in due(later)
    assert "leak" in due(later.later(30))


def test_a_check_can_be_written_down_later(world: World) -> None:
    world.dry_lot()
    done = upkeep.record_check(world.room, "coil", on_day=TODAY - timedelta(days=10))
    assert done.words == "cooling coil and fan: done on 2026-11-15"
    assert item(world, "coil").due_on == date(2027, 1, 14)
    # Written down after, but not done after: the latest day counts.
    upkeep.record_check(world.room, "coil", on_day=TODAY - timedelta(days=20))
    assert item(world, "coil").history.last_on == date(2026, 11, 15)


def test_a_fault_stays_until_the_check_passes_and_brings_its_cautions(world: World) -> None:
    done = upkeep.record_check(world.room, "hose", passed=False, note="crack")
    assert {one.key for one in done.cautions} == {"electricity", "pump", "local-codes"}
    assert item(world, "hose").state is UpkeepState.FAULT
    # Work on a connection: the leak test follows (Monograph 7: after a connection was disturbed).
    assert due(world) == ["hose", "leak"]
    assert upkeep.record_check(world.later(1).room, "hose").cautions == ()
    assert due(world.later(1)) == ["leak"]
    upkeep.record_check(world.later(1).room, "leak")
    assert due(world.later(1)) == []


def test_two_findings_on_one_day_count_in_the_order_written(world: World) -> None:
    upkeep.record_check(world.room, "gasket", passed=False)
    assert item(world, "gasket").state is UpkeepState.FAULT
    upkeep.record_check(world.room, "gasket")
    assert item(world, "gasket").state is not UpkeepState.FAULT


def test_one_wipe_serves_one_load(world: World) -> None:
    upkeep.record_check(world.later(-1).room, "gasket")
    run_of(world, None)
    assert item(world, "gasket").reason == "Again with the next load."
    run_of(world.later(2), None)
    assert item(world.later(2), "gasket").state is UpkeepState.DUE
    # Left to the load: the day's list names it only when it is at fault.
    assert "gasket" not in due(world.later(2))
    upkeep.record_check(world.later(2).room, "gasket")
    assert item(world.later(2), "gasket").state is UpkeepState.LATER


def test_hours_are_those_of_the_weighings_and_24_where_none_are_noted(world: World) -> None:
    upkeep.record_check(world.room, "pump")
    run_of(world.later(-1), 500)
    run_of(world, 31)
    run_of(world.later(1), None)
    later = world.later(1)
    assert run_totals(world.room.store, TODAY, enough=lambda _: False).hours_tenths == 310
    assert runs_since(world.room.store, None) == 3
    found = item(later, "pump")
    assert found.history.all_hours_tenths == 550
    assert "55 h of running since it was last done (1 run without noted hours" in found.reason
    upkeep.set_interval(later.room, "pump", Interval(Every.HOURS, 55))
    assert "pump" in due(later)
    upkeep.set_interval(later.room, "pump", Interval(Every.HOURS, 56))
    assert "pump" not in due(later)


def test_hours_are_added_up_only_until_they_are_enough(world: World) -> None:
    with acted(world.room.store):
        for _ in range(2 * RUNS_AT_ONCE + 50):
            world.room.store.run(
                "INSERT INTO run (started_on, closed_on, state) VALUES (?, ?, 'closed')",
                (TODAY.isoformat(), TODAY.isoformat()),
            )
    # 24 h each: 10 h after one run, 3000 h after 125, 6000 h after all.
    assert item(world, "oil_change").reason.startswith("At least 2400 h of running, never")
    assert item(world, "pump").reason.startswith("At least 4800 h of running, never")
    upkeep.set_interval(world.room, "pump", Interval(Every.HOURS, 6_001))
    assert item(world, "pump").state is UpkeepState.LATER
    assert item(world, "pump").reason.startswith("6000 h of running, never")
    upkeep.set_interval(world.room, "pump", Interval(Every.HOURS, 6_000))
    assert item(world, "pump").state is UpkeepState.DUE


def test_a_household_sets_its_own_intervals(world: World) -> None:
    world.dry_lot()
    done = upkeep.set_interval(world.room, "oil_change", Interval(Every.DAYS, 90))
    assert done.words == "pump oil change: every 90 days from now on"
    assert item(world, "oil_change").due_on == TODAY + timedelta(days=90)
    upkeep.set_interval(world.room, "oil_change", Interval(Every.HOURS, 40))
    assert item(world, "oil_change").interval == Interval(Every.HOURS, 40)
    upkeep.set_interval(world.room, "oil_change", OFF)
    assert item(world, "oil_change").state is UpkeepState.OFF
    assert due(world) == []
    assert upkeep.set_interval(world.room, "oil_change", None).words.endswith(
        "every 10 h of running from now on"
    )
    assert not item(world, "oil_change").own_interval


def test_the_tables_own_interval_is_not_kept_as_ones_own(world: World) -> None:
    upkeep.set_interval(world.room, "coil", Interval(Every.DAYS, 90))
    upkeep.set_interval(world.room, "coil", Interval(Every.DAYS, 60))
    assert not item(world, "coil").own_interval


def test_the_settings_of_the_household_stay_beside_them(world: World) -> None:
    before = world.room.household
    upkeep.set_interval(world.room, "coil", Interval(Every.DAYS, 90))
    assert world.room.household == before


def test_everything_is_undone_and_done_again(world: World) -> None:
    world.dry_lot()
    begun = world.dump()
    upkeep.record_check(world.room, "coil", note="dusty")
    upkeep.record_check(world.room, "hose", passed=False)
    upkeep.set_interval(world.room, "oil", OFF)
    upkeep.set_interval(world.room, "oil", None)
    record_leak_test(world.room, readings(between=Between(Fraction("0.4"), Fraction(300))))
    ended = world.dump()
    for _ in range(5):
        history.undo(world.room)
    assert world.dump() == begun
    for _ in range(5):
        history.redo(world.room)
    assert world.dump() == ended


# Leak tests


def test_a_test_within_the_limit_counts_as_the_leak_test(world: World) -> None:
    # 40 L x 0.2 mbar / 600 s = 0.0133 mbar L/s; limit 0.02 (Parenteral Society, Monograph 7).
    done = record_leak_test(world.room, readings(), note="cold")
    assert done.words == "leak test: 0.0133 mbar L/s, within the limit"
    assert done.cautions == ()
    found = item(world, "leak")
    assert (found.history.last_on, found.history.last_passed) == (TODAY, True)
    assert found.history.note == "0.0133 mbar L/s, cold"


def test_a_test_over_the_limit_is_a_fault(world: World) -> None:
    done = record_leak_test(world.room, readings(to_mbar=Fraction("0.7")))
    assert done.words.endswith("over the limit")
    assert {one.key for one in done.cautions} == {"pump", "local-codes"}
    assert due(world) == ["leak"]


def test_a_test_of_a_wet_chamber_is_kept_and_counts_for_nothing(world: World) -> None:
    done = record_leak_test(world.room, readings(dry_empty=False))
    assert done.words.endswith("no verdict")
    assert item(world, "leak").history.last_on is None
    (test,) = upkeep.upkeep_page(world.room).tests
    assert test.leak.verdict is LeakVerdict.NONE


def test_the_volume_is_remembered(world: World) -> None:
    assert chamber_volume_ml(world.room) is None
    record_leak_test(world.room, readings(volume_l=Fraction("37.5")))
    assert chamber_volume_ml(world.room) == 37_500
    record_leak_test(world.room, readings(volume_l=None))
    first, second = upkeep.upkeep_page(world.room).tests
    assert first.leak.rise.volume_l == second.leak.rise.volume_l == Fraction("37.5")


def test_a_test_in_two_parts_is_one_test_again(world: World) -> None:
    levelling = readings(between=Between(Fraction("0.45"), Fraction(300)))
    done = record_leak_test(world.room, levelling, note="[damp]")
    assert done.words.endswith("within the limit, levels off")
    assert leak_of(world.room, levelling).shape is RiseShape.LEVELS_OFF
    record_leak_test(world.room, readings())
    plain, parted = upkeep.upkeep_page(world.room).tests
    assert plain.leak.shape is None
    assert (parted.leak.shape, parted.note) == (RiseShape.LEVELS_OFF, "[damp]")
    assert parted.leak.rise.seconds == 600


def test_a_part_that_no_longer_rises_is_kept_and_read_again(world: World) -> None:
    record_leak_test(world.room, readings(between=Between(Fraction("0.5"), Fraction(300))))
    (test,) = upkeep.upkeep_page(world.room).tests
    assert test.leak.second_to_first == 0
    # Cut out of its pair by a short list, the second part says nothing and is left out.
    record_leak_test(world.room, readings())
    assert len(upkeep.upkeep_page(world.room, tests=1).tests) == 1


def test_the_latest_by_day_comes_first(world: World) -> None:
    record_leak_test(world.room, readings())
    record_leak_test(world.room, readings(), on_day=TODAY - timedelta(days=3))
    assert [one.on_day for one in upkeep.upkeep_page(world.room).tests] == [
        TODAY,
        TODAY - timedelta(days=3),
    ]


pressures = st.integers(0, 2_000).map(lambda microbar: Fraction(microbar, 1000))


@settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=40, deadline=None
)
@given(pressures, st.integers(1, 2_000), st.integers(1, 2_000), st.integers(1, 400), st.booleans())
def test_what_is_recorded_is_what_comes_back(
    world: World, first: Fraction, more: int, half: int, litres: int, dry: bool
) -> None:
    read = readings(
        from_mbar=first,
        to_mbar=first + Fraction(2 * more, 1000),
        seconds=Fraction(2 * half),
        volume_l=Fraction(litres, 2),
        dry_empty=dry,
        between=Between(first + Fraction(more, 1000), Fraction(half)),
    )
    record_leak_test(world.room, read)
    latest = upkeep.upkeep_page(world.room).tests[0]
    assert latest.leak == leak_of(world.room, read)
    assert latest.leak.second_to_first == 1


def test_the_page_of_a_check_lists_when_it_was_done(world: World) -> None:
    for days, passed in ((-3, True), (-2, False), (-1, True)):
        upkeep.record_check(world.later(days).room, "scale", passed=passed, note=f"{days}")
    page = upkeep.check_page(world.room, "Scale")
    assert [(one.note, one.passed) for one in page.done] == [
        ("-1", True),
        ("-2", False),
        ("-3", True),
    ]
    assert page.cautions == ()
    oil = upkeep.check_page(world.room, "oil")
    assert {one.key for one in oil.cautions} == {"pump", "used-oil", "local-codes"}


@pytest.mark.parametrize("typed", ["oil_change", "oil-change", "Oil change", " OIL_CHANGE "])
def test_a_check_may_be_typed_in_several_ways(world: World, typed: str) -> None:
    assert upkeep.check_page(world.room, typed).item.check.key == "oil_change"
