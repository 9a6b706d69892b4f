"""One key for the working wherever a best-by, a water or an absorber is shown."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App
from textual.binding import Binding

from stockroom.domain.water import show_water
from stockroom.domain.working import Working
from stockroom.services import bench, kitchen, packing
from stockroom.services.advice import advise_lot
from stockroom.services.packages import water_for
from stockroom.services.whatif import gains
from stockroom.tui.help import key_sections
from stockroom.tui.palette import KeyCommands
from stockroom.tui.screens.advice import AdviceScreen
from stockroom.tui.screens.cook import CookScreen
from stockroom.tui.screens.gains import GainsScreen
from stockroom.tui.screens.labels import LabelsScreen
from stockroom.tui.screens.life_plot import LifePlotScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.pack import PackScreen
from stockroom.tui.screens.package_forms import TakeForm
from stockroom.tui.screens.run import RunScreen
from stockroom.tui.screens.whatif import WhatIfScreen
from stockroom.tui.screens.working import WorkingScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.workings import titled
from tests.world import APPLE, PEAS, World

SameScreen = Callable[[App[Any], str], None]

WITH_WORKING = (
    AdviceScreen,
    CookScreen,
    GainsScreen,
    LabelsScreen,
    LifePlotScreen,
    LotScreen,
    PackScreen,
    RunScreen,
    TakeForm,
    WhatIfScreen,
)


def shown(driver: Driver) -> tuple[Working, ...]:
    """The workings of the window in front."""
    assert isinstance(driver.screen, WorkingScreen)
    return driver.screen.workings


async def leave(driver: Driver) -> None:
    """Close the window in front."""
    await driver.press("escape")
    assert not isinstance(driver.screen, WorkingScreen)


def test_every_such_screen_binds_it_under_an_id_of_its_own() -> None:
    ids: list[str] = []
    for screen in WITH_WORKING:
        (binding,) = [
            one
            for one in Binding.make_bindings(screen.BINDINGS)
            if isinstance(one, Binding) and one.action == "working"
        ]
        typing = screen in (PackScreen, TakeForm)
        wanted = "f6" if typing else "W" if screen is RunScreen else "w"
        assert (binding.key, binding.description) == (wanted, "Working"), screen
        assert binding.tooltip.startswith(("Show how", "How"))
        ids.append(binding.id or "")
    assert all(ids) and len(set(ids)) == len(ids)


async def test_help_and_palette_have_it(world: World) -> None:
    stocked = stock(world)
    lot = world.package(stocked.hard[0]).lot_code
    async with driving(world) as driver:
        driver.app.push_screen(LotScreen(lot))
        await driver.settle()
        listed = key_sections(driver.screen.active_bindings)["On this screen"]
        (line,) = [one for one in listed if one.id == "lot-working"]
        assert (line.keys, line.description) == (("w",), "Working")
        palette = KeyCommands(driver.screen)
        names = [hit.text async for hit in palette.discover()]
        assert "Working" in names


# Packing


async def test_each_way_of_the_advice(world: World) -> None:
    code = world.dry_lot(PEAS, 1000, 155)
    advice = advise_lot(world.room, code)
    assert advice.advised is not None and advice.advised.absorber is not None
    async with driving(world) as driver:
        await driver.press("3", "p", "f5")
        for way in (advice.advised, *advice.others):
            await driver.press("w")
            found = shown(driver)
            assert titled(found, "Best-by").conclusion.startswith(str(way.best_by))
            size = titled(found, "Absorber").conclusion
            if way.absorber is not None:
                assert size == f"{way.absorber.absorber_cc} cc"
            else:
                assert size.startswith("none")
            await leave(driver)
            await driver.press("down")


@pytest.mark.parametrize("size", SIZES)
async def test_the_working_of_the_advice_as_it_looks(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await driver.press("3", "p", "f5", "w")
        same_screen(driver.app, "advice-working")


async def test_the_line_that_is_being_typed_in_the_packing_form(world: World) -> None:
    world.places("cellar")
    code = world.dry_lot(PEAS, 1000, 155)
    async with driving(world) as driver:
        await driver.press("3", "p")
        form = driver.screen
        await driver.press("f6")
        assert driver.screen is form
        assert "how many packages" in driver.words
        await driver.enter("2", "foil pouch 1.5", "62", "300", "")
        await driver.enter("1", "jar 950", "rest")
        await driver.press("f6")
        water, absorber, best_by = shown(driver)
        assert "Working: 1 × jar 950 mL" in driver.words
        # 31 of 155 g dry take 31 / 155 x 845 = 169.0 g of water.
        assert water.conclusion == show_water(1690)
        assert absorber.conclusion.endswith(" cc")
        await leave(driver)
        await driver.press("tab", "tab")
        await driver.press("f6")
        water, absorber, best_by = shown(driver)
        assert absorber.conclusion.startswith("300 cc leaves ")
        await leave(driver)
        assert driver.screen is form
        await driver.press("f9", "enter")
        assert isinstance(driver.screen, LabelsScreen)
        made = packing.lot_detail(world.room, code).packages
        await driver.press("w")
        of_pouch, pouches, of_jar, jar = shown(driver)
        assert of_pouch.conclusion == show_water(made[0].water_dg)
        assert of_jar.conclusion == show_water(made[2].water_dg)
        assert pouches.title == f"Best-by of {made[0].code}, {made[1].code}"
        assert pouches.conclusion.startswith(str(made[0].best_by))
        assert best_by.conclusion == pouches.conclusion
        assert jar.conclusion.startswith(str(made[2].best_by))


# A lot and a run


async def test_a_lot_and_the_package_under_the_cursor(world: World) -> None:
    lot = world.dry_lot(PEAS, 1000, 155)
    codes = world.pack(lot, "1xpouch-1500-foil:62,absorber=300", "1xjar-950:50")
    async with driving(world) as driver:
        driver.app.push_screen(LotScreen(lot))
        await driver.settle()
        for code in codes:
            await driver.press("w")
            water, moisture, of_package, best_by = shown(driver)
            assert water.conclusion.startswith("845.0 g removed")
            assert moisture.title == "Residual moisture"
            package = world.package(code)
            assert of_package.title == f"Water to add of {code}"
            assert of_package.conclusion == show_water(package.water_dg)
            assert best_by.conclusion.startswith(str(package.best_by))
            await leave(driver)
            await driver.press("down")


@pytest.mark.parametrize("size", SIZES)
async def test_the_working_of_a_lot_as_it_looks(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        driver.app.push_screen(LotScreen(world.package(stocked.hard[0]).lot_code))
        await driver.settle()
        await driver.press("w")
        assert HARD_NAME in driver.text
        same_screen(driver.app, "lot-working")


async def test_a_lot_without_packages(world: World) -> None:
    lot = world.dry_lot(PEAS, 1000, 155)
    async with driving(world) as driver:
        driver.app.push_screen(LotScreen(lot))
        await driver.settle()
        await driver.press("w")
        assert [one.title for one in shown(driver)] == ["Water of the lot", "Residual moisture"]


async def test_a_run_by_a_capital_letter_for_w_asks_for_the_wet_weight(world: World) -> None:
    stock(world)
    run = next(one for one in bench.list_runs(world.room) if one.state == "open")
    expected = bench.run_detail(world.room, run.run_id).expected_water_dg
    assert expected is not None
    async with driving(world) as driver:
        driver.app.push_screen(RunScreen(run.run_id))
        await driver.settle()
        await driver.press("W")
        assert shown(driver)[0].conclusion == f"{expected / 10:.1f} g"
        await leave(driver)
        await driver.press("w", "W")
        assert isinstance(driver.screen, RunScreen), "a letter is part of a weight being typed"
        assert driver.screen.line.typed == "W"


async def test_an_empty_run_has_none(world: World) -> None:
    run_id = bench.start_run(world.room).made_id
    async with driving(world) as driver:
        driver.app.push_screen(RunScreen(run_id))
        await driver.settle()
        await driver.press("W")
        assert isinstance(driver.screen, RunScreen)


# A dish, and what is taken


@pytest.mark.parametrize("size", SIZES)
async def test_a_dish(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    world.packed(PEAS, "3xpouch-400-foil:20")
    world.recipe()
    async with driving(world, size) as driver:
        driver.app.push_screen(CookScreen("Pea soup", 5))
        await driver.settle()
        await driver.press("w")
        line = kitchen.cook_sheet(world.room, "Pea soup", 5).plan.lines[0]
        assert len(line.picks) > 1
        peas, in_all = shown(driver)
        assert peas.conclusion == show_water(line.water_dg)
        assert in_all.conclusion.startswith(show_water(line.water_dg))
        same_screen(driver.app, "cook-working")
        await leave(driver)
        await driver.press("plus", "w")
        more = kitchen.cook_sheet(world.room, "Pea soup", 6).plan.lines[0]
        assert shown(driver)[0].conclusion == show_water(more.water_dg)


async def test_the_amount_that_is_typed_in_the_form_to_take(world: World) -> None:
    code = world.packed(PEAS, "1xpouch-1500-foil:62,absorber=300")[0]
    package = world.package(code)
    async with driving(world) as driver:
        await driver.press("2", "x")
        form = driver.screen
        assert isinstance(form, TakeForm)
        await driver.press("f6")
        water, best_by = shown(driver)
        assert water.conclusion == show_water(package.water_dg)
        assert best_by.conclusion.startswith(str(package.best_by))
        await leave(driver)
        await driver.type("20")
        await driver.press("f6")
        assert shown(driver)[0].conclusion == show_water(water_for(package, 200))
        await leave(driver)
        await driver.clear()
        await driver.type("some")
        await driver.press("f6")
        assert driver.screen is form
        assert form.amount.error
        await driver.clear()
        await driver.type("900")
        await driver.press("f6")
        assert driver.screen is form, "more than there is has no water"


# What could be done


async def test_every_choice_of_what_if(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash", *stocked.peas[2], "enter", "f")
        window = driver.screen
        assert isinstance(window, WhatIfScreen)
        for choice in window.ways:
            await driver.press("w")
            found = shown(driver)
            best_by = titled(found, f"Best-by, {choice.words}")
            assert best_by.conclusion.startswith(str(choice.best_by))
            if choice.kind != "now":
                gain = titled(found, "Gain").conclusion
                assert gain.startswith(f"{choice.gain_days} days")
            await leave(driver)
            await driver.press("down")


async def test_the_advice_of_gains(world: World) -> None:
    world.packed(APPLE, "2xpouch-1500-foil:30")
    (first, *_) = gains(world.room)
    async with driving(world) as driver:
        await driver.press("2", "G", "w")
        found = shown(driver)
        assert titled(found, "Gain").conclusion.startswith(f"{first.choice.gain_days} days")
        best_by = titled(found, f"Best-by, {first.choice.words}")
        assert best_by.conclusion.startswith(str(first.choice.best_by))
        await leave(driver)
        assert isinstance(driver.screen, GainsScreen)


async def test_without_advice_there_is_no_working(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("2", "G", "w")
        assert isinstance(driver.screen, GainsScreen)


async def test_the_date_over_the_life_plot(world: World) -> None:
    code = world.packed(PEAS, "1xpouch-1500-foil:62,absorber=300")[0]
    async with driving(world) as driver:
        await driver.press("2", "l")
        assert isinstance(driver.screen, LifePlotScreen)
        await driver.press("w")
        best_by = titled(shown(driver), "Best-by")
        assert best_by.conclusion.startswith(str(world.package(code).best_by))
