"""When a package is looked at again: by what it is, where it stands and how it was found.

After the settle check a package is looked at after a week, after a month and then every half
year, sooner by risk. Its low edge and best-by bring the looks closer. The day hangs on the facts
and the settings alone, neither on today nor on other packages, so it can be kept: the share of
life used is that of the day the look would fall on. A passed look sets a new day to look and
never a later best-by (idea: re-test date, ICH Q1A(R2), published).

Only sealed, settled, sound packages: before that the settle check is due, and a doubtful package
is due at once. Days are reckoned as whole numbers and fractions as millionths, so that a hundred
thousand packages take a second; `recheck_working.explain` shows the very same numbers.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from stockroom.domain.conditions import Event
from stockroom.domain.recheck_factors import (
    AT_FAULT,
    AT_LOW_EDGE,
    FIRST_LOOK,
    LATER_LOOK,
    MOVED,
    PAST_BEST,
    PAST_LOW_EDGE,
    SECOND_HALF,
    SECOND_LOOK,
    Reason,
    risk_factors,
)
from stockroom.domain.recheck_facts import (
    STANDARD,
    LooksADay,
    LooksOutOfOrder,
    NoDaySetAside,
    RecheckFacts,
    RecheckSettings,
)

__all__ = [
    "STANDARD",
    "Limit",
    "LooksADay",
    "LooksOutOfOrder",
    "NoDaySetAside",
    "Recheck",
    "RecheckFacts",
    "RecheckSettings",
    "Reckoning",
    "at_fault_since",
    "recheck",
    "recheck_many",
    "reckon",
]

# Standing of every number here: engineering judgement; the reasons stand in recheck_factors.
WHOLE = 1_000_000
LEAST_SHARE = 250_000
"""No wait below a quarter of the interval, in millionths."""
PATIENT_SHARE = 500_000
"""Where the reasons leave half of the interval or more, the first two looks may wait longer."""
AGEING_SHARE = 750_000
"""What is left of the days past the middle of the time to its best-by, in millionths."""
LOW_EDGE_DAYS = 30
"""Past the low edge of the best-by: every month."""
PAST_BEST_BY_DAYS = 14
"""Past the best-by: every two weeks."""
HIGHEST_RISK = 1_000

_CRISP = Event.CRISP.value
# Two to the 32nd over the golden ratio (Knuth, The Art of Computer Programming, volume 3, 6.4;
# from memory): its multiples spread any run of package numbers evenly.
_GOLDEN = 2_654_435_769
_SPREAD = 0xFFFF_FFFF
STAGGER_PARTS = 6
"""Sisters are drawn apart by up to a sixth of the wait."""


class Recheck(NamedTuple):
    """When a package is looked at: the day wanted, and how far that may be moved.

    `risk` runs from 0 to 1000, the gravest: how much shorter its interval is than the longest.
    """

    earliest_on: date
    wanted_on: date
    latest_on: date
    risk: int
    why: tuple[Reason, ...]

    @property
    def reasons(self) -> tuple[str, ...]:
        """Why then, in words: which look it is, and what brings it forward."""
        return tuple(one.words for one in self.why)


class Limit(NamedTuple):
    """What brought the day forward, and to which day."""

    reason: Reason
    by: int


class Reckoning(NamedTuple):
    """The numbers behind a recheck. Days are ordinals (1 is 0001-01-01), shares millionths."""

    last: int
    """The last look that counts: the last crisp one, or the sealing."""
    age_days: int
    """How long it had been sound by then."""
    stage: Reason
    base_days: int
    factors: tuple[Reason, ...]
    share: int
    """What the factors leave of the interval."""
    plain: int
    """The day by the interval alone."""
    after_move: int | None
    half_life: int | None
    """The middle of the time from sealing to best-by."""
    limits: tuple[Limit, ...]
    """In the order minded; only those that brought the day forward."""
    by: int
    """The day once all limits are minded; `early_days` come off it."""
    early_days: int
    earliest: int
    latest: int
    risk: int

    @property
    def wanted(self) -> int:
        """The day wanted."""
        return self.by - self.early_days

    @property
    def wait_days(self) -> int:
        """From the last look to `by`."""
        return self.by - self.last

    @property
    def why(self) -> tuple[Reason, ...]:
        """Which look it is, what makes it sooner and what brought it forward."""
        return (self.stage, *self.factors, *(one.reason for one in self.limits))


def recheck(facts: RecheckFacts, settings: RecheckSettings = STANDARD) -> Recheck:
    """When to look at one package again; always earliest <= wanted <= latest.

    A package whose last finding is a fault is due on the day of that finding.
    """
    day = at_fault_since(facts)
    if day is not None:
        return Recheck(day, day, day, HIGHEST_RISK, (AT_FAULT,))
    found = reckon(facts, settings)
    day_of = date.fromordinal
    return Recheck(
        day_of(found.earliest),
        day_of(found.wanted),
        day_of(found.latest),
        found.risk,
        found.why,
    )


def at_fault_since(facts: RecheckFacts) -> date | None:
    """The day of the last finding if that was a fault: the package is doubtful and due at once."""
    if not facts.findings or facts.findings[-1][1] == _CRISP:
        return None
    return facts.findings[-1][0]


def recheck_many(
    many: Iterable[RecheckFacts], settings: RecheckSettings = STANDARD
) -> list[Recheck]:
    """When to look at many packages again, in their order."""
    return [recheck(facts, settings) for facts in many]


def reckon(facts: RecheckFacts, settings: RecheckSettings = STANDARD) -> Reckoning:
    """All the numbers of one recheck.

    Nothing that makes a package riskier makes `by`, the wanted day or `latest` later, or the
    risk lower: every step keeps the order of the shares.
    """
    sealed = facts.sealed_on.toordinal()
    since, last, was_at_fault = _looks(facts, sealed)
    stage, base_days = _stage(last - since, settings)
    factors = risk_factors(facts, was_at_fault)
    share = _share(factors)
    moved = facts.moved_on.toordinal() if facts.moved_on is not None else 0
    after_move = moved + _part(settings.second_days, share) if moved >= last else None
    plain = last + _part(base_days, share)
    half_life = _half_life(facts, sealed)
    by, limits = _limited(facts, last, plain, after_move, half_life)
    early_days = _early_days(facts.package_id, by - last)
    pace = share * (base_days if after_move is None else min(base_days, settings.second_days))
    if half_life is not None and last + base_days > half_life:
        pace = pace * AGEING_SHARE // WHOLE
    may_wait_days = _may_wait_days(stage, share, settings)
    return Reckoning(
        last,
        last - since,
        stage,
        base_days,
        factors,
        share,
        plain,
        after_move,
        half_life,
        limits,
        by,
        early_days,
        by - early_days - (by - last) // 4,
        _latest(facts, settings, by - early_days, by - last, may_wait_days),
        _risk(facts, last, pace, settings.later_days),
    )


def _looks(facts: RecheckFacts, sealed: int) -> tuple[int, int, bool]:
    """Since when it is not known otherwise than sound, its last look, and whether it had a fault.

    After a fault that was cleared the looks begin anew.
    """
    last = sealed
    for day, finding in reversed(facts.findings):
        if finding != _CRISP:
            fault = day.toordinal()
            return fault, max(fault, last), True
        if last == sealed:
            last = day.toordinal()
    return sealed, last, False


def _stage(age_days: int, settings: RecheckSettings) -> tuple[Reason, int]:
    """Which look is next and its interval, by how long it had been sound at the last one.

    A look after half of the week or three quarters of the month counts for the whole of it: one
    brought forward is not asked for again. A package at greater risk, looked at sooner still, is.
    """
    if age_days * 2 < settings.first_days:
        return FIRST_LOOK, settings.first_days
    if age_days * 4 < settings.second_days * 3:
        return SECOND_LOOK, settings.second_days
    return LATER_LOOK, settings.later_days


def _share(factors: tuple[Reason, ...]) -> int:
    """What all factors together leave of an interval, in millionths."""
    share = WHOLE
    for one in factors:
        share = share * one.percent // 100
    return share if share > LEAST_SHARE else LEAST_SHARE


def _part(days: int, share: int) -> int:
    """A share of some days, rounded up: one day at least."""
    return -(-days * share // WHOLE)


def _half_life(facts: RecheckFacts, sealed: int) -> int | None:
    """The day in the middle between sealing and best-by."""
    if facts.best_by is None:
        return None
    return (sealed + facts.best_by.toordinal()) // 2


def _limited(
    facts: RecheckFacts, last: int, plain: int, after_move: int | None, half_life: int | None
) -> tuple[int, tuple[Limit, ...]]:
    """The day once a move, the second half of the life, low edge and best-by are minded."""
    by = plain
    limits: list[Limit] = []
    if after_move is not None and after_move < by:
        by = after_move
        limits.append(Limit(MOVED, by))
    if half_life is not None and by > half_life:
        start = max(last, half_life)
        by = start + _part(by - start, AGEING_SHARE)
        limits.append(Limit(SECOND_HALF, by))
    if facts.low is not None and by > (edge := facts.low.toordinal()):
        month_on = last + LOW_EDGE_DAYS
        if by > max(edge, month_on):
            by = max(edge, month_on)
            limits.append(Limit(AT_LOW_EDGE if edge > month_on else PAST_LOW_EDGE, by))
    if facts.best_by is not None:
        edge = max(facts.best_by.toordinal(), last + PAST_BEST_BY_DAYS)
        if by > edge:
            by = edge
            limits.append(Limit(PAST_BEST, by))
    return by, tuple(limits)


def _early_days(package_id: int, wait_days: int) -> int:
    """Days off a wait, from none to a sixth of it, spread evenly over package numbers.

    A longer wait never ends earlier for it: one day more of wait takes one day more off at most.
    """
    return (wait_days // STAGGER_PARTS + 1) * (package_id * _GOLDEN & _SPREAD) >> 32


def _latest(
    facts: RecheckFacts,
    settings: RecheckSettings,
    wanted: int,
    wait_days: int,
    may_wait_days: int,
) -> int:
    """The last day the look may wait for.

    That is a quarter of the wait more, and long enough to hold a day set aside. At no great risk
    the first look may wait for the second, which it then stands for, and the second as long again
    as it is from the settle check: so a great packing day spreads over some weeks, the riskiest
    first. Neither waits past the low edge for that, nor where none is known.
    """
    latest = wanted + max(-(-wait_days // 4), settings.longest_wait_days)
    if may_wait_days == 0 or facts.low is None:
        return latest
    return max(latest, min(wanted + may_wait_days, facts.low.toordinal()))


def _may_wait_days(stage: Reason, share: int, settings: RecheckSettings) -> int:
    """How long one of the first two looks may wait where the reasons leave half of the interval."""
    if share < PATIENT_SHARE or stage is LATER_LOOK:
        return 0
    if stage is SECOND_LOOK:
        return settings.second_days
    return settings.second_days - settings.first_days


def _risk(facts: RecheckFacts, last: int, pace: int, later_days: int) -> int:
    """How much shorter than the longest interval; `pace` is the interval in millionth days."""
    if facts.low is not None and facts.low.toordinal() <= last + LOW_EDGE_DAYS:
        pace = min(pace, LOW_EDGE_DAYS * WHOLE)
    if facts.best_by is not None and facts.best_by.toordinal() <= last + PAST_BEST_BY_DAYS:
        pace = min(pace, PAST_BEST_BY_DAYS * WHOLE)
    return HIGHEST_RISK - min(HIGHEST_RISK, pace * HIGHEST_RISK // (later_days * WHOLE))
