"""Pressures in the units machine gauges show, and volumes in litres, read as typed and exact.

Standing: exact by definition. 1 mbar = 100 Pa; 1 Torr = 1/760 of 101,325 Pa; 1 mTorr = 1/1000
Torr. A micron of mercury is taken for a mTorr, and a millimetre of mercury for a Torr: they differ
in the seventh figure only (conventional mercury, NIST SP 811, from memory).
"""

from __future__ import annotations

import re
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.quantities import nearest_whole, unreadable
from stockroom.domain.units import MBAR_KPA, TORR_KPA

HIGHEST_MBAR = 1_100
"""No chamber holds more than the air around it; engineering judgement, to catch slips."""


LARGEST_CHAMBER_L = 100_000
"""Engineering judgement, to catch slips."""


class PressureUnit(StrEnum):
    """A unit of pressure, as it is written behind a number."""

    MBAR = "mbar"
    MILLITORR = "mTorr"
    TORR = "Torr"
    PASCAL = "Pa"


MBAR_IN_ONE = {
    PressureUnit.MBAR: Fraction(1),
    PressureUnit.MILLITORR: TORR_KPA / MBAR_KPA / 1000,
    PressureUnit.TORR: TORR_KPA / MBAR_KPA,
    PressureUnit.PASCAL: Fraction(1, 100),
}
"""Millibars in one of each unit."""

_SPELLINGS = {
    "": PressureUnit.MBAR,
    "mbar": PressureUnit.MBAR,
    "hpa": PressureUnit.MBAR,
    "mtorr": PressureUnit.MILLITORR,
    "micron": PressureUnit.MILLITORR,
    "microns": PressureUnit.MILLITORR,
    "umhg": PressureUnit.MILLITORR,
    "\u00b5mhg": PressureUnit.MILLITORR,
    "\u03bcmhg": PressureUnit.MILLITORR,
    "torr": PressureUnit.TORR,
    "mmhg": PressureUnit.TORR,
    "pa": PressureUnit.PASCAL,
}
_TYPED = re.compile(r"([0-9]{1,7}(?:[.,][0-9]{1,9})?|[.,][0-9]{1,9}) ?([a-z\u00b5\u03bc]*)")
_LITRES = re.compile(r"([0-9]{1,7}(?:[.,][0-9]{1,9})?|[.,][0-9]{1,9}) ?(?:l|litres?|liters?)?")
_ACCEPTED = (
    f"a pressure from 0 to {HIGHEST_MBAR} mbar, such as 0.3, 0.3 mbar, 300 mTorr, 300 micron,"
    " 0.2 Torr or 30 Pa"
)


def in_mbar(value: Fraction | int, unit: PressureUnit) -> Fraction:
    """Millibars, exactly."""
    return value * MBAR_IN_ONE[unit]


def from_mbar(value_mbar: Fraction | int, unit: PressureUnit) -> Fraction:
    """A pressure in millibars as a number of another unit, exactly."""
    return value_mbar / MBAR_IN_ONE[unit]


def read_pressure(text: str, what: str = "pressure") -> Fraction:
    """Millibars exactly from typed text: "0.3", "0,3 mbar", "300 mTorr", "300 micron", "30 Pa".

    A bare number is millibars. Raises BadInput for anything else, for a pressure above
    `HIGHEST_MBAR`, and for one so long that it cannot have been read off a gauge.
    """
    typed = " ".join(text.casefold().split())
    parts = _TYPED.fullmatch(typed)
    unit = _SPELLINGS.get(parts[2]) if parts else None
    if parts is None or unit is None:
        raise unreadable(what, text, _ACCEPTED)
    found = in_mbar(_exact(parts[1]), unit)
    if found > HIGHEST_MBAR:
        raise unreadable(what, text, _ACCEPTED)
    return found


def read_litres(text: str, what: str = "volume") -> Fraction:
    """Litres exactly from typed text: "40", "37.5 L", "37,5 litres". Raises BadInput."""
    parts = _LITRES.fullmatch(" ".join(text.casefold().split()))
    found = _exact(parts[1]) if parts else None
    if found is None or found > LARGEST_CHAMBER_L:
        raise unreadable(what, text, f"litres from 0 to {LARGEST_CHAMBER_L}, such as 40 or 37.5")
    return found


def to_microbar(value_mbar: Fraction | int) -> int:
    """Whole thousandths of a millibar, as the record keeps a gauge's reading."""
    return nearest_whole(Fraction(value_mbar) * 1000)


def show_pressure(value_mbar: Fraction | float) -> str:
    """A pressure in millibars with three figures, and whole millitorr beside it."""
    millitorr = float(Fraction(value_mbar) / MBAR_IN_ONE[PressureUnit.MILLITORR])
    return f"{float(value_mbar):.3g} mbar ({millitorr:.0f} mTorr)"


def _exact(digits: str) -> Fraction:
    """A number with a point or a comma, exactly."""
    return Fraction(f"0{digits.replace(',', '.')}")
