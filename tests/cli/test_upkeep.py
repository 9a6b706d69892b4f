"""The machine by commands: what is due, what was done, leak tests, how often, where to look."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest

from tests.cli.conftest import Cli

TEST = "--from 0.30 --to 0.50 --seconds 600"


def checks(cli: Cli) -> dict[str, Any]:
    """Every check as the list has it, by key."""
    return {row["check"]: row for row in cli("upkeep", "list", "--json").json["checks"]}


def test_the_list_names_every_check_with_its_reason_and_source(stocked: Cli) -> None:
    found = checks(stocked)
    assert len(found) == 12
    assert found["oil_change"]["state"] == "due"
    assert found["leak"]["due_on"] == "2026-12-25"
    assert found["coil"]["standing"] == "from memory, not confirmed"
    page = " ".join(stocked("upkeep", "list").out.split())
    assert "- oil_change: Change the oil" in page
    assert "Keep the pump's guards on" in page
    assert "Follow local codes and licensed guidance" in page


def test_the_list_is_a_spreadsheet_too(stocked: Cli) -> None:
    rows = list(csv.DictReader(io.StringIO(stocked("upkeep", "list", "--csv").out)))
    assert {row["check"] for row in rows} == set(checks(stocked))
    assert all(row["look"] and row["source"] for row in rows)


def test_a_check_is_recorded_shown_and_taken_back(stocked: Cli) -> None:
    assert stocked("upkeep", "done", "oil-change").out == "Pump oil change: done.\n"
    assert checks(stocked)["oil_change"]["last_done"] == "2026-11-25"
    answer = stocked(
        "upkeep", "done", "hose", "--failed", "--note", "crack [/]", "--on", "yesterday"
    )
    assert answer.out == "Hose, belt and cord: found at fault on 2026-11-24, crack [/].\n"
    assert "unplug" in answer.err and "Follow local codes" in answer.err
    page = stocked("upkeep", "show", "hose").out
    assert "Since 2026-11-24: put it right and check again." in page
    assert "crack [/]" in page and "General guidance (from memory, not confirmed)" in page
    shown = stocked("upkeep", "show", "hose", "--json").json
    assert (shown["state"], shown["overdue_days"]) == ("at fault", 1)
    assert [(row["passed"], row["note"]) for row in shown["done"]] == [(False, "crack [/]")]
    assert stocked("undo").out.startswith("Undid: hose, belt and cord: found at fault")
    assert checks(stocked)["hose"]["state"] == "not yet"


def test_a_reading_is_judged_and_counts(stocked: Cli) -> None:
    # 40 L x 0.20 mbar / 600 s = 0.0133 mbar L/s; limit 0.02 (Parenteral Society, Monograph 7).
    answer = stocked("upkeep", "reading", *TEST.split(), "--volume-l", "40", "--dry-empty")
    assert answer.out == "Leak test: 0.0133 mbar L/s, within the limit.\n"
    assert "within 0.02 mbar L/s" in answer.err
    assert checks(stocked)["leak"]["last_done"] == "2026-11-25"
    # The volume is known now; without a word on the chamber there is no verdict.
    answer = stocked("upkeep", "reading", *TEST.split(), "--between", "0.45", "--note", "wet")
    assert answer.out == "Leak test: 0.0133 mbar L/s, no verdict, levels off.\n"
    assert "Defrost, dry and wipe" in answer.err
    latest, first = stocked("upkeep", "list", "--json").json["leak_tests"]
    assert first["mbar_l_per_s"] == pytest.approx(40 * 0.2 / 600)
    assert (first["verdict"], first["shape"], first["volume_l"]) == ("within", None, 40)
    assert (latest["verdict"], latest["shape"], latest["note"]) == ("none", "levels off", "wet")
    assert stocked("undo").out.startswith("Undid: leak test")


def test_a_reading_in_other_units(stocked: Cli) -> None:
    # 30 L x 0.150 Torr / 300 s = 0.0200 mbar L/s, kept to thousandths of a millibar.
    line = ("--from", "300 mTorr", "--to", "450 micron", "--seconds", "300", "--volume-l", "30")
    answer = stocked("upkeep", "reading", *line, "--dry-empty", "--json")
    assert answer.json["done"] == "leak test: 0.02 mbar L/s, within the limit"
    assert answer.err == ""


def test_a_leak_is_a_fault_with_its_cautions(stocked: Cli) -> None:
    line = ("--from", "0.3", "--to", "0.9", "--seconds", "600", "--volume-l", "40", "--dry-empty")
    answer = stocked("upkeep", "reading", *line)
    assert "over the limit" in answer.out
    assert "door seal first" in answer.err and "pump's guards" in answer.err
    assert checks(stocked)["leak"]["state"] == "at fault"


def test_how_often_is_set_and_set_back(stocked: Cli) -> None:
    for often, said, words in (
        ("40h", "every 40 h of running", "every 40 h of running"),
        ("90 days", "every 90 days", "every 90 days"),
        ("off", "left out", "left out"),
        ("usual", "every 10 h of running", "every 10 h of running"),
    ):
        answer = stocked("upkeep", "interval", "oil_change", often)
        assert answer.out == f"Pump oil change: {said} from now on.\n"
        assert checks(stocked)["oil_change"]["interval"] == words
    assert checks(stocked)["oil_change"]["own_interval"] is False


def test_where_to_look_needs_no_store(nowhere: Cli) -> None:
    page = nowhere("upkeep", "faults").out
    places = ["1. Door seal", "2. Pump", "3. Hose", "4. Drain", "5. Ice or water", "6. Pressure"]
    assert [page.index(place) for place in places] == sorted(page.index(one) for one in places)
    assert "common practice, no source" in page and "Follow local codes" in page
    steps = nowhere("upkeep", "faults", "--json").json["steps"]
    assert [step["check"] for step in steps] == ["gasket", "oil", "hose", "chamber", "defrost", ""]
    assert not nowhere.path.exists()


@pytest.mark.parametrize(
    ("line", "code", "said"),
    [
        ("upkeep done gaskets", 3, "There is no check “gaskets”."),
        ("upkeep show ''", 3, "There is no check"),
        ("upkeep done gasket --on tomorrow", 2, "day: “2026-11-26” cannot be read."),
        ("upkeep done gasket --on soon", 2, "day: “soon” cannot be read."),
        ("upkeep interval oil often", 2, "interval: “often” cannot be read."),
        ("upkeep interval oil usual", 3, "already set so: every run."),
        (f"upkeep reading {TEST}", 3, "The volume of the chamber is not on record yet."),
        (f"upkeep reading {TEST} --volume-l 0", 3, "more than 0 L"),
        (f"upkeep reading {TEST} --volume-l 40 --to 0.2", 3, "did not rise"),
        (f"upkeep reading {TEST} --volume-l 40 --seconds 0", 3, "more than 0 s"),
        (f"upkeep reading {TEST} --volume-l 40 --between 0.6", 3, "does not lie between"),
        (f"upkeep reading {TEST} --volume-l 40 --between-seconds 60", 2, "--between"),
        (f"upkeep reading {TEST} --volume-l many", 2, "volume: “many” cannot be read."),
    ],
)
def test_what_cannot_be_done_is_said_and_changes_nothing(
    stocked: Cli, line: str, code: int, said: str
) -> None:
    words = [word.strip("'") for word in line.split()]
    answer = stocked(*words, code=code)
    assert answer.out == "" and said in answer.err
    assert stocked("upkeep", "list", "--json").json["leak_tests"] == []
