"""calc temperature, calc mkt and calc life-used: how warmth shortens a life."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.base import Command
from stockroom.cli.logger_file import LoggerColumns, logger_columns, read_text
from stockroom.cli.options import json_form, working

if TYPE_CHECKING:
    from stockroom.domain.logger_table import LoggerTable

MOST_YEARS = 1_000
MOST_Q10 = 100
MOST_MONTHS = 12_000
MOST_KJ = 1_000

_life_years = click.option(
    "--life-years", required=True, metavar="L", help="Life at 21 °C, in years."
)
_q10 = click.option(
    "--q10", default="2", show_default=True, metavar="Q",
    help="How many times faster it ages 10 °C warmer.",
)  # fmt: skip


@click.command("temperature", cls=Command)
@_life_years
@_q10
@click.option(
    "--temp-c", "--temperature", "temp_c", required=True, metavar="T",
    help="The temperature, in degrees Celsius, or such as 70 F.",
)  # fmt: skip
@working
@json_form
def temperature(life_years: str, q10: str, temp_c: str, working: bool, form: str | None) -> int:
    """What a life at 21 °C comes to at another temperature; ends with 1 when it is refused.

    No credit below 5 °C, a steeper law above 32 °C, no answer above 45 °C.

    \b
    stockroom calc temperature --life-years 6 --q10 2 --temp-c 26
    """
    from stockroom.cli.exact import read_degrees
    from stockroom.domain.keeping.refusals import TooWarm
    from stockroom.domain.keeping.temperature import life_at
    from stockroom.domain.keeping.temperature_working import life_working
    from stockroom.reports.calculations_warmth import life_refused, life_result
    from stockroom.reports.workings import with_working

    asked = _years(life_years), _by_ten(q10), float(read_degrees(temp_c))
    try:
        report = life_result(*asked, life_at(*asked))
    except TooWarm as refusal:
        output.show(life_refused(*asked, refusal), form)
        return 1
    output.show(with_working(report, life_working(*asked)) if working else report, form)
    return 0


@click.command("mkt", cls=Command)
@click.option("--csv", "path", metavar="FILE", help="A temperature logger's file.")
@click.option(
    "--readings", metavar="C:H,C:H,...", help="Degrees Celsius and the hours at each, as 20:6,25:2."
)
@click.option(
    "--ea-kj-mol", default="83.144", show_default=True, metavar="E",
    help="Activation energy, in kJ/mol.",
)  # fmt: skip
@logger_columns
@working
@json_form
def mkt(
    path: str | None,
    readings: str | None,
    ea_kj_mol: str,
    columns: LoggerColumns,
    working: bool,
    form: str | None,
) -> None:
    """The mean kinetic temperature of a place, from a logger's file or from readings.

    The one temperature that wears as much as all the readings did, each weighted by its time.

    \b
    stockroom calc mkt --readings 20:2,2:4,25:1
    """
    from stockroom.cli.exact import read_number, read_pairs
    from stockroom.domain.keeping.temperature_working import kinetic_working
    from stockroom.reports.calculations_warmth import kinetic_result
    from stockroom.reports.workings import with_working

    if (path is None) == (readings is None):
        raise click.UsageError("Say --csv or --readings, one of them.", _context())
    ea = float(read_number(ea_kj_mol, "activation energy", most=MOST_KJ))
    table = None if path is None else columns.read(read_text(path))
    parts = _weighed(table) if table is not None else read_pairs(readings or "", "reading", "hours")
    report = kinetic_result(parts, ea, table)
    output.show(with_working(report, kinetic_working(parts, ea)) if working else report, form)
    if table is not None and table.bad:
        diagnostics.tell(f"{len(table.bad)} rows could not be read and were left out:")
        for row in table.bad[:20]:
            diagnostics.tell(f"- line {row.line}: {row.why}")


def _weighed(table: LoggerTable) -> list[tuple[float, float]]:
    """Degrees Celsius and hours of a logger's readings. Raises TooFewReadings."""
    from stockroom.domain.year_profile import weighted

    return [(at_c, hours) for _, at_c, hours in weighted(table.readings)]


@click.command("life-used", cls=Command)
@_life_years
@_q10
@click.option(
    "--stays", required=True, metavar="C:MONTHS,...",
    help="Degrees Celsius and the months at each, as 16:6,26:3.",
)  # fmt: skip
@working
@json_form
def life_used(life_years: str, q10: str, stays: str, working: bool, form: str | None) -> None:
    """What share of a life stays at different temperatures have used.

    \b
    stockroom calc life-used --life-years 10 --stays 16:6,26:3
    """
    from stockroom.cli.exact import read_pairs
    from stockroom.domain.keeping.temperature import life_used as use
    from stockroom.domain.keeping.temperature_working import used_working
    from stockroom.reports.calculations_warmth import used_result
    from stockroom.reports.workings import with_working

    parts = read_pairs(stays, "stay", "months", most=MOST_MONTHS)
    asked = _years(life_years), _by_ten(q10), parts
    report = used_result(use(*asked), *asked)
    output.show(with_working(report, used_working(*asked)) if working else report, form)


def _years(typed: str) -> float:
    """A life in years. Raises BadInput."""
    from stockroom.cli.exact import read_number

    return float(read_number(typed, "life", most=MOST_YEARS))


def _by_ten(typed: str) -> float:
    """A Q10. Raises BadInput; what is below 1 the law itself refuses."""
    from stockroom.cli.exact import read_number

    return float(read_number(typed, "Q10", most=MOST_Q10))


def _context() -> click.Context:
    return click.get_current_context()
