"""The recipe book: `recipe add`, `list`, `show`, `edit` and `remove`."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli import output
from stockroom.cli.acting import finish
from stockroom.cli.base import Group
from stockroom.cli.options import Choices, json_form, list_form, number
from stockroom.cli.recipe_details import CLEARED, cleared, details, details_said
from stockroom.cli.recipe_files import export_recipes, import_recipe
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from stockroom.domain.quantities import UnitSystem
    from stockroom.services.kitchen import LineRequest
    from stockroom.services.session import Stockroom

_MOST_PEOPLE = 1000

_recipe = click.argument("name", metavar="RECIPE")


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
    help="From the shelves: “Peas=240 g fresh”, “Peas=60 g dry”, “Peas=2 servings”, or in a measure"
    " you weighed: “Peas=2 cups”. With “, hold 20 %” it holds back a share of its own.",
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
@details
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
    **said: Any,
) -> None:
    """Add a recipe to the book.

    \b
    stockroom recipe add "Pea soup" --serves 4 --stored "Peas=480 g fresh" --fresh "onion=1 each"
    """
    from stockroom.services.kitchen import add_recipe

    with wishes.room() as room:
        done = add_recipe(
            room,
            name,
            serves if serves is not None else room.household.people,
            _lines(room, stored, fresh),
            cooking_water_dg=_read_water(water, room.units) or 0,
            steps=steps or "",
            **details_said(said, room.units),
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
    """Show a recipe as it stands in the book, with the allergens and raw food of its foods."""
    from stockroom.reports.kitchen import recipe_report
    from stockroom.services.kitchen import recipe_facts, show_recipe

    with wishes.room() as room:
        found = show_recipe(room, name)
        facts = recipe_facts(room, found.name)
        report = recipe_report(found, room.units, facts, room.household.cup)
        output.show(report, form, room.units)


@recipe.command("edit")
@_recipe
@click.option("--name", "new_name", metavar="TEXT", help="Its new name.")
@_serves
@_stored
@_fresh
@_water
@_steps
@details
@click.option(
    "--clear",
    multiple=True,
    type=Choices(lambda: CLEARED),
    help="Take this away; hold_back goes back to 30 %.",
)
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
    clear: tuple[str, ...],
    form: str | None,
    **said: Any,
) -> None:
    """Change a recipe; what is not said stays.

    When any --stored or --fresh is said, the ingredients said are all it has from then on. So it
    is with --fresh-allergen.
    """
    from stockroom.services.kitchen import change_recipe

    with wishes.room() as room:
        changed, taken_away = cleared(clear, details_said(said, room.units))
        done = change_recipe(
            room,
            name,
            new_name=new_name,
            serves=serves,
            lines=_lines(room, stored, fresh) if stored or fresh else None,
            cooking_water_dg=_read_water(water, room.units),
            steps=steps,
            clear=taken_away,
            **changed,
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


def _lines(room: Stockroom, stored: tuple[str, ...], fresh: tuple[str, ...]) -> list[LineRequest]:
    """The ingredients, those from the shelves first. Raises BadInput and NotFound."""
    from stockroom.cli.reading import read_fresh, read_stored

    return [
        *(_with_measure(room, read_stored(text, room.units)) for text in stored),
        *(read_fresh(text) for text in fresh),
    ]


def _with_measure(room: Stockroom, line: LineRequest) -> LineRequest:
    """A line in a measure under the name the household weighed it by: "cup" for "cups"."""
    from stockroom.cli.reading import named_measure
    from stockroom.services.measures import list_measures

    if line.unit is None:
        return line
    known = (one.name for one in list_measures(room, line.food))
    return replace(line, unit=named_measure(line.unit, known))


def _read_water(typed: str | None, units: UnitSystem) -> int | None:
    """The cooking water's weight. Raises BadInput."""
    from stockroom.domain.quantities import read_weight

    return None if typed is None else read_weight(typed, units, "water")


for _each in (import_recipe, export_recipes):
    recipe.add_command(_each)
