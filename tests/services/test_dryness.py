"""What shows that food is dry, and the gate before packing without oxygen."""

from __future__ import annotations

from datetime import UTC, datetime
from fractions import Fraction

import pytest

from stockroom.domain.gate import Gate, Need
from stockroom.domain.packing import read_split
from stockroom.services import bench, dryness, history, packing
from stockroom.services.dryness import DrynessTest, GateClosed
from stockroom.services.today import round_for_today
from tests.invariants import all_troubles
from tests.world import APPLE, PEAS, TODAY, World

COLD, BREAK = DrynessTest.COLD, DrynessTest.BREAK
POUCHES = "2xpouch-400-foil:20,absorber=100"


@pytest.fixture
def run(world: World) -> int:
    """An open run with apples on trays 1 and 2, each weighed once dry; tray 2 lost less."""
    run_id = bench.start_run(world.room).made_id
    for position, dry_dg in ((1, 1_617), (2, 1_640)):
        bench.load_tray(world.room, position, APPLE, gross_dg=12_034)
        bench.weigh_tray(world.room, position, "dry", dry_dg)
    return run_id


def _weigh(world: World, *weights_dg: int) -> None:
    """Each tray once more, tray 1 first."""
    for position, weight_dg in enumerate(weights_dg, start=1):
        bench.weigh_tray(world.room, position, "dry", weight_dg)


def _all_well(world: World) -> None:
    """Both trays felt and broken: nothing cold, everything snaps."""
    for position in (1, 2):
        for kind in DrynessTest:
            dryness.record_test(world.room, position, kind, True)


def _needs(gate: Gate) -> list[Need]:
    return [one.need for one in gate.missing]


def test_the_gate_opens_when_all_is_shown_and_not_before(world: World, run: int) -> None:
    gate = dryness.run_gate(world.room)
    assert _needs(gate) == [Need.PLATEAU, Need.BREAK, Need.COLD]
    assert gate.missing[0].trays == (1, 2)
    _weigh(world, 1_616, 1_636)
    gate = dryness.run_gate(world.room)
    assert _needs(gate) == [Need.BREAK, Need.COLD]
    assert gate.slowest == 2, "it lost 0.4 g, the other 0.1 g"
    dryness.record_test(world.room, 1, COLD, True)
    dryness.record_test(world.room, 1, BREAK, True)
    assert _needs(dryness.run_gate(world.room)) == [Need.BREAK], "not the slowest tray"
    dryness.record_test(world.room, 2, BREAK, True)
    gate = dryness.run_gate(world.room)
    assert gate.open
    assert gate.words.startswith("Dryness is shown: constant weight on every tray, tray 2 snaps")
    bench.close_run(world.room)
    assert dryness.dryness_of(world.room, "26329A").open
    assert all_troubles(world.room) == []


def test_a_test_says_what_it_found(world: World, run: int) -> None:
    done = dryness.record_test(world.room, 2, COLD, False, note=" the thick end ")
    assert done.words == f"cold touch of tray 2 of run 1 ({APPLE}): a cold spot"
    done = dryness.record_test(world.room, 2, BREAK, True)
    assert done.words == f"break test of tray 2 of run 1 ({APPLE}): snaps"
    assert dryness.words_of_test(COLD, True) == "no cold spot"
    assert dryness.words_of_test(BREAK, False) == "does not snap"


@pytest.mark.parametrize(("kind", "need"), [(COLD, Need.COLD), (BREAK, Need.BREAK)])
def test_one_failed_test_closes_the_gate_until_it_passes(
    world: World, run: int, kind: DrynessTest, need: Need
) -> None:
    _weigh(world, 1_617, 1_640)
    _all_well(world)
    dryness.record_test(world.room, 1, kind, False)
    gate = dryness.run_gate(world.room)
    assert (_needs(gate), gate.missing[0].trays) == ([need], (1,))
    dryness.record_test(world.room, 1, kind, True)
    assert dryness.run_gate(world.room).open


def test_a_few_more_hours_leave_everything_before_behind(world: World, run: int) -> None:
    _weigh(world, 1_617, 1_640)
    _all_well(world)
    assert dryness.run_gate(world.room).open
    done = dryness.dry_longer(world.room, Fraction(5, 2), note="soft middle")
    assert done.words == ("run 1 dries 2.5 h more, to be weighed and tested again")
    gate = dryness.run_gate(world.room)
    assert _needs(gate) == [Need.PLATEAU, Need.BREAK, Need.COLD]
    _weigh(world, 1_616, 1_639)
    assert _needs(dryness.run_gate(world.room)) == [Need.BREAK, Need.COLD], (
        "constant since the last weighing before"
    )
    _all_well(world)
    assert dryness.run_gate(world.room).open
    for _ in range(7):
        history.undo(world.room)
    assert dryness.run_gate(world.room).open, "the extra hours are undone too"


def test_a_loss_over_the_extra_hours_keeps_it_closed(world: World, run: int) -> None:
    dryness.dry_longer(world.room, Fraction(2))
    _weigh(world, 1_560, 1_640)
    _all_well(world)
    gate = dryness.run_gate(world.room)
    assert (_needs(gate), gate.missing[0].trays) == ([Need.PLATEAU], (1,))


def test_hours_too_close_together_show_nothing(world: World, run: int) -> None:
    for hours in (Fraction(20), Fraction(41, 2)):
        for position, dry_dg in ((1, 1_617), (2, 1_640)):
            bench.weigh_tray(world.room, position, "dry", dry_dg, hours=hours)
    _all_well(world)
    gate = dryness.run_gate(world.room)
    assert _needs(gate) == [Need.PLATEAU]
    assert "0.5 h" in gate.trays[0].reason
    for position, dry_dg in ((1, 1_617), (2, 1_640)):
        done = bench.weigh_tray(world.room, position, "dry", dry_dg, hours=Fraction(43, 2))
        assert "after 21.5 h" in done.words
    assert dryness.run_gate(world.room).open


