"""Names as people write them: brackets, accents, wide characters, control characters."""

from __future__ import annotations

import csv
import io

import pytest

from stockroom.reports.plain import cells
from tests.cli.conftest import Cli

BRACKETS = '[/] jar [soft] "7" 冷凍'
STEERING = "red\x1b[31m\x07 peas\u202e"
FORMULA = '=HYPERLINK("http://x","peas")'


@pytest.fixture
def named(nowhere: Cli) -> Cli:
    """A stockroom whose foods and places have awkward names."""
    nowhere("init", "--units", "metric", "--people", "2")
    nowhere("place", "add", "Kühlraum [2]")
    nowhere("place", "add", "Kühlraum [2]/棚 1")
    nowhere("run", "new")
    for tray, name in enumerate((BRACKETS, STEERING, FORMULA), start=1):
        nowhere("food", "add", "--class", "vegetable", "--prepared", "cooked", "--", name)
        nowhere("run", "load", str(tray), name, "1000")
        nowhere("run", "dry", str(tray), "100")
    nowhere("run", "close")
    for letter in "ABC":
        nowhere("pack", f"26329{letter}", "--into", "2xjar-475", "--place", "棚 1")
    return nowhere


def test_a_name_is_shown_whole(named: Cli) -> None:
    for line in (
        "find", "find --json", "find --csv", "round", "round --json", "show 26329B01",
        "show 26329B", "show 26329B01 --working", "food list", "food list --csv", "journal",
        "journal --json", "lot list --csv",
    ):  # fmt: skip
        shown = named(*line.split()).out.splitlines()
        assert all(row.isprintable() for row in shown), line
    assert "red␛[31m␇ peas·" in named("find").out


def test_json_keeps_what_was_typed(named: Cli) -> None:
    foods = {row["food"] for row in named("find", "--json").json}
    # Space within a name is one space; nothing else is changed.
    assert foods == {BRACKETS, STEERING, FORMULA}


def test_a_spreadsheet_takes_no_name_for_a_formula(named: Cli) -> None:
    rows = list(csv.DictReader(io.StringIO(named("find", "--csv").out)))
    assert {row["food"] for row in rows if row["code"].startswith("26329C")} == {f"'{FORMULA}"}
    places = named("place", "list", "--csv")
    assert "Kühlraum [2]/棚 1" in places.out


@pytest.mark.parametrize("width", [60, 80, 120])
def test_columns_stay_in_line_with_wide_characters(
    named: Cli, width: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    _, heading, dashes, *rows = named("find").lines
    start = cells(heading[: heading.index("condition")])
    for row in [heading, *rows]:
        assert cells(row) <= width
    assert len(rows) == 6
    # The columns before the condition are as wide on every line, counted in cells.
    for row in rows:
        left = row.rstrip()
        while cells(left) > start:
            left = left[:-1]
        assert cells(left) in (start, start - 1)
    assert set(dashes) == {"-", " "}


def test_an_error_quotes_a_name_safely(named: Cli) -> None:
    answer = named("show", "26329A01\x1b[2J", code=2)
    assert "\x1b" not in answer.err
    assert "\x1b" not in named("find", "--food", "a\x1b]0;title\x07", code=3).err
    assert "\x1b" not in named("\x1b[31m", code=2).err
    assert "\x1b" not in named("find", "--order", "\x1b[31m", code=2).err
