"""The Round: what wants doing today."""

from __future__ import annotations

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import list_form, number
from stockroom.cli.session import Wishes


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

    Settle checks due, suspect and held packages, open ones, what to use first, lots to pack and
    open runs, each with the command that records it.
    """
    from stockroom.reports.round_today import round_report
    from stockroom.services.today import round_for_today

    with wishes.room() as room:
        page = round_for_today(room, use_first=use_first)
        output.show(round_report(page), form, room.units)
