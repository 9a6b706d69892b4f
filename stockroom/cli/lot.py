"""Lots and packing: from dry food to packages."""

from __future__ import annotations

import click

from stockroom.cli import output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command, Group
from stockroom.cli.options import json_form, list_form, number
from stockroom.cli.run import read_on, say_if_cut
from stockroom.cli.session import Wishes
from stockroom.cli.shelves import show_packages


@click.group("lot", cls=Group)
def lot() -> None:
    """Lots: what each run made of each food, and what is left to pack."""


@lot.command("show")
@click.argument("code", metavar="LOT")
@json_form
@click.pass_obj
def show(wishes: Wishes, code: str, form: str | None) -> None:
    """Show a lot: its weights, trays, packages and losses."""
    from stockroom.reports.lots import lot_report
    from stockroom.services.packing import lot_detail

    with wishes.room() as room:
        units = room.units
        output.show(lot_report(lot_detail(room, code), units), form, units)


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


@click.command("pack", cls=Command)
@click.argument("code", metavar="LOT")
@click.option(
    "--into",
    "splits",
    multiple=True,
    required=True,
    metavar="NxCONTAINER[:GRAMS][,absorber=CC][,vacuum]",
    help="So many of a container, with grams in each (or rest); may be said several times.",
)
@click.option("--place", metavar="PLACE", help="Where the packages are put.")
@click.option("--on", "day", metavar="DAY", help="The day they were sealed, when not today.")
@click.option(
    "--loss",
    "losses",
    multiple=True,
    metavar="WEIGHT:REASON",
    help="Dry food that goes into no package, such as 12:tasted; taken off before sharing out.",
)
@click.option("--note", default="", metavar="TEXT", help="A note to keep with each package.")
@json_form
@click.pass_obj
def pack(
    wishes: Wishes,
    code: str,
    splits: tuple[str, ...],
    place: str | None,
    day: str | None,
    losses: tuple[str, ...],
    note: str,
    form: str | None,
) -> None:
    """Pack a lot, or a part of it.

    Grams and water of all packages and losses add up to the lot. Without grams, or with the word
    rest, what is left is shared out evenly. The containers are listed by stockroom container list.

    \b
    stockroom pack 26329A --into 6xpouch-1500-foil:62,absorber=300
    stockroom pack 26329A --into 2xjar-950:150,absorber=100 --into 1xjar-475:rest
    """
    from stockroom.cli.reading import read_loss
    from stockroom.domain.packing import read_split
    from stockroom.services.packing import pack_lot

    with wishes.room() as room:
        done = pack_lot(
            room,
            code,
            [read_split(split) for split in splits],
            losses=[read_loss(loss, room.units) for loss in losses],
            place=place,
            sealed_on=read_on(room, day),
            note=note,
        )
        finish(done, form)
        if form is None:
            show_packages(room, done.codes)
