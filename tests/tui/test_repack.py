"""Dried again and packed anew: loading from the queue, closing, and the form for the packages."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.conditions import Event
from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.packing import read_split
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Tray
from stockroom.errors import StockroomError
from stockroom.services import bench, deciding, dryness, packages, redrying, repacking, shelves
from stockroom.services.repacking import heap_of
from stockroom.tui.base import BaseScreen
from stockroom.tui.screens.again_choices import AgainChoices
from stockroom.tui.screens.bench import BenchScreen
from stockroom.tui.screens.gate_window import GateScreen
from stockroom.tui.screens.labels import LabelsScreen
from stockroom.tui.screens.pack import PackScreen
from stockroom.tui.screens.repack import RepackScreen, begin_repacking
from stockroom.tui.screens.run import RunScreen
from stockroom.tui.screens.run_sums import closing_lines, food_sums, missing_weights
from stockroom.tui.screens.windows import CareScreen, ChoiceScreen
from tests.services.cases_rechecks import dried_again, held
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import SIZES
from tests.world import APPLE, TODAY, World

SameScreen = Callable[[App[Any], str], None]

FIRST, SECOND, THIRD = "26329A01E", "26329A02C", "26329A03A"
"""Three pouches of apples; the first was found soft on the day."""


def three_held(world: World) -> None:
    """All three pouches wait for the machine, and what is left of their lot."""
    held(world)
    for code in (SECOND, THIRD):
        deciding.hold_package(world.room, code, why="a sister went soft")


async def to_queue(driver: Driver) -> BenchScreen:
    """Go to the queue of the Bench."""
    await driver.press("3", "tab")
    assert isinstance(driver.screen, BenchScreen)
    return driver.screen


def states(world: World) -> list[tuple[str, str]]:
    """What the queue holds, in order."""
    return [(entry.code, entry.state) for entry in redrying.machine_queue(world.room)]


# The queue on the Bench


@pytest.mark.parametrize("size", SIZES)
async def test_the_queue_stands_on_the_bench_in_its_order(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    three_held(world)
    async with driving(world, size) as driver:
        screen = await to_queue(driver)
        assert [entry.code for entry in screen.queue.values()] == [FIRST, "26329A", SECOND, THIRD]
        same_screen(driver.app, "bench-queue")
        assert "dried first" in driver.text  # what is left of the lot is not packed now


async def test_nothing_waits_and_nothing_is_shown(world: World) -> None:
    world.packed(APPLE)
    async with driving(world) as driver:
        await driver.press("3")
        assert "Waiting for the machine" not in driver.text


async def test_enter_on_what_waits_loads_it_without_leaving_the_bench(world: World) -> None:
    held(world)
    bench.start_run(world.room)
    async with driving(world) as driver:
        await to_queue(driver)
        await driver.press("enter", "f9")
        assert states(world)[0] == (FIRST, "loaded")
        assert "on run 2" in driver.text
        await driver.press("enter")
        assert isinstance(driver.screen, RunScreen)
        assert driver.screen.run_id == 2


async def test_p_on_what_still_waits_says_that_it_is_dried_first(world: World) -> None:
    held(world)
    async with driving(world, notices=True) as driver:
        await to_queue(driver)
        await driver.press("p")
        assert "it is packed anew once it has been dried" in driver.words
        await driver.press("down", "p")
        assert "is in the queue for the machine" in driver.words
        assert isinstance(driver.screen, BenchScreen)


# Loading from the queue


def entry(number: int, lot: str, package: str = "", state: str = "waiting") -> QueueEntry:
    """Something in the queue."""
    return QueueEntry(
        number, ord(lot[-1]), lot, number if package else None, package, f"food {lot}", 400,
        TODAY, "", state, None, None, None, None, "",
    )  # fmt: skip


def test_what_waits_is_offered_in_its_order_and_lots_mates_together_first() -> None:
    queue = [
        entry(1, "26329A", "26329A01E"),
        entry(2, "26329B"),
        entry(3, "26329A", "26329A02C"),
        entry(4, "26329C", "26329C01X", "dried"),
    ]
    again = AgainChoices(queue)
    assert [again.codes_of(choice) for choice in again.matching("")] == [
        ("26329A01E", "26329A02C"),
        ("26329A01E",),
        ("26329B",),
        ("26329A02C",),
    ]
    assert again.hint == "26329A01E and 2 more to be dried again: type “again”, or a code."
    assert AgainChoices([queue[3]]).hint == ""


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("again", 4),
        ("26329b", 1),
        ("a01", 2),
        ("a01 a02", 1),
        ("a01 a03", 1),
        ("a01 b", 0),
        ("zzz", 0),
        ("a01 a01", 2),
    ],
)
def test_what_waits_is_found_by_codes(typed: str, found: int) -> None:
    """`a01 a03` takes two packages of three: those, and no others."""
    mates = [entry(n, "26329A", f"26329A0{n}E") for n in (1, 2, 3)]
    queue = [*mates, entry(4, "26329B")] if typed == "a01 a03" else [
        *mates[:2], entry(4, "26329B"),
    ]  # fmt: skip
    again = AgainChoices(queue)
    choices = again.matching(typed)
    assert len(choices) == found
    if typed == "a01 a03":
        assert again.codes_of(choices[0]) in (
            ("26329A01E", "26329A02E", "26329A03E"),
            ("26329A01E", "26329A03E"),
        )


async def test_a_tray_takes_packages_of_one_lot_together(world: World) -> None:
    three_held(world)
    run_id = bench.start_run(world.room).made_id
    async with driving(world) as driver:
        await driver.press("3", "enter", "a")
        assert "to be dried again: type “again”, or a code" in driver.words or (
            "Dry again" in driver.words
        )
        await driver.enter("again 26329A01E", "120")
        await driver.press("f9")
        assert f"on tray 1: {FIRST}, {SECOND}, {THIRD}" in driver.words
        assert "i No cold spot" in driver.text
    (tray,) = bench.run_detail(world.room, run_id).trays
    assert (tray.again, tray.wet_dg) == ((FIRST, SECOND, THIRD), 1200)


async def test_the_cautions_of_food_dried_again_are_its_foods(world: World) -> None:
    held(world)
    bench.start_run(world.room)
    async with driving(world) as driver:
        await driver.press("3", "enter", "a")
        await driver.enter("again")
        assert "Sugary food may stay tacky" in driver.words


def again_tray(dry_dg: int | None) -> Tray:
    """A tray of food dried again."""
    return Tray(3, 1, 3, 1, "food 1", None, None, None, dry_dg, again=(FIRST,))


def test_food_dried_again_is_in_no_lot_and_needs_no_loaded_weight() -> None:
    fresh = Tray(1, 1, 1, 1, "food 1", None, None, 10000, 1552)
    (one,) = food_sums([fresh, again_tray(390)])
    assert one.positions == (1,)
    assert missing_weights([fresh, again_tray(390)]) == ()
    assert missing_weights([again_tray(None)]) == ("tray 3, food 1: dry weight",)
    lines = closing_lines([again_tray(390)], UnitSystem.METRIC)
    assert not any("lot:" in line for line in lines)
    assert any(FIRST in line for line in lines)


def test_water_to_expect_leaves_out_food_that_was_dry_before(world: World) -> None:
    """85.56 g in 100 g: USDA SR28, apple with skin (NDB 09003)."""
    held(world)
    run_id = bench.start_run(world.room).made_id
    bench.load_tray(world.room, 1, "Apple, raw, with skin", gross_dg=10_000)
    redrying.load_again(world.room, 2, [FIRST], gross_dg=430)
    assert bench.run_detail(world.room, run_id).expected_water_dg == 8556


# Off the machine


async def test_closing_says_what_came_off_and_leads_to_packing_it(world: World) -> None:
    held(world)
    run_id = bench.start_run(world.room).made_id
    redrying.load_again(world.room, 1, [FIRST], gross_dg=430)
    redrying.load_again(world.room, 2, ["26329A"])
    async with driving(world) as driver:
        await driver.press("3", "enter")
        await driver.enter("39.5", "34")
        await driver.press("c")
        assert "No lot is made of food dried again" in driver.words
        await driver.press("enter")
        assert isinstance(driver.screen, ChoiceScreen)
        assert f"tray 1: {FIRST}" in driver.words
        assert "3.5 g of water driven off" in driver.words
        await driver.press("enter")
        assert isinstance(driver.screen, RepackScreen)
        await driver.press("escape")
        assert isinstance(driver.screen, RunScreen)
        await driver.press("end", "p")
        assert isinstance(driver.screen, PackScreen)
        assert driver.screen.lot.left_dg == 340
    assert bench.run_detail(world.room, run_id).run.state == "closed"
    assert states(world) == [(FIRST, "dried")]


async def test_what_came_off_may_wait(world: World) -> None:
    held(world)
    bench.start_run(world.room)
    redrying.load_again(world.room, 1, [FIRST])
    bench.weigh_tray(world.room, 1, "dry", 390)
    async with driving(world) as driver:
        await driver.press("3", "enter", "c", "enter", "down", "enter")
        assert isinstance(driver.screen, RunScreen)
        await driver.press("escape")
        assert "to pack anew" in driver.text
    assert states(world)[0] == (FIRST, "dried")


# Packing anew


async def pack_line(driver: Driver, count: str, *cells: str) -> None:
    """Fill the first line in, with the container that is offered."""
    await driver.enter(count, "", *cells)


async def test_food_dried_again_is_packed_anew_by_keys(world: World) -> None:
    dried_again(world)
    async with driving(world) as driver:
        await to_queue(driver)
        await driver.press("enter")
        assert isinstance(driver.screen, RepackScreen)
        assert f"{FIRST}, {APPLE}: 39.5 g dry off tray 1 of run 2; 40.0 g went in" in driver.words
        assert "Dryness is shown" in driver.words
        await pack_line(driver, "2", "", "100", "")
        assert "each 19.8 g dry" in driver.words
        await driver.press("f9")
        assert isinstance(driver.screen, CareScreen)
        await driver.press("enter")
        assert isinstance(driver.screen, LabelsScreen)
        await driver.press("enter")
        assert isinstance(driver.screen, BenchScreen)
    made = [shelves.package_detail(world.room, code) for code in ("26329A04", "26329A05")]
    assert [one.package.dry_dg for one in made] == [198, 197]
    assert all(one.sources == (FIRST,) and not one.package.gate_reason for one in made)
    assert world.package(FIRST).condition == "used"
    assert states(world) == []


def a_heap_weighed_once(world: World) -> None:
    """The soft pouch dried again, weighed once and never tested: its gate is closed."""
    held(world)
    bench.start_run(world.room)
    redrying.load_again(world.room, 1, [FIRST], gross_dg=430)
    bench.weigh_tray(world.room, 1, "dry", 395)
    bench.close_run(world.room)


@pytest.mark.parametrize("size", SIZES)
async def test_a_closed_gate_asks_why_and_every_package_says_it(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    a_heap_weighed_once(world)
    async with driving(world, size) as driver:
        await to_queue(driver)
        await driver.press("enter")
        form = driver.screen
        assert isinstance(form, RepackScreen)
        assert not form.wants_reason
        await driver.enter("1", "", "")
        await driver.type("100")
        same_screen(driver.app, "repack")
        await driver.press("f9")
        assert driver.screen is form
        assert "Say why it is packed so all the same" in driver.words
        await driver.press("f7")
        assert isinstance(driver.screen, GateScreen)
        await driver.press("i", "b", "escape")
        assert driver.screen is form
        assert form.lines[0].absorber.text == "100"
        assert "no cold-touch test" not in driver.words
        form.despite.begin()
        await driver.type("[/] it snaps")
        await driver.press("f9")
        assert isinstance(driver.screen, CareScreen)
        assert "Each package says: dryness not shown: [/] it snaps." in driver.words
        assert {"botulism", "estimate-no-proof"} <= {one.key for one in driver.screen.cautions}
        await driver.press("enter")
    (code,) = shelves.package_detail(world.room, FIRST).successors
    assert world.package(code).gate_reason == "[/] it snaps"


async def test_what_is_not_packed_leaves_the_record_and_that_is_said(world: World) -> None:
    dried_again(world)
    async with driving(world) as driver:
        await to_queue(driver)
        await driver.press("enter")
        await pack_line(driver, "1", "30", "", "")
        await driver.press("f9")
        assert "9.5 g goes into no package: it counts as gone" in driver.words


async def test_more_than_came_off_is_refused_and_stays(world: World) -> None:
    dried_again(world)
    async with driving(world) as driver:
        await to_queue(driver)
        await driver.press("enter")
        form = driver.screen
        assert isinstance(form, RepackScreen)
        await pack_line(driver, "2", "30", "", "")
        await driver.press("f9")
        assert driver.screen is form
        assert "39.5 g of dry food left; 60.0 g was asked for" in driver.words
        assert form.lines[0].each.text == "30"


async def test_food_that_still_snaps_goes_as_it_is_by_its_last_drying(world: World) -> None:
    (code, _) = world.packed(APPLE)
    day_after = world.later(1)
    packages.check_package(day_after.room, code, Event.CRISP)
    async with driving(day_after) as driver:
        screen = driver.screen
        assert isinstance(screen, BaseScreen)
        begin_repacking(screen, [code])
        await driver.settle()
        assert isinstance(driver.screen, RepackScreen)
        assert "Only food that still snaps goes as it is" in driver.words
        assert "Dryness is shown" in driver.words
        await driver.press("f7")
        assert isinstance(driver.screen, GateScreen)
        await driver.press("B", "escape")
        assert "which is no bar without absorber and vacuum" in driver.words
        dryness.record_test(world.room, 1, dryness.DrynessTest.BREAK, True, run_id=1)
        await pack_line(driver, "1", "", "100", "")
        await driver.press("f9", "enter")
    (made,) = shelves.package_detail(day_after.room, code).successors
    assert day_after.package(made).origin == "repacked"


async def test_what_cannot_be_packed_anew_is_told(world: World) -> None:
    held(world)
    async with driving(world, notices=True) as driver:
        screen = driver.screen
        assert isinstance(screen, BaseScreen)
        begin_repacking(screen, [FIRST])
        await driver.settle()
        assert driver.screen is screen
        assert "waits for the machine" in driver.words


# What the form shows is what the service does


@pytest.mark.parametrize("split", ["2xpouch-400-foil", "3xpouch-400-foil:10"])
def test_the_heap_is_what_is_dealt_out(world: World, split: str) -> None:
    dried_again(world)
    before = world.whole_dump()
    heap = heap_of(world.room, [FIRST])
    assert world.whole_dump() == before
    assert (heap.total.dry_dg, heap.gate is not None and heap.gate.open) == (395, True)
    codes = repacking.repack_packages(world.room, [FIRST], [read_split(split)]).codes
    made = [world.package(code) for code in codes]
    dry_dg = sum(package.dry_dg for package in made)
    water_dg = sum(package.water_dg for package in made)
    share = Fraction(dry_dg, heap.total.dry_dg)
    assert abs(water_dg - share * heap.total.water_dg) <= 1
    assert (dry_dg == heap.total.dry_dg) is (split == "2xpouch-400-foil")


@pytest.mark.parametrize("codes", [[], [FIRST, "26329A02"], ["26329A99"]])
def test_a_heap_of_what_does_not_go_together_is_refused(world: World, codes: list[str]) -> None:
    dried_again(world)
    with pytest.raises(StockroomError):
        heap_of(world.room, codes)
