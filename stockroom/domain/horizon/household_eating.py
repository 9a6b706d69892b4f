"""How fast a household eats its foods: as it said, else as it did, else nobody knows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.horizon.eating import FoodEating, Pace, steady
from stockroom.domain.horizon.odds import EATING_SPREAD_SHARE
from stockroom.domain.horizon.past_eating import (
    Observed,
    PastDraw,
    eating_patterns,
    paces_of,
    relative_spread,
)
from stockroom.domain.quantities import read_servings, unreadable
from stockroom.domain.working import Source, Standing

RECORD_DAYS = 365
LEAST_RECORD_DAYS = 28
RECORD_READ = Source(
    "eating-record",
    "What was eaten in the 365 days before today speaks for the days to come, once a food has been"
    " in the house for 28 of them",
    Standing.ENGINEERING_JUDGEMENT,
)
PLAN_STANDS = Source(
    "plan-before-pace",
    "Until its last planned day a food on the menu is eaten as planned and not beside it",
    Standing.ENGINEERING_JUDGEMENT,
)
MOST_A_DAY = 1000
_NOTHING = ("0", "none", "nothing", "never")


class Per(StrEnum):
    """The stretch of time a rate is said over."""

    DAY = "day"
    WEEK = "week"
    MONTH = "month"
    YEAR = "year"

    @property
    def days(self) -> Fraction:
        """Its length; months and years are those of the mean Gregorian calendar."""
        return _PER_DAYS[self]


_YEAR_DAYS = Fraction(146_097, 400)
"""Mean Gregorian year: 97 leap days in 400 years."""
_PER_DAYS = {
    Per.DAY: Fraction(1),
    Per.WEEK: Fraction(7),
    Per.MONTH: _YEAR_DAYS / 12,
    Per.YEAR: _YEAR_DAYS,
}


class Basis(StrEnum):
    """Where the eating of a food is known from."""

    SET = "set"
    RECORD = "record"
    NOBODY = "nobody"

    @property
    def words(self) -> str:
        """For people."""
        return _BASIS_WORDS[self]


_BASIS_WORDS = {
    Basis.SET: "as set",
    Basis.RECORD: "as eaten in the last year",
    Basis.NOBODY: "nobody said",
}


@dataclass(frozen=True, slots=True)
class HouseholdEating:
    """How one food is eaten from today on, and where that is known from."""

    food_id: int
    basis: Basis
    servings_per_day: Fraction | None
    """As set, or the mean of the record; None where nobody said."""
    eating: FoodEating | None
    spread: float = EATING_SPREAD_SHARE
    """Standard deviation over the length of the forecast, as a share of the mean."""
    record: Observed | None = None
    """The days of the record and what was eaten on them."""


def eating_of_food(
    food_id: int,
    set_rate: Fraction | None,
    draws: Iterable[PastDraw],
    first_made_on: date | None,
    today: date,
    days: int,
) -> HouseholdEating:
    """How a food is eaten over so many days from today, by its set rate or its record.

    `draws` are those of the food, `first_made_on` is the day its first lot was made.
    """
    if set_rate is not None:
        return HouseholdEating(food_id, Basis.SET, set_rate, steady(food_id, set_rate))
    unsaid = HouseholdEating(food_id, Basis.NOBODY, None, None)
    if first_made_on is None:
        return unsaid
    last = today - timedelta(days=1)
    first = max(today - timedelta(days=RECORD_DAYS), first_made_on)
    if (last - first).days + 1 < LEAST_RECORD_DAYS:
        return unsaid
    patterns = eating_patterns(draws, first, last)
    if not patterns:
        return unsaid
    (pattern,) = patterns
    return HouseholdEating(
        food_id,
        Basis.RECORD,
        pattern.year.servings_per_day,
        paces_of(pattern, today, days),
        relative_spread(pattern, days),
        pattern.year,
    )


def after_plan(eating: FoodEating | None, last_planned: date | None) -> FoodEating | None:
    """The pace of a food once its planned days are over (`PLAN_STANDS`)."""
    if eating is None or last_planned is None:
        return eating
    start = last_planned + timedelta(days=1)
    begun = [pace for pace in eating.paces if pace.from_day <= start]
    later = tuple(pace for pace in eating.paces if pace.from_day > start)
    first = (Pace(start, begun[-1].servings_per_day),) if begun else ()
    return FoodEating(eating.food_id, (*first, *later))


def read_rate(text: str, days: Fraction) -> Fraction:
    """Servings a day of so many servings in so many days; nought for "none".

    Raises BadInput for what is no number of servings and for more than a thousand a day.
    """
    if text.strip().casefold() in _NOTHING:
        return Fraction(0)
    rate = read_servings(text, "servings") / days
    if rate > MOST_A_DAY:
        raise unreadable("servings", text, f"no more than {MOST_A_DAY} servings a day")
    return rate
