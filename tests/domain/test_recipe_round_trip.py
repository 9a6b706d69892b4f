"""Recipes written as JSON-LD and read back: the same lines, whatever their names and units hold."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from stockroom.domain.cooking import Basis
from stockroom.domain.food_match import suggestions
from stockroom.domain.ingredient_words import line_words, read_any, water_words, written_line
from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.recipe_ld import read_recipes
from stockroom.domain.recipe_ld_writing import recipes_node
from stockroom.domain.recipe_review import Fate, KnownFood, LineReview, review_of
from stockroom.domain.records import RecipeLine, RecipeRecord

_SIGNS = st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp"))
_PIECES = st.sampled_from(
    ["g", "1/2", "cup", "of", "Peas, green", "(dry weight), freeze-dried", "”", "“", ": 2 ",
     "water", "&amp;", "<b>", "½", "servings", "2", ",", "water (cooking water)", "some", "For:"]
)  # fmt: skip
_NAMES = (
    (st.text(_SIGNS, max_size=12) | st.lists(_PIECES, min_size=1, max_size=4).map(" ".join))
    .map(lambda text: " ".join(text.split()))
    .filter(lambda text: 0 < len(text) <= 60)
)


@st.composite
def lines(draw: st.DrawFn, position: int) -> RecipeLine:
    """A line as the book may hold it."""
    basis = draw(st.sampled_from([*Basis, None]))
    name = draw(_NAMES)
    blank: dict[str, Any] = dict.fromkeys(
        ("weight_dg", "servings_hundredths", "item", "amount_thousandths", "unit")
    )
    if basis is None:
        amount = draw(st.none() | st.integers(1, 10**9))
        unit = draw(st.none() | _NAMES)
        blank |= {"item": name, "amount_thousandths": amount, "unit": unit}
        return RecipeLine(position, None, None, None, **blank)
    if basis is Basis.SERVINGS:
        blank["servings_hundredths"] = draw(st.integers(1, 100_000))
    elif basis is Basis.MEASURE:
        blank |= {"amount_thousandths": draw(st.integers(1, 10**9)), "unit": draw(_NAMES)}
    else:
        blank["weight_dg"] = draw(st.integers(1, 1_000_000))
    return RecipeLine(position, 1, name, basis.value, **blank)


def line_of(**fields: Any) -> RecipeLine:
    """A line of these fields."""
    blank = dict.fromkeys(
        ("food_id", "food", "basis", "weight_dg", "servings_hundredths", "item",
         "amount_thousandths", "unit")
    )  # fmt: skip
    return RecipeLine(1, **(blank | fields))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"food": "Peas, green", "basis": "fresh", "weight_dg": 2_400},
         "240 g Peas, green (fresh weight), freeze-dried"),
        ({"food": "Peas", "basis": "dry", "weight_dg": 625},
         "62.5 g Peas (dry weight), freeze-dried"),
        ({"food": "Peas", "basis": "servings", "servings_hundredths": 100},
         "1 serving of Peas, freeze-dried"),
        ({"food": "Peas", "basis": "servings", "servings_hundredths": 250},
         "2 1/2 servings of Peas, freeze-dried"),
        ({"food": "Peas", "basis": "measure", "amount_thousandths": 333, "unit": "cup"},
         "1/3 cup of Peas, freeze-dried"),
        ({"item": "salt"}, "salt"),
        ({"item": "olive oil", "amount_thousandths": 1_500, "unit": "tbsp"},
         "1 1/2 tbsp olive oil"),
        ({"item": "onion, diced", "amount_thousandths": 2_000}, "2 onion, diced"),
        ({"item": "flour", "amount_thousandths": 150_000, "unit": "g"}, "150 g flour"),
        ({"item": "onion", "amount_thousandths": 1_000, "unit": "big one, peeled"},
         "“onion”: 1 “big one, peeled”"),
        ({"item": "salt", "unit": "pinch"}, "“salt”: some “pinch”"),
        ({"item": "7 spices"}, "“7 spices”"),
    ],
)  # fmt: skip
def test_a_line_in_words(fields: dict[str, Any], words: str) -> None:
    assert line_words(line_of(**fields)) == words


def test_water_in_words() -> None:
    assert water_words(9_005) == "900.5 g water (cooking water)"


def back(line: LineReview) -> dict[str, Any]:
    """A reviewed line in the fields of the book."""
    amount = line.amount
    if line.fate is Fate.FRESH:
        thousandths = None if amount is None else nearest_whole(amount * 1000)
        return {"item": line.name, "amount_thousandths": thousandths, "unit": line.unit}
    assert line.fate is Fate.STORED and amount is not None and line.basis is not None
    found: dict[str, Any] = {"food": line.name, "basis": line.basis.value}
    if line.basis is Basis.SERVINGS:
        return found | {"servings_hundredths": nearest_whole(amount * 100)}
    if line.basis is Basis.MEASURE:
        return found | {"amount_thousandths": nearest_whole(amount * 1000), "unit": line.unit}
    return found | {"weight_dg": nearest_whole(amount * 10)}


def household(recipe: RecipeRecord) -> tuple[KnownFood, ...]:
    """The foods of a recipe with every measure they are counted in."""
    measures: dict[str, list[FoodMeasure]] = {}
    for line in recipe.lines:
        if line.food is not None:
            weighed = measures.setdefault(line.food, [])
            if line.unit is not None:
                weighed.append(FoodMeasure(1, 1, line.food, line.unit, "dry", 500))
    return tuple(KnownFood(name, tuple(some)) for name, some in measures.items())


def differ(recipe: RecipeRecord) -> bool:
    """Whether its foods could stand in one household: their names differ by more than case."""
    names = {line.food for line in recipe.lines if line.food is not None}
    return len({name.casefold() for name in names}) == len(names)


@st.composite
def books(draw: st.DrawFn) -> RecipeRecord:
    """A recipe of the book."""
    count = draw(st.integers(1, 4))
    return RecipeRecord(
        7,
        draw(_NAMES),
        draw(st.integers(1, 1000)),
        draw(st.integers(0, 1_000_000)),
        "\n".join(draw(st.lists(_NAMES, max_size=3))),
        tuple(draw(lines(place)) for place in range(1, count + 1)),
    )


WATERY = "g water (cooking water) water (cooking water)"
"""Read as a cook's line, its name and its unit together are too long for the book."""


