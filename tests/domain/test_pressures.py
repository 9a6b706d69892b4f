"""Units of pressure against the pint library's own definitions, in exact fractions."""

from __future__ import annotations

from fractions import Fraction
from typing import cast

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.pressures import (
    HIGHEST_MBAR,
    MBAR_IN_ONE,
    PressureUnit,
    from_mbar,
    in_mbar,
    read_litres,
    read_pressure,
    show_pressure,
    to_microbar,
)
from stockroom.errors import BadInput

# pint (pint.readthedocs.io), default registry, read with exact fractions.
PINT = pint.UnitRegistry(non_int_type=cast(type[float], Fraction))

THEIRS = {
    PressureUnit.MBAR: "millibar",
    PressureUnit.MILLITORR: "millitorr",
    PressureUnit.TORR: "torr",
    PressureUnit.PASCAL: "pascal",
}


@pytest.mark.parametrize("unit", PressureUnit)
def test_every_unit_equals_pint(unit: PressureUnit) -> None:
    assert MBAR_IN_ONE[unit] == PINT.Quantity(Fraction(1), THEIRS[unit]).to("millibar").magnitude


def test_a_torr_is_the_printed_millibars() -> None:
    # Vacuum references print 1 Torr = 1.333224 mbar, and 1000 microns to the Torr.
    assert float(in_mbar(1, PressureUnit.TORR)) == pytest.approx(1.333224, abs=5e-7)
    assert in_mbar(1000, PressureUnit.MILLITORR) == in_mbar(1, PressureUnit.TORR)


def test_a_micron_of_mercury_is_a_millitorr_to_six_figures() -> None:
    # pint's millimetre of mercury is the conventional one, 13,595.1 kg/m3 x 9.80665 m/s2.
    theirs = PINT.Quantity(Fraction(1), "millimeter_Hg").to("millibar").magnitude
    assert float(read_pressure("1 mmHg")) == pytest.approx(float(theirs), rel=1e-6)
    assert read_pressure("1000 \u00b5mHg") == read_pressure("1 mmHg")


@pytest.mark.parametrize(
    ("typed", "mbar"),
    [
        ("0.3", Fraction(3, 10)),
        ("0,3 mbar", Fraction(3, 10)),
        (".3 MBAR", Fraction(3, 10)),
        ("1 hPa", Fraction(1)),
        ("30 Pa", Fraction(3, 10)),
        ("760 Torr", Fraction("1013.25")),
        ("760000 mTorr", Fraction("1013.25")),
        ("760000 microns", Fraction("1013.25")),
        ("760000 micron", Fraction("1013.25")),
        ("760000umHg", Fraction("1013.25")),
        ("  0  ", Fraction(0)),
    ],
)
def test_pressures_are_read_exactly(typed: str, mbar: Fraction) -> None:
    assert read_pressure(typed) == mbar


@pytest.mark.parametrize(
    "typed",
    ["", "low", "-1", "1e3", "0.3 bar", "28 inHg", "1 mPa", "1 MPa", "1101", "1,100 mbar x", "nan"],
)
def test_what_is_no_pressure_is_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="first pressure") as caught:
        read_pressure(typed, "first pressure")
    assert "300 mTorr" in caught.value.hint


def test_the_highest_pressure_is_read() -> None:
    assert read_pressure(f"{HIGHEST_MBAR}") == HIGHEST_MBAR


@given(st.fractions(min_value=0, max_value=1000), st.sampled_from(PressureUnit))
def test_there_and_back_is_the_same(value: Fraction, unit: PressureUnit) -> None:
    assert from_mbar(in_mbar(value, unit), unit) == value


def test_the_record_keeps_thousandths_of_a_millibar() -> None:
    assert to_microbar(Fraction("0.3")) == 300
    assert to_microbar(in_mbar(300, PressureUnit.MILLITORR)) == 400
    assert to_microbar(Fraction(1, 2000)) == 0


def test_a_pressure_is_shown_in_both_units() -> None:
    assert show_pressure(Fraction(4, 10)) == "0.4 mbar (300 mTorr)"
    assert show_pressure(0.3) == "0.3 mbar (225 mTorr)"


@pytest.mark.parametrize(
    ("typed", "litres"),
    [
        ("40", 40),
        ("37,5 L", Fraction(75, 2)),
        (".5 litre", Fraction(1, 2)),
        ("100000 liters", 10**5),
    ],
)
def test_litres_are_read_exactly(typed: str, litres: Fraction) -> None:
    assert read_litres(typed) == litres


@pytest.mark.parametrize("typed", ["", "-1", "forty", "100001", "1 m3", "40 ml"])
def test_what_is_no_volume_is_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="volume"):
        read_litres(typed)
