"""Chances in words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stockroom.domain.chances import (
    chance_words,
    exact_percent,
    exact_words,
    floor_percent,
    percent_words,
)


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0, "0 %"),
        (1, "100 %"),
        (0.0004, "less than 0.1 %"),
        (0.0005, "0.1 %"),
        (0.1234, "12.3 %"),
        (0.9994, "99.9 %"),
        (0.9996, "more than 99.9 %"),
        (Fraction(1, 8), "12.5 %"),
    ],
)
def test_a_share_near_an_end_is_not_the_end(share: float | Fraction, words: str) -> None:
    assert percent_words(share) == words


def test_a_share_somebody_chose_is_shown_as_written() -> None:
    assert exact_percent(Fraction(95, 100)) == "95 %"
    assert exact_percent(Fraction("0.999999")) == "99.9999 %"
    assert exact_percent(Fraction("0.025")) == "2.5 %"


def test_what_falls_short_is_not_rounded_up() -> None:
    assert floor_percent(0.949999) == "94.99 %"
    assert floor_percent(0.84) == "84.00 %"


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (Fraction(2, 7), "2 chances in 7"),
        (Fraction(1, 20), "1 chance in 20"),
        (Fraction(1, 21), "a chance of 4.8 %"),
        (Fraction(0), "a chance of less than 0.1 %"),
        (Fraction(1), "a chance of more than 99.9 %"),
        (Fraction(1, 5000), "a chance of less than 0.1 %"),
    ],
)
def test_a_chance_in_words(chance: Fraction, words: str) -> None:
    assert chance_words(chance) == words


def test_a_short_fraction_stands_beside_its_decimals() -> None:
    assert exact_words(Fraction(14, 285)) == "0.049123 (14/285)"
    assert exact_words(Fraction(1, 10**9 + 1)) == "0.000000"
    assert exact_words(Fraction(3)) == "3.000000"
