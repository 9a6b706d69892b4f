"""The household measures of a food by keys: what a cup of it weighs, again, and forgotten."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.cooking import Basis
from stockroom.domain.quantities import UnitSystem
from stockroom.services import foods, history, measures
from stockroom.services.household import change_household
from stockroom.services.kitchen import LineRequest
from stockroom.tui.help import key_sections
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.foods import FoodsScreen
from stockroom.tui.screens.measures import MeasuresScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.world import APPLE, PEAS, World

SameScreen = Callable[[App[Any], str], None]


async def to_measures(driver: Driver) -> MeasuresScreen:
    """Open the measures of the first food, from the Bench."""
    await driver.press("3", "f", "m")
    assert isinstance(driver.screen, MeasuresScreen)
    return driver.screen


def weights(world: World, food: str = HARD_NAME) -> list[tuple[str, str, int]]:
    """The measures of a food on record."""
    found = measures.list_measures(world.room, food)
    return [(one.name, one.basis, one.weight_dg) for one in found]


@pytest.mark.parametrize("size", SIZES)
async def test_the_measures(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    foods.add_food(world.room, HARD_NAME, like=APPLE)
    async with driving(world, size) as driver:
        await to_measures(driver)
        assert "No measures yet. Press n" in driver.words
        assert "never reckon it from water" in driver.words
        same_screen(driver.app, "measures-empty")
        await driver.press("n")
        same_screen(driver.app, "measures-add")
        await driver.enter("cup", "", "38")
        await driver.press("n")
        await driver.enter("ladle [/]", "fresh", "120 g")
        same_screen(driver.app, "measures")
        await driver.press("home", "d")
        same_screen(driver.app, "measures-remove")
        await driver.press("escape", "escape")
        assert isinstance(driver.screen, FoodsScreen)
        assert "1 cup is 38.0 g dry" in driver.words
        assert "1 ladle [/] is 120.0 g fresh" in driver.words


async def test_a_measure_is_one_action(world: World) -> None:
    foods.add_food(world.room, HARD_NAME, like=APPLE)
    before = world.dump()
    async with driving(world) as driver:
        await to_measures(driver)
        await driver.press("n")
        await driver.enter("cup", "", "38")
    assert weights(world) == [("cup", "dry", 380)]
    history.undo(world.room)
    assert world.dump() == before


async def test_a_measure_is_weighed_again(world: World) -> None:
    foods.add_food(world.room, HARD_NAME, like=APPLE)
    measures.set_measure(world.room, HARD_NAME, "cup", 380)
    async with driving(world) as driver:
        await to_measures(driver)
        await driver.press("enter")
        await driver.press("tab")
        await driver.clear()
        await driver.enter("41.5")
        assert "41.5 g" in driver.text
        await driver.press("e", "f9")
        assert "has that weight already" in driver.words
        assert isinstance(driver.screen, FormScreen)
    assert weights(world) == [("cup", "dry", 415)]


async def test_rounding_does_not_creep_in_when_ounces_are_left_as_they_are(world: World) -> None:
    foods.add_food(world.room, HARD_NAME, like=APPLE)
    measures.set_measure(world.room, HARD_NAME, "cup", 617)
    change_household(world.room, units=UnitSystem.US)
    async with driving(world) as driver:
        await to_measures(driver)
        await driver.press("e")
        await driver.clear()
        await driver.enter("fresh")
        await driver.press("f9")
    assert weights(world) == [("cup", "fresh", 617)]


async def test_a_measure_is_forgotten_after_asking_and_comes_back(world: World) -> None:
    foods.add_food(world.room, PEAS, like=PEAS)
    measures.set_measure(world.room, PEAS, "cup", 380)
    cups = LineRequest(food=PEAS, basis=Basis.MEASURE, amount=Fraction(2), unit="cup")
    world.recipe("Pea soup", 2, [cups])
    async with driving(world, (100, 30), notices=True) as driver:
        await to_measures(driver)
        await driver.press("d", "escape")
        assert weights(world, PEAS) == [("cup", "dry", 380)]
        await driver.press("d")
        assert isinstance(driver.screen, ConfirmScreen)
        await driver.press("enter")
        assert weights(world, PEAS) == []
        assert "still counted in by Pea soup" in driver.words
        await driver.press("d", "e")
        assert isinstance(driver.screen, MeasuresScreen)
        await driver.press("u")
        assert weights(world, PEAS) == [("cup", "dry", 380)]
        assert "38.0 g" in driver.text


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("name", "", "a name with at least one letter"),
        ("name", "c" * 81, "at most 80 characters"),
        ("basis", "wet", "Nothing matches “wet”"),
        ("weight", "", "nothing cannot be read"),
        ("weight", "0", "a weight above 0"),
        ("weight", "-5", "“-5” cannot be read"),
        ("weight", "999999999", "100 kg at most"),
        ("weight", "冷", "“冷” cannot be read"),
    ],
)
async def test_what_cannot_be_is_refused_and_stays(
    world: World, field: str, typed: str, said: str
) -> None:
    foods.add_food(world.room, HARD_NAME, like=APPLE)
    values = {"name": "cup", "basis": "dry", "weight": "38"} | {field: typed}
    async with driving(world) as driver:
        await to_measures(driver)
        await driver.press("n")
        for value in values.values():
            await driver.clear()
            await driver.type(value)
            await driver.press("enter" if value == "dry" else "tab")
        await driver.press("f9")
        assert isinstance(driver.screen, FormScreen)
        assert said in driver.words
        assert driver.screen.answers.text(field) == typed
    assert weights(world) == []


async def test_every_key_is_listed(world: World) -> None:
    foods.add_food(world.room, HARD_NAME, like=APPLE)
    measures.set_measure(world.room, HARD_NAME, "cup", 380)
    async with driving(world) as driver:
        screen = await to_measures(driver)
        listed = key_sections(screen.active_bindings)["On this screen"]
        wanted = {"measures-add", "measures-edit", "measures-remove", "measures-back"}
        assert {one.id for one in listed} >= wanted
        assert all(one.tooltip for one in listed)


async def test_without_foods_there_is_nothing_to_measure(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("3", "f", "m")
        assert isinstance(driver.screen, FoodsScreen)
