"""Following packages: where one comes from, what shares its past, what soft ones have in common."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.base import Command
from stockroom.cli.options import Choices, list_form
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from collections.abc import Iterable


def _kinds() -> Iterable[str]:
    from stockroom.domain.trace_records import GroupKind

    return tuple(GroupKind)


_code = click.argument("code", metavar="CODE")


@click.command("trace", cls=Command)
@_code
@list_form
@click.pass_obj
def trace(wishes: Wishes, code: str, form: str | None) -> None:
    """Trace a package or a lot back to the machine, and forward.

    Back: the run, its trays with weights, tests and extra hours, what showed dryness, the absorber
    packet and the box. Forward: every package that shares its lot, run, packet or box, also those
    that are gone, and the meals cooked with it.
    """
    from stockroom.reports.tracing import trace_report
    from stockroom.services.tracing import trace as follow

    with wishes.room() as room:
        output.show(trace_report(follow(room, code), room.units), form, room.units)


@click.command("recall", cls=Command)
@_code
@click.option("--by", type=Choices(_kinds), required=True, help="What they share with the package.")
@click.option("--why", required=True, metavar="TEXT", help="The reason, in a few words.")
@list_form
@click.pass_obj
def recall(wishes: Wishes, code: str, by: str, why: str, form: str | None) -> None:
    """Call back every package that shares a lot, run, absorber packet or box.

    Each sealed or opened one becomes suspect, in one action that undo takes back. They are listed
    place by place: fetch them, look at each, then record it with check. By run means the run the
    package was last dried in.
    """
    from stockroom.domain.trace_records import GroupKind
    from stockroom.reports.tracing import recalled_report
    from stockroom.services.tracing import recall as call_back
    from stockroom.services.tracing import recalled

    with wishes.room() as room:
        done = call_back(room, code, GroupKind(by), why)
        output.show(recalled_report(done, recalled(room, done)), form, room.units)
        if form != "json":
            diagnostics.tell("Look at each, then: stockroom check CODE crisp (or soft, leak).")
            diagnostics.bear_in_mind(done.cautions)


@click.command("common", cls=Command)
@click.option("--food", metavar="FOOD", help="Only packages of this food.")
@click.option("--since", metavar="DATE", help="Only looks from this day on.")
@list_form
@click.pass_obj
def common(wishes: Wishes, food: str | None, since: str | None, form: str | None) -> None:
    """Compare what packages found soft have in common.

    By container, absorber packet, box, tray, place, run, closing and kind of food: so many soft of
    so many looked at, with the range that leaves, beside all others. It shows where to look
    closer, never a cause.
    """
    from stockroom.domain.quantities import read_day
    from stockroom.reports.tracing import common_report
    from stockroom.services.tracing import in_common

    with wishes.room() as room:
        day = None if since is None else read_day(since, room.today, "since")
        output.show(common_report(in_common(room, food=food, since=day)), form, room.units)
