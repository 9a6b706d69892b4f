"""The recipe editor by keys: parts, amounts, steps, saving and leaving."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual import events
from textual.app import App

from stockroom.domain.cooking import Basis
from stockroom.domain.quantities import UnitSystem, read_servings
from stockroom.services import foods, history, kitchen, measures, recipes
from stockroom.services.household import change_household
from stockroom.services.kitchen import LineRequest
from stockroom.tui.screens.cook_lines import show_amount
from stockroom.tui.screens.kitchen import KitchenScreen
from stockroom.tui.screens.recipe import RecipeScreen, head_text
from stockroom.tui.screens.recipe_draft import Draft, amount_text, draft_of
from stockroom.tui.screens.recipe_steps import StepsScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.world import APPLE, PEAS, World

SameScreen = Callable[[App[Any], str], None]


def own_foods(world: World) -> None:
    """Two foods of the household's own."""
    foods.add_food(world.room, PEAS, like=PEAS)
    foods.add_food(world.room, HARD_NAME, like=APPLE)


async def to_new(driver: Driver, *head: str) -> RecipeScreen:
    """Begin a recipe and fill in its head."""
    await driver.press("4", "n")
    await driver.enter(*head)
    assert isinstance(driver.screen, RecipeScreen)
    return driver.screen


async def to_edit(driver: Driver) -> RecipeScreen:
    """Open the first recipe in the editor."""
    await driver.press("4", "e")
    assert isinstance(driver.screen, RecipeScreen)
    return driver.screen


def typed_in(driver: Driver, name: str) -> str:
    """What stands in a field of the form in front."""
    screen = driver.screen
    assert isinstance(screen, FormScreen)
    return screen.answers.text(name)


# A whole recipe


async def test_a_recipe_by_keyboard_alone(world: World) -> None:
    own_foods(world)
    async with driving(world) as driver:
        await to_new(driver, "Hut soup [/] 冷凍", "4", "600")
        await driver.press("a")
        await driver.enter("peas")
        await driver.enter("fresh", "400")
        await driver.press("a")
        await driver.enter("[/]", "dry", "62.5")
        await driver.press("a")
        await driver.enter("peas", "servings", "1 1/2")
        await driver.press("i")
        await driver.enter("oil", "1/2", "tbsp")
        await driver.press("i")
        await driver.enter("salt", "", "")
        await driver.press("p")
        await driver.type("Soak the peas.")
        await driver.press("enter")
        await driver.type("Simmer.")
        await driver.press("f9", "f9")
        assert isinstance(driver.screen, KitchenScreen)
    recipe = kitchen.show_recipe(world.room, "Hut soup [/] 冷凍")
    assert (recipe.serves, recipe.cooking_water_dg) == (4, 6000)
    assert recipe.steps == "Soak the peas.\nSimmer."
    assert [
        (line.food, line.basis, line.weight_dg, line.servings_hundredths, line.item,
         line.amount_thousandths, line.unit)
        for line in recipe.lines
    ] == [
        (PEAS, "fresh", 4000, None, None, None, None),
        (HARD_NAME, "dry", 625, None, None, None, None),
        (PEAS, "servings", None, 150, None, None, None),
        (None, None, None, None, "oil", 500, "tbsp"),
        (None, None, None, None, "salt", None, None),
    ]  # fmt: skip


async def test_writing_a_recipe_is_one_action(world: World) -> None:
    own_foods(world)
    before = world.dump()
    async with driving(world) as driver:
        await to_new(driver, "Soup", "4", "")
        await driver.press("a")
        await driver.enter("peas", "", "2")
        await driver.press("f9")
    assert len(kitchen.list_recipes(world.room)) == 1
    history.undo(world.room)
    assert world.dump() == before


