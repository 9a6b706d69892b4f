"""The calendar as a file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, number
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from stockroom.services.results import CalendarFeed
    from stockroom.services.session import Stockroom

STANDARD_OUTPUT = "-"


@click.command("calendar", cls=Command)
@click.option(
    "--out", "file", required=True, metavar="FILE", help="The file to write; - for standard output."
)
@click.option(
    "--days",
    type=number(1, 3660),
    default=90,
    show_default=True,
    metavar="N",
    help="How many days ahead.",
)
@click.option(
    "--alarm", is_flag=True, help="Let each entry ring: at nine, or at its hour if it has one."
)
@click.option("--force", is_flag=True, help="Replace the file even if it is something else.")
@json_form
@click.pass_obj
def calendar(
    wishes: Wishes, file: str, days: int, alarm: bool, force: bool, form: str | None
) -> None:
    """Write what is due as a calendar file (RFC 5545).

    Settle checks and rechecks day by day with codes and places, the best-by of each lot, the end
    of extra drying, checks of the machine. Open it in any calendar. Every entry keeps its name,
    so that the next file updates it, moves it or takes it back instead of doubling it.

    \b
    stockroom calendar --out stockroom.ics
    """
    if file == STANDARD_OUTPUT and form is not None:
        raise click.UsageError(
            "The file itself goes to standard output: leave out --json.",
            click.get_current_context(),
        )
    with wishes.room() as room:
        if file == STANDARD_OUTPUT:
            _print(room, days, alarm)
        else:
            _write(room, file, days, alarm, force, form)


def _print(room: Stockroom, days: int, alarm: bool) -> None:
    """The file on standard output, the talk beside it."""
    from stockroom.reports.calendar_file import calendar_file, written_words
    from stockroom.services.calendar_feed import calendar_feed

    feed = calendar_feed(room, days=days, alarm=alarm)
    if feed.entries:
        output.write_bytes(calendar_file(feed))
    diagnostics.tell(written_words(feed, "standard output"))
    _say_left_out(feed)


def _write(
    room: Stockroom, file: str, days: int, alarm: bool, force: bool, form: str | None
) -> None:
    """The file in its place, once it is known that it may go there."""
    from stockroom.reports.calendar_file import (
        KIND,
        calendar_file,
        is_our_calendar,
        written_report,
    )
    from stockroom.services.calendar_feed import calendar_feed
    from stockroom.services.written_files import check_target, path_of, write_file

    path = path_of(file)
    check_target(room, path, KIND, is_ours=is_our_calendar, replace=force)
    feed = calendar_feed(room, days=days, alarm=alarm)
    if feed.entries:
        write_file(path, calendar_file(feed))
    output.show(written_report(feed, str(path)), form)
    if form is None:
        _say_left_out(feed)


def _say_left_out(feed: CalendarFeed) -> None:
    """What no calendar can say, on standard error."""
    from stockroom.reports.calendar_file import left_out_words

    words = left_out_words(feed)
    if words:
        diagnostics.tell(words)
