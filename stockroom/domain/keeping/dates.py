"""From a life to a calendar day.

A life is months of 30.4375 days (a twelfth of 365.25). A day is found by rounding the life down
to whole months, to whole days below one month, and counting from the starting day itself; month
ends are held (2026-01-31 and one month give 2026-02-28). Standing: engineering judgement.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from fractions import Fraction
from math import floor

from stockroom.domain.calendar import add_months
from stockroom.domain.keeping.interface import LONGEST_MONTHS

DAYS_A_MONTH = Fraction("30.4375")
"""A twelfth of a year of 365.25 days."""

# Less than a second: keeps floating-point noise from rounding ten years down to 119 months.
_NOISE_MONTHS = 1e-7


def months_of_days(days: int) -> Fraction:
    """A number of days in months of 30.4375 days."""
    return Fraction(days) / DAYS_A_MONTH


def months_between(first: date, last: date) -> Fraction:
    """Months of 30.4375 days from one day to another; never below zero."""
    return months_of_days(max(0, (last - first).days))


def day_after(start: date, months: Fraction | float) -> date:
    """The day a life ends, rounded down. A life below zero ends on the starting day.

    A life below one month counts in days but never passes the end of that month, so that a
    longer life never ends on an earlier day.
    """
    if months < 1:
        days = floor(max(months, 0) * DAYS_A_MONTH)
        return min(start + timedelta(days=days), add_months(start, 1))
    return add_months(start, floor(months))


def end_day(sealed_on: date, restarts: Sequence[date], life_days: float) -> date:
    """The day a life counted from sealing ends, rounded down and at most 25 years on.

    What is left after the last restart (drying again, opening) before the end is rounded, so
    that two weeks after an opening stay two weeks and are not lost in a whole month.
    """
    ceiling = add_months(sealed_on, LONGEST_MONTHS)
    if life_days >= LONGEST_MONTHS * DAYS_A_MONTH:
        return ceiling
    start = max(
        (day for day in restarts if sealed_on <= day and (day - sealed_on).days <= life_days),
        default=sealed_on,
    )
    left_days = life_days - (start - sealed_on).days
    months = left_days / float(DAYS_A_MONTH) + _NOISE_MONTHS
    return min(day_after(start, months), ceiling)


def show_life(months: Fraction | float) -> str:
    """A life in words, rounded down as the dates are: "14 days", "9 months", "10 years"."""
    if months < 1:
        return _counted(floor(max(months, 0) * DAYS_A_MONTH), "day")
    years, rest = divmod(floor(months), 12)
    if years == 0:
        return _counted(rest, "month")
    return _counted(years, "year") + (f" {_counted(rest, 'month')}" if rest else "")


def _counted(count: int, word: str) -> str:
    """A count with its word in the right number."""
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
