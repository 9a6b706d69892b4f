"""What a forecast costs: run by `python -m tests.benchmarks.horizon`.

Ten years ahead over 1,000, 10,000 and 100,000 packages: forty foods, lots of 6 to 10 packages,
best by anything up to ten years on, each food eaten at a pace of its own. Each is set against
sorting the same tuples, which no forecast can do without, and told as nanoseconds for each step of
n log n, which stays level when the growth is as it should be. Then the odds of waste: 200 rounds
over 5,000 packages. Last the shelf read from a store, set against its bare query, and the whole
forecast and cover of that store set against the same.
"""

from __future__ import annotations

import sys
import tempfile
from datetime import date, timedelta
from fractions import Fraction
from math import log2
from pathlib import Path
from random import Random

from stockroom.domain.horizon.chance_stream import ChanceStream
from stockroom.domain.horizon.eating import FoodEating, steady
from stockroom.domain.horizon.forecast import forecast
from stockroom.domain.horizon.odds import odds_of_waste
from stockroom.domain.horizon.planned import PlannedUse
from stockroom.domain.horizon.stock import StockPackage
from stockroom.services.eating_rates import list_rates, set_rate
from stockroom.services.horizon import horizon, rotation
from stockroom.services.horizon_shelf import read_shelf, stock_packages
from stockroom.services.provision import cover
from stockroom.store.horizon_rows import shelf_rows
from tests.benchmarks.full_store import full_store
from tests.benchmarks.measure import Ratio, Timing, ratios_table, repeat, timings_table

COUNTS = (1_000, 10_000, 100_000)
FOODS = 40
DAYS = 3_653
TIMES = 5
TODAY = date(2026, 11, 25)
ROUNDS, AT_ODDS = 200, 5_000
IN_STORE = 30_000


def shelf(count: int, seed: int = 26329) -> list[StockPackage]:
    """So many packages in no order, the same at every call."""
    chance = Random(seed)
    found: list[StockPackage] = []
    while len(found) < count:
        food = chance.randrange(FOODS)
        made_on = TODAY - timedelta(days=chance.randrange(900))
        best_by = TODAY + timedelta(days=chance.randrange(30, DAYS))
        low, high = (made_on + (best_by - made_on) * part / 10 for part in (6, 16))
        servings = Fraction(chance.randrange(300, 5_000), 850)
        for _ in range(chance.randrange(6, 11)):
            found.append(
                StockPackage(
                    len(found), food, made_on, best_by, servings, low=low, high=high
                )
            )  # fmt: skip
    chance.shuffle(found)
    return found[:count]


def paces(packages: list[StockPackage]) -> list[FoodEating]:
    """Each food is eaten up in about eight years, so that some of it passes its best-by."""
    totals = [Fraction(0)] * FOODS
    for package in packages:
        totals[package.food_id] += package.servings
    return [
        steady(food, Fraction(int(100 * total / DAYS * 5 / 4), 100))
        for food, total in enumerate(totals)
    ]


def plans(packages: list[StockPackage]) -> list[PlannedUse]:
    """A use of some food on every day of the next month."""
    return [
        PlannedUse(day % FOODS, TODAY + timedelta(days=day), Fraction(3, 2)) for day in range(30)
    ]


def measured(count: int) -> tuple[Timing, Timing]:
    """The forecast of so many packages, and sorting them."""
    packages = shelf(count)
    eating, planned = paces(packages), plans(packages)
    tuples = [(one.food_id, one.best_by, one.made_on, one.package_id) for one in packages]
    return (
        repeat(
            f"forecast, {count:,} packages",
            lambda: forecast(packages, eating, TODAY, days=DAYS, planned=planned),
            TIMES,
        ),
        repeat(f"sorting {count:,} tuples", lambda: sorted(tuples), TIMES),
    )


def odds_timing() -> Timing:
    """The odds of waste for a large household."""
    packages = shelf(AT_ODDS)
    eating = paces(packages)
    return repeat(
        f"odds, {ROUNDS} rounds of {AT_ODDS:,} packages",
        lambda: odds_of_waste(
            packages, eating, TODAY, days=DAYS, rounds=ROUNDS, chance=ChanceStream(26329)
        ),
        1,
    )


def store_timings() -> tuple[Timing, ...]:
    """The shelf of a store: the bare query first, then what is made of it."""
    with tempfile.TemporaryDirectory() as folder:
        room = full_store(Path(folder) / "stockroom.db", IN_STORE)
        for one in list_rates(room):
            set_rate(room, one.food.name, Fraction(1, 2))
        store, count = room.store, f"{IN_STORE:,} packages"
        asked: list[str] = []
        store.connection.set_trace_callback(asked.append)
        shelf_rows(store)
        store.connection.set_trace_callback(None)
        found = (
            repeat(f"bare query, {count}", lambda: store.query(asked[0]), TIMES),
            repeat(f"packages read, {count}", lambda: stock_packages(read_shelf(room)), TIMES),
            repeat(f"horizon, {count}", lambda: horizon(room, months=120, advise=False), TIMES),
            repeat(f"rotation, {count}", lambda: rotation(room), TIMES),
            repeat(f"cover, {count}", lambda: cover(room), TIMES),
        )
        room.close()
    return found


def main() -> int:
    """Measure and print."""
    stored = store_timings()
    pairs = [measured(count) for count in COUNTS]
    timings = [timing for pair in pairs for timing in pair]
    print("\n".join(timings_table([*timings, odds_timing(), *stored])))
    print()
    ratios = [Ratio(f"{a.name} / {b.name}", a, b) for a, b in pairs]
    ratios += [Ratio(f"{one.name} / {stored[0].name}", one, stored[0]) for one in stored[1:]]
    print("\n".join(ratios_table(ratios)))
    print()
    steps = [
        pair[0].median_ms * 1_000_000 / (count * log2(count))
        for count, pair in zip(COUNTS, pairs, strict=True)
    ]
    for count, step in zip(COUNTS, steps, strict=True):
        print(f"n log n, {count:>7,}: {step:7.1f} ns a step, {step / steps[0]:.2f} of the first")
    return 0


if __name__ == "__main__":
    sys.exit(main())
