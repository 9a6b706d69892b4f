"""The working of where a package stands: its places, and one temperature for them all."""

from __future__ import annotations

from stockroom.domain.keeping.explained import Explained
from stockroom.domain.keeping.history import History
from stockroom.domain.keeping.interface import Stay
from stockroom.domain.keeping.sources import (
    ARRHENIUS,
    MEAN_KINETIC,
    STATED_TEMPERATURE,
    TEMPERATURE_LAW,
)
from stockroom.domain.keeping.temperature import (
    REFERENCE_C,
    Readings,
    energy_of_q10,
    equivalent_temperature,
    mean_kinetic_temperature,
    mean_temperature,
)
from stockroom.domain.working import Given, Source, Trace

_MOST_PLACES = 8


def explain_places(facts: Explained, trace: Trace) -> None:
    """Write the places, and what their temperatures come to until the middle life ends."""
    stays = facts.case.stays
    if not stays or stays[0].from_day > facts.case.sealed_on:
        stays = (Stay(facts.case.sealed_on, None), *stays)
    latest = stays[-_MOST_PLACES:]
    earlier = len(stays) - len(latest)
    trace.note(
        "its places",
        f"the last {len(latest)} of {len(stays)}" if earlier else "all there are",
        *(
            Given(f"from {stay.from_day.isoformat()}", _warmth(stay), _source(stay))
            for stay in latest
        ),
    )
    readings = _readings(facts.subject.history, facts.outcome.band.mid_days)
    if len({temp_c for temp_c, _ in readings}) > 1:
        _as_one(facts.inputs.middle.q10, readings, trace)


def _warmth(stay: Stay) -> str:
    """How warm a place is, in words."""
    how = "measured" if stay.measured else "stated"
    if stay.monthly_dc:
        shown = " ".join(f"{one / 10:.1f}" for one in stay.monthly_dc)
        return f"{shown} °C month by month, {how}"
    if stay.temperature_dc is None:
        return f"nobody has said: taken as {REFERENCE_C:.1f} °C"
    return f"{stay.temperature_dc / 10:.1f} °C, {how}"


def _source(stay: Stay) -> Source | None:
    """The rule behind a temperature nobody gave."""
    return None if stay.temperature_dc is not None or stay.monthly_dc else STATED_TEMPERATURE


def _readings(history: History, until: float) -> Readings:
    """Temperature and days of every piece up to a day."""
    return [
        (piece.climate.temperature_c, min(piece.days, until - piece.start))
        for piece in history.quality
        if piece.start < until
    ]


def _as_one(q10: float, readings: Readings, trace: Trace) -> None:
    """One temperature for them all: the mean, the kinetic mean, and the model's own."""
    energy = energy_of_q10(q10)
    matching = Given(f"energy that matches Q10 {q10:g}", f"{energy:.3f} kJ/mol", ARRHENIUS)
    trace.note(
        "its temperatures until then, weighted by time",
        f"mean {mean_temperature(readings):.1f} °C; mean kinetic"
        f" {mean_kinetic_temperature(readings, energy):.1f} °C; uses as much life as"
        f" {equivalent_temperature(q10, readings):.1f} °C throughout",
        matching,
        Given("law of this model", "piecewise", TEMPERATURE_LAW),
        source=MEAN_KINETIC,
    )
