"""Months and years on the calendar, clamped to the end of a shorter month.

Clamping is a project judgement. Count from the original date, never from a clamped one:
2026-01-31 and two months is 2026-03-31, while one month and then one more would be 2026-03-28.
"""

from __future__ import annotations

from datetime import date

from dateutil.relativedelta import relativedelta


def add_months(day: date, months: int) -> date:
    """The same day of the month, `months` later (earlier if negative), or the month's last day."""
    return day + relativedelta(months=months)


def add_years(day: date, years: int) -> date:
    """The same day, `years` later (earlier if negative); 29 February becomes the 28th."""
    return day + relativedelta(years=years)


def days_between(start: date, end: date) -> int:
    """Days from `start` to `end`: 0 on the same day, negative when `end` is earlier.

    One of the two days is counted, not both.
    """
    return (end - start).days
