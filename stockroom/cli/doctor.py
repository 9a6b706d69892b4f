"""Looking through the store for what is wrong, and putting right what can be computed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import Choices, json_form
from stockroom.cli.session import Wishes, reachable

if TYPE_CHECKING:
    from collections.abc import Iterable

FOUND = 1
"""The exit code when something was found."""


def _severities() -> Iterable[str]:
    from stockroom.domain.findings import Severity

    return tuple(Severity)


@click.command("doctor", cls=Command)
@click.option("--mend", is_flag=True, help="Put right what can be computed, after a backup.")
@click.option(
    "--severity",
    type=Choices(_severities),
    default="note",
    show_default=True,
    help="The exit code is 1 when something as grave as this, or graver, is found.",
)
@json_form
@click.pass_obj
def doctor(wishes: Wishes, mend: bool, severity: str, form: str | None) -> int:
    """Look through the store for anything wrong, and say what to do about it.

    The file, the sums of lots and packages, conditions and days, places, the journal, settings,
    best-by dates and rechecks. With --mend a backup is made, then views, triggers, the note index,
    best-by dates and rechecks are made anew; nothing that was recorded is changed, and what is
    left for you is listed. Also says what is wrong with a store that does not open.
    """
    from stockroom.domain.findings import Severity
    from stockroom.reports.doctor import examination_report, mending_report
    from stockroom.services.doctor import examine
    from stockroom.services.doctor import mend as put_right

    path = wishes.path
    with reachable(path):
        if mend:
            done = put_right(path, clock=wishes.clock)
            report, found = mending_report(done), done.left
        else:
            found = examine(path, clock=wishes.clock)
            report = examination_report(found)
    output.show(report, form)
    return FOUND if found.at_least(Severity(severity)) else 0
