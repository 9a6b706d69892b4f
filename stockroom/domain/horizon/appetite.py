"""One appetite for all foods: the household eats so much a day of whatever is on the shelf.

Eating in best-by order makes the worst lateness as small as any order can, and where every serving
counts the same it also lets the least pass its best-by. It does not make the number of late
packages least, nor the worth of what is lost: for that see `least_worth_lost`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from heapq import heappop, heappush
from typing import NamedTuple

from stockroom.domain.horizon.stock import (
    NONE,
    StockPackage,
    common_parts,
    days_to_eat,
    in_parts,
)

DUE_ORDER_AIMS = (
    "Best-by order makes the worst lateness as small as any order can, and lets the least pass"
    " its best-by where every serving counts the same. It does not make the number of late"
    " packages least (Moore 1968), nor the worth of what is lost, and knows nothing of variety."
)


class Job(NamedTuple):
    """An amount to be eaten within so many days; `worth` is that of one unit of it."""

    key: int
    days: int
    amount: Fraction
    worth: Fraction = Fraction(1)


class Turn(NamedTuple):
    """When one job is eaten, in days from the start."""

    job: Job
    starts_days: Fraction
    ends_days: Fraction

    @property
    def lateness_days(self) -> Fraction:
        """Days after its last moment; negative when it is in time."""
        return self.ends_days - self.job.days


def jobs_of(
    packages: Iterable[StockPackage],
    from_day: date,
    *,
    amount: Callable[[StockPackage], Fraction] | None = None,
    worth: Callable[[StockPackage], Fraction] | None = None,
    count_best_by_day: bool = False,
) -> tuple[Job, ...]:
    """The packages as jobs in the project's order: best-by, day made, number in the store.

    `amount` is what a package takes of the shared appetite, its servings unless said otherwise
    (its kilocalories, say); `worth` is for one unit of that. What is past has 0 days or fewer.
    """
    ordered = sorted(packages, key=lambda one: (one.best_by, one.made_on, one.package_id))
    return tuple(
        Job(
            one.package_id,
            days_to_eat(from_day, one.best_by, count_best_by_day=count_best_by_day),
            one.servings if amount is None else amount(one),
            Fraction(1) if worth is None else worth(one),
        )
        for one in ordered
    )


def due_date_order(jobs: Iterable[Job]) -> tuple[Job, ...]:
    """By days left; jobs with the same stay as they are."""
    return tuple(sorted(jobs, key=lambda job: job.days))


def eat_in_turn(jobs: Iterable[Job], per_day: Fraction) -> tuple[Turn, ...]:
    """Eat the jobs one after the other as listed, past their best-by if it comes to that.

    ValueError for an appetite of nought or less.
    """
    if per_day <= 0:
        raise ValueError(f"an appetite of {per_day} a day")
    found: list[Turn] = []
    ends = NONE
    for job in jobs:
        starts, ends = ends, ends + job.amount / per_day
        found.append(Turn(job, starts, ends))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Eaten:
    """How much of each job is eaten in time, in the order of the jobs; the rest is lost."""

    jobs: tuple[Job, ...]
    amounts: tuple[Fraction, ...]

    @property
    def lost(self) -> tuple[Fraction, ...]:
        """What is lost of each job."""
        return tuple(job.amount - eaten for job, eaten in zip(self.jobs, self.amounts, strict=True))

    @property
    def lost_amount(self) -> Fraction:
        """What is lost in all."""
        return sum(self.lost, NONE)

    @property
    def lost_worth(self) -> Fraction:
        """The worth of what is lost."""
        return sum((job.worth * lost for job, lost in zip(self.jobs, self.lost, strict=True)), NONE)

    @property
    def jobs_touched(self) -> tuple[Job, ...]:
        """The jobs of which something is lost."""
        return tuple(job for job, lost in zip(self.jobs, self.lost, strict=True) if lost)


def eaten_in_due_order(jobs: Iterable[Job], per_day: Fraction) -> Eaten:
    """Eat in best-by order and set aside what its best-by overtakes. Least amount lost.

    ValueError for an appetite below nought.
    """
    ordered = due_date_order(jobs)
    parts, appetite = _parts(ordered, per_day)
    amounts: list[Fraction] = []
    so_far = 0
    for job in ordered:
        left = in_parts(job.amount, parts)
        eaten = max(0, min(left, appetite * job.days - so_far))
        so_far += eaten
        amounts.append(Fraction(eaten, parts))
    return Eaten(ordered, tuple(amounts))


def least_worth_lost(jobs: Iterable[Job], per_day: Fraction) -> Eaten:
    """What to eat in time so that the worth of what is lost is least, exactly.

    From the last best-by back to today: between two best-by days the household eats what is worth
    most for its amount among all that still keeps then. What is chosen is eaten in best-by order.
    ValueError for an appetite below nought.
    """
    ordered = due_date_order(jobs)
    parts, appetite = _parts(ordered, per_day)
    left = [in_parts(job.amount, parts) for job in ordered]
    eaten = [0] * len(ordered)
    keeping: list[tuple[Fraction, int]] = []
    for at in range(len(ordered) - 1, -1, -1):
        heappush(keeping, (-ordered[at].worth, at))
        days = max(ordered[at].days, 0) - (max(ordered[at - 1].days, 0) if at else 0)
        room = appetite * days
        while room and keeping:
            best = keeping[0][1]
            taken = min(room, left[best] - eaten[best])
            eaten[best] += taken
            room -= taken
            if eaten[best] == left[best]:
                heappop(keeping)
    return Eaten(ordered, tuple(Fraction(one, parts) for one in eaten))


def _parts(jobs: Sequence[Job], per_day: Fraction) -> tuple[int, int]:
    """The parts everything is a whole number of, and the appetite in them."""
    if per_day < 0:
        raise ValueError(f"an appetite of {per_day} a day")
    parts = common_parts((per_day, *(job.amount for job in jobs)))
    return parts, in_parts(per_day, parts)
