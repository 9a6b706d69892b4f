"""Rotation, forecast and cover on the command line."""

from __future__ import annotations

import csv
import shlex
from fractions import Fraction

import pytest

from stockroom.services.foods import add_food
from tests.cli.conftest import Cli
from tests.horizon_store import CHECK_STOCK, day, stock
from tests.world import BEEF_RAW, PEAS, World


@pytest.fixture
def shelf(cli: Cli, world: World) -> Cli:
    """The packages of the check: 6, 30 and 24 servings due in 10, 30 and 60 days."""
    world.places("cellar", "cellar/rack 1", "loft")
    stock(world, CHECK_STOCK, place="rack 1")
    return cli


def test_a_rate_is_set_listed_and_cleared(shelf: Cli) -> None:
    assert "never" in shelf("eating", "set", PEAS, "none").out
    shelf("eating", "set", PEAS, "6", "--every", "5")
    (row,) = shelf("eating", "list", "--json").json["rates"]
    assert (row["per_day_exact"], row["basis"], row["per_week"]) == ("6/5", "set", 8.4)
    shelf("eating", "set", PEAS, "3", "--per", "week")
    assert shelf("eating", "list", "--json").json["rates"][0]["per_day_exact"] == "3/7"
    shelf("eating", "clear", PEAS)
    assert shelf("eating", "list", "--json").json["rates"][0]["basis"] == "nobody"
    assert "No rate is set" in shelf("eating", "clear", PEAS, code=3).err
    for words in (("3", "--per", "week", "--every", "2"), ("often",), ("3", "--per", "hour")):
        shelf("eating", "set", PEAS, *words, code=2)


def test_the_forecast_as_json(shelf: Cli) -> None:
    shelf("eating", "set", PEAS, "1", "--per", "day")
    page = shelf("horizon", "--months", "6", "--json").json
    (food,) = page["foods"]
    assert (food["food"], food["servings"], food["unused_servings"]) == (PEAS, 60, 6)
    assert (food["least_per_day_exact"], food["rhythm"]) == ("6/5", "6 every 5 days")
    assert (food["binding_date"], food["basis"]) == (day(30).isoformat(), "set")
    assert page["unused_servings"] == 6 and "6 servings" in page["sentence"][0]
    (unused,) = page["unused"]
    assert (unused["unused_servings"], unused["best_by"]) == (6, day(30).isoformat())
    assert any("quality estimate, not safety" in line for line in page["cautions"])


def test_every_piece_of_advice_has_a_command_that_goes(shelf: Cli, world: World) -> None:
    world.recipe()
    shelf("eating", "set", PEAS, "none")
    advice = shelf("horizon", "--json").json["advice"]
    assert {one["kind"] for one in advice} >= {"eat", "cook", "give"}
    fresh = [one["saved_fresh_dg"] for one in advice]
    assert fresh == sorted(fresh, reverse=True) and fresh[0] == 6000
    eat, give = (next(one for one in advice if one["kind"] == kind) for kind in ("eat", "give"))
    shelf(*shlex.split(eat["command"])[1:])
    page = shelf("horizon", "--json").json
    assert (page["unused_servings"], page["advice"]) == (0, [])
    shelf("undo")
    shelf(*shlex.split(give["command"])[1:])
    assert shelf("horizon", "--json").json["foods"] == []
    # What was given away is no eating of the household's own.
    assert shelf("eating", "list", "--json").json["rates"][0]["record_servings"] is None


def test_the_forecast_in_text_and_csv(shelf: Cli) -> None:
    shelf("eating", "set", PEAS, "1", "--per", "day")
    page = " ".join(shelf("horizon").out.split())
    for words in (
        "6 servings pass their best-by",
        "quality estimate, not safety",
        "local codes and licensed guidance",
        "1. stockroom eating set",
        "do not add up",
    ):
        assert words in page
    foods = list(csv.DictReader(shelf("horizon", "--csv").lines))
    assert [(row["food"], row["unused_servings"]) for row in foods] == [(PEAS, "6.00")]
    packages = list(csv.DictReader(shelf("horizon", "--packages", "--csv").lines))
    assert [row["best_by"] for row in packages] == [day(at).isoformat() for _, at in CHECK_STOCK]
    assert sum(Fraction(row["unused_servings"]) for row in packages) == 6


def test_one_food_and_another_length(shelf: Cli, world: World) -> None:
    stock(world, [(8, 40)], food=BEEF_RAW)
    assert len(shelf("horizon", "--json").json["foods"]) == 2
    page = shelf("horizon", "--food", BEEF_RAW, "--years", "2", "--json").json
    assert [one["raw"] for one in page["foods"]] == [True] and page["until"] == "2028-11-25"
    shelf("horizon", "--years", "1", "--months", "1", code=2)
    assert "no food" in shelf("horizon", "--food", "frogs", code=3).err


def test_nobody_said(shelf: Cli) -> None:
    page = " ".join(shelf("horizon").out.split())
    assert "Nobody said how fast anything is eaten" in page
    assert f"{PEAS}: 6 every 5 days wastes nothing" in page and "stockroom eating set" in page


def test_the_working_of_the_least_rate(shelf: Cli) -> None:
    page = shelf("horizon", "--working", "--json").json
    (working,) = page["workings"]
    assert "1.2 (6/5) servings a day" in str(working)
    assert "Least eating rate" in shelf("horizon", "--working").out
    shelf("horizon", "--working", "--csv", code=2)


