"""From a life to a day: whole months rounded down, days below one, month ends held."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.keeping.dates import (
    day_after,
    months_between,
    months_of_days,
    show_life,
)

# Clamping and leap days: ISO 8601 calendar, worked by hand.
CASES = [
    ("a month from the 31st ends with February", date(2026, 1, 31), Fraction(1), date(2026, 2, 28)),
    ("and in a leap year a day later", date(2028, 1, 31), Fraction(1), date(2028, 2, 29)),
    ("two months count from the first day itself", date(2026, 1, 31), 2, date(2026, 3, 31)),
    ("25 years from a leap day", date(2024, 2, 29), Fraction(300), date(2049, 2, 28)),
    ("months are rounded down", date(2026, 3, 1), Fraction("9.99"), date(2026, 12, 1)),
    ("ten years exactly", date(2026, 3, 1), Fraction(120), date(2036, 3, 1)),
    (
        "below a month whole days, rounded down",
        date(2026, 3, 1),
        Fraction("0.47"),
        date(2026, 3, 15),
    ),
    ("nothing left is the day itself", date(2026, 3, 1), Fraction(0), date(2026, 3, 1)),
    ("nor is less than nothing earlier", date(2026, 3, 1), Fraction(-2), date(2026, 3, 1)),
    ("thirty days never pass one month", date(2026, 1, 31), Fraction("0.99"), date(2026, 2, 28)),
]


@pytest.mark.parametrize(("why", "start", "months", "expected"), CASES, ids=[c[0] for c in CASES])
def test_day_after(why: str, start: date, months: Fraction, expected: date) -> None:
    assert day_after(start, months) == expected


@given(
    st.dates(date(1990, 1, 1), date(2100, 12, 31)),
    st.fractions(0, 300),
    st.fractions(0, 300),
)
def test_a_longer_life_never_ends_earlier(start: date, one: Fraction, other: Fraction) -> None:
    shorter, longer = sorted((one, other))
    assert day_after(start, shorter) <= day_after(start, longer)


@given(st.dates(date(1990, 1, 1), date(2100, 12, 31)), st.fractions(0, 300))
def test_rounding_is_down_and_by_less_than_a_month(start: date, months: Fraction) -> None:
    exact_days = months * Fraction("30.4375")
    ended = (day_after(start, months) - start).days
    # A calendar count of months differs from the mean month by at most three days.
    assert exact_days - 35 <= ended <= exact_days + 3


@given(st.dates(date(1990, 1, 1), date(2100, 12, 31)), st.integers(0, 9000))
def test_months_between_days(start: date, days: int) -> None:
    assert months_between(start, start + timedelta(days=days)) == months_of_days(days)


def test_months_between_never_goes_below_zero() -> None:
    assert months_between(date(2026, 3, 2), date(2026, 3, 1)) == 0


def test_a_year_is_twelve_months_of_365_and_a_quarter_days() -> None:
    assert months_of_days(1461) == 48


@pytest.mark.parametrize(
    ("months", "words"),
    [
        (Fraction("0.47"), "14 days"),
        (Fraction("0.04"), "1 day"),
        (Fraction("1.9"), "1 month"),
        (Fraction(9), "9 months"),
        (Fraction(12), "1 year"),
        (Fraction("18.28"), "1 year 6 months"),
        (Fraction(300), "25 years"),
    ],
)
def test_a_life_in_words(months: Fraction, words: str) -> None:
    assert show_life(months) == words
