"""The kitchen: cooking from the shelves, and the recipe book."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command, Group
from stockroom.cli.options import json_form, list_form, number, working
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from stockroom.domain.quantities import UnitSystem
    from stockroom.services.kitchen import LineRequest
    from stockroom.services.results import CookSheet
    from stockroom.services.session import Stockroom

_MOST_PEOPLE = 1000

_recipe = click.argument("name", metavar="RECIPE")


@click.command("cook", cls=Command)
@_recipe
@click.option(
    "--people",
    type=number(1, _MOST_PEOPLE),
    metavar="N",
    help="For how many; the household when left out.",
)
@click.option("--take", is_flag=True, help="Take it off the shelves and record the meal.")
@click.option("--short", is_flag=True, help="With --take: take what there is when some is short.")
@working
@json_form
@click.pass_obj
def cook(
    wishes: Wishes,
    name: str,
    people: int | None,
    take: bool,
    short: bool,
    working: bool,
    form: str | None,
) -> None:
    """Show which packages a dish takes and how much water to add.

    The oldest goes first. Nothing is recorded without --take. RECIPE may be the beginning of a
    name, when only one begins so. With --working how the water of each food was reached.
    """
    from stockroom.reports.kitchen import cook_report
    from stockroom.services.kitchen import cook_meal, cook_sheet

    if short and not take:
        raise click.UsageError("--short goes with --take.", click.get_current_context())
    with wishes.room() as room:
        eaters = people if people is not None else room.household.people
        sheet = cook_sheet(room, name, eaters)
        places = _places(room, sheet)
        done = cook_meal(room, name, eaters, take_short=short) if take else None
        report = cook_report(sheet, places, done)
        if working:
            from stockroom.reports.workings import with_working
            from stockroom.services.workings import cook_working

            report = with_working(report, *cook_working(room, sheet).workings)
        output.show(report, form, room.units)
        if done is not None and _picked(sheet) != done.codes:
            diagnostics.tell(f"The shelves had changed meanwhile; taken: {', '.join(done.codes)}.")


def _picked(sheet: CookSheet) -> tuple[str, ...]:
    """The codes a dish takes from, each once, in the order of its lines."""
    return tuple(
        dict.fromkeys(pick.candidate.code for line in sheet.plan.lines for pick in line.picks)
    )


def _places(room: Stockroom, sheet: CookSheet) -> dict[str, str]:
    """Where each picked package stands."""
    from stockroom.services.shelves import package_detail

    return {code: package_detail(room, code).package.place for code in _picked(sheet)}


@click.group("recipe", cls=Group)
def recipe() -> None:
    """Recipes: the household's own book."""


_serves = click.option(
    "--serves",
    type=number(1, _MOST_PEOPLE),
    metavar="N",
    help="How many it feeds as written; a new one feeds the household when left out.",
)
_stored = click.option(
    "--stored",
    multiple=True,
    metavar="FOOD=AMOUNT",
    help="From the shelves: “Peas=240 g fresh”, “Peas=60 g dry” or “Peas=2 servings”.",
)
_fresh = click.option(
    "--fresh",
    multiple=True,
    metavar="ITEM[=AMOUNT]",
    help="Not from the shelves: “onion=2 each”, “stock=1/2 cup” or salt.",
)
_water = click.option(
    "--water", metavar="WEIGHT", help="Water to cook in, beside what the dried food takes."
)
_steps = click.option("--steps", metavar="TEXT", help="How it is made.")


@recipe.command("add")
@_recipe
@_serves
@_stored
@_fresh
@_water
@_steps
@json_form
@click.pass_obj
def add(
    wishes: Wishes,
    name: str,
    serves: int | None,
    stored: tuple[str, ...],
    fresh: tuple[str, ...],
    water: str | None,
    steps: str | None,
    form: str | None,
) -> None:
    """Add a recipe to the book.

    \b
    stockroom recipe add "Pea soup" --serves 4 --stored "Peas=480 g fresh" --fresh "onion=1 each"
    """
    from stockroom.services.kitchen import add_recipe

    with wishes.room() as room:
        units = room.units
        done = add_recipe(
            room,
            name,
            serves if serves is not None else room.household.people,
            _lines(stored, fresh, units),
            cooking_water_dg=_read_water(water, units) or 0,
            steps=steps or "",
        )
        finish(done, form)


@recipe.command("list")
@list_form
@click.pass_obj
def list_recipes(wishes: Wishes, form: str | None) -> None:
    """List the recipes by name."""
    from stockroom.reports.kitchen import recipe_list
    from stockroom.services import kitchen

    with wishes.room() as room:
        output.show(recipe_list(kitchen.list_recipes(room)), form, room.units)


@recipe.command("show")
@_recipe
@json_form
@click.pass_obj
def show(wishes: Wishes, name: str, form: str | None) -> None:
    """Show a recipe as it stands in the book."""
    from stockroom.reports.kitchen import recipe_report
    from stockroom.services.kitchen import show_recipe

    with wishes.room() as room:
        units = room.units
        output.show(recipe_report(show_recipe(room, name), units), form, units)


@recipe.command("edit")
@_recipe
@click.option("--name", "new_name", metavar="TEXT", help="Its new name.")
@_serves
@_stored
@_fresh
@_water
@_steps
@json_form
@click.pass_obj
def edit(
    wishes: Wishes,
    name: str,
    new_name: str | None,
    serves: int | None,
    stored: tuple[str, ...],
    fresh: tuple[str, ...],
    water: str | None,
    steps: str | None,
    form: str | None,
) -> None:
    """Change a recipe; what is not said stays.

    When any --stored or --fresh is said, the ingredients said are all it has from then on.
    """
    from stockroom.services.kitchen import change_recipe

    with wishes.room() as room:
        units = room.units
        done = change_recipe(
            room,
            name,
            new_name=new_name,
            serves=serves,
            lines=_lines(stored, fresh, units) if stored or fresh else None,
            cooking_water_dg=_read_water(water, units),
            steps=steps,
        )
        finish(done, form)


@recipe.command("remove")
@_recipe
@json_form
@click.pass_obj
def remove(wishes: Wishes, name: str, form: str | None) -> None:
    """Take a recipe out of the book; meals cooked from it stay in the record."""
    from stockroom.services.kitchen import remove_recipe

    with wishes.room() as room:
        finish(remove_recipe(room, name), form)


def _lines(stored: tuple[str, ...], fresh: tuple[str, ...], units: UnitSystem) -> list[LineRequest]:
    """The ingredients, those from the shelves first. Raises BadInput."""
    from stockroom.cli.reading import read_fresh, read_stored

    return [
        *(read_stored(text, units) for text in stored),
        *(read_fresh(text) for text in fresh),
    ]


def _read_water(typed: str | None, units: UnitSystem) -> int | None:
    """The cooking water's weight. Raises BadInput."""
    from stockroom.domain.quantities import read_weight

    return None if typed is None else read_weight(typed, units, "water")
