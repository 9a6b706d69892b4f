"""How the number of packages to look at is reached, and what would change it, step by step."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.chances import exact_percent, exact_words, percent_words
from stockroom.domain.hypergeometric import SURE, Draw
from stockroom.domain.sampling import (
    FAULT_RATE,
    HYPERGEOMETRIC,
    IMPERFECT_CHECK,
    ROUGH_RULE,
    THEN_ALL,
    Sample,
    enough_for_any_lot,
    rough_number,
    sample_size,
)
from stockroom.domain.working import Given, Trace, Working

CAUTIONS = (
    "Pick at random from all trays, boxes and shelves of the lot, not the ones nearest to hand.",
    "Opening a package uses it: plan to eat what is opened.",
    f"{THEN_ALL.words}.",
    "It says how many of the lot are soft, not that a food is safe: follow local codes and"
    " licensed guidance.",
)

_EXACT_UP_TO = 2_000
"""Lots up to this size have their chances worked out in full for the page."""
_CONFIDENCES = (Fraction(80, 100), Fraction(90, 100), Fraction(95, 100), Fraction(99, 100))
_SENSITIVITIES = (SURE, Fraction(90, 100), Fraction(80, 100), Fraction(60, 100))


def sample_working(
    lot: int,
    at_most: int,
    confidence: Fraction,
    *,
    accept: int = 0,
    sensitivity: Fraction = SURE,
) -> Working:
    """The derivation of a number to look at. Refuses what `sample_size` refuses."""
    found = sample_size(lot, at_most, confidence, accept=accept, sensitivity=sensitivity)
    trace = Trace("Packages to look at")
    refuted = trace.step(
        "soft packages that must not go unnoticed",
        "{most} + 1",
        str(found.refuted_by),
        sources=(HYPERGEOMETRIC,),
        most=Given("soft in the lot at most", str(at_most)),
    )
    allowed = trace.step(
        "chance to go unnoticed that is allowed",
        "1 - {confidence}",
        exact_words(1 - confidence),
        confidence=Given("confidence", exact_percent(confidence)),
    )
    looked_at = Given("looked at", str(lot if found.inspect is None else found.inspect))
    missed = _missed(trace, found, refuted, looked_at)
    trace.step(
        "chance to notice them", "1 - {missed}", f"{found.detection_probability:.6f}", missed=missed
    )
    _least_number(trace, found, missed, allowed)
    _what_would_change_it(trace, found)
    for text in CAUTIONS:
        trace.caution(text)
    return trace.finish()


def _missed(trace: Trace, found: Sample, refuted: Given, looked_at: Given) -> Given:
    """The chance that so many soft ones pass."""
    lot = Given("packages in the lot", str(found.lot))
    draw = _draw(found, found.lot if found.inspect is None else found.inspect)
    inputs = {"lot": lot, "soft": refuted, "opened": looked_at}
    if found.sensitivity != SURE:
        template = (
            "sum over k of C({soft}, k) x C({lot} - {soft}, {opened} - k) / C({lot}, {opened})"
            " x (1 - {noticed})^k"
        )
        inputs["noticed"] = Given(
            "share of soft ones that the check notices", exact_percent(found.sensitivity)
        )
        source = IMPERFECT_CHECK
    elif found.accept:
        template = (
            "sum over k from 0 to {accept} of C({soft}, k) x C({lot} - {soft}, {opened} - k)"
            " / C({lot}, {opened})"
        )
        inputs["accept"] = Given("soft ones allowed for in the sample", str(found.accept))
        source = HYPERGEOMETRIC
    else:
        template = "C({lot} - {soft}, {opened}) / C({lot}, {opened})"
        source = FAULT_RATE
    return trace.step(
        "chance that they go unnoticed", template, _shown(draw), sources=(source,), **inputs
    )


def _draw(found: Sample, opened: int) -> Draw:
    """A look at so many packages of a lot with too many soft ones."""
    return Draw(found.lot, found.refuted_by, opened, found.accept, found.sensitivity)


def _shown(draw: Draw) -> str:
    """The chance to pass, as a fraction too where that is short."""
    if draw.lot > _EXACT_UP_TO:
        return f"{draw.passed():.6f}"
    return exact_words(draw.passes())


def _least_number(trace: Trace, found: Sample, missed: Given, allowed: Given) -> None:
    """Why it is this number and no smaller one."""
    if found.inspect is None:
        trace.note(
            "least number", "impossible: the whole lot is not enough", missed, allowed,
            source=HYPERGEOMETRIC,
        )  # fmt: skip
        return
    fewer = Given(
        f"chance to go unnoticed with {found.inspect - 1}",
        _shown(_draw(found, found.inspect - 1)),
    )
    trace.note(
        "least number",
        f"{found.inspect}: the chance is within the one allowed, with one fewer it is not",
        missed,
        allowed,
        fewer,
        source=HYPERGEOMETRIC,
    )


def _what_would_change_it(trace: Trace, found: Sample) -> None:
    """The number for neighbouring questions, and two other ways to it."""
    trace.note(
        "what would change it",
        _number(found),
        *(
            Given(f"with {exact_percent(other)} confidence", _asked(found, confidence=other))
            for other in _CONFIDENCES
            if other != found.confidence
        ),
        *(
            Given(f"for at most {other} soft", _asked(found, at_most=other))
            for other in (found.at_most - 1, found.at_most + 1, 2 * found.at_most + 2)
            if found.accept <= other < found.lot
        ),
        *(
            Given(
                f"with a check that finds {exact_percent(other)} of soft ones",
                _asked(found, sensitivity=other),
            )
            for other in _SENSITIVITIES
            if other != found.sensitivity and not found.accept
        ),
        source=HYPERGEOMETRIC,
    )
    if found.accept or found.sensitivity != SURE:
        return
    share = Fraction(found.refuted_by, found.lot)
    trace.note(
        "enough for a lot of any size",
        f"{enough_for_any_lot(share, found.confidence)}",
        Given("share of soft ones to be noticed", percent_words(share)),
        source=FAULT_RATE,
    )
    trace.note(
        "rough rule, for the head",
        f"{rough_number(found.lot, found.refuted_by, found.confidence):.1f}",
        source=ROUGH_RULE,
    )


def _asked(
    found: Sample,
    *,
    confidence: Fraction | None = None,
    at_most: int | None = None,
    sensitivity: Fraction | None = None,
) -> str:
    """The number to look at when one thing is asked differently."""
    return _number(
        sample_size(
            found.lot,
            found.at_most if at_most is None else at_most,
            found.confidence if confidence is None else confidence,
            accept=found.accept,
            sensitivity=found.sensitivity if sensitivity is None else sensitivity,
        )
    )


def _number(found: Sample) -> str:
    """The number to look at, or that there is none."""
    return "impossible" if found.inspect is None else str(found.inspect)
