"""Meals that were cooked: `meal list`."""

from __future__ import annotations

import click

from stockroom.cli import output
from stockroom.cli.base import Group
from stockroom.cli.options import list_form, number
from stockroom.cli.session import Wishes

_MOST_MEALS = 10_000


@click.group("meal", cls=Group)
def meal() -> None:
    """Meals cooked from the shelves."""


@meal.command("list")
@click.option(
    "--count",
    type=number(1, _MOST_MEALS),
    default=50,
    show_default=True,
    metavar="N",
    help="How many at most.",
)
@list_form
@click.pass_obj
def list_meals(wishes: Wishes, count: int, form: str | None) -> None:
    """List the latest meals with their water and the last day to eat what is left of them."""
    from stockroom.reports.meals import meal_list
    from stockroom.services import kitchen

    with wishes.room() as room:
        output.show(meal_list(kitchen.list_meals(room, count=count)), form, room.units)
