"""Weights, temperatures, counts, servings and days: read from typed text, shown, and dealt out.

Weights are kept as whole tenths of a gram, temperatures as whole tenths of a degree Celsius.
Everything typed is read exactly (no binary floats) and rounded once, here. The upper limits of
what is believed are engineering judgement: they catch slips of the finger, not rare cases.
"""

from __future__ import annotations

import re
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.units import OUNCE_G, POUND_G, celsius, fahrenheit
from stockroom.errors import BadInput

HEAVIEST_DG = 1_000_000
COLDEST_DC = -1_000
HOTTEST_DC = 1_500
MOST_SERVINGS = 10_000
EARLIEST_YEAR = 1900
LATEST_YEAR = 2199

_LONGEST_TYPED = 60
_LONGEST_SHOWN = 40
_NUMBER = r"(?:[0-9]{1,9}(?:[.,][0-9]{1,12})?|[.,][0-9]{1,12})"
_WEIGHT_UNIT = r"kg|kilos?|kilograms?|g|grams?|lbs?|pounds?|oz|ounces?"
_WEIGHT = re.compile(rf"({_NUMBER}) ?({_WEIGHT_UNIT})?", re.ASCII | re.IGNORECASE)
_POUNDS_AND_OUNCES = re.compile(
    rf"([0-9]{{1,9}}) ?(?:lbs?|pounds?) ?({_NUMBER}) ?(?:oz|ounces?)", re.ASCII | re.IGNORECASE
)
_TEMPERATURE = re.compile(
    rf"([+-]?) ?({_NUMBER}) ?(?:°|º|deg|degrees?)? ?([CF])?", re.ASCII | re.IGNORECASE
)
_WHOLE = re.compile(r"[+-]?[0-9]{1,12}", re.ASCII)
_FRACTION = re.compile(r"(?:([0-9]{1,6}) )?([0-9]{1,6}) ?/ ?([0-9]{1,6})", re.ASCII)
_ISO_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", re.ASCII)
_DAYS_AWAY = re.compile(r"[+-][0-9]{1,5}", re.ASCII)
_NAMED_DAYS = {"yesterday": -1, "today": 0, "tomorrow": 1}


class UnitSystem(StrEnum):
    """Which units a household types and reads."""

    METRIC = "metric"
    US = "us"


def nearest_whole(value: Fraction | int) -> int:
    """The nearest whole number, a tie to the even one."""
    return round(value)


def to_dg(grams: int | float | Decimal | Fraction) -> int:
    """Tenths of a gram from grams: the nearest, a tie to the even tenth.

    A float counts as the decimal it prints as, so 155.35 is a tie as a person would see it.
    Raises BadInput for a value that is no number (nan, infinity).
    """
    exact = Decimal(repr(grams)) if isinstance(grams, float) else grams
    if isinstance(exact, Decimal) and not exact.is_finite():
        raise unreadable("weight", str(grams), "a plain number of grams")
    return nearest_whole(Fraction(exact) * 10)


def grams(weight_dg: int) -> float:
    """Grams from tenths of a gram."""
    return weight_dg / 10


def unreadable(what: str, typed: str, accepted: str) -> BadInput:
    """The error for typed text: one line, shortened, with no control characters."""
    shown = "".join(sign if sign.isprintable() else " " for sign in typed[: _LONGEST_SHOWN + 1])
    if len(shown) > _LONGEST_SHOWN:
        shown = shown[:_LONGEST_SHOWN].rstrip() + "…"
    return BadInput(what, shown, accepted)


def read_weight(text: str, units: UnitSystem, what: str = "weight") -> int:
    """Tenths of a gram from typed text: "62", "62,5", "1.2 kg", "7 oz", "2 lb 3 oz".

    A bare number is grams (metric) or ounces (us). Zero is a weight. Raises BadInput for
    anything else: negative, over 100 kg, or "1,500", which could be read two ways.
    """
    accepted = _weights_accepted(units)
    typed = _tidy(text, what, accepted)
    parts = _POUNDS_AND_OUNCES.fullmatch(typed)
    if parts:
        ounces = _number(parts[2], what, text)
        if ounces >= 16:
            raise unreadable(what, text, "fewer than 16 ounces beside the pounds")
        weight_dg = to_dg(int(parts[1]) * POUND_G + ounces * OUNCE_G)
    else:
        parts = _WEIGHT.fullmatch(typed)
        if not parts:
            raise unreadable(what, text, accepted)
        bare = "oz" if units is UnitSystem.US else "g"
        weight_dg = to_dg(_number(parts[1], what, text) * _unit_grams(parts[2] or bare))
    if weight_dg > HEAVIEST_DG:
        raise unreadable(what, text, "a weight of 100 kg at most")
    return weight_dg


