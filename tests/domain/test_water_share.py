"""Water in two parts, and measured warm or cold in either cup."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.units import Cup
from stockroom.domain.water import WaterTemperatureOutside, quarter_cups, show_water
from stockroom.domain.water_share import (
    HOLD_BACK_PERCENT,
    WaterShare,
    WaterWay,
    measure_water,
    share_water,
)


@given(water_dg=st.integers(0, 2_000_000), percent=st.integers(0, 100))
def test_the_two_parts_are_all_of_the_water(water_dg: int, percent: int) -> None:
    share = share_water(water_dg, percent)
    assert share.now_dg + share.held_dg == share.all_dg == water_dg
    assert abs(share.held_dg - Fraction(water_dg * percent, 100)) <= Fraction(1, 2)
    assert min(share.now_dg, share.held_dg) >= 0


def test_one_starts_with_between_two_thirds_and_three_quarters() -> None:
    """The range one starts with, of the same standing as the share itself."""
    share = share_water(3_380)
    assert share == WaterShare(2_366, 1_014)
    assert Fraction(2, 3) <= Fraction(100 - HOLD_BACK_PERCENT, 100) <= Fraction(3, 4)


# W1, computed: 338.0 g of water at 20 °C.
def test_w1_water_of_a_jar_in_both_cups() -> None:
    us = measure_water(3_380, WaterWay())
    label = measure_water(3_380, WaterWay(cup=Cup.LABEL))
    assert us.volume_ml == label.volume_ml == pytest.approx(338.6, abs=0.05)
    assert us.cups == pytest.approx(1.43, abs=0.005)
    assert label.cups == pytest.approx(1.41, abs=0.005)


# W2, computed at 1 g/mL: volumes in mL → US cups, label cups.
@pytest.mark.parametrize(
    ("volume_ml", "us", "label"),
    [(100, 0.423, 0.417), (250, 1.057, 1.042), (500, 2.113, 2.083), (845, 3.572, 3.521)],
)
def test_w2_volumes_in_cups(volume_ml: float, us: float, label: float) -> None:
    assert volume_ml / float(Cup.US.volume_ml) == pytest.approx(us, abs=0.0005)
    assert volume_ml / float(Cup.LABEL.volume_ml) == pytest.approx(label, abs=0.0005)


# W3, computed from published densities: grams of water in a US cup.
@pytest.mark.parametrize(
    ("at_c", "cup_g"),
    [
        (4, 236.58), (20, 236.16), (25, 235.89), (40, 234.74), (60, 232.61), (80, 229.92),
        (100, 226.75),
    ],
)  # fmt: skip
def test_w3_a_cup_of_warm_water_weighs_less(at_c: float, cup_g: float) -> None:
    water_dg = 2_360
    found = measure_water(water_dg, WaterWay(at_c))
    assert water_dg / 10 / found.cups == pytest.approx(cup_g, abs=0.006)


@pytest.mark.parametrize("at_c", [3.9, 100.1])
def test_water_outside_the_table_is_refused(at_c: float) -> None:
    with pytest.raises(WaterTemperatureOutside):
        measure_water(1_000, WaterWay(at_c))


def test_water_is_shown_as_warm_as_it_is_in_the_cup_that_is_named() -> None:
    assert show_water(9_584, 100.0) == "958.4 g · 1000 mL · about 4¼ US cups"
    assert show_water(2_396, 20.0, Cup.LABEL) == "239.6 g · 240 mL · about 1 label cup"
    assert quarter_cups(15, Cup.LABEL) == "1 label tablespoon"
    assert quarter_cups(2.5, Cup.LABEL) == "½ label teaspoon"
