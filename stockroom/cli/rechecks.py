"""Rechecks: what to look at on which day, why then, and how often the household looks."""

from __future__ import annotations

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.acting import finish
from stockroom.cli.base import Group
from stockroom.cli.options import json_form, list_form, number, working
from stockroom.cli.session import Wishes

_LONGEST_DAYS = 3660


@click.group("recheck", cls=Group)
def recheck() -> None:
    """Rechecks: the plan day by day, why a package comes up then, the settings."""


@recheck.command("list")
@click.option(
    "--days",
    type=number(0, _LONGEST_DAYS),
    default=14,
    show_default=True,
    metavar="N",
    help="How many days ahead; 0 for today alone.",
)
@list_form
@click.pass_obj
def list_(wishes: Wishes, days: int, form: str | None) -> None:
    """List which package to look at on which day, the worst risk of each day first.

    As it comes out if each is looked at on its day. Record a look with stockroom check.
    """
    from datetime import timedelta

    from stockroom.reports.rechecks import plan_list
    from stockroom.services.rechecks import recheck_plan
    from stockroom.services.shelves import packages_for

    with wishes.room() as room:
        plan = recheck_plan(room, room.today + timedelta(days=days))
        ids = list(dict.fromkeys(one.package_id for one in plan))
        packages = {
            one.package_id: one
            for start in range(0, len(ids), 500)
            for one in packages_for(room, ids[start : start + 500])
        }
        output.show(plan_list(plan, packages), form, room.units)


@recheck.command("show")
@click.argument("code", metavar="CODE")
@working
@json_form
@click.pass_obj
def show(wishes: Wishes, code: str, working: bool, form: str | None) -> None:
    """Show when a package is looked at again, why then, and how to look at it.

    With --working how the day was reached, with the source and standing of each part.
    """
    from stockroom.reports.rechecks import recheck_report
    from stockroom.services.rechecks import recheck_reasons, recheck_working
    from stockroom.services.shelves import package_detail

    with wishes.room() as room:
        reasons = recheck_reasons(room, code)
        detail = package_detail(room, code)
        assert detail.recheck is not None
        report = recheck_report(detail.package, detail.recheck, reasons)
        if working:
            from stockroom.reports.workings import with_working

            report = with_working(report, recheck_working(room, code))
        output.show(report, form, room.units)


@recheck.command("settings")
@click.option(
    "--first", type=number(), metavar="DAYS", help="Days from the settle check to the first look."
)
@click.option("--second", type=number(), metavar="DAYS", help="Days from then to the second look.")
@click.option("--later", type=number(), metavar="DAYS", help="Days between the looks after that.")
@click.option(
    "--days", metavar="WEEKDAYS", help="The weekdays set aside, such as “Sat Sun”, or every."
)
@click.option("--most", type=number(), metavar="N", help="How many packages a day at most.")
@json_form
@click.pass_obj
def settings(
    wishes: Wishes,
    first: int | None,
    second: int | None,
    later: int | None,
    days: str | None,
    most: int | None,
    form: str | None,
) -> None:
    """Show how often the household looks at its packages, or change it.

    What makes a package riskier shortens every wait; nothing lengthens one.

    \b
    stockroom recheck settings --days "Sat Sun" --most 15
    """
    from stockroom.cli.freshness import bring_up_to_date
    from stockroom.reports.rechecks import settings_report
    from stockroom.services.rechecks import change_schedule, schedule

    with wishes.room() as room:
        if (first, second, later, days, most) == (None,) * 5:
            output.show(settings_report(schedule(room)), form, room.units)
            return
        done = change_schedule(
            room,
            first_days=first,
            second_days=second,
            later_days=later,
            set_aside=None if days is None else read_weekdays(days),
            most_a_day=most,
        )
        bring_up_to_date(room)
        finish(done, form)
        if form is None:
            diagnostics.tell("The days of all packages were reckoned anew.")


_EVERY = ("every", "every day", "all", "daily")
_NAMES = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def read_weekdays(typed: str) -> frozenset[int]:
    """Weekdays as a person types them: "Sat Sun", "saturday, sunday", "every". Raises BadInput."""
    from stockroom.domain.quantities import unreadable

    words = " ".join(typed.replace(",", " ").casefold().split())
    if words in _EVERY:
        return frozenset(range(7))
    found: set[int] = set()
    for word in words.split():
        days = [day for day, name in enumerate(_NAMES) if name.startswith(word) and len(word) > 1]
        if len(days) != 1:
            found.clear()
            break
        found.add(days[0])
    if not found:
        raise unreadable("days", typed, "weekdays such as Sat Sun, or every")
    return frozenset(found)
