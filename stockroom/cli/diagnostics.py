"""Standard error: everything said to the person that is not the answer itself.

One line for what stands in the way and one for the next step; text that people typed is cleaned
of control characters and shortened first.
"""

from __future__ import annotations

import contextlib
import shutil
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from stockroom.errors import StockroomError

if TYPE_CHECKING:
    from stockroom.domain.caution_table import Caution
    from stockroom.reports.values import Report

_LONGEST = 600


def tell(text: str, *, hanging: str = "") -> None:
    """Say one sentence on standard error, after everything written so far.

    On a terminal it is wrapped between words, with `hanging` before the lines that follow.
    """
    from stockroom.reports.plain import clean, wrap

    on_terminal = sys.stderr is not None and sys.stderr.isatty()
    width = shutil.get_terminal_size().columns if on_terminal else None
    with contextlib.suppress(OSError, ValueError):
        if sys.stdout is not None:
            sys.stdout.flush()
    # Nobody listening on standard error is no reason to fail.
    with contextlib.suppress(OSError):
        click.echo("\n".join(wrap(clean(text), width, rest=hanging)), err=True)


def trouble(error: StockroomError) -> None:
    """Say what stands in the way and what to do next."""
    tell(_shortened(error.message))
    if error.hint:
        tell(_shortened(error.hint))


def _shortened(text: str) -> str:
    """A sentence that may quote what a person typed, kept to a readable length."""
    return text if len(text) <= _LONGEST else text[:_LONGEST].rstrip() + "…"


def wrong_use(error: click.ClickException) -> None:
    """Say what was wrong with a command line and where to read how it goes."""
    if isinstance(error, click.exceptions.NoArgsIsHelpError):
        help_page(error.format_message())
        return
    said = _shortened(" ".join(error.format_message().split()))
    tell(said if said.endswith((".", "?", "…")) else f"{said}.")
    context = getattr(error, "ctx", None)
    if isinstance(context, click.Context):
        tell(f"Type `{context.command_path} --help` to see how it goes.")


def help_page(text: str) -> None:
    """Show a page of help to somebody who left out what to do."""
    with contextlib.suppress(OSError):
        click.echo(text, err=True)


def page(report: Report) -> None:
    """Show a report that a question goes with, as text in the width of the terminal."""
    from stockroom.domain.quantities import UnitSystem
    from stockroom.reports.as_text import as_text

    text = as_text(report, UnitSystem.METRIC, shutil.get_terminal_size().columns)
    with contextlib.suppress(OSError):
        click.echo(text, err=True)


def defect(log: Path | None) -> None:
    """Own up to a fault of the program itself."""
    where = f"the details are in {log}" if log else "the details could not be written to a log"
    tell(f"This is a fault of stockroom's own, not yours: {where}.")


def bear_in_mind(cautions: Iterable[Caution]) -> None:
    """Say the cautions that go with what was just done, each once.

    The line that defers to local codes closes the others; alone it would be heard no more.
    """
    from stockroom.reports.parts import caution_lines

    lines = caution_lines(cautions)
    for line in lines if len(lines) > 1 else ():
        tell(f"- {line}", hanging="  ")
