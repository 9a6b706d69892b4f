"""Standard output holds the answer and standard error the talk; JSON and CSV can be read."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from tests.cli import commands_page
from tests.cli.conftest import Cli
from tests.cli.tree import commands, own_options
from tests.world import World

ACTIONS = {"recall", "export"}
"""Commands that do something and take --csv all the same: a recall, and a folder of files."""
LISTS = [
    " ".join(words)
    for words, command in commands()
    if any(option.opts == ["--csv"] and option.is_flag for option in own_options(command))
    and " ".join(words) not in ACTIONS
]
ABOUT = {"whatif": ("26329A01",), "place climate": ("cellar",), "trace": ("26329A01",)}
"""What a list is about, where it has to be said."""
ROWS = {
    "whatif": "choices",
    "gains": "gains",
    "place climate": "months",
    "upkeep list": "checks",
    "trace": "packages",
    "common": "groups",
    "menu": "dishes",
    "menu show": "dishes",
    "person list": "members",
    "eating list": "rates",
    "target list": "groups",
    "rotate": "round",
    "horizon": "foods",
    "cover": "groups",
}
"""Lists that stand beside other things in JSON, with their key."""
OF_PEOPLE = {"body_weight_dg": "body_weight_kg", "height_mm": "height_cm"}
"""Sizes of people stand in a CSV as people say them."""
NEVER_EMPTY = {"container list", "food search", "sheet list", "round"}
"""Lists with entries of the program's own; the empty round has its own test."""
NOT_JSON = {"demo"}
"""Commands without --json: the demo opens the screens."""


def test_every_list_takes_json_and_csv() -> None:
    named = [" ".join(words) for words, _ in commands()]
    assert {
        name
        for name in named
        if name.split()[-1] in ("list", "search", "find", "journal", "round", "queue", "measures")
    } | set(ROWS) == set(LISTS)
    for words, command in commands():
        options = {option.opts[0] for option in own_options(command)}
        assert ("--json" in options) is (" ".join(words) not in NOT_JSON), words


@pytest.fixture
def lived_in(stocked: Cli) -> Cli:
    """A store with something in every list."""
    stocked("check", "26329A01", "leak", "--note", "seam")
    stocked("draw", "26329A02", "--grams", "20")
    stocked("lot", "loss", "26329A", "1:tasted")
    stocked("pack", "26329A", "--into", "1xpouch-1500-foil:20,absorber=100")
    stocked("check", "26329A03", "crisp")
    stocked("lot", "hold", "26329A")
    stocked("place", "temperature", "cellar", "--steady", "12")
    stocked("run", "new", "--note", "beef")
    stocked("run", "load", "1", "Beef, eye of round, lean, raw", "1200")
    stocked(
        "recipe", "add", "Pea soup", "--serves", "2", "--fresh", "onion=1 1/2 each",
        "--stored", "Peas, green, frozen, boiled=100 g fresh",
    )  # fmt: skip
    stocked("food", "measure", "Peas, green, frozen, boiled", "cup", "31 g")
    stocked("cook", "Pea soup", "--people", "1", "--take")
    stocked("recipe", "add", "Porridge", "--serves", "2", "--fresh", "oats=100 g")
    stocked("menu", "--days", "1", "--keep")
    stocked("person", "add", "Runa", "--sex", "F", "--age", "41", "--activity", "low")
    stocked("target", "set", "30", "--group", "vegetable")
    return stocked


@pytest.mark.parametrize("name", LISTS)
def test_a_list_is_an_array_of_rows_in_json_and_a_table_in_csv(lived_in: Cli, name: str) -> None:
    words = (*name.split(), *ABOUT.get(name, ()))
    as_json = lived_in(*words, "--json")
    as_csv = lived_in(*words, "--csv")
    rows = list(csv.DictReader(io.StringIO(as_csv.out)))
    assert rows and as_csv.err == as_json.err == ""
    assert None not in rows[0] and all(None not in row.values() for row in rows)
    if name == "round":  # one list in CSV, its parts in JSON
        assert len(rows) == sum(
            len(part) for part in as_json.json.values() if isinstance(part, list)
        )
        return
    answered = as_json.json[ROWS[name]] if name in ROWS else as_json.json
    assert len(rows) == len(answered)
    assert len(rows[0]) == len(answered[0])
    # Both end in the unit, or are the same word.
    for csv_name, json_name in zip(rows[0], answered[0], strict=True):
        read = json_name.replace("_dg", "_g").replace("_dc", "_c").replace("_um", "_mm")
        assert csv_name == (OF_PEOPLE.get(json_name, read) if name == "person list" else read)


