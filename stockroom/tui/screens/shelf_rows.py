"""Packages, places and foods as rows of the Shelves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from stockroom.domain.quantities import UnitSystem, show_servings, show_weight
from stockroom.domain.records import Food, Package, Place
from stockroom.services.session import Stockroom
from stockroom.services.shelves import (
    ShelfFilter,
    first_packages,
    foods_with_counts,
    package_keys,
    packages_for,
    places_with_counts,
)
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.words import GONE, best_by_cell, is_past, place_words, tone_of

COLUMNS = (
    Column("Code", 10, look="main"),
    Column("Food", 10, weight=3),
    Column("Serv.", 5, align="right", priority=3),
    Column("Dry", 8, align="right", priority=4),
    Column("Best by", 11, priority=1),
    Column("State", 9, look="tone"),
    Column("Place", 12, weight=2, keep="end", priority=2, look="quiet"),
)

PAST_SIGN = "!"
"""Stands behind a best-by that has gone by."""

Side = Literal["place", "food"]
"""What the panel beside the list shows."""

EVERYTHING = 0
"""The key of the panel's first row."""

SIDE_COLUMNS: dict[Side, tuple[Column, ...]] = {
    "place": (Column("Place", 8, weight=1), Column("Packs", 5, align="right", look="quiet")),
    "food": (Column("Food", 8, weight=1), Column("Packs", 5, align="right", look="quiet")),
}


def package_row(package: Package, today: date, units: UnitSystem) -> Row:
    """One package as a line."""
    gone = package.condition in GONE
    past = not gone and is_past(package, today)
    cells = (
        package.code,
        package.food,
        "" if gone else show_servings(package.servings_left),
        "" if gone else show_weight(package.left_dg, units),
        "" if gone else best_by_cell(package) + (PAST_SIGN if past else ""),
        package.condition,
        "" if gone else place_words(package),
    )
    return Row(package.package_id, cells, "bad" if past else tone_of(package, today))


class PackageSource:
    """The packages a filter names, as rows read when they come into view."""

    def __init__(self, room: Stockroom, wanted: ShelfFilter) -> None:
        self.room = room
        self.wanted = wanted
        self.today = room.today
        self.units = room.units

    def first(self, count: int) -> Sequence[Row]:
        """The first rows."""
        return self._rows(first_packages(self.room, self.wanted, count))

    def keys(self) -> Sequence[int]:
        """The ids of all of them."""
        return package_keys(self.room, self.wanted)

    def rows(self, keys: Sequence[int]) -> Sequence[Row]:
        """The rows of these packages."""
        return self._rows(packages_for(self.room, keys))

    def _rows(self, packages: Sequence[Package]) -> list[Row]:
        return [package_row(package, self.today, self.units) for package in packages]


@dataclass(frozen=True, slots=True)
class SideList:
    """The panel's rows, and the record of each key."""

    side: Side
    rows: tuple[Row, ...]
    places: dict[int, Place]
    foods: dict[int, Food]


def read_side(room: Stockroom, side: Side) -> SideList:
    """Every place or food with the live packages there are."""
    return _places(room) if side == "place" else _foods(room)


def _places(room: Stockroom) -> SideList:
    found = places_with_counts(room)
    # Counted by food: a package may stand in no place yet.
    rows = [_everything(sum(count for _, count in foods_with_counts(room)))]
    rows += [
        Row(place.place_id, (f"{'  ' * place.depth}{place.name}", f"{count:,}"))
        for place, count in found
    ]
    return SideList("place", tuple(rows), {place.place_id: place for place, _ in found}, {})


def _foods(room: Stockroom) -> SideList:
    found = foods_with_counts(room)
    rows = [_everything(sum(count for _, count in found))]
    rows += [
        Row(food.food_id, (food.name, f"{count:,}"), "" if count else "quiet")
        for food, count in found
    ]
    return SideList("food", tuple(rows), {}, {food.food_id: food for food, _ in found})


def _everything(count: int) -> Row:
    return Row(EVERYTHING, ("Everything", f"{count:,}"))
