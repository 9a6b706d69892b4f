"""Packing advice by keys, from the packing form and from the page of a lot."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.services import packing
from stockroom.services.advice import advise_lot
from stockroom.tui.screens.advice import AdviceScreen, best_by_words
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.pack import PackScreen
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
        for other in advice.others:
            assert best_by_words(other) in driver.words


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
