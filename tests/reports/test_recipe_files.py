"""The review of a recipe file on paper: every width, plain keys, and nothing that steers."""

from __future__ import annotations

import json
import re
from dataclasses import replace

import pytest

from stockroom.domain.quantities import UnitSystem
from stockroom.domain.recipe_ld import read_recipes
from stockroom.domain.recipe_page import read_page
from stockroom.domain.recipe_review import (
    ImportPreview,
    KnownFood,
    as_food,
    review_of,
    with_line,
)
from stockroom.reports.as_json import as_json
from stockroom.reports.as_text import as_text
from stockroom.reports.plain import cells
from stockroom.reports.recipe_files import import_report
from stockroom.services.results import Done
from tests.domain.recipe_pages import CHOWDER_PAGE

FOODS = (KnownFood("Peas, green"), KnownFood('[/] jar [soft] "7" 冷凍'))


def preview() -> ImportPreview:
    """A page of two recipes, a broken script, and one line mapped to an awkward name."""
    page = read_page(CHOWDER_PAGE)
    drafts = [one for value in page.values for one in read_recipes(value)]
    chowder, toast = (review_of(one, FOODS) for one in drafts)
    toast = with_line(toast, as_food(toast.lines[0], FOODS[1]))
    return ImportPreview("page.html", (chowder, replace(toast, name="T\x1b[31m")), page.troubles)


@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_review_fits_the_page_and_steers_no_terminal(width: int) -> None:
    text = as_text(import_report(preview(), UnitSystem.METRIC), UnitSystem.METRIC, width)
    assert max(cells(line) for line in text.splitlines()) <= width
    assert text.replace("\n", "").isprintable()
    for words in ("Recipe 1 of 2", "150.0 g fresh", "cooking water", "left out", "how much?"):
        assert words in text


def test_what_is_to_be_decided_and_what_was_lost_is_said() -> None:
    text = as_text(import_report(preview(), UnitSystem.METRIC), UnitSystem.METRIC)
    for words in (
        "- script 1 is no JSON: line 1, column 3",
        "- recipeIngredient, line 6: it has no text",
        "- cookTime: “5 minutes” is no length of time such as PT1H15M",
        "- line 1: what one slice of [/] jar [soft]",
        "Nutrition as published (a serving is 1 bowl)",
    ):
        assert words in text


def test_programs_get_every_line_with_what_was_read() -> None:
    held = as_json(import_report(preview(), UnitSystem.METRIC, Done("imported 2 recipes")))
    assert held.replace("\n", "").isprintable()
    found = json.loads(held)
    assert (found["done"], found["file"]) == ("imported 2 recipes", "page.html")
    assert found["troubles"] == list(preview().troubles)
    chowder, toast = found["recipes"]
    assert (chowder["serves"], chowder["cooking_water_dg"]) == (6, 4_991)
    peas = chowder["lines"][0]
    assert (peas["text"], peas["read_weight_dg"]) == ("1 cup (150 g) peas, thawed", 1_500)
    assert (peas["becomes"], peas["name"], peas["basis"], peas["amount"]) == (
        "food", "Peas, green", "fresh", 150,
    )  # fmt: skip
    assert toast["lines"][0]["problems"] and toast["questions"]
    keys = [*found, *chowder, *peas, *chowder["findings"][0], *peas["suggestions"][0]]
    assert all(re.fullmatch(r"[a-z][a-z_]*", key) for key in keys)
