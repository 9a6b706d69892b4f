"""The people by commands: who is listed, what they need, what is refused."""

from __future__ import annotations

import csv
import io

import pytest

from tests.cli.conftest import Cli
from tests.world import APPLE, PEAS

ANN = ("person", "add", "Ann", "--sex", "F", "--age", "30", "--activity", "low")
SIZE = ("--weight", "65 kg", "--height", "5 ft 5 in")


def family(cli: Cli) -> None:
    """Ann of known size and her child, of a household of three."""
    cli("household", "--people", "3")
    cli("food", "add", PEAS, "--like", PEAS)
    cli("food", "add", APPLE, "--like", APPLE)
    cli(*ANN, "--weight", "65", "--height", "165", "--allergen", "tree-nuts", "--dislike", PEAS)
    cli("person", "add", "Dot", "--sex", "f", "--age", "9", "--activity", "low")


def test_a_person_is_added_with_cautions(cli: Cli) -> None:
    answer = cli(*ANN, *SIZE)
    assert answer.out == "Added the person Ann.\n"
    assert "No honey in any form for a child under 12 months" in answer.err
    assert "licensed guidance" in answer.err
    (ann,) = cli("person", "list", "--json").json["members"]
    # 354 - 6.91 x 30 + 1.12 x (9.36 x 65 + 726 x 1.651), the equation of 2002/2005.
    assert ann["kcal_per_day"] == pytest.approx(2170.56912)
    assert (ann["edition"], ann["standing"], ann["protein_g"]) == ("2005", "published", 52)
    assert (ann["body_weight_dg"], ann["height_mm"]) == (650_000, 1651)


def test_the_list_adds_up_and_says_who_is_not_listed(cli: Cli) -> None:
    family(cli)
    page = cli("person", "list").out
    assert "kcal a day" in page and "must not get" in page
    words = " ".join(page.split())
    # 2169.756 + 1600 + 2300, and 52 + 34 + 50.8 g.
    assert "energy 6070 kcal a day" in words and "protein 137 g a day" in words
    assert "1 more person is not listed and counts as an average adult: 2300 kcal" in words
    assert "(engineering judgement)" in words
    assert "Planning figures for a store: no advice on what anybody should eat." in words
    assert "- tree nuts: Ann" in page and f"- {PEAS}: Ann" in page
    assert "Institute of Medicine" in page and "Table A2-2" in page
    found = cli("person", "list", "--json").json
    assert (found["people"], found["listed"], found["others"], found["counted"]) == (3, 2, 1, 3)
    assert found["kcal_per_day"] == pytest.approx(6069.756)
    assert found["must_not_get"] == [{"allergen": "tree_nuts", "who": ["Ann"]}]
    assert found["would_rather_not"] == [{"food": PEAS, "who": ["Ann"]}]
    assert [one["key"] for one in found["cautions"]] == ["honey", "weak-immunity", "local-codes"]


def test_the_list_is_a_spreadsheet_too(cli: Cli) -> None:
    family(cli)
    ann, dot = csv.DictReader(io.StringIO(cli("person", "list", "--csv").out))
    assert (ann["name"], ann["kcal_per_day"], ann["body_weight_kg"]) == ("Ann", "2169.8", "65.0")
    assert (dot["person"], dot["figures"], dot["protein_g"]) == ("girl", "table 2020-2025", "34.0")
    assert ann["source"] and dot["protein_source"]


def test_nobody_is_listed_yet(cli: Cli) -> None:
    page = " ".join(cli("person", "list").out.split())
    assert "Nobody is listed yet: stockroom person add" in page
    assert "energy 4600 kcal a day" in page
    assert cli("person", "list", "--json").json["members"] == []


def test_the_working(cli: Cli) -> None:
    family(cli)
    page = " ".join(cli("person", "list", "--working").out.split())
    assert "= 2169.8 kcal/day + 1600 kcal/day + 2300 kcal/day" in page
    assert "Energy and protein of Dot for a day" in page
    workings = cli("person", "list", "--working", "--json").json["workings"]
    assert len(workings) == 3
    assert cli("person", "list", "--working", "--csv", code=2).out == ""


