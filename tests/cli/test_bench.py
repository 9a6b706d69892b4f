"""Runs, lots and packing by commands, with sums that come out."""

from __future__ import annotations

import pytest

from stockroom.domain.units import OUNCE_G
from tests.cli.conftest import Cli
from tests.world import APPLE, BEEF_RAW, PEAS


@pytest.fixture
def started(nowhere: Cli) -> Cli:
    """A household that has just begun, with a cellar."""
    nowhere("init", "--units", "metric", "--people", "2")
    nowhere("place", "add", "cellar", "--temp", "12", "--kind", "cellar")
    return nowhere


def test_a_run_from_the_first_tray_to_its_lots(started: Cli) -> None:
    assert (
        started("run", "new", "--on", "yesterday", "--note", "first frost").out
        == "Started run 1.\n"
    )
    started("run", "load", "1", PEAS, "1000")
    started("run", "load", "2", PEAS, "1,65 kg", "--tare", "650")
    started("run", "load", "3", APPLE)
    started("run", "weigh", "3", "1400", "--tare", "200")
    found = started("run", "show", "--json").json
    assert (found["state"], found["started_on"], found["note"]) == (
        "open",
        "2026-11-24",
        "first frost",
    )
    assert [(tray["tray"], tray["wet_dg"]) for tray in found["trays"]] == [
        (1, 10_000),
        (2, 10_000),
        (3, 12_000),
    ]
    # Peas 79.52 % and apple 86.67 % water: USDA National Nutrient Database, SR28.
    assert found["expected_water_dg"] == pytest.approx(2 * 7952 + 10_400, abs=3)
    started("run", "dry", "1", "155")
    started("run", "dry", "2", "810", "--tare", "650")
    started("run", "dry", "3", "360")  # the tare of its last weighing counts
    closed = started("run", "close", "--json").json
    assert closed["codes"] == ["26329A", "26329B"]
    peas = started("lot", "show", "26329A", "--json").json
    assert (peas["wet_dg"], peas["dry_dg"], peas["water_removed_dg"]) == (20_000, 3_150, 16_850)
    assert peas["water_removed_percent"] == pytest.approx(84.25)
    apple = started("show", "26329B", "--json").json
    assert (apple["wet_dg"], apple["dry_dg"], apple["left_dg"]) == (12_000, 1_600, 1_600)
    assert [row["run"] for row in started("run", "list", "--json").json] == [1]


def test_packages_and_losses_add_up_to_the_lot(started: Cli) -> None:
    _dried(started, PEAS, "1000", "155")
    answer = started(
        "pack", "26329A", "--into", "2xpouch-1500-foil:40,absorber=300", "--into", "3xjar-475",
        "--loss", "4.9:tasted", "--place", "cellar", "--note", "crème", "--json",
    )  # fmt: skip
    assert len(answer.json["codes"]) == 5
    lot = started("lot", "show", "26329A", "--json").json
    packages, losses = lot["packages"], lot["losses"]
    assert [one["dry_dg"] for one in packages] == [400, 400, 234, 234, 233]
    assert [(one["reason"], one["dry_dg"]) for one in losses] == [("tasted", 49)]
    assert sum(one["dry_dg"] for one in packages + losses) == lot["dry_dg"] == 1_550
    assert sum(one["water_dg"] for one in packages + losses) == lot["water_removed_dg"] == 8_450
    assert (lot["left_dg"], lot["left_water_dg"]) == (0, 0)
    assert {one["note"] for one in packages} == {"crème"}
    assert {one["place"] for one in packages} == {"cellar"}
    # One thing a person did: one entry, one undo.
    assert started("journal", "--json").json[0]["action"] == "pack"
    started("undo")
    assert started("lot", "show", "26329A", "--json").json["left_dg"] == 1_550


def test_what_the_packages_leave_may_be_a_loss(started: Cli) -> None:
    _dried(started, PEAS, "1000", "155")
    answer = started(
        "pack", "26329A", "--into", "1xjar-475:100", "--loss", "rest:spilt", "--loss", "5:tasted"
    )
    assert "5.0 g tasted; 50.0 g spilt." in answer.out
    assert started("lot", "show", "26329A", "--json").json["left_dg"] == 0


def test_a_pack_that_does_not_fit_records_no_loss(started: Cli) -> None:
    _dried(started, PEAS, "1000", "155")
    started("pack", "26329A", "--into", "1xjar-475:151", "--loss", "5:tasted", code=3)
    started("pack", "26329A", "--into", "1xsack:1", "--loss", "5:tasted", code=3)
    started("pack", "26329A", "--into", "1xjar-475", "--loss", "rest:tasted", code=3)
    assert started("lot", "show", "26329A", "--json").json["losses"] == []
    assert started("lot", "list", "--to-pack", "--json").json[0]["left_dg"] == 1_550


