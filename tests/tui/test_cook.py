"""The cook sheet by keys: servings, water, whole packages, raw food, stand-ins, and the clock."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from fractions import Fraction
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.cooking import Basis, CookLine, CookPlan, StoredNeed
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.rotation import Candidate, Pick
from stockroom.domain.units import Cup
from stockroom.domain.water_share import WaterWay
from stockroom.services import history, kitchen, measures, packing, recipes
from stockroom.services.household import change_household
from stockroom.services.kitchen import LineRequest
from stockroom.tui.help import key_sections
from stockroom.tui.palette import KeyCommands
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.cook import CookScreen
from stockroom.tui.screens.cook_instead import InsteadScreen
from stockroom.tui.screens.cook_order import Order
from stockroom.tui.screens.cook_water import water_lines
from stockroom.tui.screens.kitchen import KitchenScreen
from stockroom.tui.screens.windows import ChoiceScreen, ReadScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.dishes import EGG, SOY, eggs, raw_stew, short_soup, soup
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.world import BEEF_RAW, PEAS, TODAY, World

SameScreen = Callable[[App[Any], str], None]

TALL = (100, 60)


async def to_sheet(driver: Driver, people: str = "2") -> CookScreen:
    """Open the sheet of the first recipe for so many people."""
    await driver.press("4", "enter")
    await driver.enter(people)
    assert isinstance(driver.screen, CookScreen)
    return driver.screen


def meals(world: World) -> list[tuple[str, int]]:
    """What was cooked, and for how many."""
    return [(meal.name, meal.people) for meal in kitchen.list_meals(world.room)]


# Keys


async def test_every_key_is_in_help_and_palette(world: World) -> None:
    soup(world)
    async with driving(world) as driver:
        screen = await to_sheet(driver, "20")
        listed = key_sections(screen.active_bindings)["On this screen"]
        ids = {one.id for one in listed}
        assert ids >= {"cook-take", "cook-instead", "cook-more", "cook-less", "cook-servings"}
        assert all(one.tooltip for one in listed)
        names = [hit.text async for hit in KeyCommands(screen).discover()]
        assert {"Take it", "Instead", "Servings", "Working"} <= set(names)


async def test_keys_that_have_nothing_to_do_are_not_offered(world: World) -> None:
    soup(world)
    async with driving(world, TALL) as driver:
        screen = await to_sheet(driver)
        await driver.press("c", "i", "f")
        assert driver.screen is screen
        assert screen.order == Order("Pea soup", 2)
        for word in ("Instead", "Cooked to", "Take whole"):
            assert word not in driver.text


# Servings


async def test_servings_are_typed_and_go_by_one(world: World) -> None:
    soup(world)
    async with driving(world) as driver:
        screen = await to_sheet(driver, "3")
        await driver.press("s")
        await driver.enter("2 1/2")
        assert screen.order.servings == Fraction(5, 2)
        assert "for 3 people, 2 1/2 servings" in driver.words
        assert screen.sheet is not None
        assert screen.sheet.plan.lines[0].need.wanted_dg == 2500
        await driver.press("plus", "plus", "minus")
        assert screen.order.servings == Fraction(7, 2)
        assert screen.order.people == 3
        await driver.press("s")
        await driver.clear()
        await driver.press("enter")
        assert screen.order.servings is None
        assert "for 3 people (the recipe serves 2)" in driver.words
        await driver.press("s")
        await driver.enter("4")
        await driver.press("t", "enter", "enter")
    (meal,) = kitchen.list_meals(world.room)
    assert (meal.people, meal.rehydration_water_dg) == (3, 3380)


@pytest.mark.parametrize("typed", ["0", "-1", "1001", "1/0", "..", "5000000"])
async def test_wrong_servings_are_refused_and_stay(world: World, typed: str) -> None:
    soup(world)
    async with driving(world) as driver:
        await to_sheet(driver)
        await driver.press("s")
        await driver.enter(typed)
        assert isinstance(driver.screen, FormScreen)
        assert driver.screen.answers.text("servings") == typed
        assert "! servings:" in driver.words


def test_one_less_stops_at_the_last() -> None:
    one = Order("Soup", 1)
    assert one.more(-1) is one
    assert one.more(1).people == 2
    half = Order("Soup", 1, Fraction(1, 2))
    assert half.more(-1) is half
    assert half.more(1).servings == Fraction(3, 2)


# Water


CANDIDATE = Candidate(1, "26329A01E", 1, TODAY, TODAY, False, 620, 3380)


def planned(held: int) -> CookPlan:
    """62 g of peas with 338 g of water, so much of it held back; 500 g to cook in."""
    need = StoredNeed(1, PEAS, Basis.FRESH, 4000)
    pick = Pick(CANDIDATE, 620, 3380, opens=False, finishes=True)
    line = CookLine(need, (pick,), 620, 3380, 0, held)
    return CookPlan("Soup", 4, (line,), 3380, 5000, ())


def said(plan: CookPlan, way: WaterWay) -> list[str]:
    """The water of a plan, line by line."""
    return [line.text for line in water_lines(plan, UnitSystem.METRIC, way)]


def test_the_water_is_split_and_the_waters_counted_apart() -> None:
    lines = said(planned(30), WaterWay())
    assert lines[1:4] == [
        f"{PEAS} (62.0 g dry): 338.0 g · 339 mL · about 1½ US cups",
        "at first   236.6 g · 237 mL · about 1 US cup",
        "hold back  101.4 g · 102 mL · about ½ US cup",
    ]
    assert "All of it is an upper bound." in lines[4]
    assert lines[5] == "Measured at 20.0 °C."
    assert lines[-1] == "Cooking water, on top: 500.0 g · 501 mL · about 2 US cups"


def test_the_water_is_measured_warm_and_by_the_household_cup() -> None:
    """338.0 g at 60 °C, 983.2 kg/m3 by the published table, are 343.8 mL."""
    lines = said(planned(30), WaterWay(60.0, Cup.LABEL))
    assert lines[1].endswith("338.0 g · 344 mL · about 1½ label cups")
    assert "Measured at 60.0 °C." in lines


@pytest.mark.parametrize(
    ("held", "words"),
    [(0, "all of it at first"), (100, "all of it held back: add to taste")],
)
def test_all_or_none_of_it_held_back(held: int, words: str) -> None:
    assert said(planned(held), WaterWay())[2] == words


async def test_the_household_cup_stands_on_the_sheet(world: World) -> None:
    change_household(world.room, cup=Cup.LABEL)
    soup(world)
    async with driving(world, TALL) as driver:
        await to_sheet(driver, "4")
        assert "label cup" in driver.words
        assert "US cup" not in driver.words


# Whole packages


@pytest.mark.parametrize("size", SIZES)
async def test_a_package_is_taken_whole_and_taken_back(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    """Seven take 108.5 g of two jars of 60 g: what would stay is less than a serving."""
    soup(world)
    async with driving(world, size) as driver:
        screen = await to_sheet(driver, "7")
        assert screen.sheet is not None
        first = screen.sheet.plan
        (whole,) = screen.sheet.wholes
        same_screen(driver.app, "cook-whole")
        await driver.press("f")
        taken = screen.sheet.plan
        assert [pick.finishes for pick in taken.picks] == [True, True]
        assert taken.water_dg == first.water_dg + whole.more_water_dg
        assert screen.sheet.left_open == ()
        same_screen(driver.app, "cook-whole-taken")
        await driver.press("f")
        assert screen.sheet.plan == first
        await driver.press("f", "t", "enter", "enter")
    states = {one.condition for one in packing.lot_detail(world.room, "26329A").packages}
    assert states == {"used"}


async def test_what_stays_open_has_its_day(world: World) -> None:
    soup(world)
    async with driving(world, TALL) as driver:
        screen = await to_sheet(driver, "4")
        assert screen.sheet is not None
        (left,) = screen.sheet.left_open
        assert left.use_by is not None
        assert f"{left.code} 58.0 g dry left, use by {left.use_by:%a}" in driver.words
        assert "quality estimate, not safety" in driver.words


# Raw food


@pytest.mark.parametrize("size", SIZES)
async def test_raw_food_needs_a_cooking_step(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    """160 °F for what may be minced: USDA Food Safety and Inspection Service."""
    raw_stew(world)
    async with driving(world, size) as driver:
        screen = await to_sheet(driver)
        same_screen(driver.app, "cook-raw")
        assert f"! RAW, cook it: {BEEF_RAW} ! To 160 °F (71.1 °C) or more" in driver.words
        assert "The recipe has no cooking step: c says what it is cooked to." in driver.words
        assert "Allergens: milk · in the fresh items: milk" in driver.words
        await driver.press("t")
        assert isinstance(driver.screen, FormScreen)
        same_screen(driver.app, "cook-heat")
        await driver.enter("70 C")
        assert driver.screen is screen
        assert "; 70.0 °C is not hot enough: c changes it." in driver.words
        await driver.press("t")
        await driver.clear()
        await driver.enter("160 F")
        assert "; it is cooked to 71.1 °C: hot enough." in driver.words
        await driver.press("t")
        assert isinstance(driver.screen, ConfirmScreen)
        assert "RAW, cook it" in driver.words
        await driver.press("enter")
    assert meals(world) == [("Stew", 2)]
    assert "cooked to 71.1 °C" in history.journal_page(world.room)[0].words


@pytest.mark.parametrize("typed", ["", "abc", "20", "151 C", "-5"])
async def test_no_cooking_temperature_is_refused_and_stays(world: World, typed: str) -> None:
    raw_stew(world)
    async with driving(world) as driver:
        await to_sheet(driver)
        await driver.press("c")
        await driver.enter(typed)
        assert isinstance(driver.screen, FormScreen)
        assert "! cooked to:" in driver.words
        assert driver.screen.answers.text("cooked") == typed
    assert meals(world) == []


async def test_a_recipe_with_its_cooking_step_is_taken_at_once(world: World) -> None:
    raw_stew(world, cook_to_dc=740)
    async with driving(world) as driver:
        await to_sheet(driver)
        assert "; it is cooked to 74.0 °C: hot enough." in driver.words
        await driver.press("t", "enter", "enter")
    assert meals(world) == [("Stew", 2)]


# Stand-ins


@pytest.mark.parametrize("size", SIZES)
async def test_a_stand_in_is_swapped_and_taken_back(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    short_soup(world)
    async with driving(world, size) as driver:
        screen = await to_sheet(driver)
        assert "i shows what on the shelves could stand in." in driver.words
        await driver.press("i")
        assert isinstance(driver.screen, InsteadScreen)
        assert "! New allergen: soybeans" in driver.words
        same_screen(driver.app, "cook-instead")
        await driver.press("enter")
        assert f"{HARD_NAME} instead of {PEAS}" in driver.words
        assert screen.sheet is not None and not screen.sheet.plan.short
        await driver.press("i")
        assert f"Take back: {PEAS} again, not {HARD_NAME}" in driver.words
        same_screen(driver.app, "cook-instead-back")
        await driver.press("enter")
        assert screen.order.swaps == {}
        assert "Short" in driver.text
        await driver.press("i", "down", "enter")
        assert "soybeans" in driver.words
        await driver.press("t", "enter", "enter")
    (meal,) = kitchen.list_meals(world.room)
    assert f"{SOY} instead of {PEAS}" in history.journal_page(world.room)[0].words
    assert meal.rehydration_water_dg > 0


async def test_leaving_the_stand_ins_changes_nothing(world: World) -> None:
    short_soup(world)
    async with driving(world) as driver:
        screen = await to_sheet(driver)
        await driver.press("i", "escape")
        assert (driver.screen, screen.order.swaps) == (screen, {})


async def test_nothing_alike_is_said(world: World) -> None:
    soup(world)
    async with driving(world) as driver:
        await to_sheet(driver, "20")
        await driver.press("i")
        assert "Nothing like it is on the shelves" in driver.words
        await driver.press("enter")
        assert isinstance(driver.screen, InsteadScreen)


# What was taken


@pytest.mark.parametrize("size", SIZES)
async def test_the_clock_after_it(
    world: World, in_greenwich: None, size: tuple[int, int], same_screen: SameScreen
) -> None:
    """2 hours out of the cold, 1 hour above 90 °F: USDA FSIS. The days are the program's rule."""
    soup(world)
    async with driving(world, size) as driver:
        await to_sheet(driver, "4")
        await driver.press("t", "enter")
        assert isinstance(driver.screen, ReadScreen)
        assert "Out of the cold until 14:00" in driver.words
        assert "In a room above 32.2 °C (90 °F) until 13:00." in driver.words
        assert "use by the end of Sat 28 Nov 2026" in driver.words
        same_screen(driver.app, "cook-care")
        await driver.press("enter")
        assert isinstance(driver.screen, KitchenScreen)
        await driver.press("m")
        assert "use by the end of Sat 28 Nov 2026" in driver.words


