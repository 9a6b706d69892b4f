"""The pressure-rise test: rates, the limit, the shape of the rise, and what is refused."""

from __future__ import annotations

from fractions import Fraction
from typing import cast

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.leak import (
    EMPTY_FIRST,
    LIMIT_MBAR_L_PER_S,
    Between,
    BetweenDoesNotFit,
    LeakVerdict,
    NoRise,
    NoTime,
    NoVolume,
    PressureRise,
    RiseShape,
    leak,
)
from stockroom.domain.leak_working import leak_working
from stockroom.domain.pressures import read_pressure
from stockroom.domain.working import Standing

# pint (pint.readthedocs.io), default registry, read with exact fractions.
PINT = pint.UnitRegistry(non_int_type=cast(type[float], Fraction))


def rise(
    volume: str = "40",
    first: str = "0.30",
    last: str = "0.60",
    seconds: str = "600",
    *,
    dry_empty: bool | None = True,
    between: Between | None = None,
) -> PressureRise:
    """A test in an ordinary chamber."""
    return PressureRise(
        Fraction(volume),
        read_pressure(first),
        read_pressure(last),
        Fraction(seconds),
        dry_empty,
        between,
    )


def test_forty_litres_rising_three_tenths_in_ten_minutes() -> None:
    # Computed: 40 x 0.3 / 600 = 0.020 mbar L/s, 0.03 mbar and 22.5 microns a minute, 1.184 cm3 a
    # minute at 0 C and 1013 mbar.
    found = leak(rise())
    assert found.mbar_l_per_s == Fraction(2, 100)
    assert found.mbar_per_min == Fraction(3, 100)
    assert float(found.millitorr_per_min) == pytest.approx(22.5, abs=0.05)
    assert float(found.cm3_per_min) == pytest.approx(1.184, abs=0.0005)


def test_thirty_litres_read_in_millitorr() -> None:
    # Computed: 30 x 0.150 / 300 = 0.015 Torr L/s = 0.0200 mbar L/s.
    found = leak(rise("30", "300 mTorr", "450 micron", "300"))
    assert found.torr_l_per_s == Fraction(15, 1000)
    assert float(found.mbar_l_per_s) == pytest.approx(0.0200, abs=0.00001)


def test_one_millibar_litre_a_second_as_gas() -> None:
    # A published vacuum reference: 1 mbar L/s = 59.2 cm3/min at STP.
    found = leak(rise("1", "0", "1", "1"))
    assert found.mbar_l_per_s == 1
    assert float(found.cm3_per_min) == pytest.approx(59.2, abs=0.05)


amounts = st.fractions(min_value=Fraction(1, 1000), max_value=1000, max_denominator=1000)


@given(amounts, amounts, amounts, amounts)
def test_any_rate_equals_pint(
    volume: Fraction, first: Fraction, more: Fraction, seconds: Fraction
) -> None:
    found = leak(PressureRise(volume, first, first + more, seconds))
    theirs = (
        PINT.Quantity(volume, "liter")
        * PINT.Quantity(more, "millibar")
        / PINT.Quantity(seconds, "second")
    )
    assert found.mbar_l_per_s == theirs.to("millibar * liter / second").magnitude
    assert found.torr_l_per_s == theirs.to("torr * liter / second").magnitude
    gas = theirs / PINT.Quantity(Fraction(1), "atmosphere")
    assert found.cm3_per_min == gas.to("centimeter ** 3 / minute").magnitude
    speed = theirs / PINT.Quantity(volume, "liter")
    assert found.mbar_per_min == speed.to("millibar / minute").magnitude
    assert found.millitorr_per_min == speed.to("millitorr / minute").magnitude


def test_a_rate_just_at_the_limit_is_within_it() -> None:
    # Limit of 2 x 10^-2 mbar L/s: Parenteral Society, Technical Monograph 7 (secondary copy).
    assert Fraction(2, 100) == LIMIT_MBAR_L_PER_S
    at = leak(rise())
    assert at.verdict is LeakVerdict.WITHIN
    over = leak(rise(last="0.6000001"))
    assert over.verdict is LeakVerdict.OVER
    assert "door seal" in over.sentence


@pytest.mark.parametrize(
    ("said", "why"), [(None, "Nobody said whether"), (False, "The chamber was not dry and empty")]
)
@pytest.mark.parametrize("last", ["0.31", "0.60", "5"])
def test_without_a_dry_and_empty_chamber_there_is_no_verdict(
    said: bool | None, why: str, last: str
) -> None:
    found = leak(rise(last=last, dry_empty=said))
    assert found.verdict is LeakVerdict.NONE
    assert found.sentence.startswith(why)
    assert (EMPTY_FIRST in found.sentence) is (said is False)
    assert "within" not in found.sentence and "over" not in found.sentence


