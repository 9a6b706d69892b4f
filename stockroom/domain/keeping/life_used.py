"""How much of a package's life is used by a day: the middle, and the band round it.

Four counters run, those whose ends the life is the first of: quality, moisture, the opened rule
and the 25 years no estimate may pass. The share used is the largest of them, so it reaches one on
the day the life ends. The band's edges take all doubts together as a constant factor on the pace,
such that each edge reaches one where the life's own band ends (engineering judgement).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from stockroom.domain.keeping.band import LifeBand
from stockroom.domain.keeping.history import Piece
from stockroom.domain.keeping.interface import LifeUsed
from stockroom.domain.keeping.life import (
    CAP_DAYS,
    Subject,
    Values,
    moisture_life,
    quality_life,
)
from stockroom.domain.keeping.outcome import Prepared


def life_used(prepared: Prepared, band: LifeBand, days: Sequence[float]) -> tuple[LifeUsed, ...]:
    """The shares used by each of `days`, counted from sealing."""
    values, subject = prepared.inputs.middle, prepared.subject
    at_low = share_used(values, subject, band.low_days)
    at_high = share_used(values, subject, band.high_days)
    found: list[LifeUsed] = []
    for day in days:
        share = share_used(values, subject, day)
        found.append(LifeUsed(_of(share, at_high), _of(share, 1.0), _of(share, at_low)))
    return tuple(found)


def share_used(values: Values, subject: Subject, day: float) -> float:
    """The largest of the counters by a day from sealing; passes one when the life is over."""
    history = subject.history
    quality_lives = [quality_life(values, subject.package, one) for one in _firsts(history.quality)]
    moisture_lives = [
        moisture_life(values, subject, one.climate, values.crisp_limit)
        for one in _firsts(history.moisture)
    ]
    opened = (day - history.open_from) / values.opened_days if day > history.open_from else 0.0
    return max(
        history.used_at_start + _counted(history.quality, quality_lives, day),
        _counted(history.moisture, moisture_lives, day),
        opened,
        day / CAP_DAYS,
    )


def _firsts(pieces: Sequence[Piece]) -> list[Piece]:
    """One piece of each climate and tightness, in the order `_counted` looks lives up."""
    first: dict[int, Piece] = {}
    for piece in pieces:
        first.setdefault(piece.state, piece)
    return list(first.values())


def _counted(pieces: Sequence[Piece], lives: Sequence[float], until: float) -> float:
    """What a counter has reached by a day; `lives` are those of the states as first met."""
    of_state = dict(zip(dict.fromkeys(piece.state for piece in pieces), lives, strict=True))
    used = 0.0
    for piece in pieces:
        if piece.start >= until:
            break
        life = of_state[piece.state]
        used += min(piece.days, until - piece.start) / life if life > 0 else inf
    return used


def _of(share: float, whole: float) -> float:
    """A share of a whole, never past one; of nothing, all of it."""
    return min(1.0, share / whole) if whole > 0 else 1.0
