"""A store with 100,000 packages, made in seconds by SQL: for measuring, never for a person."""

from __future__ import annotations

import random
import sqlite3
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from string import ascii_uppercase

from stockroom.clock import FixedClock
from stockroom.domain.codes import lot_code, package_code
from stockroom.domain.quantities import UnitSystem
from stockroom.services.foods import add_food, search_foods
from stockroom.services.household import create_stockroom
from stockroom.services.places import add_place
from stockroom.services.session import Stockroom

TODAY = date(2026, 11, 25)
FOODS = 40
PACKAGES_A_LOT = 8
DRY_DG, WATER_DG = 600, 1900
YEARS = 12
"""The packages were made over so many years before today, the oldest used up first."""


def full_store(path: Path, packages: int, *, seed: int = 1) -> Stockroom:
    """An open stockroom with so many live packages in 36 places; the same for the same seed.

    Most are sound; a few dozen wait for their settle check, some are suspect, held or opened,
    and some lots have food left to pack.
    """
    room = create_stockroom(
        path,
        clock=FixedClock(TODAY),
        actor="tester",
        units=UnitSystem.METRIC,
        people=4,
        durable=False,
    )
    _places(room)
    for choice in search_foods(room, "")[:FOODS]:
        add_food(room, f"{choice.name} of ours", like=choice.name)
    connection = sqlite3.connect(path)
    with connection:
        _fill(connection, packages, random.Random(seed))
    connection.close()
    return room


def _places(room: Stockroom) -> None:
    for cellar in ("Cold cellar", "Pantry", "Loft"):
        add_place(room, cellar, temperature_dc=120)
        for rack in range(1, 4):
            add_place(room, f"{cellar}/Rack {rack}")
            for place in range(1, 4):
                add_place(room, f"{cellar}/Rack {rack}/Bin {place}")


def _fill(connection: sqlite3.Connection, packages: int, chance: random.Random) -> None:
    """Runs, lots, packages and projections, by executemany."""
    foods = [row[0] for row in connection.execute("SELECT id FROM food ORDER BY id")]
    places = [row[0] for row in connection.execute("SELECT id FROM location WHERE kind = 'bin'")]
    (container,) = connection.execute("SELECT min(id) FROM container").fetchone()
    lots = _lots(packages, foods, chance)
    rows = [
        package
        for lot in lots
        for package in _packages(lot, len(lots), container, chance.choice(places), chance)
    ]
    connection.executemany(_INSERT_RUN, [(lot.number, lot.day, lot.day) for lot in lots])
    connection.executemany(_INSERT_LOT, [lot.row for lot in lots])
    connection.executemany(_INSERT_PACKAGE, rows)
    connection.executemany(_INSERT_PROJECTION, [_projection(row, chance) for row in rows])


_INSERT_RUN = "INSERT INTO run (id, started_on, closed_on, state) VALUES (?, ?, ?, 'closed')"
_INSERT_LOT = (
    "INSERT INTO lot (id, code, run_id, food_id, made_on, preparation, wet_dg, dry_dg)"
    " VALUES (?, ?, ?, ?, ?, 'cooked', ?, ?)"
)
_INSERT_PACKAGE = (
    "INSERT INTO package (id, code, lot_id, food_id, number, container_id, dry_dg, water_dg,"
    " sealed_on, location_id, condition, opened_on) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
)
_INSERT_PROJECTION = (
    "INSERT INTO projection (package_id, best_by, low, high, recheck_by, limited_by, model,"
    f" computed_on) VALUES (?, ?, ?, ?, ?, 'cap', 'made up', '{TODAY.isoformat()}')"
)


@dataclass(frozen=True, slots=True)
class MadeLot:
    """A lot with so many packages of 60 g; the youngest three have food left to pack."""

    number: int
    code: str
    food_id: int
    day: str
    packages: int
    left_dg: int

    @property
    def row(self) -> tuple[object, ...]:
        """The values of its row."""
        dry_dg = self.packages * DRY_DG + self.left_dg
        wet_dg = dry_dg + self.packages * WATER_DG + self.left_dg * 3
        return (self.number, self.code, self.number, self.food_id, self.day, wet_dg, dry_dg)


def _lots(packages: int, foods: list[int], chance: random.Random) -> list[MadeLot]:
    """The lots, spread evenly over the years up to two days before today."""
    count = -(-packages // PACKAGES_A_LOT)
    lots: list[MadeLot] = []
    same_day = 0
    for number in range(1, count + 1):
        made = TODAY - timedelta(days=2 + (count - number) * 365 * YEARS // count)
        same_day = same_day + 1 if lots and lots[-1].day == made.isoformat() else 0
        here = min(PACKAGES_A_LOT, packages - (number - 1) * PACKAGES_A_LOT)
        left_dg = 100 if number > count - 3 else 0
        code = lot_code(made, ascii_uppercase[same_day])
        lots.append(MadeLot(number, code, chance.choice(foods), made.isoformat(), here, left_dg))
    return lots


def _packages(
    lot: MadeLot, lots: int, container: int, place: int, chance: random.Random
) -> list[tuple[object, ...]]:
    """The packages of a lot, all in one place."""
    rows: list[tuple[object, ...]] = []
    for number in range(1, lot.packages + 1):
        condition = _condition(lots - lot.number, chance)
        key = (lot.number - 1) * PACKAGES_A_LOT + number
        code = package_code(lot.code, number)
        opened = lot.day if condition == "opened" else None
        what = (key, code, lot.number, lot.food_id, number, container, DRY_DG, WATER_DG)
        rows.append((*what, lot.day, place, condition, opened))
    return rows


def _projection(package: tuple[object, ...], chance: random.Random) -> tuple[object, ...]:
    """A best-by some years on, with its band."""
    sealed = date.fromisoformat(str(package[8]))
    best_by = sealed + timedelta(days=365 * YEARS + chance.randrange(3650))
    low, high = best_by - timedelta(days=300), best_by + timedelta(days=300)
    return (package[0], best_by.isoformat(), low.isoformat(), high.isoformat(), low.isoformat())


def _condition(lots_since: int, chance: random.Random) -> str:
    """The youngest few lots settle; of the others a few in a thousand are not simply sound."""
    if lots_since < 6:
        return "settling"
    drawn = chance.randrange(10_000)
    if drawn < 2:
        return "suspect"
    return "held" if drawn < 3 else "opened" if drawn < 6 else "sound"
