"""People: who eats from the stockroom, what they need, what they must not get."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.acting import finish
from stockroom.cli.base import Group
from stockroom.cli.options import (
    Choices,
    json_form,
    list_form,
    refuse_csv_working,
    working,
)
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stockroom.cli.options import Function
    from stockroom.services.people import Told
    from stockroom.services.session import Stockroom


def _sexes() -> Iterable[str]:
    from stockroom.domain.person import Sex

    return tuple(Sex)


def _activities() -> Iterable[str]:
    from stockroom.domain.person import Activity

    return tuple(Activity)


def _editions() -> Iterable[str]:
    from stockroom.domain.member_records import Figures

    return tuple(one.word for one in Figures)


def _allergens() -> Iterable[str]:
    from stockroom.domain.foods import Allergen

    return tuple(Allergen)


def _size_and_rest(function: Function) -> Function:
    """What may be told of a person besides sex, age and activity."""
    for option in (
        click.option(
            "--edition", type=Choices(_editions), help="By which figures the energy is reckoned."
        ),
        click.option(
            "--dislike", "dislikes", multiple=True, metavar="FOOD",
            help="A food of your own that they would rather not eat.",
        ),
        click.option(
            "--allergen", "allergens", multiple=True, type=Choices(_allergens),
            help="What they must not get.",
        ),
        click.option("--height", metavar="H", help="Such as 165 cm, 1.65 m or 5 ft 5 in."),
        click.option("--weight", metavar="W", help="Body weight, such as 65 kg or 143 lb."),
    ):  # fmt: skip
        function = option(function)
    return function


_name = click.argument("name", metavar="NAME")


@click.group("person", cls=Group)
def person() -> None:
    """People: who eats from the stockroom, what they need and must not get."""


@person.command("add")
@_name
@click.option("--sex", required=True, type=Choices(_sexes), help="Whose figures: F or M.")
@click.option("--age", required=True, metavar="Y", help="Age in years today, from 2 on.")
@click.option("--activity", required=True, type=Choices(_activities), help="How much they move.")
@_size_and_rest
@json_form
@click.pass_obj
def add(
    wishes: Wishes,
    name: str,
    sex: str,
    age: str,
    activity: str,
    weight: str | None,
    height: str | None,
    allergens: tuple[str, ...],
    dislikes: tuple[str, ...],
    edition: str | None,
    form: str | None,
) -> None:
    """Add a person. The age grows with the years; a birthday is not asked.

    An adult of known weight and height is reckoned by the equation of the Dietary Reference
    Intakes of 2005. Without them, and for children from 2 years, the table of the Dietary
    Guidelines speaks. The figures of the 2023 edition are from memory, not confirmed.

    \b
    stockroom person add Ann --sex F --age 41 --weight "65 kg" --height "165 cm" --activity low
    """
    from stockroom.domain.person import Activity, Sex, read_age
    from stockroom.services.people import add_member

    with wishes.room() as room:
        told = _told(room, weight, height, allergens or None, dislikes or None, edition)
        done = add_member(
            room,
            name,
            sex=Sex(sex),
            age_years=read_age(age),
            activity=Activity(activity),
            told=told,
        )
        finish(done, form)


@person.command("list")
@list_form
@working
@click.pass_obj
def list_people(wishes: Wishes, form: str | None, working: bool) -> None:
    """List the people with what each needs in a day, and the total.

    Where fewer are listed than the household has people, the others count as average adults.
    Planning figures for a store: no advice on what anybody should eat.
    """
    from stockroom.reports.people import people_report
    from stockroom.reports.workings import with_working
    from stockroom.services import people

    refuse_csv_working(form, working)
    with wishes.room() as room:
        report = people_report(
            people.household_need(room), people.eaters_avoid(room), people.member_cautions()
        )
        if working:
            report = with_working(report, *people.need_working(room).workings)
        output.show(report, form, room.units)


@person.command("change")
@_name
@click.option("--name", "new_name", metavar="TEXT", help="Their new name.")
@click.option("--sex", type=Choices(_sexes), help="Whose figures: F or M.")
@click.option("--age", metavar="Y", help="Age in years today.")
@click.option("--activity", type=Choices(_activities), help="How much they move.")
@_size_and_rest
@click.option("--no-size", is_flag=True, help="Forget weight and height.")
@click.option("--no-allergens", is_flag=True, help="There is nothing they must not get.")
@click.option("--no-dislikes", is_flag=True, help="There is nothing they would rather not eat.")
@json_form
@click.pass_obj
def change(
    wishes: Wishes,
    name: str,
    new_name: str | None,
    sex: str | None,
    age: str | None,
    activity: str | None,
    weight: str | None,
    height: str | None,
    allergens: tuple[str, ...],
    dislikes: tuple[str, ...],
    edition: str | None,
    no_size: bool,
    no_allergens: bool,
    no_dislikes: bool,
    form: str | None,
) -> None:
    """Change what is told of a person; what is not said stays.

    The allergens said are all they have from then on, and so are the dislikes.
    """
    from dataclasses import replace

    from stockroom.domain.person import Activity, Sex, read_age
    from stockroom.services.people import change_member

    _one_of(bool(weight or height), no_size, "--weight or --height", "--no-size")
    _one_of(bool(allergens), no_allergens, "--allergen", "--no-allergens")
    _one_of(bool(dislikes), no_dislikes, "--dislike", "--no-dislikes")
    with wishes.room() as room:
        told = replace(
            _told(
                room,
                weight,
                height,
                allergens if allergens or no_allergens else None,
                dislikes if dislikes or no_dislikes else None,
                edition,
            ),
            sex=None if sex is None else Sex(sex),
            age_years=None if age is None else read_age(age),
            activity=None if activity is None else Activity(activity),
            no_size=no_size,
        )
        finish(change_member(room, name, told, new_name=new_name), form)


@person.command("remove")
@_name
@json_form
@click.pass_obj
def remove(wishes: Wishes, name: str, form: str | None) -> None:
    """Take a person off the list; undo brings them back."""
    from stockroom.services.people import remove_member

    with wishes.room() as room:
        finish(remove_member(room, name), form)


def _told(
    room: Stockroom,
    weight: str | None,
    height: str | None,
    allergens: Iterable[str] | None,
    dislikes: Iterable[str] | None,
    edition: str | None,
) -> Told:
    """What was said of size, allergens, dislikes and figures. Raises BadInput."""
    from stockroom.domain.foods import Allergen
    from stockroom.domain.member_records import Figures
    from stockroom.domain.member_sizes import read_member_height, read_member_weight
    from stockroom.services.people import Told

    return Told(
        body_weight_dg=None if weight is None else read_member_weight(weight, room.units),
        height_mm=None if height is None else read_member_height(height, room.units),
        figures=next((one for one in Figures if one.word == edition), None),
        allergens=None if allergens is None else [Allergen(one) for one in allergens],
        dislikes=None if dislikes is None else list(dislikes),
    )


def _one_of(said: bool, taken_back: bool, option: str, other: str) -> None:
    """A usage error when both of two options are said."""
    if said and taken_back:
        raise click.UsageError(f"Say {option} or {other}, not both.", click.get_current_context())
