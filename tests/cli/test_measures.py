"""Household measures and the household's cup by commands."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Cli
from tests.services.cases_recipe_files import SOUP
from tests.world import PEAS


def test_a_measure_is_set_listed_changed_and_removed(stocked: Cli) -> None:
    assert stocked("food", "measures").out.startswith("No measures yet")
    answer = stocked("food", "measure", PEAS, "cup", "31 g")
    assert answer.out == f"Set one cup of {PEAS} to 31.0 g dry.\n"
    stocked("food", "measure", PEAS, "big scoop", "90", "--fresh")
    assert stocked("food", "measures", "--json").json == [
        {"food": PEAS, "measure": "big scoop", "weight_dg": 900, "basis": "fresh"},
        {"food": PEAS, "measure": "cup", "weight_dg": 310, "basis": "dry"},
    ]
    assert stocked("food", "measures", PEAS, "--csv").lines[0] == "food,measure,weight_g,basis"
    page = stocked("food", "measures", PEAS).out
    assert "31.0 g  dry" in page and "90.0 g  fresh" in page
    stocked("food", "measure", PEAS, "CUP", "32 g", "--dry")
    assert stocked("food", "measures", "--json").json[1]["weight_dg"] == 320
    answer = stocked("food", "measure", PEAS, "cup", "--remove", "--json").json
    assert answer["done"] == f"removed the measure cup of {PEAS}"
    assert [one["measure"] for one in stocked("food", "measures", "--json").json] == ["big scoop"]
    stocked("undo")
    assert len(stocked("food", "measures", "--json").json) == 2


def test_a_recipe_counts_in_a_measure(stocked: Cli) -> None:
    stocked("food", "measure", PEAS, "cup", "31 g")
    stocked("recipe", "add", "Peas", "--serves", "1", "--stored", f"{PEAS}=1 1/2 cups, hold 10 %")
    (line,) = stocked("recipe", "show", "Peas", "--json").json["lines"]
    assert (line["basis"], line["amount"], line["unit"]) == ("measure", 1.5, "cup")
    assert (line["weight_dg"], line["hold_back_percent"]) == (None, 10)
    assert "1.5 cup" in stocked("recipe", "show", "Peas").out
    # One and a half of 31 g dry.
    sheet = stocked("cook", "Peas", "--people", "1", "--json").json
    assert [pick["take_dg"] for pick in sheet["picks"]] == [465]
    said = stocked("food", "measure", PEAS, "cup", "--remove").out
    assert "still counted in by Peas" in said
    refused = stocked("cook", "Peas", code=3)
    assert refused.err.splitlines() == [
        f"“cup” of {PEAS} has no weight on record.",
        "Weigh one cup of it and record the weight, or count it in grams or servings.",
    ]


def test_a_fresh_measure_counts_as_fresh(stocked: Cli) -> None:
    stocked("food", "measure", PEAS, "scoop", "145 g", "--fresh")
    stocked("recipe", "add", "Peas", "--serves", "1", "--stored", f"{PEAS}=2 scoops")
    (pick,) = stocked("cook", "Peas", "--people", "1", "--json").json["picks"]
    assert pick["fresh_equivalent_dg"] == pytest.approx(2_900, abs=7)


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        ((PEAS, "cup"), 2, "Missing argument 'WEIGHT'"),
        ((PEAS, "cup", "31 g", "--dry", "--fresh"), 2, "Say --dry or --fresh, not both."),
        ((PEAS, "cup", "31 g", "--remove"), 2, "--remove goes with a food and the name"),
        ((PEAS, "cup", "--fresh", "--remove"), 2, "--remove goes with a food and the name"),
        ((PEAS, "cup", "some"), 2, "weight: “some” cannot be read."),
        ((PEAS, "cup", "0"), 2, "a weight from 0.1 g to 100 kg"),
        ((PEAS, "cup", "-3"), 2, "No such option"),
        ((PEAS, " ", "31 g"), 2, "measure: nothing cannot be read."),
        (("Pees", "cup", "31 g"), 3, "There is no food “Pees”."),
        ((PEAS, "spoon", "--remove"), 3, "There is no measure “spoon of"),
        ((PEAS, "mug", "300 g"), 3, "has that weight already."),
    ],
)
def test_wrong_input_of_a_measure_is_refused_in_a_sentence(
    stocked: Cli, words: tuple[str, ...], code: int, said: str
) -> None:
    stocked("food", "measure", PEAS, "mug", "300 g")
    answer = stocked("food", "measure", *words, code=code)
    assert said in answer.err and answer.out == ""
    assert len(stocked("food", "measures", "--json").json) == 1


def test_the_measures_of_an_unknown_food_are_refused(stocked: Cli) -> None:
    assert stocked("food", "measures", "Pees", code=3).err.startswith("There is no food “Pees”.")


def test_the_household_chooses_its_cup(stocked: Cli) -> None:
    assert stocked("household", "--json").json["cup"] == "us"
    assert "us, 236.6 mL" in stocked("household").out
    stocked("household", "--cup", "LABEL")
    assert stocked("household", "--json").json["cup"] == "label"
    assert "label, 240.0 mL" in stocked("household").out
    assert "“tea” is none of us, label." in stocked("household", "--cup", "tea", code=2).err
    stocked("undo")
    assert stocked("household", "--json").json["cup"] == "us"


def test_a_line_of_a_recipe_file_is_mapped_in_a_measure(stocked: Cli, tmp_path: Path) -> None:
    stocked("food", "measure", PEAS, "cup", "31 g")
    path = tmp_path / "soup.json"
    path.write_text(json.dumps(SOUP), encoding="utf-8")
    line = ("recipe", "import", str(path), "--take", "--map")
    refused = stocked(*line, f"1={PEAS}=2 cups hold 20 %", code=2)
    assert "it without hold; recipe edit takes that" in refused.err
    stocked(*line, f"1={PEAS}=2 cups")
    first = stocked("recipe", "show", SOUP["name"], "--json").json["lines"][0]
    assert (first["food"], first["basis"], first["amount"]) == (PEAS, "measure", 2)
    assert first["unit"] == "cup"
