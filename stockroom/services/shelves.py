"""Looking along the shelves: lists by place and food, search, and one package in full."""

from __future__ import annotations

from array import array
from collections.abc import Sequence

from stockroom.domain.cautions import CAUTIONS, Caution, cautions_for_soft
from stockroom.domain.records import Food, Package, Place
from stockroom.errors import BadInput
from stockroom.services.finding import find_food, find_package, find_place
from stockroom.services.foods import facts_of
from stockroom.services.names import storable
from stockroom.services.results import PackageDetail
from stockroom.services.session import Stockroom
from stockroom.store import (
    food_rows,
    package_rows,
    place_rows,
    projections,
    queue_rows,
    recheck_rows,
    shelf_search,
)
from stockroom.store.shelf_search import ORDERS, ShelfFilter

LIVE_CONDITIONS = ShelfFilter().conditions
GONE_CONDITIONS = ("used", "discarded")


def shelf_filter(
    room: Stockroom,
    words: str = "",
    *,
    food: str | None = None,
    place: str | None = None,
    condition: str | None = None,
    gone: bool = False,
    order: str = "best_by",
) -> ShelfFilter:
    """What to list, from what a person says. `gone` adds used and discarded packages."""
    if order not in ORDERS:
        raise BadInput("order", order, f"one of {', '.join(ORDERS)}")
    every = (*LIVE_CONDITIONS, *GONE_CONDITIONS)
    if condition is not None and condition not in every:
        raise BadInput("condition", condition, f"one of {', '.join(every)}")
    standing = every if gone else LIVE_CONDITIONS
    return ShelfFilter(
        words=" ".join(storable(words, "words to look for").split()),
        food_id=None if food is None else find_food(room, food).food_id,
        place_id=None if place is None else find_place(room, place).place_id,
        conditions=(condition,) if condition else standing,
        order=order,
    )


def package_keys(room: Stockroom, wanted: ShelfFilter) -> array[int]:
    """Ids of every package the filter names, in its order."""
    return shelf_search.package_ids(room.store, wanted)


def first_packages(room: Stockroom, wanted: ShelfFilter, count: int) -> tuple[Package, ...]:
    """The first `count` packages the filter names: what a screen shows at once."""
    ids = shelf_search.package_ids(room.store, wanted, limit=count)
    return tuple(package_rows.packages_by_ids(room.store, ids))


def packages_for(room: Stockroom, package_ids: Sequence[int]) -> tuple[Package, ...]:
    """The packages of these ids, in the order asked; ids that are gone are left out."""
    return tuple(package_rows.packages_by_ids(room.store, package_ids))


def find_packages(room: Stockroom, wanted: ShelfFilter) -> tuple[Package, ...]:
    """Every package the filter names: for lists on paper and in files."""
    ids = package_keys(room, wanted)
    found: list[Package] = []
    for start in range(0, len(ids), 500):
        found.extend(package_rows.packages_by_ids(room.store, ids[start : start + 500]))
    return tuple(found)


def places_with_counts(room: Stockroom) -> tuple[tuple[Place, int], ...]:
    """Every place in tree order with the live packages in it and below it."""
    places = place_rows.all_places(room.store)
    below = {
        place.place_id: sum(
            other.packages
            for other in places
            if other.path == place.path or other.path.startswith(place.path + "/")
        )
        for place in places
    }
    return tuple((place, below[place.place_id]) for place in places)


def foods_with_counts(room: Stockroom) -> tuple[tuple[Food, int], ...]:
    """Every food of the household by name, with its live packages."""
    counts = food_rows.live_counts(room.store)
    return tuple((food, counts.get(food.food_id, 0)) for food in food_rows.all_foods(room.store))


def package_detail(room: Stockroom, code: str) -> PackageDetail:
    """One package with its history, best-by and cautions. Raises as `find_package`."""
    return detail_of(room, find_package(room, code))


def detail_of(room: Stockroom, package: Package) -> PackageDetail:
    """One package in full."""
    food = food_rows.food_by_id(room.store, package.food_id)
    assert food is not None
    sisters = [
        one
        for one in package_rows.packages_of_lot(room.store, package.lot_id)
        if one.package_id != package.package_id and one.condition in LIVE_CONDITIONS
    ]
    doubtful = package.condition in ("suspect", "held")
    return PackageDetail(
        package=package,
        history=tuple(package_rows.history_of(room.store, package.package_id)),
        projection=projections.projection_of(room.store, package.package_id),
        no_best_by=projections.refusal_of(room.store, package.package_id),
        cautions=doubt_cautions(room, package) if doubtful else (),
        allergens=food.allergens,
        ingredients_unknown=food.ingredients_unknown,
        sisters=len(sisters),
        recheck=recheck_rows.recheck_of(room.store, package.package_id),
        queued=queue_rows.entry_of_package(room.store, package.package_id),
        inspections=tuple(queue_rows.inspections_of(room.store, package.package_id)),
        sources=tuple(queue_rows.sources_of(room.store, package.package_id)),
        successors=tuple(queue_rows.successors_of(room.store, package.package_id)),
    )


def doubt_cautions(room: Stockroom, package: Package) -> tuple[Caution, ...]:
    """What to bear in mind with a package that may be soft: its food, its air, its days.

    The record has days, not hours: on the day after sealing it may be less than 24 hours or
    more, so what holds for either is shown, the gravest first.
    """
    food = food_rows.food_by_id(room.store, package.food_id)
    assert food is not None
    facts = facts_of(food)
    days = (room.today - package.sealed_on).days
    keys: set[str] = set()
    for hours in {0: (0,), 1: (24, None)}.get(days, (None,)):
        found = cautions_for_soft(
            facts.food_class, package.low_oxygen, hours_since_packing=hours, acid=facts.acid
        )
        keys |= {caution.key for caution in found}
    return tuple(one for one in CAUTIONS if one.key in keys)
