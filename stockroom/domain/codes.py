"""Lot codes, package codes and their check character.

A lot code is two digits of the year, three of the day of the year and a letter: 26329A. A package
code is the lot code, a number of two or three digits and one check character: 26329A07 and 2.
The check character is ISO/IEC 7064 MOD 37,36 (from memory; tested against a reference library).
"""

from __future__ import annotations

import re
import string
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Literal

from stockroom.domain.quantities import unreadable
from stockroom.errors import Refused

ALPHABET = string.digits + string.ascii_uppercase
LAST_PACKAGE_NUMBER = 999

_UPPER = str.maketrans(string.ascii_lowercase, string.ascii_uppercase, ".-/")
_LOT = re.compile(r"([0-9]{2})([0-9]{3})[A-Z]", re.ASCII)
_PACKAGE = re.compile(r"([0-9]{5}[A-Z])([0-9]{2,3})([0-9A-Z]?)", re.ASCII)
_LOOKALIKE_DIGITS = str.maketrans("OQIL", "0011")
_LOOKALIKES = frozenset(
    one + other
    for group in ("0OQ", "1IL", "17", "2Z", "5S", "6G", "8B", "UV")
    for one in group
    for other in group
)
# One character for each group of look-alikes, to tell quickly what cannot be near.
_PLAIN = str.maketrans("OQIL7ZSGBV", "001112568U")
# Distances are counted in halves of an edit, so that a look-alike costs half a wrong character.
_EDIT = 2
_LOOKALIKE_EDIT = 1
_FARTHEST_EDITS = 2
_FARTHEST = _FARTHEST_EDITS * _EDIT


class LettersUsedUp(Refused):
    """A day has 26 lots already."""

    def __init__(self) -> None:
        super().__init__(
            "This day already has lots A to Z, and a lot code has one letter.",
            "Put the food into one of the day's lots, or close the run on another day.",
        )


class PackageNumbersUsedUp(Refused):
    """A lot has 999 packages already."""

    def __init__(self, code: str) -> None:
        """`code` is the lot's code."""
        super().__init__(
            f"Lot {code} has had {LAST_PACKAGE_NUMBER} packages, as many as a code can number.",
            "Pack what is left into fewer, larger packages of another lot of this run.",
        )


@dataclass(frozen=True, slots=True)
class ReadCode:
    """A typed or scanned code, taken apart.

    `body` is the code without its check character. `check` is the character typed, or None when
    it was left out. `valid` is false only when a check character was typed and does not fit.
    `other_body` is set when the last digit could be the check character of a two-digit number or
    part of a three-digit number: the body of the reading that was not chosen.
    """

    kind: Literal["lot", "package"]
    body: str
    check: str | None
    valid: bool
    other_body: str | None = None


def lot_code(day: date, letter: str) -> str:
    """The code of a lot: `day` is the day its run was closed, `letter` one of A to Z."""
    if len(letter) != 1 or letter not in string.ascii_uppercase:
        raise ValueError(f"a lot letter is one of A to Z, not {letter!r}")
    return f"{day.year % 100:02d}{day.timetuple().tm_yday:03d}{letter}"


def next_letter(used: Iterable[str]) -> str:
    """The letter after the highest one used that day, A for the first; refuses after Z.

    A gap is never filled: a label with that letter may be on a shelf.
    """
    place = max((string.ascii_uppercase.index(letter.upper()) + 1 for letter in used), default=0)
    if place >= len(string.ascii_uppercase):
        raise LettersUsedUp()
    return string.ascii_uppercase[place]


def package_code(lot_code: str, number: int) -> str:
    """The code of package `number` (1 to 999) of a lot, with its check character."""
    if number > LAST_PACKAGE_NUMBER:
        raise PackageNumbersUsedUp(lot_code)
    if number < 1:
        raise ValueError(f"packages are numbered from 1, not {number}")
    body = f"{lot_code}{number:02d}"
    return body + check_character(body)


def check_character(text: str) -> str:
    """The ISO/IEC 7064 MOD 37,36 check character of digits and letters; raises BadInput."""
    characters = normalise(text)
    if not characters or any(character not in ALPHABET for character in characters):
        raise unreadable("code", text, "the digits 0 to 9 and the letters A to Z only")
    product = 36
    for character in characters:
        total = (product + ALPHABET.index(character)) % 36 or 36
        product = total * 2 % 37
    return ALPHABET[(1 - product) % 36]


def is_valid(code: str) -> bool:
    """Whether the last character is the right check character for the rest."""
    characters = normalise(code)
    if len(characters) < 2 or any(character not in ALPHABET for character in characters):
        return False
    return check_character(characters[:-1]) == characters[-1]