def test_the_odds_of_a_seed(shelf: Cli) -> None:
    shelf("eating", "set", PEAS, "1", "--per", "day")
    words = ("horizon", "--odds", "--rounds", "20", "--no-advice", "--json", "--seed")
    first = shelf(*words, "5")
    assert first.out == shelf(*words, "5").out != shelf(*words, "6").out
    page = first.json
    assert page["rounds"] == 20 and len(page["odds"]) == 1 and page["advice"] == []
    assert first.err == ""
    shelf("horizon", "--seed", "5", code=2)


def test_long_work_is_told_beside_the_answer(shelf: Cli, world: World) -> None:
    stock(world, [(1, 30 + number % 90) for number in range(120)])
    shelf("eating", "set", PEAS, "1", "--per", "day")
    answer = shelf("horizon", "--odds", "--rounds", "1001", "--no-advice", "--json")
    assert "Reckoning the odds: 100 %" in answer.err and answer.json["rounds"] == 1001


def test_the_round_to_take(shelf: Cli, world: World) -> None:
    shelf("eating", "set", PEAS, "1", "--per", "day")
    page = shelf("rotate", "--json").json
    assert [(one["place"], one["best_by"]) for one in page["round"]] == [
        ("cellar/rack 1", day(10).isoformat()),
        ("cellar/rack 1", day(30).isoformat()),
    ]
    (order,) = page["orders"]
    assert (order["food"], order["differs"], len(order["by_age"])) == (PEAS, False, 3)
    text = " ".join(shelf("rotate").out.split())
    assert "in walking order" in text and "quality estimate, not safety" in text
    assert "only a part is eaten in time" in text
    rows = list(csv.DictReader(shelf("rotate", "--months", "3", "--csv").lines))
    assert len(rows) == 3
    stock(world, [(8, 20)], food=BEEF_RAW, place="loft")
    assert "cook it after water is added" in shelf("rotate").out


def test_cover_with_target_power_and_raw_food(shelf: Cli, world: World) -> None:
    stock(world, [(8, 40)], food=BEEF_RAW)
    page = shelf("cover", "--json").json
    assert (page["target_days"], page["target_set"], page["people"]) == (14, False, 2)
    # 600 g of boiled peas at 78 kcal in 100 g (USDA SR28, 11313).
    assert (page["kcal"], page["rehydrate_all_ml"]) == (468, 480)
    (apart,) = page["apart"]
    assert (apart["reason"], apart["servings"]) == ("raw", 8)
    assert shelf("cover", "--raw-too", "--json").json["kcal"] > 468
    assert shelf("cover", "--days", "6 months", "--json").json["target_days"] == 183
    text = " ".join(shelf("cover", "--power-out").out.split())
    for words in ("held in the freezer", "no advice on what anybody should eat", "to dry next"):
        assert (words in text) == (words != "to dry next")
    shelf("cover", "--days", "soon", code=2)


def test_targets_are_set_listed_and_cleared(shelf: Cli) -> None:
    shelf("target", "set", "2 weeks")
    shelf("target", "set", "80", "--group", "vegetable")
    found = shelf("target", "list", "--json").json
    assert (found["target_days"], found["was_set"]) == (14, True)
    assert [(one["group"], one["servings"]) for one in found["groups"]] == [("vegetable", 80)]
    (gap,) = shelf("cover", "--json").json["dry_next"]
    assert (gap["missing"], gap["months"], gap["months_away"]) == (20, "Nov", 0)
    assert "What to dry next" in shelf("cover").out
    shelf("target", "clear", "--group", "vegetable")
    shelf("target", "clear")
    assert "No target is set for the store" in shelf("target", "clear", code=3).err
    for words in (("soon",), ("0",), ("80", "--group", "rocks")):
        shelf("target", "set", *words, code=2)


@pytest.mark.parametrize("name", ['[/] jar [soft] "7" 冷凍', "=1+1 für Zoë"])
def test_a_name_is_shown_whole_and_is_no_formula(cli: Cli, world: World, name: str) -> None:
    add_food(world.room, name, like=PEAS)
    stock(world, CHECK_STOCK, food=name)
    cli("eating", "set", name, "1", "--per", "day")
    for command in ("rotate", "horizon"):
        assert name in cli(command).out
        row = next(csv.DictReader(cli(command, "--csv").lines))
        assert row["food"] == (f"'{name}" if name.startswith("=") else name)
    assert cli("horizon", "--json").json["foods"][0]["food"] == name
    advice = cli("horizon", "--json").json["advice"][0]
    assert shlex.split(advice["command"])[3] == name


@pytest.mark.parametrize("command", ["rotate", "horizon", "cover"])
def test_an_empty_store_has_an_answer(cli: Cli, command: str) -> None:
    assert cli(command).out and cli(command, "--json").json
    assert len(cli(command, "--csv").lines) == 1


@pytest.mark.parametrize("command", ["rotate", "horizon", "cover"])
def test_text_keeps_to_the_width(shelf: Cli, command: str, monkeypatch: pytest.MonkeyPatch) -> None:
    shelf("eating", "set", PEAS, "1", "--per", "day")
    monkeypatch.setenv("COLUMNS", "60")
    assert max(map(len, shelf(command).lines)) <= 60