async def test_egg_is_eaten_at_once(world: World) -> None:
    eggs(world)
    async with driving(world) as driver:
        await to_sheet(driver)
        assert f"! Egg, eat it at once and keep nothing: {EGG}" in driver.words
        await driver.press("t")
        assert "eat it at once" in driver.words
        await driver.press("enter")
        assert "! It holds rehydrated egg: eat it at once and keep nothing." in driver.words
        assert "Chilled within" not in driver.words
        await driver.press("enter", "m")
        assert "Egg: eat it at once" in driver.words


async def test_what_was_not_wetted_has_no_clock(world: World) -> None:
    world.recipe("Salad", 2, [LineRequest(item="lettuce")])
    async with driving(world) as driver:
        await to_sheet(driver)
        await driver.press("t", "enter")
        assert isinstance(driver.screen, KitchenScreen)
    assert meals(world) == [("Salad", 2)]


async def test_the_meals_of_long_ago_say_no_day(world: World) -> None:
    kitchen.cook_meal(world.room, soup(world), 2)
    async with driving(world.on(date(2026, 12, 24))) as driver:
        await driver.press("4", "m")
        assert "Pea soup for 2" in driver.words
        assert "use by the end" not in driver.words


async def test_a_raw_dish_that_is_short_says_both(world: World) -> None:
    raw_stew(world, cook_to_dc=740)
    async with driving(world) as driver:
        await to_sheet(driver, "20")
        await driver.press("t")
        assert isinstance(driver.screen, ChoiceScreen)
        assert "RAW, cook it" in driver.words


