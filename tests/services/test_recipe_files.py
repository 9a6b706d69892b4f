"""Recipes in from files and out again: whole, in one action, and the same lines when read back."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from stockroom.domain.cooking import Basis
from stockroom.domain.recipe_review import Fate, as_food, as_fresh, with_line
from stockroom.reports.recipe_files import is_our_recipe_file, recipe_file
from stockroom.services import foods, history, kitchen, measures, recipe_files
from stockroom.services.recipes import (
    LineRequest,
    RecipeExists,
    add_recipe,
    list_recipes,
    remove_recipe,
    show_recipe,
)
from tests.domain.recipe_pages import BANANA_BREAD, CHOWDER_PAGE
from tests.services.cases_recipe_files import SOUP, recipe_page, reviews, with_peas
from tests.tui.screen_text import HARD_NAME
from tests.world import APPLE, PEAS, World


def test_a_recipe_is_proposed_and_taken_as_proposed(world: World) -> None:
    with_peas(world)
    (soup,) = reviews(world.room)
    assert [line.fate for line in soup.lines] == [Fate.STORED, Fate.WATER, Fate.FRESH, Fate.FRESH]
    done = recipe_files.import_recipes(world.room, (soup,))
    assert done.words == "imported the recipe Pea soup für Zoë"
    made = show_recipe(world.room, "Pea soup")
    assert (made.recipe_id, made.serves, made.cooking_water_dg) == (done.made_id, 4, 4_991)
    assert made.origin == "Zoë’s mother"
    assert made.steps.splitlines() == [
        "Cooking 20 minutes.", "Soak.", "Simmer.", "In the recipe: 150 g peas, thawed",
    ]  # fmt: skip
    assert [(one.food, one.basis, one.weight_dg, one.item, one.amount_thousandths, one.unit)
            for one in made.lines] == [
        (PEAS, "fresh", 1_500, None, None, None),
        (None, None, None, "oil", 1_500, "tbsp"),
        (None, None, None, "salt, to taste", None, None),
    ]  # fmt: skip


def test_reading_a_file_keeps_nothing(world: World) -> None:
    with_peas(world)
    before = world.whole_dump()
    reviews(world.room)
    assert world.whole_dump() == before


def test_several_recipes_are_one_action(world: World) -> None:
    with_peas(world)
    before = world.dump()
    both = reviews(world.room, SOUP, {**SOUP, "name": "Stew"})
    done = recipe_files.import_recipes(world.room, both)
    assert done.words == "imported 2 recipes: Pea soup für Zoë, Stew"
    assert [one.name for one in list_recipes(world.room)] == ["Pea soup für Zoë", "Stew"]
    history.undo(world.room)
    assert world.dump() == before


def test_a_name_that_is_taken_keeps_all_of_them_out(world: World) -> None:
    with_peas(world)
    add_recipe(world.room, "stew", 2, [LineRequest(item="salt")])
    before = world.whole_dump()
    both = reviews(world.room, SOUP, {**SOUP, "name": "Stew"})
    with pytest.raises(RecipeExists):
        recipe_files.import_recipes(world.room, both)
    assert world.whole_dump() == before
    recipe_files.import_recipes(world.room, (both[0], replace(both[1], name="Stew again")))
    assert len(list_recipes(world.room)) == 3


def test_a_measure_of_the_food_counts_and_one_of_dry_food_does_not(world: World) -> None:
    with_peas(world)
    cup = {**SOUP, "recipeIngredient": ["2 cups peas"]}
    measures.set_measure(world.room, PEAS, "cup", 320, basis=Basis.DRY)
    (asked,) = reviews(world.room, cup)
    assert "was weighed, but not fresh" in asked.questions[0]
    measures.set_measure(world.room, PEAS, "Cup", 1_450, basis=Basis.FRESH)
    (ready,) = reviews(world.room, cup)
    recipe_files.import_recipes(world.room, (ready,))
    (line,) = show_recipe(world.room, "Pea soup").lines
    assert (line.basis, line.amount_thousandths, line.unit) == ("measure", 2_000, "cup")


def test_what_is_decided_by_hand_is_what_is_kept(world: World) -> None:
    with_peas(world)
    (bread,) = recipe_files.read_recipe_file(world.room, _page(world, BANANA_BREAD)).recipes
    decided = replace(with_line(bread, as_fresh(bread.lines[1])), serves=8)
    known = recipe_files.known_foods(world.room)[0]
    decided = with_line(decided, as_food(decided.lines[2], known, Basis.SERVINGS, Fraction(1, 2)))
    recipe_files.import_recipes(world.room, (decided,))
    made = show_recipe(world.room, "Mom")
    assert [(one.food or one.item, one.servings_hundredths) for one in made.lines] == [
        ("ripe bananas, smashed", None), ("egg", None), (PEAS, 50),
    ]  # fmt: skip


def _page(world: World, text: str) -> Path:
    path = world.path.with_name("page.html")
    path.write_text(text, encoding="utf-8")
    return path


def test_a_saved_page_in_other_letters_is_read(world: World) -> None:
    path = world.path.with_name("page.html")
    for encoding in ("utf-8-sig", "utf-16", "cp1252"):
        path.write_bytes(CHOWDER_PAGE.encode(encoding))
        preview = recipe_files.read_recipe_file(world.room, path)
        assert [one.name for one in preview.recipes] == ["Cod & pea chowder", "Toast"]
        assert len(preview.troubles) == 1


def test_the_book_written_out_and_read_back_is_the_same(world: World) -> None:
    """By the services alone: out of one household, into another that has the same foods."""
    for name in (PEAS, HARD_NAME):
        foods.add_food(world.room, name, like=APPLE)
    measures.set_measure(world.room, HARD_NAME, "scoop", 250)
    lines = [
        LineRequest(PEAS, Basis.FRESH, amount=Fraction(400)),
        LineRequest(HARD_NAME, Basis.DRY, amount=Fraction(125, 2)),
        LineRequest(PEAS, Basis.SERVINGS, amount=Fraction(3, 2)),
        LineRequest(HARD_NAME, Basis.MEASURE, amount=Fraction(1, 3), unit="scoop"),
        LineRequest(item="peas, in the pod", amount=Fraction(1, 2), unit="big bag"),
        LineRequest(item=HARD_NAME),
    ]
    add_recipe(
        world.room,
        "Soup [/] <b> 冷凍",
        3,
        lines,
        cooking_water_dg=9_005,
        steps="Soak.\nStir & eat.",
        origin="the hut",
    )
    add_recipe(world.room, "Stew", 1, [LineRequest(item="salt", unit="pinch")])
    before = recipe_files.recipes_to_write(world.room)
    held = recipe_file(before)
    assert is_our_recipe_file(held[:4096])
    path = world.path.with_name("book.json")
    path.write_bytes(held)
    for one in before:
        remove_recipe(world.room, one.name)
    recipe_files.import_recipes(world.room, recipe_files.read_recipe_file(world.room, path).recipes)
    after = recipe_files.recipes_to_write(world.room)
    assert [replace(one, recipe_id=0) for one in after] == [
        replace(one, recipe_id=0) for one in before
    ]


def test_recipes_are_written_once_each_in_the_order_asked_for(world: World) -> None:
    for name in ("Soup", "Stew", "Mash"):
        add_recipe(world.room, name, 2, [LineRequest(item="salt")])
    named = recipe_files.recipes_to_write(world.room, ["stew", "Mash", "STEW"])
    assert [one.name for one in named] == ["Stew", "Mash"]
    assert [one.name for one in recipe_files.recipes_to_write(world.room)] == [
        "Mash", "Soup", "Stew",
    ]  # fmt: skip


def test_the_file_is_plain_json_that_names_its_vocabulary(world: World) -> None:
    add_recipe(world.room, "Soup", 2, [LineRequest(item="salt")])
    held = recipe_file(recipe_files.recipes_to_write(world.room))
    value = json.loads(held)
    assert (value["@context"], value["@type"]) == ("https://schema.org", "Recipe")
    assert not is_our_recipe_file(b'{"@context": "https://schema.org", "@type": "Recipe"}')
    assert not is_our_recipe_file(b"dear reader")


def test_what_was_brought_in_can_be_cooked(world: World) -> None:
    world.packed(PEAS, "1xpouch-400-foil:60")
    (soup,) = reviews(world.room)
    recipe_files.import_recipes(world.room, (soup,))
    assert kitchen.cook_meal(world.room, "Pea soup", 4).codes == ("26329A01E",)
    assert recipe_page(world.room).exists()
