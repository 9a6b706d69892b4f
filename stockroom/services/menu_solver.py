"""The solver for menus: the one place that knows HiGHS, loaded when a menu is planned.

One thread, a fixed seed and no limit but the gap give the same plan every time; only a time limit
or a stop by the person can end the search at a point that depends on the machine.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import StrEnum
from math import floor, isfinite
from typing import Any

from stockroom.domain.menu.checker import check
from stockroom.domain.menu.choices import choices
from stockroom.domain.menu.elastic import build_elastic
from stockroom.domain.menu.model import Model, build
from stockroom.domain.menu.plans import Plan, Proof, proof
from stockroom.domain.menu.quick import QuickPlan, quick_plan
from stockroom.domain.menu.reading import read_plan
from stockroom.domain.menu.records import Concession, Question
from stockroom.domain.menu.relax import conceded, concessions_for, words_for
from stockroom.domain.menu.shelf import shelves
from stockroom.domain.menu.start import start_values

SEED = 26_329
"""Any fixed number; no meaning."""
SLACK = 0.001
"""Points by which the solver's sums may be off; a bound is never taken lower for it."""
RELAX_GAP_MILLIONTHS = 50_000
"""How near the least that could be given up is near enough; engineering judgement."""


@dataclass(frozen=True, slots=True)
class Effort:
    """How long to search: the gap that is good enough, and seconds at most."""

    gap_millionths: int = 10_000
    seconds: float = 60.0


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the search is; nothing is known of what is None."""

    value: int | None
    bound: int | None
    gap_millionths: int | None
    seconds: float


class Ending(StrEnum):
    """How a search ended."""

    PROVEN = "proven"
    """The plan is within the gap of the best."""
    OUT_OF_TIME = "out_of_time"
    STOPPED = "stopped"
    NOTHING_FITS = "nothing_fits"
    GAVE_UP = "gave_up"
    """The solver ended for a reason of its own, such as memory."""


@dataclass(frozen=True, slots=True)
class Solved:
    """What a search found: the values of the columns (none if nothing was found) and the bound."""

    ending: Ending
    values: array[float] | None
    bound: float | None
    seconds: float


@dataclass(frozen=True, slots=True)
class MenuAnswer:
    """The best plan found and how good it is known to be.

    `fits` is False for a quick plan that misses a wish, where the search was ended before it found
    one that fits. With concessions the plan fits the wishes less what is given up, and its proof
    is for those; without any it fits the wishes as they were.
    """

    plan: Plan
    fits: bool
    proof: Proof
    ending: Ending
    seconds: float
    concessions: tuple[Concession, ...] = ()
    give_up: tuple[str, ...] = ()
    """The concessions in words, one sentence for each kind of wish."""


Told = Callable[[Progress], None]
Cancelled = Callable[[], bool]


def plan_menu(
    question: Question,
    effort: Effort,
    told: Told | None = None,
    cancelled: Cancelled | None = None,
) -> MenuAnswer:
    """The best plan for a question, and where nothing fits, for the question less some wishes.

    `told` and `cancelled` as in `solve`. The seconds of the effort are for each search; where
    nothing fits there are three (as asked, what to give up, again with that). Raises
    FixedBeyondStock where the locked dishes alone are more than the store has.
    """
    quick = quick_plan(question)
    model = build(question)
    start = start_values(model, question, quick.chosen, quick.plan) if quick.fits else None
    solved = solve(model, effort, start, told, cancelled)
    if solved.ending is Ending.NOTHING_FITS:
        return _relaxed(question, effort, told, cancelled)
    return _answered(question, quick, model, solved)


def _answered(question: Question, quick: QuickPlan, model: Model, solved: Solved) -> MenuAnswer:
    """The better of the quick plan and the one the search found, held against the question."""
    plan, fits = quick.plan, quick.fits
    if solved.values is not None:
        found = read_plan(question, model.chosen(solved.values))
        sound = not check(question, found)
        if sound and (not fits or found.account.value >= plan.account.value):
            plan, fits = found, True
    bound = _whole(solved.bound) if fits else None
    return MenuAnswer(plan, fits, proof(plan.account.value, bound), solved.ending, solved.seconds)


def _relaxed(
    question: Question, effort: Effort, told: Told | None, cancelled: Cancelled | None
) -> MenuAnswer:
    """What to give up, and the best plan then: found by asking again with that given up."""
    model = build_elastic(question)
    light = Effort(RELAX_GAP_MILLIONTHS, effort.seconds)
    solved = solve(model, light, cancelled=cancelled)
    if solved.values is None:
        quick = quick_plan(question)
        nothing = proof(quick.plan.account.value, None)
        return MenuAnswer(quick.plan, quick.fits, nothing, solved.ending, solved.seconds)
    every = choices(question, shelves(question), loosened=True)
    chosen = model.chosen(solved.values)
    given = concessions_for(question, every, chosen)
    easier = conceded(question, given)
    plan = read_plan(easier, chosen)
    found = QuickPlan(chosen, plan, not check(easier, plan))
    again = build(easier)
    start = start_values(again, easier, chosen, plan) if found.fits else None
    answer = _answered(easier, found, again, solve(again, effort, start, told, cancelled))
    return replace(
        answer,
        seconds=answer.seconds + solved.seconds,
        concessions=given,
        give_up=words_for(question, given),
    )


def solve(
    model: Model,
    effort: Effort,
    start: array[float] | None = None,
    told: Told | None = None,
    cancelled: Cancelled | None = None,
) -> Solved:
    """Search for the best values of a model's columns.

    `start` is a solution to begin with. `told` is called from the search with each better plan
    and now and then between; `cancelled` is asked often and ends the search with the best so far.
    """
    if not model.cost:
        return _empty(model)
    import highspy
    import numpy

    class Quiet(highspy.Highs):
        """Says nothing, from the first: it would greet on stdout before options can be set."""

        def enableCallbacks(self) -> None:
            self.setOptionValue("output_flag", False)
            super().enableCallbacks()

    solver = Quiet()
    _set_options(solver, effort)
    pass_model(solver, highspy, numpy, model)
    if start is not None:
        places = numpy.arange(len(start), dtype=numpy.int32)
        solver.setSolution(len(start), places, numpy.frombuffer(start))
    _listen(solver, told, cancelled)
    solver.run()
    return _answer(solver, highspy)


def _set_options(solver: Any, effort: Effort) -> None:
    """Quiet, repeatable, and no longer than asked."""
    for name, value in (
        ("threads", 1),
        ("parallel", "off"),
        ("random_seed", SEED),
        ("mip_rel_gap", effort.gap_millionths / 1_000_000),
        ("mip_abs_gap", 0.999),
        ("time_limit", float(effort.seconds)),
        # Measured on 14 days, 40 recipes, 1,000 packages: with presolve the gap was still over 1 %
        # after two minutes where without it 1 % was proven in seconds.
        ("presolve", "off"),
    ):
        solver.setOptionValue(name, value)


def pass_model(solver: Any, highspy: Any, numpy: Any, model: Model) -> None:
    """Hand over the arrays of a model as they are."""
    sense = highspy.ObjSense.kMaximize if model.maximise else highspy.ObjSense.kMinimize
    numbers = [
        numpy.frombuffer(each)
        for each in (model.cost, model.low, model.high, model.row_low, model.row_high)
    ]
    solver.passModel(
        len(model.cost),
        len(model.row_low),
        len(model.index),
        int(highspy.MatrixFormat.kRowwise),
        int(sense),
        model.offset,
        *numbers,
        numpy.frombuffer(model.starts, dtype=numpy.int32),
        numpy.frombuffer(model.index, dtype=numpy.int32),
        numpy.frombuffer(model.factor),
        numpy.frombuffer(model.whole, dtype=numpy.int32),
    )


def _listen(solver: Any, told: Told | None, cancelled: Cancelled | None) -> None:
    """Tell of progress and look at the flag, from within the search."""
    if told is not None:
        tell = told

        def progress(event: Any) -> None:
            tell(_progress(event.data_out))

        solver.cbMipImprovingSolution.subscribe(progress)
        solver.cbMipLogging.subscribe(progress)
    if cancelled is not None:
        ask = cancelled

        def look(event: Any) -> None:
            if ask():
                event.interrupt()

        solver.cbMipInterrupt.subscribe(look)
        solver.cbSimplexInterrupt.subscribe(look)


def _progress(data: Any) -> Progress:
    """How far the search is, as the solver tells it."""
    value, bound = _whole(data.mip_primal_bound), _whole(data.mip_dual_bound)
    if value is None:
        return Progress(None, bound, None, data.running_time)
    known = proof(value, bound)
    return Progress(value, known.bound, known.gap_millionths, data.running_time)


def _whole(number: float | None) -> int | None:
    """Points from the solver's number, or None for no number; points are whole."""
    return None if number is None or not isfinite(number) else floor(number + SLACK)


