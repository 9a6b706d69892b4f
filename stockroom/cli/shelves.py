"""The shelves: finding packages, looking at one, and what a person does with them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.acting import finish, show_workings
from stockroom.cli.base import Command
from stockroom.cli.options import Choices, json_form, list_form, working
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from stockroom.domain.records import Package
    from stockroom.domain.working import Working
    from stockroom.reports.values import Report
    from stockroom.services.packages import Amount
    from stockroom.services.session import Stockroom


def _conditions() -> Iterable[str]:
    from stockroom.domain.conditions import Condition

    return tuple(Condition)


def _orders() -> Iterable[str]:
    from stockroom.services.shelves import ORDERS

    return tuple(ORDERS)


_codes = click.argument("codes", nargs=-1, required=True, metavar="CODE...")
_code = click.argument("code", metavar="CODE")


@click.command("find", cls=Command)
@click.argument("words", nargs=-1, metavar="[WORDS]...")
@click.option("--food", metavar="FOOD", help="Only this food.")
@click.option("--place", metavar="PLACE", help="Only this place and everything below it.")
@click.option("--condition", type=Choices(_conditions), help="Only this condition.")
@click.option("--gone", is_flag=True, help="Used and discarded packages too.")
@click.option(
    "--order", type=Choices(_orders), default="best_by", show_default=True, help="What goes first."
)
@list_form
@click.pass_obj
def find(
    wishes: Wishes,
    words: tuple[str, ...],
    food: str | None,
    place: str | None,
    condition: str | None,
    gone: bool,
    order: str,
    form: str | None,
) -> None:
    """Find packages by food, place, code or note.

    Every word has to be found; without words everything on the shelves is listed, the earliest
    best-by first.
    """
    from stockroom.reports.packages import package_list
    from stockroom.services.shelves import find_packages, shelf_filter

    with wishes.room() as room:
        wanted = shelf_filter(
            room,
            " ".join(words),
            food=food,
            place=place,
            condition=condition,
            gone=gone,
            order=order,
        )
        output.show(package_list(find_packages(room, wanted)), form, room.units)


@click.command("show", cls=Command)
@_code
@click.option("--working", is_flag=True, help="How its water and its best-by were reached.")
@json_form
@click.pass_obj
def show(wishes: Wishes, code: str, working: bool, form: str | None) -> None:
    """Show a package or a lot by its code.

    A package: what is in it, the water to add, its best-by, where it is and what happened to it.
    With --working every step of the figures, in words and in numbers, with the sources; of a lot
    its water, its residual moisture and the best-by of its packages.
    """
    with wishes.room() as room:
        output.show(_shown(room, code, working), form, room.units)


def _shown(room: Stockroom, code: str, working: bool) -> Report:
    """The report a code asks for."""
    from stockroom.domain.codes import read_code

    if read_code(code).kind == "lot":
        from stockroom.cli.lot import shown_lot

        return shown_lot(room, code, working=working)
    if working:
        from stockroom.reports.workings import working_report
        from stockroom.services.workings import package_working

        return working_report(package_working(room, code))
    from stockroom.reports.package_page import package_report
    from stockroom.services.rechecks import recheck_reasons
    from stockroom.services.shelves import package_detail

    detail = package_detail(room, code)
    reasons = () if detail.recheck is None else recheck_reasons(room, code)
    return package_report(detail, room.units, reasons)


@click.command("move", cls=Command)
@_codes
@click.argument("place", metavar="PLACE")
@json_form
@click.pass_obj
def move(wishes: Wishes, codes: tuple[str, ...], place: str, form: str | None) -> None:
    """Put packages in a place.

    PLACE is a path such as cellar/rack 1, or the end of one where it is the only one.
    """
    from stockroom.services.packages import move_packages

    with wishes.room() as room:
        finish(move_packages(room, codes, place), form)


@click.command("draw", cls=Command)
@_code
@click.option("--grams", "weight", metavar="WEIGHT", help="Dry weight to take, as 30, 30 g, 1 oz.")
@click.option("--servings", metavar="N", help="Servings to take, such as 2, 1.5 or 1/2.")
@click.option("--note", default="", metavar="TEXT", help="A note to keep with it.")
@working
@json_form
@click.pass_obj
def draw(
    wishes: Wishes,
    code: str,
    weight: str | None,
    servings: str | None,
    note: str,
    working: bool,
    form: str | None,
) -> None:
    """Take food out of a package: all that is left, or a part of it.

    Says how much water the part takes. Taking a part opens the package.
    """
    from stockroom.reports.packages import drawn_report
    from stockroom.services.packages import draw_package
    from stockroom.services.shelves import package_detail

    with wishes.room() as room:
        amount = _amount(room, weight, servings)
        before = package_detail(room, code).package
        done = draw_package(room, code, amount, note=note)
        derived = _drawn(room, before, amount) if working else ()
        finish(done, form, *derived)
        if form is None:
            after = package_detail(room, before.code)
            output.show(drawn_report(before, after), None, room.units)
            show_workings(derived)


def _drawn(room: Stockroom, before: Package, amount: Amount) -> tuple[Working, ...]:
    """How the water for what was taken was reached."""
    from stockroom.services.workings import draw_working

    return draw_working(room, before, amount.of(before)).workings[:1]


def _amount(room: Stockroom, weight: str | None, servings: str | None) -> Amount:
    """How much to take. Raises BadInput, and a usage error for both at once."""
    from stockroom.domain.quantities import read_servings, read_weight
    from stockroom.services.packages import Amount

    if weight is not None and servings is not None:
        raise click.UsageError("Say --grams or --servings, not both.", click.get_current_context())
    return Amount(
        dry_dg=None if weight is None else read_weight(weight, room.units),
        servings=None if servings is None else read_servings(servings),
    )


@click.command("discard", cls=Command)
@_codes
@click.option("--why", required=True, metavar="TEXT", help="The reason, in a few words.")
@json_form
@click.pass_obj
def discard(wishes: Wishes, codes: tuple[str, ...], why: str, form: str | None) -> None:
    """Throw packages away, with the reason."""
    from stockroom.services.packages import discard_packages

    with wishes.room() as room:
        finish(discard_packages(room, codes, why), form)


@click.command("note", cls=Command)
@_code
@click.argument("text", metavar="TEXT")
@json_form
@click.pass_obj
def note(wishes: Wishes, code: str, text: str, form: str | None) -> None:
    """Write a package's note; an empty TEXT takes it away."""
    from stockroom.services.packages import note_package

    with wishes.room() as room:
        finish(note_package(room, code, text), form)


def show_packages(room: Stockroom, codes: Sequence[str]) -> None:
    """The packages of these codes as a table: what to write on them."""
    from stockroom.reports.packages import made_list
    from stockroom.services.shelves import package_detail

    packages: list[Package] = [package_detail(room, code).package for code in codes]
    output.show(made_list(packages), None, room.units)
    diagnostics.tell("Settle check: squeeze each tomorrow, then stockroom check CODE crisp.")
