"""The menu: some days planned from the shelves, kept, changed and cooked from."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command, Group
from stockroom.cli.menu_options import (
    planning,
    tell_search,
    wish_options,
    wishes_said,
)
from stockroom.cli.options import json_form, list_form, number
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from datetime import date

    from stockroom.domain.menu_records import MenuRequest
    from stockroom.services.session import Stockroom

_MOST_DAYS = 60
_MOST_PEOPLE = 1000

_day = click.argument("day", metavar="DAY")
_dish = click.argument("dish", metavar="DISH")


@click.group("menu", cls=Group, invoke_without_command=True, no_args_is_help=True)
@click.option(
    "--days", type=number(1, _MOST_DAYS), metavar="N", help="How many days; 7 if not said."
)
@click.option("--from", "from_day", metavar="DAY", help="The first day; today if not said.")
@wish_options
@planning
@list_form
@click.pass_context
def menu(
    context: click.Context,
    days: int | None,
    from_day: str | None,
    seconds: int,
    keep: bool,
    form: str | None,
    **said: str | None,
) -> None:
    """Menu: plan some days from what is on the shelves.

    It saves as much as it can from being wasted, and keeps to energy, protein, water, variety and
    to what those who eat must not get. What is locked stays. Ctrl-C ends the search and keeps the
    best found so far. Nothing is recorded without --keep.

    \b
    stockroom menu --days 14 --keep
    stockroom menu --days 7 --cook-on "Wed Sat" --water "6 L"
    """
    if context.invoked_subcommand is not None:
        if days or from_day or keep or form or any(said.values()):
            raise click.UsageError(
                f"Say the options after {context.invoked_subcommand}, not before it.", context
            )
        return
    from stockroom.domain.menu_records import MenuRequest
    from stockroom.domain.quantities import read_day
    from stockroom.services.menu import USUAL_DAYS
    from stockroom.services.menu_wishes import menu_wishes

    wishes = context.find_object(Wishes) or Wishes()
    with wishes.room() as room:
        first = room.today if from_day is None else read_day(from_day, room.today, "first day")
        wished = wishes_said(menu_wishes(room), said)
        _plan(room, MenuRequest(first, days or USUAL_DAYS, wished), seconds, keep, form)


def _plan(
    room: Stockroom, request: MenuRequest, seconds: int, keep: bool, form: str | None
) -> None:
    """Search, say how far it is, keep it if asked to, and show it."""
    from stockroom.reports.menu import offer_report
    from stockroom.services.menu import keep_menu

    offer = tell_search(room, request, seconds)
    done = keep_menu(room, offer) if keep else None
    output.show(offer_report(offer, done), form, room.units)


@menu.command("show", cls=Command)
@list_form
@click.pass_obj
def show(wishes: Wishes, form: str | None) -> None:
    """Show the kept menu: what is cooked, what is to come, what has changed since."""
    from stockroom.reports.menu import menu_report
    from stockroom.services.menu_shown import shown_menu

    with wishes.room() as room:
        output.show(menu_report(shown_menu(room)), form, room.units)


@menu.command("again", cls=Command)
@wish_options
@planning
@json_form
@click.pass_obj
def again(wishes: Wishes, seconds: int, keep: bool, form: str | None, **said: str | None) -> None:
    """Plan the kept menu again from today on, around what is locked and cooked.

    By the wishes it was made by, and those said now.
    """
    from dataclasses import replace

    from stockroom.services.menu import request_again

    with wishes.room() as room:
        request = request_again(room)
        request = replace(request, wishes=wishes_said(request.wishes, said))
        _plan(room, request, seconds, keep, form)


@menu.command("swap", cls=Command)
@_day
@_dish
@click.argument("recipe", metavar="RECIPE")
@planning
@json_form
@click.pass_obj
def swap(
    wishes: Wishes,
    day: str,
    dish: str,
    recipe: str,
    seconds: int,
    keep: bool,
    form: str | None,
) -> None:
    """Put a recipe in the place of a planned dish and plan the other days again around it.

    \b
    stockroom menu swap 2026-11-28 "Pea soup" "Night-watch curry" --keep
    """
    from stockroom.domain.menu_records import Swap
    from stockroom.services.menu import request_again

    with wishes.room() as room:
        request = request_again(room, swap=Swap(_read_day(room, day), dish, recipe))
        _plan(room, request, seconds, keep, form)


@menu.command("lock", cls=Command)
@_day
@_dish
@click.option("--free", is_flag=True, help="Free it instead.")
@json_form
@click.pass_obj
def lock(wishes: Wishes, day: str, dish: str, free: bool, form: str | None) -> None:
    """Lock a dish on its day, so that planning again leaves it there.

    DISH may be the beginning of a name, when only one of the day begins so.
    """
    from stockroom.services.menu import lock_dish, unlock_dish

    with wishes.room() as room:
        change = unlock_dish if free else lock_dish
        finish(change(room, _read_day(room, day), dish), form)


@menu.command("cook", cls=Command)
@_day
@click.argument("dish", metavar="[DISH]", default="")
@click.option(
    "--people",
    type=number(1, _MOST_PEOPLE),
    metavar="N",
    help="For how many; as planned if not said.",
)
@click.option("--short", is_flag=True, help="Take what there is when some is short.")
@json_form
@click.pass_obj
def cook(
    wishes: Wishes, day: str, dish: str, people: int | None, short: bool, form: str | None
) -> None:
    """Cook a planned dish: take its packages off the shelves and mark it as cooked.

    Without DISH the only one of the day that is still to be cooked. The clock of rehydrated food
    starts now.
    """
    from stockroom.services.menu import cook_planned

    with wishes.room() as room:
        done = cook_planned(room, _read_day(room, day), dish, people=people, take_short=short)
        finish(done, form)


@menu.command("wishes", cls=Command)
@wish_options
@click.option("--usual", is_flag=True, help="Go back to the usual ones first.")
@json_form
@click.pass_obj
def wishes_(wishes: Wishes, usual: bool, form: str | None, **said: str | None) -> None:
    """Show the wishes for menus, or set those that are said.

    \b
    stockroom menu wishes --cook-on "Wed Sat" --helpings "100 200"
    """
    from stockroom.domain.menu_wishes import USUAL
    from stockroom.reports.menu import wishes_report
    from stockroom.services.menu_wishes import menu_wishes, set_menu_wishes

    with wishes.room() as room:
        if usual or any(said.values()):
            before = USUAL if usual else menu_wishes(room)
            finish(set_menu_wishes(room, wishes_said(before, said)), form)
        else:
            output.show(wishes_report(menu_wishes(room)), form, room.units)


def _read_day(room: Stockroom, typed: str) -> date:
    """The day of a planned dish. Raises BadInput."""
    from stockroom.domain.quantities import read_day

    return read_day(typed, room.today, "day")
