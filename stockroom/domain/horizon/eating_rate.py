"""The lowest steady eating rate that lets nothing pass its best-by.

With S_k servings best by day t_k or earlier, eating in best-by order is in time exactly when
S_k / r is no more than the days until t_k, for every k; no order does better (Jackson). So the
least rate is the largest S_k / (t_k - today), and the day that gives it is the binding date.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import NamedTuple

from stockroom.domain.horizon.stock import NONE, days_to_eat


class Due(NamedTuple):
    """So many servings that are best by a day."""

    servings: Fraction
    best_by: date


class DueDay(NamedTuple):
    """All that is best by one day, and what has to be eaten by then."""

    best_by: date
    servings: Fraction
    servings_by_then: Fraction
    days: int
    """Days in which to eat it all."""

    @property
    def servings_per_day(self) -> Fraction:
        """The rate this day alone would ask for."""
        return self.servings_by_then / self.days


@dataclass(frozen=True, slots=True)
class EatingRate:
    """The least steady rate, exact, with the days behind it.

    `past_due` is what was past its best-by already; it is left out of the rate.
    """

    from_day: date
    servings_per_day: Fraction
    binding: DueDay | None
    """The first day that asks for this rate; None where nothing is to be eaten."""
    days: tuple[DueDay, ...]
    past_due: tuple[Due, ...]
    count_best_by_day: bool

    @property
    def servings_per_week(self) -> Fraction:
        """The rate over seven days."""
        return 7 * self.servings_per_day

    @property
    def binding_date(self) -> date | None:
        """The best-by that asks for this rate."""
        return None if self.binding is None else self.binding.best_by

    @property
    def average_per_day(self) -> Fraction:
        """All servings over all days: what one might take for enough. It never is more."""
        if not self.days:
            return NONE
        last = self.days[-1]
        return last.servings_by_then / last.days


def least_rate(
    dues: Iterable[Due], from_day: date, *, count_best_by_day: bool = False
) -> EatingRate:
    """The least steady rate from `from_day` on.

    Eating starts on `from_day`; the best-by day is an eating day only if `count_best_by_day`.
    What is best by `from_day` or earlier (earlier, if that day counts) is past, and listed apart.
    ValueError for servings below nought.
    """
    by_day: dict[date, Fraction] = {}
    past: list[Due] = []
    for due in dues:
        if due.servings < 0:
            raise ValueError(f"{due.servings} servings best by {due.best_by}")
        if days_to_eat(from_day, due.best_by, count_best_by_day=count_best_by_day) <= 0:
            past.append(due)
        elif due.servings:
            by_day[due.best_by] = by_day.get(due.best_by, NONE) + due.servings
    days = _due_days(by_day, from_day, count_best_by_day)
    binding = max(days, key=lambda one: one.servings_per_day, default=None)
    return EatingRate(
        from_day,
        NONE if binding is None else binding.servings_per_day,
        binding,
        days,
        tuple(sorted(past, key=lambda one: one.best_by)),
        count_best_by_day,
    )


def _due_days(
    by_day: dict[date, Fraction], from_day: date, count_best_by_day: bool
) -> tuple[DueDay, ...]:
    """The best-by days in order, each with all that is due by then."""
    found: list[DueDay] = []
    so_far = NONE
    for best_by in sorted(by_day):
        so_far += by_day[best_by]
        days = days_to_eat(from_day, best_by, count_best_by_day=count_best_by_day)
        found.append(DueDay(best_by, by_day[best_by], so_far, days))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class LateDay:
    """A best-by that a slower rate misses: when it is all eaten, and how many days late."""

    due: DueDay
    eaten_after_days: Fraction

    @property
    def days_late(self) -> Fraction:
        """Days past the best-by, above nought."""
        return self.eaten_after_days - self.due.days


def late_days(rate: EatingRate, servings_per_day: Fraction) -> tuple[LateDay, ...]:
    """The best-by days that another rate misses, eating on in best-by order all the same.

    ValueError for a rate of nought or less where there is something to eat.
    """
    if not rate.days:
        return ()
    if servings_per_day <= 0:
        raise ValueError(f"{servings_per_day} servings a day")
    eaten = (LateDay(due, due.servings_by_then / servings_per_day) for due in rate.days)
    return tuple(one for one in eaten if one.days_late > 0)
