"""Plain numbers read exactly as typed."""

from __future__ import annotations

import re
from fractions import Fraction

from stockroom.domain.quantities import UnitSystem, read_weight, unreadable

_NUMBER = r"([0-9]{1,9}(?:[.,][0-9]{1,12})?|[.,][0-9]{1,12})"
_PLAIN_GRAMS = re.compile(rf"{_NUMBER} ?(?:g|grams?)?", re.ASCII | re.IGNORECASE)
_PERCENT = re.compile(rf"{_NUMBER} ?%?", re.ASCII)


def read_grams(text: str, what: str) -> Fraction:
    """Grams exactly as typed, for a calculation; other units to the tenth of a gram.

    Raises BadInput for what is no weight.
    """
    weight_dg = read_weight(text, UnitSystem.METRIC, what)
    parts = _PLAIN_GRAMS.fullmatch(" ".join(text.split()))
    return Fraction(weight_dg, 10) if parts is None else _exact(parts[1])


def read_percent(text: str, what: str) -> Fraction:
    """A percentage from 0 to 100, with or without its sign. Raises BadInput."""
    parts = _PERCENT.fullmatch(" ".join(text.split()))
    value = _exact(parts[1]) if parts else Fraction(-1)
    if not 0 <= value <= 100:
        raise unreadable(what, text, "a percentage such as 85 or 85.5 %")
    return value


def _exact(digits: str) -> Fraction:
    """A number with a point or a comma, exactly."""
    return Fraction(f"0{digits.replace(',', '.')}")
