"""Units against the pint library's own definitions, in exact fractions."""

from __future__ import annotations

from fractions import Fraction
from typing import cast

import pint
import pytest

from stockroom.domain import units

# pint (pint.readthedocs.io), default registry, read with exact fractions.
PINT = pint.UnitRegistry(non_int_type=cast(type[float], Fraction))

EXACT = (
    (units.INCH_MM, "inch", "millimeter"),
    (units.FOOT_MM, "foot", "millimeter"),
    (units.MIL_MM, "thou", "millimeter"),
    (units.US_GALLON_ML, "gallon", "milliliter"),
    (units.US_QUART_ML, "quart", "milliliter"),
    (units.US_PINT_ML, "pint", "milliliter"),
    (units.US_CUP_ML, "cup", "milliliter"),
    (units.US_FLUID_OUNCE_ML, "fluid_ounce", "milliliter"),
    (units.US_TABLESPOON_ML, "tablespoon", "milliliter"),
    (units.US_TEASPOON_ML, "teaspoon", "milliliter"),
    (units.POUND_G, "pound", "gram"),
    (units.OUNCE_G, "ounce", "gram"),
    (units.ATM_KPA, "atmosphere", "kilopascal"),
    (units.MBAR_KPA, "millibar", "kilopascal"),
    (units.TORR_KPA, "torr", "kilopascal"),
)


@pytest.mark.parametrize(("ours", "unit", "into"), EXACT, ids=[row[1] for row in EXACT])
def test_exact_units_equal_pint(ours: Fraction, unit: str, into: str) -> None:
    assert ours == PINT.Quantity(Fraction(1), unit).to(into).magnitude


def test_inch_of_mercury_agrees_with_pint_to_its_seven_figures() -> None:
    theirs = PINT.Quantity(Fraction(1), "inch_Hg").to("kilopascal").magnitude
    assert float(units.INHG_KPA) == pytest.approx(float(theirs), abs=1e-6)


def test_an_atmosphere_in_inches_of_mercury_is_the_rounded_figure() -> None:
    assert float(units.ATM_KPA / units.INHG_KPA) == pytest.approx(float(units.ATM_INHG), abs=5e-4)


# The exact millilitres and grams as NIST Handbook 44, Appendix C, prints them (from memory).
@pytest.mark.parametrize(
    ("ours", "printed"),
    [
        (units.US_GALLON_ML, "3785.411784"),
        (units.US_CUP_ML, "236.5882365"),
        (units.US_FLUID_OUNCE_ML, "29.5735295625"),
        (units.US_TABLESPOON_ML, "14.78676478125"),
        (units.US_TEASPOON_ML, "4.92892159375"),
        (units.OUNCE_G, "28.349523125"),
    ],
)
def test_printed_values(ours: Fraction, printed: str) -> None:
    assert ours == Fraction(printed)


# 21 CFR 101.9(b)(5)(viii): label measures (published, secondary copy).
def test_label_measures() -> None:
    assert (units.LABEL_CUP_ML, units.LABEL_FLUID_OUNCE_ML) == (240, 30)
    assert (units.LABEL_TABLESPOON_ML, units.LABEL_TEASPOON_ML) == (15, 5)
    assert units.LABEL_OUNCE_G == 28


@pytest.mark.parametrize("degrees", [-148, -40, 0, 32, 64, 100, 212, 302])
def test_fahrenheit_to_celsius_is_exact_and_equals_pint(degrees: int) -> None:
    theirs = PINT.Quantity(Fraction(degrees), "degF").to("degC").magnitude
    assert units.celsius(degrees) == theirs
    assert units.celsius(Fraction(degrees)) == theirs
    assert units.fahrenheit(units.celsius(degrees)) == degrees
    assert isinstance(units.celsius(degrees), Fraction)


@pytest.mark.parametrize("degrees", [-273.15, -40.0, 0.0, 21.0, 37.7, 100.0])
def test_float_temperatures_stay_floats(degrees: float) -> None:
    assert isinstance(units.fahrenheit(degrees), float)
    assert units.fahrenheit(degrees) == pytest.approx(
        float(PINT.Quantity(Fraction(str(degrees)), "degC").to("degF").magnitude)
    )
    assert units.celsius(units.fahrenheit(degrees)) == pytest.approx(degrees)
    assert isinstance(units.celsius(degrees), float)


def test_kelvin() -> None:
    assert units.kelvin(0) == Fraction(27315, 100)
    assert units.kelvin(Fraction(21)) == Fraction("294.15")
    assert units.kelvin(21.5) == pytest.approx(294.65)
    assert isinstance(units.kelvin(21.5), float)
    assert isinstance(units.fahrenheit(5), Fraction)
    assert isinstance(units.kelvin(5), Fraction)
