"""Looking ahead: what if a package stood elsewhere, what gains most, how to pack a lot."""

from __future__ import annotations

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import (
    json_form,
    list_form,
    number,
    refuse_csv_working,
    working,
)
from stockroom.cli.session import Wishes


@click.command("whatif", cls=Command)
@click.argument("code", metavar="CODE")
@working
@list_form
@click.pass_obj
def whatif(wishes: Wishes, code: str, working: bool, form: str | None) -> None:
    """Show a package's best-by side by side with what could be done.

    Left as it is, moved to each other place, dried again and repacked with the absorber it needs,
    in a jar, in foil, under vacuum; what each would gain. A lot's code asks for all its packages.
    Quality estimates, not safety. With --working how each date was reached, as it is first.
    """
    from stockroom.domain.codes import read_code
    from stockroom.reports.outlook import whatif_report
    from stockroom.services.whatif import what_if, what_if_lot

    refuse_csv_working(form, working)
    with wishes.room() as room:
        of_lot = read_code(code).kind == "lot"
        pages = what_if_lot(room, code) if of_lot else (what_if(room, code),)
        report = whatif_report(pages)
        if working:
            from stockroom.reports.workings import with_working
            from stockroom.services.outlook_workings import what_if_working

            report = with_working(report, *what_if_working(room, pages))
        output.show(report, form, room.units)


@click.command("gains", cls=Command)
@click.option(
    "--most", type=number(1, 1000), default=20, show_default=True, metavar="N",
    help="How many pieces of advice at most.",
)  # fmt: skip
@working
@list_form
@click.pass_obj
def gains(wishes: Wishes, most: int, working: bool, form: str | None) -> None:
    """List the moves and repackings that gain the whole store the most.

    Ranked by servings times days gained, each with the command that does it. Quality estimates,
    not safety. With --working how each piece of advice was reached; --most 1 asks for the first.
    """
    from stockroom.cli.freshness import Progress
    from stockroom.reports.outlook import gains_report
    from stockroom.services.whatif import gains as find_gains

    refuse_csv_working(form, working)
    with wishes.room() as room:
        found = find_gains(room, most=most, progress=Progress("Weighing up what could be done"))
        report = gains_report(found)
        if working:
            from stockroom.reports.workings import with_working
            from stockroom.services.outlook_workings import gains_working

            report = with_working(report, *gains_working(room, found))
        output.show(report, form, room.units)


@click.command("advise", cls=Command)
@click.argument("code", metavar="LOT")
@click.option("--place", metavar="PLACE", help="Where it will stand; else a place at 21 °C.")
@working
@json_form
@click.pass_obj
def advise(wishes: Wishes, code: str, place: str | None, working: bool, form: str | None) -> None:
    """Advise how to pack what is left of a lot.

    Container, how many, absorber, vacuum or not, with the reasons and the cautions, the best-by
    of each kind of package, and the line to type. With --working how number, absorber and best-by
    of each way were reached, the advised one first.
    """
    from stockroom.reports.outlook import advice_report
    from stockroom.services.advice import advise_lot

    with wishes.room() as room:
        found = advise_lot(room, code, place=place)
        report = advice_report(found, place or "", room.units)
        if working:
            from stockroom.reports.workings import with_working
            from stockroom.services.outlook_workings import advice_workings

            report = with_working(report, *advice_workings(room, found))
        output.show(report, form, room.units)
