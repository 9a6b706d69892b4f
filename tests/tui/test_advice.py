"""Packing advice by keys, from the packing form and from the page of a lot."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem
from stockroom.services import packing, places
from stockroom.services.advice import advise_lot
from stockroom.tui.screens.advice import AdviceScreen, best_by_words, packed_words
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.pack import PackScreen
from stockroom.tui.screens.working import WorkingScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.world import BEEF_RAW, PEAS, World

SameScreen = Callable[[App[Any], str], None]


async def to_pack(driver: Driver) -> PackScreen:
    """Open the packing form of the first lot of the Bench."""
    await driver.press("3", "p")
    assert isinstance(driver.screen, PackScreen)
    return driver.screen


@pytest.mark.parametrize("size", SIZES)
async def test_the_advice(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await to_pack(driver)
        await driver.press("f5")
        assert isinstance(driver.screen, AdviceScreen)
        same_screen(driver.app, "advice")
        assert HARD_NAME in driver.text
        assert QUALITY_NOT_SAFETY in driver.words


async def test_reasons_and_cautions_are_all_there(world: World) -> None:
    code = world.dry_lot(BEEF_RAW, 1000, 260)
    advice = advise_lot(world.room, code)
    async with driving(world, (80, 90)) as driver:
        await to_pack(driver)
        await driver.press("f5")
        for text in (*advice.reasons, *(one.text for one in advice.cautions)):
            assert " ".join(text.split()) in driver.words
        assert advice.cautions


async def test_every_way_is_told_in_full_under_the_cursor(world: World) -> None:
    code = world.dry_lot(PEAS, 1000, 155)
    advice = advise_lot(world.room, code)
    assert advice.advised is not None
    async with driving(world) as driver:
        await to_pack(driver)
        await driver.press("f5")
        for way in (advice.advised, *advice.others):
            said = best_by_words(way)
            assert f"{said[:1].upper()}{said[1:]}." in driver.words
            assert packed_words(way, UnitSystem.METRIC) in driver.words
            assert ("Advised:" in driver.words) == (way is advice.advised)
            await driver.press("down")


async def test_enter_on_another_way_fills_that_one_in(world: World) -> None:
    code = world.dry_lot(PEAS, 1000, 155)
    advice = advise_lot(world.room, code)
    row, jar = next(
        (row, one)
        for row, one in enumerate(advice.others, 1)
        if one.fit.container.package_kind == "jar"
    )
    async with driving(world) as driver:
        form = await to_pack(driver)
        await driver.press("f5", *["down"] * row, "enter")
        assert driver.screen is form
        assert form.splits[0].container == jar.fit.container.key
        assert jar.absorber is not None
        assert form.splits[0].absorber_cc == jar.absorber.absorber_cc


async def test_a_way_without_a_date_is_not_filled_in(world: World) -> None:
    places.add_place(world.room, "Boiler room", temperature_dc=500)
    world.dry_lot(PEAS, 1000, 155)
    async with driving(world) as driver:
        form = await to_pack(driver)
        form.place.begin()
        await driver.enter("boiler")
        await driver.press("f5")
        window = driver.screen
        assert isinstance(window, AdviceScreen)
        assert "no date" in driver.text and "No best-by: 50.0 °C" in driver.words
        await driver.press("enter")
        assert driver.screen is window
        await driver.press("w")
        assert isinstance(driver.screen, WorkingScreen)
        assert "Best-by: none: 50.0 °C" in driver.words


async def test_enter_fills_the_form_and_it_packs_so(world: World) -> None:
    world.places("cellar")
    code = world.dry_lot(PEAS, 1000, 155)
    advised = advise_lot(world.room, code).advised
    assert advised is not None and advised.absorber is not None
    async with driving(world) as driver:
        form = await to_pack(driver)
        await driver.press("f5", "enter")
        assert driver.screen is form
        assert form.lines[0].count.text == str(advised.fit.count)
        assert packing.lot_detail(world.room, code).packages == ()
        await driver.press("f9", "enter")
    packages = packing.lot_detail(world.room, code).packages
    assert {(one.container_key, one.absorber_cc, one.vacuum) for one in packages} == {
        (advised.fit.container.key, advised.absorber.absorber_cc, False)
    }
    assert len(packages) == advised.fit.count
    assert sum(one.dry_dg for one in packages) == 1550


async def test_escape_leaves_what_was_typed(world: World) -> None:
    world.dry_lot(PEAS, 1000, 155)
    async with driving(world) as driver:
        form = await to_pack(driver)
        await driver.enter("2")
        await driver.press("f5")
        assert "Enter replaces the lines typed so far" in _all(driver)
        await driver.press("escape")
        assert driver.screen is form
        assert form.lines[0].count.text == "2"


def _all(driver: Driver) -> str:
    """Everything the advice says, in view or not."""
    return " ".join(str(one.render()) for one in driver.screen.query("Static"))


async def test_the_advice_reckons_with_the_place_that_is_picked(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        form = await to_pack(driver)
        form.place.begin()
        await driver.enter("cold cellar")
        assert form.place.choice is not None
        await driver.press("f5")
        assert isinstance(driver.screen, AdviceScreen)
        assert driver.screen.place == "Cold cellar"
        expected = advise_lot(world.room, form.lot.code, place="Cold cellar")
        assert driver.screen.advice == expected
        assert "standing in Cold cellar" in driver.words


async def test_from_the_page_of_a_lot(world: World) -> None:
    code = world.dry_lot(PEAS, 1000, 155)
    async with driving(world) as driver:
        driver.app.push_screen(LotScreen(code))
        await driver.settle()
        await driver.press("a")
        assert isinstance(driver.screen, AdviceScreen)
        await driver.press("enter")
        assert isinstance(driver.screen, PackScreen)
        assert driver.screen.lines[0].in_use
