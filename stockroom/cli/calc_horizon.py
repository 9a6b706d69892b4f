"""calc eat-rate: the least steady eating that lets nothing pass its best-by."""

from __future__ import annotations

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, working
from stockroom.cli.session import Wishes


@click.command("eat-rate", cls=Command)
@click.option(
    "--csv", "path", required=True, metavar="FILE",
    help="A list with the columns servings and best_by.",
)  # fmt: skip
@click.option(
    "--from", "from_day", metavar="DATE", help="The first day of eating; today when left out."
)
@click.option("--count-best-by-day", is_flag=True, help="The best-by day is an eating day too.")
@working
@json_form
@click.pass_obj
def eat_rate(
    wishes: Wishes,
    path: str,
    from_day: str | None,
    count_best_by_day: bool,
    working: bool,
    form: str | None,
) -> None:
    """The lowest steady eating rate that wastes nothing, and the best-by day that asks for it.

    Each line of the list has servings and the day they are best by; other columns are passed
    over. What is past already is listed apart. A best-by is a quality estimate, not safety.

    \b
    stockroom calc eat-rate --csv shelf.csv --from 2026-03-01
    """
    from stockroom.cli.logger_file import read_text
    from stockroom.domain.horizon.due_table import read_dues
    from stockroom.domain.horizon.eating_rate import least_rate
    from stockroom.domain.horizon.eating_rate_working import eating_rate_working
    from stockroom.domain.quantities import read_day
    from stockroom.reports.calculations_horizon import eating_rate_result
    from stockroom.reports.workings import with_working

    today = wishes.clock.today()
    first = today if from_day is None else read_day(from_day, today, "from")
    rate = least_rate(read_dues(read_text(path)), first, count_best_by_day=count_best_by_day)
    report = eating_rate_result(rate)
    output.show(with_working(report, eating_rate_working(rate)) if working else report, form)
