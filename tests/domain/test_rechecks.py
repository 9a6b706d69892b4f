"""The settle check is due the day after sealing (common practice, no source)."""

from __future__ import annotations

from datetime import date

import pytest

from stockroom.domain.rechecks import settle_check_due, settle_overdue_days


@pytest.mark.parametrize(
    ("sealed_on", "due"),
    [
        (date(2026, 11, 25), date(2026, 11, 26)),
        (date(2026, 12, 31), date(2027, 1, 1)),
        (date(2028, 2, 28), date(2028, 2, 29)),
        (date(2026, 2, 28), date(2026, 3, 1)),
    ],
)
def test_due_the_day_after(sealed_on: date, due: date) -> None:
    assert settle_check_due(sealed_on) == due


@pytest.mark.parametrize(
    ("today", "overdue"),
    [
        (date(2026, 11, 24), 0),
        (date(2026, 11, 25), 0),
        (date(2026, 11, 26), 0),
        (date(2026, 11, 27), 1),
        (date(2026, 12, 6), 10),
    ],
)
def test_overdue_counts_from_the_day_after_the_due_day(today: date, overdue: int) -> None:
    assert settle_overdue_days(date(2026, 11, 25), today) == overdue
