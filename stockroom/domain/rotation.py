"""Which packages to use next, and how much of each.

Within a food the opened package goes first, then the oldest: first in, first out (household
wording: NDSU FN579, published). Across foods the earliest best-by goes first: using up in
due-date order makes the worst lateness as small as it can be (Jackson 1955, published).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date

from stockroom.domain.packing import part_water


@dataclass(frozen=True, slots=True)
class Candidate:
    """A package that could be used: what is left in it, dry, and the water for that.

    A part of what is left gets its share of the water that is left. However it is drawn, the
    last part takes the last of the water, and all parts add up to the package's own.
    """

    package_id: int
    code: str
    food_id: int
    made_on: date
    best_by: date
    opened: bool
    available_dg: int
    water_dg: int

    @property
    def fresh_dg(self) -> int:
        """The fresh equivalent of what is left: dry food and its water."""
        return self.available_dg + self.water_dg

    def water_for(self, take_dg: int) -> int:
        """Water to add to a part of what is left; taking all of it takes all the water."""
        return part_water(self.available_dg, self.water_dg, 0, take_dg)

    def after(self, pick: Pick) -> Candidate:
        """The package as it stands once a pick is taken out of it."""
        return replace(
            self,
            opened=True,
            available_dg=self.available_dg - pick.take_dg,
            water_dg=self.water_dg - pick.water_dg,
        )


@dataclass(frozen=True, slots=True)
class Pick:
    """So much out of one package, with the water to add.

    `opens` says that the package was not open before; `finishes` that nothing stays in it.
    """

    candidate: Candidate
    take_dg: int
    water_dg: int
    opens: bool
    finishes: bool

    @property
    def fresh_dg(self) -> int:
        """The fresh equivalent of what is taken."""
        return self.take_dg + self.water_dg

    @property
    def left_dg(self) -> int:
        """Dry food that stays in the package."""
        return self.candidate.available_dg - self.take_dg


@dataclass(frozen=True, slots=True)
class Allocation:
    """What to take, in order, and what could not be found, in the unit that was asked for."""

    picks: tuple[Pick, ...]
    shortfall_dg: int

    @property
    def dry_dg(self) -> int:
        """Dry food taken in all."""
        return sum(pick.take_dg for pick in self.picks)

    @property
    def water_dg(self) -> int:
        """Water to add to it in all."""
        return sum(pick.water_dg for pick in self.picks)


def first_in_first_out(candidates: Iterable[Candidate]) -> tuple[Candidate, ...]:
    """Opened before unopened; then by day made, best-by and package number in the store."""
    return tuple(
        sorted(
            candidates,
            key=lambda each: (not each.opened, each.made_on, each.best_by, each.package_id),
        )
    )


def earliest_best_by(candidates: Iterable[Candidate]) -> tuple[Candidate, ...]:
    """By best-by, then day made and package number in the store: the order across foods."""
    return tuple(sorted(candidates, key=lambda each: (each.best_by, each.made_on, each.package_id)))


def allocate_dry(candidates: Iterable[Candidate], wanted_dg: int) -> Allocation:
    """Take `wanted_dg` of dry food, first in first out; the shortfall is dry food.

    What is picked and the shortfall add up to what was asked, exactly. A want of zero or less
    picks nothing.
    """
    return _allocate(
        candidates, wanted_dg, lambda each, want: min(want, each.available_dg), _dry_of
    )


def allocate_fresh(candidates: Iterable[Candidate], wanted_fresh_dg: int) -> Allocation:
    """Take dry food whose fresh equivalent covers `wanted_fresh_dg`, first in first out.

    The fresh equivalent is the dry food and its own package's water. The last take is the least
    whole tenth of a gram that covers the want, so it may go over by less than that tenth's
    worth. The shortfall is in fresh equivalent.
    """
    return _allocate(candidates, wanted_fresh_dg, _least_covering, _fresh_of)


def _allocate(
    candidates: Iterable[Candidate],
    wanted: int,
    take_from: Callable[[Candidate, int], int],
    counts_as: Callable[[Pick], int],
) -> Allocation:
    """Go through the packages in order until the want is covered."""
    picks: list[Pick] = []
    for candidate in first_in_first_out(candidates):
        if wanted <= 0:
            break
        if candidate.available_dg <= 0:
            continue
        pick = _pick(candidate, take_from(candidate, wanted))
        picks.append(pick)
        wanted -= counts_as(pick)
    return Allocation(tuple(picks), max(wanted, 0))


def _pick(candidate: Candidate, take_dg: int) -> Pick:
    """A take of dry food with its water."""
    return Pick(
        candidate,
        take_dg,
        candidate.water_for(take_dg),
        opens=not candidate.opened,
        finishes=take_dg == candidate.available_dg,
    )


def _least_covering(candidate: Candidate, want_fresh_dg: int) -> int:
    """The least dry food of a package whose fresh equivalent covers the want, or all of it."""
    if want_fresh_dg >= candidate.fresh_dg:
        return candidate.available_dg
    return bisect_left(
        range(candidate.available_dg),
        want_fresh_dg,
        key=lambda take_dg: take_dg + candidate.water_for(take_dg),
    )


def _dry_of(pick: Pick) -> int:
    """What a pick counts for when dry food was asked for."""
    return pick.take_dg


def _fresh_of(pick: Pick) -> int:
    """What a pick counts for when fresh equivalent was asked for."""
    return pick.fresh_dg
