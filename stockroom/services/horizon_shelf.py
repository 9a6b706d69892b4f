"""The shelf as the horizon sees it: packages that may be eaten, and what is said apart."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.domain.conditions import USABLE
from stockroom.domain.cooking import Basis
from stockroom.domain.foods import Preparation
from stockroom.domain.horizon.pages import KnownFood, SetApart, WhyApart
from stockroom.domain.horizon.planned import PlannedUse
from stockroom.domain.horizon.stock import StockPackage
from stockroom.services.eating_rates import known_food
from stockroom.services.session import Stockroom
from stockroom.store import horizon_rows
from stockroom.store.horizon_rows import FoodLine, PlannedLine, ShelfLine

_EATABLE = frozenset(USABLE)
_APART = {"suspect": WhyApart.SUSPECT, "held": WhyApart.HELD}


@dataclass(frozen=True, slots=True)
class Shelf:
    """What the store holds today: the foods by name, and their rows in order of use."""

    foods: tuple[FoodLine, ...]
    rows: tuple[ShelfLine, ...]
    """Live packages by food, best-by, day made and number in the store."""

    @property
    def known(self) -> dict[int, KnownFood]:
        """Every food by its number."""
        return {row.food_id: known_food(row) for row in self.foods}


@dataclass(frozen=True, slots=True)
class MenuUses:
    """What the menu takes, and of which dishes it cannot be told."""

    uses: tuple[PlannedUse, ...]
    dishes: int
    unknown: tuple[str, ...]
    last_days: Mapping[int, date]
    """The last planned day of each food."""


def read_shelf(room: Stockroom) -> Shelf:
    """The shelf in two queries, whatever its size."""
    return Shelf(
        tuple(horizon_rows.food_rows(room.store)), tuple(horizon_rows.shelf_rows(room.store))
    )


def why_apart(row: ShelfLine) -> WhyApart | None:
    """Why a package is not counted as food to be eaten in time; None: it is."""
    if row.condition not in _EATABLE:
        return _APART[row.condition]
    return WhyApart.UNDATED if row.best_by is None else None


def stock_packages(shelf: Shelf) -> list[StockPackage]:
    """The packages that may be eaten, in the order of the rows; raw food is among them."""
    serving_dg = {row.food_id: row.serving_dg for row in shelf.foods}
    days: dict[str, date] = {}

    def day(text: str) -> date:
        # A shelf has far fewer days than packages.
        found = days.get(text)
        if found is None:
            found = days[text] = date.fromisoformat(text)
        return found

    return [
        StockPackage(
            row.package_id,
            row.food_id,
            day(row.made_on),
            day(row.best_by),
            Fraction(row.left_dg + row.left_water_dg, serving_dg[row.food_id]),
            row.code,
            row.package_kind.replace("_", " "),
            row.condition == "opened",
            None if row.low is None else day(row.low),
            None if row.high is None else day(row.high),
        )
        for row in shelf.rows
        if row.best_by is not None and row.condition in _EATABLE
    ]


def raw_packages(shelf: Shelf) -> frozenset[int]:
    """Packages of raw food, by number in the store."""
    return frozenset(row.package_id for row in shelf.rows if row.preparation == Preparation.RAW)


def set_apart(
    shelf: Shelf, chosen: Iterable[tuple[ShelfLine, WhyApart | None]]
) -> tuple[SetApart, ...]:
    """What is said apart, added up by its reason."""
    serving_dg = {row.food_id: row.serving_dg for row in shelf.foods}
    packages: dict[WhyApart, int] = {}
    servings: dict[WhyApart, Fraction] = {}
    for row, why in chosen:
        if why is not None:
            packages[why] = packages.get(why, 0) + 1
            fresh = Fraction(row.left_dg + row.left_water_dg, serving_dg[row.food_id])
            servings[why] = servings.get(why, Fraction(0)) + fresh
    return tuple(SetApart(why, packages[why], servings[why]) for why in WhyApart if why in packages)


def menu_uses(room: Stockroom, shelf: Shelf, before: date) -> MenuUses:
    """What dishes planned from today on take, in servings, until the day before `before`."""
    foods = {row.food_id: row for row in shelf.foods}
    fresh_of_dry = _fresh_of_dry(shelf.rows)
    uses: list[PlannedUse] = []
    unknown: list[str] = []
    last_days: dict[int, date] = {}
    dishes: set[tuple[str, str]] = set()
    for row in horizon_rows.planned_rows(room.store, room.today, before):
        food = foods.get(row.food_id)
        if food is None:
            continue
        dishes.add((row.on_day, row.name))
        servings = _servings(row, food, fresh_of_dry.get(row.food_id))
        if not servings:
            unknown.append(f"{row.name} on {row.on_day}: {food.name}")
            continue
        on_day = date.fromisoformat(row.on_day)
        uses.append(PlannedUse(row.food_id, on_day, servings))
        last_days[row.food_id] = on_day
    return MenuUses(tuple(uses), len(dishes), tuple(unknown), last_days)


def dishes_with(room: Stockroom, shelf: Shelf) -> dict[int, list[tuple[str, Fraction]]]:
    """By food: the recipes that take it, with the servings one cooking for the household takes."""
    foods = {row.food_id: row for row in shelf.foods}
    fresh_of_dry = _fresh_of_dry(shelf.rows)
    found: dict[int, dict[str, Fraction]] = {}
    for row in horizon_rows.dish_rows(room.store, room.household.people):
        food = foods.get(row.food_id)
        if food is None:
            continue
        servings = _servings(row, food, fresh_of_dry.get(row.food_id))
        if servings:
            dishes = found.setdefault(row.food_id, {})
            dishes[row.name] = dishes.get(row.name, Fraction(0)) + servings
    return {food_id: list(dishes.items()) for food_id, dishes in found.items()}


def freezer_places(room: Stockroom) -> frozenset[int]:
    """The freezers and every place in one."""
    rows = horizon_rows.place_rows(room.store)
    below: dict[int | None, list[int]] = {}
    for row in rows:
        below.setdefault(row.parent_id, []).append(row.place_id)
    found: set[int] = set()
    waiting = [row.place_id for row in rows if row.kind == "freezer"]
    while waiting:
        place_id = waiting.pop()
        if place_id not in found:
            found.add(place_id)
            waiting.extend(below.get(place_id, ()))
    return frozenset(found)


def _fresh_of_dry(rows: Sequence[ShelfLine]) -> dict[int, Fraction]:
    """Fresh equivalent of a gram of dry food, by food, as its own packages tell."""
    dry: dict[int, int] = {}
    fresh: dict[int, int] = {}
    for row in rows:
        dry[row.food_id] = dry.get(row.food_id, 0) + row.left_dg
        fresh[row.food_id] = fresh.get(row.food_id, 0) + row.left_dg + row.left_water_dg
    return {food_id: Fraction(fresh[food_id], dry[food_id]) for food_id in dry if dry[food_id]}


def _servings(row: PlannedLine, food: FoodLine, fresh_of_dry: Fraction | None) -> Fraction | None:
    """Servings of a food a planned dish takes; None where its line cannot be told in servings."""
    scale = Fraction(row.people, row.serves)
    if row.basis == Basis.SERVINGS:
        return scale * Fraction(row.servings_hundredths or 0, 100)
    basis, amount_dg = row.basis, Fraction(row.weight_dg or 0)
    if row.basis == Basis.MEASURE:
        if row.measure_basis is None or row.measure_dg is None:
            return None
        basis = row.measure_basis
        amount_dg = Fraction((row.amount_thousandths or 0) * row.measure_dg, 1000)
    if basis == Basis.DRY:
        if fresh_of_dry is None and food.water_cg is not None and food.water_cg < 10_000:
            fresh_of_dry = Fraction(10_000, 10_000 - food.water_cg)
        if fresh_of_dry is None:
            return None
        amount_dg *= fresh_of_dry
    return scale * amount_dg / food.serving_dg
