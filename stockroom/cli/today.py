"""The Round: what wants doing today."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import list_form, number
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from stockroom.domain.evidence_records import ExtraDrying


@click.command("round", cls=Command)
@click.option(
    "--use-first",
    type=number(0, 1000),
    default=12,
    show_default=True,
    metavar="N",
    help="How many packages to name for using first.",
)
@list_form
@click.pass_obj
def round_(wishes: Wishes, use_first: int, form: str | None) -> None:
    """Show what wants doing today.

    Packages in doubt, the end of extra hours, settle checks and rechecks due, what waits for the
    machine, open packages, what to use first, lots to pack and open runs, each with the command
    that records it.
    """
    from dataclasses import replace

    from stockroom.reports.round_today import round_report
    from stockroom.services.today import round_for_today

    with wishes.room() as room:
        page = round_for_today(room, use_first=use_first)
        page = replace(page, reminders=tuple(map(by_this_clock, page.reminders)))
        output.show(round_report(page), form, room.units)


def by_this_clock(extra: ExtraDrying) -> ExtraDrying:
    """Extra hours with their end in the time zone of the machine."""
    from dataclasses import replace

    return replace(extra, due_at=extra.due_at.astimezone())
