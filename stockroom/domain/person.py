"""A person whose needs are reckoned: sex, age, size and activity, read from typed text.

Weights and heights are exact fractions of what was typed, in kilograms and centimetres.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.quantities import unreadable
from stockroom.domain.units import FOOT_MM, INCH_MM, POUND_G

ADULT_YEARS = 19
"""Adults from this birthday on, in both editions of the Dietary Reference Intakes."""

_NUMBER = r"([0-9]{1,4}(?:[.,][0-9]{1,12})?)"
_YEARS = re.compile(rf"{_NUMBER} ?(?:years?|y)?", re.ASCII)
_WEIGHT = re.compile(rf"{_NUMBER} ?(kg|kilos?|kilograms?|lbs?|pounds?)?", re.ASCII)
_HEIGHT = re.compile(rf"{_NUMBER} ?(cm|m|in|inch|inches|\"|\u2033)?", re.ASCII)
_FEET = re.compile(
    rf"([0-9]) ?(?:ft|feet|foot|'|\u2032)(?: ?{_NUMBER} ?(?:in|inch|inches|\"|\u2033|'')?)?",
    re.ASCII,
)


class Sex(StrEnum):
    """The two sets of figures there are."""

    FEMALE = "F"
    MALE = "M"


class Activity(StrEnum):
    """How much a person moves, in the four levels of the equations, the least first."""

    SEDENTARY = "sedentary"
    LOW = "low"
    ACTIVE = "active"
    VERY = "very"

    @property
    def words(self) -> str:
        """The level as the reports call it."""
        return f"{self.value} active" if self in (Activity.LOW, Activity.VERY) else self.value


@dataclass(frozen=True, slots=True)
class Person:
    """One person; without weight and height the reference person of that sex and age is meant."""

    sex: Sex
    age_years: Fraction
    activity: Activity
    weight_kg: Fraction | None = None
    height_cm: Fraction | None = None

    @property
    def adult(self) -> bool:
        """Whether the figures for adults hold."""
        return self.age_years >= ADULT_YEARS

    @property
    def words(self) -> str:
        """Woman, man, girl or boy."""
        if self.sex is Sex.FEMALE:
            return "woman" if self.adult else "girl"
        return "man" if self.adult else "boy"


def read_age(text: str, what: str = "age") -> Fraction:
    """Years exactly from typed text: "9", "30.5", "41 years". Raises BadInput."""
    parts = _YEARS.fullmatch(_tidy(text))
    if parts is None:
        raise unreadable(what, text, "an age in years, such as 9 or 41")
    return _exact(parts[1])


def read_body_weight(text: str, what: str = "body weight") -> Fraction:
    """Kilograms exactly from typed text: "65", "65,5 kg", "143 lb". Raises BadInput."""
    parts = _WEIGHT.fullmatch(_tidy(text))
    if parts is None:
        raise unreadable(what, text, "a body weight such as 65, 65.5 kg or 143 lb")
    number = _exact(parts[1])
    return number * POUND_G / 1000 if (parts[2] or "k")[0] in "lp" else number


def read_height(text: str, what: str = "height") -> Fraction:
    """Centimetres exactly from "165", "1.65 m", "65 in", "5 ft 5 in" or "5'5\\"".

    Raises BadInput for anything else, and for twelve inches or more beside the feet.
    """
    accepted = "a height such as 165, 165 cm, 1.65 m, 65 in or 5 ft 5 in"
    typed = _tidy(text)
    parts = _FEET.fullmatch(typed)
    if parts is not None:
        inches = _exact(parts[2] or "0")
        if inches >= 12:
            raise unreadable(what, text, "fewer than 12 inches beside the feet")
        return (int(parts[1]) * FOOT_MM + inches * INCH_MM) / 10
    parts = _HEIGHT.fullmatch(typed)
    if parts is None:
        raise unreadable(what, text, accepted)
    number, unit = _exact(parts[1]), parts[2] or "cm"
    if unit == "cm":
        return number
    return number * 100 if unit == "m" else number * INCH_MM / 10


def _tidy(text: str) -> str:
    """Small letters and single spaces."""
    return " ".join(text.casefold().split())


def _exact(digits: str) -> Fraction:
    """A number with a point or a comma, exactly."""
    return Fraction(digits.replace(",", "."))
