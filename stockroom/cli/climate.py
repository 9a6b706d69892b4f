"""How warm and damp a place is: a steady figure, months, a logger's readings, humidity."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command
from stockroom.cli.logger_file import LoggerColumns, logger_columns, read_text
from stockroom.cli.options import json_form, list_form
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from stockroom.services.results import Done
    from stockroom.services.session import Stockroom

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
"""Months as they are typed; longer names and numbers are read as well."""

_place = click.argument("place", metavar="PLACE")


@click.command("temperature", cls=Command)
@_place
@click.option("--steady", metavar="DEGREES", help="The same all year, such as 12, 12 C or 54 F.")
@click.option(
    "--month", "months", multiple=True, metavar="MONTH=DEGREES",
    help="One month, as jan=12; said several times, the others are drawn between them.",
)  # fmt: skip
@click.option("--clear", is_flag=True, help="Take its own away: it is as the place above it.")
@json_form
@click.pass_obj
def temperature(
    wishes: Wishes,
    place: str,
    steady: str | None,
    months: tuple[str, ...],
    clear: bool,
    form: str | None,
) -> None:
    """Say how warm a place is, day and night together.

    What is said takes the place of what was known of it, readings of a logger too. Best-by dates
    of everything in it follow at once.

    \b
    stockroom place temperature cellar --month jan=8 --month jul=17
    """
    if (steady is not None) + bool(months) + clear != 1:
        raise click.UsageError(
            "Say --steady, --month or --clear, one of them.", click.get_current_context()
        )
    with wishes.room() as room:
        finish(_give(room, place, steady, months), form)


def _give(room: Stockroom, place: str, steady: str | None, months: tuple[str, ...]) -> Done:
    """Give a place its temperatures; none at all take its own away. Raises BadInput."""
    from stockroom.domain.quantities import read_temperature
    from stockroom.services.climate import set_months, set_steady

    if months:
        said: dict[int, int] = {}
        for one in months:
            month, degrees = _month(one)
            said[month] = read_temperature(degrees, room.units, MONTHS[month - 1])
        return set_months(room, place, said)
    return set_steady(room, place, None if steady is None else read_temperature(steady, room.units))


def _month(typed: str) -> tuple[int, str]:
    """The month, 1 to 12, and the degrees of "jan=12". Raises BadInput."""
    from stockroom.domain.quantities import unreadable

    name, equals, degrees = typed.partition("=")
    word = name.strip().casefold()
    numbers = {str(number): number for number in range(1, 13)}
    if word in numbers and equals:
        return numbers[word], degrees
    if equals and len(word) >= 3:
        for number, known in enumerate(_MONTH_NAMES, start=1):
            if known.startswith(word):
                return number, degrees
    raise unreadable("month", typed, "a month and its degrees, such as jan=12 or 7=54 F")


_MONTH_NAMES = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip


@click.command("readings", cls=Command)
@_place
@click.argument("file", metavar="FILE")
@logger_columns
@click.option("--dry-run", is_flag=True, help="Say what the file holds and keep nothing.")
@json_form
@click.pass_obj
def readings(
    wishes: Wishes,
    place: str,
    file: str,
    columns: LoggerColumns,
    dry_run: bool,
    form: str | None,
) -> None:
    """Bring in a temperature logger's CSV for a place.

    The columns of time and degrees are found by their headings unless they are named. Good rows
    are kept, with those the place had; each row that cannot be read is named by its line.
    """
    from stockroom.reports.climate import readings_report
    from stockroom.services.climate import import_readings, preview_readings

    text = read_text(file)
    how = {
        "time_column": columns.time_column,
        "heat_column": columns.heat_column,
        "fahrenheit": columns.fahrenheit,
    }
    with wishes.room() as room:
        found = preview_readings(room, place, text, **how)
        done = None if dry_run else import_readings(room, place, text, **how)
        output.show(readings_report(found, done, room.units), form, room.units)
        if dry_run and form is None:
            diagnostics.tell("Nothing was kept: leave out --dry-run to keep the readings.")


@click.command("humidity", cls=Command)
@_place
@click.argument("percent", metavar="[PERCENT]", required=False)
@click.option("--clear", is_flag=True, help="Take its own away: it is as the place above it.")
@json_form
@click.pass_obj
def humidity(
    wishes: Wishes, place: str, percent: str | None, clear: bool, form: str | None
) -> None:
    """Say how damp the air of a place is, from 1 to 99 %.

    It decides how soon food in plastic takes up moisture. Without it 55 % is reckoned with.
    """
    from stockroom.domain.quantities import read_whole
    from stockroom.services.climate import set_humidity

    if clear == (percent is not None):
        raise click.UsageError(
            "Say the humidity in percent, or --clear.", click.get_current_context()
        )
    wanted = None
    if percent is not None:
        wanted = read_whole(percent.strip().removesuffix("%"), "humidity", 1, 99)
    with wishes.room() as room:
        finish(set_humidity(room, place, wanted), form)


@click.command("climate", cls=Command)
@_place
@list_form
@click.pass_obj
def climate(wishes: Wishes, place: str, form: str | None) -> None:
    """Show a place's temperatures over the year, and what they come to.

    Twelve months as bars, the mean, and the mean kinetic temperature both for a life that halves
    every 10 °C and with the pharmacopoeia's 83.144 kJ/mol.
    """
    from stockroom.reports.climate import climate_report
    from stockroom.services.climate import climate_page

    with wishes.room() as room:
        output.show(climate_report(climate_page(room, place), room.units), form, room.units)
