"""The pages in docs/ say what the program says."""

from __future__ import annotations

import re
import shlex

from stockroom.cli.app import EXAMPLES as HELP_EXAMPLES
from stockroom.cli.base import ANYWHERE
from tests.cli import commands_page, errors_page
from tests.cli.tree import commands, own_options


def test_the_page_of_commands_is_up_to_date() -> None:
    # Written anew by: python -m tests.cli.commands_page
    assert commands_page.PAGE.read_text(encoding="utf-8") == commands_page.page()


def test_the_page_of_errors_is_up_to_date() -> None:
    # Written anew by: python -m tests.cli.errors_page
    assert errors_page.PAGE.read_text(encoding="utf-8") == errors_page.page()


def test_every_command_is_in_the_page_and_every_heading_is_a_command() -> None:
    page = commands_page.PAGE.read_text(encoding="utf-8")
    headings = re.findall(r"^### `stockroom ([a-z -]+?)(?: [A-Z{\[].*)?`$", page, re.MULTILINE)
    assert headings == [" ".join(words) for words, _ in commands()]


def test_every_option_is_in_its_section_and_every_option_there_is_one() -> None:
    page = commands_page.PAGE.read_text(encoding="utf-8")
    sections = re.split(r"^### `stockroom ", page, flags=re.MULTILINE)[1:]
    for section, (words, command) in zip(sections, commands(), strict=True):
        listed = re.findall(r"^\| `(--[a-z0-9-]+)", section, re.MULTILINE)
        assert listed == [one.opts[0] for one in own_options(command)], words


def test_the_options_that_go_anywhere_are_in_the_page() -> None:
    introduction = commands_page.PAGE.read_text(encoding="utf-8").split("\n## ")[0]
    listed = re.findall(r"^\| `(--[a-z-]+)", introduction, re.MULTILINE)
    assert listed == [one.opts[0] for one in ANYWHERE]


def test_every_example_begins_with_a_command() -> None:
    names = {" ".join(words) for words, _ in commands()}
    lines = [line for _, line in commands_page.story()]
    lines += [line for line, _ in HELP_EXAMPLES]
    for line in lines:
        words = shlex.split(line)
        assert words[0] == "stockroom"
        assert " ".join(words[1:3]) in names or words[1] in names, line


def test_every_command_has_an_example() -> None:
    assert set(commands_page.EXAMPLES) == {" ".join(words) for words, _ in commands()}


def test_every_error_has_a_message_a_next_step_and_its_own_words() -> None:
    errors = [errors_page.example(kind) for kind in errors_page.error_classes()]
    assert len(errors) > 40
    for error in errors:
        assert error.message.strip() and error.hint.strip(), type(error)
        assert "\n" not in error.message + error.hint, type(error)
        assert error.exit_code in (2, 3), type(error)
        assert str(error) == error.message
        assert type(error).__name__ not in error.message + error.hint
    assert len({error.message for error in errors}) == len(errors)