def test_an_impossible_rest_of_water_closes_the_gate(world: World) -> None:
    """Peas are four fifths water: half of the loaded weight left is no dry food."""
    lot = world.dry_lot(PEAS, 1_000, 500)
    assert _needs(dryness.dryness_of(world.room, lot)) == [Need.MOISTURE]


def test_evidence_found_after_the_run_was_closed_counts(world: World) -> None:
    lot = world.dry_lot(APPLE, 1_203.4, 161.7, tested=False)
    assert not dryness.dryness_of(world.room, lot).open
    with pytest.raises(GateClosed):
        packing.pack_lot(world.room, lot, [read_split(POUCHES)])
    for kind in DrynessTest:
        dryness.record_test(world.later(1).room, 1, kind, True, run_id=1)
    gate = dryness.dryness_of(world.room, lot)
    assert _needs(gate) == [Need.PLATEAU]


def test_a_reason_goes_with_packages_without_oxygen_and_no_others(world: World) -> None:
    lot = world.dry_lot(APPLE, 1_203.4, 161.7, tested=False)
    splits = [
        read_split(one) for one in (POUCHES, "1xjar-475:20", "1xjar-475:10,vacuum", "1xjar-950")
    ]
    done = packing.pack_lot(world.room, lot, splits, despite=" broken, dry through ")
    reasons = [world.package(code).gate_reason for code in done.codes]
    why = "broken, dry through"
    assert reasons == [why, why, "", why, ""]
    assert {"botulism", "dry-enough", "estimate-no-proof"} <= {one.key for one in done.cautions}
    assert all_troubles(world.room) == []


def test_with_air_in_it_nothing_has_to_be_shown(world: World) -> None:
    lot = world.dry_lot(APPLE, 1_203.4, 161.7, tested=False)
    done = packing.pack_lot(
        world.room, lot, [read_split("1xjar-475:20"), read_split("1xpouch-400-foil:20,absorber=0")]
    )
    assert [world.package(code).gate_reason for code in done.codes] == ["", ""]
    assert [world.package(code).low_oxygen for code in done.codes] == [False, False]


def test_no_reason_is_kept_where_the_gate_is_open(world: World) -> None:
    lot = world.dry_lot(APPLE, 1_203.4, 161.7)
    assert dryness.dryness_of(world.room, lot).open
    done = packing.pack_lot(world.room, lot, [read_split(POUCHES)], despite="it snaps")
    assert {world.package(code).gate_reason for code in done.codes} == {""}


def test_the_round_reminds_until_something_is_weighed(world: World, run: int) -> None:
    dryness.dry_longer(world.room, Fraction(24))
    dryness.dry_longer(world.room, Fraction(1, 2))
    (reminder,) = round_for_today(world.room).reminders
    assert (reminder.run_id, reminder.hours_tenths, reminder.on_day) == (run, 5, TODAY)
    assert reminder.due_at == datetime(2026, 11, 25, 12, 30, tzinfo=UTC)
    assert dryness.waited_for(world.room) == (reminder,)
    dryness.record_test(world.room, 1, COLD, True)
    assert dryness.waited_for(world.room) == (reminder,), "only a weight ends it"
    bench.weigh_tray(world.room, 1, "dry", 1_617)
    assert dryness.waited_for(world.room) == round_for_today(world.room).reminders == ()
    history.undo(world.room)
    assert dryness.waited_for(world.room) == (reminder,)


def test_several_runs_are_reminded_of_the_earliest_end_first(world: World, run: int) -> None:
    other = bench.start_run(world.room).made_id
    dryness.dry_longer(world.room, Fraction(3), run_id=run)
    dryness.dry_longer(world.room, Fraction(2), run_id=other)
    assert [one.run_id for one in dryness.waited_for(world.room)] == [other, run]
    bench.abandon_run(world.room, run_id=other)
    assert [one.run_id for one in dryness.waited_for(world.room)] == [run]
    _weigh_and_close(world, run)
    assert dryness.waited_for(world.room) == ()


def _weigh_and_close(world: World, run_id: int) -> None:
    for position in (1, 2):
        bench.weigh_tray(world.room, position, "dry", 1_600, run_id=run_id)
    bench.close_run(world.room, run_id=run_id)


def test_what_is_weighed_after_a_tray_was_taken_out_counts(world: World, run: int) -> None:
    """Numbers of rows are given again: a new weight must not take that of one left behind."""
    for kind in DrynessTest:
        dryness.record_test(world.room, 2, kind, True)
    dryness.dry_longer(world.room, Fraction(2))
    bench.unload_tray(world.room, 2)
    bench.weigh_tray(world.room, 1, "dry", 1_617)
    for kind in DrynessTest:
        dryness.record_test(world.room, 1, kind, True)
    assert dryness.waited_for(world.room) == ()
    assert dryness.run_gate(world.room).open


def test_each_lot_of_a_run_has_a_gate_of_its_own(world: World) -> None:
    apples, peas = world.dry_run([(APPLE, 1_203.4, 161.7), (PEAS, 1_000, 155)])
    dryness.record_test(world.room, 2, COLD, False, run_id=1)
    gates = [packing.lot_detail(world.room, lot).gate for lot in (apples, peas)]
    assert [gate is not None and gate.open for gate in gates] == [True, False]
    assert not dryness.run_gate(world.room, 1).open
