"""Standard output: the answer of a command, and nothing else.

A reader that stops early (`stockroom find | head`) ends the command in silence. Colour is never
used, so NO_COLOR and TERM=dumb have nothing to turn off.
"""

from __future__ import annotations

import contextlib
import io
import os
import shutil
import sys
from typing import TYPE_CHECKING

import click

from stockroom.cli.errors import OutputLost, PipeClosed

if TYPE_CHECKING:
    from stockroom.domain.quantities import UnitSystem
    from stockroom.reports.values import Report


def write(text: str) -> None:
    """Write text as it is. Raises PipeClosed or OutputLost."""
    _echo(text)


def write_bytes(content: bytes) -> None:
    """Write the bytes of a file as they are, whatever the terminal's encoding.

    Raises PipeClosed or OutputLost.
    """
    _echo(content)


def _echo(content: str | bytes) -> None:
    try:
        click.echo(content, nl=False)
    except BrokenPipeError:
        abandon()
        raise PipeClosed from None
    except OSError as error:
        abandon()
        raise OutputLost(error.strerror or str(error)) from error


def show(report: Report, form: str | None = None, units: UnitSystem | None = None) -> None:
    """Write a report as text, or as "json" or "csv". Text needs the household's units."""
    if form == "json":
        from stockroom.reports.as_json import as_json

        write(as_json(report, ascii_only=not _takes_every_sign()))
    elif form == "csv" and report.table is not None:
        from stockroom.reports.as_csv import as_csv

        write(as_csv(report.table))
    else:
        from stockroom.domain.quantities import UnitSystem
        from stockroom.reports.as_text import as_text

        write(as_text(report, units or UnitSystem.METRIC, page_width()))


def page_width() -> int | None:
    """Cells across: the terminal's, or COLUMNS where that is set; None for a pipe or a file."""
    on_terminal = sys.stdout is not None and sys.stdout.isatty()
    if not on_terminal and not os.environ.get("COLUMNS", "").isdigit():
        return None
    return shutil.get_terminal_size().columns


def abandon() -> None:
    """Send what is still held back for standard output nowhere, so that nothing complains."""
    with contextlib.suppress(OSError, ValueError, io.UnsupportedOperation):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)


def _takes_every_sign() -> bool:
    """Whether standard output is in an encoding that has every character."""
    encoding: str = getattr(sys.stdout, "encoding", None) or "utf-8"
    return encoding.lower().startswith("utf")
