"""Chances and shares in words."""

from __future__ import annotations

from fractions import Fraction
from math import floor

_FEW = 20
"""Up to this denominator a chance is said as "2 chances in 7"."""
_LONGEST_FRACTION = 10**9


def percent_words(share: Fraction | float) -> str:
    """A share in percent with a tenth; one near 0 or 1 is never shown as none or all."""
    percent = 100 * float(share)
    if percent in (0, 100):
        return f"{percent:.0f} %"
    if 0 < percent < 0.05:
        return "less than 0.1 %"
    if 99.95 <= percent < 100:
        return "more than 99.9 %"
    return f"{percent:.1f} %"


def exact_percent(share: Fraction) -> str:
    """A share that somebody chose, in percent as it was written: "95 %", "99.5 %"."""
    return f"{float(100 * share):.12g} %"


def floor_percent(share: float) -> str:
    """A share in percent that falls short of another, rounded down so that it still does."""
    return f"{floor(10_000 * share) / 100:.2f} %"


def chance_words(chance: Fraction) -> str:
    """A chance: "2 chances in 7" where that is exact and short, else "a chance of 7.0 %".

    Beliefs are never certain: 0 and 1 are chances too near to them for a float.
    """
    if chance in (0, 1):
        return "a chance of less than 0.1 %" if chance == 0 else "a chance of more than 99.9 %"
    if chance.denominator <= _FEW:
        plural = "" if chance.numerator == 1 else "s"
        return f"{chance.numerator} chance{plural} in {chance.denominator}"
    return f"a chance of {percent_words(chance)}"


def exact_words(chance: Fraction) -> str:
    """A chance with six decimals, and as a fraction where that is short."""
    shown = f"{float(chance):.6f}"
    if 1 < chance.denominator <= _LONGEST_FRACTION:
        return f"{shown} ({chance.numerator}/{chance.denominator})"
    return shown
