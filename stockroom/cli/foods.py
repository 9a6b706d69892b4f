"""Foods and containers: what is dried, and what it is packed into."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.acting import finish
from stockroom.cli.base import Group
from stockroom.cli.measures import list_measures, measure
from stockroom.cli.options import Choices, json_form, list_form
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stockroom.domain.foods import Preparation
    from stockroom.services.session import Stockroom


def _classes() -> Iterable[str]:
    from stockroom.domain.keeping.interface import FoodClass

    return tuple(FoodClass)


def _groups() -> Iterable[str]:
    from stockroom.domain.foods import FoodGroup

    return tuple(FoodGroup)


def _preparations() -> Iterable[str]:
    from stockroom.domain.foods import Preparation

    return tuple(Preparation)


def _allergens() -> Iterable[str]:
    from stockroom.domain.foods import Allergen

    return tuple(Allergen)


_food = click.argument("name", metavar="FOOD")
_preparation = click.option(
    "--prepared", type=Choices(_preparations), help="What was done to it before drying."
)
_serving = click.option("--serving", metavar="WEIGHT", help="One serving, as eaten with its water.")
_allergen = click.option(
    "--allergen", "allergens", multiple=True, type=Choices(_allergens), help="What it contains."
)


@click.group("food", cls=Group)
def food() -> None:
    """Foods: the household's own, and the reference table."""


@food.command("list")
@list_form
@click.pass_obj
def list_foods(wishes: Wishes, form: str | None) -> None:
    """List the foods this household dries."""
    from stockroom.reports.record import food_list
    from stockroom.services import foods

    with wishes.room() as room:
        output.show(food_list(foods.list_foods(room)), form, room.units)


@food.command("search")
@click.argument("words", nargs=-1, metavar="[WORDS]...")
@list_form
@click.pass_obj
def search(wishes: Wishes, words: tuple[str, ...], form: str | None) -> None:
    """Find a food that can go on a tray: the household's own first, then the reference table."""
    from stockroom.reports.record import food_choices
    from stockroom.services.foods import search_foods

    with wishes.room() as room:
        output.show(food_choices(search_foods(room, " ".join(words))), form, room.units)


@food.command("add")
@_food
@click.option("--like", metavar="FOOD", help="Take composition and class from a reference food.")
@click.option("--class", "food_class", type=Choices(_classes), help="How it keeps once dry.")
@click.option("--group", type=Choices(_groups), help="The shelf it belongs to.")
@_preparation
@_serving
@click.option("--water", metavar="PERCENT", help="Water in 100 g before drying.")
@_allergen
@click.option("--note", default="", metavar="TEXT", help="A note to keep with it.")
@json_form
@click.pass_obj
def add(
    wishes: Wishes,
    name: str,
    like: str | None,
    food_class: str | None,
    group: str | None,
    prepared: str | None,
    serving: str | None,
    water: str | None,
    allergens: tuple[str, ...],
    note: str,
    form: str | None,
) -> None:
    """Add a food of your own, such as a dish.

    Say what it is --like, or its --class and how it was --prepared. What is not known stays
    unknown.

    \b
    stockroom food add "Grandmother's stew" --class meal --prepared cooked --allergen wheat
    """
    from stockroom.cli.exact import read_percent
    from stockroom.domain.foods import Allergen, FoodGroup
    from stockroom.domain.keeping.interface import FoodClass
    from stockroom.services.foods import add_food

    with wishes.room() as room:
        done = add_food(
            room,
            name,
            like=like,
            food_class=None if food_class is None else FoodClass(food_class),
            group=None if group is None else FoodGroup(group),
            preparation=_read_preparation(prepared),
            serving_dg=_read_serving(room, serving),
            water_percent=None if water is None else read_percent(water, "water"),
            allergens=[Allergen(one) for one in allergens],
            note=note,
        )
        finish(done, form)


@food.command("edit")
@_food
@click.option("--name", "new_name", metavar="TEXT", help="Its new name.")
@_preparation
@_serving
@_allergen
@click.option("--no-allergens", is_flag=True, help="It contains none of the nine on record.")
@click.option("--note", metavar="TEXT", help="Its note; empty takes it away.")
@json_form
@click.pass_obj
def edit(
    wishes: Wishes,
    name: str,
    new_name: str | None,
    prepared: str | None,
    serving: str | None,
    allergens: tuple[str, ...],
    no_allergens: bool,
    note: str | None,
    form: str | None,
) -> None:
    """Correct a food; what is not said stays.

    The allergens said are all it has from then on. Lots keep the preparation they were made with.
    """
    from stockroom.domain.foods import Allergen
    from stockroom.services.foods import change_food

    if allergens and no_allergens:
        raise click.UsageError(
            "Say --allergen or --no-allergens, not both.", click.get_current_context()
        )
    with wishes.room() as room:
        done = change_food(
            room,
            name,
            new_name=new_name,
            preparation=_read_preparation(prepared),
            serving_dg=_read_serving(room, serving),
            allergens=[Allergen(one) for one in allergens] if allergens or no_allergens else None,
            note=note,
        )
        finish(done, form)


for _each in (measure, list_measures):
    food.add_command(_each)


def _read_preparation(said: str | None) -> Preparation | None:
    """How the food was prepared, when it was said."""
    from stockroom.domain.foods import Preparation

    return None if said is None else Preparation(said)


def _read_serving(room: Stockroom, typed: str | None) -> int | None:
    """A serving's weight, when it was said. Raises BadInput; none weighs nothing."""
    from stockroom.domain.quantities import read_weight, unreadable

    if typed is None:
        return None
    serving_dg = read_weight(typed, room.units, "serving")
    if serving_dg == 0:
        raise unreadable("serving", typed, "a weight above 0 g")
    return serving_dg


@click.group("container", cls=Group)
def container() -> None:
    """Containers: the pouches, bags and jars to pack into."""


@container.command("list")
@list_form
@click.pass_obj
def list_containers(wishes: Wishes, form: str | None) -> None:
    """List the containers by the name that stockroom pack --into takes."""
    from stockroom.reports.record import container_list
    from stockroom.services import household

    with wishes.room() as room:
        output.show(container_list(household.list_containers(room)), form, room.units)
