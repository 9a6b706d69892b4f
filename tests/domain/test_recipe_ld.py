"""Recipes out of JSON-LD, field by field, on the vocabulary's own example and on whole pages."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.recipe_ld import RecipeDraft, read_recipes
from stockroom.domain.recipe_ld_parts import read_instructions, read_yield
from stockroom.domain.recipe_ld_values import as_json_text, plain_text
from stockroom.domain.recipe_page import read_page
from tests.domain.recipe_pages import BANANA_BREAD, BANANA_BREAD_OLDER, CHOWDER_PAGE

METHOD = (
    "Preheat the oven to 350 degrees. Mix in the ingredients in a bowl. Add the flour last."
    " Pour the mixture into a loaf pan and bake for one hour."
)


def recipes(text: str) -> list[RecipeDraft]:
    """Every recipe of a file."""
    return [one for value in read_page(text).values for one in read_recipes(value)]


def draft(**fields: Any) -> RecipeDraft:
    """A recipe of these fields."""
    node = {"@context": "https://schema.org", "@type": "Recipe", **fields}
    (read,) = read_recipes(json.loads(json.dumps(node)))
    return read


def said(read: RecipeDraft, field: str) -> list[str]:
    """The findings about a field."""
    return [one.words for one in read.findings if one.field == field]


@pytest.mark.parametrize(
    ("text", "rest"),
    [
        (BANANA_BREAD_OLDER, "datePublished, description, image, interactionCount"),
        (BANANA_BREAD, "datePublished, description, image, interactionStatistic"),
    ],
)
def test_the_vocabularys_own_example(text: str, rest: str) -> None:
    """Every field of schema.org's example for Recipe, read by eye from the example itself."""
    (read,) = recipes(text)
    assert read.name == "Mom's World Famous Banana Bread"
    assert read.origin == "John Smith"
    assert (read.serves, read.yield_words) == (None, "1 loaf")
    assert [(one.amount, one.unit, one.item, one.note) for one in read.ingredients] == [
        (4, None, "ripe bananas", "smashed"),
        (1, None, "egg", ""),
        (0.75, "cup", "sugar", ""),
    ]
    assert read.steps.splitlines() == [
        "Preparation 15 minutes, cooking 1 hour.",
        METHOD,
        "Nutrition as published: calories 240 calories, fat 9 grams fat.",
    ]
    assert said(read, "recipeYield") == [
        "recipeYield: “1 loaf” is no number of people: say for how many"
    ]
    assert said(read, "other fields") == [f"other fields: not kept: {rest}"]
    diet = "suitableForDiet" in text
    assert bool(said(read, "suitableForDiet")) == diet
    if diet:
        assert "“LowFatDiet” is not taken over" in said(read, "suitableForDiet")[0]
    assert [one.field for one in read.lost] == ["recipeYield"]
    assert not read.ours and said(read, "@context") == []


def test_a_saved_page_with_a_graph_of_two() -> None:
    page = read_page(CHOWDER_PAGE)
    assert page.troubles == ("script 1 is no JSON: line 1, column 3",)
    chowder, toast = recipes(CHOWDER_PAGE)
    assert chowder.name == "Cod & pea chowder"
    assert chowder.origin == "A. Cook, https://example.org/cod"
    assert (chowder.serves, said(chowder, "recipeYield")) == (6, [])
    assert chowder.steps.splitlines() == [
        "Preparation 20 minutes, in all 1 hour 30 minutes.",
        "Render slowly.",
        "For the broth:",
        "Add the wine & reduce.",
        "Stir.",
        "At the end:",
        "Add cream.",
        "Never boil it.",
        "Serve.",
        "Eat.",
        "Nutrition as published (a serving is 1 bowl): calories 310 kcal, saturated fat 4 g,"
        " protein 22 g.",
    ]
    texts = [one.text for one in chowder.ingredients]
    assert texts[0] == "1 cup (150 g) peas, thawed" and texts[4] == "2 lbs cod – in chunks"
    assert said(chowder, "recipeIngredient") == ["recipeIngredient, line 6: it has no text"]
    assert (toast.name, toast.serves) == ("Toast", 2)
    assert [one.item for one in toast.ingredients] == ["bread", "butter"]
    assert toast.steps.splitlines() == ["1. Toast.", "2. Butter."]
    assert said(toast, "cookTime") == ["cookTime: “5 minutes” is no length of time such as PT1H15M"]


