"""`--working` beside every best-by, water and absorber a command prints."""

from __future__ import annotations

import json
from typing import Any

import pytest

from stockroom.domain.quantities import grams
from stockroom.domain.water import show_water
from tests.cli.conftest import Answer, Cli
from tests.world import PEAS


@pytest.fixture
def house(stocked: Cli) -> Cli:
    """The two pouches in a warm kitchen beside a cool cellar, and a soup."""
    stocked("place", "temperature", "cellar", "--steady", "10")
    stocked("place", "add", "kitchen", "--temperature", "24")
    stocked("move", "26329A01", "26329A02", "kitchen")
    stocked("recipe", "add", "Pea soup", "--serves", "2", "--stored", f"{PEAS}=200 g fresh",
            "--water", "500")  # fmt: skip
    return stocked


def workings(answer: Answer) -> dict[str, Any]:
    """The workings of an answer in JSON, by title."""
    found = {one["title"]: one for one in answer.json["workings"]}
    assert len(found) == len(answer.json["workings"])
    return found


def result(working: Any, title: str) -> str:
    """The result of the one step whose title begins so."""
    (found,) = (step["result"] for step in working["steps"] if step["title"].startswith(title))
    return str(found)


def test_cook_shows_the_water_of_each_food(house: Cli) -> None:
    plain = house("cook", "Pea soup", "--people", "5", "--json").json
    assert "workings" not in plain
    found = workings(house("cook", "Pea soup", "--people", "5", "--working", "--json"))
    assert set(found) == {f"Water for {PEAS}", "Water in all"}
    peas, in_all = found.values()
    total_dg = sum(pick["water_dg"] for pick in plain["picks"])
    assert total_dg == plain["water_dg"]
    assert peas["conclusion"] == show_water(total_dg)
    assert in_all["conclusion"].startswith(show_water(total_dg))
    assert result(in_all, "cooking water") == f"{grams(plain['cooking_water_dg']):.1f} g"
    page = house("cook", "Pea soup", "--people", "5", "--working").out
    assert f"Water for {PEAS}: {show_water(total_dg)}" in page
    assert "first in, first out (published)" in page


def test_cooking_it_shows_the_water_of_what_was_taken(house: Cli) -> None:
    answer = house("cook", "Pea soup", "--people", "5", "--take", "--working", "--json").json
    assert answer["done"].startswith("cooked Pea soup")
    (peas, _) = answer["workings"]
    assert peas["conclusion"] == show_water(answer["water_dg"])


def test_advise_shows_absorber_and_best_by_of_every_way(house: Cli) -> None:
    plain = house("advise", "26329A", "--place", "cellar", "--json").json
    found = workings(house("advise", "26329A", "--place", "cellar", "--working", "--json"))
    assert len(found) == 3 * len(plain["ways"])
    for way in plain["ways"]:
        best_by = found[f"Best-by, {way['container']}"]
        assert best_by["conclusion"].startswith(way["best_by"])
        absorber = found[f"Absorber, {way['container']}"]["conclusion"]
        if way["absorber_cc"]:
            sizes = absorber.removesuffix(" cc").split(" + ")
            assert sum(map(int, sizes)) == way["absorber_cc"]
        else:
            assert absorber.startswith("none: ")
    titles = list(found)
    assert titles[0].endswith(next(w["container"] for w in plain["ways"] if w["advised"]))


def test_what_if_shows_every_date(house: Cli) -> None:
    rows = house("whatif", "26329A01", "--json").json["choices"]
    found = workings(house("whatif", "26329A01", "--working", "--json"))
    for row in rows:
        best_by = found[f"Best-by, {row['words']}"]["conclusion"]
        assert best_by.startswith(row["best_by"] or f"none: {row['why_not']}")
        if row["absorber_cc"]:
            assert f"Absorber, {row['words']}" in found
    page = house("whatif", "26329A01", "--working").out
    assert page.index("what would lengthen it") > page.index("Dried again and repacked counts")


def test_what_if_of_a_lot_says_whose_date_it_is(house: Cli) -> None:
    house("move", "26329A02", "cellar")
    found = workings(house("whatif", "26329A", "--working", "--json"))
    assert {title for title in found if title.endswith("left as it is")} == {
        "Best-by of 26329A01E, left as it is",
        "Best-by of 26329A02C, left as it is",
    }


