"""How the least eating rate is reached, step by step, and what other rates would miss."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.horizon.eating_rate import DueDay, EatingRate, late_days
from stockroom.domain.horizon.pace import rhythm, whole_a_day
from stockroom.domain.horizon.sources import (
    DUE_DATE_ORDER,
    EATING_DAYS,
    FIRST_IN_FIRST_OUT,
    LEAST_RATE,
)
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import show_servings
from stockroom.domain.working import Given, Trace, Working

_MOST_DAYS = 12
"""Best-by days shown in full; beyond that the ones that ask for most."""

CAUTIONS = (
    f"A best-by is a {QUALITY_NOT_SAFETY}: what shows signs of spoilage is not eaten, whatever its"
    " date; follow local codes and licensed guidance.",
    "Eat in the order of best-by; another order may need a faster rate.",
    "It says nothing of variety, of worth, or of how many packages would be late.",
)
OTHERWISE = "Household wording is first in, first out; it differs where packages keep differently."


def eating_rate_working(rate: EatingRate) -> Working:
    """The derivation of a least eating rate."""
    trace = Trace("Least eating rate")
    counted = "the best-by day counts" if rate.count_best_by_day else "the best-by day is left out"
    trace.note(
        "days counted",
        f"from {rate.from_day}, {counted}",
        source=EATING_DAYS,
    )
    if rate.past_due:
        past = sum((one.servings for one in rate.past_due), Fraction(0))
        trace.note("already past, left out", f"{show_servings(past)} servings")
    if rate.binding is None:
        trace.note("least rate", "0 servings/day: nothing is left to eat in time")
    else:
        _rate_steps(trace, rate, rate.binding)
        trace.note("what other rates would do", _others(rate), source=DUE_DATE_ORDER)
    trace.note("order of eating", "by best-by", source=FIRST_IN_FIRST_OUT)
    trace.conclude(f"{rate_words(rate.servings_per_day)} servings a day")
    for text in (*CAUTIONS, OTHERWISE):
        trace.caution(text)
    return trace.finish()


def rate_words(servings_per_day: Fraction) -> str:
    """A rate as a decimal number, with the exact fraction where that is short."""
    shown = f"{float(servings_per_day):.4g}"
    if 1 < servings_per_day.denominator <= 1000:
        return f"{shown} ({servings_per_day})"
    return shown


def _rate_steps(trace: Trace, rate: EatingRate, binding: DueDay) -> None:
    """What each best-by day asks for, and the largest of it."""
    shown = _shown_days(rate.days)
    asked = tuple(
        Given(f"by {one.best_by}", f"{rate_words(one.servings_per_day)} servings/day")
        for one in shown
    )
    left_out = len(rate.days) - len(shown)
    trace.note(
        "rate each best-by day asks for" + (f", {left_out} lower ones left out" * bool(left_out)),
        f"{len(rate.days)} best-by day{'s' if len(rate.days) > 1 else ''}",
        *asked,
    )
    least = trace.step(
        f"largest of them, by {binding.best_by}",
        "{servings} / {days}",
        f"{rate_words(rate.servings_per_day)} servings/day",
        sources=(LEAST_RATE, DUE_DATE_ORDER),
        servings=Given("servings best by then or before", _exactly(binding.servings_by_then)),
        days=Given("days until then", f"{binding.days} days"),
    )
    beat = rhythm(rate.servings_per_day)
    trace.note(
        "in whole servings",
        f"{beat.words}{'' if beat.exact else ', a little faster'}; every day the same:"
        f" {whole_a_day(rate.servings_per_day)} a day",
        least,
    )


def _shown_days(days: tuple[DueDay, ...]) -> tuple[DueDay, ...]:
    """All of them, or the ones that ask for most, in order of day."""
    if len(days) <= _MOST_DAYS:
        return days
    return tuple(sorted(sorted(days, key=lambda one: -one.servings_per_day)[:_MOST_DAYS]))


def _others(rate: EatingRate) -> str:
    """What a tenth less and the plain average would miss."""
    average = rate.average_per_day
    slower = rate.servings_per_day * Fraction(9, 10)
    said = [f"a tenth less {_missed(rate, slower)}"]
    if average < rate.servings_per_day:
        said.append(f"all servings over all days ({rate_words(average)}) {_missed(rate, average)}")
    return "; ".join(said)


def _missed(rate: EatingRate, servings_per_day: Fraction) -> str:
    """How late a rate is at the worst."""
    worst = max(late_days(rate, servings_per_day), key=lambda one: one.days_late)
    return f"ends {float(worst.days_late):.1f} days after {worst.due.best_by}"


def _exactly(servings: Fraction) -> str:
    """Servings with as many digits as the figures need."""
    return f"{float(servings):.10g} servings"
