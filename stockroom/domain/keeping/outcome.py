"""The life of one package with its band, what ends it first, and when it would have to go."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import NamedTuple

from stockroom.domain.keeping.band import LifeBand, band_of
from stockroom.domain.keeping.history import numbered
from stockroom.domain.keeping.inputs import Inputs
from stockroom.domain.keeping.interface import LimitedBy
from stockroom.domain.keeping.life import (
    CAP_DAYS,
    Ends,
    Subject,
    moisture_end,
    share_by_age,
)
from stockroom.domain.keeping.moisture import DISCARD_ACTIVITY

# Lives in days agree to this where they are meant to be the same.
_SAME_DAYS = 1e-6


class Prepared(NamedTuple):
    """A case made ready to compute."""

    inputs: Inputs
    subject: Subject


@dataclass(frozen=True, slots=True)
class Outcome:
    """What the model computes for a package, in days from sealing."""

    band: LifeBand
    tight: LifeBand | None
    """Of the same package had it stayed closed; None for one that did."""
    limited_by: LimitedBy
    discard_days: float
    """When the middle moisture reaches water activity 0.60; infinite for never, or once open."""


def outcome_of(prepared: Prepared) -> Outcome:
    """Life, band, limit and discard day of a prepared case."""
    inputs, subject = prepared
    band = band_of(inputs.middle, inputs.spreads, subject)
    if subject.history.open_from == inf:
        discard_days = moisture_end(inputs.middle, subject, DISCARD_ACTIVITY).day
        return Outcome(band, None, limit_of(band.ends, prepared), discard_days)
    tight = band_of(inputs.middle, inputs.spreads, tight_throughout(subject))
    if tight.mid_days > band.mid_days + _SAME_DAYS:
        return Outcome(band, tight, LimitedBy.OPENED, inf)
    return Outcome(band, tight, limit_of(tight.ends, prepared), inf)


def limit_of(ends: Ends, prepared: Prepared) -> LimitedBy:
    """What ends the middle life of a tight package first.

    Of quality, temperature where time alone uses at least half of it, else oxygen.
    """
    inputs, subject = prepared
    if ends.moisture < min(ends.quality, CAP_DAYS):
        return LimitedBy.MOISTURE
    if ends.quality > CAP_DAYS:
        return LimitedBy.CAP
    aged = share_by_age(inputs.middle, subject, ends.quality)
    if aged >= (1 - subject.history.used_at_start) / 2:
        return LimitedBy.TEMPERATURE
    return LimitedBy.OXYGEN


def tight_throughout(subject: Subject) -> Subject:
    """The same package had it stayed tight since it was last dried."""
    history = subject.history
    quality, states = numbered(
        (piece.start, piece.days, piece.climate, piece.open and piece.start < history.open_from)
        for piece in history.quality
    )
    moisture = quality[len(quality) - len(history.moisture) :]
    return subject._replace(
        history=history._replace(quality=quality, moisture=moisture, states=states, open_from=inf)
    )