def _answer(solver: Any, highspy: Any) -> Solved:
    """What the search came to."""
    info, status = solver.getInfo(), solver.getModelStatus()
    endings = {
        highspy.HighsModelStatus.kOptimal: Ending.PROVEN,
        highspy.HighsModelStatus.kTimeLimit: Ending.OUT_OF_TIME,
        highspy.HighsModelStatus.kInterrupt: Ending.STOPPED,
        highspy.HighsModelStatus.kHighsInterrupt: Ending.STOPPED,
        highspy.HighsModelStatus.kInfeasible: Ending.NOTHING_FITS,
        highspy.HighsModelStatus.kUnboundedOrInfeasible: Ending.NOTHING_FITS,
    }
    found = info.primal_solution_status == 2
    values = array("d", solver.getSolution().col_value) if found else None
    ending = endings.get(status, Ending.GAVE_UP)
    return Solved(ending, values, info.mip_dual_bound, solver.getRunTime())


def _empty(model: Model) -> Solved:
    """The answer for a model without columns, which the solver does not look at."""
    fits = all(low <= 0 <= high for low, high in zip(model.row_low, model.row_high, strict=True))
    if fits:
        return Solved(Ending.PROVEN, array("d"), model.offset, 0.0)
    return Solved(Ending.NOTHING_FITS, None, None, 0.0)
