"""Cooking from the shelves: `cook`."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, number, working
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from collections.abc import Mapping
    from fractions import Fraction

    from stockroom.domain.substitutes import Substitution
    from stockroom.domain.wetted import MealCare
    from stockroom.reports.values import Report
    from stockroom.services.results import CookSheet, Done
    from stockroom.services.session import Stockroom

MOST_PEOPLE = 1000


@click.command("cook", cls=Command)
@click.argument("name", metavar="RECIPE")
@click.option(
    "--people",
    type=number(1, MOST_PEOPLE),
    metavar="N",
    help="For how many; the household when left out.",
)
@click.option(
    "--servings", metavar="S", help="So many of what the recipe serves, such as 2 or 1 1/2."
)
@click.option(
    "--whole", is_flag=True, help="Take the whole of packages in which little would stay."
)
@click.option(
    "--swap",
    "swaps",
    multiple=True,
    metavar="FOOD=OTHER",
    help="Take another food instead, as much fresh weight of it.",
)
@click.option(
    "--cook-to", metavar="TEMP", help="It is cooked to this in the middle, for this once."
)
@click.option("--take", is_flag=True, help="Take it off the shelves and record the meal.")
@click.option("--short", is_flag=True, help="With --take: take what there is when some is short.")
@working
@json_form
@click.pass_obj
def cook(
    wishes: Wishes,
    name: str,
    people: int | None,
    servings: str | None,
    whole: bool,
    swaps: tuple[str, ...],
    cook_to: str | None,
    take: bool,
    short: bool,
    working: bool,
    form: str | None,
) -> None:
    """Show which packages a dish takes, and how much water to add at first and to hold back.

    The oldest goes first. All of the water is an upper bound: taste before adding what is held
    back. Nothing is recorded without --take. RECIPE may be the beginning of a name, when only one
    begins so. Where food is short, the foods that could stand in are named. With --working how
    the water of each food was reached.
    """
    from stockroom.services.kitchen import cook_meal, cook_sheet

    _check(people, servings, take=take, short=short)
    with wishes.room() as room:
        count = _servings(servings)
        instead = _swaps(room, name, swaps)
        to_dc = _cook_to(room, cook_to)
        sheet = cook_sheet(
            room, name, people, servings=count, whole=whole, swaps=instead, cook_to_dc=to_dc
        )
        paper = _Paper(sheet, _places(room, sheet), _stand_ins(room, sheet, count, instead))
        done = None
        if take:
            done = cook_meal(
                room, name, people, servings=count, take_short=short, whole=whole, swaps=instead,
                cook_to_dc=to_dc,
            )  # fmt: skip
        report = paper.report(done, by_clock=wishes.today is None)
        if working:
            report = _with_working(room, sheet, report)
        output.show(report, form, room.units)
        if done is not None and _picked(sheet) != done.codes:
            diagnostics.tell(f"The shelves had changed meanwhile; taken: {', '.join(done.codes)}.")


@dataclass(frozen=True, slots=True)
class _Paper:
    """What goes on paper beside the meal, looked up before anything is taken."""

    sheet: CookSheet
    places: Mapping[str, str]
    stand_ins: tuple[Substitution, ...]

    def report(self, done: Done | None, *, by_clock: bool) -> Report:
        """The report; a meal's instants are put in the machine's own zone."""
        from stockroom.reports.cooking import cook_report

        if done is not None and done.care is not None:
            done = replace(done, care=_local(done.care))
        return cook_report(
            self.sheet, self.places, done, stand_ins=self.stand_ins, by_clock=by_clock
        )


def _check(people: int | None, servings: str | None, *, take: bool, short: bool) -> None:
    """A usage error for what does not go together."""
    if short and not take:
        raise click.UsageError("--short goes with --take.", click.get_current_context())
    if people is not None and servings is not None:
        raise click.UsageError("Say --people or --servings, not both.", click.get_current_context())


def _servings(typed: str | None) -> Fraction | None:
    """The servings asked for. Raises BadInput."""
    from stockroom.domain.quantities import read_servings

    return None if typed is None else read_servings(typed)


def _cook_to(room: Stockroom, typed: str | None) -> int | None:
    """The temperature the dish is cooked to this once. Raises BadInput."""
    from stockroom.domain.quantities import read_temperature

    return None if typed is None else read_temperature(typed, room.units, "cooked to")


def _swaps(room: Stockroom, name: str, typed: tuple[str, ...]) -> dict[int, int]:
    """Food of the recipe → the food instead of it. Raises BadInput and NotFound."""
    from stockroom.cli.reading import read_swap
    from stockroom.domain.quantities import unreadable
    from stockroom.services.finding import find_food
    from stockroom.services.kitchen import show_recipe

    lines = show_recipe(room, name).lines if typed else ()
    ids = {line.food: line.food_id for line in lines if line.food is not None}
    made: dict[int, int] = {}
    for text in typed:
        food, other = read_swap(text, ids)
        wanted, chosen = ids[food], find_food(room, other).food_id
        if wanted is None or wanted == chosen:
            raise unreadable("swap", text, "another food instead of the recipe's own")
        if wanted in made:
            raise unreadable("swap", text, f"one swap for {food}")
        made[wanted] = chosen
    return made


def _stand_ins(
    room: Stockroom, sheet: CookSheet, servings: Fraction | None, swaps: Mapping[int, int]
) -> tuple[Substitution, ...]:
    """What could stand in for what is short; the swaps said already stay."""
    if not sheet.plan.short:
        return ()
    from stockroom.services.substitutes import substitutes

    return substitutes(room, sheet.recipe.name, sheet.plan.people, servings=servings, swaps=swaps)


def _with_working(room: Stockroom, sheet: CookSheet, report: Report) -> Report:
    """The report with how its water was reached."""
    from stockroom.reports.workings import with_working
    from stockroom.services.workings import cook_working

    return with_working(report, *cook_working(room, sheet).workings)


def _local(care: MealCare) -> MealCare:
    """The clock of a meal in the machine's own zone."""
    from stockroom.domain.wetted import care_until

    return care_until(care.wetted_at.astimezone(), care.chilled_until, at_once=care.at_once)


def _picked(sheet: CookSheet) -> tuple[str, ...]:
    """The codes a dish takes from, each once, in the order of its lines."""
    return tuple(
        dict.fromkeys(pick.candidate.code for line in sheet.plan.lines for pick in line.picks)
    )


def _places(room: Stockroom, sheet: CookSheet) -> dict[str, str]:
    """Where each picked package stands."""
    from stockroom.services.shelves import package_detail

    return {code: package_detail(room, code).package.place for code in _picked(sheet)}