@pytest.mark.parametrize(
    ("value", "serves", "about"),
    [
        (4, 4, ""),
        ("4", 4, ""),
        (4.0, 4, ""),
        ("4 servings", 4, ""),
        ("Serves 4", 4, ""),
        ("serves: 4 people", 4, ""),
        ("4 servings (about 6-8 cups)", 4, ""),
        ("Makes 12", 12, "change it if it counts pieces"),
        ("4-6 servings", 4, "the smaller is taken"),
        ("Serves 4 to 6", 4, "the smaller is taken"),
        (["6", "6 servings"], 6, ""),
        (["1 loaf", "8 servings"], 8, ""),
        ({"@type": "QuantitativeValue", "value": 5}, 5, ""),
        ({"@type": "QuantitativeValue", "minValue": 3, "unitText": "people"}, 3, ""),
        ("1 loaf", None, "no number of people"),
        ("12 cookies", None, "no number of people"),
        ("1/2 serving", None, "no number of people"),
        ("0", None, "no number of people"),
        ("5000 servings", None, "no number of people"),
        ("a lot", None, "no number of people"),
        (None, None, "does not say for how many"),
        ([], None, "does not say for how many"),
        ("", None, "does not say for how many"),
        (True, None, "does not say for how many"),
    ],
)
def test_for_how_many(value: object, serves: int | None, about: str) -> None:
    read = read_yield(value)
    assert read.serves == serves
    words = " ".join(one.words for one in read.findings)
    assert about in words and bool(about) == bool(words)
    assert all(one.lost == (serves is None) for one in read.findings)


@pytest.mark.parametrize(
    ("value", "lines"),
    [
        ("Mix.\nBake.", ["Mix.", "Bake."]),
        ("<ol><li>Mix.</li><li>Bake.</li></ol>", ["Mix.", "Bake."]),
        (["Mix.", {"@type": "HowToStep", "text": "Bake."}], ["Mix.", "Bake."]),
        ({"itemListElement": [{"@type": "ListItem", "item": "Mix."}]}, ["Mix."]),
        ({"@type": "HowToStep", "name": "Short", "text": "Long."}, ["Long."]),
        ({"@type": "HowToStep", "name": "Short"}, ["Short"]),
        ([["Mix.", ["Bake."]]], ["Mix.", "Bake."]),
        ({"@value": "Mix.", "@language": "en"}, ["Mix."]),
    ],
)  # fmt: skip
def test_instructions_in_every_form(value: object, lines: list[str]) -> None:
    read = read_instructions(value)
    assert (list(read.lines), read.findings) == (lines, ())


def test_steps_without_text_are_named() -> None:
    read = read_instructions(["Mix.", {"@type": "HowToStep"}, 7, None])
    assert read.lines == ("Mix.", "7")
    assert [one.words for one in read.findings] == [
        "recipeInstructions, line 2: it has no text",
        "recipeInstructions, line 4: it has no text",
    ]
    assert [one.lost for one in read_instructions(None).findings] == [False]


@pytest.mark.parametrize("kind", ["Recipe", "schema:Recipe", "http://schema.org/Recipe",
                                  ["Thing", "https://schema.org/Recipe"]])  # fmt: skip
@pytest.mark.parametrize("inside", ["top", "list", "graph", "main entity"])
def test_a_recipe_is_found_wherever_it_stands(kind: object, inside: str) -> None:
    node: dict[str, Any] = {"@type": kind, "name": "Soup", "recipeIngredient": ["salt"]}
    value: object = {
        "top": {"@context": "http://schema.org/", **node},
        "list": [{"@type": "WebSite"}, node],
        "graph": {"@context": ["https://schema.org", {"x": "y"}], "@graph": [node]},
        "main entity": {
            "@context": "https://schema.org",
            "mainEntity": {"@type": "X", "a": [node]},
        },
    }[inside]
    (read,) = read_recipes(value)
    assert read.name == "Soup"
    assert bool(said(read, "@context")) == (inside == "list")


