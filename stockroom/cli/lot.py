"""Lots and packing: from dry food to packages."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.acting import finish, show_workings
from stockroom.cli.base import Command, Group
from stockroom.cli.options import json_form, list_form, number, working
from stockroom.cli.run import read_on, say_if_cut
from stockroom.cli.session import Wishes
from stockroom.cli.shelves import show_packages
from stockroom.cli.splits import read_splits, split_options

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stockroom.domain.working import Working
    from stockroom.reports.values import Report
    from stockroom.services.session import Stockroom


@click.group("lot", cls=Group)
def lot() -> None:
    """Lots: what each run made of each food, and what is left to pack."""


@lot.command("show")
@click.argument("code", metavar="LOT")
@working
@json_form
@click.pass_obj
def show(wishes: Wishes, code: str, working: bool, form: str | None) -> None:
    """Show a lot: its weights, whether it is shown to be dry, its packages and losses.

    With --working how its water, its residual moisture, the best-by of its packages and the
    verdict on its dryness were reached.
    """
    with wishes.room() as room:
        output.show(shown_lot(room, code, working=working), form, room.units)


def shown_lot(room: Stockroom, code: str, *, working: bool) -> Report:
    """A lot's page, or how its figures were reached."""
    if working:
        from dataclasses import replace

        from stockroom.reports.workings import working_report
        from stockroom.services.dryness import dryness_of
        from stockroom.services.workings import lot_working

        page = lot_working(room, code)
        return working_report(
            replace(page, workings=(*page.workings, dryness_of(room, code).working))
        )
    from stockroom.reports.lots import lot_report
    from stockroom.services.packing import lot_detail

    return lot_report(lot_detail(room, code), room.units)


@lot.command("list")
@click.option("--to-pack", is_flag=True, help="Only lots with something left to pack.")
@click.option(
    "--count", type=number(), default=200, show_default=True, metavar="N", help="How many at most."
)
@list_form
@click.pass_obj
def list_lots(wishes: Wishes, to_pack: bool, count: int, form: str | None) -> None:
    """List the lots, the latest first."""
    from stockroom.reports.lots import lot_list
    from stockroom.services import packing

    with wishes.room() as room:
        found = packing.lots_to_pack(room) if to_pack else packing.list_lots(room, count=count + 1)
        output.show(lot_list(found[:count]), form, room.units)
        say_if_cut(len(found) > count, count)


@lot.command("loss")
@click.argument("code", metavar="LOT")
@click.argument("loss", metavar="WEIGHT:REASON")
@click.option("--note", default="", metavar="TEXT", help="A note to keep with it.")
@json_form
@click.pass_obj
def loss(wishes: Wishes, code: str, loss: str, note: str, form: str | None) -> None:
    """Record dry food of a lot that goes into no package.

    WEIGHT may be the word rest, for all that is left. REASON is tasted, spilt, discarded or
    unaccounted: stockroom lot loss 26329A 12:tasted
    """
    from stockroom.cli.reading import read_loss
    from stockroom.services.packing import record_loss

    with wishes.room() as room:
        dry_dg, reason = read_loss(loss, room.units)
        finish(record_loss(room, code, dry_dg, reason, note=note), form)


@lot.command("hold")
@click.argument("code", metavar="LOT")
@click.option("--why", default="", metavar="TEXT", help="The reason, in a few words.")
@json_form
@click.pass_obj
def hold(wishes: Wishes, code: str, why: str, form: str | None) -> None:
    """Put what is left unpacked of a lot in the queue, to be dried again.

    Nothing of it is packed meanwhile. Load it with stockroom run again TRAY LOT.
    """
    from stockroom.services.redrying import hold_lot

    with wishes.room() as room:
        finish(hold_lot(room, code, why=why), form)


@lot.command("release")
@click.argument("code", metavar="LOT")
@json_form
@click.pass_obj
def release(wishes: Wishes, code: str, form: str | None) -> None:
    """Take a lot's unpacked food out of the queue: it need not be dried again after all."""
    from stockroom.services.redrying import leave_queue

    with wishes.room() as room:
        finish(leave_queue(room, code), form)


@click.command("pack", cls=Command)
@click.argument("code", metavar="LOT")
@split_options
@click.option("--on", "day", metavar="DAY", help="The day they were sealed, when not today.")
@click.option(
    "--loss",
    "losses",
    multiple=True,
    metavar="WEIGHT:REASON",
    help="Dry food that goes into no package, such as 12:tasted; taken off before sharing out.",
)
@working
@json_form
@click.pass_obj
def pack(
    wishes: Wishes,
    code: str,
    splits: tuple[str, ...],
    place: str | None,
    despite: str,
    packet: str | None,
    box: str | None,
    tray: int | None,
    note: str,
    day: str | None,
    losses: tuple[str, ...],
    working: bool,
    form: str | None,
) -> None:
    """Pack a lot, or a part of it.

    Grams and water of all packages and losses add up to the lot. Without grams, or with the word
    rest, what is left is shared out evenly. The containers are listed by stockroom container list.

    With an absorber or under vacuum only when dryness is shown (stockroom lot show says whether),
    or with --despite and a reason.

    \b
    stockroom pack 26329A --into 6xpouch-1500-foil:62,absorber=300
    stockroom pack 26329A --into 2xjar-950:150,absorber=100 --into 1xjar-475:rest
    stockroom pack 26329A --into 4xpouch-950-foil,absorber=200 --packet "October" --box 7
    """
    from stockroom.cli.reading import read_loss
    from stockroom.services.packing import pack_lot

    with wishes.room() as room:
        done = pack_lot(
            room,
            code,
            read_splits(splits, packet, box, tray),
            losses=[read_loss(loss, room.units) for loss in losses],
            place=place,
            sealed_on=read_on(room, day),
            note=note,
            despite=despite,
        )
        derived = _made(room, code, done.codes) if working else ()
        finish(done, form, *derived)
        if form is None:
            show_packages(room, done.codes)
            show_workings(derived)


def _made(room: Stockroom, code: str, codes: Sequence[str]) -> tuple[Working, ...]:
    """How water and best-by of the packages just made were reached."""
    from stockroom.services.shelves import package_detail
    from stockroom.services.workings import made_working

    packages = [package_detail(room, one).package for one in codes]
    return made_working(room, code, packages).workings
