"""How the day of the next look is reached, step by step, from the very numbers of the schedule."""

from __future__ import annotations

from datetime import date

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.recheck_factors import (
    AT_FAULT,
    FLOOR,
    LOOKS,
    NEARLY,
    OWN_FAULT,
    RETEST,
    RISK,
    SLACK,
    STAGGER,
)
from stockroom.domain.recheck_facts import STANDARD, RecheckFacts, RecheckSettings
from stockroom.domain.recheck_schedule import (
    HIGHEST_RISK,
    LEAST_SHARE,
    STAGGER_PARTS,
    WHOLE,
    Limit,
    Reckoning,
    at_fault_since,
    reckon,
)
from stockroom.domain.working import Given, Trace, Working


def explain(facts: RecheckFacts, settings: RecheckSettings = STANDARD) -> Working:
    """Why a package is looked at when it is, with the source and standing of every choice."""
    trace = Trace("When to look at it again")
    fault = at_fault_since(facts)
    if fault is not None:
        trace.note(AT_FAULT.words, f"at once, from {fault.isoformat()}", source=OWN_FAULT)
    else:
        _explain(facts, settings, reckon(facts, settings), trace)
    trace.note("what finding it crisp does", "a new day to look, the same best-by", source=RETEST)
    trace.caution(f"The best-by is a {QUALITY_NOT_SAFETY}. Never taste food to test it.")
    trace.caution("Follow local codes and licensed guidance.")
    return trace.finish()


def _explain(
    facts: RecheckFacts, settings: RecheckSettings, found: Reckoning, trace: Trace
) -> None:
    """The steps of a sound package, from its last look to the day and its margins."""
    last = Given("last looked at", _day(found.last))
    interval = trace.note(
        f"interval to the {found.stage.words}",
        _days(found.base_days),
        Given("sealed", facts.sealed_on.isoformat()),
        last,
        Given("sound by then for", _days(found.age_days), NEARLY),
        source=LOOKS,
    )
    share = _explain_share(found, trace)
    day = trace.step(
        "day by the interval",
        "{last} + {interval} x {share}, a part of a day counted as a day",
        _day(found.plain),
        last=last,
        interval=interval,
        share=share,
    )
    for limit in found.limits:
        day = _explain_limit(facts, settings, found, limit, day, trace)
    _explain_stagger(facts, found, day, last, trace)
    _explain_margins(settings, found, trace)


def _explain_share(found: Reckoning, trace: Trace) -> Given:
    """The product of the multipliers, each with its reason."""
    if not found.factors:
        return trace.note("part of the interval", "1, nothing calls for sooner")
    inputs = {
        f"reason{number}": Given(one.words, f"{one.percent / 100:.2f}", one.source)
        for number, one in enumerate(found.factors)
    }
    product = " x ".join(f"({{{name}}})" for name in inputs)
    least = Given("the least part", f"{LEAST_SHARE / WHOLE:.2f}", FLOOR)
    return trace.step(
        "part of the interval",
        f"the larger of {{least}} and {product}",
        f"{found.share / WHOLE:.3f}",
        sources=(),
        least=least,
        **inputs,
    )


def _explain_limit(
    facts: RecheckFacts,
    settings: RecheckSettings,
    found: Reckoning,
    limit: Limit,
    day: Given,
    trace: Trace,
) -> Given:
    """One thing that brought the day forward, with the dates it goes by."""
    return trace.note(
        f"brought forward: {limit.reason.words}",
        _day(limit.by),
        day,
        *_dates_behind(facts, settings, found, limit),
        source=limit.reason.source,
    )


def _dates_behind(
    facts: RecheckFacts, settings: RecheckSettings, found: Reckoning, limit: Limit
) -> tuple[Given, ...]:
    """The dates a limit goes by."""
    key = limit.reason.key
    if key == "moved" and facts.moved_on is not None:
        month = f"{_days(settings.second_days)} x {found.share / WHOLE:.3f}"
        return (Given("moved", facts.moved_on.isoformat()), Given("a month after it", month))
    if key == "second-half" and found.half_life is not None:
        return (Given("half of the time to its best-by", _day(found.half_life)),)
    if key in ("low-edge", "past-low-edge") and facts.low is not None:
        return (Given("low edge of its best-by", facts.low.isoformat()),)
    return (Given("best-by", facts.best_by.isoformat()),) if facts.best_by is not None else ()


def _explain_stagger(
    facts: RecheckFacts, found: Reckoning, day: Given, last: Given, trace: Trace
) -> None:
    """What is drawn off so that sisters do not fall due together, and the day wanted."""
    early = trace.note(
        "drawn earlier, so that sisters do not fall due together",
        _days(found.early_days),
        last,
        day,
        Given("at most", _days(found.wait_days // STAGGER_PARTS)),
        Given("number of the package", str(facts.package_id)),
        source=STAGGER,
    )
    trace.step("day wanted", "{day} - {early}", _day(found.wanted), day=day, early=early)


def _explain_margins(settings: RecheckSettings, found: Reckoning, trace: Trace) -> None:
    """How far the look may be moved, and its place in the list."""
    wait = Given("the whole wait", _days(found.wait_days))
    trace.note("not before", _day(found.earliest), wait, source=SLACK)
    trace.note(
        "not after",
        _day(found.latest),
        wait,
        Given("longest wait for a day set aside", _days(settings.longest_wait_days)),
        source=SLACK,
    )
    trace.note(
        "risk, for the order of the list",
        f"{found.risk} of {HIGHEST_RISK}",
        Given("longest interval", _days(settings.later_days)),
        source=RISK,
    )


def _day(ordinal: int) -> str:
    """A day as it is shown."""
    return date.fromordinal(ordinal).isoformat()


def _days(count: int) -> str:
    """Days in words."""
    return "1 day" if count == 1 else f"{count} days"
