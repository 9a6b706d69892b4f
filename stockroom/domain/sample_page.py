"""A sample of a lot or a place: what was asked, what to look at, what was seen."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.domain.belief import DEFAULT_PRIOR, Belief, Others
from stockroom.domain.records import Package
from stockroom.domain.sampling import LookedAt, Sample

USUAL_CONFIDENCE = Fraction(95, 100)
SURE = Fraction(1)


@dataclass(frozen=True, slots=True)
class Wish:
    """What a sample is to show: with `confidence` at most `at_most` are soft.

    `at_most` None takes one in ten, but never less than one. `sensitivity` is the share of soft
    ones that the look notices; `since` the day from which looks count, today when None.
    """

    at_most: int | None = None
    confidence: Fraction = USUAL_CONFIDENCE
    sensitivity: Fraction = SURE
    prior: Belief = DEFAULT_PRIOR
    since: date | None = None


@dataclass(frozen=True, slots=True)
class SamplePage:
    """How many of a lot or a place to look at, which ones, and what was seen so far."""

    name: str
    """The lot's code or the place's path."""
    food: str
    """The lot's food; "" of a place."""
    wish: Wish
    sample: Sample
    picks: tuple[Package, ...]
    """What to look at, place by place; those looked at since are among them."""
    packages: tuple[Package, ...]
    """All of the group, place by place."""
    found: dict[str, str]
    """Code → what the last look since that day found, of every package of the group."""
    checked: int
    soft: int
    left: Others
    """What is believed of those not looked at."""
    by_now: LookedAt | None
    """What the looks so far say for sure; None before the first, or with a look that misses."""

    @property
    def enough(self) -> bool:
        """Whether as many were looked at as it takes, with none of them soft."""
        wanted = self.sample.inspect
        return wanted is not None and self.checked >= wanted and self.soft == 0

    @property
    def conclusion(self) -> str:
        """What follows from the looks so far; "" while there are more to take."""
        every = self.checked >= self.sample.lot
        if self.soft and every:
            return f"{self.soft} soft, every one looked at: decide what becomes of each."
        if self.soft:
            where = "of the lot" if self.food else "here, and of their lots"
            return f"{self.soft} soft: look at every package {where}."
        if not self.enough and not every:
            return ""
        seen = "Every one" if every else f"Enough: {self.checked} of {self.sample.lot}"
        return f"{seen} looked at, none soft."

    @property
    def taken_as_sure(self) -> str:
        """That some looks opened nothing, yet count as sure to find a soft one; "" if none did."""
        looked = [one for one in self.packages if one.code in self.found]
        closed = sum(one.opened_on is None for one in looked)
        if not closed or self.wish.sensitivity < SURE:
            return ""
        return (
            f"{closed} of {len(looked)} looked at {'was' if closed == 1 else 'were'} not opened:"
            " such a look may miss a soft one, so say what share it finds."
        )
