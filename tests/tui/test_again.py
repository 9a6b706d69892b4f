"""Held, loaded again, packed anew: from the page of a package, by keys."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.quantities import UnitSystem, to_dg
from stockroom.services import bench, redrying, shelves
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.decide import DecideScreen
from stockroom.tui.screens.labels import LabelsScreen, label_lines
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.repack import RepackScreen
from stockroom.tui.screens.windows import CareScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.doubtful import FREEZER, doubt, dry_again
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import SIZES
from tests.tui.stocked import stock
from tests.world import PEAS, World

NARROW = (60, 20)

SameScreen = Callable[[App[Any], str], None]


async def to_package(driver: Driver, code: str) -> PackageScreen:
    """Find a package on the Shelves and open it."""
    await driver.press("2", "slash", *code, "enter", "enter")
    assert isinstance(driver.screen, PackageScreen)
    return driver.screen


def form(driver: Driver) -> FormScreen[Any]:
    """The form in front."""
    assert isinstance(driver.screen, FormScreen)
    return driver.screen


# Holding


async def test_a_sister_is_held_without_being_decided_on(world: World) -> None:
    found = doubt(world)
    async with driving(world) as driver:
        screen = await to_package(driver, found.sister)
        await driver.press("h")
        assert form(driver).heading.startswith(f"Hold {found.sister}")
        await driver.press("enter")
        assert driver.screen is screen
        package = world.package(found.sister)
        assert (package.condition, package.place) == ("held", FREEZER)
        assert [one.code for one in redrying.machine_queue(world.room)] == [
            found.held,
            found.follower,
            found.sister,
        ]
        await driver.press("u")
        assert world.package(found.sister).condition == "suspect"


async def test_a_sister_of_days_ago_is_looked_at_before_it_is_held(world: World) -> None:
    stocked = stock(world)
    async with driving(world, NARROW) as driver:
        await driver.press("s")
        await to_package(driver, stocked.hard[1])
        await driver.press("h", "f9")
        assert "has not been looked at" in driver.words
        assert world.package(stocked.hard[1]).condition == "suspect"


async def test_one_at_fault_itself_is_decided_on_not_held(world: World) -> None:
    found = doubt(world)
    async with driving(world) as driver:
        screen = await to_package(driver, found.stocked.peas[1])
        screen.hold(screen.detail.package)
        await driver.settle()
        assert isinstance(driver.screen, DecideScreen)


# Loading


@pytest.mark.parametrize("size", SIZES)
async def test_what_waits_goes_on_a_tray_together(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    found = doubt(world)
    async with driving(world, size) as driver:
        screen = await to_package(driver, found.held)
        await driver.press("a")
        same_screen(driver.app, "load-again")
        assert form(driver).answers.text("tray") == "2"
        await driver.press("enter", "enter", "enter")
        await driver.enter("215", "110")
        assert driver.screen is screen
        (run,) = [one for one in bench.list_runs(world.room) if one.state == "open"]
        tray = bench.run_detail(world.room, run.run_id).trays[-1]
        assert (tray.position, tray.again) == (2, (found.held, found.follower))
        assert (tray.wet_dg, tray.tare_dg) == (to_dg(105), to_dg(110))
        assert "on tray 2 of run" in driver.words


async def test_only_one_of_the_lot_is_loaded(world: World) -> None:
    found = doubt(world)
    async with driving(world) as driver:
        await to_package(driver, found.follower)
        await driver.press("a")
        await driver.clear()
        await driver.enter("no")
        await driver.press("f9")
        states = {one.code: one.state for one in redrying.machine_queue(world.room)}
        assert states == {found.held: "waiting", found.follower: "loaded"}


async def test_a_tray_in_use_is_refused_beside_its_number(world: World) -> None:
    found = doubt(world)
    async with driving(world, NARROW) as driver:
        await to_package(driver, found.held)
        await driver.press("a", "enter", "enter")
        await driver.clear()
        await driver.enter("1")
        await driver.press("f9")
        assert "Tray 1 already holds" in driver.words


async def test_without_an_open_run_one_is_started_first(world: World) -> None:
    found = doubt(world)
    bench.abandon_run(world.room)
    async with driving(world) as driver:
        await to_package(driver, found.held)
        await driver.press("a")
        assert isinstance(driver.screen, ConfirmScreen)
        await driver.press("escape")
        assert [one for one in bench.list_runs(world.room) if one.state == "open"] == []
        await driver.press("a", "enter")
        assert form(driver).answers.text("tray") == "1"
        await driver.press("f9")
        states = {one.state for one in redrying.machine_queue(world.room)}
        assert states == {"loaded"}


# Packing anew


async def test_dried_again_it_is_packed_as_one_heap(world: World) -> None:
    found = doubt(world)
    dry_again(world, (found.held, found.follower))
    async with driving(world) as driver:
        await to_package(driver, found.held)
        await driver.press("p")
        asked = driver.screen
        assert isinstance(asked, RepackScreen)
        assert asked.where() is None
        await driver.enter("2", "", "", "300", "")
        await driver.press("f9")
        assert isinstance(driver.screen, CareScreen)
        await driver.press("enter")
        assert isinstance(driver.screen, LabelsScreen)
        made = shelves.package_detail(world.room, found.held).successors
        assert [world.package(code).origin for code in made] == ["redried", "redried"]
        assert world.package(found.follower).condition == "used"
        assert redrying.machine_queue(world.room) == ()


async def test_a_sound_package_goes_into_others_as_it_is(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        screen = await to_package(driver, stocked.peas[2])
        await driver.press("p")
        assert "Only food that still snaps" in driver.words
        await driver.enter("2", "", "", "", "")
        await driver.press("f9", "enter", "escape")
        assert driver.screen is screen
        made = shelves.package_detail(world.room, stocked.peas[2]).successors
        assert [world.package(code).origin for code in made] == ["repacked"] * 2
        assert {world.package(code).place for code in made} == {"Cold cellar/Rack 1/Bin 2"}
        assert screen.detail.package.condition == "used"
        await driver.press("u")
        assert world.package(stocked.peas[2]).condition == "sound"


def test_the_label_carries_that_dryness_was_not_shown(world: World) -> None:
    lot = world.dry_lot(PEAS)
    plain, other = world.pack(lot, "2xpouch-1500-foil:rest,absorber=300")
    first, second = world.package(plain), world.package(other)
    assert not any("dryness" in line for line in label_lines([first, second], UnitSystem.METRIC))
    despite = replace(second, gate_reason="felt dry")
    lines = label_lines([first, despite], UnitSystem.METRIC)
    # They differ in what the label says, so that each has its own text.
    assert [line for line in lines if line.startswith("263")] == [plain, other]
    assert lines[-1] == "  dryness not shown: felt dry"