def test_packing_shows_what_to_write_on_each_package(started: Cli) -> None:
    _dried(started, PEAS, "1000", "155")
    answer = started("pack", "26329A", "--into", "2xpouch-1500-foil:62,absorber=300")
    assert "quality estimate, not safety" in answer.out
    row = next(line for line in answer.lines if line.startswith("26329A01E"))
    assert "62.0 g" in row and "338.0 g" in row and "339 mL" in row and "1½ US cups" in row
    assert "botulism" in answer.err and "published)" in answer.err
    assert "31.0 g left to pack." in answer.out
    assert answer.err.endswith(
        "Settle check: squeeze each tomorrow, then stockroom check CODE crisp.\n"
    )


def test_us_units_are_typed_and_shown(nowhere: Cli) -> None:
    nowhere("init", "--units", "us", "--people", "2")
    _dried(nowhere, PEAS, "2 lb 3 oz", "5.5")
    lot = nowhere("lot", "show", "26329A", "--json").json
    assert lot["wet_dg"] == round(float(35 * OUNCE_G * 10))
    assert lot["dry_dg"] == round(float(OUNCE_G * 55))
    page = nowhere("lot", "show", "26329A").out
    assert "2 lb 3.0 oz" in page and "5.50 oz" in page
    nowhere("pack", "26329A", "--into", "1xjar-950:150")
    shown = nowhere("show", "26329A01").out
    assert "5.29 oz" in shown and " g · " in shown and "US cups" in shown
    nowhere("place", "add", "shed", "--temp", "64")
    assert nowhere("place", "list", "--json").json[0]["temperature_dc"] == 178
    assert "64.0 °F" in nowhere("place", "list").out


def test_a_tray_is_taken_out_and_a_run_given_up(started: Cli) -> None:
    started("run", "new")
    started("run", "load", "1", PEAS, "1000")
    assert started("run", "unload", "1").out == f"Took {PEAS} on tray 1 out of run 1.\n"
    assert started("run", "show", "1", "--json").json["trays"] == []
    started("run", "close", code=3)
    assert started("run", "abandon").out == "Abandoned run 1.\n"
    assert started("run", "show", "1", "--json").json["state"] == "abandoned"
    started("run", "load", "1", PEAS, "--run", "1", code=3)


def test_two_open_runs_are_told_apart(started: Cli) -> None:
    started("run", "new")
    started("run", "new")
    assert started("run", "load", "1", PEAS, code=3).err.splitlines()[1] == "Say which: 2, 1."
    started("run", "load", "1", PEAS, "500", "--run", "2")
    assert started("run", "show", "2", "--json").json["trays"][0]["wet_dg"] == 5_000


def test_a_run_cannot_begin_tomorrow(started: Cli) -> None:
    assert started("run", "new", "--on", "+1", code=2).err.startswith("day: “2026-11-26”")


def test_a_food_of_ones_own(started: Cli) -> None:
    started(
        "food", "add", "Stew", "--class", "Lean Meat", "--prepared", "raw", "--serving", "250 g",
        "--water", "70.5%", "--allergen", "crustacean-shellfish", "--allergen", "wheat",
    )  # fmt: skip
    (food,) = started("food", "list", "--json").json
    assert (food["food_class"], food["preparation"], food["serving_dg"]) == (
        "lean_meat",
        "raw",
        2_500,
    )
    assert food["allergens"] == ["crustacean_shellfish", "wheat"] and food["water_percent"] == 70.5
    started("food", "edit", "stew", "--name", "Our stew", "--no-allergens", "--prepared", "cooked")
    (food,) = started("food", "list", "--json").json
    assert (food["name"], food["allergens"], food["ingredients_unknown"]) == ("Our stew", [], False)
    assert food["preparation"] == "cooked"


def test_foods_are_looked_up(started: Cli) -> None:
    names = [row["name"] for row in started("food", "search", "PEAS", "green", "--json").json]
    assert PEAS in names and all("peas" in name.lower() for name in names)
    started("run", "new")
    assert started("run", "load", "1", "peas", code=3).err.splitlines()[1].startswith("Nearest: ")


def test_raw_food_is_said_to_be_raw_everywhere(started: Cli) -> None:
    _dried(started, BEEF_RAW, "1000", "300")
    started("pack", "26329A", "--into", "1xjar-950")
    for line in ("lot show 26329A", "show 26329A01", "draw 26329A01 --grams 50"):
        assert "raw: must be cooked after water is added" in started(*line.split()).out, line


def _dried(cli: Cli, food: str, wet: str, dry: str) -> None:
    """One food through a run of one tray, weighed twice and tested."""
    cli("run", "new")
    cli("run", "load", "1", food, wet)
    cli("run", "dry", "1", dry)
    cli("run", "dry", "1", dry)
    cli("run", "test", "1", "cold", "ok")
    cli("run", "test", "1", "break", "ok")
    cli("run", "close")
