"""Looking ahead: what if a package stood elsewhere, what gains most, how to pack a lot."""

from __future__ import annotations

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, list_form, number
from stockroom.cli.session import Wishes


@click.command("whatif", cls=Command)
@click.argument("code", metavar="CODE")
@list_form
@click.pass_obj
def whatif(wishes: Wishes, code: str, form: str | None) -> None:
    """Show a package's best-by side by side with what could be done.

    Left as it is, moved to each other place, dried again and repacked with the absorber it needs,
    in a jar, in foil, under vacuum; what each would gain. A lot's code asks for all its packages.
    Quality estimates, not safety.
    """
    from stockroom.domain.codes import read_code
    from stockroom.reports.outlook import whatif_report
    from stockroom.services.whatif import what_if, what_if_lot

    with wishes.room() as room:
        of_lot = read_code(code).kind == "lot"
        pages = what_if_lot(room, code) if of_lot else (what_if(room, code),)
        output.show(whatif_report(pages), form, room.units)


@click.command("gains", cls=Command)
@click.option(
    "--most", type=number(1, 1000), default=20, show_default=True, metavar="N",
    help="How many pieces of advice at most.",
)  # fmt: skip
@list_form
@click.pass_obj
def gains(wishes: Wishes, most: int, form: str | None) -> None:
    """List the moves and repackings that gain the whole store the most.

    Ranked by servings times days gained, each with the command that does it. Quality estimates,
    not safety.
    """
    from stockroom.cli.freshness import Progress
    from stockroom.reports.outlook import gains_report
    from stockroom.services.whatif import gains as find_gains

    with wishes.room() as room:
        found = find_gains(room, most=most, progress=Progress("Weighing up what could be done"))
        output.show(gains_report(found), form, room.units)


@click.command("advise", cls=Command)
@click.argument("code", metavar="LOT")
@click.option("--place", metavar="PLACE", help="Where it will stand; else a place at 21 °C.")
@json_form
@click.pass_obj
def advise(wishes: Wishes, code: str, place: str | None, form: str | None) -> None:
    """Advise how to pack what is left of a lot.

    Container, how many, absorber, vacuum or not, with the reasons and the cautions, the best-by
    of each kind of package, and the line to type.
    """
    from stockroom.reports.outlook import advice_report
    from stockroom.services.advice import advise_lot

    with wishes.room() as room:
        found = advise_lot(room, code, place=place)
        output.show(advice_report(found, place or "", room.units), form, room.units)