async def test_a_recipe_is_changed_in_place(world: World) -> None:
    own_foods(world)
    world.recipe("Pea soup")
    async with driving(world) as driver:
        screen = await to_edit(driver)
        await driver.press("enter")
        await driver.press("tab", "tab")
        await driver.clear()
        await driver.enter("250")
        await driver.press("down", "d", "e")
        await driver.clear()
        await driver.enter("Green soup", "", "")
        assert screen.draft.name == "Green soup"
        await driver.press("f9")
    (summary,) = kitchen.list_recipes(world.room)
    recipe = kitchen.show_recipe(world.room, summary.name)
    assert (recipe.name, recipe.serves, recipe.cooking_water_dg) == ("Green soup", 2, 5000)
    (line,) = recipe.lines
    assert (line.food, line.weight_dg) == (PEAS, 2500)


async def test_a_fresh_line_is_changed(world: World) -> None:
    own_foods(world)
    world.recipe("Pea soup")
    async with driving(world) as driver:
        await to_edit(driver)
        await driver.press("down", "enter")
        assert (typed_in(driver, "ingredient"), typed_in(driver, "amount")) == ("onion", "1")
        await driver.enter("", "", "big")
        await driver.press("f9")
    line = kitchen.show_recipe(world.room, "Pea soup").lines[1]
    assert (line.item, line.amount_thousandths, line.unit) == ("onion", 1000, "big")


# Nothing is lost, and nothing creeps in


async def test_leaving_asks_once_when_something_was_written(world: World) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_new(driver, "Soup", "4", "")
        await driver.press("escape")
        assert driver.screen is screen
        assert "Not saved: F9 saves" in driver.words
        await driver.press("escape")
        assert isinstance(driver.screen, KitchenScreen)
    assert kitchen.list_recipes(world.room) == ()


async def test_a_new_recipe_without_a_name_is_left_at_once(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("4", "n", "escape")
        assert isinstance(driver.screen, KitchenScreen)


async def test_opening_and_leaving_changes_nothing(world: World) -> None:
    own_foods(world)
    world.recipe("Pea soup")
    before = world.whole_dump()
    async with driving(world) as driver:
        await to_edit(driver)
        await driver.press("enter", "f9", "e", "f9", "p", "f9", "escape")
        assert isinstance(driver.screen, KitchenScreen)
    assert world.whole_dump() == before


async def test_rounding_does_not_creep_in_when_ounces_are_left_as_they_are(world: World) -> None:
    own_foods(world)
    world.recipe("Soup", 2, [LineRequest(food=PEAS, basis=Basis.DRY, amount=Fraction(617, 10))])
    change_household(world.room, units=UnitSystem.US)
    before = draft_of(kitchen.show_recipe(world.room, "Soup"))
    async with driving(world) as driver:
        screen = await to_edit(driver)
        await driver.press("enter")
        assert typed_in(driver, "amount") == "2.18 oz"
        await driver.press("f9", "e", "f9")
        assert screen.draft == before


async def test_steps_that_are_left_are_dropped_after_asking_once(world: World) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_new(driver, "Soup", "4", "")
        await driver.press("p", "escape")
        assert driver.screen is screen
        await driver.press("p")
        assert isinstance(driver.screen, StepsScreen)
        await driver.type("Boil")
        await driver.press("escape")
        assert "Press Escape again to drop" in driver.words
        await driver.type(" it")
        assert "Press Escape again" not in driver.words
        await driver.press("escape", "escape")
        assert driver.screen is screen
        assert screen.draft.steps == ""


async def test_control_characters_pasted_into_the_steps_are_shown_not_sent(world: World) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_new(driver, "Soup", "4", "")
        await driver.press("p")
        driver.app.post_message(events.Paste("Boil\x1b[31m\nand [/] stir"))
        await driver.settle()
        assert "\x1b" not in driver.text
        await driver.press("f9")
        assert screen.draft.steps == "Boil␛[31m\nand [/] stir"


# Refusals keep what was typed


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("name", "", "a name with at least one letter"),
        ("name", "x" * 81, "at most 80 characters"),
        ("serves", "", "a whole number from 1 to 1000"),
        ("serves", "0", "a whole number from 1 to 1000"),
        ("serves", "-4", "a whole number from 1 to 1000"),
        ("serves", "99999999", "a whole number from 1 to 1000"),
        ("water", "abc", "“abc” cannot be read"),
        ("water", "-5", "“-5” cannot be read"),
        ("water", "99999999", "100 kg at most"),
        ("water", "水", "“水” cannot be read"),
    ],
)
async def test_a_wrong_head_is_refused_and_stays(
    world: World, field: str, typed: str, said: str
) -> None:
    values = {"name": "Soup", "serves": "4", "water": "600"} | {field: typed}
    async with driving(world) as driver:
        await driver.press("4", "n")
        for value in values.values():
            await driver.clear()
            await driver.type(value)
            await driver.press("tab")
        await driver.press("f9")
        assert said in driver.words
        assert typed_in(driver, field) == typed


