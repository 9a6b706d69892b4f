"""How sure a share is that was counted: so many soft of so many looked at.

The exact interval of Clopper and Pearson: the lower limit is the share for which so many soft or
more would be seen with half of what is left of the confidence, the upper one that for so many or
fewer. It is never too narrow, and for few packages wide: that is the message.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import comb

from stockroom.domain.chances import exact_percent, percent_words
from stockroom.domain.incomplete_beta import point_below
from stockroom.domain.working import Source, Standing
from stockroom.errors import Refused

CONFIDENCE = Fraction(95, 100)
LEAST_TO_TELL = 6
"""Fewer looked at say too little: with up to 5, none soft still leaves room for half of them."""

EXACT_INTERVAL = Source(
    "clopper-pearson",
    "Clopper and Pearson, The use of confidence or fiducial limits illustrated in the case of the"
    " binomial, Biometrika 26:404-413, 1934: exact interval (secondary copy)",
    Standing.PUBLISHED,
)
TOO_FEW = Source(
    "too-few-to-tell",
    f"Fewer than {LEAST_TO_TELL} looked at are too few to tell: even none soft would leave room for"
    " more than half with 95 % confidence",
    Standing.ENGINEERING_JUDGEMENT,
)


class NoSuchShare(Refused):
    """Counts that are no share of anything."""

    def __init__(self, soft: int, looked_at: int) -> None:
        """`soft` of `looked_at`."""
        super().__init__(
            f"{soft} of {looked_at} is no share.",
            "Give a number looked at and how many of these were soft.",
        )
        self.soft = soft
        self.looked_at = looked_at


@dataclass(frozen=True, slots=True)
class Proportion:
    """A counted share with its exact interval."""

    soft: int
    looked_at: int
    confidence: Fraction
    low: float
    high: float

    @property
    def share(self) -> Fraction | None:
        """The share counted; None where nothing was looked at."""
        return Fraction(self.soft, self.looked_at) if self.looked_at else None

    @property
    def too_few_to_tell(self) -> bool:
        """Whether so few were looked at that the share says next to nothing."""
        return self.looked_at < LEAST_TO_TELL

    def stands_apart(self, other: Proportion) -> bool:
        """Whether the two shares differ by more than chance: their intervals do not touch.

        Stricter than a test of the difference, and never said of too few.
        """
        if self.too_few_to_tell or other.too_few_to_tell:
            return False
        return self.low > other.high or self.high < other.low

    @property
    def sentence(self) -> str:
        """The count and what it says."""
        counted = f"{self.soft} of {self.looked_at} soft"
        if self.too_few_to_tell:
            return f"{counted}: too few to tell."
        return (
            f"{counted}: from {percent_words(self.low)} to {percent_words(self.high)} of packages"
            f" like these, with {exact_percent(self.confidence)} confidence."
        )


def proportion(soft: int, looked_at: int, confidence: Fraction = CONFIDENCE) -> Proportion:
    """A counted share with its exact two-sided interval. Raises NoSuchShare."""
    one_side = (1 + confidence) / 2
    low = lower_limit(soft, looked_at, one_side)
    return Proportion(soft, looked_at, confidence, low, upper_limit(soft, looked_at, one_side))


def upper_limit(soft: int, looked_at: int, confidence: Fraction) -> float:
    """The share not exceeded, with this one-sided confidence. Raises NoSuchShare."""
    _refuse_unfit(soft, looked_at, confidence)
    return 1 - _limit(looked_at - soft, looked_at, confidence)


def lower_limit(soft: int, looked_at: int, confidence: Fraction) -> float:
    """The share reached at least, with this one-sided confidence. Raises NoSuchShare."""
    _refuse_unfit(soft, looked_at, confidence)
    return _limit(soft, looked_at, confidence)


def chance_at_most(soft: int, looked_at: int, share: Fraction) -> Fraction:
    """The chance of at most `soft` among `looked_at`, where each is soft with the chance `share`.

    The binomial sum, exactly: how often a plan that accepts `soft` passes a long series of lots
    with that share. Raises NoSuchShare.
    """
    _refuse_unfit(soft, looked_at, CONFIDENCE)
    yes, parts = share.numerator, share.denominator
    ways = sum(
        comb(looked_at, k) * yes**k * (parts - yes) ** (looked_at - k) for k in range(soft + 1)
    )
    return Fraction(ways, parts**looked_at)


def _limit(count: int, looked_at: int, confidence: Fraction) -> float:
    """The share for which `count` or more come with the chance 1 - confidence.

    P(count or more of n) = I_share(count, n - count + 1).
    """
    if count == 0:
        return 0.0
    return point_below(float(1 - confidence), count, looked_at - count + 1)


def _refuse_unfit(soft: int, looked_at: int, confidence: Fraction) -> None:
    """Refuse counts that do not fit each other."""
    if not 0 <= soft <= looked_at or not 0 < confidence < 1:
        raise NoSuchShare(soft, looked_at)
