"""Tracing, recalls and what soft packages have in common, by the command line."""

from __future__ import annotations

import csv
import io

import pytest

from tests.cli.conftest import Cli
from tests.traced import WHY, Traced, dried_again, found_soft, traced
from tests.world import PEAS, World


@pytest.fixture
def shelf(world: World) -> Traced:
    """Two runs on the shelves."""
    return traced(world)


def test_a_package_is_traced_back_and_forward(cli: Cli, shelf: Traced) -> None:
    answer = cli("trace", shelf.peas[0])
    said = " ".join(answer.out.split())
    for words in (
        f"Trace of {shelf.peas[0]} · {PEAS}",
        "Dried in run 1",
        "Dryness is shown: constant weight on every tray",
        "no cold spot snaps",
        "its packet P7",
        "its box Blue",
        "Lot 26269A: 6 packages",
        "Run 1: 10 packages",
        "6 others of them named above.",
        "Absorber packet P7: 6 packages, all named above.",
        "licensed guidance",
    ):
        assert words in said, words
    assert all(code in answer.out for code in (*shelf.peas, *shelf.apples))
    assert answer.out.count(shelf.peas[1]) == 1


def test_the_trace_for_programs(cli: Cli, shelf: Traced) -> None:
    found = cli("trace", shelf.wet[0], "--json").json
    (drying,) = found["dryings"]
    assert drying["run"] == 2 and drying["dryness_shown"] is False and drying["missing"]
    assert found["gate_reason"] == WHY
    groups = {one["kind"]: one for one in found["groups"]}
    assert groups["packet"]["packages"] == 10 and groups["lot"]["sound"] == 6
    assert groups["box"]["name"] == "green"
    in_run = {one["code"] for one in found["packages"] if one["kind"] == "run"}
    assert in_run == set(shelf.wet)
    rows = list(csv.DictReader(io.StringIO(cli("trace", shelf.wet[0], "--csv").out)))
    assert len(rows) == len(found["packages"]) == 6 + 6 + 10 + 6
    assert {row["code"] for row in rows if row["kind"] == "packet"} == {*shelf.wet, *shelf.apples}


def test_food_dried_again_names_both_runs(cli: Cli, world: World, shelf: Traced) -> None:
    old, new = dried_again(world)
    said = " ".join(cli("trace", new).out.split())
    assert "Dried in run 3" in said and "Dried again in run 4" in said
    assert f"food out of {old}" in said and "extra hours 2 h on 2026-11-17" in said
    assert cli("trace", old, "--json").json["successors"] == [new]


def test_a_lot_is_traced_too(cli: Cli, shelf: Traced) -> None:
    found = cli("trace", "26269A", "--json").json
    assert (found["code"], found["condition"]) == ("26269A", None)
    assert [one["kind"] for one in found["groups"]] == ["lot", "run"]


def test_a_recall_names_what_to_fetch_and_is_undone(cli: Cli, shelf: Traced) -> None:
    why = "absorbers went hard"
    answer = cli("recall", shelf.peas[0], "--by", "packet", "--why", why)
    assert answer.out.startswith(f"Recalled 6 packages of absorber packet P7: {why}.")
    assert "Fetch these, place by place" in answer.out
    assert all(code in answer.out for code in shelf.peas)
    assert "Never taste food to test it." in answer.err
    assert "stockroom check CODE crisp" in answer.err
    suspect = cli("find", "--condition", "suspect", "--json").json
    assert {one["code"] for one in suspect} == set(shelf.peas)
    history = cli("show", shelf.peas[0], "--json").json["history"]
    assert history[-1]["note"] == f"absorber packet P7: {why}"
    cli("undo")
    assert cli("find", "--condition", "suspect", "--json").json == []


