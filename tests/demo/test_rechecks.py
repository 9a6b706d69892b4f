"""What the demo shows of rechecks: two years of looks, doubts with every ending, a kept machine."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from seeds_demo.build import DEMO_DAY, FIRST_DAY, build_demo
from seeds_demo.remembering import Remembering
from seeds_demo.rounds import MOST_A_DAY, SATURDAY, WEDNESDAY
from seeds_demo.tables import Row, day_of, read_rows
from stockroom.clock import FixedClock
from stockroom.domain.common_ground import Ground, Telling
from stockroom.domain.conditions import Event
from stockroom.domain.doubts import Doubt
from stockroom.domain.leak import LeakVerdict
from stockroom.domain.records import Package
from stockroom.domain.soft_outcome import Outcome
from stockroom.domain.upkeep import UpkeepState
from stockroom.services.dryness import run_gate
from stockroom.services.packing import lot_detail
from stockroom.services.rechecks import recheck_reasons, rechecks_today, schedule
from stockroom.services.redrying import machine_queue
from stockroom.services.results import PackageDetail
from stockroom.services.session import Stockroom
from stockroom.services.shelves import find_packages, package_detail, shelf_filter
from stockroom.services.today import round_for_today
from stockroom.services.tracing import in_common, trace
from stockroom.services.upkeep import upkeep_due, upkeep_page

SET_ASIDE = frozenset((WEDNESDAY, SATURDAY))
LOOKS = frozenset((Event.CRISP, Event.SOFT, Event.LEAK, Event.DAMAGED))


def packages(room: Stockroom) -> tuple[Package, ...]:
    """Every package there ever was."""
    return find_packages(room, shelf_filter(room, gone=True))


def details(room: Stockroom) -> tuple[PackageDetail, ...]:
    """Every package there ever was with its history."""
    return tuple(package_detail(room, one.code) for one in packages(room))


def events(detail: PackageDetail) -> list[str]:
    """What happened to a package, in order."""
    return [line.event for line in detail.history]


def looked_at_on(room: Stockroom, day: date) -> set[str]:
    """Codes of the packages somebody looked at on a day."""
    rows = room.store.query(
        "SELECT DISTINCT package.code FROM package_event"
        " JOIN package ON package.id = package_event.package_id"
        " WHERE event IN ('crisp', 'soft', 'leak', 'damaged') AND on_day = ?",
        (day.isoformat(),),
    )
    return {row[0] for row in rows}


class TestRounds:
    """Looked at on the days set aside, by the schedule, for two years."""

    def test_the_hut_looks_twice_a_week(self, demo: Stockroom) -> None:
        wishes = schedule(demo)
        assert (wishes.set_aside, wishes.most_a_day) == (SET_ASIDE, MOST_A_DAY)
        assert DEMO_DAY.weekday() in SET_ASIDE

    @pytest.mark.parametrize("day", [date(2025, 2, 19), date(2025, 12, 13)])
    def test_what_the_schedule_asked_for_was_looked_at(
        self, demo: Stockroom, tmp_path: Path, day: date
    ) -> None:
        """On a day on which nothing else was looked at: not more and not less."""
        eve = build_demo(tmp_path / "eve.db", until=day - timedelta(days=1))
        asked = rechecks_today(replace(eve, clock=FixedClock(day))).packages
        assert 0 < len(asked) <= MOST_A_DAY
        assert {one.code for one in asked} == looked_at_on(demo, day)
        eve.close()

    def test_two_years_of_looks(self, demo: Stockroom) -> None:
        days = (FIRST_DAY + timedelta(days=one) for one in range((DEMO_DAY - FIRST_DAY).days))
        rounds = [len(looked_at_on(demo, day)) for day in days if day.weekday() in SET_ASIDE]
        assert len(rounds) == 215
        assert sum(one > 0 for one in rounds) > 190

    def test_every_package_that_is_due_is_a_handful_today(self, demo: Stockroom) -> None:
        due = rechecks_today(demo)
        assert 4 <= len(due.packages) <= 9
        assert due.waiting == 0
        assert all(recheck_reasons(demo, one.code) for one in due.packages)
        assert len({one.food for one in due.packages}) >= 3

    def test_packages_not_looked_at_for_long_are_few(self, demo: Stockroom) -> None:
        """Half a year and what may be waited on top of it: a quarter and days to one set aside."""
        longest = timedelta(days=183 + 46 + 3)
        for one in details(demo):
            if one.package.condition == "sound":
                looks = [line.on_day for line in one.history if line.event in LOOKS]
                assert DEMO_DAY - looks[-1] <= longest, one.package.code


class TestDoubts:
    """Every way a doubt can end, and some that have not ended."""

    def test_today_there_is_one_of_each_kind(self, demo: Stockroom) -> None:
        page = round_for_today(demo)
        assert set(page.doubts) == {Doubt.SOFT, Doubt.LEAK, Doubt.DAMAGED, Doubt.SISTER}

    def test_two_sisters_of_a_soft_one_are_still_in_doubt(self, demo: Stockroom) -> None:
        risotto = lot_detail(demo, "26312A").packages
        conditions = Counter(one.condition for one in risotto)
        assert conditions == {"sound": 7, "suspect": 2, "discarded": 1}
        assert {one.place for one in risotto if one.condition == "suspect"} == {
            "galley cupboard/low shelf"
        }

    def test_decisions_have_every_outcome_the_rules_give_here(self, demo: Stockroom) -> None:
        taken = [one for detail in details(demo) for one in detail.inspections]
        assert {one.outcome for one in taken} == {Outcome.HOLD, Outcome.REPACK, Outcome.DISCARD}
        assert {one.rule for one in taken} == {
            "within_a_day",
            "soft_fruit",
            "still_snaps",
            "low_acid_no_oxygen",
        }
        assert len(taken) == len(read_rows("decisions"))

    def test_held_within_a_day_with_its_sister(self, demo: Stockroom) -> None:
        held = round_for_today(demo).held
        assert {(one.lot_code, one.place) for one in held} == {("26326C", "chest freezer")}
        assert len(held) == 2
        assert all(one.gate_reason for one in held), "it was packed without a second weighing"

    def test_queue_has_packages_and_the_rest_of_a_lot(self, demo: Stockroom) -> None:
        queue = machine_queue(demo)
        assert [one.state for one in queue] == ["waiting"] * 3
        (rest,) = [one for one in queue if one.package_id is None]
        detail = lot_detail(demo, rest.lot_code)
        assert detail.gate is not None and not detail.gate.open
        assert detail.lot.packages == 1 and rest.dry_dg == detail.lot.left_dg

    def test_dried_again_and_back_on_the_shelf(self, demo: Stockroom) -> None:
        (one,) = [one for one in packages(demo) if one.origin == "redried"]
        assert (one.food, one.condition) == ("blackberries", "sound")
        assert one.first_sealed_on is not None and one.first_sealed_on < one.sealed_on
        (source,) = package_detail(demo, one.code).sources
        assert source.startswith("26250A06")
        assert Event.REDRIED in events(package_detail(demo, source))
        assert [drying.again for drying in trace(demo, one.code).dryings] == [False, True]

    def test_leaking_but_crisp_and_packed_anew(self, demo: Stockroom) -> None:
        anew = [one for one in packages(demo) if one.origin == "repacked"]
        assert Counter(one.condition for one in anew) == {"sound": 1, "used": 1}
        for one in anew:
            (source,) = package_detail(demo, one.code).sources
            happened = events(package_detail(demo, source))
            assert happened.index(Event.LEAK) < happened.index(Event.REPACKED)

    def test_low_acid_found_late_was_discarded_by_decision(self, demo: Stockroom) -> None:
        for one in details(demo):
            for decision in one.inspections:
                if decision.rule == "low_acid_no_oxygen":
                    assert one.package.condition == "discarded" and one.package.low_oxygen
                    assert events(one)[-1] == Event.DISCARD

    @pytest.mark.parametrize("kind", ["packet", "box"])
    def test_recalled_and_looked_at_one_by_one(self, demo: Stockroom, kind: str) -> None:
        (row,) = [one for one in read_rows("diary") if (one["did"], one["amount"]) == _RECALL[kind]]
        day = day_of(row, "day")
        for detail in details(demo):
            lines = detail.history
            recalled = [line.event == Event.RECALL and line.on_day == day for line in lines]
            if any(recalled):
                after = lines[recalled.index(True) + 1]
                assert (after.event in LOOKS, after.on_day) == (True, day), detail.package.code
        assert DEMO_DAY - day > timedelta(days=100)


_RECALL = {kind: ("recalled", kind) for kind in ("packet", "box")}


class TestCommon:
    """Something stands apart, something else is too few to tell."""

    def test_one_box_stands_apart(self, demo: Stockroom) -> None:
        groups = in_common(demo).groups
        more = {(one.ground, one.name) for one in groups if one.telling is Telling.MORE}
        assert (Ground.BOX, "950-c") in more
        assert len(more) <= 4, "not everything stands out"
        few = [one for one in groups if one.telling is Telling.TOO_FEW]
        assert few and all(one.here.soft for one in few)

    def test_packets_boxes_and_trays_are_on_record(self, demo: Stockroom) -> None:
        every = packages(demo)
        with_absorber = [one for one in every if one.absorber_cc]
        assert sum(bool(one.absorber_packet) for one in with_absorber) > 0.8 * len(with_absorber)
        assert sum(bool(one.container_box) for one in every) > 0.6 * len(every)
        assert 0.1 * len(every) < sum(one.tray_position is not None for one in every)
        assert not any(one.container_box for one in every if one.package_kind == "jar")


class TestBench:
    """Dryness not shown yet, and packed without its being shown."""

    def test_cold_spot_and_hours_more(self, demo: Stockroom) -> None:
        page = round_for_today(demo)
        (run,), (more,) = page.open_runs, page.reminders
        assert (more.run_id, more.hours_tenths, more.on_day) == (run.run_id, 60, DEMO_DAY)
        gate = run_gate(demo, run.run_id)
        assert not gate.open
        cold = [row for row in read_rows("runs") if row["state"] == "open"]
        assert [row["cold_tray"] for row in cold] == ["4"]

    def test_some_carry_the_reason_they_were_packed_for_all_that(self, demo: Stockroom) -> None:
        reasons = {one.lot_code for one in packages(demo) if one.gate_reason}
        live = {one.lot_code for one in packages(demo) if one.gate_reason and not one.gone_on}
        assert len(reasons) >= 4 and live >= {"25251A", "26326C"}
        for code in reasons:
            gate = lot_detail(demo, code).gate
            assert gate is not None and not gate.open, code


class TestUpkeep:
    """The machine is looked after, and two things want doing."""

    def test_two_checks_are_due(self, demo: Stockroom) -> None:
        assert [one.check.key for one in upkeep_due(demo)] == ["scale", "coil"]
        states = Counter(one.state for one in upkeep_page(demo).items)
        assert states == {UpkeepState.DUE: 2, UpkeepState.LATER: 8, UpkeepState.OFF: 2}

    def test_leak_tests_and_a_seal_put_right(self, demo: Stockroom) -> None:
        tests = upkeep_page(demo, tests=50).tests
        assert len(tests) == 13
        over = [one.on_day for one in tests if one.leak.verdict is LeakVerdict.OVER]
        assert over == [date(2026, 1, 31)]
        assert tests[0].leak.verdict is LeakVerdict.WITHIN, "the latest one"

    def test_chamber_was_empty_for_each_leak_test(self) -> None:
        runs = [(day_of(run, "started"), day_of(run, "unloaded")) for run in read_rows("runs")]
        for row in read_rows("upkeep"):
            if row["task"] == "leak":
                day = day_of(row, "day")
                assert not any(start <= day < end for start, end in runs), day

    def test_checks_are_in_order_of_day(self) -> None:
        days = [day_of(row, "day") for row in read_rows("upkeep")]
        assert all(earlier <= later for earlier, later in pairwise(days))
        assert days[-1] < DEMO_DAY


def test_nobody_works_in_the_dark(demo: Stockroom) -> None:
    """Diary, decisions and packings name things by codes that exist."""
    codes = {one.code[:8] for one in packages(demo)}
    rows: list[Row] = [*read_rows("decisions"), *read_rows("repackings")]
    named = {code for row in rows for code in (row.get("package") or row["packages"]).split()}
    assert named <= codes


def test_remembered_dates_are_the_models_own(demo: Stockroom) -> None:
    """The demo is built with a memory; without one the same dates come out."""
    from stockroom.services.keeping import case_of, standard_model

    some = [one for one in packages(demo) if one.best_by][::7]
    cases = [case_of(demo, one) for one in some]
    remembering = Remembering(standard_model())
    first, again = remembering.project_many(cases), remembering.project_many(cases)
    assert first == again == list(standard_model().project_many(cases))
    assert remembering.name == standard_model().name
