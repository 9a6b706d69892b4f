"""How the number of packages, what goes into each, and doing without an absorber are reached."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.keeping.figures import Figure
from stockroom.domain.keeping.oxygen import AIR_SHARE, AbsorberFigures, ingress_cc_per_day
from stockroom.domain.keeping.shown import days, middle_of, number
from stockroom.domain.keeping.sources import ABSORBER_ADVICE, AIR_INGRESS, AIR_OXYGEN
from stockroom.domain.packing_advice import BULK, Fit, MealSize
from stockroom.domain.quantities import grams
from stockroom.domain.working import Given, Source, Standing, Trace, Working

ONE_MEAL = Source(
    "one-meal",
    "NCHFP, Packaging and Storing Dried Foods: pack in quantities used at once",
    Standing.PUBLISHED,
)
SOON_SPENT = Source(
    "soon-spent",
    "No absorber in plain plastic: what comes through the film soon spends it",
    Standing.ENGINEERING_JUDGEMENT,
)


def fit_working(
    fit: Fit, meal: MealSize, lot_wet_dg: int, lot_dry_dg: int, left_dg: int
) -> Working:
    """The derivation of how many containers a lot wants and what goes into each."""
    trace = Trace("How many, and how full")
    people = trace.step(
        "a meal, dry", "{people} x {serving} x {dry} / {wet}", _grams(meal.dry_dg),
        sources=(ONE_MEAL,),
        people=Given("people of the household", str(meal.people)),
        serving=Given("one serving as eaten", _grams(meal.serving_dg)),
        dry=Given("lot dry", _grams(lot_dry_dg)),
        wet=Given("lot as loaded", _grams(lot_wet_dg)),
    )  # fmt: skip
    density = Given(
        "loose weight, of your own fullest package" if fit.own else "loose weight of its kind",
        f"{fit.density_mg_per_ml / 1000:g} g/mL",
        None if fit.own else BULK,
    )
    holds = trace.step(
        "one container holds", "{volume} x {density}",
        _grams(fit.container.volume_ml * fit.density_mg_per_ml // 100),
        volume=Given("volume of the container", f"{fit.container.volume_ml} mL"), density=density,
    )  # fmt: skip
    left = Given("dry left of the lot", _grams(left_dg))
    count = trace.step(
        "containers, the next whole number", "{left} / smaller({meal}, {holds}, {left})",
        str(fit.count), left=left, meal=people, holds=holds,
    )  # fmt: skip
    trace.step("dry in each", "{left} / {count}", _grams(fit.each_dg), left=left, count=count)
    trace.conclude(f"{fit.count} x {fit.container.name}, {_grams(fit.each_dg)} dry in each")
    return trace.finish()


def no_absorber_working(
    film: Figure, area_m2: float, figures: AbsorberFigures, sizes_cc: Sequence[int]
) -> Working:
    """Why a bag gets no absorber: how soon one that suits its gas would be spent.

    `figures` are those of the absorber that would be advised; `film` is the oxygen that comes
    through the film and `area_m2` both its faces.
    """
    trace = Trace("Absorber")
    ingress = ingress_cc_per_day(film.spread.middle, area_m2, 0.0)
    trace.note(
        "an absorber for its gas, and what it could still take",
        f"{figures.absorber_cc} cc, {number(figures.reserve_cc, 'cc')} to spare",
        Given("oxygen at closing", number(figures.oxygen_cc, "cc"), standing=Standing.COMPUTED),
        Given("stock sizes", f"{', '.join(map(str, sizes_cc))} cc"),
        source=ABSORBER_ADVICE,
    )
    coming = trace.step(
        "oxygen coming in", "{film} x {area} x {share}", number(ingress, "cc/day"),
        sources=(AIR_INGRESS,),
        film=middle_of(film),
        area=Given("film area, both faces", number(area_m2, "m²"), standing=Standing.COMPUTED),
        share=Given("share of oxygen in air", f"{AIR_SHARE:g}", AIR_OXYGEN),
    )  # fmt: skip
    spent = days(figures.reserve_cc / ingress)
    trace.step(
        "it would be spent after", "{reserve} / {coming}", spent, sources=(SOON_SPENT,),
        reserve=Given("to spare", number(figures.reserve_cc, "cc"), standing=Standing.COMPUTED),
        coming=coming,
    )  # fmt: skip
    trace.conclude(f"none: one of {figures.absorber_cc} cc would be spent after {spent}")
    return trace.finish()


def _grams(weight_dg: int) -> str:
    return f"{grams(weight_dg):.1f} g"
