"""Months and years clamp at the end of a month, counted from the original date."""

from __future__ import annotations

from calendar import monthrange
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.calendar import add_months, add_years, days_between

days = st.dates(date(1950, 1, 1), date(2150, 12, 31))


# T1 and T2 (computed); the second month of a pair is never counted from a clamped date.
@pytest.mark.parametrize(
    ("day", "months", "after"),
    [
        (date(2026, 1, 31), 1, date(2026, 2, 28)),
        (date(2026, 1, 31), 2, date(2026, 3, 31)),
        (date(2026, 8, 31), 6, date(2027, 2, 28)),
        (date(2027, 8, 31), 6, date(2028, 2, 29)),
        (date(2026, 11, 30), 3, date(2027, 2, 28)),
        (date(2026, 12, 15), 1, date(2027, 1, 15)),
        (date(2026, 3, 31), -1, date(2026, 2, 28)),
        (date(2026, 3, 31), 0, date(2026, 3, 31)),
    ],
)
def test_t1_t2_months(day: date, months: int, after: date) -> None:
    assert add_months(day, months) == after


# T1 (computed).
@pytest.mark.parametrize(
    ("day", "years", "after"),
    [
        (date(2024, 2, 29), 25, date(2049, 2, 28)),
        (date(2024, 2, 29), 4, date(2028, 2, 29)),
        (date(2026, 11, 25), 1, date(2027, 11, 25)),
        (date(2024, 2, 29), -1, date(2023, 2, 28)),
    ],
)
def test_t1_years(day: date, years: int, after: date) -> None:
    assert add_years(day, years) == after


@given(day=days, months=st.integers(-360, 360))
def test_months_against_the_standard_library_calendar(day: date, months: int) -> None:
    count = day.year * 12 + day.month - 1 + months
    year, month = count // 12, count % 12 + 1
    assert add_months(day, months) == date(year, month, min(day.day, monthrange(year, month)[1]))


@given(day=days, years=st.integers(-30, 30))
def test_a_year_is_twelve_months(day: date, years: int) -> None:
    assert add_years(day, years) == add_months(day, 12 * years)


@given(day=days, away=st.integers(-4000, 4000))
def test_days_between(day: date, away: int) -> None:
    assert days_between(day, day + timedelta(days=away)) == away
