"""The Round: everything that wants doing, each thing in one list, in the order to do it."""

from __future__ import annotations

from stockroom.domain.conditions import Event
from stockroom.services import bench, packages, packing
from stockroom.services.packages import Amount
from stockroom.services.packing import LossReason
from stockroom.services.today import USE_FIRST_SHOWN, round_for_today
from tests.world import APPLE, PEAS, TODAY, World


def _codes(some: object) -> list[str]:
    return [one.code for one in some]  # type: ignore[attr-defined]


def test_a_stockroom_just_started_wants_nothing(world: World) -> None:
    page = round_for_today(world.room)
    assert page.empty
    assert page.today == TODAY


def test_the_settle_check_is_due_the_day_after_sealing(world: World) -> None:
    codes = world.packed()
    assert round_for_today(world.room).settle == ()
    assert _codes(round_for_today(world.later(1).room).settle) == list(codes)
    assert _codes(round_for_today(world.later(50).room).settle) == list(codes)
    packages.check_package(world.later(1).room, codes[0], Event.CRISP)
    assert _codes(round_for_today(world.later(1).room).settle) == [codes[1]]


def test_settle_checks_go_longest_waiting_first_then_shelf_by_shelf(world: World) -> None:
    world.places("loft", "cellar")
    later = world.later(1)
    new = later.packed(APPLE, "1xjar-475:10", place="loft")[0]
    old_cellar = world.packed(PEAS, "1xjar-475:10", place="cellar")[0]
    old_loft = world.packed(PEAS, "2xjar-475:10", place="loft")
    due = _codes(round_for_today(world.later(2).room).settle)
    assert due == [*old_loft, old_cellar, new]


def test_each_package_stands_in_its_list(world: World) -> None:
    codes = world.packed(PEAS, "5xpouch-400-foil:10,absorber=100")
    later = world.later(2)
    packages.check_package(later.room, codes[0], Event.LEAK)
    packages.check_package(later.room, codes[1], Event.CRISP)
    packages.draw_package(later.room, codes[2], Amount(dry_dg=10))
    packages.draw_package(later.room, codes[3])
    page = round_for_today(later.room)
    assert _codes(page.suspect) == [codes[0]]
    assert _codes(page.opened) == [codes[2]]
    assert _codes(page.settle) == [codes[4]]
    assert _codes(page.use_first) == [codes[1], codes[4]]
    assert page.held == ()
    assert not page.empty


def test_what_to_use_first_is_the_earliest_best_by(world: World) -> None:
    pouches = world.packed(PEAS, "2xpouch-400-foil:10,absorber=100")
    zip_bag = world.packed(PEAS, "1xbag-zip-1000:10")[0]
    jar = world.packed(PEAS, "1xjar-475:10")[0]
    page = round_for_today(world.room)
    assert _codes(page.use_first) == [zip_bag, jar, *pouches]
    assert _codes(round_for_today(world.room, use_first=1).use_first) == [zip_bag]


def test_many_opened_packages_do_not_hide_what_to_use_first(world: World) -> None:
    """Opened ones have the earliest best-by of all, and a list of their own."""
    codes = world.packed(PEAS, f"{USE_FIRST_SHOWN + 3}xpouch-400-foil:5,absorber=100")
    for code in codes[:-2]:
        packages.draw_package(world.room, code, Amount(dry_dg=1))
    page = round_for_today(world.room)
    assert len(page.opened) == USE_FIRST_SHOWN + 1
    assert _codes(page.use_first) == list(codes[-2:])


def test_the_bench_waits_too(world: World) -> None:
    lot = world.dry_lot(PEAS)
    bench.start_run(world.room)
    page = round_for_today(world.room)
    assert _codes(page.to_pack) == [lot]
    assert [run.run_id for run in page.open_runs] == [2]
    packing.record_loss(world.room, lot, None, LossReason.SPILT)
    bench.abandon_run(world.room)
    assert round_for_today(world.room).empty
