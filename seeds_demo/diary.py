"""The shelves and the table: data/diary.csv, one line for each thing somebody wrote down."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from seeds_demo.steps import Part, Step
from seeds_demo.tables import Row, day_of, read_rows, weight_of
from stockroom.domain.conditions import Condition, Event
from stockroom.services.kitchen import cook_meal
from stockroom.services.packages import (
    Amount,
    check_package,
    discard_packages,
    draw_package,
    move_packages,
    note_package,
)
from stockroom.services.packing import lot_detail
from stockroom.services.redrying import hold_lot
from stockroom.services.session import Stockroom
from stockroom.services.today import doubts_of
from stockroom.services.tracing import GroupKind, recall


def diary_steps() -> Iterator[Step]:
    """Every line of the diary. Meals and draws come before the day's work at the bench."""
    for row in read_rows("diary"):
        part = Part.KITCHEN if row["did"] in ("cooked", "took") else Part.SHELVES
        yield Step(day_of(row, "day"), part, row["who"], partial(_DID[row["did"]], row))


def _cooked(row: Row, room: Stockroom) -> None:
    cook_meal(room, row["what"], int(row["amount"]))


def _took(row: Row, room: Stockroom) -> None:
    draw_package(room, row["what"], Amount(dry_dg=weight_of(row, "amount")), note=row["note"])


def _settled(row: Row, room: Stockroom) -> None:
    """The settle check of a whole lot: every package not found otherwise was crisp."""
    for package in lot_detail(room, row["what"]).packages:
        if package.condition == Condition.SETTLING:
            check_package(room, package.code, Event.CRISP)


def _found(row: Row, room: Stockroom) -> None:
    for code in row["what"].split():
        check_package(room, code, Event(row["did"]), note=row["note"])


def _looked(row: Row, room: Stockroom) -> None:
    """Looked at again, lot by lot: what is in doubt and was not itself found at fault is crisp."""
    for code in row["what"].split():
        every = lot_detail(room, code).packages
        suspect = [package for package in every if package.condition == Condition.SUSPECT]
        for package, doubt in zip(suspect, doubts_of(room, suspect), strict=True):
            if not doubt.own_fault:
                check_package(room, package.code, Event.CRISP, note=row["note"])


def _recalled(row: Row, room: Stockroom) -> None:
    """Called back with all out of the packet or box that the column "amount" names."""
    recall(room, row["what"], GroupKind(row["amount"]), row["note"])


def _held(row: Row, room: Stockroom) -> None:
    hold_lot(room, row["what"], why=row["note"])


def _moved(row: Row, room: Stockroom) -> None:
    move_packages(room, row["what"].split(), row["place"])


def _discarded(row: Row, room: Stockroom) -> None:
    discard_packages(room, row["what"].split(), row["note"])


def _noted(row: Row, room: Stockroom) -> None:
    note_package(room, row["what"], row["note"])


_DID: Mapping[str, Callable[[Row, Stockroom], None]] = {
    "cooked": _cooked,
    "took": _took,
    "settled": _settled,
    "crisp": _found,
    "soft": _found,
    "leak": _found,
    "damaged": _found,
    "looked": _looked,
    "recalled": _recalled,
    "held": _held,
    "moved": _moved,
    "discarded": _discarded,
    "noted": _noted,
}
