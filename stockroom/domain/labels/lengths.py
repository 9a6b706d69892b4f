"""Lengths on paper: read from typed text, shown in millimetres, kept in whole micrometres."""

from __future__ import annotations

import re
from fractions import Fraction

from stockroom.domain.quantities import nearest_whole, unreadable

UM_PER_MM = 1_000
UM_PER_INCH = 25_400
"""Exact: the inch is 25.4 mm by definition (NIST Handbook 44, Appendix C; from memory)."""
LONGEST_UM = 1_000 * UM_PER_MM
"""The longest length that is believed, 1 m: engineering judgement."""

_NUMBER = r"[0-9]{1,4}(?:[.,][0-9]{1,4})?"
_UNIT = r"mm|in|inch|inches|\""
_LENGTH = re.compile(rf"([+-]?)({_NUMBER}) ?({_UNIT})?", re.ASCII | re.IGNORECASE)
_SIZE = re.compile(
    rf"({_NUMBER}) ?({_UNIT})? ?[x×] ?({_NUMBER}) ?({_UNIT})?", re.ASCII | re.IGNORECASE
)
_ACCEPTED = "a length such as 12.7, 12.7 mm or 0.5 in"
_SIZE_ACCEPTED = "width and height such as 70x37, 70 x 37 mm or 4 x 2 in"
_PAIR_ACCEPTED = "two lengths such as 0.5,-1: to the right, then down, in mm"


def millimetres(number: str) -> int:
    """Micrometres of a plain number of millimetres."""
    return nearest_whole(Fraction(number) * UM_PER_MM)


def inches(number: str) -> int:
    """Micrometres of inches such as "4", "1/8" or "2 5/8"."""
    return nearest_whole(sum(map(Fraction, number.split())) * UM_PER_INCH)


def read_length(text: str, what: str, *, signed: bool = False) -> int:
    """Micrometres from "12.7", "12,7 mm" or "0.5 in"; a bare number is millimetres.

    Raises BadInput; a minus sign is read only where `signed`.
    """
    parts = _LENGTH.fullmatch(" ".join(text.replace("\u2212", "-").split()))
    if not parts or (parts[1] and not signed):
        raise unreadable(what, text, _ACCEPTED)
    length_um = _length_um(parts[2], parts[3])
    if length_um > LONGEST_UM:
        raise unreadable(what, text, "a length of 1000 mm at most")
    return -length_um if parts[1] == "-" else length_um


def read_size(text: str, what: str = "size") -> tuple[int, int]:
    """Width and height in micrometres from "70x37", "70 x 37 mm" or "4 x 2 in".

    A unit said once holds for both. Raises BadInput, also for nothing wide or nothing high.
    """
    parts = _SIZE.fullmatch(" ".join(text.split()))
    if not parts:
        raise unreadable(what, text, _SIZE_ACCEPTED)
    unit = parts[4] or parts[2]
    width_um, height_um = _length_um(parts[1], parts[2] or unit), _length_um(parts[3], unit)
    if not 0 < min(width_um, height_um) <= max(width_um, height_um) <= LONGEST_UM:
        raise unreadable(what, text, _SIZE_ACCEPTED)
    return width_um, height_um


def read_pair(text: str, what: str) -> tuple[int, int]:
    """Two signed lengths in micrometres from "0.5,-1" or "0.5 -1". Raises BadInput.

    A decimal comma would be read two ways, so only a point is taken here.
    """
    words = text.replace(",", " ").split()
    if len(words) != 2:
        raise unreadable(what, text, _PAIR_ACCEPTED)
    first, second = (read_length(word, what, signed=True) for word in words)
    return first, second


def show_mm(length_um: int) -> str:
    """A length in millimetres: "12.7 mm"; to the hundredth."""
    return f"{_number(length_um)} mm"


def show_size(width_um: int, height_um: int) -> str:
    """Width and height in millimetres: "70 × 37 mm"; to the tenth."""
    return f"{_number(width_um, 1)} × {_number(height_um, 1)} mm"


def _number(length_um: int, digits: int = 2) -> str:
    shown = f"{length_um / UM_PER_MM:.{digits}f}"
    return shown.rstrip("0").rstrip(".")


def _length_um(number: str, unit: str | None) -> int:
    in_inches = unit is not None and unit.casefold() != "mm"
    scale = UM_PER_INCH if in_inches else UM_PER_MM
    return nearest_whole(Fraction(number.replace(",", ".")) * scale)
