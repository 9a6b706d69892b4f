"""What a menu costs: run by `python -m tests.benchmarks.menu`.

14 days, 40 recipes and 1,000 packages of a household of four: the quick plan, building the model,
the whole way to a plan within 1 % of the best, and the bare solver on the same model, with its
own defaults, read from a file. The last line says whether both aims are met: a gap of 1 % proven
in no more time than the bare solver needs, and a model built in a quarter of the solver's time.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from random import Random
from time import perf_counter
from typing import TypeVar

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.checker import check
from stockroom.domain.menu.model import Model, build
from stockroom.domain.menu.quick import quick_plan
from stockroom.domain.menu.records import (
    Day,
    DishOption,
    Helping,
    MenuFood,
    MenuPackage,
    Question,
    Use,
    Wishes,
)
from stockroom.services.menu_solver import Effort, plan_menu
from tests.benchmarks.measure import Ratio, Timing, ratios_table, repeat, timings_table

Found = TypeVar("Found")

FIRST = date(2026, 11, 25)
FOODS = 45
EATERS = 4
KCAL_OF = {Occasion.BREAKFAST: 2000, Occasion.MAIN: 3600, Occasion.EXTRA: 900}
TURNS = (Occasion.BREAKFAST, Occasion.MAIN, Occasion.MAIN, Occasion.EXTRA)
SEEDS = (1, 2, 3)
LONGEST_SECONDS = 120.0


def household(
    days: int = 14,
    recipes: int = 40,
    packages: int = 1000,
    seed: int = 1,
    wishes: Wishes | None = None,
) -> Question:
    """Four people; about one package in twelve is due within seven weeks, a few are open."""
    chance = Random(seed)
    foods = tuple(
        MenuFood(number, f"food {number}", chance.randrange(300, 3000))
        for number in range(1, FOODS + 1)
    )
    shelf = [_package(chance, number) for number in range(1, packages + 1)]
    shelf.sort(key=lambda each: (not each.opened, each.package_id))
    options = tuple(_dish(chance, number) for number in range(1, recipes + 1))
    plan_days = tuple(Day(FIRST + timedelta(days=number), 8800, 2200) for number in range(days))
    return Question(plan_days, foods, tuple(shelf), options, wishes or Wishes())


def _package(chance: Random, number: int) -> MenuPackage:
    """A package of 150 to 900 g fresh."""
    days = chance.randrange(2, 50) if chance.random() < 0.08 else chance.randrange(100, 5000)
    opened = chance.random() < 0.02
    if opened:
        days = min(days, chance.randrange(3, 14))
    due = FIRST + timedelta(days=days)
    food_id = chance.randrange(1, FOODS + 1)
    fresh_dg = chance.randrange(1500, 9000)
    return MenuPackage(number, f"P{number}", food_id, fresh_dg, due, opened, opened)


def _dish(chance: Random, number: int) -> DishOption:
    """A dish for four, six or eight, of one to four foods."""
    occasion = TURNS[number % len(TURNS)]
    base = KCAL_OF[occasion]
    kcal = chance.randrange(base * 8 // 10, base * 12 // 10)
    most = 2 if occasion is Occasion.EXTRA else 4
    foods = chance.sample(range(1, FOODS + 1), chance.randrange(1, most + 1))
    amounts = [chance.randrange(1000, 8000) for _ in foods]
    helpings = tuple(
        Helping(
            people,
            kcal * people // EATERS,
            kcal * people // EATERS * 10 // 25,
            sum(amounts) // 10 * people // EATERS,
            tuple(
                Use(food_id, fresh_dg * people // EATERS)
                for food_id, fresh_dg in zip(foods, amounts, strict=True)
            ),
        )
        for people in (4, 6, 8)
    )
    return DishOption(number, f"dish {number}", occasion, helpings, chance.random() < 0.5)


def written(model: Model, path: Path) -> None:
    """The model in the solver's own file format."""
    import highspy
    import numpy

    from stockroom.services.menu_solver import pass_model

    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    pass_model(solver, highspy, numpy, model)
    solver.writeModel(str(path))


def bare(path: Path) -> float:
    """The solver alone, from the file to the same gap: the gap it got to."""
    import highspy

    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("mip_rel_gap", 0.01)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("time_limit", LONGEST_SECONDS)
    solver.readModel(str(path))
    solver.run()
    return solver.getInfo().mip_gap


def once(name: str, act: Callable[[], Found]) -> tuple[Timing, Found]:
    """Time a single long call, with what it gives."""
    began = perf_counter()
    found = act()
    return Timing(name, ((perf_counter() - began) * 1000,)), found


def measure(seed: int) -> bool:
    """Measure and print one household; True when both aims are met."""
    question = household(seed=seed)
    quick = repeat("quick plan", lambda: quick_plan(question), 3)
    built = repeat("model built", lambda: build(question), 5)
    ours, answer = once(
        "to a plan, our way", lambda: plan_menu(question, Effort(10_000, LONGEST_SECONDS))
    )
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "menu.mps"
        written(build(question), path)
        alone, gap = once("to a plan, bare solver", lambda: bare(path))
    faster = Ratio("our way / bare solver", ours, alone)
    small = Ratio("model built / our way", built, ours)
    proof = answer.proof
    first = quick_plan(question).plan.account.value
    print(
        f"household {seed}: quick {first}, plan {proof.value}, bound {proof.bound}, gap"
        f" {(proof.gap_millionths or 0) / 10_000:.2f} %, bare solver {gap * 100:.2f} %,"
        f" faults {len(check(question, answer.plan))}"
    )
    print(
        "\n".join((*timings_table((quick, built, ours, alone)), "", *ratios_table((faster, small))))
    )
    print()
    proven = proof.gap_millionths is not None and proof.gap_millionths <= 10_200
    return proven and faster.value <= 1 and small.value <= 0.25


def main() -> int:
    """Measure, print, and return 0 when the aims are met."""
    met = all(tuple(measure(seed) for seed in SEEDS))
    print(f"aims: {'met' if met else 'missed'}")
    return 0 if met else 1


if __name__ == "__main__":
    sys.exit(main())