@pytest.mark.parametrize("value", [None, 3, "Recipe", [], {}, {"@type": "Recipes"}, [[[]]]])
def test_no_recipe_is_no_recipe(value: object) -> None:
    assert read_recipes(value) == ()


def test_what_is_missing_is_said() -> None:
    read = draft()
    assert {one.field for one in read.lost} == {"name", "recipeYield", "recipeIngredient"}
    assert read.ingredients == () and read.name == ""


def test_odd_values_are_named_and_break_nothing() -> None:
    read = draft(name=["Soup", "Stew"], recipeIngredient=[None, {"@type": "X"}, 3, {"name": "oil"}],
                 author=[{"@type": "Person"}, 7], nutrition="240 kcal", url={"@id": "#a"},
                 prepTime=15)  # fmt: skip
    assert read.name == "Soup"
    assert [one.text for one in read.ingredients] == ["3", "oil"]
    assert [one.place for one in read.lost if one.field == "recipeIngredient"] == [1, 2]
    assert read.origin == "7, #a"
    assert "Nutrition as published: 240 kcal." in read.steps
    assert said(read, "prepTime") == ["prepTime: “15” is no length of time such as PT1H15M"]


def test_a_very_deep_file_is_not_followed_to_its_end() -> None:
    deep: Any = {"@type": "Recipe", "name": "Soup"}
    for _ in range(500):
        deep = [deep]
    assert read_recipes(deep) == ()
    nested: Any = "Stir."
    for _ in range(500):
        nested = {"@type": "HowToSection", "itemListElement": [nested]}
    assert read_instructions([nested]).lines == ()
    troubles = read_page("[" * 200_000).troubles
    assert troubles and troubles[0].startswith("the file is no JSON")


def test_text_is_plain_and_its_entities_are_signs() -> None:
    assert plain_text("Cr&egrave;me &amp; <b>salt</b> 3 < 4 &lt;i&gt;") == "Crème & salt 3 < 4 <i>"
    assert plain_text("a\x1b[31mb\ud800\x00c") == "a [31mb\N{REPLACEMENT CHARACTER} c"
    assert draft(name="a\nb\t c").name == "a b c"


@given(st.text(st.characters(exclude_categories=("Cc", "Cs")), max_size=60))
@settings(max_examples=150)
def test_text_of_ours_reads_back(text: str) -> None:
    assert plain_text(as_json_text(text)) == text


_JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12)
    | st.sampled_from(["Recipe", "HowToStep", "4-6", "PT5M", "1 cup peas"]),
    lambda inner: st.lists(inner, max_size=4)
    | st.dictionaries(
        st.sampled_from(
            ["@type", "@id", "@graph", "@context", "@value", "name", "text", "recipeYield",
             "recipeIngredient", "recipeInstructions", "itemListElement", "nutrition", "author",
             "prepTime", "suitableForDiet", "value", "identifier"]
        ),
        inner,
        max_size=6,
    ),
    max_leaves=12,
)  # fmt: skip


@given(st.dictionaries(st.sampled_from(["name", "recipeYield", "recipeIngredient", "nutrition",
                                        "recipeInstructions", "author", "cookTime", "@id",
                                        "identifier", "suitableForDiet"]), _JSON))  # fmt: skip
@settings(max_examples=150)
def test_any_value_in_any_field_is_read_or_named(fields: dict[str, object]) -> None:
    (read,) = read_recipes({"@type": "Recipe", **fields})
    assert "\n" not in read.name
    assert all(one.message and one.field for one in read.findings)


@given(st.text(max_size=200))
@settings(max_examples=100)
def test_any_text_is_read_as_a_page(text: str) -> None:
    page = read_page(text)
    assert isinstance(page.values, tuple)
