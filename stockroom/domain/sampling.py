"""How many packages of a lot to look at, and what a clean look says.

A shelf holds small lots that nobody adds to, so the answers are for a finite lot: packages are
picked at random and not put back. The statement is "with this confidence at most d of N are
soft". It is refuted by d + 1 soft ones, so the least number is the least n for which a lot with
d + 1 soft would pass with a chance of 1 - confidence at most. At d = 0 this is severe: even N - 1
sound ones leave the last in doubt.

Comparisons are exact and equal is enough: in binary numbers a lot of 100 with two soft and 55
looked at, whose chance to slip through is just 1/5, would go either way.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.chances import exact_percent, floor_percent
from stockroom.domain.hypergeometric import SURE, Draw, power_at_most
from stockroom.domain.working import Source, Standing
from stockroom.errors import Refused

LARGEST_LOT = 100_000

HYPERGEOMETRIC = Source(
    "hypergeometric",
    "Picking at random without putting back: hypergeometric distribution, from its definition, in"
    " exact fractions; equal to the limit is enough",
    Standing.COMPUTED,
)
FAULT_RATE = Source(
    "ispm-31",
    "ISPM 31, Methodologies for sampling of consignments, FAO/IPPC 2008: number to look at in a"
    " finite lot, from the hypergeometric distribution",
    Standing.PUBLISHED,
)
IMPERFECT_CHECK = Source(
    "imperfect-check",
    "Cameron and Baldock, A new probability formula for surveys to substantiate freedom from"
    " disease, Preventive Veterinary Medicine 34:1-17, 1998: hypergeometric distribution with a"
    " check that misses some (secondary copy)",
    Standing.PUBLISHED,
)
ROUGH_RULE = Source(
    "cannon-roe",
    "Cannon and Roe, Livestock Disease Surveys: A Field Manual for Veterinarians, 1982: rough rule",
    Standing.FROM_MEMORY,
)
THEN_ALL = Source(
    "one-soft-all",
    "More soft ones than the sample allows for: look at every package of the lot",
    Standing.ENGINEERING_JUDGEMENT,
)


class ImpossibleSample(Refused):
    """A number of packages, a confidence or a share that a sample cannot have."""

    def __init__(self, what: str, shown: str, allowed: str) -> None:
        """`what` names the figure, `shown` is its value, `allowed` what may stand there."""
        super().__init__(f"{what} cannot be {shown}.", f"It has to be {allowed}.")
        self.what = what
        self.shown = shown
        self.allowed = allowed


class RateBelowOne(Refused):
    """A fault rate that is less than one whole package of the lot."""

    def __init__(self, lot: int, rate: Fraction) -> None:
        """`lot` packages, of which a share of `rate` is less than one."""
        super().__init__(
            f"{exact_percent(rate)} of {lot} packages is less than one package.",
            "Ask for at most 0 soft instead, or for a higher share.",
        )
        self.lot = lot
        self.rate = rate


class MissesAndAccepts(Refused):
    """A sample that may hold soft ones, looked at with a check that misses some."""

    def __init__(self, accept: int, sensitivity: Fraction) -> None:
        """`accept` soft ones allowed for, each noticed with the chance `sensitivity`."""
        super().__init__(
            f"{accept} soft allowed for in the sample needs a check that misses none, not one"
            f" that finds {exact_percent(sensitivity)}.",
            "Open the packages, or allow for none.",
        )
        self.accept = accept
        self.sensitivity = sensitivity


@dataclass(frozen=True, slots=True)
class Sample:
    """How many of a lot to look at, so that at most so many are soft, with a confidence."""

    lot: int
    at_most: int
    confidence: Fraction
    accept: int
    """Soft ones that may be among those looked at."""
    sensitivity: Fraction
    """Chance that the check notices a soft package that it looks at."""
    inspect: int | None
    """The least number that does; None where the whole lot is not enough."""
    detection_probability: float
    """Chance to notice more than `accept` of `at_most` + 1 soft; with the whole lot looked at
    where no number is enough."""

    @property
    def refuted_by(self) -> int:
        """The least number of soft packages that the statement denies."""
        return self.at_most + 1

    @property
    def sentence(self) -> str:
        """What to do and what it says."""
        if self.inspect is None:
            return (
                f"Impossible: even with all {self.lot} checked in this way, {self.refuted_by} soft"
                f" would be noticed only {floor_percent(self.detection_probability)} of the time."
                " Use a better check: open them, weigh them, break a piece."
            )
        few = f"at most {self.accept}" if self.accept else "none"
        how = "" if self.sensitivity == SURE else " in this way"
        return (
            f"Look at {self.inspect} of {self.lot}{how}, picked at random: if {few} is found soft,"
            f" then with {exact_percent(self.confidence)} confidence"
            f" {_soft_words(self.at_most, self.lot)}."
        )


@dataclass(frozen=True, slots=True)
class LookedAt:
    """What a look at some of a lot says about all of it."""

    lot: int
    opened: int
    found: int
    confidence: Fraction
    most: int
    """With this confidence no more of the lot are soft; those found are among them."""

    @property
    def sentence(self) -> str:
        """What was seen and what it says."""
        seen = f"{self.opened} of {self.lot} looked at, {self.found or 'none'} soft"
        if self.most >= self.lot:
            return f"{seen}: that says nothing yet about the others."
        confident = f"with {exact_percent(self.confidence)} confidence"
        return f"{seen}: {confident} {_soft_words(self.most, self.lot)}."


def sample_size(
    lot: int,
    at_most: int,
    confidence: Fraction,
    *,
    accept: int = 0,
    sensitivity: Fraction = SURE,
) -> Sample:
    """The least number to look at, so that a clean look says: at most `at_most` are soft.

    Clean is at most `accept` soft ones noticed. Raises ImpossibleSample, and MissesAndAccepts
    where an imperfect check goes with an `accept` above 0.
    """
    _refuse_lot(lot, confidence, sensitivity)
    _refuse_outside("The number of soft ones that may be in the lot", at_most, lot - 1)
    _refuse_outside("The number of soft ones allowed for in the sample", accept, at_most)
    _refuse_misses(accept, sensitivity)

    def looked_at(opened: int) -> Draw:
        return Draw(lot, at_most + 1, opened, accept, sensitivity)

    allowed = 1 - confidence
    enough = looked_at(lot).passes_at_most(allowed)
    inspect = None
    if enough:
        inspect = _least(lot, lambda opened: looked_at(opened).passes_at_most(allowed))
    noticed = looked_at(lot if inspect is None else inspect).noticed()
    return Sample(lot, at_most, confidence, accept, sensitivity, inspect, noticed)


def sample_for_rate(
    lot: int, rate: Fraction, confidence: Fraction, *, sensitivity: Fraction = SURE
) -> Sample:
    """The least number to look at, so that a share of `rate` or more soft would be noticed.

    Counts whole packages, rounded down, as ISPM 31 does: to notice D is to say that at most D - 1
    are soft. Raises RateBelowOne where D is 0, and ImpossibleSample.
    """
    _refuse_lot(lot, confidence, sensitivity)
    if not 0 < rate <= 1:
        raise ImpossibleSample(
            "The share that is soft", exact_percent(rate), "above 0 and at most 100 %"
        )
    soft = int(lot * rate)
    if soft < 1:
        raise RateBelowOne(lot, rate)
    return sample_size(lot, soft - 1, confidence, sensitivity=sensitivity)


def most_soft(
    lot: int, opened: int, found: int, confidence: Fraction, *, sensitivity: Fraction = SURE
) -> LookedAt:
    """How many of a lot are soft at most, after `opened` were looked at and `found` were soft.

    The least d such that d + 1 soft would have shown so few with a chance of 1 - confidence at
    most. Raises ImpossibleSample and MissesAndAccepts.
    """
    _refuse_lot(lot, confidence, sensitivity)
    _refuse_outside("The number of packages looked at", opened, lot)
    _refuse_outside("The number of soft ones found", found, opened)
    _refuse_misses(found, sensitivity)

    def refuted(most: int) -> bool:
        return most >= lot or Draw(lot, most + 1, opened, found, sensitivity).passes_at_most(
            1 - confidence
        )

    return LookedAt(lot, opened, found, confidence, found + _least(lot - found, refuted, found))


def detection_probability(
    lot: int, soft: int, opened: int, sensitivity: Fraction = SURE
) -> Fraction:
    """The chance to notice one soft package or more, exactly. Raises ImpossibleSample."""
    _refuse_lot(lot, Fraction(1, 2), sensitivity)
    _refuse_outside("The number of soft packages", soft, lot)
    _refuse_outside("The number of packages looked at", opened, lot)
    return 1 - Draw(lot, soft, opened, 0, sensitivity).passes()


def passing(sample: Sample) -> tuple[tuple[int, float], ...]:
    """How often lots with so many soft pass the check: a few numbers of soft, each with its chance.

    Empty for a sample that is impossible.
    """
    if sample.inspect is None:
        return ()
    refuted = sample.refuted_by
    counts = {1, sample.at_most, refuted, 2 * refuted, sample.lot // 4, sample.lot // 2}
    draws = [
        (soft, Draw(sample.lot, soft, sample.inspect, sample.accept, sample.sensitivity))
        for soft in sorted(counts)
        if 1 <= soft <= sample.lot
    ]
    return tuple((soft, draw.passed()) for soft, draw in draws)


def enough_for_any_lot(rate: Fraction, confidence: Fraction) -> int:
    """The number to look at that is enough however large the lot: a share of `rate` is noticed.

    Least n with (1 - rate)^n <= 1 - confidence, exactly. Raises ImpossibleSample.
    """
    _refuse_lot(1, confidence, SURE)
    if not 0 < rate <= 1:
        raise ImpossibleSample(
            "The share that is soft", exact_percent(rate), "above 0 and at most 100 %"
        )
    most = 1
    while not power_at_most(1 - rate, most, 1 - confidence):
        most *= 2
    return _least(most, lambda opened: power_at_most(1 - rate, opened, 1 - confidence))


def rough_number(lot: int, soft: int, confidence: Fraction) -> float:
    """The rough rule for the head: (1 - (1 - confidence)^(1/soft)) x (lot - (soft - 1)/2).

    For comparison only; from memory. `soft` is the number to be noticed, 1 or more.
    """
    return (1 - float(1 - confidence) ** (1 / soft)) * (lot - (soft - 1) / 2)


def _soft_words(most: int, lot: int) -> str:
    """At most so many of a lot are soft, in words."""
    if most < 2:
        return f"{'at most 1' if most else 'none'} of the {lot} is soft"
    return f"at most {most} of the {lot} are soft"


def _least(most: int, enough: Callable[[int], bool], start: int = 0) -> int:
    """The least step from 0 to `most` for which start + step is enough; `most` always is.

    More looked at never makes a soft lot pass more often (the larger pick holds the smaller one),
    and neither do more soft ones, so halving finds it.
    """
    low, high = 0, most
    while low < high:
        middle = (low + high) // 2
        if enough(start + middle):
            high = middle
        else:
            low = middle + 1
    return low


def _refuse_lot(lot: int, confidence: Fraction, sensitivity: Fraction) -> None:
    """Refuse a lot, a confidence or a sensitivity that cannot be."""
    if not 1 <= lot <= LARGEST_LOT:
        raise ImpossibleSample("The number of packages in the lot", str(lot), f"1 to {LARGEST_LOT}")
    if not 0 < confidence < 1:
        raise ImpossibleSample(
            "The confidence",
            exact_percent(confidence),
            "above 0 and below 100 %; to be certain, look at every package",
        )
    if not 0 < sensitivity <= 1:
        raise ImpossibleSample(
            "The sensitivity", exact_percent(sensitivity), "above 0 and at most 100 %"
        )


def _refuse_outside(what: str, count: int, most: int) -> None:
    """Refuse a count that is not from 0 to `most`."""
    if not 0 <= count <= most:
        raise ImpossibleSample(what, str(count), f"0 to {most}" if most else "0")


def _refuse_misses(accept: int, sensitivity: Fraction) -> None:
    """Refuse soft ones allowed for beside a check that misses some."""
    if accept and sensitivity != SURE:
        raise MissesAndAccepts(accept, sensitivity)
