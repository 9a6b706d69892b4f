"""The pages for people, and the commands that stand in them."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import click

from stockroom.cli.app import stockroom
from stockroom.cli.session import Wishes

ROOT = Path(__file__).resolve().parents[2]
GUIDE = ROOT / "docs" / "guide.md"
README = ROOT / "README.md"
PAGES = (README, ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").glob("*.md")))

_FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_INLINE = re.compile(r"`(stockroom(?: [^`]*)?)`")
_BETWEEN = ("&&", "||", "|", ";")


@dataclass(frozen=True, slots=True)
class Block:
    """A fenced block: its language, its text and the line of the page it begins on."""

    language: str
    text: str
    line: int


def blocks(page: str) -> list[Block]:
    """Every fenced block of a page."""
    return [
        Block(found[1], found[2], page.count("\n", 0, found.start()) + 1)
        for found in _FENCE.finditer(page)
    ]


def prose(page: str) -> str:
    """The page without its fenced blocks."""
    return _FENCE.sub("", page)


def command_lines(block: Block) -> Iterator[str]:
    """The lines a person types: all of an sh block, those after `$ ` of a console block."""
    text = block.text.replace("\\\n", " ")
    for line in text.splitlines():
        if block.language == "sh" and line.strip():
            yield line.strip()
        elif block.language == "console" and line.startswith("$ "):
            yield line[2:]


def stockroom_calls(line: str) -> Iterator[list[str]]:
    """The words after `stockroom` of each call of it in a line for a shell."""
    call: list[str] = []
    for word in [*shlex.split(line, comments=True), ";"]:
        if word in _BETWEEN:
            if call and Path(call[0]).name == "stockroom":
                yield call[1:]
            call = []
        else:
            call.append(word)


def inline_calls(page: str) -> Iterator[list[str]]:
    """The words after `stockroom` of every call between backquotes in the text."""
    for found in _INLINE.finditer(prose(page).replace("\n", " ")):
        yield shlex.split(found[1])[1:]


def walked(words: list[str]) -> tuple[click.Command, click.Context, list[str]]:
    """The command the words lead to, and what is left for it to read.

    Fails as the program does for a command or an option there is not.
    """
    command: click.Command = stockroom
    context = click.Context(command, info_name="stockroom", obj=Wishes())
    while isinstance(command, click.Group):
        parser = command.make_parser(context)
        _, rest, _ = parser.parse_args(list(words))
        if not rest:
            return command, context, []
        name, below, words = command.resolve_command(context, rest)
        assert below is not None and name is not None
        command = below
        context = click.Context(command, info_name=name, parent=context)
    return command, context, words


def check_names(words: list[str]) -> None:
    """Fail unless command and options exist; words in capitals may stand for values."""
    command, context, rest = walked(words)
    if not isinstance(command, click.Group):
        command.make_parser(context).parse_args(list(rest))


def check_whole(words: list[str]) -> None:
    """Fail unless the program could carry out the line: no argument missing, none too many."""
    command, context, rest = walked(words)
    if isinstance(command, click.Group):
        return
    try:
        command.make_context(context.info_name or "", list(rest), parent=context.parent)
    except click.exceptions.Exit:
        return  # --help and --version end here
