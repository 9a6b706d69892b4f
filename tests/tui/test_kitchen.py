"""The Kitchen by keys: finding a recipe, its sheet for so many people, and taking it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from fractions import Fraction
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.conditions import Event
from stockroom.domain.cooking import Basis, FreshNeed
from stockroom.domain.foods import Allergen, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.rotation import Candidate, Pick
from stockroom.domain.water import millilitres
from stockroom.services import bench, foods, history, kitchen, packages, packing
from stockroom.services.household import change_household
from stockroom.services.kitchen import LineRequest
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.cook import CookScreen
from stockroom.tui.screens.cook_lines import fresh_text, pick_text, show_amount
from stockroom.tui.screens.kitchen import KitchenScreen
from stockroom.tui.screens.windows import ChoiceScreen, ReadScreen
from tests.tui.dishes import soup
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.world import APPLE, BEEF_RAW, PEAS, TODAY, World

SameScreen = Callable[[App[Any], str], None]


def stewed(world: World) -> None:
    """Two places with raw beef, peas and a hard name, and a stew of all three."""
    foods.add_food(world.room, HARD_NAME, like=APPLE)
    world.places("cold cellar", "cold cellar/rack 1", "boat-shed loft")
    lots = world.dry_run([(HARD_NAME, 1000, 155), (BEEF_RAW, 900, 260), (PEAS, 1000, 180)])
    world.pack(lots[0], "2xpouch-1500-foil:62,absorber=300", place="cold cellar/rack 1")
    world.pack(lots[1], "2xjar-950,vacuum", place="boat-shed loft")
    world.pack(lots[2], "2xpouch-950-foil:50,absorber=300", place="cold cellar")
    world.recipe(
        "Beef stew [/] 冷凍",
        4,
        [
            LineRequest(food=BEEF_RAW, basis=Basis.SERVINGS, amount=Fraction(4)),
            LineRequest(food=PEAS, basis=Basis.DRY, amount=Fraction(60)),
            LineRequest(food=HARD_NAME, basis=Basis.FRESH, amount=Fraction(300)),
            LineRequest(item="onion", amount=Fraction(3, 2)),
            LineRequest(item="salt"),
        ],
    )


async def to_sheet(driver: Driver, people: str) -> CookScreen:
    """Open the sheet of the first recipe for so many people."""
    await driver.press("4", "enter")
    await driver.enter(people)
    assert isinstance(driver.screen, CookScreen)
    return driver.screen


# The list


@pytest.mark.parametrize("size", SIZES)
async def test_an_empty_kitchen_says_what_to_do(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        await driver.press("4")
        assert "Press n to write one" in driver.words
        same_screen(driver.app, "kitchen-empty")


@pytest.mark.parametrize("size", SIZES)
async def test_the_recipes(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    stewed(world)
    world.recipe()
    async with driving(world, size) as driver:
        await driver.press("4")
        same_screen(driver.app, "kitchen")


async def test_letters_narrow_the_list(world: World) -> None:
    stewed(world)
    world.recipe("Pea soup")
    world.recipe("Peas for all")
    async with driving(world) as driver:
        await driver.press("4", "slash")
        await driver.type("pea so")
        screen = driver.screen
        assert isinstance(screen, KitchenScreen)
        assert [recipe.name for recipe in screen.recipes.values()] == ["Pea soup"]
        await driver.press("escape")
        assert len(screen.recipes) == 3
        await driver.press("slash")
        await driver.type("zzz")
        assert "No recipe has these words" in driver.words
        await driver.press("enter")
        assert driver.screen is screen


async def test_enter_takes_the_first_match_and_down_goes_to_the_list(world: World) -> None:
    stewed(world)
    world.recipe("Pea soup")
    world.recipe("Peas for all")
    async with driving(world) as driver:
        await driver.press("4", "slash")
        await driver.type("pea")
        await driver.press("enter")
        assert "Cook Pea soup" in driver.text
        await driver.press("escape", "slash", "down", "down", "enter")
        assert "Cook Peas for all" in driver.text


async def test_meals_are_listed(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("4", "m")
        assert "No meals yet" in driver.words
    kitchen.cook_meal(world.room, soup(world), 2)
    async with driving(world) as driver:
        await driver.press("4", "m")
        assert f"{TODAY.isoformat()} Pea soup for 2" in driver.words
        assert isinstance(driver.screen, ReadScreen)


async def test_d_removes_a_recipe_after_asking_and_u_brings_it_back(world: World) -> None:
    name = soup(world)
    async with driving(world) as driver:
        await driver.press("4", "d", "escape")
        assert [one.name for one in kitchen.list_recipes(world.room)] == [name]
        await driver.press("d")
        assert isinstance(driver.screen, ConfirmScreen)
        await driver.press("enter")
        assert kitchen.list_recipes(world.room) == ()
        await driver.press("u")
        assert [one.name for one in kitchen.list_recipes(world.room)] == [name]
        assert name in driver.text


# For so many people


async def test_a_pick_list_with_water_takes_four_keys(world: World) -> None:
    soup(world)
    world.recipe("Zebra soup")
    keys = ("down", "enter", "4", "enter")
    async with driving(world) as driver:
        await driver.press("4")
        await driver.press(*keys)
        screen = driver.screen
        assert isinstance(screen, CookScreen)
        assert (screen.order.recipe, screen.order.people) == ("Zebra soup", 4)
        assert "Take from the shelves" in driver.text
        assert "Water to add back" in driver.text
        assert "at first" in driver.text and "hold back" in driver.text
    assert len(keys) == 4


async def test_the_household_is_offered(world: World) -> None:
    change_household(world.room, people=5)
    soup(world)
    async with driving(world) as driver:
        await driver.press("4", "enter", "enter")
        assert isinstance(driver.screen, CookScreen)
        assert driver.screen.order.people == 5


@pytest.mark.parametrize("typed", ["", "-3", "0", "2.5", "99999999"])
async def test_a_wrong_number_of_people_is_refused_and_stays(world: World, typed: str) -> None:
    soup(world)
    async with driving(world) as driver:
        await driver.press("4", "enter")
        await driver.clear()
        await driver.enter(typed)
        assert "Type a whole number from 1 to 1000" in driver.words
        assert driver.screen.query_one("#field-people").text == typed  # type: ignore[attr-defined]


@pytest.mark.parametrize("typed", ["abc", "冷凍"])
async def test_letters_are_no_number_of_people(world: World, typed: str) -> None:
    soup(world)
    async with driving(world) as driver:
        await driver.press("4", "enter")
        await driver.type(typed)
        assert driver.screen.query_one("#field-people").text in ("", "2")  # type: ignore[attr-defined]


# The sheet


@pytest.mark.parametrize("size", SIZES)
async def test_the_sheet(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    stewed(world)
    async with driving(world, size) as driver:
        await to_sheet(driver, "4")
        same_screen(driver.app, "cook-sheet")
        await driver.press("end")
        same_screen(driver.app, "cook-sheet-end")


async def test_the_sheet_says_where_how_much_and_what_water(world: World) -> None:
    """400 g as fresh of 155 g dry for 1000 g: 62 g dry and 338 g of water."""
    soup(world)
    async with driving(world, (100, 60)) as driver:
        screen = await to_sheet(driver, "4")
        sheet = screen.sheet
        assert sheet is not None
        (line,) = sheet.plan.lines
        assert (line.dry_dg, line.water_dg) == (620, 3380)
        words = driver.words
        assert "no place yet" in words
        assert f"{line.picks[0].candidate.code} all 60.0 g dry" in words
        assert f"{line.picks[1].candidate.code} 2.0 g dry of 60.0 g" in words
        assert f"(62.0 g dry): 338.0 g · {millilitres(3380):.0f} mL · about 1½ US cups" in words
        assert f"at first 236.6 g · {millilitres(2366):.0f} mL · about 1 US cup" in words
        assert f"hold back 101.4 g · {millilitres(1014):.0f} mL · about ½ US cup" in words
        assert "All of it is an upper bound." in words
        assert "Cooking water, on top: 1000.0 g" in words
        assert "2 onion" in words


async def test_raw_food_and_its_temperatures_stand_on_the_sheet(world: World) -> None:
    stewed(world)
    async with driving(world, (100, 80)) as driver:
        await to_sheet(driver, "4")
        words = driver.words
        assert f"! RAW, cook it: {BEEF_RAW}" in words
        assert "145 °F (62.8 °C)" in words
        assert "2 hours" in words
        assert "not settle-checked yet" in words
        assert "Follow local codes and licensed guidance" in words


async def test_allergens_stand_on_the_sheet(world: World) -> None:
    soup(world)
    foods.change_food(world.room, PEAS, allergens=[Allergen.MILK, Allergen.TREE_NUTS])
    async with driving(world) as driver:
        await to_sheet(driver, "2")
        assert "Allergens: milk, tree nuts" in driver.words


async def test_a_food_whose_ingredients_are_not_known_is_named(world: World) -> None:
    meal = "Beef stew, canned"
    foods.add_food(world.room, meal, food_class=FoodClass.MEAL, preparation=Preparation.COOKED)
    world.pack(world.dry_lot(meal, 1000, 250), "1xjar-950")
    world.recipe("Stew", 2, [LineRequest(food=meal, basis=Basis.SERVINGS, amount=Fraction(2))])
    async with driving(world) as driver:
        await to_sheet(driver, "2")
        assert f"! Check what went into: {meal}" in driver.words


async def test_plus_and_minus_change_the_people(world: World) -> None:
    soup(world)
    async with driving(world) as driver:
        screen = await to_sheet(driver, "2")
        await driver.press("plus", "plus")
        assert screen.order.people == 4
        assert "for 4 people" in driver.words
        await driver.press("minus", "minus", "minus", "minus", "minus")
        assert screen.order.people == 1
        assert "for 1 person" in driver.words


async def test_undoing_the_recipe_leaves_its_sheet(world: World) -> None:
    soup(world)
    async with driving(world) as driver:
        await to_sheet(driver, "2")
        await driver.press("u")
        assert isinstance(driver.screen, KitchenScreen)


# Taking it


async def test_t_and_enter_take_it_in_one_action(world: World) -> None:
    name = soup(world)
    before = world.dump()
    async with driving(world, notices=True) as driver:
        await to_sheet(driver, "4")
        await driver.press("t")
        assert isinstance(driver.screen, ConfirmScreen)
        assert "Takes from 2 packages" in driver.words
        await driver.press("enter", "enter")
        assert isinstance(driver.screen, KitchenScreen)
        assert f"cooked {name} for 4 from 2 packages" in driver.words
    (meal,) = kitchen.list_meals(world.room)
    assert (meal.people, meal.on_day, meal.rehydration_water_dg) == (4, TODAY, 3380)
    states = {one.code: one.condition for one in packing.lot_detail(world.room, "26329A").packages}
    assert sorted(states.values()) == ["opened", "used"]
    history.undo(world.room)
    assert world.dump() == before


async def test_leaving_the_question_takes_nothing(world: World) -> None:
    soup(world)
    async with driving(world) as driver:
        screen = await to_sheet(driver, "4")
        await driver.press("t", "escape")
        assert driver.screen is screen
    assert kitchen.list_meals(world.room) == ()


@pytest.mark.parametrize("size", SIZES)
async def test_short_shelves_refuse_first(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    soup(world)
    async with driving(world, size) as driver:
        screen = await to_sheet(driver, "20")
        assert "Short" in driver.text
        assert "1225.8 g fresh equivalent missing" in driver.words
        await driver.press("t")
        assert isinstance(driver.screen, ChoiceScreen)
        same_screen(driver.app, "cook-short")
        await driver.press("enter")
        assert driver.screen is screen
        assert kitchen.list_meals(world.room) == ()
        await driver.press("t", "down", "enter", "enter")
        assert isinstance(driver.screen, KitchenScreen)
    (meal,) = kitchen.list_meals(world.room)
    assert meal.people == 20
    assert {one.condition for one in packing.lot_detail(world.room, "26329A").packages} == {"used"}


async def test_nothing_on_the_shelves_is_said(world: World) -> None:
    soup(world, packed=False)
    async with driving(world, notices=True) as driver:
        await to_sheet(driver, "2")
        assert "Nothing of it is on the shelves" in driver.words
        await driver.press("t", "enter")
        assert "Nothing for Pea soup is on the shelves" in driver.words
    assert kitchen.list_meals(world.room) == ()


async def test_packages_past_their_best_by_are_named(world: World) -> None:
    soup(world)
    for package in packing.lot_detail(world.room, "26329A").packages:
        packages.check_package(world.later(1).room, package.code, Event.CRISP)
    later = world.on(date(2060, 1, 1))
    async with driving(later) as driver:
        await to_sheet(driver, "2")
        await driver.press("t")
        assert "Past best-by (quality estimate, not safety)" in driver.words
        assert "not settle-checked" not in driver.words


async def test_a_doubtful_package_is_not_offered(world: World) -> None:
    soup(world)
    first = packing.lot_detail(world.room, "26329A").packages[0]
    packages.check_package(world.room, first.code, Event.SOFT)
    async with driving(world) as driver:
        await to_sheet(driver, "2")
        assert first.code not in driver.text


# In words


@pytest.mark.parametrize(
    ("amount", "said"),
    [
        (Fraction(3), "3"),
        (Fraction(3, 2), "1 1/2"),
        (Fraction(1, 4), "1/4"),
        (Fraction(333, 1000), "1/3"),
        (Fraction(667, 1000), "2/3"),
        (Fraction(11, 10), "1.10"),
        (Fraction(5, 4), "1 1/4"),
        (Fraction(125, 1000), "1/8"),
    ],
)
def test_amounts_read_as_cooks_write_them(amount: Fraction, said: str) -> None:
    assert show_amount(amount) == said


def test_fresh_items_are_named_after_their_amount() -> None:
    assert fresh_text(FreshNeed("oil", Fraction(3, 2), "tbsp")) == "1 1/2 tbsp oil"
    assert fresh_text(FreshNeed("onion", Fraction(2), None)) == "2 onion"
    assert fresh_text(FreshNeed("salt", None, None)) == "salt"


CANDIDATE = Candidate(1, "26329A01E", 1, TODAY, TODAY, False, 620, 3380)


def test_a_pick_says_all_or_how_much_of_it() -> None:
    whole = Pick(CANDIDATE, 620, 3380, opens=False, finishes=True)
    part = Pick(CANDIDATE, 100, 545, opens=True, finishes=False)
    assert pick_text(PEAS, whole, UnitSystem.METRIC) == f"26329A01E  all 62.0 g dry · {PEAS}"
    assert pick_text(PEAS, part, UnitSystem.METRIC) == f"26329A01E  10.0 g dry of 62.0 g · {PEAS}"
    assert "0.35 oz dry of 2.19 oz" in pick_text(PEAS, part, UnitSystem.US)


# The whole story


async def test_from_an_empty_store_to_a_meal_by_keys(world: World) -> None:
    world.places("cellar")
    async with driving(world) as driver:
        await driver.press("3", "n", "enter", "enter", "a")
        await driver.enter("peas, green, frozen", "1000")
        await driver.press("f9", "a", "enter")
        await driver.enter("900")
        await driver.press("f9", "home")
        await driver.enter("155", "140")
        await driver.press("c", "enter", "p")
        await driver.enter("4")
        await driver.enter("foil pouch 1.5", "60", "0", "")
        await driver.press("enter")
        await driver.enter("cellar")
        await driver.press("enter", "enter", "enter")
        await driver.press("down", "enter", "escape", "4", "n")
        await driver.enter("Pea soup", "4", "500")
        await driver.press("a")
        await driver.enter("peas")
        await driver.enter("fresh", "400")
        await driver.press("f9", "enter")
        await driver.enter("4")
        assert isinstance(driver.screen, CookScreen)
        await driver.press("t", "enter", "enter")
        assert isinstance(driver.screen, KitchenScreen)
    (run,) = bench.list_runs(world.room)
    assert run.state == "closed"
    lot = world.lot("26329A")
    assert (lot.wet_dg, lot.dry_dg, lot.packed_dg, lot.lost_dg) == (19000, 2950, 2400, 550)
    detail = packing.lot_detail(world.room, "26329A")
    assert [loss.reason for loss in detail.losses] == ["tasted"]
    assert [one.place for one in detail.packages] == ["cellar"] * 4
    (meal,) = kitchen.list_meals(world.room)
    assert (meal.name, meal.people, meal.cooking_water_dg) == ("Pea soup", 4, 5000)
    taken = sum(one.taken_dg + one.taken_water_dg for one in detail.packages)
    assert 4000 <= taken < 4010
    assert sum(one.taken_water_dg for one in detail.packages) == meal.rehydration_water_dg
