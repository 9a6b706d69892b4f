"""What is believed of packages that nobody has looked at: the beta-binomial rule.

A belief about the share of soft packages is a Beta(a, b) distribution, as if a soft and b sound
ones had been seen. Looking at n of which k are soft makes it Beta(a + k, b + n - k). Of m others,
j are then soft with the chance

    P(j) = C(m, j) x B(a + k + j, b + n - k + m - j) / B(a + k, b + n - k)

where a ratio of beta functions is a ratio of products of rising numbers, so the chances are exact
fractions; above `EXACT_UP_TO` packages they come from logarithms and are good to nine digits.

A belief is no guarantee, and holds for packages picked without knowing how they are: looking only
at those that seem soft makes it too dark.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from math import comb, exp, lgamma, prod

from stockroom.domain.chances import chance_words, exact_percent, percent_words
from stockroom.domain.incomplete_beta import log_beta, point_below
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.working import Source, Standing
from stockroom.errors import Refused

MOST_CHECKED = 100_000
MOST_WEIGHT = 1_000_000
LEAST_WEIGHT = Fraction(1, 1000)
EXACT_UP_TO = 300
"""Packages not looked at up to which the chances are exact."""
CENTRAL = Fraction(95, 100)
"""The interval given leaves out 2.5 % on either side."""
NOT_A_GUARANTEE = "A belief, not a guarantee."

BETA_BINOMIAL = Source(
    "beta-binomial",
    "Gelman et al., Bayesian Data Analysis, 3rd edition, 2.1: a beta prior updated by counts, and"
    " what it says of counts to come",
    Standing.FROM_MEMORY,
)
EQUALLY_LIKELY = Source(
    "prior-1-1",
    "Beta(1, 1): before the first look every share of soft ones is held equally likely. It favours"
    " no outcome and errs towards looking; own records make a better one",
    Standing.ENGINEERING_JUDGEMENT,
)


class ImpossibleCount(Refused):
    """A number of packages that a look cannot have."""

    def __init__(self, what: str, count: int, most: int) -> None:
        """`what` names the number; it may be from 0 to `most`."""
        super().__init__(f"{what} cannot be {count}.", f"Give a number from 0 to {most}.")
        self.what = what
        self.count = count
        self.most = most


class NoSuchPrior(Refused):
    """A prior that is no distribution, or of a weight nobody has seen."""

    def __init__(self, soft: Fraction, sound: Fraction) -> None:
        """The two numbers of the prior."""
        super().__init__(
            f"A prior of {float(soft):g} soft and {float(sound):g} sound cannot be used.",
            f"Give two numbers from {float(LEAST_WEIGHT):g} to {MOST_WEIGHT}, such as 1,1.",
        )
        self.soft = soft
        self.sound = sound


@dataclass(frozen=True, slots=True)
class Belief:
    """A Beta distribution of the share that is soft, as if so many of each had been seen."""

    soft: Fraction
    sound: Fraction

    @property
    def mean(self) -> Fraction:
        """The share of soft ones expected."""
        return self.soft / (self.soft + self.sound)

    def interval(self, level: Fraction = CENTRAL) -> tuple[float, float]:
        """The central interval: as much belief below it as above it."""
        outside = float((1 - level) / 2)
        return self._point(outside), 1 - self.swapped._point(outside)

    def upper(self, level: Fraction = CENTRAL) -> float:
        """The share that is not exceeded, with this much belief."""
        return self._point(float(level))

    @property
    def swapped(self) -> Belief:
        """The same belief about the share that is sound."""
        return Belief(self.sound, self.soft)

    def _point(self, share: float) -> float:
        """The share of soft ones with so much of the belief below it."""
        return point_below(share, float(self.soft), float(self.sound))


DEFAULT_PRIOR = Belief(Fraction(1), Fraction(1))


@dataclass(frozen=True, slots=True)
class Others:
    """What a belief says of `remaining` packages that nobody has looked at."""

    belief: Belief
    remaining: int

    @property
    def expected(self) -> Fraction:
        """How many soft ones are expected among them."""
        return self.remaining * self.belief.mean

    @property
    def none_soft(self) -> Fraction:
        """The chance that none of them is soft."""
        return self.exactly(0)

    def exactly(self, soft: int) -> Fraction:
        """The chance that exactly `soft` of them are; exact up to `EXACT_UP_TO` packages."""
        if not 0 <= soft <= self.remaining:
            return Fraction(0)
        if self.remaining > EXACT_UP_TO:
            return Fraction(self._nearly(soft))
        a, b, unit = self._whole()
        sound = self.remaining - soft
        ways = comb(self.remaining, soft) * _rising(a, unit, soft) * _rising(b, unit, sound)
        return Fraction(ways, _rising(a + b, unit, self.remaining))

    def up_to(self, soft: int) -> Fraction:
        """The chance that at most `soft` of them are."""
        return Fraction(sum(self._chances(soft)))

    def most_soft(self, level: Fraction = CENTRAL) -> int:
        """The least number that is not exceeded, with this much belief."""
        reached = accumulate(self._chances(self.remaining))
        below = (sofar < level for sofar in reached)
        return next((count for count, short in enumerate(below) if not short), self.remaining)

    @property
    def sentence(self) -> str:
        """What may be soft among them, as a belief."""
        if self.remaining == 0:
            return f"None is left that was not looked at. {NOT_A_GUARANTEE}"
        if self.remaining == 1:
            soft = chance_words(self.belief.mean)
            return f"One was not looked at; {soft} that it is soft. {NOT_A_GUARANTEE}"
        return (
            f"Of {self.remaining} not looked at, {_about(self.expected)} may be soft;"
            f" {chance_words(self.none_soft)} that none is. {NOT_A_GUARANTEE}"
        )

    def _chances(self, most: int) -> Iterator[Fraction | float]:
        """The chances of 0, 1, ... up to `most` soft ones."""
        counts = range(min(most, self.remaining) + 1)
        if self.remaining > EXACT_UP_TO:
            return (self._nearly(count) for count in counts)
        return (self.exactly(count) for count in counts)

    def _nearly(self, soft: int) -> float:
        """A chance from logarithms."""
        a, b, sound = float(self.belief.soft), float(self.belief.sound), self.remaining - soft
        ways = lgamma(self.remaining + 1) - lgamma(soft + 1) - lgamma(sound + 1)
        return min(1.0, exp(ways + log_beta(a + soft, b + sound) - log_beta(a, b)))

    def _whole(self) -> tuple[int, int, int]:
        """The two numbers of the belief as whole multiples of one over the last."""
        a, b = self.belief.soft, self.belief.sound
        unit = a.denominator * b.denominator
        return int(a * unit), int(b * unit), unit


def believe(checked: int, soft: int, prior: Belief = DEFAULT_PRIOR) -> Belief:
    """The belief after looking at `checked` packages of which `soft` were soft.

    Raises ImpossibleCount and NoSuchPrior.
    """
    _refuse_count("The number of packages looked at", checked, MOST_CHECKED)
    _refuse_count(f"The number of soft ones among {checked}", soft, checked)
    if not all(LEAST_WEIGHT <= one <= MOST_WEIGHT for one in (prior.soft, prior.sound)):
        raise NoSuchPrior(prior.soft, prior.sound)
    return Belief(prior.soft + soft, prior.sound + checked - soft)


def others(belief: Belief, remaining: int) -> Others:
    """What a belief says of packages nobody has looked at. Raises ImpossibleCount."""
    _refuse_count("The number of packages not looked at", remaining, MOST_CHECKED)
    return Others(belief, remaining)


def share_sentence(belief: Belief) -> str:
    """The share that is soft, as a belief."""
    low, high = belief.interval()
    return (
        f"Of packages like these about {percent_words(belief.mean)} may be soft, with"
        f" {exact_percent(CENTRAL)} belief from {percent_words(low)} to {percent_words(high)}."
        f" {NOT_A_GUARANTEE}"
    )


def _about(expected: Fraction) -> str:
    """A number expected, to the nearest whole one."""
    if expected < Fraction(1, 2):
        return "fewer than 1"
    if expected.denominator == 2:
        return f"{int(expected)} or {int(expected) + 1}"
    return f"about {nearest_whole(expected)}"


def _rising(first: int, step: int, count: int) -> int:
    """first x (first + step) x ..., `count` numbers."""
    return prod(range(first, first + count * step, step))


def _refuse_count(what: str, count: int, most: int) -> None:
    """Refuse a count that is not from 0 to `most`."""
    if not 0 <= count <= most:
        raise ImpossibleCount(what, count, most)