def show_weight(weight_dg: int, units: UnitSystem) -> str:
    """A weight in words: "62.0 g"; in US units "2.19 oz", from 16 oz up "1 lb 3.2 oz"."""
    sign = "-" if weight_dg < 0 else ""
    size_dg = abs(weight_dg)
    if units is UnitSystem.METRIC:
        return f"{sign}{_tenths(size_dg)} g"
    ounces = Fraction(size_dg, 10) / OUNCE_G
    hundredths = nearest_whole(ounces * 100)
    if hundredths < 1600:
        return f"{sign}{hundredths // 100}.{hundredths % 100:02d} oz"
    pounds, rest = divmod(nearest_whole(ounces * 10), 160)
    return f"{sign}{pounds} lb {_tenths(rest)} oz"


def read_temperature(text: str, units: UnitSystem, what: str = "temperature") -> int:
    """Tenths of a degree Celsius from typed text: "18", "18 C", "64F", "-18,5 °C".

    A bare number is Celsius (metric) or Fahrenheit (us). Raises BadInput for anything else and
    for temperatures outside -100 to 150 °C.
    """
    accepted = "a temperature such as 18 C, -18 C or 64 F"
    parts = _TEMPERATURE.fullmatch(_tidy(text, what, accepted).replace("\u2212", "-"))
    if not parts:
        raise unreadable(what, text, accepted)
    degrees = _number(parts[2], what, text) * (-1 if parts[1] == "-" else 1)
    scale = (parts[3] or ("F" if units is UnitSystem.US else "C")).upper()
    temperature_dc = nearest_whole((celsius(degrees) if scale == "F" else degrees) * 10)
    if not COLDEST_DC <= temperature_dc <= HOTTEST_DC:
        raise unreadable(what, text, "a temperature from -100 to 150 °C (-148 to 302 °F)")
    return temperature_dc


def show_temperature(temperature_dc: int, units: UnitSystem) -> str:
    """A temperature in words: "18.0 °C" or "64.4 °F"."""
    if units is UnitSystem.METRIC:
        tenths, scale = temperature_dc, "°C"
    else:
        tenths, scale = nearest_whole(fahrenheit(Fraction(temperature_dc, 10)) * 10), "°F"
    return f"{'-' if tenths < 0 else ''}{_tenths(abs(tenths))} {scale}"


def read_whole(text: str, what: str, low: int, high: int) -> int:
    """A whole number from `low` to `high`, both included; raises BadInput otherwise."""
    accepted = f"a whole number from {low} to {high}"
    typed = _tidy(text, what, accepted)
    if not _WHOLE.fullmatch(typed) or not low <= int(typed) <= high:
        raise unreadable(what, text, accepted)
    return int(typed)


def read_servings(text: str, what: str = "servings") -> Fraction:
    """Servings, more than none and exact: "2", "1.5", "1/2", "1 1/2"; raises BadInput."""
    accepted = f"servings such as 2, 1.5 or 1 1/2, up to {MOST_SERVINGS}"
    typed = _tidy(text, what, accepted)
    parts = _FRACTION.fullmatch(typed)
    if parts and int(parts[3]):
        servings = int(parts[1] or 0) + Fraction(int(parts[2]), int(parts[3]))
    elif re.fullmatch(_NUMBER, typed):
        servings = _number(typed, what, text)
    else:
        raise unreadable(what, text, accepted)
    if not 0 < servings <= MOST_SERVINGS:
        raise unreadable(what, text, accepted)
    return servings


def show_servings(servings: Fraction) -> str:
    """Servings with one decimal at most: "4", "2.5"; a trace is "<0.1", never "0"."""
    tenths = nearest_whole(servings * 10)
    if tenths == 0 and servings > 0:
        return "<0.1"
    sign = "-" if tenths < 0 else ""
    ones, rest = divmod(abs(tenths), 10)
    return f"{sign}{ones}.{rest}" if rest else f"{sign}{ones}"


