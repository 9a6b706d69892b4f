"""The household's settings by keys."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.quantities import UnitSystem
from stockroom.domain.units import Cup
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import driving
from tests.tui.screen_text import SIZES
from tests.tui.stocked import stock
from tests.world import World

SameScreen = Callable[[App[Any], str], None]

NARROW = (60, 20)


async def test_name_units_and_people(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("comma")
        assert isinstance(driver.screen, FormScreen)
        await driver.enter("[The] Hut")
        await driver.clear()
        await driver.enter("us", "")
        await driver.clear()
        await driver.enter("5", "")
        household = world.room.household
        assert (household.name, household.units, household.people) == (
            "[The] Hut",
            UnitSystem.US,
            5,
        )
        assert "2.12 oz dry" in driver.words
        await driver.press("u")
        assert world.room.household.units is UnitSystem.METRIC


@pytest.mark.parametrize("typed", ["0", "501", "-3", "", "1.5"])
async def test_people_are_counted_whole(world: World, typed: str) -> None:
    async with driving(world, NARROW) as driver:
        await driver.press("comma", "enter", "enter", "enter")
        await driver.clear()
        await driver.type(typed)
        await driver.press("f9")
        assert isinstance(driver.screen, FormScreen)
        assert "a whole number from 1 to 500" in driver.words
        assert world.room.household.people == 2


@pytest.mark.parametrize("size", SIZES)
async def test_the_household_form(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        await driver.press("comma")
        # The record's own path stands above the fields and is another in every test.
        driver.screen.query_one(".about").display = False
        await driver.settle()
        same_screen(driver.app, "household")
        await driver.press("tab", "tab")
        await driver.clear()
        same_screen(driver.app, "household-cups")


async def test_the_cup_water_is_measured_with(world: World) -> None:
    async with driving(world, NARROW) as driver:
        await driver.press("comma", "tab", "tab")
        await driver.clear()
        await driver.enter("lab")
        await driver.press("f9")
        assert world.room.household.cup is Cup.LABEL
        await driver.press("comma", "tab", "tab")
        await driver.clear()
        await driver.enter("pint")
        assert "Nothing matches “pint”." in driver.words
        await driver.press("escape", "escape", "escape", "u")
        assert world.room.household.cup is Cup.US


async def test_units_are_one_of_two(world: World) -> None:
    async with driving(world, NARROW) as driver:
        await driver.press("comma", "enter")
        await driver.clear()
        await driver.enter("stone")
        assert "Nothing matches “stone”." in driver.words


async def test_nothing_changed_is_said(world: World) -> None:
    async with driving(world, NARROW) as driver:
        await driver.press("comma", "f9")
        assert "Nothing was changed." in driver.words
        await driver.press("escape")
        assert not isinstance(driver.screen, FormScreen)
