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
    # 30 % of it is held back: 91.26 g.
    assert (sheet["water_now_dg"], sheet["water_held_dg"]) == (2_129, 913)
    assert sheet["fresh"][0] == {"item": "onion", "amount": 1.5, "unit": "each"}
    assert sheet["unchecked_codes"] == ["26329A01E"] and sheet["done"] is None
    page = soup("cook", "Pea soup", "--people", "6").out
    for words in (
        "304.2 g · 305 mL · about 1¼ US cups in all",
        "212.9 g · 213 mL · about 1 US cup",
        "91.3 g · 91 mL · about ½ US cup, and add it to taste",
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
    assert sheet["stand_ins"] == []
    assert (
        f"Nothing on the shelves could stand in for {PEAS}."
        in soup("cook", "Pea soup", "--people", "20").out
    )
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


def test_every_key_of_a_sheet_is_there(soup: Cli) -> None:
    sheet = soup("cook", "Pea soup", "--people", "20", "--json").json
    assert set(sheet) >= {
        "done", "codes", "picks", "recipe", "people", "water_dg", "cooking_water_dg", "raw_foods",
        "unchecked_codes", "past_best_by_codes", "allergens", "ingredients_unknown", "short",
        "fresh", "steps", "cautions",
    }  # fmt: skip
    assert set(sheet) >= {
        "servings", "water_now_dg", "water_held_dg", "water_ml", "water_cups", "cup",
        "water_temperature_dc", "ingredients", "whole_packages", "left_open", "cook_to_dc",
        "raw_cooked_enough", "heat_to_dc", "heat_to_source", "at_once", "raw", "stand_ins", "made",
    }  # fmt: skip
    assert set(sheet["picks"][0]) == {
        "food", "code", "take_dg", "water_dg", "leaves_dg", "opens", "finishes",
        "fresh_equivalent_dg", "best_by", "place",
    }  # fmt: skip
    assert set(sheet["short"][0]) == {"food", "short_dg", "counted_as", "servings"}


def test_a_food_that_is_not_there_is_named(soup: Cli) -> None:
    answer = soup("recipe", "add", "Pie", "--stored", "Pees=1 serving", code=3)
    assert answer.err.startswith("There is no food “Pees”.")


FULL = (
    "--hold-back", "25 %", "--cook-to", "74 C", "--water-at", "60 C", "--occasion", "breakfast",
    "--fresh-kcal", "820", "--fresh-protein", "24.5", "--fresh-allergen", "wheat",
    "--fresh-allergen", "milk", "--origin", "the old book",
)  # fmt: skip


def test_all_that_is_said_of_a_recipe_is_kept_shown_and_taken_away_again(soup: Cli) -> None:
    soup("recipe", "edit", "Pea soup", *FULL)
    found = soup("recipe", "show", "Pea soup", "--json").json
    assert (found["hold_back_percent"], found["cook_to_dc"]) == (25, 740)
    assert (found["water_temperature_dc"], found["occasion"]) == (600, "breakfast")
    assert (found["fresh_kcal"], found["fresh_protein_dg"]) == (820, 245)
    assert (found["fresh_allergens"], found["origin"]) == (["milk", "wheat"], "the old book")
    page = soup("recipe", "show", "Pea soup").out
    for words in (
        "25 % of the water", "74.0 °C, in the middle", "60.0 °C", "breakfast", "the old book",
        "820 kcal for all it serves", "24.5 g for all it serves", "milk, wheat",
    ):  # fmt: skip
        assert words in page, words
    cleared = ("cook_to", "water-at", "fresh kcal", "fresh_protein", "fresh_allergen", "origin")
    for word in (*cleared, "hold_back"):
        soup("recipe", "edit", "Pea soup", "--clear", word)
    bare = soup("recipe", "show", "Pea soup", "--json").json
    for key in ("cook_to_dc", "water_temperature_dc", "fresh_kcal", "fresh_protein_dg"):
        assert bare[key] is None
    assert (bare["fresh_allergens"], bare["origin"], bare["hold_back_percent"]) == ([], "", 30)
    assert bare["occasion"] == "breakfast" and len(bare["lines"]) == 3
    assert "no cooking step" in soup("recipe", "show", "Pea soup").out


def test_a_new_recipe_takes_the_same(stocked: Cli) -> None:
    stocked("recipe", "add", "Pie", "--stored", f"{PEAS}=60 g dry", *FULL)
    found = stocked("recipe", "show", "Pie", "--json").json
    assert (found["hold_back_percent"], found["cook_to_dc"], found["fresh_kcal"]) == (25, 740, 820)
    sheet = stocked("cook", "Pie", "--people", "2", "--json").json
    assert sheet["allergens"] == ["milk", "wheat"]


def test_degrees_and_weights_are_those_of_the_household(stocked: Cli) -> None:
    stocked("household", "--units", "us")
    stocked(
        "recipe", "add", "Pie", "--stored", f"{PEAS}=2 oz dry", "--cook-to", "165",
        "--fresh-protein", "1", "--water-at", "140",
    )  # fmt: skip
    found = stocked("recipe", "show", "Pie", "--json").json
    assert (found["cook_to_dc"], found["water_temperature_dc"]) == (739, 600)
    assert found["fresh_protein_dg"] == 283
    page = stocked("recipe", "show", "Pie").out
    for words in ("165.0 °F, in the middle", "140.0 °F", "1.00 oz for all it serves"):
        assert words in page, words


def test_a_line_keeps_its_own_share(stocked: Cli) -> None:
    stocked("recipe", "add", "Pie", "--stored", f"{PEAS}=60 g dry; hold back 20%")
    (line,) = stocked("recipe", "show", "Pie", "--json").json["lines"]
    assert (line["weight_dg"], line["basis"], line["hold_back_percent"]) == (600, "dry", 20)
    assert "hold back, %" in stocked("recipe", "show", "Pie").out
    stocked("recipe", "edit", "Pie", "--stored", f"{PEAS}=60 g dry")
    assert "hold back, %" not in stocked("recipe", "show", "Pie").out


def test_the_allergens_and_raw_food_of_its_foods_are_shown(soup: Cli, world: World) -> None:
    soup("food", "add", "Our beef", "--like", BEEF_RAW, "--allergen", "milk")
    world.packed("Our beef")
    soup("recipe", "add", "Roast", "--stored", "Our beef=100 g fresh", "--fresh-allergen", "wheat")
    found = soup("recipe", "show", "Roast", "--json").json
    assert (found["allergens"], found["fresh_allergens"]) == (["milk", "wheat"], ["wheat"])
    assert found["raw_foods"] == ["Our beef"]
    assert "Our beef: must be cooked to 160 °F (71.1 °C)" in soup("recipe", "show", "Roast").out


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("--hold-back", "101"), 2, "a whole percentage from 0 to 100"),
        (("--hold-back", "12.5 %"), 2, "water held back: “12.5 %” cannot be read."),
        (("--hold-back", "half"), 2, "water held back: “half” cannot be read."),
        (("--cook-to", "20 C"), 2, "a temperature from 30 to 150 °C"),
        (("--cook-to", "hot"), 2, "cooked to: “hot” cannot be read."),
        (("--water-at", "2"), 2, "a temperature from 4 to 100 °C"),
        (("--water-at", "warm"), 2, "water temperature: “warm” cannot be read."),
        (("--occasion", "lunch"), 2, "“lunch” is none of breakfast, main, extra."),
        (("--fresh-kcal", "-1"), 2, "--fresh-kcal"),
        (("--fresh-kcal", "many"), 2, "--fresh-kcal"),
        (("--fresh-protein", "some"), 2, "protein of the fresh items: “some” cannot be read."),
        (("--fresh-allergen", "honey"), 2, "“honey” is none of"),
        (("--stored", f"{PEAS}=2 cups"), 3, f"“cups” of {PEAS} has no weight on record."),
        (("--stored", f"{PEAS}=2 cups dry"), 2, "a weight with dry, or a measure alone"),
        (("--stored", f"{PEAS}=60 g dry hold lots"), 2, "water held back: “lots” cannot be read."),
        (("--stored", f"{PEAS}=60 g dry hold 120 %"), 2, "a whole percentage from 0 to 100"),
        (("--stored", "Pees=2 cups"), 3, "There is no food “Pees”."),
    ],
)
def test_wrong_input_of_a_recipe_is_refused_in_a_sentence(
    soup: Cli, words: tuple[str, ...], code: int, said: str
) -> None:
    before = soup("recipe", "show", "Pea soup", "--json").json
    for line in (("recipe", "edit", "Pea soup"), ("recipe", "add", "Pie", "--fresh", "salt")):
        answer = soup(*line, *words, code=code)
        assert said in answer.err and answer.out == ""
    assert soup("recipe", "show", "Pea soup", "--json").json == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--clear", "cook_to"), "what to change"),
        (("--clear", "steps"), "is none of cook_to"),
        (
            ("--cook-to", "75 C", "--clear", "cook_to"),
            "Say --cook-to or --clear cook_to, not both.",
        ),
        (
            ("--hold-back", "20", "--clear", "hold-back"),
            "Say --hold-back or --clear hold_back, not both.",
        ),
        (
            ("--fresh-allergen", "milk", "--clear", "fresh_allergen"),
            "Say --fresh-allergen or --clear fresh_allergen, not both.",
        ),
    ],
)
def test_what_cannot_be_taken_away_is_refused(soup: Cli, words: tuple[str, ...], said: str) -> None:
    answer = soup("recipe", "edit", "Pea soup", *words, code=2)
    assert said in answer.err and answer.out == ""
