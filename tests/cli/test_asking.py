"""Starting a stockroom: what is asked, what is said, what is never overwritten."""

from __future__ import annotations

import stat

import pytest

from stockroom.cli import asking
from tests.cli.conftest import Cli


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Answers a person gives on a terminal, in order; fill the list."""
    given: list[str] = []
    monkeypatch.setattr(asking, "on_a_terminal", lambda: True)
    monkeypatch.setattr("click.termui.visible_prompt_func", lambda _: given.pop(0))
    return given


def test_units_and_people_are_asked_for(nowhere: Cli, answers: list[str]) -> None:
    answers += ["us", "4"]
    answer = nowhere("init")
    assert answers == []
    assert answer.out == f"Started a stockroom at {nowhere.path}.\n"
    assert "Next: stockroom place add" in answer.err
    found = nowhere("household", "--json").json
    assert (found["units"], found["people"], found["name"]) == ("us", 4, "")


def test_an_answer_that_cannot_be_read_is_asked_for_again(nowhere: Cli, answers: list[str]) -> None:
    answers += ["stones", "Metric", "none", "0", "501", "3"]
    answer = nowhere("init", "--name", "Mill")
    assert answers == []
    assert "units: “stones” cannot be read." in answer.err
    assert answer.err.count("people: ") == 3
    found = nowhere("household", "--json").json
    assert (found["units"], found["people"], found["name"]) == ("metric", 3, "Mill")


def test_what_is_said_is_not_asked(nowhere: Cli, answers: list[str]) -> None:
    answers += ["5"]
    nowhere("init", "--units", "US")
    assert answers == []
    nowhere("--store", str(nowhere.path) + "2", "init", "--units", "us", "--people", "5")


def test_without_a_terminal_nothing_is_asked(nowhere: Cli) -> None:
    answer = nowhere("init", "--people", "2", code=2)
    assert answer.err.splitlines() == [
        "There is no terminal to ask on: Units, metric or us",
        "Say it on the command line: --units metric or --units us.",
    ]
    assert "--people 2" in nowhere("init", "--units", "us", code=2).err
    assert not nowhere.path.parent.exists()


def test_leaving_the_question_makes_nothing(
    nowhere: Cli, answers: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def leave(_: str) -> str:
        raise KeyboardInterrupt

    monkeypatch.setattr("click.termui.visible_prompt_func", leave)
    answer = nowhere("init", code=130)
    assert answer.out == ""
    assert not nowhere.path.exists()


def test_a_store_is_for_its_owner_alone(nowhere: Cli) -> None:
    nowhere("init", "--units", "metric", "--people", "2")
    assert stat.S_IMODE(nowhere.path.stat().st_mode) == 0o600
    assert stat.S_IMODE(nowhere.path.parent.stat().st_mode) == 0o700


def test_a_store_is_never_overwritten(nowhere: Cli, answers: list[str]) -> None:
    nowhere("init", "--units", "metric", "--people", "2")
    before = nowhere.path.read_bytes()
    answer = nowhere("init", code=3)
    assert answer.err.startswith(
        f"There is already a store at {nowhere.path}; it was left as it is."
    )
    nowhere("init", "--units", "us", "--people", "9", code=3)
    assert nowhere.path.read_bytes() == before
    assert answers == []  # and nothing was asked first


def test_a_folder_is_no_store(nowhere: Cli) -> None:
    nowhere.path.mkdir(parents=True)
    nowhere("init", "--units", "us", "--people", "9", code=3)
    nowhere("find", code=3)
    assert list(nowhere.path.iterdir()) == []


def test_starting_answers_in_json(nowhere: Cli) -> None:
    answer = nowhere("init", "--units", "metric", "--people", "2", "--json")
    assert answer.json["done"] == f"started a stockroom at {nowhere.path}"
    assert answer.err == ""


def test_the_household_is_shown_and_changed(nowhere: Cli) -> None:
    nowhere("init", "--units", "metric", "--people", "2", "--name", "The mill house")
    page = nowhere("household").out
    assert (
        "The mill house" in page
        and "grams and degrees Celsius" in page
        and str(nowhere.path) in page
    )
    assert nowhere("household", "--units", "us", "--people", "3").out == (
        "Set units to us, people to 3.\n"
    )
    found = nowhere("household", "--json").json
    assert (found["units"], found["people"], found["name"]) == ("us", 3, "The mill house")
    nowhere("undo")
    assert nowhere("household", "--json").json["units"] == "metric"
