"""Sampling: how many of a lot or a place to look at, which ones, and what the looks say."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, working
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from datetime import date

    from stockroom.domain.sample_page import Wish


@click.command("sample", cls=Command)
@click.argument("name", metavar="LOT|PLACE")
@click.option(
    "--at-most", metavar="D", help="Soft ones you could live with; one in ten when left out."
)
@click.option("--confidence", default="95%", show_default=True, metavar="C", help="How sure to be.")
@click.option(
    "--sensitivity", default="1", show_default=True, metavar="S",
    help="Share of soft ones that a look notices: 1 for opening, less for a squeeze.",
)  # fmt: skip
@click.option("--since", metavar="DATE", help="Looks from this day on count; today when left out.")
@click.option(
    "--prior", default="1,1", show_default=True, metavar="A,B",
    help="What is believed before a look, as if A soft and B sound ones had been seen.",
)  # fmt: skip
@click.option("--all", "everything", is_flag=True, help="List every package, not only the picks.")
@working
@json_form
@click.pass_obj
def sample(
    wishes: Wishes,
    name: str,
    at_most: str | None,
    confidence: str,
    sensitivity: str,
    since: str | None,
    prior: str,
    everything: bool,
    working: bool,
    form: str | None,
) -> None:
    """Say which packages of a lot or a place to look at, and what the looks say of the others.

    Picked at random and listed in walking order; record each look with check, then ask again:
    the looks of the day count, and what is believed of the others is said in a sentence. Where
    one is found soft, look at all of them: --all.

    \b
    stockroom sample 26329A --at-most 2
    """
    from stockroom.domain.quantities import read_day
    from stockroom.reports.sampling import sample_report
    from stockroom.services.sampling import sample_of, sample_workings

    with wishes.room() as room:
        day = None if since is None else read_day(since, room.today, "since")
        wanted = _wish(at_most, confidence, sensitivity, day, prior)
        report = sample_report(sample_of(room, name, wanted), everything=everything)
        if working:
            from stockroom.reports.workings import with_working

            report = with_working(report, *sample_workings(room, name, wanted))
        output.show(report, form, room.units)


def _wish(
    at_most: str | None, confidence: str, sensitivity: str, since: date | None, prior: str
) -> Wish:
    """What was asked for. Raises BadInput."""
    from stockroom.cli.calc_sampling import read_count, read_prior
    from stockroom.cli.exact import read_share
    from stockroom.domain.sample_page import Wish
    from stockroom.domain.sampling import LARGEST_LOT

    return Wish(
        at_most=None if at_most is None else read_count(at_most, "at most", LARGEST_LOT),
        confidence=read_share(confidence, "confidence"),
        sensitivity=read_share(sensitivity, "sensitivity"),
        prior=read_prior(prior),
        since=since,
    )
