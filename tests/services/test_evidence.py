"""What was weighed and tested, tray by tray: the batches of a run, and how a tray was judged."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.working import Working
from stockroom.errors import NotFound
from stockroom.services import bench, dryness, redrying
from stockroom.services.dryness import DrynessTest
from stockroom.services.evidence import (
    batch_working,
    lot_evidence,
    packages_evidence,
    run_evidence,
    tray_evidence,
    tray_working,
)
from tests.services.cases_rechecks import held
from tests.world import APPLE, PEAS, World


def conclusion(working: Working) -> str:
    """What the last step of a working comes to."""
    return working.steps[-1].result


def test_the_trays_of_a_food_are_one_batch_and_food_dried_again_is_its_own(world: World) -> None:
    held(world)
    run_id = bench.start_run(world.room).made_id
    for position, food in ((1, APPLE), (2, PEAS), (5, APPLE)):
        bench.load_tray(world.room, position, food, gross_dg=9000)
    redrying.load_again(world.room, 3, ["26329A01"])
    redrying.load_again(world.room, 4, ["26329A"])
    batches = run_evidence(world.room).batches
    assert [(one.food, one.codes, [t.tray.position for t in one.trays]) for one in batches] == [
        (APPLE, (), [1, 5]),
        (PEAS, (), [2]),
        (APPLE, ("26329A01E",), [3]),
        (APPLE, ("26329A",), [4]),
    ]
    assert [one.tray.position for one in run_evidence(world.room, run_id).trays] == [1, 2, 3, 4, 5]


def test_the_gate_of_a_batch_is_that_of_its_lot_once_the_run_is_closed(world: World) -> None:
    peas, apples = world.dry_run([(PEAS, 1000, 210), (APPLE, 900, 140)])
    for batch in run_evidence(world.room, 1).batches:
        (code,) = batch.codes
        assert code in (peas, apples)
        assert batch.gate == dryness.dryness_of(world.room, code)
        assert lot_evidence(world.room, code).batches == (batch,)


def test_extra_hours_are_waited_for_until_something_is_weighed(world: World) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, PEAS, gross_dg=9000)
    dryness.record_test(world.room, 1, DrynessTest.COLD, True)
    dryness.dry_longer(world.room, Fraction(2))
    evidence = run_evidence(world.room)
    assert evidence.waited_for == evidence.extra[-1]
    assert evidence.trays[0].left_behind("cold")
    assert not evidence.trays[0].left_behind("break")
    bench.weigh_tray(world.room, 1, "dry", 1900)
    assert run_evidence(world.room).waited_for is None


def queued(world: World, code: str) -> QueueEntry:
    """The place of a code in the queue."""
    return next(one for one in redrying.machine_queue(world.room) if one.code == code)


def test_food_in_packages_goes_by_its_last_drying(world: World) -> None:
    held(world)
    later = world.later(2)
    run_id = bench.start_run(later.room).made_id
    redrying.load_again(later.room, 1, ["26329A01"], gross_dg=430)
    redrying.load_again(later.room, 2, ["26329A"])
    for position, dry_dg in ((1, 395), (2, 340)):
        later.show_dry(position, dry_dg, run_id)
    bench.close_run(later.room)
    entry = queued(world, "26329A01E")
    assert entry.tray_id is not None
    again = tray_evidence(world.room, entry.tray_id)
    assert (again.run.run_id, again.trays[0].tray.again) == (2, ("26329A01E",))
    first = packages_evidence(world.room, [world.package("26329A02C")])
    assert first.run.run_id == 1


def test_of_several_packages_the_one_not_shown_to_be_dry_counts(world: World) -> None:
    shown = world.packed(PEAS)
    (code,) = world.dry_run([(APPLE, 900, 140)], tested=False)
    not_shown = world.pack(code, "1xjar-950:50")
    packages = [world.package(one) for one in (shown[0], not_shown[0])]
    assert packages_evidence(world.room, packages[:1]).batches[0].gate.open
    assert packages_evidence(world.room, packages).batches[0].codes == (code,)


WEIGHED: tuple[tuple[tuple[tuple[int, int | None], ...], str], ...] = (
    ((), "Not weighed dry"),
    (((1550, None),), "Weighed dry only once"),
    (((1550, None), (1520, None)), "still drying"),
    (((1550, 26), (1549, 24)), "they do not rise"),
)
"""Dry weights in dg with their hours → what the working has to say."""


@pytest.mark.parametrize(("weights", "said"), WEIGHED)
def test_every_tray_has_a_working(
    world: World, weights: tuple[tuple[int, int | None], ...], said: str
) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, PEAS, gross_dg=9000)
    for weight_dg, hours in weights:
        exact = None if hours is None else Fraction(hours)
        bench.weigh_tray(world.room, 1, "dry", weight_dg, hours=exact)
    weight, gate = tray_working(world.room, 1, 1).workings
    assert said in conclusion(weight)
    assert conclusion(gate).startswith("Dryness is not shown")
    (batch,) = run_evidence(world.room).batches
    assert batch_working(batch).workings == (gate,)


def test_across_the_extra_hours_the_working_takes_the_two_weights_they_part(world: World) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, PEAS, gross_dg=9000)
    for weight_dg in (1700, 1600, 1560):
        bench.weigh_tray(world.room, 1, "dry", weight_dg)
    dryness.dry_longer(world.room, Fraction(2))
    bench.weigh_tray(world.room, 1, "dry", 1555)
    weight = tray_working(world.room, 1, 1).workings[0]
    assert [one.value_text for one in weight.steps[0].inputs] == ["156.0 g", "155.5 g"]
    assert conclusion(weight).startswith("yes")


def test_a_tray_there_is_not_is_refused(world: World) -> None:
    bench.start_run(world.room)
    with pytest.raises(NotFound):
        tray_working(world.room, 1, 4)
