"""A recipe file by keys: the path, the review, each line decided, taken or left."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from textual.app import App

from stockroom.services import foods, history
from stockroom.services.recipes import list_recipes, show_recipe
from stockroom.tui.screens.kitchen import KitchenScreen
from stockroom.tui.screens.recipe_import import RecipeImportScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.domain.recipe_pages import BANANA_BREAD, CHOWDER_PAGE
from tests.services.cases_recipe_files import SOUP
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.world import APPLE, PEAS, World

SameScreen = Callable[[App[Any], str], None]

HARD_SOUP = {
    **SOUP,
    "name": "Soup [/] 冷凍",
    "recipeIngredient": [
        "150 g peas, thawed",
        "500 ml water",
        "2 cups peas",
        "1 1/2 tbsp oil [/] 冷凍",
        "1,500 g salt",
        "For the top:",
    ],
}
"""A soup with an open line, a doubtful one, and signs that must not be obeyed."""


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A home of the test's own, so that paths on screen are the same everywhere."""
    path = tmp_path / "home"
    path.mkdir()
    monkeypatch.setenv("HOME", str(path))
    return path


def own_foods(world: World) -> None:
    """Two foods of the household's own."""
    foods.add_food(world.room, PEAS, like=PEAS)
    foods.add_food(world.room, HARD_NAME, like=APPLE)


async def to_review(driver: Driver, home: Path, *recipes: object) -> RecipeImportScreen:
    """Import a file of recipes, or one of this text."""
    whole = recipes[0] if isinstance(recipes[0], str) else json.dumps(list(recipes))
    (home / "soup.html").write_text(str(whole), encoding="utf-8")
    await driver.press("4", "i")
    await driver.enter("~/soup.html")
    assert isinstance(driver.screen, RecipeImportScreen)
    return driver.screen


async def test_a_file_is_taken_by_keyboard_alone(world: World, home: Path) -> None:
    own_foods(world)
    before = world.dump()
    async with driving(world) as driver:
        await to_review(driver, home, SOUP)
        await driver.press("f9")
        assert isinstance(driver.screen, KitchenScreen)
    made = show_recipe(world.room, "Pea soup")
    assert [(one.food or one.item, one.weight_dg) for one in made.lines] == [
        (PEAS, 1_500), ("oil", None), ("salt, to taste", None),
    ]  # fmt: skip
    assert made.cooking_water_dg == 4_991
    history.undo(world.room)
    assert world.dump() == before


async def test_an_open_line_is_decided_before_it_is_taken(world: World, home: Path) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_review(driver, home, HARD_SOUP)
        await driver.press("f9")
        assert driver.screen is screen
        assert "To be decided first: line 3: what one cup of" in driver.words
        assert "Line 3: 2 cups peas" in driver.words
        await driver.press("enter")
        await driver.clear()
        await driver.enter("[/]", "dry", "62.5")
        assert driver.screen is screen
        assert screen.review.questions == ()
        await driver.press("f9")
    made = show_recipe(world.room, "Soup")
    assert [(one.food or one.item, one.basis, one.weight_dg) for one in made.lines] == [
        (PEAS, "fresh", 1_500),
        (HARD_NAME, "dry", 625),
        ("oil [/] 冷凍", None, None),
        ("1,500 g salt", None, None),
    ]


@pytest.mark.parametrize(
    ("typed", "becomes", "amount"),
    [
        (("fresh", "", ""), "peas", 2),
        (("fresh", "", "3 bags"), "peas", 3),
        (("cooking water", "", "250"), "water", 250),
        (("leave out", "", ""), "2 cups peas", None),
        (("boiled", "servings", "1 1/2"), PEAS, 1.5),
        (("boiled", "fresh", "290 g"), PEAS, 290),
    ],
)
async def test_a_line_becomes_what_the_person_says(
    world: World, home: Path, typed: tuple[str, ...], becomes: str, amount: float | None
) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_review(driver, home, HARD_SOUP)
        await driver.press("down", "down", "enter")
        await driver.clear()
        for text in typed:
            await driver.enter(text)
        assert driver.screen is screen
        line = screen.review.lines[2]
        assert (line.name, line.amount, line.question) == (becomes, amount, "")


async def test_looking_at_a_line_changes_nothing(world: World, home: Path) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_review(driver, home, HARD_SOUP)
        before = screen.review
        for _ in before.lines:
            await driver.press("enter", "f9", "down")
        assert screen.review == before


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("boiled", "servings", "many"), "“many” cannot be read"),
        (("boiled", "dry", "0"), "a weight above 0"),
        (("boiled", "", "two cups"), "“two cups” cannot be read"),
        (("cooking water", "", "some"), "“some” cannot be read"),
        (("fresh", "", "lots"), "an amount such as 2, 1 1/2 cups or 200 g"),
    ],
)
async def test_a_wrong_amount_is_refused_and_stays(
    world: World, home: Path, typed: tuple[str, ...], said: str
) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_review(driver, home, HARD_SOUP)
        before = screen.review
        await driver.press("down", "down", "enter")
        await driver.clear()
        for text in typed:
            await driver.enter(text)
        form = driver.screen
        assert isinstance(form, FormScreen)
        assert said in form.fields[2].error
        assert form.answers.text("amount") == typed[-1]
        assert screen.review == before


