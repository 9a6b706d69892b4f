"""Taking the whole of the last package, where too little would stay in it to be worth keeping.

An opened package keeps for days, so a rest of less than one serving, or of less than 15 % of the
package, is better eaten with the dish. Both limits are engineering judgement.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from stockroom.domain.cooking import CookLine, CookPlan
from stockroom.domain.rotation import Candidate, Pick

SMALL_REST_SERVINGS = 1
SMALL_REST_SHARE = Fraction(15, 100)


@dataclass(frozen=True, slots=True)
class WholePackage:
    """A suggestion: take the whole of a package, so many tenths of a gram and water more."""

    line: int
    """Which line of the plan, from 0."""
    candidate: Candidate
    more_dg: int
    more_water_dg: int

    @property
    def code(self) -> str:
        """The package."""
        return self.candidate.code


@dataclass(frozen=True, slots=True)
class LeftOpen:
    """What stays in a package that a dish opens or has opened, and how long it keeps so."""

    code: str
    food: str
    left_dg: int
    left_water_dg: int
    use_by: date | None
    """A quality estimate, not safety; None where the model gives no day."""
    why_not: str = ""
    """Why there is no day."""


def rests(plan: CookPlan) -> dict[int, tuple[int, Pick]]:
    """Package id → the line and the last take of each package that is not finished."""
    last: dict[int, tuple[int, Pick]] = {}
    for at, line in enumerate(plan.lines):
        for pick in line.picks:
            last[pick.candidate.package_id] = (at, pick)
    return {key: found for key, found in last.items() if not found[1].finishes}


def whole_packages(plan: CookPlan) -> tuple[WholePackage, ...]:
    """The packages in which too little would stay, in the plan's order."""
    return tuple(
        WholePackage(at, pick.candidate, pick.left_dg, pick.candidate.water_dg - pick.water_dg)
        for at, pick in rests(plan).values()
        if is_small(pick, plan.lines[at].need.serving_dg)
    )


def is_small(pick: Pick, serving_dg: int | None) -> bool:
    """Whether what a take leaves is under one serving, or under 15 % of the package."""
    left_fresh_dg = pick.candidate.fresh_dg - pick.fresh_dg
    if serving_dg is not None and left_fresh_dg < SMALL_REST_SERVINGS * serving_dg:
        return True
    return pick.left_dg < SMALL_REST_SHARE * pick.candidate.whole_dg


def take_whole(plan: CookPlan, wholes: Iterable[WholePackage]) -> CookPlan:
    """The plan with these suggestions taken: those packages are finished, their water with them."""
    accepted: dict[int, set[int]] = {}
    for one in wholes:
        accepted.setdefault(one.line, set()).add(one.candidate.package_id)
    lines = tuple(_finished(line, accepted.get(at, set())) for at, line in enumerate(plan.lines))
    return replace(plan, lines=lines, water_dg=sum(line.water_dg for line in lines))


def _finished(line: CookLine, package_ids: set[int]) -> CookLine:
    """A line that takes all that is left in these packages."""
    picks = tuple(
        replace(
            pick,
            take_dg=pick.candidate.available_dg,
            water_dg=pick.candidate.water_dg,
            finishes=True,
        )
        if pick.candidate.package_id in package_ids
        else pick
        for pick in line.picks
    )
    return replace(
        line,
        picks=picks,
        dry_dg=sum(pick.take_dg for pick in picks),
        water_dg=sum(pick.water_dg for pick in picks),
    )
