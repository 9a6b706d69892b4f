"""The machine: checks due and done, leak tests, how often, and where to look for a lost vacuum."""

from __future__ import annotations

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command, Group
from stockroom.cli.options import json_form, list_form
from stockroom.cli.session import Wishes

_check = click.argument("check", metavar="CHECK")
_day = click.option("--on", "on_day", metavar="DAY", help="The day it was done; today if left out.")
_note = click.option("--note", default="", metavar="TEXT", help="Anything to remember.")


@click.group("upkeep", cls=Group)
def upkeep() -> None:
    """The machine: what is due, what was done, leak tests."""


@upkeep.command("list", cls=Command)
@list_form
@click.pass_obj
def list_(wishes: Wishes, form: str | None) -> None:
    """List every check, what is at fault or due first, and the latest leak tests."""
    from stockroom.reports.upkeep import upkeep_report
    from stockroom.services.upkeep import upkeep_page

    with wishes.room() as room:
        output.show(upkeep_report(upkeep_page(room)), form)


@upkeep.command("show", cls=Command)
@_check
@json_form
@click.pass_obj
def show(wishes: Wishes, check: str, form: str | None) -> None:
    """Show one check: what to look at, why it is due, when it was done."""
    from stockroom.reports.upkeep import check_report
    from stockroom.services.upkeep import check_page

    with wishes.room() as room:
        output.show(check_report(check_page(room, check)), form)


@upkeep.command("done", cls=Command)
@_check
@click.option("--failed", is_flag=True, help="It was found at fault: due until it passes.")
@_note
@_day
@json_form
@click.pass_obj
def done(
    wishes: Wishes, check: str, failed: bool, note: str, on_day: str | None, form: str | None
) -> None:
    """Record that a check was done, in order or at fault.

    \b
    stockroom upkeep done gasket
    stockroom upkeep done hose --failed --note "crack at the pump end"
    """
    from stockroom.domain.quantities import read_day
    from stockroom.services.upkeep import record_check

    with wishes.room() as room:
        day = None if on_day is None else read_day(on_day, room.today, "day")
        finish(record_check(room, check, passed=not failed, note=note, on_day=day), form)


@upkeep.command("reading", cls=Command)
@click.option(
    "--from", "from_pressure", required=True, metavar="P",
    help="First pressure: 0.3 mbar (also without the unit), 300 mTorr, 300 micron or 30 Pa.",
)  # fmt: skip
@click.option("--to", "to_pressure", required=True, metavar="P", help="Last pressure.")
@click.option("--seconds", required=True, metavar="S", help="Seconds between the two.")
@click.option(
    "--volume-l", metavar="V", help="Volume of the chamber in litres; the last one said when left"
    " out.",
)  # fmt: skip
@click.option("--between", metavar="P", help="A pressure read in between.")
@click.option(
    "--between-seconds", metavar="S", help="Seconds from the first reading to that one; half the"
    " time when left out.",
)  # fmt: skip
@click.option(
    "--dry-empty/--not-dry",
    default=False,
    help="Whether the chamber was clean, dry and empty. Only then there is a verdict.",
)
@_note
@_day
@json_form
@click.pass_obj
def reading(
    wishes: Wishes,
    from_pressure: str,
    to_pressure: str,
    seconds: str,
    volume_l: str | None,
    between: str | None,
    between_seconds: str | None,
    dry_empty: bool,
    note: str,
    on_day: str | None,
    form: str | None,
) -> None:
    """Record a pressure-rise test of the closed chamber.

    Pump down, shut the pump off, read the pressure, wait, read it again. With a verdict it counts
    as the leak test: done, or at fault.

    \b
    stockroom upkeep reading --volume-l 40 --from 0.30 --to 0.50 --seconds 600 --dry-empty
    """
    from stockroom.cli.exact import read_between, read_number
    from stockroom.domain.pressures import read_litres, read_pressure
    from stockroom.domain.quantities import read_day
    from stockroom.services.leak_tests import (
        LONGEST_TEST_S,
        Readings,
        leak_of,
        record_leak_test,
    )

    read = Readings(
        read_pressure(from_pressure, "first pressure"),
        read_pressure(to_pressure, "last pressure"),
        read_number(seconds, "seconds", most=LONGEST_TEST_S),
        dry_empty,
        None if volume_l is None else read_litres(volume_l),
        read_between(between, between_seconds, seconds, option="--between"),
    )
    with wishes.room() as room:
        day = None if on_day is None else read_day(on_day, room.today, "day")
        found = leak_of(room, read)
        finish(record_leak_test(room, read, note=note, on_day=day), form)
        if form is None:
            diagnostics.tell(found.sentence)


@upkeep.command("interval", cls=Command)
@_check
@click.argument("often", metavar="OFTEN")
@json_form
@click.pass_obj
def interval(wishes: Wishes, check: str, often: str, form: str | None) -> None:
    """Set how often a check is wanted on this machine.

    OFTEN is days (30), hours of running (40 h), off for a part this machine does not have, or
    usual for the table's own interval again.

    \b
    stockroom upkeep interval oil_change 40h
    stockroom upkeep interval oil off
    """
    from stockroom.domain.upkeep_intervals import read_interval
    from stockroom.services.upkeep import set_interval

    wanted = read_interval(often)
    with wishes.room() as room:
        finish(set_interval(room, check, wanted), form)


@upkeep.command("faults", cls=Command)
@json_form
def faults(form: str | None) -> None:
    """Say where to look when the vacuum is not reached, step by step. Opens no store."""
    from stockroom.reports.upkeep import fault_report

    output.show(fault_report(), form)
