"""Household measures of a food: `food measure` and `food measures`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, list_form
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from stockroom.domain.cooking import Basis


@click.command("measure", cls=Command)
@click.argument("food", metavar="FOOD")
@click.argument("name", metavar="NAME")
@click.argument("weight", metavar="[WEIGHT]", required=False)
@click.option("--dry", is_flag=True, help="It was weighed dry, as it is when nothing is said.")
@click.option("--fresh", is_flag=True, help="It was weighed as it was before drying.")
@click.option("--remove", is_flag=True, help="Forget what it weighs.")
@json_form
@click.pass_obj
def measure(
    wishes: Wishes,
    food: str,
    name: str,
    weight: str | None,
    dry: bool,
    fresh: bool,
    remove: bool,
    form: str | None,
) -> None:
    """Say what one measure of a food weighs, such as a cup or a scoop, by your own scale.

    Recipes may then count the food in it: --stored "Peas=2 cups". A cup of dry food is mostly air,
    so it never weighs what a cup of water weighs: weigh one.

    \b
    stockroom food measure "Garden peas" cup "31 g"
    """
    from stockroom.domain.quantities import read_weight
    from stockroom.services.measures import remove_measure, set_measure

    _check(weight, dry=dry, fresh=fresh, remove=remove)
    with wishes.room() as room:
        if weight is None:
            done = remove_measure(room, food, name)
        else:
            weight_dg = read_weight(weight, room.units, "weight")
            done = set_measure(room, food, name, weight_dg, basis=_basis(fresh))
        finish(done, form)


@click.command("measures", cls=Command)
@click.argument("food", metavar="[FOOD]", required=False)
@list_form
@click.pass_obj
def list_measures(wishes: Wishes, food: str | None, form: str | None) -> None:
    """List what the measures of a food weigh, or of every food that has some."""
    from stockroom.reports.meals import measure_list
    from stockroom.services import measures

    with wishes.room() as room:
        output.show(measure_list(measures.list_measures(room, food)), form, room.units)


def _check(weight: str | None, *, dry: bool, fresh: bool, remove: bool) -> None:
    """A usage error for what does not go together."""
    trouble = ""
    if dry and fresh:
        trouble = "Say --dry or --fresh, not both."
    elif remove and (weight is not None or dry or fresh):
        trouble = "--remove goes with a food and the name of its measure alone."
    elif not remove and weight is None:
        trouble = "Missing argument 'WEIGHT': say what one of it weighs, or --remove."
    if trouble:
        raise click.UsageError(trouble, click.get_current_context())


def _basis(fresh: bool) -> Basis:
    """How the food was when it was weighed."""
    from stockroom.domain.cooking import Basis

    return Basis.FRESH if fresh else Basis.DRY