async def test_name_and_people_are_asked_for(world: World, home: Path) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_review(driver, home, BANANA_BREAD)
        await driver.press("f9")
        assert "for how many it is was not said" in driver.words
        await driver.press("e")
        assert "The file says: 1 loaf" in driver.words
        await driver.clear()
        await driver.enter("Bread")
        await driver.clear()
        await driver.enter("8")
        assert (screen.review.name, screen.review.serves) == ("Bread", 8)
        await driver.press("f9")
    assert show_recipe(world.room, "Bread").serves == 8


async def test_several_recipes_are_gone_through_and_one_is_skipped(
    world: World, home: Path
) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_review(driver, home, CHOWDER_PAGE)
        assert "Cod & pea chowder · recipe 1 of 2" in driver.words
        await driver.press("x")
        assert "left out" in driver.words
        await driver.press("n")
        assert "Toast · recipe 2 of 2" in driver.words
        await driver.press("b", "x", "x", "n", "n", "n")
        assert screen.place == 1
        await driver.press("f9")
        assert isinstance(driver.screen, KitchenScreen)
    assert [one.name for one in list_recipes(world.room)] == ["Toast"]


async def test_a_single_recipe_has_no_other_and_is_not_skipped(world: World, home: Path) -> None:
    own_foods(world)
    async with driving(world) as driver:
        screen = await to_review(driver, home, SOUP)
        await driver.press("n", "x")
        assert (screen.place, screen.skipped) == (0, frozenset())


async def test_skipping_all_takes_nothing_and_says_so(world: World, home: Path) -> None:
    async with driving(world) as driver:
        await to_review(driver, home, CHOWDER_PAGE)
        await driver.press("x", "n", "x", "f9")
        assert "at least one recipe to take" in driver.words
    assert list_recipes(world.room) == ()


async def test_leaving_asks_once(world: World, home: Path) -> None:
    own_foods(world)
    before = world.whole_dump()
    async with driving(world) as driver:
        screen = await to_review(driver, home, SOUP)
        await driver.press("escape")
        assert driver.screen is screen
        assert "Not taken: F9 takes it" in driver.words
        await driver.press("escape")
        assert isinstance(driver.screen, KitchenScreen)
    assert world.whole_dump() == before


async def test_a_name_that_is_taken_keeps_what_was_decided(world: World, home: Path) -> None:
    own_foods(world)
    world.recipe("Pea soup für Zoë")
    async with driving(world) as driver:
        screen = await to_review(driver, home, SOUP)
        await driver.press("f9")
        assert driver.screen is screen
        assert "There is already a recipe" in driver.words
        await driver.press("e")
        await driver.clear()
        await driver.enter("Other soup", "")
        await driver.press("f9")
    assert len(list_recipes(world.room)) == 2


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("missing.html", None, "there is no such file"),
        ("soup.html", "dear reader", "There is no schema.org Recipe"),
        ("soup.html", "{", "cannot be read as recipes"),
    ],
)
async def test_a_file_that_cannot_be_read_is_said_beside_its_path(
    world: World, home: Path, name: str, content: str | None, said: str
) -> None:
    if content is not None:
        (home / name).write_text(content, encoding="utf-8")
    async with driving(world) as driver:
        await driver.press("4", "i")
        await driver.enter(f"~/{name}")
        form = driver.screen
        assert isinstance(form, FormScreen)
        assert said in form.fields[0].error
        assert form.answers.text("file") == f"~/{name}"


@pytest.mark.parametrize("size", SIZES)
async def test_the_screens(
    world: World, home: Path, size: tuple[int, int], same_screen: SameScreen
) -> None:
    own_foods(world)
    async with driving(world, size) as driver:
        await driver.press("4", "i")
        same_screen(driver.app, "recipe-import-file")
        await driver.press("escape")
        await to_review(driver, home, HARD_SOUP)
        same_screen(driver.app, "recipe-import")
        await driver.press("down", "down")
        same_screen(driver.app, "recipe-import-open")
        await driver.press("enter")
        same_screen(driver.app, "recipe-import-line")
        await driver.press("escape", "e")
        same_screen(driver.app, "recipe-import-head")
        await driver.press("escape", "f9")
        same_screen(driver.app, "recipe-import-refused")
