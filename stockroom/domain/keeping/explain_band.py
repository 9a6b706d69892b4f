"""The working of the band: how much each figure adds to it, its edges and what would change it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from stockroom.domain.keeping.band import Change
from stockroom.domain.keeping.explain_oxygen import oxygen_of
from stockroom.domain.keeping.explained import Explained
from stockroom.domain.keeping.figures import Figure, Quantity, Spread
from stockroom.domain.keeping.interface import KeepingCase, LimitedBy, PackageKind, Stay
from stockroom.domain.keeping.life import CAP_DAYS
from stockroom.domain.keeping.oxygen import advised_absorbers
from stockroom.domain.keeping.package_numbers import LOW_OXYGEN_MOISTURE_CEILING
from stockroom.domain.keeping.shown import computed, days, life_words, number, spread_of
from stockroom.domain.keeping.sources import BAND_RULE, LIFE_CAP
from stockroom.domain.keeping.temperature import FLOOR_C, REFERENCE_C
from stockroom.domain.working import Given, Trace

COOLER_DC = 50
"""How much cooler a place is tried, tenths of a degree."""

_WORTH_SAYING = 1.01
_NAMED_FIRST = 3
# Figures with less than half a percent of either side are left out of the list.
_SHOWN_FROM = 0.005


def explain_band(facts: Explained, middle: Given, trace: Trace) -> None:
    """Write each figure's share of the band, and the band's edges."""
    band = facts.outcome.band
    low_sum = sum(change.low for change in band.changes)
    high_sum = sum(change.high for change in band.changes)
    trace.note(
        "what widens the band, one figure at a time",
        _largest(band.changes, low_sum, high_sum),
        *(
            _share(facts.figure(change.quantity), change, low_sum, high_sum)
            for change in band.changes
            if change.low >= _SHOWN_FROM * low_sum or change.high >= _SHOWN_FROM * high_sum
        ),
        source=BAND_RULE,
    )
    trace.step(
        "low edge of the band",
        "{middle} x exp(-({sum})^(1/2))",
        days(band.low_days),
        sources=(BAND_RULE,),
        middle=middle,
        sum=computed("sum of the squares that shorten it", number(low_sum)),
    )
    trace.step(
        "high edge of the band, 25 years at most",
        "smaller({middle} x exp(({sum})^(1/2)), {longest})",
        days(band.high_days),
        sources=(BAND_RULE,),
        middle=middle,
        sum=computed("sum of the squares that lengthen it", number(high_sum)),
        longest=Given("longest life given", number(CAP_DAYS, "days"), LIFE_CAP),
    )


def _share(figure: Figure, change: Change, low_sum: float, high_sum: float) -> Given:
    """One figure with its spread and its share of either side of the band."""
    figure = _room(figure)
    text = (
        f"{spread_of(figure)}: {_percent(change.low, low_sum)} of the low side,"
        f" {_percent(change.high, high_sum)} of the high side"
    )
    return Given(figure.quantity.words, text, figure.source, figure.standing)


def _room(figure: Figure) -> Figure:
    """The humidity figure counted as points about the room's own, as the band varies it."""
    if figure.quantity is not Quantity.ROOM_HUMIDITY:
        return figure
    about = figure.spread.less(figure.spread.middle)
    return replace(figure, spread=Spread(about.pessimistic, 0.0, about.optimistic))


def _percent(part: float, whole: float) -> str:
    """A share of a sum in whole percent."""
    return f"{100 * part / whole:.0f} %" if whole > 0 and part < float("inf") else "0 %"


def _largest(changes: tuple[Change, ...], low_sum: float, high_sum: float) -> str:
    """The figures that would narrow the band most if they were known better."""

    def weight(change: Change) -> float:
        low = change.low / low_sum if low_sum > 0 else 0.0
        return low + (change.high / high_sum if high_sum > 0 else 0.0)

    if not changes:
        return "nothing: no figure in doubt bears on it"
    ordered = sorted(changes, key=weight, reverse=True)
    return "most of all " + ", ".join(one.quantity.words for one in ordered[:_NAMED_FIRST])


def explain_changes(facts: Explained, trace: Trace) -> None:
    """Write what would lengthen the life, each tried alone on the middle life."""
    now = facts.outcome.band.mid_days
    found: list[Given] = []
    for what, case in _alternatives(facts):
        life = facts.middle_life(case)
        if life > now * _WORTH_SAYING:
            found.append(computed(what, f"{life_words(life)} instead of {life_words(now)}"))
    longer = "; ".join(f"{one.name}: {one.value_text}" for one in found)
    trace.note("what would lengthen it", longer or "nothing that was tried", *found)


def _alternatives(facts: Explained) -> Iterator[tuple[str, KeepingCase]]:
    """The same package a little better kept, one change at a time."""
    case, limited_by = facts.case, facts.outcome.limited_by
    yield f"a place {COOLER_DC / 10:g} °C cooler throughout", _cooler(case)
    package = facts.subject.package
    dry = case.residual_moisture is None or case.residual_moisture <= LOW_OXYGEN_MOISTURE_CEILING
    if package.left_cc > 0 and dry:
        cc = sum(advised_absorbers(oxygen_of(case), facts.known.absorber_sizes_cc))
        yield f"an absorber of {cc} cc, the food being dry enough", replace(case, absorber_cc=cc)
    if case.package_kind not in (PackageKind.FOIL_POUCH, PackageKind.JAR):
        yield "a foil pouch", replace(case, package_kind=PackageKind.FOIL_POUCH)
    if limited_by is LimitedBy.OPENED:
        yield "kept closed and tight", replace(case, opened_on=None, seal_lost_on=None)


def _cooler(case: KeepingCase) -> KeepingCase:
    """The case with every place a little cooler, 5 °C at the least."""
    stays = case.stays or (Stay(case.sealed_on, None),)
    return replace(case, stays=tuple(_cooler_stay(stay) for stay in stays))


def _cooler_stay(stay: Stay) -> Stay:
    """One place a little cooler."""
    known = stay.temperature_dc
    start_dc = int(REFERENCE_C * 10) if known is None else known
    return replace(
        stay,
        temperature_dc=_lowered(start_dc),
        monthly_dc=tuple(_lowered(one) for one in stay.monthly_dc),
    )


def _lowered(temperature_dc: int) -> int:
    """A temperature lowered, but not from above 5 °C to below it."""
    floor_dc = int(FLOOR_C * 10)
    return min(temperature_dc, max(floor_dc, temperature_dc - COOLER_DC))
