"""Places by keys: add, change, put elsewhere, remove."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.quantities import UnitSystem
from stockroom.services.household import change_household
from stockroom.services.places import list_places
from stockroom.tui.screens.package_forms import place_search
from stockroom.tui.screens.places import find_kind
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.world import World

SameScreen = Callable[[App[Any], str], None]

NARROW = (60, 20)


def paths(world: World) -> list[str]:
    """Every place, in tree order."""
    return [place.path for place in list_places(world.room)]


async def to_place(driver: Driver, *keys: str) -> None:
    """Go to the panel of places and down it."""
    await driver.press("2", "p", *keys)


async def test_the_first_place_of_an_empty_store(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("2", "a")
        await driver.enter("Cold cellar", "", "cellar", "12")
        assert isinstance(driver.screen, ShelvesScreen)
        (place,) = list_places(world.room)
        assert (place.path, place.kind, place.temperature_dc) == ("Cold cellar", "cellar", 120)
        assert "Cold cellar" in driver.text


async def test_a_place_below_the_one_in_the_panel(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await to_place(driver, "down", "a")
        await driver.enter("Rack 2", "", "", "")
        assert "Cold cellar/Rack 2" in paths(world)
        assert list_places(world.room)[4].kind == "rack"


async def test_fahrenheit_for_a_household_that_reads_it(world: World) -> None:
    change_household(world.room, units=UnitSystem.US)
    async with driving(world) as driver:
        await driver.press("2", "a")
        await driver.enter("Loft", "", "", "68")
        assert list_places(world.room)[0].temperature_dc == 200


@pytest.mark.parametrize("size", SIZES)
async def test_the_form_for_a_place(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await to_place(driver, "down", "e")
        same_screen(driver.app, "place-form")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("",), "place name: nothing cannot be read"),
        (("Nowhere/Rack 1",), "There is no place “Nowhere”"),
        (("cold CELLAR",), "There is already a place “Cold cellar”"),
        (("Attic", "", "", "hot"), "temperature: “hot” cannot be read"),
        (("Attic", "", "", "900"), "temperature"),
    ],
)
async def test_what_cannot_be_is_refused_in_the_form(
    world: World, typed: tuple[str, ...], said: str
) -> None:
    stock(world)
    before = paths(world)
    async with driving(world, NARROW) as driver:
        await driver.press("2", "a")
        await driver.enter(*typed)
        await driver.press("f9")
        assert isinstance(driver.screen, FormScreen)
        assert said in driver.words
        assert paths(world) == before


async def test_renamed_and_made_colder(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await to_place(driver, "down", "e")
        await driver.clear()
        await driver.enter(HARD_NAME.replace("/", "|"))
        await driver.press("enter")
        await driver.clear()
        await driver.enter("8,5 C")
        place = next(one for one in list_places(world.room) if one.depth == 0)
        assert (place.name, place.own_temperature_dc) == ('[|] jar [soft] "7" 冷凍', 85)
        assert "[|] jar [so" in driver.text


async def test_a_form_finished_as_it_was_opened_changes_nothing(world: World) -> None:
    stock(world)
    async with driving(world, NARROW) as driver:
        await to_place(driver, "down", "e", "f9")
        assert "Nothing was changed." in driver.words


async def test_put_below_another_with_all_that_is_in_it(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await to_place(driver, "down", "down", "P")
        await driver.enter("galley")
        assert "Galley cupboard/Rack 1/Bin 1" in paths(world)
        assert world.package(stocked.hard[0]).place == "Galley cupboard/Rack 1/Bin 1"
        await driver.press("u")
        assert "Cold cellar/Rack 1/Bin 1" in paths(world)


async def test_not_below_itself(world: World) -> None:
    stock(world)
    async with driving(world, NARROW) as driver:
        await to_place(driver, "down", "P")
        await driver.enter("bin 1")
        assert "cannot be put below" in driver.words


async def test_only_an_unused_place_is_removed(world: World) -> None:
    stock(world)
    world.places("Shed")
    async with driving(world, notices=True) as driver:
        await to_place(driver, "end", "r")
        assert "Remove Shed" in driver.text
        await driver.press("escape", "r", "enter")
        assert "Shed" not in paths(world)
        await driver.press("home", "down", "r", "enter")
        assert "Cold cellar" in paths(world)
        assert "rename it if need be" in driver.words


async def test_keys_for_a_place_need_one(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await to_place(driver, "e", "P", "r")
        assert isinstance(driver.screen, ShelvesScreen)


def test_places_are_found_by_words_then_by_likeness(world: World) -> None:
    stock(world)
    search = place_search(world.room)
    assert [choice.label for choice in search("bin 2")] == ["Cold cellar/Rack 1/Bin 2"]
    assert [choice.label for choice in search("galey cupbord")] == ["Galley cupboard"]
    assert len(search("")) == 5
    assert [choice.label for choice in find_kind("c")] == ["cupboard", "cellar"]
