"""Food that is dried again: held packages, the queue for the machine, packing it anew."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.acting import finish, finish_all
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, list_form
from stockroom.cli.session import Wishes
from stockroom.cli.splits import read_splits, split_options

if TYPE_CHECKING:
    from stockroom.services.results import Done

_codes = click.argument("codes", nargs=-1, required=True, metavar="CODE...")


@click.command("hold", cls=Command)
@_codes
@click.option("--place", metavar="PLACE", help="Where they wait, usually a freezer.")
@click.option("--why", default="", metavar="TEXT", help="The reason, in a few words.")
@json_form
@click.pass_obj
def hold(
    wishes: Wishes, codes: tuple[str, ...], place: str | None, why: str, form: str | None
) -> None:
    """Hold suspect sisters of a soft package for drying again; each takes its turn in the queue.

    What was itself found at fault is held by a decision: stockroom decide. Unpacked food of a lot
    is held with stockroom lot hold.
    """
    from stockroom.services.deciding import hold_package
    from stockroom.services.shelves import package_detail

    with wishes.room() as room:
        packages = [package_detail(room, code).package for code in codes]
        done: list[Done] = []
        try:
            for code in dict.fromkeys(package.code for package in packages):
                done.append(hold_package(room, code, place=place, why=why))
        finally:
            # What was held before one was refused is said all the same.
            finish_all(done, form)


@click.command("queue", cls=Command)
@list_form
@click.pass_obj
def queue(wishes: Wishes, form: str | None) -> None:
    """List what waits for the machine, first come first served, with what to do next."""
    from stockroom.reports.redrying import queue_list
    from stockroom.services.redrying import machine_queue

    with wishes.room() as room:
        output.show(queue_list(machine_queue(room)), form, room.units)


@click.command("repack", cls=Command)
@_codes
@split_options
@json_form
@click.pass_obj
def repack(
    wishes: Wishes,
    codes: tuple[str, ...],
    splits: tuple[str, ...],
    place: str | None,
    despite: str,
    packet: str | None,
    box: str | None,
    tray: int | None,
    note: str,
    form: str | None,
) -> None:
    """Pack the food of packages anew: dried again, or still crisp when the seal went.

    Packages dried on one tray go together: naming one of them takes all. What was spent of the
    food's quality stays spent.

    \b
    stockroom repack 26329A01 --into 1xpouch-950-foil,absorber=200
    """
    from stockroom.cli.shelves import show_packages
    from stockroom.services.repacking import repack_packages

    with wishes.room() as room:
        done = repack_packages(
            room,
            codes,
            read_splits(splits, packet, box, tray),
            place=place,
            note=note,
            despite=despite,
        )
        finish(done, form)
        if form is None:
            show_packages(room, done.codes)
