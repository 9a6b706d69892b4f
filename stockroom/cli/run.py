"""The bench: runs of the machine, tray by tray."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.acting import finish
from stockroom.cli.base import Group
from stockroom.cli.options import json_form, list_form, number
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from datetime import date

    from stockroom.services.session import Stockroom

_MOST_TRAYS = 30

_run = click.option(
    "--run", "run_id", type=number(), metavar="N", help="Which run; the open one when left out."
)
_run_argument = click.argument("run_id", type=number(), required=False, metavar="[RUN]")
_tray = click.argument("position", type=number(1, _MOST_TRAYS), metavar="TRAY")
_weight = click.argument("weight", metavar="WEIGHT")
_tare = click.option(
    "--tare", metavar="WEIGHT", help="The empty tray's weight, when the scale was not tared."
)
_note = click.option("--note", default="", metavar="TEXT", help="A note to keep with it.")


@click.group("run", cls=Group)
def run() -> None:
    """Runs: load the trays, weigh them wet and dry, close into lots."""


@run.command("new")
@click.option("--on", "day", metavar="DAY", help="The day it started, when not today.")
@_note
@json_form
@click.pass_obj
def new(wishes: Wishes, day: str | None, note: str, form: str | None) -> None:
    """Start a run."""
    from stockroom.services.bench import start_run

    with wishes.room() as room:
        finish(start_run(room, started_on=read_on(room, day), note=note), form)


@run.command("load")
@_tray
@click.argument("food", metavar="FOOD")
@click.argument("weight", required=False, metavar="[WEIGHT]")
@_tare
@_run
@json_form
@click.pass_obj
def load(
    wishes: Wishes,
    position: int,
    food: str,
    weight: str | None,
    tare: str | None,
    run_id: int | None,
    form: str | None,
) -> None:
    """Put FOOD on a tray, with its loaded WEIGHT when it is known.

    A food that is new to the household is taken over from the reference table: see stockroom
    food search.
    """
    from stockroom.services.bench import load_tray

    with wishes.room() as room:
        done = load_tray(
            room,
            position,
            food,
            gross_dg=read_weight_of(room, weight, "weight"),
            tare_dg=read_weight_of(room, tare, "tare") or 0,
            run_id=run_id,
        )
        finish(done, form)


@run.command("unload")
@_tray
@_run
@json_form
@click.pass_obj
def unload(wishes: Wishes, position: int, run_id: int | None, form: str | None) -> None:
    """Take a tray out of an open run, with its weights."""
    from stockroom.services.bench import unload_tray

    with wishes.room() as room:
        finish(unload_tray(room, position, run_id=run_id), form)


@run.command("weigh")
@_tray
@_weight
@_tare
@_run
@json_form
@click.pass_obj
def weigh(
    wishes: Wishes,
    position: int,
    weight: str,
    tare: str | None,
    run_id: int | None,
    form: str | None,
) -> None:
    """Record a tray's weight as loaded, before drying."""
    _weigh(wishes, "wet", position, weight, tare, run_id, form)


@run.command("dry")
@_tray
@_weight
@_tare
@_run
@json_form
@click.pass_obj
def dry(
    wishes: Wishes,
    position: int,
    weight: str,
    tare: str | None,
    run_id: int | None,
    form: str | None,
) -> None:
    """Record a tray's weight after drying; the latest weight counts."""
    _weigh(wishes, "dry", position, weight, tare, run_id, form)


def _weigh(
    wishes: Wishes,
    stage: str,
    position: int,
    weight: str,
    tare: str | None,
    run_id: int | None,
    form: str | None,
) -> None:
    """Record one weight of a tray; without a tare that of its last weighing counts."""
    from stockroom.domain.quantities import read_weight
    from stockroom.services.bench import weigh_tray

    with wishes.room() as room:
        done = weigh_tray(
            room,
            position,
            stage,
            read_weight(weight, room.units),
            tare_dg=read_weight_of(room, tare, "tare"),
            run_id=run_id,
        )
        finish(done, form)


@run.command("show")
@_run_argument
@json_form
@click.pass_obj
def show(wishes: Wishes, run_id: int | None, form: str | None) -> None:
    """Show a run with its trays, the water to expect, its lots and its cautions."""
    from stockroom.reports.runs import run_report
    from stockroom.services.bench import run_detail

    with wishes.room() as room:
        output.show(run_report(run_detail(room, run_id)), form, room.units)


@run.command("close")
@_run_argument
@click.option("--on", "day", metavar="DAY", help="The day it was closed, when not today.")
@json_form
@click.pass_obj
def close(wishes: Wishes, run_id: int | None, day: str | None, form: str | None) -> None:
    """Close a run: the trays of each food become one lot, coded by the closing day."""
    from stockroom.services.bench import close_run

    with wishes.room() as room:
        done = close_run(room, run_id=run_id, closed_on=read_on(room, day))
        finish(done, form)
        if form is None and done.codes:
            diagnostics.tell(f"Next: stockroom pack {done.codes[0]} --into 6xpouch-1500-foil")


@run.command("abandon")
@_run_argument
@json_form
@click.pass_obj
def abandon(wishes: Wishes, run_id: int | None, form: str | None) -> None:
    """Give up an open run: nothing is made of it, its weights stay in the record."""
    from stockroom.services.bench import abandon_run

    with wishes.room() as room:
        finish(abandon_run(room, run_id=run_id), form)


@run.command("list")
@click.option(
    "--count", type=number(), default=100, show_default=True, metavar="N", help="How many at most."
)
@list_form
@click.pass_obj
def list_runs(wishes: Wishes, count: int, form: str | None) -> None:
    """List the runs, the latest first."""
    from stockroom.reports.runs import run_list
    from stockroom.services import bench

    with wishes.room() as room:
        found = bench.list_runs(room, count=count + 1)
        output.show(run_list(found[:count]), form, room.units)
        say_if_cut(len(found) > count, count)


def read_on(room: Stockroom, typed: str | None) -> date | None:
    """A day that may be left out. Raises BadInput."""
    from stockroom.domain.quantities import read_day

    return None if typed is None else read_day(typed, room.today, "day")


def read_weight_of(room: Stockroom, typed: str | None, what: str) -> int | None:
    """A weight in the household's units that may be left out. Raises BadInput."""
    from stockroom.domain.quantities import read_weight

    return None if typed is None else read_weight(typed, room.units, what)


def say_if_cut(cut: bool, count: int) -> None:
    """Say that a list holds more than was shown."""
    if cut:
        diagnostics.tell(f"The latest {count} are shown; --count asks for more.")
