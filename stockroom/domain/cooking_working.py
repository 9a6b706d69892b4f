"""How the water of a dish is reached: food by food, package by package, and in all."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from stockroom.domain.cooking import Basis, CookLine, CookPlan, Recipe, StoredNeed
from stockroom.domain.quantities import grams, show_servings
from stockroom.domain.rotation import Pick
from stockroom.domain.take_working import Origin, Taking, add_takings
from stockroom.domain.water import show_water
from stockroom.domain.water_doubt import add_water_doubt
from stockroom.domain.water_share import HOLD_BACK, WaterShare, WaterWay
from stockroom.domain.water_working import DEALT_OUT, UPPER_BOUND_CAUTION, add_volumes
from stockroom.domain.working import Given, Source, Standing, Trace, Working

FIRST_IN_FIRST_OUT = Source(
    "first-in-first-out",
    "NDSU Extension FN579: first in, first out",
    Standing.PUBLISHED,
)
LEAST_COVERING = Source(
    "least-covering",
    "Of the last package the least tenth of a gram is taken that covers what is wanted",
    Standing.ENGINEERING_JUDGEMENT,
)
OWN_SCALE = Source(
    "own-scale", "Weighed by the household on its own scale", Standing.COMMON_PRACTICE
)
NOTHING_THERE = "nothing of it is on the shelves"


def cook_workings(
    recipe: Recipe, plan: CookPlan, origins: Mapping[int, Origin], way: WaterWay
) -> tuple[Working, ...]:
    """The water of each food of a dish, then of the whole dish.

    `recipe` is the dish as written with its swaps, `plan` the same for so many people; `origins`
    has every picked package by its id; `way` is how the water is measured.
    """
    needs = [line for line in recipe.lines if isinstance(line, StoredNeed)]
    counted = _counted(plan)
    workings = [
        _line_working(recipe, counted, need, line, origins, way)
        for need, line in zip(needs, plan.lines, strict=True)
    ]
    return (*workings, _sum_working(recipe, plan, counted, way))


def _counted(plan: CookPlan) -> Given:
    """What the recipe is multiplied by: people, or the servings asked for."""
    if plan.servings is None:
        return Given("people", str(plan.people))
    return Given("servings asked for", str(plan.servings))


def _line_working(
    recipe: Recipe,
    counted: Given,
    written: StoredNeed,
    line: CookLine,
    origins: Mapping[int, Origin],
    way: WaterWay,
) -> Working:
    """The water of one food."""
    trace = Trace(f"Water for {line.need.food_name}")
    wanted = _wanted(trace, recipe, counted, written, line)
    if not line.picks:
        trace.note("dry taken", NOTHING_THERE, wanted)
        trace.conclude(NOTHING_THERE)
        return trace.finish()
    takings = [(origins[pick.candidate.package_id], _taking(pick)) for pick in line.picks]
    waters = add_takings(trace, takings, _taken(trace, line, wanted))
    water = waters[0]
    if len(waters) > 1:
        water = trace.total("water for all of it", waters, _grams(line.water_dg))
    add_volumes(trace, water, line.water_dg, way.at_c, way.cup)
    _hold_back(trace, water, line)
    add_water_doubt(trace, water, [origin.part(one.take_dg) for origin, one in takings])
    if line.shortfall_dg:
        trace.caution(f"The shelves are short by {_grams(line.shortfall_dg)}, {_kind(line)}.")
    trace.caution(DEALT_OUT)
    trace.conclude(show_water(line.water_dg, way.at_c, way.cup))
    return trace.finish()


def _hold_back(trace: Trace, water: Given, line: CookLine) -> None:
    """Write the part of the water to hold back, and what to add at first."""
    share = Given("share to hold back", f"{line.hold_back_percent / 100:.2f}", HOLD_BACK)
    held = trace.step(
        "to hold back", "{water} x {share}", _grams(line.water.held_dg), water=water, share=share
    )
    trace.step("to add at first", "{water} - {held}", _grams(line.water.now_dg),
               water=water, held=held)  # fmt: skip


def _wanted(
    trace: Trace, recipe: Recipe, counted: Given, written: StoredNeed, line: CookLine
) -> Given:
    """What so many people or servings want of a food."""
    amount = _grams(int(written.amount))
    inputs: dict[str, Given] = {}
    if written.basis is Basis.SERVINGS:
        amount = f"{show_servings(Fraction(written.amount))} servings"
        inputs["serving"] = Given("one serving as eaten", _grams(written.serving_dg or 0))
    if written.measure is not None:
        amount = f"{float(written.amount):g} {written.measure.name}"
        inputs["measure"] = Given(
            f"one {written.measure.name} of it, {written.measure.basis}",
            _grams(written.measure.weight_dg),
            OWN_SCALE,
        )
    return trace.step(
        f"wanted, {_kind(line)}",
        "{amount} x {people} / {serves}" + "".join(f" x {{{name}}}" for name in inputs),
        _grams(line.need.wanted_dg),
        amount=Given(
            f"instead of {written.instead_of}" if written.instead_of else "the recipe's amount",
            amount,
        ),
        people=counted,
        serves=Given("people the recipe serves", str(recipe.serves)),
        sources=(),
        **inputs,
    )


def _taken(trace: Trace, line: CookLine, wanted: Given) -> list[Given]:
    """Write what is taken of each package, the oldest first, and what is wanted still."""
    taken: list[Given] = []
    rest_dg = line.need.wanted_dg
    for pick in line.picks:
        taken.append(_all_of(trace, pick) if pick.finishes else _part(trace, line, pick, wanted))
        rest_dg -= pick.take_dg if line.need.counts_dry else pick.fresh_dg
        if pick is line.picks[-1]:
            break
        got = taken[-1] if line.need.counts_dry else _fresh(pick)
        wanted = trace.step(
            f"wanted still, {_kind(line)}", "{wanted} - {got}", _grams(rest_dg),
            wanted=wanted, got=got,
        )  # fmt: skip
    return taken


def _all_of(trace: Trace, pick: Pick) -> Given:
    """All that is in a package."""
    name = f"dry out of {pick.candidate.code}"
    trace.note(
        name,
        f"{_grams(pick.take_dg)}, all that is in it",
        Given("its water", _grams(pick.water_dg)),
        source=FIRST_IN_FIRST_OUT,
    )
    return Given(name, _grams(pick.take_dg), standing=Standing.COMPUTED)


def _part(trace: Trace, line: CookLine, pick: Pick, wanted: Given) -> Given:
    """As much of a package as covers what is wanted."""
    candidate = pick.candidate
    name = f"dry out of {candidate.code}"
    if line.need.counts_dry:
        return trace.step(
            name, "{wanted}", _grams(pick.take_dg), sources=(FIRST_IN_FIRST_OUT,), wanted=wanted
        )
    return trace.step(
        name,
        "{wanted} x {dry} / ({dry} + {water})",
        _grams(pick.take_dg),
        sources=(FIRST_IN_FIRST_OUT, LEAST_COVERING),
        wanted=wanted,
        dry=Given("dry in it", _grams(candidate.available_dg)),
        water=Given("its water", _grams(candidate.water_dg)),
    )


def _fresh(pick: Pick) -> Given:
    """What a pick counts for as fresh food: dry and water together."""
    return Given(
        f"{pick.candidate.code}, dry and water", _grams(pick.fresh_dg), standing=Standing.COMPUTED
    )


def _taking(pick: Pick) -> Taking:
    candidate = pick.candidate
    return Taking(pick.take_dg, pick.water_dg, candidate.available_dg, candidate.water_dg)


def _sum_working(recipe: Recipe, plan: CookPlan, counted: Given, way: WaterWay) -> Working:
    """The water of the whole dish, and what it cooks in."""
    trace = Trace("Water in all")
    said = show_water(plan.water_dg, way.at_c, way.cup)
    parts = [
        Given(f"water for {line.need.food_name}", _grams(line.water_dg), standing=Standing.COMPUTED)
        for line in plan.lines
        if line.picks
    ]
    if parts:
        water = trace.total("water to add back", parts, _grams(plan.water_dg))
        add_volumes(trace, water, plan.water_dg, way.at_c, way.cup)
        _held_in_all(trace, water, plan.water)
        trace.caution(UPPER_BOUND_CAUTION)
    if plan.cooking_water_dg:
        trace.step(
            "cooking water, on top of it", "{amount} x {people} / {serves}",
            _grams(plan.cooking_water_dg),
            amount=Given("the recipe's cooking water", _grams(recipe.cooking_water_dg)),
            people=counted,
            serves=Given("people the recipe serves", str(recipe.serves)),
        )  # fmt: skip
        said += (
            f"; cooking water {show_water(plan.cooking_water_dg, way.at_c, way.cup)} on top of it"
        )
    if not parts and not plan.cooking_water_dg:
        trace.note("water", "none: nothing is taken from the shelves and it cooks in none")
    trace.conclude(said)
    return trace.finish()


def _held_in_all(trace: Trace, water: Given, share: WaterShare) -> None:
    """Write what is held back of all foods together, and what to add at first."""
    held = Given("held back of all foods", _grams(share.held_dg), HOLD_BACK, Standing.COMPUTED)
    trace.step("to add at first, in all", "{water} - {held}", _grams(share.now_dg),
               water=water, held=held)  # fmt: skip


def _kind(line: CookLine) -> str:
    """How a need counts: dry, or as the food was before drying."""
    return "dry" if line.need.counts_dry else "as fresh"


def _grams(weight_dg: int) -> str:
    return f"{grams(weight_dg):.1f} g"
