"""The band round a life: every figure alone at its pessimistic and its optimistic value.

The logarithm of each life over the middle life goes, squared, into the low sum when it is
negative and into the high sum when it is positive, whichever end it came from; every evaluation
is itself held at 25 years. Changing all figures at once would give absurd spreads. Standing:
engineering judgement, after the usual combination of independent contributions (JCGM 100:2008,
5.1.2).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, inf, log, sqrt
from typing import NamedTuple

from stockroom.domain.keeping.figures import VARIED, Quantity, Spread
from stockroom.domain.keeping.life import (
    CAP_DAYS,
    Ends,
    Subject,
    Values,
    ends_of,
    moisture_end,
    opened_end,
    quality_end,
)


class Change(NamedTuple):
    """What one figure alone does to the life."""

    quantity: Quantity
    pessimistic: float
    """ln(life at its pessimistic value / middle life)."""
    optimistic: float

    @property
    def low(self) -> float:
        """Its share of the low sum: the squares of what shortens the life."""
        return sum(one * one for one in (self.pessimistic, self.optimistic) if one < 0)

    @property
    def high(self) -> float:
        """Its share of the high sum: the squares of what lengthens the life."""
        return sum(one * one for one in (self.pessimistic, self.optimistic) if one > 0)


@dataclass(frozen=True, slots=True)
class LifeBand:
    """A life with its band, days from sealing."""

    low_days: float
    mid_days: float
    high_days: float
    ends: Ends
    """Of the middle evaluation."""
    changes: tuple[Change, ...]
    """One for every figure that changes the life at all."""


# Which figures bear on which of the three ends; an end keeps its middle value under the others.
_QUALITY = frozenset(
    (
        Quantity.LIFE_WITHOUT_OXYGEN,
        Quantity.LIFE_IN_AIR,
        Quantity.Q10,
        Quantity.OXYGEN_TOLERANCE,
        Quantity.OXYGEN_TRANSMISSION,
        Quantity.LID_OXYGEN,
        Quantity.STATED_TEMPERATURE,
    )
)
_MOISTURE = frozenset(
    (
        Quantity.VAPOUR_TRANSMISSION,
        Quantity.LID_VAPOUR,
        Quantity.ROOM_HUMIDITY,
        Quantity.FIRST_ACTIVITY,
        Quantity.CRISP_LIMIT,
        Quantity.STATED_TEMPERATURE,
    )
)
_TOUCHES = tuple((quantity in _QUALITY, quantity in _MOISTURE) for quantity in VARIED)


def band_of(middle: Values, spreads: tuple[Spread, ...], subject: Subject) -> LifeBand:
    """The middle life and its band; `spreads` in the order of `Values`."""
    ends = ends_of(middle, subject)
    mid = ends.life
    changes: list[Change] = []
    for place, quantity in enumerate(VARIED):
        spread = spreads[place]
        if spread.pessimistic == spread.optimistic or _is_idle(quantity, subject):
            continue
        pessimistic, optimistic = (
            _log_ratio(_changed(middle, place, value, subject, ends).life, mid)
            for value in (spread.pessimistic, spread.optimistic)
        )
        if pessimistic or optimistic:
            changes.append(Change(quantity, pessimistic, optimistic))
    low = mid * exp(-sqrt(sum(change.low for change in changes)))
    high = min(CAP_DAYS, mid * exp(sqrt(sum(change.high for change in changes))))
    return LifeBand(low, mid, high, ends, tuple(changes))


def _is_idle(quantity: Quantity, subject: Subject) -> bool:
    """Whether a figure cannot matter here: nothing was only stated, or nothing is open."""
    if quantity is Quantity.STATED_TEMPERATURE:
        return not subject.history.any_stated
    return quantity is Quantity.OPENED_LIFE and subject.history.open_from == inf


def _changed(middle: Values, place: int, value: float, subject: Subject, ends: Ends) -> Ends:
    """The ends with one figure at another value."""
    values = Values._make((*middle[:place], value, *middle[place + 1 :]))
    quality, moisture = _TOUCHES[place]
    return Ends(
        quality_end(values, subject).day if quality else ends.quality,
        moisture_end(values, subject, values.crisp_limit).day if moisture else ends.moisture,
        opened_end(values, subject),
    )


def _log_ratio(life: float, middle: float) -> float:
    """ln(life / middle); a life of nothing is infinitely shorter, and of nothing, no change."""
    if life == middle or middle <= 0:
        return 0.0
    return log(life / middle) if life > 0 else -inf
