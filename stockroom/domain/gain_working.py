"""How the gain of a move or a repacking is reached."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import show_servings
from stockroom.domain.working import Given, Source, Standing, Trace, Working

DAYS_A_YEAR = 365.25

SERVING_DAYS = Source(
    "serving-days",
    "Advice is ranked by servings times days gained",
    Standing.ENGINEERING_JUDGEMENT,
)


def gain_working(now: date, then: date, servings: Fraction | None = None) -> Working:
    """The derivation of the days gained from two best-by dates, and of what they are worth.

    `servings` are those of all packages it holds for; None where nothing is ranked.
    """
    trace = Trace("Gain")
    days = (then - now).days
    gained = trace.step(
        "days gained", "{then} - {now}", f"{days} days",
        then=Given("best-by then", then.isoformat(), standing=Standing.COMPUTED),
        now=Given("best-by as it is", now.isoformat(), standing=Standing.COMPUTED),
    )  # fmt: skip
    if servings is not None:
        trace.step(
            "ranked by", "{servings} x {gained}",
            f"{show_servings(servings * days)} serving days", sources=(SERVING_DAYS,),
            servings=Given("servings in all of them", show_servings(servings)), gained=gained,
        )  # fmt: skip
    trace.conclude(f"{days} days, {days / DAYS_A_YEAR:+.1f} years ({QUALITY_NOT_SAFETY})")
    return trace.finish()
