"""The README does what it says: its first week runs from an empty folder to a meal taken back."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from tests.docs.console import Shell
from tests.docs.pages import README, Block, blocks

BEGINNING = date(2026, 11, 24)
"""Day 328, so that the lot closed a day later is 26329A, as the README says."""
NEXT_DAY = ("a day later", "the next morning")
"""Words in a comment that begin a new day."""


def sh_blocks() -> list[Block]:
    """The README's blocks for a shell, in order."""
    return [one for one in blocks(README.read_text(encoding="utf-8")) if one.language == "sh"]


def first_week() -> Iterator[tuple[date, str]]:
    """Each command of the second block with its day, which the comments tell."""
    day = BEGINNING
    for line in sh_blocks()[1].text.splitlines():
        command, _, said = line.partition("#")
        day += timedelta(days=any(words in said for words in NEXT_DAY))
        yield day, command.strip()


@pytest.fixture
def week(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, list[str]]:
    """What each command of the first week answered, by the command."""
    shell = Shell(tmp_path, monkeypatch)
    shell.begin("none")
    answers: dict[str, list[str]] = {}
    for day, command in first_week():
        shell.day = day.isoformat()
        answers[command] = shell.run(command)
        assert shell.code == 0, (command, answers[command])
    return answers


def one(week: dict[str, list[str]], beginning: str) -> str:
    """The whole answer of the one command that begins so."""
    (found,) = [lines for command, lines in week.items() if command.startswith(beginning)]
    return "\n".join(found)


def test_the_two_commands_for_a_stranger_are_the_first_block() -> None:
    lines = sh_blocks()[0].text.splitlines()
    assert len(lines) == 2
    assert lines[0].endswith(".venv/bin/stockroom demo")
    assert lines[1].endswith(".venv/bin/python -m pytest -n auto")


def test_the_first_week_is_two_nights_long() -> None:
    days = [day for day, _ in first_week()]
    assert days == sorted(days)
    assert (days[0], days[-1]) == (BEGINNING, BEGINNING + timedelta(days=2))


def test_the_first_week_packs_the_whole_lot(week: dict[str, list[str]]) -> None:
    assert "Closed run 1 into lot 26329A" in one(week, "stockroom run close")
    # 152 g off the tray: 62, 62 and the rest.
    weights = re.findall(r"(\d+\.\d) g +\d+\.\d g", one(week, "stockroom pack"))
    assert weights == ["62.0", "62.0", "28.0"]


def test_the_first_week_squeezes_and_cooks_what_was_packed(week: dict[str, list[str]]) -> None:
    squeezed = one(week, "stockroom round")
    assert "Settle checks due (3)" in squeezed
    checked = one(week, "stockroom check")
    assert "26329A01" in squeezed and "26329A01" in checked and "crisp, now sound" in checked
    what_if = one(week, "stockroom whatif")
    assert "left as it is" in what_if and "repacked: jar 475 mL" in what_if and "years" in what_if
    assert "Cooked Apple sauce for 4" in one(week, "stockroom cook")
    assert one(week, "stockroom undo").startswith("Undid: cooked Apple sauce for 4")
