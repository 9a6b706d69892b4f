"""Numbers and weights in the cells of a list, with points or commas before their decimals."""

from __future__ import annotations

import re
from collections.abc import Iterable
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.exchange.headings import UNITS
from stockroom.domain.quantities import nearest_whole, to_dg
from stockroom.domain.units import OUNCE_G, POUND_G
from stockroom.domain.water import WATER_DENSITY


class Decimal(StrEnum):
    """The sign before decimals."""

    POINT = "point"
    COMMA = "comma"


_FIGURE = r"[0-9][0-9.,'\u2019 \u00a0\u202f]*|[.,][0-9]+"
_CELL = re.compile(rf"({_FIGURE}) *([^\W\d_]*)\.?", re.ASCII)
_POUNDS = re.compile(
    r"([0-9]+) *(?:lbs?|pounds?) +([0-9]+(?:[.,][0-9]+)?) *(?:oz|ounces?)",
    re.ASCII | re.IGNORECASE,
)
_TIMES = re.compile(r"([0-9]{1,2}) *[x×*] *(.+)", re.IGNORECASE)
_COMMA_SHOWS = re.compile(r"[0-9],(?:[0-9]{1,2}|[0-9]{4,})(?![0-9.])|\.[0-9]{3},[0-9]", re.ASCII)
_POINT_SHOWS = re.compile(r"[0-9]\.(?:[0-9]{1,2}|[0-9]{4,})(?![0-9,])|,[0-9]{3}\.[0-9]", re.ASCII)
_GROUPS = re.compile(r"[0-9]{1,3}(?:([,.'\u2019 \u00a0\u202f])[0-9]{3})(?:\1[0-9]{3})*", re.ASCII)
_SPACES = re.compile(r"(?<=[0-9])['\u2019 \u00a0\u202f](?=[0-9]{3}(?![0-9]))", re.ASCII)
_PLAIN = re.compile(r"[0-9]*\.?[0-9]+", re.ASCII)

_WATER_20_G_PER_ML = Fraction(str(dict(WATER_DENSITY)[20.0])) / 1000
_GRAMS: dict[str, Fraction] = {
    "g": Fraction(1),
    "kg": Fraction(1000),
    "oz": OUNCE_G,
    "lb": POUND_G,
    "ml": _WATER_20_G_PER_ML,
    "l": 1000 * _WATER_20_G_PER_ML,
}
VOLUMES = frozenset({"ml", "l"})


def decimal_sign(cells: Iterable[str]) -> Decimal | None:
    """The sign the cells show: a comma before other than three digits is one of decimals.

    None when nothing shows it, or some cells show one and some the other.
    """
    comma = point = False
    for cell in cells:
        comma = comma or _COMMA_SHOWS.search(cell) is not None
        point = point or _POINT_SHOWS.search(cell) is not None
    if comma == point:
        return None
    return Decimal.COMMA if comma else Decimal.POINT


def read_number(text: str, sign: Decimal | None) -> Fraction:
    """An exact number of zero or more. Raises ValueError with the reason in words."""
    digits = _SPACES.sub("", text.strip())
    if "," in digits and "." in digits:
        last = max(digits.rfind(","), digits.rfind("."))
        group = "." if digits[last] == "," else ","
        digits = digits.replace(group, "").replace(",", ".")
    elif "," in digits:
        digits = _with_comma(digits, sign)
    elif sign is Decimal.COMMA and _GROUPS.fullmatch(digits):
        digits = digits.replace(".", "")
    if not _PLAIN.fullmatch(digits) or len(digits) > 15:
        raise ValueError("it is no number")
    return Fraction(f"0{digits}")


def _with_comma(digits: str, sign: Decimal | None) -> str:
    """Digits with commas only, written with a point."""
    grouped = _GROUPS.fullmatch(digits)
    if sign is Decimal.POINT and grouped:
        return digits.replace(",", "")
    if sign is None and grouped and digits.count(",") == 1:
        raise ValueError("the comma may be before decimals or thousands: say --decimal")
    return digits.replace(",", ".") if digits.count(",") == 1 else digits.replace(",", "")


def read_weight_cell(
    text: str, sign: Decimal | None, unit: str | None, bare: str, *, water: bool = False
) -> int:
    """Tenths of a gram: in the unit of the cell, else the heading's, else `bare`.

    Only `water` may be measured by volume. Raises ValueError with the reason in words.
    """
    both = _POUNDS.fullmatch(text.strip())
    if both:
        ounces = read_number(both[2], sign)
        return to_dg(int(both[1]) * POUND_G + ounces * OUNCE_G)
    number, named = _apart(text)
    wanted = named or unit or bare
    if wanted not in _GRAMS or (wanted in VOLUMES and not water):
        raise ValueError(f"“{wanted}” is no unit of {'water' if water else 'weight'}")
    return to_dg(read_number(number, sign) * _GRAMS[wanted])


def read_absorber(text: str, sign: Decimal | None) -> int:
    """Cubic centimetres of oxygen: "300", "300 cc", "2 x 300cc". Raises ValueError."""
    if text.casefold() in NONE_WORDS:
        return 0
    times = _TIMES.fullmatch(text.strip())
    number, unit = _apart(times[2] if times else text)
    if unit not in (None, "cc", "ml"):
        raise ValueError("an absorber is given in cc")
    each = nearest_whole(read_number(number, sign))
    return each * (int(times[1]) if times else 1)


def read_count(text: str, sign: Decimal | None) -> int:
    """A whole number from 1. Raises ValueError."""
    value = read_number(text, sign)
    if value.denominator != 1 or value < 1:
        raise ValueError("it is no whole number from 1")
    return int(value)


NONE_WORDS = frozenset({"", "-", "–", "—", "0", "no", "n", "none", "without", "false", "nil"})
YES_WORDS = frozenset({"1", "yes", "y", "x", "true", "vacuum", "✓", "✔"})


def read_yes(text: str) -> bool:
    """Yes or no. Raises ValueError."""
    word = text.strip().casefold()
    if word in YES_WORDS:
        return True
    if word in NONE_WORDS:
        return False
    raise ValueError("it is neither yes nor no")


def _apart(text: str) -> tuple[str, str | None]:
    """The number and the unit of a cell; the unit is None where there is none."""
    parts = _CELL.fullmatch(text.strip())
    if parts is None:
        raise ValueError("it is no number")
    if not parts[2]:
        return parts[1], None
    if parts[2].casefold() not in UNITS:
        raise ValueError(f"“{parts[2][:20]}” is no unit known here")
    return parts[1], UNITS[parts[2].casefold()]
