"""Twelve months out of readings, checked against published forms and direct sums."""

from __future__ import annotations

import math
from datetime import datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.keeping.temperature import (
    life_used,
    mean_kinetic_temperature,
    mean_temperature,
)
from stockroom.domain.records import TemperatureReading
from stockroom.domain.year_profile import (
    LIFE_ENERGY_KJ,
    LONGEST_GAP_HOURS,
    TooFewReadings,
    filled,
    weighted,
    year_profile,
)

# Twelve monthly temperatures and what they come to; inputs and digits computed apart from the
# program by the formula of US Pharmacopeia <1160> (published).
MONTHS_C = (16, 16, 17, 18, 20, 23, 26, 26, 23, 20, 18, 16)
MEAN_C, KINETIC_C, PHARMACOPOEIA_C, USED = 19.917, 20.347, 20.654, 0.09580


def direct_mkt(parts: list[tuple[float, float]], energy_kj: float, gas: float) -> float:
    """US Pharmacopeia <1160> written straight down, weighted by time; °C."""
    total = math.fsum(time for _, time in parts)
    wear = math.fsum(time * math.exp(-energy_kj * 1000 / gas / (c + 273.15)) for c, time in parts)
    return energy_kj * 1000 / gas / -math.log(wear / total) - 273.15


def _steps(rows: list[tuple[datetime, int]]) -> list[TemperatureReading]:
    return [TemperatureReading(at, dc) for at, dc in rows]


def test_the_mean_and_kinetic_temperatures_of_a_year() -> None:
    parts = [(float(one), 1.0) for one in MONTHS_C]
    assert mean_temperature(parts) == pytest.approx(MEAN_C, abs=0.0005)
    assert mean_kinetic_temperature(parts) == pytest.approx(PHARMACOPOEIA_C, abs=0.0005)
    assert mean_kinetic_temperature(parts, LIFE_ENERGY_KJ) == pytest.approx(KINETIC_C, abs=0.0005)
    stays = [(one, 1.0) for one, _ in parts]
    assert life_used(10, 2.0, stays).used_fraction == pytest.approx(USED, abs=0.00001)


def test_readings_of_such_a_year_give_its_months_back() -> None:
    readings = [
        TemperatureReading(datetime(2025, month, day, hour), MONTHS_C[month - 1] * 10)
        for month in range(1, 13)
        for day in range(1, 29)
        for hour in (0, 12)
    ]
    profile = year_profile(readings)
    assert profile.monthly_dc == tuple(one * 10 for one in MONTHS_C)
    assert profile.measured_months == tuple(range(1, 13))
    assert profile.kinetic_c == pytest.approx(
        direct_mkt([(c, h) for _, c, h in weighted(readings)], 51.216, 8.314472), abs=1e-9
    )


def test_a_reading_speaks_until_the_next_two_days_at_most() -> None:
    start = datetime(2025, 5, 30)
    readings = _steps(
        [
            (start, 100),
            (start + timedelta(hours=6), 200),
            (start + timedelta(hours=9), 50),
            (start + timedelta(days=30), 60),
        ]
    )
    assert weighted(readings) == [
        (5, 10.0, 6.0),
        (5, 20.0, 3.0),
        (5, 5.0, LONGEST_GAP_HOURS),
        (6, 6.0, LONGEST_GAP_HOURS),
    ]
    profile = year_profile(readings)
    assert profile.hours == 6 + 3 + 48 + 48
    assert profile.mean_c == pytest.approx((60 + 60 + 240 + 288) / 105)


def test_time_counts_not_the_number_of_readings() -> None:
    """An hour of many readings beside a day of one: the plain mean would say 25."""
    start = datetime(2025, 7, 1)
    busy = [(start + timedelta(minutes=one), 300) for one in range(60)]
    profile = year_profile(_steps([*busy, (start + timedelta(hours=1), 100)]))
    assert profile.mean_c == pytest.approx((60 * 30 + 1 * 10) / 61)
    steady = year_profile(
        _steps([*busy, (start + timedelta(hours=1), 100), (start + timedelta(hours=25), 100)])
    )
    assert steady.mean_c == pytest.approx((1 * 30 + 48 * 10) / 49)


