"""First in first out beside earliest best-by first, and in words why the two differ.

First in first out is the household's rule. It is right as long as all packages of a food keep
equally long; where they do not, an older pouch may outlast a younger jar, and only the order of
best-by makes the worst lateness as small as it can be.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.domain.horizon.appetite import Job, Turn, eat_in_turn
from stockroom.domain.horizon.stock import (
    NONE,
    StockPackage,
    days_to_eat,
    earliest_best_by_first,
    first_in_first_out,
)


@dataclass(frozen=True, slots=True)
class Overtaken:
    """A younger package that goes before an older one, since its best-by is earlier."""

    younger: StockPackage
    older: StockPackage

    @property
    def reason(self) -> str:
        """Why, in a sentence."""
        first, then = self.younger, self.older
        said = (
            f"{_named(first)} goes before {_named(then)}, which comes first by age"
            f" ({first.made_on} after {then.made_on}): its best-by is {first.best_by},"
            f" the other's {then.best_by}"
        )
        return f"{said}; {self._because}."

    @property
    def _because(self) -> str:
        """What makes the difference, as far as the record tells."""
        first, then = self.younger, self.older
        if then.opened and not first.opened:
            return "the other is open already: finish it first if it can be closed no better"
        if first.opened and not then.opened:
            return "it is open, and keeps no longer than opened food does"
        if first.packed_in and then.packed_in and first.packed_in != then.packed_in:
            return f"the older {then.packed_in} outlasts the younger {first.packed_in}"
        return "the older one keeps longer where and as it is packed"


@dataclass(frozen=True, slots=True)
class UseOrder:
    """One food's packages in either order, and how late the worst package is in each.

    The lateness is in days, negative where all is in time; None where no pace was given.
    """

    by_age: tuple[StockPackage, ...]
    by_best_by: tuple[StockPackage, ...]
    overtaken: tuple[Overtaken, ...]
    worst_by_age_days: Fraction | None
    worst_by_best_by_days: Fraction | None

    @property
    def differs(self) -> bool:
        """Whether the two orders are not the same."""
        return self.by_age != self.by_best_by

    @property
    def words(self) -> str:
        """Which order to follow, and why."""
        if not self.differs:
            return "First in first out and earliest best-by first are the same here."
        said = "The two orders differ: follow the best-by."
        if self.worst_by_age_days is None or self.worst_by_best_by_days is None:
            return said
        return (
            f"{said} By age the worst package is {_late_words(self.worst_by_age_days)};"
            f" by best-by, {_late_words(self.worst_by_best_by_days)}."
        )


def use_order(
    packages: Iterable[StockPackage],
    from_day: date,
    servings_per_day: Fraction | None = None,
    *,
    count_best_by_day: bool = False,
) -> UseOrder:
    """Both orders for the packages of one food, with the worst lateness at a pace, where given.

    ValueError for a pace of nought or less.
    """
    every = tuple(packages)
    by_age, by_best_by = first_in_first_out(every), earliest_best_by_first(every)

    def worst(order: Sequence[StockPackage]) -> Fraction | None:
        if servings_per_day is None:
            return None
        jobs = [
            Job(
                one.package_id,
                days_to_eat(from_day, one.best_by, count_best_by_day=count_best_by_day),
                one.servings,
            )
            for one in order
        ]
        return worst_lateness(eat_in_turn(jobs, servings_per_day))

    return UseOrder(
        by_age, by_best_by, _overtaken(by_age, by_best_by), worst(by_age), worst(by_best_by)
    )


def worst_lateness(turns: Iterable[Turn]) -> Fraction | None:
    """The largest lateness in days; None of nothing."""
    return max((turn.lateness_days for turn in turns), default=None)


def _overtaken(
    by_age: Sequence[StockPackage], by_best_by: Sequence[StockPackage]
) -> tuple[Overtaken, ...]:
    """Each package that goes before one that age puts first; of those the longest-keeping."""
    place = {one.package_id: at for at, one in enumerate(by_best_by)}
    found: dict[int, Overtaken] = {}
    longest: StockPackage | None = None
    for one in by_age:
        if longest is not None and place[longest.package_id] > place[one.package_id]:
            found[one.package_id] = Overtaken(one, longest)
        else:
            longest = one
    return tuple(found[one.package_id] for one in by_best_by if one.package_id in found)


def _named(package: StockPackage) -> str:
    """A package by its code and what holds it."""
    code = package.code or f"package {package.package_id}"
    held = (package.packed_in, "open" * package.opened)
    return code + (f" ({', '.join(one for one in held if one)})" if any(held) else "")


def _late_words(days: Fraction) -> str:
    """A lateness in words."""
    count = abs(float(days))
    shown = f"{count:.0f}" if count >= 100 else f"{count:.3g}"
    size = f"{shown} day{'' if count == 1 else 's'}"
    if days > NONE:
        return f"{size} late"
    return f"{size} early" if days < NONE else "finished on its last day"