@pytest.mark.parametrize(
    ("basis", "typed", "said"),
    [
        ("servings", "", "nothing cannot be read"),
        ("servings", "abc", "“abc” cannot be read"),
        ("servings", "-2", "“-2” cannot be read"),
        ("servings", "0", "“0” cannot be read"),
        ("servings", "99999999", "up to 10000"),
        ("fresh", "", "nothing cannot be read"),
        ("fresh", "0", "a weight above 0"),
        ("fresh", "冷", "“冷” cannot be read"),
        ("dry", "-62", "“-62” cannot be read"),
        ("dry", "999999999", "100 kg at most"),
        ("dry", "1,500", "without a comma"),
    ],
)
async def test_a_wrong_stored_amount_is_refused_and_stays(
    world: World, basis: str, typed: str, said: str
) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_new(driver, "Soup", "4", "")
        await driver.press("a")
        await driver.enter("peas")
        await driver.enter(basis, typed)
        assert said in driver.words
        assert typed_in(driver, "amount") == typed
        assert screen.draft.lines == ()


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("ingredient", "", "a name with at least one letter"),
        ("ingredient", "y" * 81, "at most 80 characters"),
        ("amount", "abc", "an amount such as 2, 1.5 or 1 1/2"),
        ("amount", "-1", "an amount such as 2, 1.5 or 1 1/2"),
        ("amount", "0", "an amount such as 2, 1.5 or 1 1/2"),
        ("amount", "99999999", "an amount such as 2, 1.5 or 1 1/2"),
        ("amount", "半", "an amount such as 2, 1.5 or 1 1/2"),
    ],
)
async def test_a_wrong_fresh_line_is_refused_and_stays(
    world: World, field: str, typed: str, said: str
) -> None:
    own_foods(world)
    values = {"ingredient": "oil", "amount": "1", "unit": "tbsp"} | {field: typed}
    async with driving(world) as driver:
        screen = await to_new(driver, "Soup", "4", "")
        await driver.press("i")
        await driver.enter(*values.values())
        assert said in driver.words
        assert typed_in(driver, field) == typed
        assert screen.draft.lines == ()


async def test_a_food_that_is_not_there_is_refused_and_stays(world: World) -> None:
    own_foods(world)
    async with driving(world) as driver:
        await to_new(driver, "Soup", "4", "")
        await driver.press("a")
        await driver.enter("zzz")
        assert "Nothing matches “zzz”" in driver.words
        await driver.press("f9")
        assert typed_in(driver, "food") == "zzz"


async def test_a_recipe_without_ingredients_is_refused_and_stays(world: World) -> None:
    async with driving(world) as driver:
        screen = await to_new(driver, "Soup", "4", "600")
        await driver.press("f9")
        assert driver.screen is screen
        assert "at least one ingredient" in driver.words
        assert screen.draft.name == "Soup"
    assert kitchen.list_recipes(world.room) == ()


async def test_a_name_that_is_taken_is_refused_and_stays(world: World) -> None:
    own_foods(world)
    world.recipe("Pea soup")
    async with driving(world) as driver:
        screen = await to_new(driver, "pea SOUP", "4", "")
        await driver.press("i")
        await driver.enter("salt", "", "")
        await driver.press("f9")
        assert driver.screen is screen
        assert "There is already a recipe" in driver.words
        assert len(screen.draft.lines) == 1


