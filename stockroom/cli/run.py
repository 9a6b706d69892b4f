"""The bench: runs of the machine, tray by tray."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.acting import finish
from stockroom.cli.base import Group
from stockroom.cli.drying import (
    again,
    dry,
    more,
    note_option,
    read_weight_of,
    run_option,
    tare_option,
    test,
    tray_argument,
    weigh,
)
from stockroom.cli.options import json_form, list_form, number, working
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from stockroom.services.session import Stockroom

_run_argument = click.argument("run_id", type=number(), required=False, metavar="[RUN]")


@click.group("run", cls=Group)
def run() -> None:
    """Runs: load the trays, weigh them wet and dry, test them, close into lots."""


@run.command("new")
@click.option("--on", "day", metavar="DAY", help="The day it started, when not today.")
@note_option
@json_form
@click.pass_obj
def new(wishes: Wishes, day: str | None, note: str, form: str | None) -> None:
    """Start a run."""
    from stockroom.services.bench import start_run

    with wishes.room() as room:
        finish(start_run(room, started_on=read_on(room, day), note=note), form)


@run.command("load")
@tray_argument
@click.argument("food", metavar="FOOD")
@click.argument("weight", required=False, metavar="[WEIGHT]")
@tare_option
@run_option
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
@tray_argument
@run_option
@json_form
@click.pass_obj
def unload(wishes: Wishes, position: int, run_id: int | None, form: str | None) -> None:
    """Take a tray out of an open run, with its weights."""
    from stockroom.services.bench import unload_tray

    with wishes.room() as room:
        finish(unload_tray(room, position, run_id=run_id), form)


for _each in (weigh, dry, test, more):
    run.add_command(_each)


@run.command("show")
@_run_argument
@working
@json_form
@click.pass_obj
def show(wishes: Wishes, run_id: int | None, working: bool, form: str | None) -> None:
    """Show a run with its trays, what shows that they are dry, its lots and its cautions.

    Every weight and test, what of it counts, which tray is slowest, and for each food whether it
    is shown to be dry, with the next steps. With --working how the water to expect, the water of
    each food and the verdict on its dryness were reached.
    """
    from dataclasses import replace

    from stockroom.cli.today import by_this_clock
    from stockroom.reports.runs import run_report
    from stockroom.services.bench import run_detail
    from stockroom.services.evidence import run_evidence

    with wishes.room() as room:
        evidence = run_evidence(room, run_id)
        local = replace(evidence, extra=tuple(map(by_this_clock, evidence.extra)))
        report = run_report(run_detail(room, run_id), local)
        if working:
            from stockroom.reports.workings import with_working
            from stockroom.services.evidence import batch_working
            from stockroom.services.workings import run_working

            pages = [run_working(room, run_id), *map(batch_working, evidence.batches)]
            report = with_working(report, *(one for page in pages for one in page.workings))
        output.show(report, form, room.units)


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
            _say_what_is_not_shown_dry(room, done.codes)
            diagnostics.tell(f"Next: stockroom pack {done.codes[0]} --into 6xpouch-1500-foil")


run.add_command(again)


def _say_what_is_not_shown_dry(room: Stockroom, codes: Sequence[str]) -> None:
    """Lots that may not be packed without oxygen yet; an undo puts the run back on the machine."""
    from stockroom.services.dryness import dryness_of

    for code in codes:
        gate = dryness_of(room, code)
        if not gate.open:
            diagnostics.tell(f"Lot {code}: {gate.words}")


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


def say_if_cut(cut: bool, count: int) -> None:
    """Say that a list holds more than was shown."""
    if cut:
        diagnostics.tell(f"The latest {count} are shown; --count asks for more.")
