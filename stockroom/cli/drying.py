"""Trays of a run: weighed wet and dry, tested for dryness, dried longer, dried again."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics
from stockroom.cli.acting import finish
from stockroom.cli.base import Command
from stockroom.cli.options import Choices, json_form, number
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from collections.abc import Iterable
    from fractions import Fraction

    from stockroom.services.session import Stockroom

MOST_TRAYS = 30
OK, FAIL = "ok", "fail"

run_option = click.option(
    "--run", "run_id", type=number(), metavar="N", help="Which run; the open one when left out."
)
tray_argument = click.argument("position", type=number(1, MOST_TRAYS), metavar="TRAY")
tare_option = click.option(
    "--tare", metavar="WEIGHT", help="The empty tray's weight, when the scale was not tared."
)
note_option = click.option("--note", default="", metavar="TEXT", help="A note to keep with it.")
_weight = click.argument("weight", metavar="WEIGHT")


def _tests() -> Iterable[str]:
    from stockroom.services.dryness import DrynessTest

    return tuple(DrynessTest)


@click.command("weigh", cls=Command)
@tray_argument
@_weight
@tare_option
@run_option
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
    with wishes.room() as room:
        _weigh(room, "wet", position, weight, tare, None, run_id, form)


@click.command("dry", cls=Command)
@tray_argument
@_weight
@click.option("--hours", metavar="H", help="Hours of drying so far, such as 30 or 31.5.")
@tare_option
@run_option
@json_form
@click.pass_obj
def dry(
    wishes: Wishes,
    position: int,
    weight: str,
    hours: str | None,
    tare: str | None,
    run_id: int | None,
    form: str | None,
) -> None:
    """Record a tray's weight after drying; the latest weight counts.

    Weigh again after an hour or more of drying: two weights that agree show that nothing more
    goes. With more than one, what they show is said beside the answer.

    \b
    stockroom run dry 1 156 --hours 30
    stockroom run dry 1 155 --hours 31.5
    """
    with wishes.room() as room:
        _weigh(room, "dry", position, weight, tare, hours, run_id, form)
        if form is None:
            _say_whether_constant(room, position, run_id)


def _weigh(
    room: Stockroom,
    stage: str,
    position: int,
    weight: str,
    tare: str | None,
    hours: str | None,
    run_id: int | None,
    form: str | None,
) -> None:
    """Record one weight of a tray; without a tare that of its last weighing counts."""
    from stockroom.domain.quantities import read_weight
    from stockroom.services.bench import weigh_tray

    done = weigh_tray(
        room,
        position,
        stage,
        read_weight(weight, room.units),
        tare_dg=read_weight_of(room, tare, "tare"),
        hours=None if hours is None else _read_hours(hours),
        run_id=run_id,
    )
    finish(done, form)


def _say_whether_constant(room: Stockroom, position: int, run_id: int | None) -> None:
    """What the weights of a tray show so far, once there are two that count."""
    from stockroom.services.evidence import run_evidence

    evidence = run_evidence(room, run_id)
    (record,) = [one for one in evidence.trays if one.tray.position == position]
    if record.finding.plateau is not None:
        said = f"Tray {position}: {record.finding.reason} {record.finding.coarse}"
        diagnostics.tell(said.rstrip())


@click.command("test", cls=Command)
@tray_argument
@click.argument("kind", type=Choices(_tests))
@click.argument("result", type=Choices(lambda: (OK, FAIL)))
@note_option
@run_option
@json_form
@click.pass_obj
def test(
    wishes: Wishes,
    position: int,
    kind: str,
    result: str,
    note: str,
    run_id: int | None,
    form: str | None,
) -> None:
    """Record a test of a tray's food by hand; a closed run is named with --run.

    cold: feel for cold or heavy spots; ok is none. break: break the thickest piece and look at
    its middle; ok is a snap, dry through. Never taste food to test it.

    \b
    stockroom run test 2 cold ok
    stockroom run test 2 break fail --note "bends in the middle"
    """
    from stockroom.services.dryness import DrynessTest, record_test

    with wishes.room() as room:
        done = record_test(
            room, position, DrynessTest(kind), result == OK, run_id=run_id, note=note
        )
        finish(done, form)


@click.command("more", cls=Command)
@click.argument("hours", metavar="HOURS")
@note_option
@run_option
@json_form
@click.pass_obj
def more(wishes: Wishes, hours: str, note: str, run_id: int | None, form: str | None) -> None:
    """Dry an open run for a few more hours.

    What was weighed and tested before no longer shows that the food is dry. The Round and the
    calendar remind of the end until something is weighed.

    \b
    stockroom run more 4 --note "cold in the middle"
    """
    from stockroom.services.dryness import dry_longer

    with wishes.room() as room:
        finish(dry_longer(room, _read_hours(hours), run_id=run_id, note=note), form)
        if form is None:
            diagnostics.tell("The time it ends is in stockroom round and stockroom run show.")


@click.command("again", cls=Command)
@tray_argument
@click.argument("codes", nargs=-1, required=True, metavar="CODE...")
@click.option("--weight", metavar="WEIGHT", help="Its weight as loaded, when it is known.")
@tare_option
@run_option
@json_form
@click.pass_obj
def again(
    wishes: Wishes,
    position: int,
    codes: tuple[str, ...],
    weight: str | None,
    tare: str | None,
    run_id: int | None,
    form: str | None,
) -> None:
    """Put food from the queue on a tray, to be dried again.

    Held packages of one lot share a tray, or the code of a lot puts its unpacked food there. It
    is weighed and tested as fresh food is; closing the run takes it off. See stockroom queue.

    \b
    stockroom run again 3 26329A01 26329A02 --weight 118
    """
    from stockroom.services.redrying import load_again

    with wishes.room() as room:
        done = load_again(
            room,
            position,
            codes,
            gross_dg=read_weight_of(room, weight, "weight"),
            tare_dg=read_weight_of(room, tare, "tare") or 0,
            run_id=run_id,
        )
        finish(done, form)


def _read_hours(typed: str) -> Fraction:
    """Hours of drying, as a plain number. Raises BadInput."""
    from stockroom.cli.exact import read_number
    from stockroom.services.bench import MOST_HOURS

    return read_number(typed, "hours", most=MOST_HOURS)


def read_weight_of(room: Stockroom, typed: str | None, what: str) -> int | None:
    """A weight in the household's units that may be left out. Raises BadInput."""
    from stockroom.domain.quantities import read_weight

    return None if typed is None else read_weight(typed, room.units, what)
