"""A package's life so far and to come, as pieces of constant temperature and tightness.

Days are counted from sealing. What is not covered by a stay, and a stay nobody gave a temperature
for, counts as a place of 21 °C that was not measured. A place with monthly temperatures repeats
them every year. The last piece has no end, but for monthly temperatures, whose pieces reach past
the longest life there can be.

Before the last drying the package counts as closed the way it is now (nothing else is known of
it), open from the first opening or leak until it was dried. After the last drying, or from
sealing where there was none, the first opening or leak counts as open for good.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from math import inf
from typing import NamedTuple

from stockroom.domain.calendar import add_months
from stockroom.domain.keeping.events import breaks
from stockroom.domain.keeping.interface import LONGEST_MONTHS, KeepingCase, Stay
from stockroom.domain.keeping.refusals import ImpossibleFigure, TooWarm
from stockroom.domain.keeping.temperature import (
    KELVIN,
    REFERENCE_C,
    REFUSE_ABOVE_C,
)

_WARMEST_DC = int(REFUSE_ABOVE_C * 10)
_COLDEST_DC = -int(KELVIN * 10)
_HORIZON_MONTHS = LONGEST_MONTHS + 12


class Climate(NamedTuple):
    """What a place is like."""

    temperature_c: float
    measured: bool
    """False when it was only stated, or assumed."""
    humidity: float
    """Of the air, 0 to 1."""


class Piece(NamedTuple):
    """A stretch of days without a change."""

    start: float
    """Days from sealing."""
    days: float
    climate: Climate
    open: bool
    """Open, or no longer tight."""
    state: int
    """Where its climate and tightness stand in `History.states`."""


class History(NamedTuple):
    """Everything that happens to one package, day 0 being the day it was sealed."""

    quality: tuple[Piece, ...]
    """What quality is counted over."""
    moisture: tuple[Piece, ...]
    """What moisture is counted over: from the last drying on."""
    used_at_start: float
    """Share of the quality spent before the first piece of `quality`."""
    states: tuple[tuple[Climate, bool], ...]
    """Each climate with each tightness there is, once: lives are worked out for these."""
    open_from: float
    """The day it was last opened or began to leak; infinite while tight."""
    dried_on: float
    """The day it was last dried: 0 for a package never dried again."""

    @property
    def any_stated(self) -> bool:
        """Whether a temperature in it was not measured."""
        return any(not climate.measured for climate, _ in self.states)


def history_of(case: KeepingCase, room_humidity: float) -> History:
    """The pieces of a case; `room_humidity` stands where nobody has said.

    Raises TooWarm for a stay above 45 °C, which is reported, never skipped.
    """
    broken = breaks(case)
    dried_on = _days(case, case.redried_on)
    broke_first = _days(case, broken.before_redrying)
    broke_last = _days(case, broken.after_redrying)
    edges = sorted({day for day in (dried_on, broke_first, broke_last) if day != inf})
    pieces, states = numbered(
        (start, end - start, climate, broke_first <= start < dried_on or start >= broke_last)
        for start, end, climate in _cut(_climates(case, room_humidity), edges)
    )
    since = dried_on if dried_on != inf else 0.0
    after = tuple(piece for piece in pieces if piece.start >= since)
    used = case.life_used_before_redrying
    if dried_on == inf or used is None:
        return History(pieces, after, 0.0, states, broke_last, since)
    return History(after, after, float(used), states, broke_last, since)


def numbered(
    stretches: Iterable[tuple[float, float, Climate, bool]],
) -> tuple[tuple[Piece, ...], tuple[tuple[Climate, bool], ...]]:
    """Stretches of (start, days, climate, open) as pieces, and their distinct states."""
    states: dict[tuple[Climate, bool], int] = {}
    pieces = tuple(
        Piece(start, days, climate, is_open, states.setdefault((climate, is_open), len(states)))
        for start, days, climate, is_open in stretches
    )
    return pieces, tuple(states)


def _days(case: KeepingCase, day: date | None) -> float:
    """Days from sealing; infinite for what never happened."""
    return inf if day is None else float((day - case.sealed_on).days)


def _cut(
    stretches: Iterator[tuple[float, float, Climate]], edges: list[float]
) -> Iterator[tuple[float, float, Climate]]:
    """The stretches with a cut at every edge inside one."""
    for start, end, climate in stretches:
        begin = start
        for edge in edges:
            if begin < edge < end:
                yield begin, edge, climate
                begin = edge
        yield begin, end, climate


def _climates(case: KeepingCase, room_humidity: float) -> Iterator[tuple[float, float, Climate]]:
    """Where it stands from day 0 on: start, end and climate, without a gap."""
    stays = sorted(case.stays, key=_from_day)
    first = Stay(case.sealed_on, None)
    begun = [stay for stay in stays if stay.from_day <= case.sealed_on]
    later = [stay for stay in stays if stay.from_day > case.sealed_on]
    order = [begun[-1] if begun else first, *later]
    for place, stay in enumerate(order):
        begin = max(stay.from_day, case.sealed_on)
        end = order[place + 1].from_day if place + 1 < len(order) else None
        if end is None or end > begin:
            yield from _stretches(case, stay, begin, end, room_humidity)


def _stretches(
    case: KeepingCase, stay: Stay, begin: date, end: date | None, room_humidity: float
) -> Iterator[tuple[float, float, Climate]]:
    """One stay as stretches of one temperature: itself, or its months."""
    humidity = room_humidity if stay.relative_humidity is None else float(stay.relative_humidity)
    if not 0 <= humidity <= 1:
        raise ImpossibleFigure("the humidity of a room", f"{humidity:.0%}", "from 0 to 100 %")
    if not stay.monthly_dc:
        climate = _climate(stay, stay.temperature_dc, humidity)
        yield _days(case, begin), _days(case, end), climate
        return
    if len(stay.monthly_dc) != 12:
        raise ImpossibleFigure("the year of a place", f"{len(stay.monthly_dc)} months", "12 months")
    climates = [_climate(stay, one, humidity) for one in stay.monthly_dc]
    last = end or add_months(max(begin, case.sealed_on), _HORIZON_MONTHS)
    while begin < last:
        following = min(last, _next_month(begin))
        yield _days(case, begin), _days(case, following), climates[begin.month - 1]
        begin = following


def _next_month(day: date) -> date:
    """The first day of the month after."""
    return date(day.year + day.month // 12, day.month % 12 + 1, 1)


def _climate(stay: Stay, temperature_dc: int | None, humidity: float) -> Climate:
    """A climate, refused where it is too warm; unknown counts as 21 °C, not measured."""
    if temperature_dc is None:
        return Climate(REFERENCE_C, False, humidity)
    if temperature_dc > _WARMEST_DC:
        raise TooWarm(temperature_dc / 10, REFUSE_ABOVE_C, stay.from_day)
    if temperature_dc <= _COLDEST_DC:
        raise ImpossibleFigure("a temperature", f"{temperature_dc / 10:.1f} °C", "a real one")
    return Climate(temperature_dc / 10, stay.measured, humidity)


def _from_day(stay: Stay) -> date:
    """The day a stay begins."""
    return stay.from_day
