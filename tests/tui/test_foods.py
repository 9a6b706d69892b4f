"""The household's foods by keys: looking, adding, editing."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.foods import Allergen, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Food
from stockroom.errors import BadInput
from stockroom.services import finding, foods, history
from stockroom.services.household import change_household
from stockroom.tui.screens.food_forms import read_allergens, show_allergens
from stockroom.tui.screens.foods import FoodsScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.world import APPLE, BEEF_RAW, PEAS, World

SameScreen = Callable[[App[Any], str], None]


async def to_foods(driver: Driver) -> FoodsScreen:
    """Open the foods from the Bench."""
    await driver.press("3", "f")
    assert isinstance(driver.screen, FoodsScreen)
    return driver.screen


def typed_in(driver: Driver, name: str) -> str:
    """What stands in a field of the form in front."""
    screen = driver.screen
    assert isinstance(screen, FormScreen)
    return screen.answers.text(name)


def food(world: World, name: str) -> Food:
    """A food of the record."""
    return finding.find_food(world.room, name)


@pytest.mark.parametrize("size", SIZES)
async def test_the_foods(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    async with driving(world, size) as driver:
        await to_foods(driver)
        assert "No foods of your own yet" in driver.words
        same_screen(driver.app, "foods-empty")
    foods.add_food(world.room, HARD_NAME, like=APPLE)
    foods.add_food(world.room, BEEF_RAW, like=BEEF_RAW, note="from the farm")
    foods.add_food(world.room, "Stew", food_class=FoodClass.MEAL, preparation=Preparation.COOKED)
    foods.change_food(world.room, HARD_NAME, allergens=[Allergen.MILK, Allergen.TREE_NUTS])
    async with driving(world, size) as driver:
        await to_foods(driver)
        same_screen(driver.app, "foods")
        await driver.press("n")
        same_screen(driver.app, "foods-add")
        await driver.press("escape", "e")
        same_screen(driver.app, "foods-edit")


async def test_a_food_like_one_of_the_table(world: World) -> None:
    async with driving(world) as driver:
        await to_foods(driver)
        await driver.press("n")
        await driver.enter("Garden peas 冷凍 [/]", "peas, green, raw")
        await driver.press("f9")
        assert "Garden peas" in driver.text
    made = food(world, "Garden peas 冷凍 [/]")
    shipped = foods.reference_food("Peas, green, raw")
    assert (made.water_cg, made.food_class, made.serving_dg) == (
        shipped.water_cg,
        shipped.food_class,
        shipped.serving.serving_dg,
    )


async def test_a_food_described_by_hand(world: World) -> None:
    async with driving(world) as driver:
        await to_foods(driver)
        await driver.press("n")
        await driver.enter("Stew", "", "meal", "cooked", "350", "milk, wheat", "Gran's")
    made = food(world, "Stew")
    assert (made.food_class, made.preparation, made.serving_dg) == ("meal", "cooked", 3500)
    assert (made.allergens, made.note) == (("milk", "wheat"), "Gran's")


async def test_adding_is_one_action(world: World) -> None:
    before = world.dump()
    async with driving(world) as driver:
        await to_foods(driver)
        await driver.press("n")
        await driver.enter("Stew", "", "meal", "cooked", "", "", "")
    history.undo(world.room)
    assert world.dump() == before


async def test_a_food_is_edited(world: World) -> None:
    foods.add_food(world.room, "Peas", like=PEAS)
    async with driving(world) as driver:
        await to_foods(driver)
        await driver.press("enter")
        await driver.clear()
        await driver.enter("Sweet peas", "raw")
        await driver.clear()
        await driver.enter("90")
        await driver.clear()
        await driver.enter("soybeans", "check the pods")
    made = food(world, "Sweet peas")
    assert (made.preparation, made.serving_dg, made.allergens, made.note) == (
        "raw", 900, ("soybeans",), "check the pods",
    )  # fmt: skip


async def test_rounding_does_not_creep_in_when_ounces_are_left_as_they_are(world: World) -> None:
    foods.add_food(world.room, "Peas", like=PEAS, serving_dg=857)
    change_household(world.room, units=UnitSystem.US)
    async with driving(world) as driver:
        await to_foods(driver)
        await driver.press("e")
        await driver.clear()
        await driver.type("Sweet peas")
        await driver.press("f9")
    assert food(world, "Sweet peas").serving_dg == 857


async def test_nothing_changed_is_said(world: World) -> None:
    foods.add_food(world.room, "Peas", like=PEAS)
    before = world.whole_dump()
    async with driving(world) as driver:
        await to_foods(driver)
        await driver.press("e", "f9")
        assert "what to change" in driver.words
    assert world.whole_dump() == before


WRONG_NEW = (
    ("name", "", "a name with at least one letter"),
    ("name", "peas", "There is already a food"),
    ("name", "z" * 81, "at most 80 characters"),
    ("like", "zzz", "Nothing matches “zzz”"),
    ("class", "zzz", "Nothing matches “zzz”"),
    ("class", "", "food class: nothing cannot be read"),
    ("preparation", "", "preparation: nothing cannot be read"),
    ("serving", "abc", "“abc” cannot be read"),
    ("serving", "-5", "“-5” cannot be read"),
    ("serving", "0", "a weight above 0"),
    ("serving", "999999999", "100 kg at most"),
    ("serving", "冷", "“冷” cannot be read"),
    ("allergens", "dust", "“dust” cannot be read"),
    ("allergens", "s", "“s” cannot be read"),
    ("allergens", "牛乳", "“牛乳” cannot be read"),
)


@pytest.mark.parametrize(("field", "typed", "said"), WRONG_NEW)
async def test_a_wrong_new_food_is_refused_and_stays(
    world: World, field: str, typed: str, said: str
) -> None:
    foods.add_food(world.room, "Peas", like=PEAS)
    values = {
        "name": "Stew", "like": "", "class": "meal", "preparation": "cooked",
        "serving": "350", "allergens": "milk", "note": "",
    } | {field: typed}  # fmt: skip
    async with driving(world) as driver:
        await to_foods(driver)
        await driver.press("n")
        for value in values.values():
            await driver.type(value)
            await driver.press("enter" if value in ("meal", "cooked") else "tab")
        await driver.press("f9")
        assert isinstance(driver.screen, FormScreen)
        assert said in driver.words
        assert typed_in(driver, field) == typed
    assert [one.name for one in foods.list_foods(world.room)] == ["Peas"]


@pytest.mark.parametrize("typed", ["", "abc", "-5", "0", "999999999", "冷"])
async def test_a_wrong_serving_is_refused_and_stays(world: World, typed: str) -> None:
    foods.add_food(world.room, "Peas", like=PEAS)
    before = food(world, "Peas")
    async with driving(world) as driver:
        await to_foods(driver)
        await driver.press("e", "tab", "tab")
        await driver.clear()
        await driver.type(typed)
        await driver.press("f9")
        assert "! serving:" in driver.words
        assert typed_in(driver, "serving") == typed
    assert food(world, "Peas") == before


# Allergens as they are typed


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("milk", (Allergen.MILK,)),
        ("Milk, WHEAT ", (Allergen.MILK, Allergen.WHEAT)),
        ("tree, crust", (Allergen.TREE_NUTS, Allergen.CRUSTACEAN_SHELLFISH)),
        ("milk,, milk", (Allergen.MILK,)),
        ("none", ()),
        ("None", ()),
    ],
)
def test_allergens_are_read(typed: str, read: tuple[Allergen, ...]) -> None:
    assert read_allergens(typed) == read


@pytest.mark.parametrize("typed", ["", ",", "none, milk", "s", "nuts", "a" * 500])
def test_other_words_are_no_allergens(typed: str) -> None:
    with pytest.raises(BadInput) as refused:
        read_allergens(typed)
    assert all(one.words in refused.value.hint for one in Allergen)


@pytest.mark.parametrize("allergen", list(Allergen))
def test_every_allergen_reads_back_as_it_is_shown(world: World, allergen: Allergen) -> None:
    foods.add_food(world.room, "Peas", like=PEAS, allergens=[allergen])
    assert read_allergens(show_allergens(food(world, "Peas"))) == (allergen,)


def test_unknown_ingredients_show_as_nothing_said(world: World) -> None:
    foods.add_food(world.room, "Stew", food_class=FoodClass.MEAL, preparation=Preparation.COOKED)
    assert show_allergens(food(world, "Stew")) == ""
    foods.change_food(world.room, "Stew", allergens=[])
    assert show_allergens(food(world, "Stew")) == "none"
