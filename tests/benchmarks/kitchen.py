"""What planning a dish costs on full shelves: run by `python -m tests.benchmarks.kitchen`.

On a store of 100,000 packages a recipe of four foods is planned: packages read, picked and their
water dealt out. It is set against the bare SQL that reads the same packages, and beside it stands
the bare SQL that reads every package of the four foods. The last line says whether the aim is met.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory

from stockroom.domain.cooking import Basis, ScaledRecipe, scale
from stockroom.services.cooking_shelf import plan_from_shelf
from stockroom.services.foods import list_foods
from stockroom.services.kitchen import add_recipe, cook_sheet
from stockroom.services.recipes import LineRequest, show_recipe
from stockroom.services.session import Stockroom
from stockroom.services.written_recipes import written_recipe
from tests.benchmarks.full_store import full_store
from tests.benchmarks.measure import ratios_table, repeat, timings_table
from tests.benchmarks.round import FastestRatio
from tests.benchmarks.tables import MANY

AIM = 3.0
"""The most the plan may take of the bare SQL's time."""
FEW, FEAST = 4, 300
"""People of a household's meal, and of one that takes dozens of packages."""


class Watched:
    """The store's queries while a dish is planned, to be asked again as they are."""

    def __init__(self, room: Stockroom) -> None:
        self.room = room
        self.asked: list[str] = []

    def of(self, scaled: ScaledRecipe) -> Sequence[str]:
        """The statements a plan makes, their values filled in."""
        self.asked = []
        connection = self.room.store.connection
        connection.set_trace_callback(self.asked.append)
        plan_from_shelf(self.room, scaled)
        connection.set_trace_callback(None)
        return tuple(self.asked)


def bare(room: Stockroom, statements: Sequence[str]) -> int:
    """Ask the database itself; how many rows it gave."""
    return sum(len(room.store.connection.execute(one).fetchall()) for one in statements)


def every_package(foods: Sequence[int]) -> tuple[str, ...]:
    """The bare SQL that reads all candidates of some foods."""
    return tuple(
        "SELECT package.id, package.code, package.dry_dg, water_dg, taken_dg, made_on, best_by"
        " FROM package JOIN lot ON lot.id = package.lot_id"
        " LEFT JOIN projection ON package_id = package.id"
        f" WHERE package.food_id = {food_id} AND condition IN ('settling', 'sound', 'opened')"
        for food_id in foods
    )


def with_recipe(room: Stockroom) -> tuple[str, tuple[int, ...]]:
    """A dish of four foods; its name and their ids."""
    foods = list_foods(room)[:4]
    lines = [LineRequest(food=food.name, basis=Basis.FRESH, amount=Fraction(300)) for food in foods]
    add_recipe(room, "Hotpot", FEW, lines)
    return "Hotpot", tuple(food.food_id for food in foods)


def main() -> int:
    """Measure and print; 0 when the aim is met."""
    with TemporaryDirectory() as folder:
        room = full_store(Path(folder) / "full.db", MANY)
        name, foods = with_recipe(room)
        recipe = written_recipe(room, show_recipe(room, name))
        timings, ratios = [], []
        for people in (FEW, FEAST):
            scaled = scale(recipe, people)
            statements = Watched(room).of(scaled)
            rows = bare(room, statements)
            said = f"{people} people, {rows} packages read of {MANY:,}"
            plan = repeat(f"plan, {said}", lambda one=scaled: plan_from_shelf(room, one))
            sql = repeat(f"bare SQL, {said}", lambda some=statements: bare(room, some))
            timings += [plan, sql]
            ratios.append(
                FastestRatio(f"plan for {people} / the bare SQL that reads them", plan, sql)
            )
        every = every_package(foods)
        everything = repeat(
            f"bare SQL, all {bare(room, every):,} of the foods", lambda: bare(room, every)
        )
        sheet = repeat(f"whole sheet, {FEW} people", lambda: cook_sheet(room, name, FEW))
        timings += [everything, sheet]
        ratios.append(
            FastestRatio(f"plan for {FEW} / bare SQL of all packages", timings[0], everything)
        )
        print("\n".join([*timings_table(timings), "", *ratios_table(ratios)]))
        met = ratios[0].value <= AIM
        print(f"\nplan within {AIM:g} times the bare SQL: {'yes' if met else 'no'}")
        room.close()
    return 0 if met else 1


if __name__ == "__main__":
    sys.exit(main())
