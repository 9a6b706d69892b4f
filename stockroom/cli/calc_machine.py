"""calc leak: how fast the closed chamber takes in gas."""

from __future__ import annotations

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, working


@click.command("leak", cls=Command)
@click.option("--volume-l", required=True, metavar="V", help="Volume of the chamber, in litres.")
@click.option(
    "--from-mbar", required=True, metavar="P",
    help="First pressure, in mbar; 300 mTorr, 300 micron or 30 Pa are taken too.",
)  # fmt: skip
@click.option("--to-mbar", required=True, metavar="P", help="Last pressure.")
@click.option("--seconds", required=True, metavar="S", help="Seconds between the two.")
@click.option("--between-mbar", metavar="P", help="A pressure read in between.")
@click.option(
    "--between-seconds", metavar="S", help="Seconds from the first reading to that one; half the"
    " time when left out.",
)  # fmt: skip
@click.option(
    "--dry-empty/--not-dry",
    default=None,
    help="Whether the chamber was clean, dry and empty. Without it there is no verdict.",
)
@working
@json_form
def leak(
    volume_l: str,
    from_mbar: str,
    to_mbar: str,
    seconds: str,
    between_mbar: str | None,
    between_seconds: str | None,
    dry_empty: bool | None,
    working: bool,
    form: str | None,
) -> None:
    """Leak rate from a pressure-rise test, against 0.02 mbar L/s.

    Pump the chamber down, shut the pump off, read the pressure, wait, read it again. The limit
    holds for a clean, dry and empty chamber: the verdict is within or over when that is said, and
    none when it is not. A reading in between tells air (straight) from moisture (levels off).

    \b
    stockroom calc leak --volume-l 40 --from-mbar 0.30 --to-mbar 0.60 --seconds 600 --dry-empty
    """
    from stockroom.cli.exact import LONGEST_TEST_S, read_between, read_number
    from stockroom.domain.leak import PressureRise
    from stockroom.domain.leak import leak as judge
    from stockroom.domain.leak_working import leak_working
    from stockroom.domain.pressures import read_litres, read_pressure
    from stockroom.reports.calculations_machine import leak_result
    from stockroom.reports.workings import with_working

    rise = PressureRise(
        volume_l=read_litres(volume_l),
        from_mbar=read_pressure(from_mbar, "first pressure"),
        to_mbar=read_pressure(to_mbar, "last pressure"),
        seconds=read_number(seconds, "seconds", most=LONGEST_TEST_S),
        dry_empty=dry_empty,
        between=read_between(between_mbar, between_seconds, seconds, option="--between-mbar"),
    )
    report = leak_result(judge(rise))
    output.show(with_working(report, leak_working(rise)) if working else report, form)
