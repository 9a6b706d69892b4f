"""The household's settings by keys."""

from __future__ import annotations

import pytest

from stockroom.domain.quantities import UnitSystem
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import driving
from tests.tui.stocked import stock
from tests.world import World

NARROW = (60, 20)


async def test_name_units_and_people(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("comma")
        assert isinstance(driver.screen, FormScreen)
        await driver.enter("[The] Hut")
        await driver.clear()
        await driver.enter("us")
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
        await driver.press("comma", "enter", "enter")
        await driver.clear()
        await driver.type(typed)
        await driver.press("f9")
        assert isinstance(driver.screen, FormScreen)
        assert "a whole number from 1 to 500" in driver.words
        assert world.room.household.people == 2


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
