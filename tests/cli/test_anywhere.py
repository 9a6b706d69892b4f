"""The options that go with any command, before or after its own words."""

from __future__ import annotations

from pathlib import Path

import pytest

from stockroom.cli.main import main
from tests.cli.conftest import Cli


@pytest.mark.parametrize(
    "line",
    [
        "--store {path} place list --json",
        "place --store {path} list --json",
        "place list --store {path} --json",
        "place list --json --store {path}",
        "--store /nowhere/at/all.db place list --json --store {path}",
    ],
)
def test_the_store_may_be_said_anywhere(
    stocked: Cli, line: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("STOCKROOM_STORE", "/nowhere/else.db")
    paths = [row["path"] for row in stocked(*line.format(path=stocked.path).split()).json]
    assert paths == ["cellar", "cellar/rack 1", "loft"]


def test_the_day_may_be_said_anywhere(stocked: Cli, capsys: pytest.CaptureFixture[str]) -> None:
    for line in ("--today 2026-11-26 round --json", "round --json --today 2026-11-26"):
        assert main(line.split()) == 0
        out = capsys.readouterr().out
        assert '"today": "2026-11-26"' in out
        assert out.count('"condition": "settling"') == 4  # settle checks and what to use first


def test_the_name_goes_into_the_journal(stocked: Cli) -> None:
    stocked("--who", "mia", "move", "26329A01", "loft")
    stocked("move", "26329A02", "loft", "--who", "Ola Ø.")
    stocked("undo")
    who = [entry["who"] for entry in stocked("journal", "--count", "3", "--json").json]
    assert who == ["tester", "Ola Ø.", "mia"]


def test_a_name_has_to_say_something(stocked: Cli) -> None:
    for name in ("", "   ", "\t"):
        answer = stocked("--who", name, "undo", code=2)
        assert answer.err.startswith("name: nothing cannot be read.")


def test_a_store_that_is_not_there_is_not_made(nowhere: Cli) -> None:
    answer = nowhere("find", code=3)
    assert answer.out == ""
    assert answer.err.splitlines() == [
        f"There is no store at {nowhere.path}.",
        "Make one with `stockroom init`, or look around with `stockroom demo`.",
    ]
    assert not nowhere.path.parent.exists()


def test_a_file_that_is_no_store_is_left_alone(nowhere: Cli, tmp_path: Path) -> None:
    for content in (b"", b"shopping list\n" * 400):
        path = tmp_path / "list.txt"
        path.write_bytes(content)
        answer = nowhere("--store", str(path), "find", code=3)
        assert answer.err.startswith(f"The store at {path} cannot be used")
        assert path.read_bytes() == content


@pytest.mark.parametrize("typed", ["", "  ", "a\0b"])
def test_a_path_no_file_can_have_is_refused(nowhere: Cli, typed: str) -> None:
    assert nowhere("--store", typed, "find", code=2).err.startswith("store: ")


def test_a_path_that_cannot_be_looked_at_is_named(nowhere: Cli) -> None:
    answer = nowhere("--store", "/" + "x" * 300, "find", code=3)
    assert "cannot be reached: File name too long." in answer.err


def test_a_user_nobody_knows_is_part_of_the_name(nowhere: Cli) -> None:
    answer = nowhere("--store", "~nobody-of-that-name/x.db", "find", code=3)
    assert answer.err.startswith("There is no store at ~nobody-of-that-name/x.db.")


def test_a_day_is_read_carefully(nowhere: Cli) -> None:
    for typed in ("10", "Mar", "2026-02-29", "26-01-01", ""):
        assert nowhere("--today", typed, "calc", "code", "26329A", code=2).err.startswith("today: ")
