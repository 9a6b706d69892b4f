"""Body weights and heights as people type and read them, in the household's units.

A bare number is kilograms and centimetres, or pounds and inches in a household of US units.
"""

from __future__ import annotations

import re
from fractions import Fraction

from stockroom.domain.person import read_body_weight, read_height
from stockroom.domain.quantities import UnitSystem, nearest_whole
from stockroom.domain.units import INCH_MM, POUND_G

_BARE = re.compile(r"\s*[0-9]{1,4}(?:[.,][0-9]{1,12})?\s*", re.ASCII)


def read_member_weight(text: str, units: UnitSystem, what: str = "body weight") -> int:
    """Tenths of a gram from "65", "65.5 kg" or "143 lb". Raises BadInput."""
    return weight_dg(read_body_weight(_with_unit(text, units, "lb"), what))


def read_member_height(text: str, units: UnitSystem, what: str = "height") -> int:
    """Millimetres from "165", "1.65 m", "65 in" or "5 ft 5 in". Raises BadInput."""
    return height_mm(read_height(_with_unit(text, units, "in"), what))


def weight_dg(weight_kg: Fraction) -> int:
    """Tenths of a gram of a body weight in kilograms."""
    return nearest_whole(weight_kg * 10_000)


def height_mm(height_cm: Fraction) -> int:
    """Millimetres of a height in centimetres."""
    return nearest_whole(height_cm * 10)


def show_member_weight(body_weight_dg: int, units: UnitSystem) -> str:
    """A body weight to a tenth: "65 kg", "143.3 lb"; typed again it is read as the same tenth."""
    kilograms = Fraction(body_weight_dg, 10_000)
    if units is UnitSystem.US:
        return f"{_tenths(kilograms * 1000 / POUND_G)} lb"
    return f"{_tenths(kilograms)} kg"


def show_member_height(height_mm: int, units: UnitSystem) -> str:
    """A height to a tenth: "165 cm", or in US units feet and inches such as "5 ft 5 in"."""
    if units is UnitSystem.METRIC:
        return f"{_tenths(Fraction(height_mm, 10))} cm"
    feet, inches = divmod(nearest_whole(height_mm / INCH_MM * 10), 120)
    return f"{feet} ft {_tenths(Fraction(inches, 10))} in"


def _with_unit(text: str, units: UnitSystem, unit: str) -> str:
    """What was typed, a bare number with the household's own unit behind it."""
    bare = units is UnitSystem.US and _BARE.fullmatch(text) is not None
    return f"{text} {unit}" if bare else text


def _tenths(value: Fraction) -> str:
    """One decimal at most."""
    ones, rest = divmod(nearest_whole(value * 10), 10)
    return f"{ones}.{rest}" if rest else str(ones)
