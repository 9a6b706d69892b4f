"""Looking ahead: what to use next, what would be wasted, for how long the store would feed us."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command, Group
from stockroom.cli.options import (
    Choices,
    json_form,
    list_form,
    number,
    refuse_csv_working,
    working,
)
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from fractions import Fraction

    from stockroom.domain.horizon.odds import Odds
    from stockroom.domain.horizon.pages import HorizonPage
    from stockroom.services.session import Stockroom

_MOST_YEARS = 100
_PARTS_OF_A_STEP = 100
_PACKAGES_A_PART = 100


def _pers() -> Iterable[str]:
    from stockroom.domain.horizon.household_eating import Per

    return tuple(Per)


def _groups() -> Iterable[str]:
    from stockroom.domain.foods import FoodGroup

    return tuple(FoodGroup)


_food = click.argument("food", metavar="FOOD")


@click.command("rotate", cls=Command)
@click.option(
    "--months", type=number(1, 12 * _MOST_YEARS), default=1, show_default=True, metavar="N",
    help="For how long to take.",
)  # fmt: skip
@list_form
@click.pass_obj
def rotate(wishes: Wishes, months: int, form: str | None) -> None:
    """Show what to use next and what to take from which place, in walking order.

    For each food both orders, first in first out and earliest best-by first, and why they differ
    where they do. CSV holds the round alone. A best-by is a quality estimate, not safety.

    \b
    stockroom rotate --months 2
    """
    from stockroom.reports.rotation import rotation_report
    from stockroom.services.horizon import rotation

    with wishes.room() as room:
        output.show(rotation_report(rotation(room, months=months)), form, room.units)


@click.command("horizon", cls=Command)
@click.option(
    "--years", type=number(1, _MOST_YEARS), metavar="N", help="How far to look; else a year."
)
@click.option("--months", type=number(1, 12 * _MOST_YEARS), metavar="N", help="The same in months.")
@click.option("--food", metavar="FOOD", help="One food alone.")
@click.option("--packages", is_flag=True, help="List every package with its likely days of use.")
@click.option("--odds", is_flag=True, help="Reckon the chances that food is wasted or runs out.")
@click.option(
    "--rounds", type=number(1, 100_000), metavar="N", help="Rounds for the odds; 200 if left out."
)
@click.option("--seed", type=number(0), metavar="N", help="Another seed gives other rounds.")
@click.option("--no-advice", is_flag=True, help="Leave out what would save food: quicker.")
@working
@list_form
@click.pass_obj
def horizon(
    wishes: Wishes,
    years: int | None,
    months: int | None,
    food: str | None,
    packages: bool,
    odds: bool,
    rounds: int | None,
    seed: int | None,
    no_advice: bool,
    working: bool,
    form: str | None,
) -> None:
    """Forecast when food is used, what passes its best-by unused, and what would save it.

    Each food is eaten as set with stockroom eating set, else as in the last year; dishes on the
    menu are taken out first. Shown are the day each food runs out, its least steady rate that
    wastes nothing with the day that asks for it, and ranked advice with the command for each.
    CSV holds the foods, or with --packages the packages. With --working how each least rate was
    reached. A best-by is a quality estimate, not safety.

    \b
    stockroom horizon --years 2
    stockroom horizon --food Peas --odds --rounds 1000
    """
    from dataclasses import replace

    from stockroom.reports.horizon import horizon_report
    from stockroom.reports.workings import with_working
    from stockroom.services import horizon as ahead

    refuse_csv_working(form, working)
    length = _length(years, months)
    if not odds and (rounds is not None or seed is not None):
        raise click.UsageError("--rounds and --seed go with --odds.", click.get_current_context())
    with wishes.room() as room:
        page = ahead.horizon(
            room,
            months=length,
            food=food,
            advise=not no_advice,
            progress=_told("Weighing up what would save food", _PARTS_OF_A_STEP),
        )
        if odds:
            found = _odds(room, page, length, food, rounds or 200, 1 if seed is None else seed)
            page = replace(page, odds=found)
        report = horizon_report(page, packages=packages)
        if working:
            report = with_working(report, *ahead.least_rate_workings(page))
        output.show(report, form, room.units)


@click.command("cover", cls=Command)
@click.option(
    "--days", metavar="TIME", help="Ask for another target once: 14 days, 6 months, 1 year."
)
@click.option("--power-out", is_flag=True, help="Leave out what stands in a freezer.")
@click.option("--raw-too", is_flag=True, help="Count raw food too: it has to be cooked.")
@list_form
@click.pass_obj
def cover(
    wishes: Wishes, days: str | None, power_out: bool, raw_too: bool, form: str | None
) -> None:
    """Show for how many days the store would feed the household, with how much water.

    By energy and by protein against what the people need, by food group, against the target of
    stockroom target set; then what to dry next, with the months it was dried in before. Packages
    that are suspect, held, raw, without a best-by or past it are not counted. Planning figures:
    no advice on what anybody should eat.

    \b
    stockroom cover --days "6 months" --power-out
    """
    from stockroom.domain.horizon.store_target import read_target_days
    from stockroom.reports.cover import cover_report
    from stockroom.services.provision import cover as find_cover

    wanted = None if days is None else read_target_days(days)
    with wishes.room() as room:
        page = find_cover(room, days=wanted, power_out=power_out, raw_too=raw_too)
        output.show(cover_report(page), form, room.units)


@click.group("eating", cls=Group)
def eating() -> None:
    """How fast foods are eaten: what the forecast goes by."""


@eating.command("set")
@_food
@click.argument("servings", metavar="SERVINGS")
@click.option(
    "--per", type=Choices(_pers), help="The servings are for a day, week, month or year: a week."
)
@click.option("--every", type=number(1, 3653), metavar="N", help="Or: so many every N days.")
@json_form
@click.pass_obj
def set_eating(
    wishes: Wishes, food: str, servings: str, per: str | None, every: int | None, form: str | None
) -> None:
    """Say how fast a food is eaten beside the menu; none for never.

    \b
    stockroom eating set Peas 3 --per week
    stockroom eating set Peas 6 --every 5
    """
    from stockroom.domain.horizon.household_eating import read_rate
    from stockroom.services.eating_rates import set_rate

    if per is not None and every is not None:
        raise click.UsageError("Say --per or --every, not both.", click.get_current_context())
    rate = read_rate(servings, _stretch(per, every))
    with wishes.room() as room:
        finish(set_rate(room, food, rate), form)


@eating.command("clear")
@_food
@json_form
@click.pass_obj
def clear_eating(wishes: Wishes, food: str, form: str | None) -> None:
    """Forget the rate set for a food; what was eaten in the last year speaks again."""
    from stockroom.services.eating_rates import clear_rate

    with wishes.room() as room:
        finish(clear_rate(room, food), form)


@eating.command("list")
@list_form
@click.pass_obj
def list_eating(wishes: Wishes, form: str | None) -> None:
    """List how fast each food is eaten, and where that is known from."""
    from stockroom.reports.cover import rates_report
    from stockroom.services.eating_rates import list_rates

    with wishes.room() as room:
        output.show(rates_report(list_rates(room)), form, room.units)


@click.group("target", cls=Group)
def target() -> None:
    """For how long the store is to last, and how much of a food group it is to hold."""


@target.command("set")
@click.argument("amount", metavar="TIME|SERVINGS")
@click.option("--group", type=Choices(_groups), help="Servings of this food group instead.")
@json_form
@click.pass_obj
def set_target(wishes: Wishes, amount: str, group: str | None, form: str | None) -> None:
    """Say for how long the store is to feed the household, or how much of a group it is to hold.

    \b
    stockroom target set "6 months"
    stockroom target set 60 --group vegetable
    """
    from stockroom.domain.foods import FoodGroup
    from stockroom.domain.horizon.store_target import read_target_days
    from stockroom.domain.quantities import read_servings
    from stockroom.services import eating_rates

    with wishes.room() as room:
        if group is None:
            done = eating_rates.set_target(room, read_target_days(amount))
        else:
            servings = read_servings(amount, "servings")
            done = eating_rates.set_group_target(room, FoodGroup(group), servings)
        finish(done, form)


@target.command("clear")
@click.option("--group", type=Choices(_groups), help="The target of this food group.")
@json_form
@click.pass_obj
def clear_target(wishes: Wishes, group: str | None, form: str | None) -> None:
    """Forget the target of the store, or of a food group."""
    from stockroom.domain.foods import FoodGroup
    from stockroom.services import eating_rates

    with wishes.room() as room:
        chosen = None if group is None else FoodGroup(group)
        finish(eating_rates.clear_target(room, chosen), form)


@target.command("list")
@list_form
@click.pass_obj
def list_targets(wishes: Wishes, form: str | None) -> None:
    """List the targets; a group without one is wanted as it is eaten."""
    from stockroom.reports.cover import targets_report
    from stockroom.services.provision import targets

    with wishes.room() as room:
        output.show(targets_report(targets(room)), form, room.units)


def _length(years: int | None, months: int | None) -> int:
    """How far to look, in months; a year where nothing is said."""
    if years is not None and months is not None:
        raise click.UsageError("Say --years or --months, not both.", click.get_current_context())
    if months is not None:
        return months
    return 12 if years is None else 12 * years


def _stretch(per: str | None, every: int | None) -> Fraction:
    """The days servings are said for; a week where nothing is said."""
    from fractions import Fraction

    from stockroom.domain.horizon.household_eating import Per

    return Fraction(every) if every is not None else Per(per or Per.WEEK).days


def _odds(
    room: Stockroom, page: HorizonPage, months: int, food: str | None, rounds: int, seed: int
) -> Odds:
    """The odds of a forecast, with word of how far it has come."""
    from stockroom.services.horizon import horizon_odds

    count = sum(len(one.forecast.packages) for one in page.foods)
    return horizon_odds(
        room,
        months=months,
        food=food,
        rounds=rounds,
        seed=seed,
        progress=_told("Reckoning the odds", count // _PACKAGES_A_PART),
    )


def _told(words: str, parts: int) -> Callable[[int, int], None]:
    """Progress in lines on standard error; each thing done counts as so many."""
    from stockroom.cli.freshness import Progress

    progress = Progress(words)
    return lambda done, of: progress(done * parts, of * parts) if parts else None
