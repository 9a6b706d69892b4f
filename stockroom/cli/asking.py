"""Questions on a terminal."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import TypeVar

import click

from stockroom.cli import diagnostics
from stockroom.cli.errors import AnswerMissing
from stockroom.errors import BadInput

Answer = TypeVar("Answer")


def on_a_terminal() -> bool:
    """Whether a person can be asked and shown something."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stderr))


def screens_possible() -> bool:
    """Whether the screens can be opened here."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def ask(question: str, default: str, option: str, read: Callable[[str], Answer]) -> Answer:
    """Ask until the answer can be read. `option` answers it where there is no terminal.

    Raises AnswerMissing without a terminal.
    """
    if not on_a_terminal():
        raise AnswerMissing(question, option)
    while True:
        try:
            return read(str(click.prompt(question, default=default, err=True)))
        except BadInput as error:
            diagnostics.trouble(error)
        except UnicodeDecodeError:
            diagnostics.trouble(BadInput("answer", "…", "it again in a terminal set to UTF-8"))