@pytest.mark.parametrize("count", [0, 1])
def test_one_reading_has_no_duration(count: int) -> None:
    with pytest.raises(TooFewReadings, match=f"Usable readings in the file: {count};"):
        year_profile(_steps([(datetime(2025, 1, 1), 50)] * count))


@pytest.mark.parametrize(
    ("known", "year"),
    [
        ({6: 150}, (150,) * 12),
        (
            {1: 0, 7: 120},
            (0, 20, 40, 60, 80, 100, 120, 100, 80, 60, 40, 20),
        ),
        (
            {11: 40, 2: 100},
            (80, 100, 93, 87, 80, 73, 67, 60, 53, 47, 40, 60),
        ),
        ({month: month * 10 for month in range(1, 13)}, tuple(range(10, 130, 10))),
    ],
)
def test_the_year_is_a_ring(known: dict[int, int], year: tuple[int, ...]) -> None:
    assert filled(known) == year


@settings(max_examples=150, deadline=None)
@given(known=st.dictionaries(st.integers(1, 12), st.integers(-800, 600), min_size=1))
def test_filling_keeps_what_is_known_and_stays_between(known: dict[int, int]) -> None:
    year = filled(known)
    assert len(year) == 12
    assert all(year[month - 1] == dc for month, dc in known.items())
    assert min(known.values()) <= min(year) <= max(year) <= max(known.values())
    # Turning the year by some months turns the answer, but for a tenth where halves are rounded.
    turned = filled({month % 12 + 1: dc for month, dc in known.items()})
    assert all(abs(a - b) <= 1 for a, b in zip((*turned[1:], turned[0]), year, strict=True))


STEPS = st.lists(
    st.tuples(st.integers(2, 24 * 60), st.integers(-250, 420)), min_size=2, max_size=40
)


def _readings(steps: list[tuple[int, int]]) -> list[TemperatureReading]:
    at = datetime(2025, 1, 1)
    found: list[TemperatureReading] = []
    for minutes, dc in steps:
        found.append(TemperatureReading(at, dc))
        at += timedelta(minutes=minutes)
    return found


@settings(max_examples=150, deadline=None)
@given(steps=STEPS)
def test_the_kinetic_temperature_is_never_below_the_mean(steps: list[tuple[int, int]]) -> None:
    profile = year_profile(_readings(steps))
    assert profile.kinetic_c >= profile.mean_c - 1e-9
    temperatures = [dc / 10 for _, dc in steps]
    assert min(temperatures) - 1e-9 <= profile.mean_c
    assert profile.kinetic_c <= max(temperatures) + 1e-9


@settings(max_examples=100, deadline=None)
@given(steps=STEPS, which=st.integers(0, 1000))
def test_splitting_a_reading_changes_nothing(steps: list[tuple[int, int]], which: int) -> None:
    """The same temperature read once more on the way to the next reading.

    Not of the last two: the last one speaks as long as the one before it.
    """
    readings = _readings([*steps, (60, 210)])
    at = which % (len(readings) - 2)
    gap = readings[at + 1].at - readings[at].at
    between = TemperatureReading(
        readings[at].at + timedelta(minutes=gap.total_seconds() // 120),
        readings[at].temperature_dc,
    )
    whole = year_profile(readings)
    split = year_profile([*readings[: at + 1], between, *readings[at + 1 :]])
    assert split.mean_c == pytest.approx(whole.mean_c, abs=1e-9)
    assert split.kinetic_c == pytest.approx(whole.kinetic_c, abs=1e-9)
    assert split.hours == pytest.approx(whole.hours)


@settings(max_examples=60, deadline=None)
@given(steps=STEPS)
def test_the_kinetic_temperature_is_the_published_formula(steps: list[tuple[int, int]]) -> None:
    readings = _readings(steps)
    parts = [(at_c, hours) for _, at_c, hours in weighted(readings)]
    assert year_profile(readings).kinetic_c == pytest.approx(
        direct_mkt(parts, 51.216, 8.314472), abs=1e-7
    )