# A sheet that cannot be worked out


async def test_a_measure_that_was_forgotten_is_said_in_the_sheets_place(world: World) -> None:
    world.packed(PEAS)
    measures.set_measure(world.room, PEAS, "cup", 380)
    cups = LineRequest(food=PEAS, basis=Basis.MEASURE, amount=Fraction(3, 2), unit="cup")
    world.recipe("Soup", 2, [cups])
    measures.remove_measure(world.room, PEAS, "cup")
    async with driving(world) as driver:
        screen = await to_sheet(driver)
        assert "! “cup” of Peas" in driver.words
        assert "Weigh one cup of it" in driver.words
        await driver.press("t", "s", "w")
        assert driver.screen is screen
        measures.set_measure(world.room, PEAS, "cup", 380)
        await driver.press("plus")
        assert "Take from the shelves" in driver.words


async def test_what_another_program_changed_is_refused_in_words(world: World) -> None:
    raw_stew(world, cook_to_dc=740)
    async with driving(world, notices=True) as driver:
        await to_sheet(driver)
        await driver.press("t")
        recipes.change_recipe(world.beside().room, "Stew", cook_to_dc=600)
        await driver.press("enter")
        assert isinstance(driver.screen, CookScreen)
        assert "Cook it to 160 °F" in driver.words
    assert meals(world) == []
