"""The queue for the machine: each thing keeps its turn, and every gram stays accounted for."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.conditions import Event
from stockroom.domain.packing import balance_of, read_split
from stockroom.errors import StockroomError
from stockroom.services import (
    bench,
    deciding,
    dryness,
    history,
    packages,
    packing,
    redrying,
    repacking,
)
from stockroom.services.dryness import DrynessTest
from stockroom.services.packages import Amount
from stockroom.services.packing import LossReason
from stockroom.services.today import round_for_today
from tests.invariants import all_troubles
from tests.services.cases_rechecks import hold, one_soft
from tests.services.steps import STEPS
from tests.services.steps_rechecks import weigh_again
from tests.services.test_undo import settled
from tests.world import APPLE, PEAS, TODAY, World, copied_world


@pytest.fixture
def held(world: World) -> World:
    """26329A01 to 03 of apples, 40 g each, held on one day; 35 g of the lot not packed."""
    one_soft(world)
    hold(world, "26329A01", sisters_too=True)
    return world


def queue(world: World) -> list[tuple[str, str]]:
    """Codes and states, in the order of the queue."""
    return [(one.code, one.state) for one in redrying.machine_queue(world.room)]


def dried(world: World, position: int, dry_dg: int) -> None:
    """Weigh a tray of the open run dry, twice, and show that it is."""
    bench.weigh_tray(world.room, position, "dry", dry_dg)
    world.show_dry(position, dry_dg, bench.run_detail(world.room).run.run_id)


def test_what_is_held_waits_in_the_order_it_came(held: World) -> None:
    later = held.later(2)
    redrying.hold_lot(held.room, "26329A", why="its packages went soft")
    codes = [held.package(one).code for one in ("26329A01", "26329A02", "26329A03")]
    assert queue(later) == [(code, "waiting") for code in (*codes, "26329A")]
    first, *_, last = redrying.machine_queue(held.room)
    assert (first.place, first.since, first.dry_dg) == ("freezer", TODAY, 400)
    assert first.reason == "slightly soft within a day of sealing"
    assert (last.code, last.package_id, last.dry_dg) == ("26329A", None, 350)
    assert last.reason == "its packages went soft"
    page = round_for_today(later.room)
    assert page.queue == redrying.machine_queue(held.room)
    assert [one.code for one in page.held] == codes
    assert all_troubles(held.room) == []


def test_several_packages_of_one_lot_share_a_tray(held: World) -> None:
    bench.start_run(held.room)
    done = redrying.load_again(held.room, 3, ["26329A02", "26329A01", "26329A02"], gross_dg=850)
    one, two, three = (held.package(code).code for code in ("26329A01", "26329A02", "26329A03"))
    assert done.codes == (two, one)
    assert done.words == f"loaded {two}, {one} ({APPLE}) again on tray 3 of run 2, 85.0 g"
    assert queue(held) == [(one, "loaded"), (two, "loaded"), (three, "waiting")]
    (tray,) = bench.run_detail(held.room).trays
    assert (tray.again, tray.wet_dg, tray.food) == ((one, two), 850, APPLE)
    dried(held, 3, 790)
    closed = bench.close_run(held.room)
    assert (closed.words, closed.codes) == (f"closed run 2; dried again: {one}, {two}", ())
    first, second, _ = redrying.machine_queue(held.room)
    assert (first.state, first.dried_dg, first.tray_position) == ("dried", 790, 3)
    assert (second.state, second.dried_dg, second.tray_id) == ("dried", 790, first.tray_id)
    assert bench.run_detail(held.room, 2).lots == ()
    assert all_troubles(held.room) == []


def test_fresh_food_beside_it_becomes_a_lot_of_its_own(held: World) -> None:
    bench.start_run(held.room)
    redrying.load_again(held.room, 1, ["26329A01"], gross_dg=420)
    bench.load_tray(held.room, 2, APPLE, gross_dg=9_000)
    expected = bench.run_detail(held.room).expected_water_dg
    assert expected is not None and 7_500 < expected < 8_000, "of the fresh apples alone"
    dried(held, 1, 395)
    dried(held, 2, 1_200)
    done = bench.close_run(held.room)
    assert done.codes == ("26329B",)
    assert done.words.startswith("closed run 2 into lot 26329B; dried again: 26329A01")
    assert (held.lot("26329B").wet_dg, held.lot("26329B").dry_dg) == (9_000, 1_200)
    assert all_troubles(held.room) == []


@pytest.mark.parametrize("way", ["abandoned", "taken out", "undone"])
def test_a_run_that_came_to_nothing_puts_all_back_in_its_place(held: World, way: str) -> None:
    redrying.hold_lot(held.room, "26329A")
    waiting = queue(held)
    bench.start_run(held.room)
    redrying.load_again(held.room, 1, ["26329A02", "26329A03"], gross_dg=850)
    redrying.load_again(held.room, 2, ["26329A"])
    assert [state for _, state in queue(held)] == ["waiting", "loaded", "loaded", "loaded"]
    dried(held, 1, 790)
    if way == "abandoned":
        bench.abandon_run(held.room)
    elif way == "taken out":
        bench.unload_tray(held.room, 1)
        bench.unload_tray(held.room, 2)
    else:
        for _ in range(6):
            history.undo(held.room)
    assert queue(held) == waiting
    assert [held.package(code).condition for code in ("26329A01", "26329A02")] == ["held"] * 2
    assert all_troubles(held.room) == []


def test_after_a_run_that_was_given_up_it_goes_on_the_next(held: World) -> None:
    bench.start_run(held.room)
    redrying.load_again(held.room, 1, ["26329A01"])
    bench.abandon_run(held.room)
    bench.start_run(held.room)
    redrying.load_again(held.room, 5, ["26329A01"])
    entry = redrying.machine_queue(held.room)[0]
    assert (entry.state, entry.run_id, entry.tray_position) == ("loaded", 3, 5)


def test_what_came_off_not_dry_enough_goes_on_again_as_a_whole(held: World) -> None:
    bench.start_run(held.room)
    redrying.load_again(held.room, 1, ["26329A01", "26329A02"], gross_dg=850)
    bench.weigh_tray(held.room, 1, "dry", 820)
    bench.close_run(held.room)
    bench.start_run(held.room)
    done = redrying.load_again(held.room, 4, ["26329A02"], gross_dg=822)
    codes = tuple(held.package(code).code for code in ("26329A01", "26329A02"))
    assert done.codes == codes, "they are one heap"
    assert [one.since for one in redrying.machine_queue(held.room)] == [TODAY] * 3
    assert dict(queue(held)) == {
        codes[0]: "loaded",
        codes[1]: "loaded",
        held.package("26329A03").code: "waiting",
    }
    dried(held, 4, 791)
    bench.close_run(held.room)
    entry = next(one for one in redrying.machine_queue(held.room) if one.code == codes[0])
    assert (entry.state, entry.dried_dg, entry.run_id) == ("dried", 791, 3)
    assert bench.run_detail(held.room, 2).trays[0].again == codes, "the first time stays on record"
    assert all_troubles(held.room) == []
    history.undo(held.room)
    assert all_troubles(held.room) == []


def test_a_discarded_package_leaves_the_queue(held: World) -> None:
    packages.discard_packages(held.room, ["26329A02"], "mould after all")
    codes = [code for code, _ in queue(held)]
    assert codes == [held.package(one).code for one in ("26329A01", "26329A03")]
    assert all_troubles(held.room) == []
    history.undo(held.room)
    assert len(queue(held)) == 3
    bench.start_run(held.room)
    redrying.load_again(held.room, 1, ["26329A01", "26329A02"])
    packages.discard_packages(held.room, ["26329A02", "26329A01"], "mould on the tray")
    assert [state for _, state in queue(held)] == ["waiting"]
    assert all_troubles(held.room) == []


def test_a_lot_leaves_the_queue_again(held: World) -> None:
    redrying.hold_lot(held.room, "26329A")
    done = redrying.leave_queue(held.room, "26329A")
    assert done.words == f"took lot 26329A ({APPLE}) out of the queue for the machine"
    assert "26329A" not in dict(queue(held))
    packing.record_loss(held.room, "26329A", 17, LossReason.TASTED)
    redrying.hold_lot(held.room, "26329A")
    assert redrying.machine_queue(held.room)[-1].dry_dg == 333
    assert packing.lot_detail(held.room, "26329A").queued == redrying.machine_queue(held.room)[-1]


@pytest.fixture
def half_packed(world: World) -> World:
    """26329A of peas, 1000 g dried to 155 g: 40 g packed, 5 g lost, 110 g not packed."""
    world.pack(world.dry_lot(), "1xjar-475:40")
    packing.record_loss(world.room, "26329A", 50, LossReason.TASTED)
    return world


def _dry_rest(world: World, wet_dg: int | None, dry_dg: int) -> None:
    """Dry what is left of the lot again on tray 6."""
    redrying.hold_lot(world.room, "26329A")
    bench.start_run(world.room)
    redrying.load_again(world.room, 6, ["26329A"], gross_dg=wet_dg)
    dried(world, 6, dry_dg)
    bench.close_run(world.room)


@pytest.mark.parametrize(
    ("wet_dg", "dry_dg", "driven_off_dg", "why"),
    [
        (1_100, 1_050, 50, "the water driven off is what it lost on the tray"),
        (None, 1_050, 50, "never weighed wet, it counts as what was left"),
        (1_130, 1_050, 50, "moisture taken up while it waited was never in the lot"),
        (1_080, 1_050, 30, "crumbs lost on the way are no water: they stay to be recorded"),
        (1_130, 1_110, 0, "not even as dry as it was"),
    ],
)
def test_a_lot_is_corrected_by_the_water_driven_off(
    half_packed: World, wet_dg: int | None, dry_dg: int, driven_off_dg: int, why: str
) -> None:
    _dry_rest(half_packed, wet_dg, dry_dg)
    detail = packing.lot_detail(half_packed.room, "26329A")
    lot = detail.lot
    assert detail.driven_off_dg == driven_off_dg, why
    assert (lot.dry_dg, lot.left_dg) == (1_550 - driven_off_dg, 1_100 - driven_off_dg)
    assert lot.water_removed_dg == 8_450 + driven_off_dg
    assert detail.queued is None
    assert queue(half_packed) == []
    assert all_troubles(half_packed.room) == []


def test_what_was_dealt_before_keeps_its_water_and_the_rest_takes_all_other(
    half_packed: World,
) -> None:
    """Of 845 g of water 40 g of dry food took 218.1 g and the loss 27.2 g; 5 g more came off."""
    jar = half_packed.package("26329A01")
    assert jar.water_dg == 2_181
    _dry_rest(half_packed, 1_100, 1_050)
    assert half_packed.package("26329A01") == jar
    codes = half_packed.pack("26329A", "3xpouch-400-foil:rest,absorber=100", place=None)
    pouches = [half_packed.package(code) for code in codes]
    assert sum(one.dry_dg for one in pouches) == 1_050
    lost_dg = packing.lot_detail(half_packed.room, "26329A").losses[0].water_dg
    assert sum(one.water_dg for one in pouches) == 8_450 + 50 - 2_181 - lost_dg
    assert max(one.water_dg for one in pouches) - min(one.water_dg for one in pouches) <= 1
    assert all_troubles(half_packed.room) == []


def test_the_gate_of_the_rest_goes_by_the_last_drying(world: World) -> None:
    world.pack(world.dry_lot(tested=False), "1xjar-475:40")
    assert not dryness.dryness_of(world.room, "26329A").open
    _dry_rest(world, 1_150, 1_100)
    assert dryness.dryness_of(world.room, "26329A").open
    dryness.record_test(world.room, 6, DrynessTest.COLD, False, run_id=2)
    assert not dryness.dryness_of(world.room, "26329A").open


@settings(max_examples=12, deadline=None)
@given(
    rounds=st.lists(
        st.tuples(
            st.integers(0, 3),  # packages packed before
            st.integers(0, 60),  # tenths of a gram lost before
            st.integers(0, 30),  # moisture taken up
            st.integers(0, 80),  # weight lost on the machine
        ),
        min_size=1,
        max_size=4,
    )
)
def test_however_often_the_rest_is_dried_again_all_adds_up(
    room_template: Path, rounds: Sequence[tuple[int, int, int, int]]
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        world = copied_world(room_template, Path(folder) / "stockroom.db")
        world.dry_lot(PEAS, 871.3, 131.7)
        for count, lost_dg, up_dg, off_dg in rounds:
            if count:
                world.pack("26329A", f"{count}xjar-475:7.3")
            if lost_dg:
                packing.record_loss(world.room, "26329A", lost_dg, LossReason.SPILT)
            wet_dg = world.lot("26329A").left_dg + up_dg
            _dry_rest(world, wet_dg, wet_dg - off_dg)
            assert all_troubles(world.room) == []
        left = world.lot("26329A")
        assert balance_of(left).left_water_dg >= 0
        packing.pack_lot(world.room, "26329A", [read_split("2xjar-950")])
        assert world.lot("26329A").left_dg == 0
        assert all_troubles(world.room) == []
        world.room.close()


def test_a_package_that_was_drawn_from_waits_with_what_is_left(world: World) -> None:
    (code,) = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100", place=None)
    packages.draw_package(world.room, code, Amount(dry_dg=150))
    packages.check_package(world.room, code, Event.SOFT)
    world.places("freezer")
    hold(world, code)
    (entry,) = redrying.machine_queue(world.room)
    assert (entry.dry_dg, entry.place) == (250, "freezer")
    assert deciding.machine_is_free(world.room) is False
    assert all_troubles(world.room) == []


SOMETIMES = (
    "bench.abandon_run",
    "bench.unload_tray",
    "bench.weigh_tray",
    "deciding.hold_package",
    "dryness.dry_longer",
    "dryness.record_test",
    "packages.check_package",
    "packages.discard_packages",
    "packages.draw_package",
    "packing.pack_lot",
    "packing.record_loss",
    "redrying.hold_lot",
    "redrying.leave_queue",
    "repacking.repack_packages",
)


def _next(world: World, chance: Random) -> object:
    """What a household with a machine may do next: mostly what is to be done, sometimes else."""
    room = world.room
    if chance.random() < 0.35:
        return STEPS[chance.choice(SOMETIMES)](room, chance)
    entries = redrying.machine_queue(room)
    there = [one for one in entries if one.state != "loaded"]
    loaded = [one for one in entries if one.state == "loaded"]
    dried_codes = [one.code for one in entries if one.state == "dried"]
    page = round_for_today(room)
    ways: list[Callable[[], object]] = [
        lambda: (
            packages.check_package(room, chance.choice(page.settle).code, Event.SOFT)
            if page.settle
            else STEPS["packages.check_package"](room, chance)
        )
    ]
    if page.suspect:
        code = chance.choice(page.suspect).code
        ways.append(lambda: hold(world, code, sisters_too=chance.random() < 0.5))
    if not page.open_runs:
        ways.append(lambda: bench.start_run(room))
    elif there:
        ways += [lambda: STEPS["redrying.load_again"](room, chance)] * 2
    if loaded:
        ways += [lambda: weigh_again(room, chance)] * 3
        ways += [lambda: bench.close_run(room, run_id=loaded[0].run_id)] * 2
    if dried_codes:
        jar = [read_split("2xjar-475")]
        code = chance.choice(dried_codes)
        ways += [lambda: repacking.repack_packages(room, [code], jar)] * 2
    return chance.choice(ways)()


@pytest.mark.parametrize("seed", range(4))
def test_however_the_queue_is_worked_all_adds_up_and_is_undone(world: World, seed: int) -> None:
    """Two lots, their packages and the machine, for a few days; each step undone and redone."""
    chance = Random(seed)
    one_soft(world)
    world.packed(PEAS, "3xpouch-400-foil:20,absorber=100", place="cellar")
    closed = 0
    for _ in range(50):
        if chance.random() < 0.05:
            world = world.later(1)
        before = settled(world.dump())
        try:
            done = _next(world, chance)
        except StockroomError:
            assert settled(world.dump()) == before
            continue
        closed += "dried again" in str(done)
        assert all_troubles(world.room) == []
        after = settled(world.dump())
        history.undo(world.room)
        assert settled(world.dump()) == before
        history.redo(world.room)
        assert settled(world.dump()) == after
    assert closed, "food came off the machine and was packed anew"