async def test_without_foods_it_says_where_they_come_from(world: World) -> None:
    async with driving(world, notices=True) as driver:
        await to_new(driver, "Soup", "4", "")
        await driver.press("a")
        assert "No foods yet" in driver.words


# In words


@given(st.fractions(min_value=Fraction(1, 8), max_value=1000, max_denominator=8))
def test_an_amount_reads_back_as_it_was_shown(amount: Fraction) -> None:
    assert read_servings(show_amount(amount)) == amount


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (LineRequest(PEAS, Basis.FRESH, amount=Fraction(400)), "400.0 g fresh"),
        (LineRequest(PEAS, Basis.DRY, amount=Fraction(125, 2)), "62.5 g dry"),
        (LineRequest(PEAS, Basis.SERVINGS, amount=Fraction(3, 2)), "1 1/2 servings"),
        (LineRequest(PEAS, Basis.SERVINGS, amount=Fraction(1)), "1 serving"),
        (LineRequest(item="oil", amount=Fraction(1, 2), unit="tbsp"), "1/2 tbsp"),
        (LineRequest(item="salt"), "some"),
    ],
)
def test_amounts_say_how_they_count(line: LineRequest, said: str) -> None:
    assert amount_text(line, UnitSystem.METRIC) == said


def test_the_head_says_whom_it_serves_and_its_water() -> None:
    assert head_text(Draft()) == ""
    assert head_text(Draft(serves=4)) == "Serves 4 · cooking water: none"
    assert head_text(Draft(serves=4, cooking_water_dg=5000)) == (
        "Serves 4 · cooking water: 500.0 g · 501 mL · about 2 US cups"
    )


