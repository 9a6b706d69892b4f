"""Recipes and cooking by commands."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Cli
from tests.world import BEEF_RAW, PEAS, World


@pytest.fixture
def soup(stocked: Cli) -> Cli:
    """A recipe for four: 240 g of peas as fresh, an onion and salt."""
    stocked(
        "recipe", "add", "Pea soup", "--serves", "4", "--stored", f"{PEAS}=240 g fresh",
        "--fresh", "onion=1 each", "--fresh", "salt", "--water", "900", "--steps", "Soak.\nSimmer.",
    )  # fmt: skip
    return stocked


def test_a_recipe_is_kept_as_it_was_said(soup: Cli) -> None:
    found = soup("recipe", "show", "PEA", "--json").json
    assert (found["recipe"], found["serves"], found["cooking_water_dg"]) == ("Pea soup", 4, 9_000)
    peas, onion, salt = found["lines"]
    assert (peas["food"], peas["basis"], peas["weight_dg"]) == (PEAS, "fresh", 2_400)
    assert (onion["item"], onion["amount"], onion["unit"]) == ("onion", 1, "each")
    assert (salt["item"], salt["amount"]) == ("salt", None)
    assert found["steps"] == ["Soak.", "Simmer."]
    page = soup("recipe", "show", "Pea soup").out
    for words in ("240.0 g fresh", "1 each", "some", "Soak.\nSimmer."):
        assert words in page


def test_a_recipe_is_changed_and_taken_out(soup: Cli) -> None:
    soup("recipe", "edit", "pea soup", "--name", "Green soup", "--stored", f"{PEAS}=2 servings")
    found = soup("recipe", "show", "Green soup", "--json").json
    assert [(line["food"], line["servings"]) for line in found["lines"]] == [(PEAS, 2)]
    assert found["cooking_water_dg"] == 9_000
    assert "what to change" in soup("recipe", "edit", "Green soup", code=2).err
    soup("recipe", "remove", "Green soup")
    assert soup("recipe", "list", "--json").json == []
    soup("undo")
    assert [row["name"] for row in soup("recipe", "list", "--json").json] == ["Green soup"]


def test_a_recipe_feeds_the_household_unless_said(stocked: Cli) -> None:
    stocked("household", "--people", "7")
    stocked("recipe", "add", "Mash", "--stored", f"{PEAS}=60 g dry")
    assert stocked("recipe", "show", "Mash", "--json").json["serves"] == 7


def test_cooking_says_what_to_take_from_where_and_how_much_water(soup: Cli) -> None:
    sheet = soup("cook", "Pea soup", "--people", "6", "--json").json
    # 360 g as fresh of peas with 845 g of water to 155 g dry is 55.8 g dry and 304.2 g of water.
    (pick,) = sheet["picks"]
    assert (pick["code"], pick["take_dg"], pick["water_dg"]) == ("26329A01E", 558, 3_042)
    assert (pick["place"], pick["opens"], pick["finishes"]) == ("cellar/rack 1", True, False)
    assert (sheet["water_dg"], sheet["cooking_water_dg"], sheet["people"]) == (3_042, 13_500, 6)
    assert sheet["fresh"][0] == {"item": "onion", "amount": 1.5, "unit": "each"}
    assert sheet["unchecked_codes"] == ["26329A01E"] and sheet["done"] is None
    page = soup("cook", "Pea soup", "--people", "6").out
    for words in (
        "304.2 g",
        "1¼ US cups",
        "an upper bound",
        "on top of it",
        "no settle check yet",
        "Bear in mind",
    ):
        assert words in page, words
    assert soup("show", "26329A01", "--json").json["dry_left_dg"] == 620


def test_taking_records_the_meal(soup: Cli) -> None:
    answer = soup("cook", "Pea soup", "--people", "6", "--take")
    assert answer.lines[2].startswith("Cooked Pea soup for 6 from 1 package")
    found = soup("show", "26329A01", "--json").json
    assert (found["dry_left_dg"], found["condition"]) == (62, "opened")
    assert "for Pea soup" in soup("show", "26329A01").out
    assert soup("recipe", "list", "--json").json[0]["last_cooked_on"] == "2026-11-25"
    soup("undo")
    assert soup("show", "26329A01", "--json").json["dry_left_dg"] == 620


def test_what_is_short_is_said_and_not_taken_unasked(soup: Cli) -> None:
    sheet = soup("cook", "Pea soup", "--people", "20", "--json").json
    # Two packages of 400 g as fresh are there, 1200 g are wanted.
    assert [(one["food"], one["short_dg"]) for one in sheet["short"]] == [(PEAS, 4_000)]
    assert "Short" in soup("cook", "Pea soup", "--people", "20").out
    refused = soup("cook", "Pea soup", "--people", "20", "--take", code=3)
    assert "short of" in refused.err and refused.out == ""
    taken = soup("cook", "Pea soup", "--people", "20", "--take", "--short", "--json").json
    assert taken["codes"] == ["26329A01E", "26329A02C"]
    assert [pick["finishes"] for pick in taken["picks"]] == [True, True]


def test_raw_food_in_a_dish_is_named(soup: Cli, world: World) -> None:
    world.packed(BEEF_RAW, "1xjar-950", dry_g=300)
    soup("recipe", "add", "Roast", "--serves", "2", "--stored", f"{BEEF_RAW}=1 serving")
    page = soup("cook", "Roast").out
    assert f"{BEEF_RAW}: must be cooked after water is added" in page
    assert "145 °F" in page and "Food Safety and Inspection Service" in page


def test_a_food_that_is_not_there_is_named(soup: Cli) -> None:
    answer = soup("recipe", "add", "Pie", "--stored", "Pees=1 serving", code=3)
    assert answer.err.startswith("There is no food “Pees”.")
