"""Lengths of time, against the examples of ISO 8601 (from memory) and their sums by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.durations import duration_words, read_duration


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("PT15M", 900),
        ("PT1H", 3_600),
        ("PT1H30M", 5_400),
        ("PT90M", 5_400),
        ("PT36H", 129_600),
        ("P1DT12H", 129_600),
        ("P1W", 604_800),
        ("PT0.5H", 1_800),
        ("PT0,5H", 1_800),
        ("P0DT0H20M", 1_200),
        ("PT20M30S", 1_230),
        ("PT0M", 0),
        ("pt1h", 3_600),
        (" PT5M ", 300),
    ],
)
def test_a_duration_is_read(text: str, seconds: int) -> None:
    assert read_duration(text) == seconds


@pytest.mark.parametrize(
    "text",
    ["", "P", "PT", "T1M33S", "15 minutes", "PT1.5H30M", "P1Y", "P1M", "P1YT5M", "-PT5M", "PT5",
     "PTM", "P1DT", "PT1M1H", "PT٥M"],
)  # fmt: skip
def test_what_is_no_duration_of_fixed_length_is_not_read(text: str) -> None:
    assert read_duration(text) is None


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (900, "15 minutes"),
        (3_600, "1 hour"),
        (5_460, "1 hour 31 minutes"),
        (90_000, "1 day 1 hour"),
        (60, "1 minute"),
        (45, "45 seconds"),
        (3_599, "1 hour"),
    ],
)
def test_a_duration_in_words(seconds: int, words: str) -> None:
    assert duration_words(Fraction(seconds)) == words


@given(st.integers(0, 9), st.integers(0, 23), st.integers(0, 59))
def test_parts_add_up(days: int, hours: int, minutes: int) -> None:
    read = read_duration(f"P{days}DT{hours}H{minutes}M")
    assert read == ((days * 24 + hours) * 60 + minutes) * 60