@given(books().filter(differ))
@example(
    RecipeRecord(
        7, "Rice", 1, 0, "", (RecipeLine(1, None, None, None, None, None, "lemon", 167, None),)
    )
)
@example(
    RecipeRecord(
        7, "Soup", 1, 0, "",
        (RecipeLine(1, None, None, None, None, None, WATERY, None, f"g g {WATERY[:23]}"),),
    )
)  # fmt: skip
@settings(max_examples=200, deadline=None)
def test_a_recipe_reads_back_as_it_was(recipe: RecipeRecord) -> None:
    """Through JSON text, the reading of any file, and the review, with nothing decided by hand."""
    (draft,) = read_recipes(json.loads(json.dumps(recipes_node([recipe]))))
    foods = household(recipe)
    review = review_of(draft, foods)
    assert draft.ours
    assert (review.name, review.serves) == (recipe.name, recipe.serves)
    assert review.cooking_water_dg == recipe.cooking_water_dg
    assert review.steps == recipe.steps
    kept = [line for line in review.lines if line.fate is not Fate.WATER]
    for line, read in zip(recipe.lines, kept, strict=True):
        stands = back(read)
        assert stands == {name: getattr(line, name) for name in stands}
        assert (read.fate is Fate.FRESH) == (line.food is None)
        assert read.question == ""


@given(lines(1))
@example(line_of(item="x”: 2 “y", amount_thousandths=3_000, unit="a”: 1 “b"))
@example(line_of(item="peas (fresh weight), freeze-dried", amount_thousandths=240_000, unit="g"))
@example(line_of(item="water (cooking water)", amount_thousandths=500_000, unit="g"))
@example(line_of(food="X (dry weight), freeze-dried", basis="fresh", weight_dg=7, food_id=1))
@example(line_of(food="a of b", basis="measure", amount_thousandths=100, unit="c of d"))
@example(line_of(food="Peas", basis="measure", amount_thousandths=100, unit="servings"))
@settings(max_examples=200, deadline=None)
def test_a_line_reads_back_as_it_was(line: RecipeLine) -> None:
    wanted, read = written_line(line), read_any(line_words(line))
    assert (read.name, read.basis, read.unit) == (wanted.name, wanted.basis, wanted.unit)
    if wanted.amount is None:
        assert read.amount is None
    else:
        assert read.amount is not None
        assert nearest_whole(read.amount * 1000) == wanted.amount * 1000


def test_several_recipes_stand_in_a_graph_in_their_order() -> None:
    recipes = [
        RecipeRecord(place, name, 2, 0, "", (line_of(item="salt"),))
        for place, name in enumerate(("Soup", "Stew"), start=1)
    ]
    node = recipes_node(recipes)
    assert node["@context"] == "https://schema.org"
    assert [one.name for one in read_recipes(node)] == ["Soup", "Stew"]


def test_only_standard_fields_are_written() -> None:
    """Names of the vocabulary (schema.org/Recipe, from memory)."""
    line = line_of(item="salt")
    recipe = RecipeRecord(3, "Soup", 1, 100, "Boil.", (line,), origin="grandmother")
    node = recipes_node([recipe])
    assert list(node) == [
        "@context", "@type", "identifier", "name", "recipeYield", "recipeIngredient",
        "recipeInstructions", "author",
    ]  # fmt: skip
    assert node["recipeYield"] == "1 serving"
    (draft,) = read_recipes(node)
    assert draft.origin == "grandmother"


def test_what_we_wrote_as_fresh_is_not_proposed_from_the_shelves() -> None:
    recipe = RecipeRecord(3, "Soup", 1, 0, "", (line_of(item="peas", amount_thousandths=1_000),))
    (draft,) = read_recipes(recipes_node([recipe]))
    (line,) = review_of(draft, (KnownFood("Peas"),)).lines
    assert line.fate is Fate.FRESH
    assert line.suggestions == suggestions("peas", ("Peas",)) != ()
