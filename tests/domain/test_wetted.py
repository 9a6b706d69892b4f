"""The clock of wetted food."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from stockroom.domain.wetted import HOT_ROOM_C, care_until, chilled_until, meal_care

AT = datetime(2026, 3, 1, 11, 40, tzinfo=UTC)
DAY = date(2026, 3, 1)


# C1: wetted 11:40, discard at 13:40, in a hot room at 12:40 (FSIS rule, computed).
def test_c1_out_of_the_cold() -> None:
    care = meal_care(AT, DAY)
    assert care.out_until == AT.replace(hour=13)
    assert care.out_until_hot == AT.replace(hour=12)
    assert pytest.approx(32.2, abs=0.05) == HOT_ROOM_C


# C2 and C4: wetted 2026-03-01, three days after it is 03-04; were the day itself day 1, 03-03.
def test_c2_c4_the_last_day_in_the_cold() -> None:
    assert chilled_until(DAY) == date(2026, 3, 4)
    assert meal_care(AT, DAY).chilled_until == date(2026, 3, 4)


@pytest.mark.parametrize(
    ("wetted", "last"),
    [(date(2028, 2, 27), date(2028, 3, 1)), (date(2026, 12, 30), date(2027, 1, 2))],
)
def test_days_go_on_over_months_and_leap_days(wetted: date, last: date) -> None:
    assert chilled_until(wetted) == last


def test_what_is_eaten_at_once_keeps_no_days() -> None:
    care = meal_care(AT, DAY, at_once=True)
    assert (care.at_once, care.chilled_until) == (True, DAY)
    assert care == care_until(AT, DAY, at_once=True)


def test_the_days_are_those_of_the_person_not_of_the_instant() -> None:
    late = datetime(2026, 3, 2, 1, 30, tzinfo=UTC)
    assert meal_care(late, DAY).chilled_until == date(2026, 3, 4)
