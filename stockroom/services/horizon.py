"""Looking ahead: which food is used when, what passes its best-by, what to take this month."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date

from stockroom.domain.calendar import add_months
from stockroom.domain.horizon.chance_stream import ChanceStream
from stockroom.domain.horizon.eating import FoodEating
from stockroom.domain.horizon.eating_rate import Due, EatingRate, least_rate
from stockroom.domain.horizon.eating_rate_working import eating_rate_working
from stockroom.domain.horizon.forecast import Fate, FoodForecast, forecast
from stockroom.domain.horizon.household_eating import Basis, HouseholdEating, after_plan
from stockroom.domain.horizon.odds import Odds, odds_of_waste
from stockroom.domain.horizon.pages import (
    FoodHorizon,
    FoodOrder,
    HorizonPage,
    KnownFood,
    PlannedPart,
    RotationPage,
    Stop,
)
from stockroom.domain.horizon.stock import NONE, StockPackage
from stockroom.domain.horizon.use_order import use_order
from stockroom.domain.walking import walking_order
from stockroom.domain.working import Working
from stockroom.errors import BadInput
from stockroom.services.eating_rates import household_eating
from stockroom.services.finding import find_food
from stockroom.services.horizon_advice import advice_for
from stockroom.services.horizon_shelf import (
    MenuUses,
    Shelf,
    dishes_with,
    menu_uses,
    raw_packages,
    read_shelf,
    set_apart,
    stock_packages,
    why_apart,
)
from stockroom.services.session import Stockroom
from stockroom.store.place_rows import place_paths

MOST_MONTHS = 1_200
"""A hundred years: nothing keeps as long."""
MOST_ROUNDS = 100_000

Progress = Callable[[int, int], None]
Cancelled = Callable[[], bool]


@dataclass(frozen=True, slots=True)
class _Ahead:
    """Everything the forecast is made of, read once."""

    shelf: Shelf
    packages: tuple[StockPackage, ...]
    how: Mapping[int, HouseholdEating]
    eating: tuple[FoodEating, ...]
    """Paces once the planned days are over."""
    menu: MenuUses
    today: date
    until: date
    found: Mapping[int, FoodForecast]
    raw: frozenset[int]
    """Packages of raw food."""

    @property
    def days(self) -> int:
        """Length of the forecast."""
        return (self.until - self.today).days

    @property
    def known(self) -> dict[int, KnownFood]:
        """Every food by its number."""
        return self.shelf.known


def horizon(
    room: Stockroom,
    *,
    months: int = 12,
    food: str | None = None,
    advise: bool = True,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> HorizonPage:
    """The forecast over so many months, of one food or all, with advice on what would pass.

    `progress` and `cancelled` are for the weighing up of advice, which may be cut short. Raises
    NotFound and BadInput.
    """
    ahead = _ahead(room, months, food)
    foods = tuple(
        _food_horizon(ahead, known)
        for known in ahead.known.values()
        if known.food_id in ahead.found
    )
    page = HorizonPage(
        today=ahead.today,
        days=ahead.days,
        until=ahead.until,
        foods=foods,
        planned=_planned(ahead),
        apart=set_apart(ahead.shelf, ((row, why_apart(row)) for row in ahead.shelf.rows)),
    )
    if not advise:
        return page
    paces = {one.food_id: one for one in ahead.eating}
    dishes = dishes_with(room, ahead.shelf)
    advice, left = advice_for(room, page, paces, ahead.menu, dishes, progress, cancelled)
    return replace(page, advice=advice, not_looked_at=left)


def horizon_odds(
    room: Stockroom,
    *,
    months: int = 12,
    food: str | None = None,
    rounds: int = 200,
    seed: int = 1,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> Odds:
    """The odds of waste over so many rounds; the same seed gives the same answer.

    Foods of which nobody said how they are eaten are left out. Raises NotFound and BadInput.
    """
    if not 1 <= rounds <= MOST_ROUNDS:
        raise BadInput("rounds", str(rounds), f"a number from 1 to {MOST_ROUNDS}")
    ahead = _ahead(room, months, food)
    said = {one for one, how in ahead.how.items() if how.basis is not Basis.NOBODY}
    return odds_of_waste(
        [one for one in ahead.packages if one.food_id in said],
        ahead.eating,
        ahead.today,
        days=ahead.days,
        rounds=rounds,
        chance=ChanceStream(seed),
        planned=[one for one in ahead.menu.uses if one.food_id in said],
        spreads={food_id: how.spread for food_id, how in ahead.how.items()},
        progress=progress,
        cancelled=cancelled,
    )


def rotation(room: Stockroom, *, months: int = 1) -> RotationPage:
    """Both orders of every food, and what to take this month, place by place as one walks.

    Raises BadInput.
    """
    ahead = _ahead(room, months, None)
    known = ahead.known
    stops = _stops(room, ahead)
    return RotationPage(
        ahead.today,
        ahead.until,
        tuple(_order(ahead, known[food_id]) for food_id in known if food_id in ahead.found),
        tuple(one for one in stops if one.fate is not Fate.PAST),
        tuple(one for one in stops if one.fate is Fate.PAST),
        set_apart(ahead.shelf, ((row, why_apart(row)) for row in ahead.shelf.rows)),
    )


def least_rate_workings(page: HorizonPage) -> tuple[Working, ...]:
    """How the least rate of each food is reached, those that lose most first."""
    foods = sorted(page.foods, key=lambda one: (-one.unused_servings, one.food.name.casefold()))
    return tuple(
        replace(working, title=f"Least eating rate of {one.food.name}")
        for one in foods
        if one.in_time
        for working in (eating_rate_working(one.least),)
    )


def _ahead(room: Stockroom, months: int, food: str | None) -> _Ahead:
    """Read the store and forecast every food, or one."""
    if not 1 <= months <= MOST_MONTHS:
        raise BadInput("months", str(months), f"a whole number from 1 to {MOST_MONTHS}")
    today = room.today
    until = add_months(today, months)
    shelf = read_shelf(room)
    if food is not None:
        shelf = _only(shelf, find_food(room, food).food_id)
    packages = tuple(stock_packages(shelf))
    days = (until - today).days
    how = household_eating(room, shelf.foods, days)
    menu = menu_uses(room, shelf, until)
    eating = _paces(how, menu)
    found = forecast(packages, eating, today, days=days, planned=menu.uses)
    return _Ahead(
        shelf,
        packages,
        how,
        eating,
        menu,
        today,
        until,
        {one.food_id: one for one in found.foods},
        raw_packages(shelf),
    )


def _only(shelf: Shelf, food_id: int) -> Shelf:
    """The shelf with one food alone."""
    return Shelf(
        tuple(row for row in shelf.foods if row.food_id == food_id),
        tuple(row for row in shelf.rows if row.food_id == food_id),
    )


def _paces(how: Mapping[int, HouseholdEating], menu: MenuUses) -> tuple[FoodEating, ...]:
    """The pace of each food beside the menu."""
    found = (after_plan(one.eating, menu.last_days.get(food_id)) for food_id, one in how.items())
    return tuple(one for one in found if one is not None)


def _food_horizon(ahead: _Ahead, food: KnownFood) -> FoodHorizon:
    """One food of the forecast."""
    found = ahead.found[food.food_id]
    packages = [one.package for one in found.packages]
    return FoodHorizon(
        food,
        ahead.how[food.food_id],
        found,
        _least(packages, ahead.today),
        frozenset(one.package_id for one in packages if one.package_id in ahead.raw),
    )


def _least(packages: Iterable[StockPackage], today: date) -> EatingRate:
    """The least steady rate of a food, whatever is planned of it."""
    return least_rate((Due(one.servings, one.best_by) for one in packages), today)


def _planned(ahead: _Ahead) -> PlannedPart:
    """What the menu takes, and what of it the shelf cannot serve."""
    known, menu = ahead.known, ahead.menu
    return PlannedPart(
        menu.dishes,
        sum((one.servings for one in menu.uses), NONE),
        tuple((known[one.food_id], miss) for one in ahead.found.values() for miss in one.unserved),
        menu.unknown,
    )


def _order(ahead: _Ahead, food: KnownFood) -> FoodOrder:
    """One food in both orders, what is past left out."""
    packages = [
        one.package for one in ahead.found[food.food_id].packages if one.fate is not Fate.PAST
    ]
    how = ahead.how[food.food_id]
    return FoodOrder(food, how, use_order(packages, ahead.today, how.servings_per_day or None))


def _stops(room: Stockroom, ahead: _Ahead) -> list[Stop]:
    """Packages whose turn comes, or whose best-by does, as they are walked along."""
    paths = place_paths(room.store)
    known = ahead.known
    places = {row.package_id: row.place_id for row in ahead.shelf.rows}
    stops: list[Stop] = []
    for food_id, found in ahead.found.items():
        said = ahead.how[food_id].basis is not Basis.NOBODY
        for one in found.packages:
            if one.from_day is None and one.fate is Fate.LEFT:
                continue
            package_id = one.package.package_id
            place_id = places[package_id]
            stops.append(
                Stop(
                    known[food_id],
                    one.package,
                    "" if place_id is None else paths.get(place_id, ""),
                    one.from_day,
                    one.to_day,
                    one.fate,
                    package_id in ahead.raw,
                    said,
                )
            )
    return sorted(stops, key=lambda stop: walking_order(stop.place, stop.package.code))
