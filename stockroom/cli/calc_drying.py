"""calc moisture and calc plateau: how dry a batch is."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, working

if TYPE_CHECKING:
    from fractions import Fraction

_resolution = click.option(
    "--resolution", default="1", show_default=True, metavar="G", help="One digit of the scale, in"
    " grams.",
)  # fmt: skip


@click.command("moisture", cls=Command)
@click.option("--wet", required=True, metavar="G", help="Food as loaded, in grams, without tray.")
@click.option("--dry", required=True, metavar="G", help="Dry food, in grams, without tray.")
@click.option(
    "--water-fraction", required=True, metavar="F",
    help="Water in the food as loaded: a share such as 0.85, or 85 %.",
)  # fmt: skip
@click.option(
    "--u-fraction", default="0.010", show_default=True, metavar="U",
    help="Standard uncertainty of that share: 0.010 from a table, 0.003 from a control batch.",
)  # fmt: skip
@_resolution
@working
@json_form
def moisture(
    wet: str,
    dry: str,
    water_fraction: str,
    u_fraction: str,
    resolution: str,
    working: bool,
    form: str | None,
) -> None:
    """Moisture left in dry food, with its uncertainty, against 10 %.

    A composition estimate cannot show dryness: the verdict is within only when the uncertainty
    allows it. Weights count to the tenth of a gram.

    \b
    stockroom calc moisture --wet 1200 --dry 440 --water-fraction 0.65
    """
    from stockroom.cli.exact import read_grams, read_share
    from stockroom.domain.dryness import residual_moisture
    from stockroom.domain.dryness_working import residual_working
    from stockroom.domain.quantities import to_dg
    from stockroom.reports.calculations_drying import moisture_result
    from stockroom.reports.workings import with_working

    weights = to_dg(read_grams(wet, "wet")), to_dg(read_grams(dry, "dry"))
    share = float(read_share(water_fraction, "water fraction"))
    known = {
        "u_water": float(read_share(u_fraction, "uncertainty of the water fraction")),
        "resolution_dg": _digit_dg(resolution),
    }
    report = moisture_result(residual_moisture(*weights, share, **known), *weights, share)
    if working:
        report = with_working(report, residual_working(*weights, share, **known))
    output.show(report, form)


@click.command("plateau", cls=Command)
@click.option(
    "--weights", required=True, metavar="G,G,...", help="Weights in grams, in the order taken."
)
@click.option(
    "--hours", metavar="H,H,...", help="Hours of drying at each weighing, when they were noted."
)
@_resolution
@working
@json_form
def plateau(
    weights: str, hours: str | None, resolution: str, working: bool, form: str | None
) -> None:
    """Whether the last weights are constant: nothing more is lost.

    Losses in percent are of the last weight. Constant weight is needed but not enough: break the
    thickest piece. Weights count to the tenth of a gram.

    \b
    stockroom calc plateau --weights 163.2,156.9,155.3,155.2,155.2 --resolution 0.1
    """
    from stockroom.cli.exact import read_grams, read_several
    from stockroom.domain.dryness_working import plateau_working
    from stockroom.domain.plateau import plateau as judge
    from stockroom.domain.quantities import to_dg
    from stockroom.reports.calculations_drying import plateau_result
    from stockroom.reports.workings import with_working

    weights_dg = [to_dg(one) for one in read_several(weights, "weight", read_grams)]
    taken = None if hours is None else read_several(hours, "hour", _hours)
    digit_dg = _digit_dg(resolution)
    found = judge(weights_dg, hours=taken, resolution_dg=digit_dg)
    report = plateau_result(found, weights_dg, taken)
    if working:
        derived = plateau_working(weights_dg, hours=taken, resolution_dg=digit_dg)
        report = with_working(report, derived)
    output.show(report, form)


def _hours(text: str, what: str) -> Fraction:
    """Hours of drying. Raises BadInput."""
    from stockroom.cli.exact import read_number

    return read_number(text, what, most=10_000)


def _digit_dg(typed: str) -> int:
    """One digit of the scale, tenths of a gram. Raises BadInput, also for a finer scale."""
    from stockroom.cli.exact import read_grams
    from stockroom.domain.quantities import to_dg, unreadable

    digit_dg = to_dg(read_grams(typed, "resolution"))
    if digit_dg < 1:
        raise unreadable("resolution", typed, "0.1 g or more: weights count to the tenth of a gram")
    return digit_dg
