"""A temperature logger's file: read from the disk, and the options that say how it is laid out."""

from __future__ import annotations

import functools
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.errors import FileNotText, FileTooLarge, FileUnreadable
from stockroom.cli.session import readable_path

if TYPE_CHECKING:
    from stockroom.domain.logger_table import LoggerTable

MOST_BYTES = 64 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class LoggerColumns:
    """What was said about a file; None where it is to be found out."""

    time_column: str | None = None
    heat_column: str | None = None
    fahrenheit: bool | None = None

    def read(self, text: str) -> LoggerTable:
        """The readings of a file. Raises BadInput."""
        from stockroom.domain.logger_table import read_logger

        return read_logger(
            text,
            time_column=self.time_column,
            heat_column=self.heat_column,
            fahrenheit=self.fahrenheit,
        )


def logger_columns(function: Callable[..., Any]) -> Callable[..., Any]:
    """The options of a logger's file. The command takes `columns`."""

    @functools.wraps(function)
    def command(
        *words: Any,
        time_column: str | None,
        temperature_column: str | None,
        fahrenheit: bool | None,
        **more: Any,
    ) -> Any:
        columns = LoggerColumns(time_column, temperature_column, fahrenheit)
        return function(*words, columns=columns, **more)

    options = (
        click.option("--time-column", metavar="COLUMN", help="Heading or number of the time."),
        click.option(
            "--temperature-column", metavar="COLUMN", help="Heading or number of the degrees."
        ),
        click.option(
            "--fahrenheit/--celsius",
            default=None,
            help="Scale of the file; else as its heading says.",
        ),
    )
    for option in reversed(options):
        command = option(command)
    return command


def read_text(typed: str) -> str:
    """A file's text, in UTF-8, UTF-16 or else Latin letters as old programs write them.

    Raises BadInput, FileUnreadable, FileTooLarge and FileNotText.
    """
    path = readable_path(typed, "file")
    held = _bytes(path)
    if held.startswith((b"\xff\xfe", b"\xfe\xff")):
        encodings: tuple[str, ...] = ("utf-16",)
    else:
        encodings = ("utf-8-sig", "cp1252")
    for encoding in encodings:
        try:
            text = held.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text
    raise FileNotText(str(path))


def _bytes(path: Path) -> bytes:
    """What a file holds, up to a size no logger's file has."""
    try:
        with path.open("rb") as file:
            held = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise FileUnreadable(str(path), getattr(error, "strerror", None) or str(error)) from error
    if len(held) > MOST_BYTES:
        raise FileTooLarge(str(path), MOST_BYTES // (1024 * 1024))
    return held
