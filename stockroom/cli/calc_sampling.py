"""calc sample and calc belief: how many packages to look at, and what a look says."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, working

if TYPE_CHECKING:
    from fractions import Fraction

    from stockroom.domain.belief import Belief


@click.command("sample", cls=Command)
@click.option("--lot", required=True, metavar="N", help="Packages in the lot.")
@click.option(
    "--at-most",
    required=True,
    metavar="D",
    help="So many soft ones you could live with, or none: 0.",
)
@click.option(
    "--confidence", required=True, metavar="C", help="How sure to be: a share such as 0.95, or 95%."
)
@click.option(
    "--sensitivity", default="1", show_default=True, metavar="S",
    help="Share of soft ones that the check notices: 1 for opening, less for a look through a jar.",
)  # fmt: skip
@click.option(
    "--accept", default="0", show_default=True, metavar="A",
    help="Soft ones that may be among those looked at.",
)  # fmt: skip
@working
@json_form
def sample(
    lot: str,
    at_most: str,
    confidence: str,
    sensitivity: str,
    accept: str,
    working: bool,
    form: str | None,
) -> None:
    """How many packages to look at, so that a clean look says: at most so many are soft.

    For a lot that nothing is added to, picked at random. Where no number is enough it says so:
    that too is an answer.

    \b
    stockroom calc sample --lot 20 --at-most 2 --confidence 0.95
    """
    from stockroom.cli.exact import read_share
    from stockroom.domain.sampling import LARGEST_LOT, sample_size
    from stockroom.domain.sampling_working import sample_working
    from stockroom.reports.calculations_sampling import sample_result
    from stockroom.reports.workings import with_working

    asked = (
        read_count(lot, "lot", LARGEST_LOT, least=1),
        read_count(at_most, "at most", LARGEST_LOT),
        read_share(confidence, "confidence"),
    )
    known = {"accept": read_count(accept, "accept", LARGEST_LOT)}
    finds = read_share(sensitivity, "sensitivity")
    report = sample_result(sample_size(*asked, **known, sensitivity=finds))
    if working:
        report = with_working(report, sample_working(*asked, **known, sensitivity=finds))
    output.show(report, form)


@click.command("belief", cls=Command)
@click.option("--checked", required=True, metavar="N", help="Packages looked at.")
@click.option("--soft", required=True, metavar="K", help="How many of them were soft.")
@click.option(
    "--prior", default="1,1", show_default=True, metavar="A,B",
    help="What was believed before, as if A soft and B sound ones had been seen.",
)  # fmt: skip
@click.option("--remaining", metavar="M", help="Packages that were not looked at.")
@working
@json_form
def belief(
    checked: str, soft: str, prior: str, remaining: str | None, working: bool, form: str | None
) -> None:
    """What to believe of packages that nobody has looked at, after a look at some.

    A belief, not a guarantee. --prior 1,1 holds every share of soft ones equally likely.

    \b
    stockroom calc belief --checked 5 --soft 0 --remaining 15
    """
    from stockroom.domain.belief import MOST_CHECKED
    from stockroom.domain.belief_working import belief_working
    from stockroom.reports.calculations_sampling import belief_result
    from stockroom.reports.workings import with_working

    seen = read_count(checked, "checked", MOST_CHECKED), read_count(soft, "soft", MOST_CHECKED)
    before = read_prior(prior)
    left = None if remaining is None else read_count(remaining, "remaining", MOST_CHECKED)
    report = belief_result(*seen, before, left)
    if working:
        report = with_working(report, belief_working(*seen, before, left))
    output.show(report, form)


def read_count(typed: str, what: str, most: int, *, least: int = 0) -> int:
    """A number of packages. Raises BadInput."""
    from stockroom.domain.quantities import read_whole

    return read_whole(typed, what, least, most)


def read_prior(typed: str) -> Belief:
    """The two numbers of a prior. Raises BadInput."""
    from stockroom.cli.exact import read_several
    from stockroom.domain.belief import Belief
    from stockroom.domain.quantities import unreadable

    numbers = read_several(typed, "prior", _weight)
    if len(numbers) != 2:
        raise unreadable("prior", typed, "two numbers, for soft and for sound, such as 1,1")
    return Belief(*numbers)


def _weight(typed: str, what: str) -> Fraction:
    """One number of a prior. Raises BadInput."""
    from stockroom.cli.exact import read_number
    from stockroom.domain.belief import MOST_WEIGHT

    return read_number(typed, what, most=MOST_WEIGHT)