@pytest.mark.parametrize(
    ("middle", "shape"),
    [
        # Rises of 0.15 and 0.15; then 0.1666 and 0.1333, a ratio of 0.8 at the limit and below.
        ("0.45", RiseShape.STRAIGHT),
        ("0.40", RiseShape.STRAIGHT),
        (str(Fraction(3, 10) + Fraction(1, 6)), RiseShape.STRAIGHT),
        ("0.4667", RiseShape.LEVELS_OFF),
        ("0.55", RiseShape.LEVELS_OFF),
        ("0.60", RiseShape.LEVELS_OFF),
    ],
)
def test_a_straight_rise_is_told_from_one_that_levels_off(middle: str, shape: RiseShape) -> None:
    found = leak(rise(between=Between(Fraction(middle), Fraction(300))))
    assert found.shape is shape
    assert found.second_to_first is not None
    assert (found.second_to_first >= Fraction(8, 10)) is (shape is RiseShape.STRAIGHT)


def test_parts_of_unequal_length_are_compared_by_speed() -> None:
    # 0.1 mbar in 200 s, then 0.2 mbar in 400 s: the same speed.
    found = leak(rise(between=Between(Fraction("0.4"), Fraction(200))))
    assert found.second_to_first == 1
    assert found.shape is RiseShape.STRAIGHT


def test_a_rise_that_levels_off_sends_to_the_cloth_not_to_the_seal() -> None:
    damp = leak(rise(last="1.2", between=Between(Fraction(1), Fraction(300))))
    assert damp.verdict is LeakVerdict.OVER
    assert EMPTY_FIRST in damp.sentence and "door seal" not in damp.sentence
    small = leak(rise(between=Between(Fraction("0.59"), Fraction(300))))
    assert small.verdict is LeakVerdict.WITHIN
    assert EMPTY_FIRST not in small.sentence


def test_what_is_no_test_is_refused() -> None:
    for last in ("0.30", "0.29"):
        with pytest.raises(NoRise, match=f"0.3 mbar, then {float(last):g} mbar"):
            leak(rise(last=last))
    for seconds in ("0", "-600"):
        with pytest.raises(NoTime, match="more than 0 s"):
            leak(rise(seconds=seconds))
    for volume in ("0", "-1"):
        with pytest.raises(NoVolume, match="more than 0 L"):
            leak(rise(volume))


@pytest.mark.parametrize(
    ("middle", "after", "why"),
    [
        ("0.45", "0", "after 0 s of 600 s"),
        ("0.45", "600", "after 600 s of 600 s"),
        ("0.30", "300", "0.3 mbar does not lie between 0.3 and 0.6 mbar"),
        ("0.61", "300", "0.61 mbar does not lie between"),
    ],
)
def test_a_stray_reading_in_between_is_refused(middle: str, after: str, why: str) -> None:
    with pytest.raises(BetweenDoesNotFit, match=why):
        leak(rise(between=Between(Fraction(middle), Fraction(after))))


def test_the_working_names_the_limit_and_where_it_is_from() -> None:
    working = leak_working(rise(between=Between(Fraction("0.45"), Fraction(300))))
    rate, speed, shape, verdict, gas = working.steps
    assert rate.formula.startswith("volume of the chamber x (last pressure - first pressure)")
    assert rate.figures == "40 L x (0.6 mbar - 0.3 mbar) / 600 s"
    assert rate.result == "0.02 mbar L/s"
    assert gas.result == "1.184 cm3/min"
    assert (speed.result, shape.result) == ("1", "straight")
    assert verdict.result.startswith("within: ")
    (limit,) = (one for one in verdict.inputs if one.name.startswith("limit"))
    assert limit.stands_as is Standing.PUBLISHED
    assert limit.source is not None and "Monograph 7" in limit.source.citation
    (straight,) = (one for one in shape.inputs if one.name == "straight from")
    assert straight.stands_as is Standing.ENGINEERING_JUDGEMENT
    assert any("10 %" in text for text in working.cautions)
    assert working.conclusion == "0.02 mbar L/s, within"


def test_the_working_without_a_reading_in_between_has_no_shape() -> None:
    working = leak_working(rise(dry_empty=None))
    _, verdict, _ = working.steps
    assert working.conclusion == "0.02 mbar L/s, no verdict"
    assert verdict.title == "verdict"
    assert verdict.inputs[-1].value_text == "not said"