def read_day(text: str, today: date, what: str = "date") -> date:
    """A day from "2026-03-01", "today", "yesterday", "tomorrow", "+3" or "-2" (days from today).

    Nothing else is read, so that "10" or "Mar" cannot become a day by surprise. Raises BadInput
    also for days that do not exist and for years outside 1900 to 2199.
    """
    accepted = "a day as YYYY-MM-DD, today, yesterday, tomorrow, or +3 or -2 for days from today"
    typed = _tidy(text, what, accepted).lower().replace("\u2212", "-")
    try:
        if typed in _NAMED_DAYS:
            day = today + timedelta(days=_NAMED_DAYS[typed])
        elif _DAYS_AWAY.fullmatch(typed):
            day = today + timedelta(days=int(typed))
        elif _ISO_DAY.fullmatch(typed):
            day = date.fromisoformat(typed)
        else:
            raise unreadable(what, text, accepted)
    except (ValueError, OverflowError) as trouble:
        raise unreadable(what, text, "a day that is in the calendar, as YYYY-MM-DD") from trouble
    if not EARLIEST_YEAR <= day.year <= LATEST_YEAR:
        raise unreadable(what, text, f"a day in the years {EARLIEST_YEAR} to {LATEST_YEAR}")
    return day


def share_of(whole: int, total: int, before: int, part: int) -> int:
    """What `part` of `total` gets of `whole`, when `before` of the total has already been served.

    The cumulative share up to each position is rounded to the nearest unit (a tie upward) and the
    share is the difference, so shares over any partition of `total` add up to `whole` exactly.
    All amounts are zero or more and before + part is at most total; else ValueError.
    """
    if whole < 0 or before < 0 or part < 0 or total <= 0 or before + part > total:
        raise ValueError(f"no share: {part} after {before} of {total}, dealing out {whole}")
    return _served(whole, total, before + part) - _served(whole, total, before)


def even_split(total: int, count: int) -> tuple[int, ...]:
    """`count` parts that add up to `total` and differ by one at most, the larger first.

    `total` is zero or more and `count` one or more; else ValueError.
    """
    if total < 0 or count < 1:
        raise ValueError(f"cannot split {total} into {count} parts")
    each, larger = divmod(total, count)
    return (each + 1,) * larger + (each,) * (count - larger)


def _served(whole: int, total: int, position: int) -> int:
    """The nearest unit of `whole` due at `position` of `total`, a tie upward."""
    return (2 * whole * position + total) // (2 * total)


def _tidy(text: str, what: str, accepted: str) -> str:
    """The typed text with single spaces; BadInput when it is too long to be a quantity."""
    typed = " ".join(text[: _LONGEST_TYPED + 1].split())
    if len(text.strip()) > _LONGEST_TYPED:
        raise unreadable(what, text, accepted)
    return typed


def _number(digits: str, what: str, text: str) -> Fraction:
    """An exact number; a comma before exactly three digits could mean thousands: BadInput."""
    before, comma, after = digits.partition(",")
    if comma and len(after) == 3:
        raise unreadable(
            what,
            text,
            f"it without a comma before three digits: {before}{after} or {before or 0}.{after}",
        )
    return Fraction(f"0{digits.replace(',', '.')}")


def _unit_grams(unit: str) -> Fraction:
    """Grams in one of a typed unit of weight, told by its first letters."""
    name = unit.lower()
    if name.startswith("k"):
        return Fraction(1000)
    if name.startswith("g"):
        return Fraction(1)
    return OUNCE_G if name.startswith("o") else POUND_G


def _weights_accepted(units: UnitSystem) -> str:
    """What may be typed for a weight, the household's own units first."""
    if units is UnitSystem.US:
        return "a weight such as 7 oz, 2 lb 3 oz or 62.5 g"
    return "a weight such as 62, 62.5 g, 1.2 kg or 2 lb 3 oz"


def _tenths(count: int) -> str:
    """A number with one decimal from whole tenths, zero or more."""
    return f"{count // 10}.{count % 10}"
