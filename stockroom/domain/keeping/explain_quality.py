"""The working of the quality life: warmth of the place, time and oxygen together, moves."""

from __future__ import annotations

from stockroom.domain.keeping.explain_oxygen import OxygenGivens, dry_given
from stockroom.domain.keeping.explained import Explained
from stockroom.domain.keeping.figures import Quantity
from stockroom.domain.keeping.history import Piece
from stockroom.domain.keeping.life import (
    MONTH_DAYS,
    YEAR_DAYS,
    piece_c,
    piece_lives,
    quality_end,
    quality_life,
)
from stockroom.domain.keeping.oxygen import damage_root, ingress_cc_per_day
from stockroom.domain.keeping.shown import computed, days, middle_of, number, past_or_days
from stockroom.domain.keeping.sources import (
    COUNTERS,
    LIFE_FRACTIONS,
    OPENED_PACE,
    OXYGEN_DAMAGE,
    TEMPERATURE_LAW,
)
from stockroom.domain.keeping.temperature import (
    FLOOR_C,
    HOT_Q10,
    KNEE_C,
    REFERENCE_C,
    temperature_factor,
)
from stockroom.domain.working import Given, Trace


def explain_quality(facts: Explained, oxygen: OxygenGivens, trace: Trace) -> Given:
    """Write the quality life where it ends, and the day it ends; returns that day."""
    reached = quality_end(facts.inputs.middle, facts.subject)
    free, air = _lives(facts, reached.piece, trace)
    life = _with_oxygen(facts, oxygen, reached.piece, (free, air), trace)
    if reached.piece.start == 0 and reached.used_before == 0:
        return computed("quality ends after", life.value_text)
    return trace.step(
        "quality ends after",
        "{before} + (1 - {used}) x {life}",
        past_or_days(reached.day),
        sources=(LIFE_FRACTIONS, COUNTERS),
        before=computed("days before this place or month", days(reached.piece.start)),
        used=computed("share of the quality used by then", f"{reached.used_before:.4g}"),
        life=life,
    )


def _lives(facts: Explained, piece: Piece, trace: Trace) -> tuple[Given, Given]:
    """The two lives of the class at the temperature of a piece."""
    factor = _factor(facts, piece, trace)
    free_days, air_days = piece_lives(facts.inputs.middle, piece)
    free = trace.step(
        "life without oxygen there",
        "{life} x {year} x {factor}",
        days(free_days),
        life=middle_of(facts.figure(Quantity.LIFE_WITHOUT_OXYGEN)),
        year=computed("days in a year", f"{YEAR_DAYS:g}"),
        factor=factor,
    )
    air = trace.step(
        "life in air there",
        "{life} x {month} x {factor}",
        days(air_days),
        life=middle_of(facts.figure(Quantity.LIFE_IN_AIR)),
        month=computed("days in a month", f"{MONTH_DAYS:g}"),
        factor=factor,
    )
    return free, air


def _factor(facts: Explained, piece: Piece, trace: Trace) -> Given:
    """What the temperature does to a life stated at 21 °C."""
    at_c = piece_c(facts.inputs.middle, piece.climate)
    measured = "measured" if piece.climate.measured else "stated or assumed"
    name = f"temperature there ({measured})"
    if at_c < FLOOR_C:
        name = f"temperature there, counted as no colder than {FLOOR_C:g} °C"
    q10 = facts.inputs.middle.q10
    warm_c = max(at_c, FLOOR_C)
    template = "{q10}^(({reference} - {there}) / 10)"
    inputs = {
        "q10": middle_of(facts.figure(Quantity.Q10)),
        "reference": Given("temperature of the tables", f"{REFERENCE_C:g} °C", TEMPERATURE_LAW),
        "there": Given(name, f"{warm_c:.1f} °C"),
    }
    if warm_c > KNEE_C:
        template = "{q10}^(({reference} - {knee}) / 10) x {hot}^(({knee} - {there}) / 10)"
        inputs["knee"] = Given("where warmth tells more", f"{KNEE_C:g} °C", TEMPERATURE_LAW)
        inputs["hot"] = Given("Q10 above it", f"{max(q10, HOT_Q10):g}", TEMPERATURE_LAW)
    return trace.step(
        "lives there over lives at 21 °C",
        template,
        number(temperature_factor(at_c, q10)),
        sources=(TEMPERATURE_LAW,),
        **inputs,
    )


def _with_oxygen(
    facts: Explained,
    oxygen: OxygenGivens,
    piece: Piece,
    lives: tuple[Given, Given],
    trace: Trace,
) -> Given:
    """Time and oxygen together, held between the two lives."""
    free, air = lives
    life = days(quality_life(facts.inputs.middle, facts.subject.package, piece))
    if piece.open:
        return trace.note("quality life there, open or not tight", life, air, source=OPENED_PACE)
    free_days, air_days = piece_lives(facts.inputs.middle, piece)
    if air_days >= free_days:
        return trace.note("quality life there, oxygen not shortening it", life, free)
    together = _together(facts, oxygen, free, free_days, trace)
    return trace.note(
        "quality life there, between the life in air and the life without oxygen",
        life,
        together,
        air,
        free,
        source=OXYGEN_DAMAGE,
    )


def _together(
    facts: Explained, oxygen: OxygenGivens, free: Given, free_days: float, trace: Trace
) -> Given:
    """The day time and oxygen together have used the quality up, before any limit."""
    package, middle = facts.subject.package, facts.inputs.middle
    ingress = ingress_cc_per_day(middle.oxygen_transmission, package.area_m2, middle.lid_oxygen)
    bearable_cc = package.dry_g * middle.tolerance
    root = damage_root(free_days, package.left_cc, package.reserve_cc, ingress, bearable_cc)
    inputs = {
        "left": oxygen.left,
        "dry": dry_given(facts.case),
        "tolerance": middle_of(facts.figure(Quantity.OXYGEN_TOLERANCE)),
        "free": free,
    }
    title = "time and oxygen together"
    if root.days < 0:
        title += " (below nothing: more oxygen than the food tolerates)"
    template = "{free} x (1 - {left} / ({dry} x {tolerance}))"
    if root.oxygen_counts:
        template = (
            "(1 - ({left} - {reserve}) / ({dry} x {tolerance}))"
            " / (1 / {free} + {ingress} / ({dry} x {tolerance}))"
        )
        inputs["reserve"], inputs["ingress"] = oxygen.reserve, oxygen.ingress
    elif package.reserve_cc > 0:
        title = "time alone, the absorber taking all that comes in"
    return trace.step(title, template, days(root.days), sources=(OXYGEN_DAMAGE,), **inputs)
