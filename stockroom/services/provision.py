"""What the store would give the household for how long, and what to dry next."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from fractions import Fraction

from stockroom.domain.foods import FoodGroup, Preparation
from stockroom.domain.horizon.dry_next import DriedLot, GroupTarget, dry_next
from stockroom.domain.horizon.pages import CoverPage, StoreTarget, WhyApart
from stockroom.domain.horizon.provision import Needs, StoredFood, provision
from stockroom.domain.horizon.store_target import MOST_TARGET_DAYS
from stockroom.domain.household_need import HouseholdNeed
from stockroom.errors import BadInput
from stockroom.services.eating_rates import eaten_by_group, household_eating, store_target
from stockroom.services.horizon_shelf import (
    Shelf,
    freezer_places,
    read_shelf,
    set_apart,
    stock_packages,
    why_apart,
)
from stockroom.services.people import household_need
from stockroom.services.session import Stockroom
from stockroom.store import horizon_rows
from stockroom.store.horizon_rows import FoodLine, ShelfLine

_YEAR_DAYS = 365


def cover(
    room: Stockroom, *, days: int | None = None, power_out: bool = False, raw_too: bool = False
) -> CoverPage:
    """What may be eaten of the store against the household's need and its target.

    `days` asks for another target once. Raw food counts only if `raw_too`: it has to be cooked.
    Raises BadInput.
    """
    if days is not None and not 1 <= days <= MOST_TARGET_DAYS:
        raise BadInput("days", str(days), f"a number of days from 1 to {MOST_TARGET_DAYS}")
    shelf = read_shelf(room)
    why = {row.package_id: _why(row, raw_too) for row in shelf.rows}
    stored = _stored(shelf, why, freezer_places(room))
    how = household_eating(room, shelf.foods, _YEAR_DAYS)
    target = store_target(room, eaten_by_group(shelf.foods, how), days)
    need = household_need(room)
    found = provision(stored, _needs(need, target), room.today, power_out=power_out)
    have = _have(shelf, room.today)
    wanted = [GroupTarget(one.group, one.servings) for one in target.groups]
    return CoverPage(
        room.today,
        need,
        target,
        found,
        set_apart(shelf, ((row, why[row.package_id]) for row in shelf.rows)),
        dry_next(have, wanted, _dried(room, shelf.foods)),
        power_out,
        raw_too,
    )


def targets(room: Stockroom) -> StoreTarget:
    """The targets of the store and its food groups, set or by what is eaten."""
    foods = horizon_rows.food_rows(room.store)
    how = household_eating(room, foods, _YEAR_DAYS)
    return store_target(room, eaten_by_group(foods, how))


def _why(row: ShelfLine, raw_too: bool) -> WhyApart | None:
    """Why a package does not count as food to be eaten."""
    why = why_apart(row)
    if why is None and row.preparation == Preparation.RAW and not raw_too:
        return WhyApart.RAW
    return why


def _needs(need: HouseholdNeed, target: StoreTarget) -> Needs:
    """The household's need of a day, with its target."""
    return Needs(need.counted, need.kcal_per_day, need.protein_g, target.days)


def _stored(
    shelf: Shelf, why: dict[int, WhyApart | None], freezers: frozenset[int]
) -> list[StoredFood]:
    """The packages that count, with what is left in them."""
    foods = {row.food_id: row for row in shelf.foods}
    rows = {row.package_id: row for row in shelf.rows}
    found: list[StoredFood] = []
    for package in stock_packages(shelf):
        if why[package.package_id] is None:
            row, food = rows[package.package_id], foods[package.food_id]
            fresh_dg = row.left_dg + row.left_water_dg
            found.append(
                StoredFood(
                    package,
                    FoodGroup(food.food_group),
                    _part(fresh_dg, food.energy_tenth_kcal, 10_000),
                    _part(fresh_dg, food.protein_cg, 100_000),
                    # A gram is counted as a millilitre: 0.2 % too little at 20 °C.
                    Fraction(row.left_water_dg, 10),
                    row.place_id in freezers,
                )
            )
    return found


def _have(shelf: Shelf, today: date) -> dict[FoodGroup, Fraction]:
    """Servings of each group that are in time, raw and frozen food too: dried they are."""
    groups = {row.food_id: FoodGroup(row.food_group) for row in shelf.foods}
    found: dict[FoodGroup, Fraction] = {}
    for one in stock_packages(shelf):
        if one.best_by > today:
            group = groups[one.food_id]
            found[group] = found.get(group, Fraction(0)) + one.servings
    return found


def _part(fresh_dg: int, of_a_hundred_grams: int | None, divisor: int) -> Fraction | None:
    """What so much fresh equivalent gives; None where nobody knows."""
    return None if of_a_hundred_grams is None else Fraction(fresh_dg * of_a_hundred_grams, divisor)


def _dried(room: Stockroom, foods: Iterable[FoodLine]) -> list[DriedLot]:
    """Every lot there has been, in servings as loaded."""
    known = {row.food_id: row for row in foods}
    return [
        DriedLot(
            row.food_id,
            known[row.food_id].name,
            FoodGroup(known[row.food_id].food_group),
            date.fromisoformat(row.made_on),
            Fraction(row.wet_dg, known[row.food_id].serving_dg),
        )
        for row in horizon_rows.dried_rows(room.store)
    ]
