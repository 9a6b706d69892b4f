"""Which packages to use next, and how much of each.

Within a food the opened package goes first, then the oldest: first in, first out (household
wording: NDSU FN579, published); of packages made on one day the earliest best-by; and where the
dates are the same, as few packages are opened as can be. Across foods the earliest best-by goes
first: using up in due-date order makes the worst lateness as small as it can be (Jackson 1955,
published).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

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
    packed_dg: int | None = None
    """Dry food it was packed with; None where it is what is left."""

    @property
    def fresh_dg(self) -> int:
        """The fresh equivalent of what is left: dry food and its water."""
        return self.available_dg + self.water_dg

    @property
    def whole_dg(self) -> int:
        """Dry food of the whole package."""
        return self.available_dg if self.packed_dg is None else self.packed_dg

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
            packed_dg=self.whole_dg,
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
    return tuple(sorted(candidates, key=lambda each: (*_turn(each), each.package_id)))


def earliest_best_by(candidates: Iterable[Candidate]) -> tuple[Candidate, ...]:
    """By best-by, then day made and package number in the store: the order across foods."""
    return tuple(sorted(candidates, key=lambda each: (each.best_by, each.made_on, each.package_id)))


def allocate_dry(candidates: Iterable[Candidate], wanted_dg: int) -> Allocation:
    """Take `wanted_dg` of dry food, first in first out; the shortfall is dry food.

    What is picked and the shortfall add up to what was asked, exactly. A want of zero or less
    picks nothing. Where day made and best-by are the same, as few packages are opened as can be.
    """
    return _allocate(candidates, wanted_dg, _dry_in, lambda each, want: min(want, _dry_in(each)))


def allocate_fresh(candidates: Iterable[Candidate], wanted_fresh_dg: int) -> Allocation:
    """Take dry food whose fresh equivalent covers `wanted_fresh_dg`, first in first out.

    The fresh equivalent is the dry food and its own package's water. The last take is the least
    whole tenth of a gram that covers the want, so it may go over by less than that tenth's
    worth. The shortfall is in fresh equivalent. Ties are broken as in `allocate_dry`.
    """
    return _allocate(candidates, wanted_fresh_dg, _fresh_in, _least_covering)


def _allocate(
    candidates: Iterable[Candidate],
    wanted: int,
    counts_as: Callable[[Candidate], int],
    take_from: Callable[[Candidate, int], int],
) -> Allocation:
    """Go through the packages turn by turn until the want is covered.

    `counts_as` is what a whole package covers of the want, `take_from` the dry food to take of
    it. Packages with nothing left are passed over.
    """
    picks: list[Pick] = []
    filled = (each for each in candidates if each.available_dg > 0)
    for (unopened, *_), turn in groupby(first_in_first_out(filled), key=_turn):
        tied = list(turn)
        for candidate in _fewest(tied, wanted, counts_as) if unopened else tied:
            if wanted <= 0:
                return Allocation(tuple(picks), 0)
            picks.append(_pick(candidate, take_from(candidate, wanted)))
            wanted -= counts_as(candidate)
    return Allocation(tuple(picks), max(wanted, 0))


def _turn(candidate: Candidate) -> tuple[bool, date, date]:
    """What decides when a package is used; packages alike in it are a tie."""
    return (not candidate.opened, candidate.made_on, candidate.best_by)


def _fewest(
    tied: list[Candidate], wanted: int, counts_as: Callable[[Candidate], int]
) -> list[Candidate]:
    """Packages of one turn in the order to take them, so that the fewest are opened.

    No fewer than `_largest_first` gives can do. Where as many of the lowest numbers cover the
    want, those are taken; else of packages with the same dry weight the lowest numbers, where
    they do. When all together do not cover it, all are taken, by number.
    """
    if sum(map(counts_as, tied)) <= wanted:
        return tied
    chosen = list(_largest_first(tied, wanted, counts_as))
    numbered: dict[int, list[Candidate]] = {}
    for each in reversed(tied):
        numbered.setdefault(each.available_dg, []).append(each)
    lowest = [numbered[each.available_dg].pop() for each in chosen]
    covering = (
        some for some in (tied[: len(chosen)], lowest) if sum(map(counts_as, some)) >= wanted
    )
    return next(covering, chosen)


def _largest_first(
    tied: list[Candidate], wanted: int, counts_as: Callable[[Candidate], int]
) -> Iterator[Candidate]:
    """The fewest packages that cover a want they cover together.

    The largest first, as long as none of the rest covers what is wanted still; then the smallest
    that does. No fewer can do: any number of packages hold at most what as many of the largest
    hold.
    """
    rising = sorted(tied, key=counts_as)
    while wanted > 0:
        if counts_as(rising[-1]) < wanted:
            largest = rising.pop()
            wanted -= counts_as(largest)
            yield largest
        else:
            yield rising[bisect_left(rising, wanted, key=counts_as)]
            return


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


def _dry_in(candidate: Candidate) -> int:
    """What a whole package counts for when dry food was asked for."""
    return candidate.available_dg


def _fresh_in(candidate: Candidate) -> int:
    """What a whole package counts for when fresh equivalent was asked for."""
    return candidate.fresh_dg