def normalise(text: str) -> str:
    """The code as stored: upper case, without spaces, full stops, hyphens and slashes.

    Only the letters a to z change: no other letter is turned into one of A to Z.
    """
    return "".join(text.split()).translate(_UPPER)


def read_code(text: str) -> ReadCode:
    """Take a typed or scanned code apart; raises BadInput when it has no code's shape.

    A package number of three digits starts at 100. When the third digit fits as the check
    character of a two-digit number it is read as that, since a scanner always sends it.
    """
    code = normalise(text)
    if _LOT.fullmatch(code):
        _refuse_missing_day(code, text)
        return ReadCode("lot", code, None, True)
    parts = _PACKAGE.fullmatch(code)
    if not parts:
        raise unreadable("code", text, _accepted(code))
    _refuse_missing_day(parts[1], text)
    if parts[2].startswith("00"):
        raise unreadable("code", text, "a package number from 01 up")
    return _read_package(parts[1], parts[2], parts[3])


def nearest(wanted: str, codes: Iterable[str], count: int = 3) -> tuple[str, ...]:
    """The codes most like a mistyped one, nearest first, at most two edits away.

    An edit is a wrong, missing, extra or swapped character; a look-alike (O for 0) is half an
    edit, and leaving out the last character, the check character, is none. Ties go in code order.
    """
    typed = normalise(wanted)
    plain = typed.translate(_PLAIN)
    found: list[tuple[int, str]] = []
    for code in codes:
        if _may_be_near(plain, code.translate(_PLAIN)):
            distance = _distance(typed, code)
            if distance <= _FARTHEST:
                found.append((distance, code))
    return tuple(code for _, code in sorted(found)[:count])


def _read_package(lot: str, digits: str, check: str) -> ReadCode:
    """The reading of a package code's parts: see read_code for the third digit."""
    if check:
        body = lot + digits
        return ReadCode("package", body, check, check_character(body) == check)
    if len(digits) == 2:
        return ReadCode("package", lot + digits, None, True)
    short, long = lot + digits[:2], lot + digits
    fits = check_character(short) == digits[2]
    if digits[0] == "0":
        return ReadCode("package", short, digits[2], fits)
    if fits:
        return ReadCode("package", short, digits[2], True, other_body=long)
    return ReadCode("package", long, None, True, other_body=short)


def _refuse_missing_day(lot: str, text: str) -> None:
    """BadInput when the day of the year is 000 or past the end of that year (2000 to 2099)."""
    year, day = 2000 + int(lot[:2]), int(lot[2:5])
    if not 1 <= day <= date(year, 12, 31).timetuple().tm_yday:
        raise unreadable("code", text, "a code whose third to fifth digits are a day of that year")


def _accepted(code: str) -> str:
    """What would be read instead: the code with digits for look-alike letters, or an example."""
    digits = code[:5].translate(_LOOKALIKE_DIGITS), code[6:8].translate(_LOOKALIKE_DIGITS)
    offered = digits[0] + code[5:6] + digits[1] + code[8:]
    if offered != code and (_LOT.fullmatch(offered) or _PACKAGE.fullmatch(offered)):
        return f"{offered}, if a letter there was meant as a digit"
    return "a code such as 26329A (lot) or 26329A072 (package)"


def _may_be_near(typed: str, code: str) -> bool:
    """Whether few enough characters lack a twin within the reach of two edits: a quick sieve."""
    if abs(len(typed) - len(code)) > _FARTHEST_EDITS + 1:
        return False
    lonely = 0
    for place, character in enumerate(typed):
        reach = code[max(0, place - _FARTHEST_EDITS) : place + _FARTHEST_EDITS + 1]
        if character not in reach:
            lonely += 1
            if lonely > _FARTHEST_EDITS:
                return False
    return True


def _distance(typed: str, code: str) -> int:
    """Half edits from a typed code to a code, or to the code without its last character.

    Optimal string alignment: no stretch of characters is edited twice. When every path is past
    _FARTHEST the count stops there.
    """
    before: list[int] = []
    above = [column * _EDIT for column in range(len(code) + 1)]
    for row, wanted in enumerate(typed, start=1):
        here = [row * _EDIT]
        for column, found in enumerate(code, start=1):
            cost = above[column - 1]
            if wanted != found:
                cost += _LOOKALIKE_EDIT if wanted + found in _LOOKALIKES else _EDIT
                cost = min(cost, above[column] + _EDIT, here[-1] + _EDIT)
                if row > 1 and column > 1 and typed[row - 2] + wanted == found + code[column - 2]:
                    cost = min(cost, before[column - 2] + _EDIT)
            here.append(cost)
        if min(here) > _FARTHEST and min(above) > _FARTHEST:
            return _FARTHEST + 1
        before, above = above, here
    return min(above[-2:]) if len(typed) < len(code) else above[-1]
