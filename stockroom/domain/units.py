"""Units of measure as exact values, and the three temperature scales.

Standing: exact by definition (inch 25.4 mm, avoirdupois pound 453.59237 g, US gallon 231 cubic
inches; NIST Handbook 44, Appendix C, from memory, arithmetic computed) unless a line says
otherwise. Label measures: 21 CFR 101.9(b)(5)(viii), published, secondary copy.
"""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction
from typing import overload

INCH_MM = Fraction("25.4")
FOOT_MM = 12 * INCH_MM
MIL_MM = INCH_MM / 1000

US_GALLON_ML = 231 * (INCH_MM / 10) ** 3
US_QUART_ML = US_GALLON_ML / 4
US_PINT_ML = US_GALLON_ML / 8
US_CUP_ML = US_GALLON_ML / 16
US_FLUID_OUNCE_ML = US_GALLON_ML / 128
US_TABLESPOON_ML = US_FLUID_OUNCE_ML / 2
US_TEASPOON_ML = US_FLUID_OUNCE_ML / 6

LABEL_CUP_ML = 240
LABEL_FLUID_OUNCE_ML = 30
LABEL_TABLESPOON_ML = 15
LABEL_TEASPOON_ML = 5
LABEL_OUNCE_G = 28


class Cup(StrEnum):
    """Which cup a household measures with: the two differ by 1.4 %."""

    US = "us"
    """236.5882365 mL."""
    LABEL = "label"
    """240 mL, the cup of food labels."""

    @property
    def volume_ml(self) -> Fraction:
        """What it holds."""
        return US_CUP_ML if self is Cup.US else Fraction(LABEL_CUP_ML)

    @property
    def tablespoon_ml(self) -> Fraction:
        """The tablespoon that goes with it."""
        return US_TABLESPOON_ML if self is Cup.US else Fraction(LABEL_TABLESPOON_ML)

    @property
    def teaspoon_ml(self) -> Fraction:
        """The teaspoon that goes with it."""
        return US_TEASPOON_ML if self is Cup.US else Fraction(LABEL_TEASPOON_ML)

    @property
    def words(self) -> str:
        """The word before the measure: "US" or "label"."""
        return "US" if self is Cup.US else "label"


POUND_G = Fraction("453.59237")
OUNCE_G = POUND_G / 16

ATM_KPA = Fraction("101.325")
MBAR_KPA = Fraction(1, 10)
TORR_KPA = ATM_KPA / 760
# Conventional inch of mercury, rounded to seven figures.
INHG_KPA = Fraction("3.386389")
# Rounded; used as the sea-level barometer in every vacuum formula.
ATM_INHG = Fraction("29.921")

ZERO_CELSIUS_K = Fraction("273.15")


@overload
def celsius(fahrenheit: int | Fraction) -> Fraction: ...
@overload
def celsius(fahrenheit: float) -> float: ...
def celsius(fahrenheit: float | Fraction) -> float | Fraction:
    """Degrees Celsius from degrees Fahrenheit: exact for whole numbers and fractions."""
    if isinstance(fahrenheit, float):
        return (fahrenheit - 32) * 5 / 9
    return Fraction(fahrenheit - 32) * 5 / 9


@overload
def fahrenheit(celsius: int | Fraction) -> Fraction: ...
@overload
def fahrenheit(celsius: float) -> float: ...
def fahrenheit(celsius: float | Fraction) -> float | Fraction:
    """Degrees Fahrenheit from degrees Celsius: exact for whole numbers and fractions."""
    if isinstance(celsius, float):
        return celsius * 9 / 5 + 32
    return Fraction(celsius) * 9 / 5 + 32


@overload
def kelvin(celsius: int | Fraction) -> Fraction: ...
@overload
def kelvin(celsius: float) -> float: ...
def kelvin(celsius: float | Fraction) -> float | Fraction:
    """Kelvin from degrees Celsius: exact for whole numbers and fractions."""
    if isinstance(celsius, float):
        return celsius + 273.15
    return Fraction(celsius) + ZERO_CELSIUS_K
