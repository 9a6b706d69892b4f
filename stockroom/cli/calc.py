"""Calculations on their own: no store is opened, nothing is recorded."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.base import Command, Group
from stockroom.cli.calc_drying import moisture, plateau
from stockroom.cli.calc_energy import energy
from stockroom.cli.calc_horizon import eat_rate
from stockroom.cli.calc_machine import leak
from stockroom.cli.calc_package import absorber, keep
from stockroom.cli.calc_sampling import belief, sample
from stockroom.cli.calc_warmth import life_used, mkt, temperature
from stockroom.cli.options import json_form, working

if TYPE_CHECKING:
    from fractions import Fraction

    from stockroom.domain.working import Working
    from stockroom.reports.calculations import CodeResult, WaterResult

_FINE = 100_000
"""Parts of a gram reckoned in: a scale may read finer than the record keeps."""


@click.group("calc", cls=Group)
def calc() -> None:
    """Calculations on their own, without a store."""


@click.command("water", cls=Command)
@click.option("--wet", required=True, metavar="G", help="Weight as loaded, in grams.")
@click.option("--dry", required=True, metavar="G", help="Weight after drying, in grams.")
@click.option("--use", metavar="G", help="Dry food to be used, in grams; all when left out.")
@working
@json_form
def water(wet: str, dry: str, use: str | None, working: bool, form: str | None) -> None:
    """Water that drying removed, and water to add to the dry food.

    \b
    stockroom calc water --wet 1000 --dry 155 --use 62
    """
    from stockroom.cli.exact import read_grams
    from stockroom.reports.calculations import water_result
    from stockroom.reports.workings import with_working

    result = _water(
        read_grams(wet, "wet"),
        read_grams(dry, "dry"),
        None if use is None else read_grams(use, "use"),
    )
    report = water_result(result)
    output.show(with_working(report, _water_working(result)) if working else report, form)


def _water(wet_g: Fraction, dry_g: Fraction, use_g: Fraction | None) -> WaterResult:
    """The figures from exact grams. Refuses dry above wet and more used than there is."""
    from fractions import Fraction

    from stockroom.domain.drying import DryAboveWet
    from stockroom.domain.quantities import to_dg
    from stockroom.domain.water import UseAboveDry, water_figures
    from stockroom.reports.calculations import WaterResult

    used_g = dry_g if use_g is None else use_g
    if dry_g > wet_g:
        raise DryAboveWet("The food", to_dg(wet_g), to_dg(dry_g))
    if used_g > dry_g:
        raise UseAboveDry(to_dg(used_g), to_dg(dry_g))
    # The rule is the same in any unit of weight, so it is asked in hundred-thousandths of a gram.
    parts = [int(weight * _FINE) for weight in (wet_g, dry_g, used_g)]
    figures = water_figures(*parts)
    scale = Fraction(10, _FINE)
    return WaterResult(
        wet_g=wet_g,
        dry_g=dry_g,
        use_g=used_g,
        water_removed_g=Fraction(figures.water_removed_dg, _FINE),
        water_per_dry_g=figures.water_per_dry,
        water_to_add_g=Fraction(figures.water_to_add_dg, _FINE),
        water_to_add_ml=figures.water_to_add_ml * float(scale),
        us_cups=figures.us_cups * float(scale),
        label_cups=figures.label_cups * float(scale),
    )


def _water_working(result: WaterResult) -> Working:
    """The derivation, in tenths of a gram. Raises as the mass balance does."""
    from stockroom.domain.quantities import to_dg
    from stockroom.domain.water_working import water_working

    return water_working(
        to_dg(result.wet_g), to_dg(result.dry_g), to_dg(result.use_g), to_dg(result.water_to_add_g)
    )


@click.command("code", cls=Command)
@click.argument("code", metavar="CODE")
@json_form
def code(code: str, form: str | None) -> int:
    """Whether a code's check character fits; ends with 1 when it does not.

    For a code without its check character, the character to write behind it.

    \b
    stockroom calc code 26329A072
    """
    from stockroom.reports.calculations import code_result

    result = _code(code)
    output.show(code_result(result), form)
    return 0 if result.valid else 1


def _code(typed: str) -> CodeResult:
    """A code taken apart; one of another shape is checked as it stands. Raises BadInput."""
    from stockroom.domain.codes import check_character, is_valid, normalise, read_code
    from stockroom.errors import BadInput
    from stockroom.reports.calculations import CodeResult

    whole = normalise(typed)
    try:
        read = read_code(typed)
    except BadInput:
        if len(whole) < 2:
            raise
        check_character(whole)  # refuses what is neither digit nor letter
        return CodeResult(whole, "other", is_valid(whole), check_character(whole[:-1]))
    return CodeResult(whole, read.kind, read.valid, check_character(read.body))


for _each in (
    water, moisture, plateau, absorber, keep, temperature, mkt, life_used, sample, belief, eat_rate,
    energy, leak, code,
):  # fmt: skip
    calc.add_command(_each)
