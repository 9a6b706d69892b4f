"""Starting: a new store, the demo, the household's settings, and the screens."""

from __future__ import annotations

import shlex
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from stockroom.cli import asking, diagnostics, output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command
from stockroom.cli.errors import NeedsTerminal
from stockroom.cli.options import Choices, json_form, number
from stockroom.cli.session import Wishes, reachable, readable_path

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stockroom.domain.quantities import UnitSystem
    from stockroom.services.session import Stockroom

_MOST_PEOPLE = 500


def unit_words() -> Iterable[str]:
    """The systems of units."""
    from stockroom.domain.quantities import UnitSystem

    return tuple(UnitSystem)


def cup_words() -> Iterable[str]:
    """The cups water is measured with."""
    from stockroom.domain.units import Cup

    return tuple(Cup)


_units = click.option("--units", type=Choices(unit_words), help="Units to type and to read.")
_people = click.option(
    "--people", type=number(1, _MOST_PEOPLE), metavar="N", help="How many people eat from it."
)
_name = click.option("--name", metavar="TEXT", help="What the household is called.")


@click.command("init", cls=Command)
@_units
@_people
@_name
@json_form
@click.pass_obj
def init(
    wishes: Wishes, units: str | None, people: int | None, name: str | None, form: str | None
) -> None:
    """Start a new stockroom.

    What is not said is asked for on a terminal: the units, and how many people eat from it. A
    store that is there already is never overwritten.
    """
    from stockroom.errors import StoreExists
    from stockroom.services.household import create_stockroom
    from stockroom.services.results import Done

    path, actor = wishes.path, wishes.actor
    with reachable(path):
        if path.exists():
            raise StoreExists(str(path))
    system, mouths = _chosen_units(units), _chosen_people(people)
    with reachable(path):
        create_stockroom(
            path, clock=wishes.clock, actor=actor, units=system, people=mouths, name=name or ""
        ).close()
    finish(Done(f"started a stockroom at {path}"), form)
    if form is None:
        diagnostics.tell(
            "Next: stockroom place add cellar, then stockroom run new and stockroom run load."
        )


def _chosen_units(said: str | None) -> UnitSystem:
    """The units said or asked for."""
    from stockroom.domain.quantities import UnitSystem
    from stockroom.errors import BadInput

    def read(typed: str) -> UnitSystem:
        wanted = typed.strip().lower()
        if wanted not in tuple(UnitSystem):
            raise BadInput("units", typed, "metric or us")
        return UnitSystem(wanted)

    if said is not None:
        return UnitSystem(said)
    return asking.ask("Units, metric or us", "metric", "--units metric or --units us", read)


def _chosen_people(said: int | None) -> int:
    """The number of people said or asked for."""
    from stockroom.domain.quantities import read_whole

    if said is not None:
        return said
    return asking.ask(
        "How many people eat from it",
        "2",
        "--people 2",
        lambda typed: read_whole(typed, "people", 1, _MOST_PEOPLE),
    )


@click.command("household", cls=Command)
@_units
@_people
@_name
@click.option(
    "--altitude", metavar="M", help="Height above the sea, in metres, or such as 3300 ft."
)
@click.option(
    "--cup", type=Choices(cup_words), help="The cup for water: US, 236.6 mL, or label, 240 mL."
)
@json_form
@click.pass_obj
def household(
    wishes: Wishes,
    units: str | None,
    people: int | None,
    name: str | None,
    altitude: str | None,
    cup: str | None,
    form: str | None,
) -> None:
    """Show the household's units, people, name, height and cup, or change them.

    Changing the units changes how weights are typed and shown; the record stays as it is. The
    height decides how much air a package holds: every best-by is computed anew. The cup is the
    one the water of a dish is shown in.
    """
    from stockroom.cli.freshness import bring_up_to_date
    from stockroom.domain.quantities import UnitSystem
    from stockroom.domain.units import Cup
    from stockroom.reports.household import household_report
    from stockroom.services.household import change_household

    with wishes.room() as room:
        if all(one is None for one in (units, people, name, altitude, cup)):
            now = room.household
            report = household_report(
                now.name, now.people, now.units, str(room.path), now.altitude_m, now.cup
            )
            output.show(report, form, now.units)
            return
        done = change_household(
            room,
            units=None if units is None else UnitSystem(units),
            people=people,
            name=name,
            altitude_m=None if altitude is None else _height_m(altitude),
            cup=None if cup is None else Cup(cup),
        )
        bring_up_to_date(room)
        finish(done, form)


def _height_m(typed: str) -> int:
    """A height above the sea in whole metres, from metres or feet. Raises BadInput."""
    from stockroom.cli.exact import read_number
    from stockroom.domain.quantities import nearest_whole
    from stockroom.domain.units import FOOT_MM

    said = " ".join(typed.casefold().split())
    feet = said.endswith(("ft", "feet"))
    bare = said.removesuffix("ft").removesuffix("feet").removesuffix("m").rstrip()
    height = read_number(bare, "altitude", least=-30_000, most=30_000)
    return nearest_whole(height * FOOT_MM / 1000 if feet else height)


@click.command("demo", cls=Command)
@click.option(
    "--at", "at", metavar="PATH", help="Build it in this file instead; it must not exist yet."
)
@click.pass_obj
def demo(wishes: Wishes, at: str | None) -> int:
    """Look around in an invented household's stockroom.

    A fresh copy of the demo store is built, two years of it, and the screens open on it. Your own
    store is not touched. Without a terminal the store is built and its place is printed.
    """
    from stockroom.config import demo_store_path

    named = at if at is not None else wishes.store
    path = demo_store_path() if named is None else readable_path(named)
    with reachable(path):
        if named is None:
            _clear(path)
        diagnostics.tell("Building the demo store; this takes a few seconds.")
        from seeds_demo.build import build_demo

        room = build_demo(path)
    try:
        if asking.screens_possible():
            return _run_screens(_as_wished(room, wishes))
        _say_where(path, room)
        return 0
    finally:
        room.close()


def _clear(path: Path) -> None:
    """Take away the last demo store, with what SQLite keeps beside it."""
    for suffix in ("", "-wal", "-shm"):
        path.with_name(path.name + suffix).unlink(missing_ok=True)


def _as_wished(room: Stockroom, wishes: Wishes) -> Stockroom:
    """The demo on the day and for the person that were asked for."""
    if wishes.today is not None:
        room = replace(room, clock=wishes.clock)
    return room if wishes.who is None else replace(room, actor=wishes.actor)


def _say_where(path: Path, room: Stockroom) -> None:
    """Where the demo store is, and the command that opens it on its own day."""
    from stockroom.reports.plain import clean

    quoted = clean(shlex.quote(str(path)))
    output.write(
        f"The demo store is at {clean(str(path))}.\n"
        f"Open it with: stockroom --store {quoted} --today {room.today.isoformat()}\n"
    )


def open_screens(wishes: Wishes) -> int:
    """The screens on the store. Raises NeedsTerminal or a StoreTrouble."""
    if not asking.screens_possible():
        raise NeedsTerminal
    with wishes.room_as_it_is() as room:
        return _run_screens(room)


def _run_screens(room: Stockroom) -> int:
    """Hand over to the screens; the only way from a command to them."""
    from stockroom.tui.start import run_app

    return run_app(room)
