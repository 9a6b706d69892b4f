"""Help a stranger can read."""

from __future__ import annotations

import pytest

from stockroom import __version__
from stockroom.cli.app import SECTIONS
from stockroom.cli.base import ANYWHERE
from tests.cli.conftest import Cli
from tests.cli.tree import commands, groups, own_options

EVERY = [words for words, _ in commands()] + [words for words, _ in groups()]


def test_the_first_page_says_what_it_is_for_and_names_every_command(nowhere: Cli) -> None:
    page = nowhere("--help").out
    assert "The record of a household that freeze-dries its own food." in page
    assert "Follow local codes and" in page
    for section in SECTIONS:
        assert f"\n{section.title}:\n" in page
        for name in section.names:
            assert f"\n  {name} " in page
    assert [section.title for section in SECTIONS[1:]] == [
        "Bench",
        "Shelves",
        "Rechecks",
        "Kitchen",
        "Horizon",
        "Machine",
        "Record",
        "Calculations",
    ]
    assert "\nExamples:\n" in page


@pytest.mark.parametrize("words", EVERY, ids=" ".join)
def test_every_command_has_help(nowhere: Cli, words: tuple[str, ...]) -> None:
    for ask in ("--help", "-h"):
        answer = nowhere(*words, ask)
        assert answer.out.startswith(" ".join(["Usage: stockroom", *words]))
        assert answer.err == ""
    for option in ANYWHERE:
        assert option.opts[0] in answer.out


@pytest.mark.parametrize("words", [words for words, _ in commands()], ids=" ".join)
def test_every_help_text_says_something(words: tuple[str, ...]) -> None:
    found = dict(commands())[words]
    assert found.help and found.help.split("\n")[0].rstrip().endswith((".", ":"))
    assert len(found.get_short_help_str(200)) > 10
    for option in own_options(found):
        assert option.help and option.help[0].isupper() and option.help.endswith("."), option.name


def test_help_is_no_wider_than_a_terminal(nowhere: Cli) -> None:
    for words in EVERY:
        for line in nowhere(*words, "--help").lines:
            assert len(line) <= 80 or "stockroom " in line or "|" in line, line


def test_a_group_alone_shows_its_help_as_wrong_use(nowhere: Cli) -> None:
    for words, _ in groups():
        if words:
            answer = nowhere(*words, code=2)
            assert answer.out == ""
            assert answer.err.startswith(f"Usage: stockroom {words[0]}")


def test_the_version_goes_anywhere(nowhere: Cli) -> None:
    for words in (
        ("--version",),
        ("find", "--version"),
        ("run", "--version"),
        ("calc", "code", "--version"),
    ):
        assert nowhere(*words).out == f"stockroom {__version__}\n"
