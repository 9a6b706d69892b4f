"""Ages, body weights and heights read as typed, against pint for the units."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import cast

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.person import (
    Activity,
    Person,
    Sex,
    read_age,
    read_body_weight,
    read_height,
)
from stockroom.errors import BadInput

# pint (pint.readthedocs.io), default registry, read with exact fractions.
PINT = pint.UnitRegistry(non_int_type=cast(type[float], Fraction))

hundredths = st.integers(1, 99_999).map(lambda count: Fraction(count, 100))


def typed(value: Fraction) -> str:
    """A number with two decimals."""
    return f"{float(value):.2f}"


@given(hundredths)
def test_pounds_are_those_of_pint(pounds: Fraction) -> None:
    theirs = PINT.Quantity(pounds, "pound").to("kilogram").magnitude
    for unit in ("lb", " lb", " pounds", " LBS"):
        assert read_body_weight(typed(pounds) + unit) == theirs
    for unit in ("", "kg", " kg", " Kilograms"):
        assert read_body_weight(typed(pounds) + unit) == pounds


@given(hundredths, st.integers(0, 9), st.integers(0, 1199))
def test_inches_and_feet_are_those_of_pint(size: Fraction, feet: int, part: int) -> None:
    inches = Fraction(part, 100)
    theirs = PINT.Quantity(size, "inch").to("centimeter").magnitude
    for unit in ("in", " in", '"', " inches"):
        assert read_height(typed(size) + unit) == theirs
    whole = PINT.Quantity(Fraction(feet), "foot").to("centimeter").magnitude
    assert read_height(f"{feet} ft") == read_height(f"{feet}'") == whole
    rest = PINT.Quantity(inches, "inch").to("centimeter").magnitude
    for text in (f"{feet} ft {typed(inches)} in", f"{feet}'{typed(inches)}\""):
        assert read_height(text) == whole + rest


@given(hundredths)
def test_metres_are_a_hundred_centimetres(size: Fraction) -> None:
    assert read_height(typed(size)) == read_height(f"{typed(size)} cm") == size
    assert read_height(f"{typed(size)} m") == 100 * size
    assert read_height(typed(size).replace(".", ",")) == size


@pytest.mark.parametrize(
    ("text", "years"), [("9", 9), ("41 years", 41), ("30.5", Fraction(61, 2)), (" 7 y ", 7)]
)
def test_ages_are_read(text: str, years: Fraction | int) -> None:
    assert read_age(text) == years


@pytest.mark.parametrize(
    ("read", "text"),
    [
        (read_age, ""),
        (read_age, "-3"),
        (read_age, "nine"),
        (read_age, "9 months"),
        (read_body_weight, "heavy"),
        (read_body_weight, "-65"),
        (read_body_weight, "65 stone"),
        (read_body_weight, "65 g"),
        (read_body_weight, "1e2"),
        (read_body_weight, "٦٥"),
        (read_height, "tall"),
        (read_height, "5 ft 12 in"),
        (read_height, "165 mm"),
        (read_height, "12 ft"),
        (read_height, "1" * 80),
    ],
)
def test_what_is_no_size_is_named(read: Callable[[str], Fraction], text: str) -> None:
    with pytest.raises(BadInput) as refused:
        read(text)
    assert refused.value.hint.startswith("Type ")
    assert "\n" not in refused.value.message


def test_people_are_called_by_what_they_are() -> None:
    words = {
        (Sex.FEMALE, 19): "woman",
        (Sex.FEMALE, 18): "girl",
        (Sex.MALE, 19): "man",
        (Sex.MALE, 2): "boy",
    }
    for (sex, years), said in words.items():
        assert Person(sex, Fraction(years), Activity.LOW).words == said
    # Completed years: the day before the nineteenth birthday is eighteen.
    assert not Person(Sex.MALE, Fraction(1899, 100), Activity.LOW).adult
    assert [one.words for one in Activity] == ["sedentary", "low active", "active", "very active"]
