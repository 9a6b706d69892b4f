"""The whole working of a projection, in the order it is computed."""

from __future__ import annotations

from math import inf

from stockroom.domain.keeping.cautions import add_cautions
from stockroom.domain.keeping.events import breaks
from stockroom.domain.keeping.explain_band import explain_band, explain_changes
from stockroom.domain.keeping.explain_moisture import explain_moisture
from stockroom.domain.keeping.explain_oxygen import explain_oxygen
from stockroom.domain.keeping.explain_places import explain_places
from stockroom.domain.keeping.explain_quality import explain_quality
from stockroom.domain.keeping.explained import Explained
from stockroom.domain.keeping.fat import fat_words
from stockroom.domain.keeping.figures import Quantity
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.keeping.life import CAP_DAYS
from stockroom.domain.keeping.shown import computed, days, life_words, middle_of, number, spoken
from stockroom.domain.keeping.sources import (
    CLASS_BY_FAT,
    FAT_OF_SOLIDS,
    LIFE_CAP,
    REDRYING,
    WHOLE_MONTHS,
)
from stockroom.domain.working import Given, Standing, Trace, Working


def explain(facts: Explained) -> Working:
    """Every step from the case to the dates, with sources, band and cautions."""
    trace = Trace("Best-by")
    _package(facts, trace)
    _fat(facts, trace)
    explain_places(facts, trace)
    oxygen = explain_oxygen(facts, trace)
    ends = [explain_quality(facts, oxygen, trace), explain_moisture(facts, oxygen.area, trace)]
    ends.extend(_events(facts, trace))
    middle = _first(facts, ends, trace)
    explain_band(facts, middle, trace)
    explain_changes(facts, trace)
    _dates(facts, trace)
    add_cautions(facts, trace)
    return trace.finish()


def _package(facts: Explained, trace: Trace) -> None:
    """What is known of the package."""
    case = facts.case
    vacuum = "none read"
    if case.vacuum_tenth_inhg is not None:
        vacuum = f"{case.vacuum_tenth_inhg / 10:.1f} inHg"
    trace.note(
        "the package",
        f"{spoken(case.food_class)} in a {spoken(case.package_kind)}",
        Given("sealed on", case.sealed_on.isoformat()),
        Given("dry food", f"{case.dry_dg / 10:.1f} g"),
        Given("volume as closed", f"{case.volume_ml} mL"),
        Given("absorber", f"{case.absorber_cc} cc" if case.absorber_cc else "none"),
        Given("gauge vacuum", vacuum),
    )


def _fat(facts: Explained, trace: Trace) -> None:
    """What the fat of the solids does to the class."""
    fat, inputs = facts.case.fat_of_solids, facts.inputs
    if fat is None:
        trace.note("fat of the dry solids", "not known, so the class alone decides")
        return
    given = Given("fat of the dry solids", f"{float(fat * 100):.1f} %")
    trace.note("fat", fat_words(fat), given, source=FAT_OF_SOLIDS)
    if inputs.by_fat is not inputs.own:
        trace.note(
            "lives and oxygen held back by its fat",
            f"to those of {spoken(inputs.by_fat.food_class)}, where lower",
            given,
            source=CLASS_BY_FAT,
        )


def _events(facts: Explained, trace: Trace) -> list[Given]:
    """Drying again and opening; the opened rule's end where there is one."""
    case, history = facts.case, facts.subject.history
    if case.redried_on is not None:
        share = case.life_used_before_redrying
        used = "counted from its days" if share is None else f"{float(share):.2f}, on record"
        trace.note(
            "dried again",
            "crispness starts anew with the new closing; the quality used before stays used",
            Given("dried again on", case.redried_on.isoformat()),
            Given(
                "share of the quality used before",
                used,
                standing=Standing.COMPUTED if share is None else None,
            ),
            source=REDRYING,
        )
    opened_on = breaks(case).after_redrying
    if opened_on is None or history.open_from == inf:
        return []
    how = "closed again with an absorber" if case.reclosed_with_absorber else "open"
    return [
        trace.step(
            f"the opened rule ends it after ({how})",
            "{before} + {rule}",
            days(facts.outcome.band.ends.opened),
            before=computed(
                f"days until opened or leaking, {opened_on.isoformat()}", days(history.open_from)
            ),
            rule=middle_of(facts.figure(Quantity.OPENED_LIFE)),
        )
    ]


def _first(facts: Explained, ends: list[Given], trace: Trace) -> Given:
    """What ends the life first."""
    band = facts.outcome.band
    longest = Given("longest life given", number(CAP_DAYS, "days"), LIFE_CAP)
    trace.note(
        "what ends it first",
        f"{facts.outcome.limited_by.value}, after {life_words(band.mid_days)}",
        *ends,
        longest,
    )
    return computed("middle life", days(band.mid_days))


def _dates(facts: Explained, trace: Trace) -> None:
    """The three dates."""
    found = facts.projection
    dates = (
        f"{found.best_by.isoformat()}, may be as early as {found.low.isoformat()}"
        f" or as late as {found.high.isoformat()}; look at it again by"
        f" {found.recheck_by.isoformat()}"
    )
    trace.conclude(f"{dates} ({QUALITY_NOT_SAFETY})")
    trace.note(
        "best-by",
        dates,
        Given("sealed on", facts.case.sealed_on.isoformat()),
        source=WHOLE_MONTHS,
    )
