"""Plain numbers read exactly as typed."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import TYPE_CHECKING

import click

from stockroom.domain.quantities import (
    COLDEST_DC,
    HOTTEST_DC,
    UnitSystem,
    read_weight,
    unreadable,
)
from stockroom.domain.units import celsius

if TYPE_CHECKING:
    from stockroom.domain.leak import Between

_NUMBER = r"([0-9]{1,9}(?:[.,][0-9]{1,12})?|[.,][0-9]{1,12})"
_PLAIN_GRAMS = re.compile(rf"{_NUMBER} ?(?:g|grams?)?", re.ASCII | re.IGNORECASE)
_SHARE = re.compile(_NUMBER, re.ASCII)
_SIGNED = re.compile(rf"([+-]?) ?{_NUMBER}", re.ASCII)
_DEGREES = re.compile(rf"([+-]?) ?{_NUMBER} ?°? ?([CF])?", re.ASCII | re.IGNORECASE)
_MOST_ITEMS = 2_000
LONGEST_TEST_S = 1_000_000
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


def read_number(text: str, what: str, *, least: int = 0, most: int = 1_000_000) -> Fraction:
    """A plain number from `least` to `most`, exactly as typed. Raises BadInput."""
    parts = _SIGNED.fullmatch(_tidied(text))
    value = None if parts is None else _signed(parts)
    if value is None or not least <= value <= most:
        raise unreadable(what, text, f"a plain number from {least} to {most}")
    return value


def read_share(text: str, what: str) -> Fraction:
    """A share from 0 to 1, or the same with a percent sign. Raises BadInput."""
    typed = " ".join(text.split())
    percent = typed.endswith("%")
    parts = _SHARE.fullmatch(typed.removesuffix("%").rstrip())
    value = None if parts is None else _exact(parts[1]) / (100 if percent else 1)
    if value is None or not 0 <= value <= 1:
        raise unreadable(what, text, "a share from 0 to 1 such as 0.85, or a percentage: 85 %")
    return value


def read_degrees(text: str, what: str = "temperature") -> Fraction:
    """Degrees Celsius exactly, from "21", "21.5 C" or "70 F". Raises BadInput.

    Believed is what a place on earth may have: -100 to 150 °C.
    """
    parts = _DEGREES.fullmatch(_tidied(text))
    value = None if parts is None else _signed(parts)
    if parts is not None and value is not None and (parts[3] or "C").upper() == "F":
        value = celsius(value)
    if value is None or not COLDEST_DC <= value * 10 <= HOTTEST_DC:
        raise unreadable(what, text, "degrees Celsius such as 21, or 70 F, from -100 to 150 °C")
    return value


def read_several(text: str, what: str, read: Callable[[str, str], Fraction]) -> list[Fraction]:
    """Numbers with commas between; with semicolons where the numbers have decimal commas.

    Raises BadInput that names the place of the one that cannot be read.
    """
    return [read(one, f"{what} {place}") for place, one in enumerate(_items(text, what), start=1)]


def read_pairs(
    text: str, what: str, second: str, *, most: int = 1_000_000
) -> list[tuple[float, float]]:
    """Pairs such as "20:2,25:1": degrees Celsius and a time, called `second`. Raises BadInput."""
    found: list[tuple[float, float]] = []
    for place, one in enumerate(_items(text, what), start=1):
        degrees, colon, time = one.rpartition(":")
        if not colon:
            raise unreadable(f"{what} {place}", one, f"degrees Celsius:{second}, such as 20:6")
        found.append(
            (
                float(read_degrees(degrees, f"{what} {place}")),
                float(read_number(time, f"{second} of {what} {place}", most=most)),
            )
        )
    return found


def read_between(
    pressure: str | None, taken: str | None, seconds: str, *, option: str
) -> Between | None:
    """A reading in between those of a pressure-rise test, at half of its seconds unless said.

    `option` is the one that gives the pressure. Raises BadInput, or UsageError when a time is
    said without a pressure.
    """
    from stockroom.domain.leak import Between
    from stockroom.domain.pressures import read_pressure

    if pressure is None:
        if taken is not None:
            raise click.UsageError(f"--between-seconds goes with {option}.")
        return None
    after = read_number(seconds if taken is None else taken, "seconds", most=LONGEST_TEST_S)
    return Between(
        read_pressure(pressure, "pressure in between"), after / 2 if taken is None else after
    )


def _items(text: str, what: str) -> list[str]:
    """The parts of a list; at least one, none of them empty."""
    items = [one.strip() for one in text.split(";" if ";" in text else ",")]
    if len(items) > _MOST_ITEMS:
        raise unreadable(what, text, f"a list of at most {_MOST_ITEMS}; a file takes more")
    if not all(items):
        raise unreadable(what, text, "a list with commas between, and nothing left out")
    return items


def _tidied(text: str) -> str:
    """Single spaces, and a plain minus for the typographic one."""
    return " ".join(text.split()).replace("\u2212", "-")


def _signed(parts: re.Match[str]) -> Fraction:
    """Sign and digits as a number."""
    return _exact(parts[2]) * (-1 if parts[1] == "-" else 1)