def test_a_person_grows_older(cli: Cli) -> None:
    family(cli)
    later = cli.on("2030-11-25")("person", "list", "--json").json["members"]
    assert [(one["name"], one["age"]) for one in later] == [("Ann", 34), ("Dot", 13)]
    # Girl of 13, moderately active: 2000 kcal (Dietary Guidelines for Americans, Appendix 2).
    assert later[1]["kcal_per_day"] == 2000


def test_a_change_and_its_undoing(cli: Cli) -> None:
    family(cli)
    answer = cli(
        "person", "change", "ann", "--name", "Anna", "--edition", "2023", "--allergen", "milk",
        "--no-dislikes",
    )  # fmt: skip
    assert answer.out == "Changed the person Ann to Anna.\n"
    found = cli("person", "list", "--json").json
    anna = found["members"][0]
    assert (anna["standing"], anna["allergens"]) == ("from memory, not confirmed", ["milk"])
    assert any(text.startswith("Anna: the figures of the 2023") for text in found["remarks"])
    assert cli("undo").out == "Undid: changed the person Ann to Anna.\n"
    assert cli("person", "list", "--json").json["members"][0]["name"] == "Ann"
    cli("person", "change", "Ann", "--edition", "table", "--dislike", APPLE)
    ann = cli("person", "list", "--json").json["members"][0]
    assert (ann["edition"], ann["kcal_per_day"], ann["dislikes"]) == ("2020-2025", 2000, [APPLE])
    cli("person", "change", "Ann", "--no-size", "--no-allergens", "--age", "41", "--sex", "M")
    ann = cli("person", "list", "--json").json["members"][0]
    assert (ann["body_weight_dg"], ann["allergens"], ann["age"]) == (None, [], 41)


def test_removed(cli: Cli) -> None:
    family(cli)
    assert cli("person", "remove", "dot").out == "Removed the person Dot.\n"
    assert [one["name"] for one in cli("person", "list", "--json").json["members"]] == ["Ann"]


def test_us_units(cli: Cli) -> None:
    cli("household", "--units", "us")
    cli(*ANN, "--weight", "143", "--height", "65")
    (ann,) = cli("person", "list", "--json").json["members"]
    # 143 lb = 64.8637 kg, 65 in = 1651 mm (NIST Handbook 44).
    assert (ann["body_weight_dg"], ann["height_mm"]) == (648_637, 1651)


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (ANN, 3, "There is already a person “Ann”."),
        ((*ANN[:2], "Bab", "--sex", "M", "--age", "1", *ANN[-2:]), 3, "an age of 1 year."),
        ((*ANN[:2], "Old", "--sex", "M", "--age", "121", *ANN[-2:]), 2, "from 2 to 120 years"),
        ((*ANN[:2], "Bo", "--sex", "M", "--age", "young", *ANN[-2:]), 2, "an age in years"),
        ((*ANN[:2], "Bo", *ANN[3:], "--weight", "65"), 3, "a weight without a height"),
        ((*ANN[:2], "Bo", *ANN[3:], "--weight", "heavy"), 2, "a body weight such as"),
        ((*ANN[:2], "Bo", *ANN[3:], "--allergen", "celery"), 2, "is none of milk"),
        ((*ANN[:2], "Bo", *ANN[3:], "--dislike", "gruel"), 3, "There is no food “gruel”."),
        (("person", "change", "Dot", "--edition", "2005"), 3, "leave the edition out"),
        (("person", "change", "Dot"), 2, "what to change"),
        (("person", "change", "Nan", "--age", "9"), 3, "There is no person “Nan”."),
        (("person", "change", "Ann", "--no-size", "--weight", "65"), 2, "not both"),
        (("person", "change", "Ann", "--no-allergens", "--allergen", "egg"), 2, "not both"),
        (("person", "remove", "Nan"), 3, "Nearest: Ann."),
    ],
)
def test_refusals_are_one_sentence_and_change_nothing(
    cli: Cli, words: tuple[str, ...], code: int, said: str
) -> None:
    family(cli)
    before = cli("person", "list", "--json").out
    answer = cli(*words, code=code)
    assert answer.out == "" and said in " ".join(answer.err.split())
    assert cli("person", "list", "--json").out == before