@pytest.mark.parametrize("name", LISTS)
def test_the_last_format_said_counts(lived_in: Cli, name: str) -> None:
    words = (*name.split(), *ABOUT.get(name, ()))
    assert lived_in(*words, "--json", "--csv").out == lived_in(*words, "--csv").out
    assert lived_in(*words, "--csv", "--json").out == lived_in(*words, "--json").out


@pytest.mark.parametrize("name", sorted(set(LISTS) - NEVER_EMPTY - set(ROWS)))
def test_an_empty_list_is_a_fair_answer(nowhere: Cli, name: str) -> None:
    nowhere("init", "--units", "metric", "--people", "2")
    if name == "journal":  # a store begins with its first entry
        name = "journal --before 1"
    assert nowhere(*name.split(), "--json").json == []
    heading, *rows = nowhere(*name.split(), "--csv").lines
    assert rows == [] and "," in heading
    text = nowhere(*name.split())
    assert text.out.startswith("No") and text.err == ""


def test_an_empty_round_says_so(nowhere: Cli) -> None:
    nowhere("init", "--units", "us", "--people", "1")
    assert "Nothing wants doing today." in nowhere("round").out
    assert len(nowhere("round", "--csv").lines) == 1
    answer = nowhere("round", "--json").json
    assert answer.pop("today") == "2026-11-25"
    assert answer.pop("recheck_waiting") == 0
    assert set(answer) == {
        "suspect",
        "reminders",
        "settle",
        "recheck",
        "queue",
        "held",
        "opened",
        "use_first",
        "to_pack",
        "open_runs",
    }
    assert all(part == [] for part in answer.values())


def test_every_command_answers_in_json(
    stocked: Cli, world: World, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each command of the page's story once more, with --json."""
    world.room.close()  # a store that somebody has open is not restored
    monkeypatch.chdir(tmp_path)  # the story writes a calendar file
    for name, line in _story_without_start():
        words = [word for word in _words(line) if word not in ("--csv", "--json")]
        answer = stocked(*words, "--json")
        assert isinstance(json.loads(answer.out), dict | list), name
        assert answer.err == "" or name == "journal", (name, answer.err)


def test_cautions_are_said_beside_the_answer_or_inside_the_json(stocked: Cli) -> None:
    stocked("run", "new")
    said = stocked("run", "load", "1", "Beef, eye of round, lean, raw")
    assert said.out == "Loaded Beef, eye of round, lean, raw on tray 1 of run 2.\n"
    assert "Raw stays raw" in said.err and "published)" in said.err
    assert said.err.splitlines()[-1].startswith("- Follow local codes and licensed guidance")
    written = stocked("run", "load", "2", "Beef, eye of round, lean, raw", "--json")
    assert written.err == ""
    keys = [one["key"] for one in written.json["cautions"]]
    assert keys[-1] == "local-codes" and "raw-stays-raw" in keys
    assert all(
        one["source"] and one["standing"] and one["text"] for one in written.json["cautions"]
    )


def test_a_list_that_is_cut_says_so_beside_it(stocked: Cli) -> None:
    answer = stocked("journal", "--count", "2", "--json")
    assert len(answer.json) == 2
    assert answer.err == "The latest 2 are shown; --count asks for more.\n"
    assert stocked("journal", "--count", "5000").err == ""
    assert stocked("run", "list", "--count", "1").err == ""


def test_a_search_without_a_result_is_done(stocked: Cli) -> None:
    assert stocked("find", "bananas").out == "No packages.\n"


def test_advice_for_an_empty_store_is_a_fair_answer(nowhere: Cli) -> None:
    nowhere("init", "--units", "metric", "--people", "2")
    assert nowhere("gains", "--json").json == {"gains": []}
    assert len(nowhere("gains", "--csv").lines) == 1
    assert "Nothing gains two months or more" in nowhere("gains").out


ELSEWHERE = (
    "26329B", "26329A03", "readings.csv", "larder.csv", "soup.json", "Green soup", "due.csv",
)  # fmt: skip
"""Packages and files that only the page's own story has."""


def _story_without_start() -> list[tuple[str, str]]:
    """The story's lines that go with a store which has the peas packed already."""
    left_out = ("init", "demo", "place", "run", "lot loss", "pack", "repack", "label")
    return [
        (name, line)
        for name, line in commands_page.story()
        if not name.startswith(left_out) and not any(one in line for one in ELSEWHERE)
    ]


def _words(line: str) -> list[str]:
    import shlex

    return shlex.split(line)[1:]
