"""Which labels are wanted: from codes of packages and lots, or a place, to what stands on each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stockroom.domain.codes import read_code
from stockroom.domain.labels.content import PackageFacts, lot_label, package_label
from stockroom.domain.labels.statements import Label
from stockroom.domain.records import Food, Lot, Package
from stockroom.errors import Refused
from stockroom.services.finding import find_lot, find_package
from stockroom.services.session import Stockroom
from stockroom.services.shelves import (
    GONE_CONDITIONS,
    LIVE_CONDITIONS,
    find_packages,
    shelf_filter,
)
from stockroom.store import food_rows, lot_rows, package_rows, projections


class NothingToLabel(Refused):
    """What was named holds no package that is still there."""

    def __init__(self, what: str) -> None:
        """`what` is the lot or place, as the person named it."""
        super().__init__(
            f"There is no package left in {what}, so there is nothing to print.",
            "Name packages or lots by their codes, or another place.",
        )


class GoneUnlabelled(Refused):
    """A package that is used up or thrown away needs no label."""

    def __init__(self, package: Package) -> None:
        super().__init__(
            f"{package.code} ({package.food}) is {package.condition}: there is nothing to label.",
            "Name packages that are still there.",
        )


def labels_of(room: Stockroom, codes: Sequence[str], place: str | None = None) -> tuple[Label, ...]:
    """The labels of packages, as named: packages, all of a lot, all in a place; each once.

    Raises NotFound, BadInput, CodeMistyped, GoneUnlabelled, NothingToLabel.
    """
    return tuple(_package_label(room, package) for package in _packages(room, codes, place))


def bin_labels(
    room: Stockroom, codes: Sequence[str], place: str | None = None
) -> tuple[Label, ...]:
    """The labels of lots for their bins, each once: those named, those of what was named.

    Raises NotFound, BadInput, CodeMistyped, NothingToLabel.
    """
    lots = {lot.lot_id: lot for lot in (find_lot(room, code) for code in codes)}
    if place is not None:
        for package in _in_place(room, place):
            if package.lot_id not in lots:
                lots[package.lot_id] = _lot_of(room, package)
    return tuple(_lot_label(room, lot) for lot in lots.values())


def _packages(room: Stockroom, codes: Sequence[str], place: str | None) -> tuple[Package, ...]:
    """The packages meant, in the order they were named."""
    found: dict[int, Package] = {}
    for code in codes:
        found |= {one.package_id: one for one in _named(room, code)}
    if place is not None:
        found |= {one.package_id: one for one in _in_place(room, place)}
    return tuple(found.values())


def _named(room: Stockroom, code: str) -> Iterator[Package]:
    """The package of a code, or what is left of the lot of one."""
    if read_code(code).kind == "package":
        package = find_package(room, code)
        if package.condition in GONE_CONDITIONS:
            raise GoneUnlabelled(package)
        yield package
        return
    lot = find_lot(room, code)
    live = _live(room, lot)
    if not live:
        raise NothingToLabel(f"lot {lot.code}")
    yield from live


def _live(room: Stockroom, lot: Lot) -> list[Package]:
    """The packages of a lot that are still there."""
    every = package_rows.packages_of_lot(room.store, lot.lot_id)
    return [one for one in every if one.condition in LIVE_CONDITIONS]


def _in_place(room: Stockroom, place: str) -> tuple[Package, ...]:
    """The packages in a place and below it, by code."""
    found = find_packages(room, shelf_filter(room, place=place, order="code"))
    if not found:
        raise NothingToLabel(place)
    return found


def _lot_of(room: Stockroom, package: Package) -> Lot:
    lot = lot_rows.lot_by_id(room.store, package.lot_id)
    assert lot is not None
    return lot


def _food(room: Stockroom, food_id: int) -> Food:
    food = food_rows.food_by_id(room.store, food_id)
    assert food is not None
    return food


def _package_label(room: Stockroom, package: Package) -> Label:
    projection = projections.projection_of(room.store, package.package_id)
    discard_by = None if projection is None else projection.discard_by
    food = _food(room, package.food_id)
    home = room.household
    return package_label(PackageFacts(package, food, discard_by, home.units, home.cup))


def _lot_label(room: Stockroom, lot: Lot) -> Label:
    live = _live(room, lot)
    days = [one.best_by for one in live if one.best_by is not None]
    first = min(days) if days and len(days) == len(live) else None
    return lot_label(lot, _food(room, lot.food_id), first, len(live))
