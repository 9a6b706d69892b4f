"""The record: the journal, undo and redo."""

from __future__ import annotations

import click

from stockroom.cli import output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, list_form, number
from stockroom.cli.run import say_if_cut
from stockroom.cli.session import Wishes


@click.command("undo", cls=Command)
@json_form
@click.pass_obj
def undo(wishes: Wishes, form: str | None) -> None:
    """Take back the latest action; the journal keeps both."""
    from stockroom.services import history

    with wishes.room() as room:
        finish(history.undo(room), form)


@click.command("redo", cls=Command)
@json_form
@click.pass_obj
def redo(wishes: Wishes, form: str | None) -> None:
    """Do again what was undone last, unless something new was done since."""
    from stockroom.services import history

    with wishes.room() as room:
        finish(history.redo(room), form)


@click.command("journal", cls=Command)
@click.option(
    "--count", type=number(), default=50, show_default=True, metavar="N", help="How many at most."
)
@click.option("--before", type=number(), metavar="ENTRY", help="Only what came before this entry.")
@list_form
@click.pass_obj
def journal(wishes: Wishes, count: int, before: int | None, form: str | None) -> None:
    """List what was done, by whom, the latest first."""
    from stockroom.reports.record import journal_list
    from stockroom.services.history import journal_page

    with wishes.room() as room:
        found = journal_page(room, count=count + 1, before_id=before)
        output.show(journal_list(found[:count]), form, room.units)
        say_if_cut(len(found) > count, count)