@pytest.mark.parametrize("size", SIZES)
async def test_the_editor(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    own_foods(world)
    async with driving(world, size) as driver:
        await driver.press("4", "n")
        same_screen(driver.app, "recipe-new")
        await driver.enter("Hut soup [/] 冷凍", "4", "600")
        same_screen(driver.app, "recipe-empty")
        await driver.press("a")
        same_screen(driver.app, "recipe-stored")
        await driver.enter("[/]", "dry", "62.5")
        await driver.press("i")
        await driver.enter("onion", "1 1/2", "")
        await driver.press("p")
        await driver.type("Soak, then simmer [/].")
        same_screen(driver.app, "recipe-steps")
        await driver.press("f9")
        same_screen(driver.app, "recipe")
        await driver.press("m")
        same_screen(driver.app, "recipe-more")
        await driver.press("escape", "up", "h")
        same_screen(driver.app, "recipe-hold-back")


async def test_a_line_in_a_household_measure_keeps_it_when_its_amount_changes(
    world: World,
) -> None:
    world.packed(PEAS)
    measures.set_measure(world.room, PEAS, "cup", 380)
    cups = LineRequest(food=PEAS, basis=Basis.MEASURE, amount=Fraction(3, 2), unit="cup")
    world.recipe("Soup", 2, [cups])
    assert draft_of(kitchen.show_recipe(world.room, "Soup")).lines == (cups,)
    assert amount_text(cups, UnitSystem.METRIC) == "1 1/2 cup"
    async with driving(world) as driver:
        await to_edit(driver)
        await driver.press("enter")
        assert typed_in(driver, "amount") == "1 1/2"
        await driver.press("tab", "tab")
        await driver.clear()
        await driver.enter("2")
        await driver.press("f9")
    (line,) = kitchen.show_recipe(world.room, "Soup").lines
    assert (line.basis, line.amount_thousandths, line.unit) == ("measure", 2_000, "cup")


# Household measures


async def test_a_line_counts_in_a_measure_of_its_food(world: World) -> None:
    own_foods(world)
    measures.set_measure(world.room, PEAS, "Scoop", 250)
    measures.set_measure(world.room, HARD_NAME, "ladle", 300)
    async with driving(world) as driver:
        await to_new(driver, "Soup", "4", "")
        await driver.press("a")
        await driver.enter("peas")
        await driver.clear()
        assert "your measure, 25.0 g each" in driver.words
        assert "ladle" not in driver.words
        await driver.enter("sco", "2 1/2")
        assert "2 1/2 Scoop" in driver.words
        await driver.press("f9")
    (line,) = kitchen.show_recipe(world.room, "Soup").lines
    assert (line.basis, line.amount_thousandths, line.unit) == ("measure", 2500, "Scoop")


async def test_a_measure_of_another_food_is_refused_and_stays(world: World) -> None:
    own_foods(world)
    measures.set_measure(world.room, PEAS, "scoop", 250)
    async with driving(world) as driver:
        screen = await to_new(driver, "Soup", "4", "")
        await driver.press("a")
        await driver.enter("peas", "scoop")
        await driver.press("shift+tab", "shift+tab")
        await driver.clear()
        await driver.enter("[/]")
        await driver.press("tab")
        await driver.enter("2")
        assert "“scoop” cannot be read" in driver.words
        assert typed_in(driver, "amount") == "2"
        assert screen.draft.lines == ()


async def test_a_measure_that_was_forgotten_is_refused_when_it_is_saved(world: World) -> None:
    own_foods(world)
    measures.set_measure(world.room, PEAS, "scoop", 250)
    cups = LineRequest(food=PEAS, basis=Basis.MEASURE, amount=Fraction(2), unit="scoop")
    world.recipe("Soup", 2, [cups])
    measures.remove_measure(world.room, PEAS, "scoop")
    async with driving(world) as driver:
        screen = await to_edit(driver)
        await driver.press("enter", "f9")
        assert screen.draft.lines == (cups,)
        await driver.press("e", "end")
        await driver.type(" of ours")
        await driver.press("f9", "f9")
        assert driver.screen is screen
        assert "has no weight on record" in driver.words
        assert screen.draft.name == "Soup of ours"


# Water held back by one line


async def test_a_line_holds_back_its_own_share(world: World) -> None:
    own_foods(world)
    world.recipe("Soup")
    async with driving(world) as driver:
        screen = await to_edit(driver)
        await driver.press("h")
        await driver.enter("0")
        assert screen.draft.lines[0].hold_back_percent == 0
        assert "0 %" in driver.text
        await driver.press("enter", "tab", "tab")
        await driver.clear()
        await driver.enter("250")
        await driver.press("f9")
    line = kitchen.show_recipe(world.room, "Soup").lines[0]
    assert (line.weight_dg, line.hold_back_percent) == (2500, 0)
    async with driving(world) as driver:
        await to_edit(driver)
        await driver.press("h")
        await driver.clear()
        await driver.press("enter", "f9")
    assert kitchen.show_recipe(world.room, "Soup").lines[0].hold_back_percent is None


@pytest.mark.parametrize("typed", ["101", "-1", "1.5"])
async def test_no_share_of_water_is_refused_and_stays(world: World, typed: str) -> None:
    own_foods(world)
    world.recipe("Soup")
    async with driving(world) as driver:
        await to_edit(driver)
        await driver.press("h")
        await driver.enter(typed)
        assert "a whole number from 0 to 100" in driver.words
        assert typed_in(driver, "held") == typed


async def test_what_is_not_from_the_shelves_has_no_water_to_hold_back(world: World) -> None:
    own_foods(world)
    world.recipe("Soup")
    async with driving(world, (120, 24)) as driver:
        screen = await to_edit(driver)
        assert "h Hold back" in driver.text
        await driver.press("down")
        assert "h Hold back" not in driver.text
        await driver.press("h")
        assert driver.screen is screen


# What more is said of a recipe


MORE = {
    "cooked": "165 F",
    "held": "25",
    "warm": "60 C",
    "occasion": "extra",
    "allergens": "milk, wheat",
    "kcal": "240",
    "protein": "12.5",
    "origin": "Gran [/] 冷凍",
}


async def test_all_that_is_said_of_a_recipe_is_kept_and_given_up(world: World) -> None:
    own_foods(world)
    world.recipe("Soup")
    async with driving(world) as driver:
        await to_edit(driver)
        await driver.press("m")
        for text in MORE.values():
            await driver.clear()
            await driver.enter(text)
        assert "Cooked to 73.9 °C · holds back 25 % · extra" in driver.words
        assert "fresh items bring milk, wheat" in driver.words
        await driver.press("f9")
    kept = kitchen.show_recipe(world.room, "Soup")
    assert (kept.cook_to_dc, kept.hold_back_percent, kept.water_temperature_dc) == (739, 25, 600)
    assert (kept.occasion, kept.allergens) == ("extra", ("milk", "wheat"))
    assert (kept.fresh_kcal, kept.fresh_protein_dg) == (240, 125)
    assert kept.origin == "Gran [/] 冷凍"
    async with driving(world) as driver:
        await to_edit(driver)
        await driver.press("m")
        for text in ("", "25", "", "extra", "", "", "", ""):
            await driver.clear()
            await driver.enter(text)
        assert "No cooking step" in driver.words
        await driver.press("f9")
    bare = kitchen.show_recipe(world.room, "Soup")
    assert (bare.cook_to_dc, bare.water_temperature_dc, bare.fresh_kcal) == (None, None, None)
    assert (bare.fresh_protein_dg, bare.allergens, bare.origin) == (None, (), "")


async def test_a_new_recipe_keeps_them_too(world: World) -> None:
    async with driving(world) as driver:
        await to_new(driver, "Salad", "4", "")
        await driver.press("i")
        await driver.enter("lettuce", "", "")
        await driver.press("m")
        await driver.enter("74 C")
        await driver.press("f9", "f9")
    assert kitchen.show_recipe(world.room, "Salad").cook_to_dc == 740


async def test_nothing_creeps_in_when_it_is_opened_and_closed(world: World) -> None:
    own_foods(world)
    world.recipe("Soup")
    recipes.change_recipe(
        world.room, "Soup", cook_to_dc=711, water_temperature_dc=333, fresh_protein_dg=617
    )
    change_household(world.room, units=UnitSystem.US)
    before = draft_of(kitchen.show_recipe(world.room, "Soup"))
    async with driving(world) as driver:
        screen = await to_edit(driver)
        await driver.press("m", "f9")
        assert screen.draft == before


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("cooked", "20 C", "a temperature from 30 to 150 °C"),
        ("cooked", "hot", "“hot” cannot be read"),
        ("held", "", "a whole number from 0 to 100"),
        ("held", "101", "a whole number from 0 to 100"),
        ("warm", "2 C", "a temperature from 4 to 100 °C"),
        ("warm", "101 C", "a temperature from 4 to 100 °C"),
        ("occasion", "feast", "Nothing matches “feast”"),
        ("allergens", "dust", "“dust” cannot be read"),
        ("kcal", "-1", "a whole number from 0 to 1000000"),
        ("kcal", "1.5", "a whole number from 0 to 1000000"),
        ("protein", "much", "“much” cannot be read"),
        ("protein", "101 kg", "100 kg at most"),
    ],
)
async def test_what_cannot_be_is_refused_and_stays(
    world: World, field: str, typed: str, said: str
) -> None:
    own_foods(world)
    world.recipe("Soup")
    values = MORE | {field: typed}
    async with driving(world, (60, 24)) as driver:
        screen = await to_edit(driver)
        before = screen.draft
        await driver.press("m")
        for name, value in values.items():
            await driver.clear()
            await driver.type(value)
            await driver.press("enter" if value == "extra" else "tab" if name != "origin" else "up")
        await driver.press("f9")
        assert said in driver.words
        assert typed_in(driver, field) == typed
        assert screen.draft == before
