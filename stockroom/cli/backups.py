"""Backups of the store, and putting one back."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import asking, diagnostics, output
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, number
from stockroom.cli.session import Wishes, reachable

if TYPE_CHECKING:
    from stockroom.services.backups import Prepared


@click.command("backup", cls=Command)
@click.option(
    "--out", metavar="FILE", help="Write it to this file or folder; no older backup gives way then."
)
@click.option(
    "--keep",
    type=number(),
    metavar="N",
    help="How many backups stay in the folder beside the store; 10 when it is left out.",
)
@json_form
@click.pass_obj
def backup(wishes: Wishes, out: str | None, keep: int | None, form: str | None) -> None:
    """Back up the store, also while it is in use.

    The copy goes to the folder “backups” beside the store, with the instant (UTC) in its name; the
    oldest give way. It is opened and checked before it counts as made. Keep one on another disk
    too: with --out.

    \b
    stockroom backup
    stockroom backup --out /media/stick
    """
    from stockroom.reports.backups import backup_report
    from stockroom.services.backups import KEEP, back_up

    if out is not None and keep is not None:
        raise click.UsageError("Say --out or --keep, not both.", click.get_current_context())
    path = wishes.path
    with reachable(path):
        made = back_up(path, now=wishes.clock.now(), out=out, keep=KEEP if keep is None else keep)
    output.show(backup_report(made), form)


@click.command("restore", cls=Command)
@click.argument("file", metavar="FILE")
@click.option("--yes", is_flag=True, help="Do it without asking.")
@json_form
@click.pass_obj
def restore(wishes: Wishes, file: str, yes: bool, form: str | None) -> int:
    """Put a backup in the store's place.

    FILE is checked first, and brought to today's schema if it is older; it stays as it is. What
    changes is shown, and nothing happens without a yes. The store that was there is kept beside
    itself under a dated name. Leave every other program on the store first: one that is writing
    or has looked into the store is noticed and stops the restore, one that has only just opened
    it cannot be.

    \b
    stockroom restore backups/stockroom-2026-11-25T063000Z.db
    """
    from stockroom.reports.backups import preview_report, restored_report
    from stockroom.services.backups import prepared_restore
    from stockroom.services.backups import restore as put_back

    path = wishes.path
    with reachable(path), prepared_restore(path, file) as ready:
        if not yes and not _wanted(ready):
            diagnostics.tell("Nothing was changed.")
            return 1
        done = put_back(ready, now=wishes.clock.now())
    if yes and form is None:
        output.show(preview_report(ready.preview))
        output.write("\n")
    output.show(restored_report(done), form)
    return 0


def _wanted(ready: Prepared) -> bool:
    """Show what would change and ask. Raises AnswerMissing without a terminal."""
    from stockroom.errors import BadInput
    from stockroom.reports.backups import preview_report

    def read(typed: str) -> bool:
        word = typed.strip().casefold()
        if word not in ("yes", "y", "no", "n"):
            raise BadInput("answer", typed, "yes or no")
        return word in ("yes", "y")

    there = ready.preview.present is not None or ready.preview.trouble
    question = "Put this copy in the store's place" if there else "Put this copy there"
    if asking.on_a_terminal():
        diagnostics.page(preview_report(ready.preview))
    return asking.ask(question, "no", "--yes", read)
