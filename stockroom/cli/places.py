"""Places: the tree of rooms, racks and bins, and how warm they are."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.acting import finish
from stockroom.cli.base import Group
from stockroom.cli.climate import climate, humidity, readings, temperature
from stockroom.cli.options import Choices, json_form, list_form
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stockroom.services.places import PlaceKind
    from stockroom.services.session import Stockroom


def _kinds() -> Iterable[str]:
    from stockroom.services.places import PlaceKind

    return tuple(PlaceKind)


_place = click.argument("place", metavar="PLACE")
_kind = click.option("--kind", type=Choices(_kinds), help="What it is.")
_temperature = click.option(
    "--temperature",
    "--temp",
    "temp",
    metavar="DEGREES",
    help="How warm it is there, such as 12, 12 C or 54 F.",
)


@click.group("place", cls=Group)
def place() -> None:
    """Places: where packages stand, and how warm it is there."""


@place.command("add")
@_place
@_kind
@_temperature
@click.option("--note", default="", metavar="TEXT", help="A note to keep with it.")
@json_form
@click.pass_obj
def add(
    wishes: Wishes, place: str, kind: str | None, temp: str | None, note: str, form: str | None
) -> None:
    """Add a place; PLACE is a path such as cellar/rack 1/bin 2.

    Everything before the last name must be there already. Without a temperature it has that of
    the place above it.
    """
    from stockroom.services.places import add_place

    with wishes.room() as room:
        done = add_place(
            room, place, kind=_read_kind(kind), temperature_dc=_degrees(room, temp), note=note
        )
        finish(done, form)


@place.command("list")
@list_form
@click.pass_obj
def list_places(wishes: Wishes, form: str | None) -> None:
    """List every place with its temperature and its packages."""
    from stockroom.reports.record import place_list
    from stockroom.services.shelves import places_with_counts

    with wishes.room() as room:
        output.show(place_list(places_with_counts(room)), form, room.units)


@place.command("rename")
@_place
@click.argument("name", metavar="NAME")
@json_form
@click.pass_obj
def rename(wishes: Wishes, place: str, name: str, form: str | None) -> None:
    """Give a place another name; what stands in it stays there."""
    from stockroom.services.places import change_place

    with wishes.room() as room:
        finish(change_place(room, place, new_name=name), form)


@place.command("set")
@_place
@_kind
@_temperature
@click.option("--note", metavar="TEXT", help="Its note; empty takes it away.")
@json_form
@click.pass_obj
def set_place(
    wishes: Wishes,
    place: str,
    kind: str | None,
    temp: str | None,
    note: str | None,
    form: str | None,
) -> None:
    """Correct a place's kind, temperature or note; what is not said stays."""
    from stockroom.services.places import change_place

    with wishes.room() as room:
        done = change_place(
            room, place, kind=_read_kind(kind), temperature_dc=_degrees(room, temp), note=note
        )
        finish(done, form)


@place.command("put")
@_place
@click.argument("into", metavar="[INTO]", required=False)
@click.option("--top", is_flag=True, help="To the top of the tree, into no other place.")
@json_form
@click.pass_obj
def put(wishes: Wishes, place: str, into: str | None, top: bool, form: str | None) -> None:
    """Put a place, with everything in it, into another."""
    from stockroom.services.places import put_place

    if top == (into is not None):
        raise click.UsageError("Say the place to put it into, or --top.", _context())
    with wishes.room() as room:
        finish(put_place(room, place, into or ""), form)


@place.command("remove")
@_place
@json_form
@click.pass_obj
def remove(wishes: Wishes, place: str, form: str | None) -> None:
    """Take a place that was never used out of the record."""
    from stockroom.services.places import remove_place

    with wishes.room() as room:
        finish(remove_place(room, place), form)


for _each in (temperature, readings, humidity, climate):
    place.add_command(_each)


def _read_kind(said: str | None) -> PlaceKind | None:
    """The kind of place, when it was said."""
    from stockroom.services.places import PlaceKind

    return None if said is None else PlaceKind(said)


def _degrees(room: Stockroom, typed: str | None) -> int | None:
    """A temperature in the household's units, when it was said. Raises BadInput."""
    from stockroom.domain.quantities import read_temperature

    return None if typed is None else read_temperature(typed, room.units)


def _context() -> click.Context:
    return click.get_current_context()
