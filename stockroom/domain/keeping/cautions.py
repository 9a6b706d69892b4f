"""What to bear in mind beside a best-by of the full model."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from stockroom.domain.keeping.explained import Explained
from stockroom.domain.keeping.fat import fat_caution
from stockroom.domain.keeping.interface import (
    QUALITY_NOT_SAFETY,
    LimitedBy,
    PackageKind,
)
from stockroom.domain.keeping.moisture import WARMEST_C
from stockroom.domain.keeping.temperature import REFERENCE_C, WARN_ABOVE_C
from stockroom.domain.working import Trace

EXTRAPOLATED_MONTHS = 120
"""Beyond ten years a life is called extrapolated (engineering judgement)."""


def add_cautions(facts: Explained, trace: Trace) -> None:
    """Add the cautions that apply."""
    trace.caution(f"{QUALITY_NOT_SAFETY.capitalize()}: follow local codes and licensed guidance.")
    for texts in (_warmth, _oxygen, _moisture, _model):
        for text in texts(facts):
            trace.caution(text)


def _warmth(facts: Explained) -> Iterator[str]:
    """Cautions about the places."""
    climates = {piece.climate for piece in facts.subject.history.quality}
    warmest = max(climate.temperature_c for climate in climates)
    if warmest > WARN_ABOVE_C:
        yield (
            f"A place on its way is at {warmest:.1f} °C: above {WARN_ABOVE_C:g} °C quality goes"
            " fast and no estimate is sure. Move it to a cooler place."
        )
    if warmest > WARMEST_C:
        yield f"The moisture part is not meant for places above {WARMEST_C:g} °C."
    stays = facts.case.stays
    silent = not stays or stays[0].from_day > facts.case.sealed_on
    if silent or any(stay.temperature_dc is None and not stay.monthly_dc for stay in stays):
        yield (
            f"Nobody has said how warm its place is: {REFERENCE_C:g} °C is assumed."
            " Give the place its temperature."
        )
    elif facts.subject.history.any_stated:
        yield "The temperature of its place was stated, not measured: the band is wider for it."


def _oxygen(facts: Explained) -> Iterator[str]:
    """Cautions about oxygen and fat."""
    fat = fat_caution(facts.case.fat_of_solids)
    if fat is not None:
        yield fat
    if facts.subject.package.left_cc > 0 and facts.case.absorber_cc > 0:
        yield (
            "The absorber is too small for the gas in this package: a larger one keeps it longer."
        )


def _moisture(facts: Explained) -> Iterator[str]:
    """Cautions about moisture and opening."""
    if facts.outcome.limited_by is LimitedBy.MOISTURE:
        yield (
            "It may be soft before it tastes old. Pliable or damp food is not to be tasted:"
            " discard it."
        )
    if facts.subject.history.open_from < inf:
        yield "Open or not tight: use it soon, and discard it once it is pliable or damp."


def _model(facts: Explained) -> Iterator[str]:
    """Cautions about the estimate itself."""
    if facts.projection.high_months > EXTRAPOLATED_MONTHS:
        yield "Beyond ten years this is extrapolated."
    if facts.case.package_kind is PackageKind.JAR:
        yield "Light is not in this model: keep clear glass in the dark."
        yield "How much a jar lid leaks is a guess: no published figure is known."
    yield (
        "Lives by class come from dehydrated and commercial food: figures for home freeze-dried"
        " food are lacking."
    )
    yield (
        "Not in this estimate: light, insects, breakage, faulty absorbers, condensation, melting"
        " fat, lost nutrients."
    )