def test_a_recall_for_programs(cli: Cli, shelf: Traced) -> None:
    line = ("recall", shelf.apples[0], "--why", "tacky")
    found = cli(*line, "--by", "lot", "--json")
    assert found.json["codes"] == list(shelf.apples)
    assert {one["condition"] for one in found.json["packages"]} == {"suspect"}
    assert found.json["cautions"] and found.err == ""
    rows = list(csv.DictReader(io.StringIO(cli(*line, "--by", "BOX", "--csv").out)))
    assert {row["code"] for row in rows} == set(shelf.peas)


def test_a_recall_that_cannot_be_says_why(cli: Cli, shelf: Traced) -> None:
    code = shelf.peas[0]
    assert "needs a reason" in cli("recall", code, "--by", "lot", "--why", " ", code=3).err
    assert "--why" in cli("recall", code, "--by", "lot", code=2).err
    assert "--by" in cli("recall", code, "--why", "damp", code=2).err
    assert "none of lot, run" in cli("recall", code, "--by", "shelf", "--why", "x", code=2).err
    assert "not on record" in cli("recall", "26269A", "--by", "box", "--why", "x", code=3).err
    cli("recall", code, "--by", "lot", "--why", "damp")
    again = cli("recall", code, "--by", "lot", "--why", "damp", code=3)
    assert "6 suspect" in again.err and again.out == ""
    assert "There is no package" in cli("trace", "26269A77", code=3).err


def test_what_soft_packages_share(cli: Cli, world: World, shelf: Traced) -> None:
    found_soft(world, shelf.wet[:5])
    page = cli("common").out
    lines = page.splitlines()
    assert "soft more often" in next(one for one in lines if one.startswith("run 2 "))
    assert lines.index(next(one for one in lines if one.startswith("run 2 "))) < lines.index(
        next(one for one in lines if one.startswith("vegetable "))
    )
    said = " ".join(page.split())
    for words in (
        "looked at 16 packages",
        "soft 5 of them",
        "groups were compared. Of many, a few stand out by chance alone.",
        "No cause is shown by any line here.",
        "Clopper and Pearson",
        "engineering judgement",
    ):
        assert words in said, words
    found = cli("common", "--json").json
    (run,) = (one for one in found["groups"] if (one["ground"], one["name"]) == ("run", "2"))
    assert (run["soft"], run["looked_at"], run["soft_elsewhere"]) == (5, 6, 0)
    assert run["low"] > run["high_elsewhere"] and run["soft_lots"] == ["26289A"]
    rows = list(csv.DictReader(io.StringIO(cli("common", "--csv").out)))
    assert len(rows) == len(found["groups"])
    assert float(rows[0]["low"]) == pytest.approx(found["groups"][0]["low"], abs=1e-4)


def test_one_food_since_a_day(cli: Cli, world: World, shelf: Traced) -> None:
    found_soft(world, shelf.wet[:5])
    found = cli("common", "--food", PEAS, "--since", "2026-11-15", "--json").json
    assert (found["food"], found["since"], found["looked_at"]) == (PEAS, "2026-11-15", 5)
    assert cli("common", "--since", "-9", "--json").json["looked_at"] == 0
    assert "nothing to compare" in cli("common", "--since", "tomorrow").out
    assert "since" in cli("common", "--since", "May", code=2).err
    assert "There is no food" in cli("common", "--food", "moon", code=3).err


def test_nothing_looked_at_yet(cli: Cli) -> None:
    assert "No package was ever looked at" in cli("common").out
    assert cli("common", "--json").json["groups"] == []


@pytest.mark.parametrize("width", [60, 80])
def test_pages_fit_the_terminal(
    cli: Cli, world: World, shelf: Traced, width: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    found_soft(world, shelf.wet[:5])
    _, new = dried_again(world)
    monkeypatch.setenv("COLUMNS", str(width))
    for line in (("trace", new), ("trace", shelf.wet[0]), ("common",)):
        assert all(len(row) <= width for row in cli(*line).lines), line
    recalled = cli("recall", shelf.peas[0], "--by", "run", "--why", "the door")
    assert all(len(row) <= width for row in recalled.lines)