def test_gains_show_both_dates_and_the_gain(house: Cli) -> None:
    rows = house("gains", "--most", "1", "--json").json["gains"]
    found = house("gains", "--most", "1", "--working", "--json").json["workings"]
    assert [one["title"].split(",")[0] for one in found if "Absorber" not in one["title"]] == [
        "Gain",
        "Best-by",
        "Best-by",
    ]
    assert found[0]["conclusion"].startswith(f"{rows[0]['gain_days']} days")
    assert result(found[-2], "best-by").startswith(rows[0]["best_by"])


@pytest.mark.parametrize("command", [("whatif", "26329A01"), ("gains",)])
def test_a_working_is_no_table(house: Cli, command: tuple[str, ...]) -> None:
    refused = house(*command, "--working", "--csv", code=2)
    assert refused.out == "" and "--working has no CSV form" in refused.err


@pytest.mark.parametrize("command", [("lot", "show"), ("show",)])
def test_a_lot_shows_its_water_and_its_packages(house: Cli, command: tuple[str, ...]) -> None:
    plain = house(*command, "26329A", "--json").json
    found = workings(house(*command, "26329A", "--working", "--json"))
    assert list(found)[:3] == [
        "Water of the lot",
        "Residual moisture",
        "Best-by of 26329A01E, 26329A02C",
    ]
    water = found["Water of the lot"]
    assert result(water, "water removed") == f"{grams(plain['water_removed_dg']):.1f} g"
    assert water["conclusion"].endswith(show_water(plain["left_water_dg"]))
    shown = house("show", "26329A01", "--json").json
    assert found["Best-by of 26329A01E, 26329A02C"]["conclusion"].startswith(shown["best_by"])
    page = house(*command, "26329A", "--working").out
    assert page.startswith("Working of 26329A\n")
    assert "National Nutrient Database" in page


def test_a_run_shows_the_water_to_expect(house: Cli) -> None:
    house("run", "new")
    house("run", "load", "1", PEAS, "640 g")
    plain = house("run", "show", "--json").json
    found = workings(house("run", "show", "--working", "--json"))
    # 79.52 % of 640 g by USDA SR28 is 508.9 g.
    assert plain["expected_water_dg"] == 5089
    assert found["Water to expect"]["conclusion"] == f"{grams(plain['expected_water_dg']):.1f} g"
    assert "USDA" in house("run", "show", "--working").out


def test_packing_shows_the_figures_of_what_it_made(house: Cli) -> None:
    words = ("pack", "26329A", "--into", "1xjar-475:11", "--place", "cellar", "--working")
    answer = house(*words, "--json").json
    water, best_by = answer["workings"]
    (code,) = answer["codes"]
    made = house("show", code, "--json").json
    assert water["title"] == f"Water to add of {code}"
    assert water["conclusion"] == show_water(made["water_dg"])
    assert best_by["conclusion"].startswith(made["best_by"])
    house("undo")
    text = house(*words)
    assert text.out.index(code) < text.out.index(f"Water to add of {code}: ")


def test_drawing_shows_the_water_of_the_part(house: Cli) -> None:
    answer = house("draw", "26329A01", "--grams", "20", "--working", "--json").json
    (water,) = answer["workings"]
    assert water["title"] == "Water for what is taken"
    # 20 of 62 g, 845 g of water for 155 g dry: 20 x 845 / 155 = 109.0 g.
    assert water["conclusion"].startswith("109.0 g ")
    text = house("draw", "26329A01", "--servings", "1/2", "--working").out
    assert "Water for what is taken: " in text and "water left with 26329A01E" in text


def test_without_the_word_nothing_is_derived(house: Cli) -> None:
    for words in (("cook", "Pea soup"), ("advise", "26329A"), ("lot", "show", "26329A")):
        assert "so the water is good to" not in house(*words).out
        assert "workings" not in json.loads(house(*words, "--json").out)


def test_every_working_keeps_to_the_width(house: Cli, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "60")
    for words in (
        ("cook", "Pea soup"),
        ("advise", "26329A"),
        ("whatif", "26329A01"),
        ("gains", "--most", "1"),
        ("lot", "show", "26329A"),
    ):
        assert all(len(line) <= 60 for line in house(*words, "--working").lines), words
