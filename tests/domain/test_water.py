"""Water to add back, in grams, millilitres and named cups."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.drying import DryAboveWet, NothingWeighed
from stockroom.domain.units import US_CUP_ML
from stockroom.domain.water import (
    WATER_DENSITY,
    UseAboveDry,
    WaterTemperatureOutside,
    label_cups,
    millilitres,
    quarter_cups,
    show_water,
    us_cups,
    water_density,
    water_figures,
)


# W1/B4: loss 845 g per 155 g dry, a jar of 62 g (computed).
def test_b4_water_for_a_jar() -> None:
    figures = water_figures(10_000, 1_550, 620)
    assert figures.water_removed_dg == 8_450
    assert figures.water_per_dry == Fraction(8450, 1550)
    assert float(figures.water_per_dry) == pytest.approx(5.4516, abs=5e-5)
    assert figures.use_dg == 620
    assert figures.water_to_add_dg == 3_380
    assert figures.water_to_add_ml == pytest.approx(338.6, abs=0.05)
    assert figures.us_cups == pytest.approx(1.43, abs=0.005)
    assert figures.label_cups == pytest.approx(1.41, abs=0.005)


# W3/B5a: grams of water in a US cup (computed from published densities).
@pytest.mark.parametrize(
    ("at_c", "cup_g"),
    [
        (4, 236.58),
        (20, 236.16),
        (25, 235.89),
        (40, 234.74),
        (60, 232.61),
        (80, 229.92),
        (100, 226.75),
    ],
)
def test_b5a_water_in_a_us_cup(at_c: float, cup_g: float) -> None:
    assert float(US_CUP_ML) * water_density(at_c) / 1000 == pytest.approx(cup_g, abs=0.01)
    assert millilitres(10_000, at_c) * cup_g / 1000 == pytest.approx(float(US_CUP_ML), abs=0.01)


# W2/B5b: at 1 g/mL (computed).
@pytest.mark.parametrize(
    ("volume_ml", "us", "label"),
    [(100, 0.423, 0.417), (250, 1.057, 1.042), (500, 2.113, 2.083), (845, 3.572, 3.521)],
)
def test_b5b_cups(volume_ml: float, us: float, label: float) -> None:
    assert us_cups(volume_ml) == pytest.approx(us, abs=0.0005)
    assert label_cups(volume_ml) == pytest.approx(label, abs=0.0005)


def test_density_between_rows_lies_on_the_straight_line() -> None:
    assert water_density(22.5) == pytest.approx((998.207 + 997.047) / 2)
    assert water_density(90) == pytest.approx((971.8 + 958.4) / 2)
    assert water_density(8) == pytest.approx(999.972 - (999.972 - 998.207) / 4)
    for at_c, density in WATER_DENSITY:
        assert water_density(at_c) == density


@pytest.mark.parametrize("at_c", [3.9, 100.1, -5.0, float("nan"), float("inf")])
def test_density_outside_the_table_is_refused(at_c: float) -> None:
    with pytest.raises(WaterTemperatureOutside) as caught:
        water_density(at_c)
    assert "4 to 100 °C" in caught.value.message


def test_the_default_is_all_of_the_food() -> None:
    assert water_figures(10_000, 1_550) == water_figures(10_000, 1_550, 1_550)
    assert water_figures(10_000, 1_550).water_to_add_dg == 8_450
    assert water_figures(10_000, 1_550, 0).water_to_add_dg == 0
    assert water_figures(1_550, 1_550).water_to_add_ml == 0


def test_impossible_weights_are_refused() -> None:
    with pytest.raises(DryAboveWet):
        water_figures(1_549, 1_550)
    with pytest.raises(NothingWeighed):
        water_figures(10_000, 0)
    for use_dg in (1_551, -1):
        with pytest.raises(UseAboveDry) as caught:
            water_figures(10_000, 1_550, use_dg)
        assert "155.0 g of dry food" in caught.value.message


@given(dry_dg=st.integers(1, 30_000), water_dg=st.integers(0, 300_000))
def test_dry_and_its_water_are_the_loaded_weight(dry_dg: int, water_dg: int) -> None:
    figures = water_figures(dry_dg + water_dg, dry_dg)
    assert figures.use_dg + figures.water_to_add_dg == dry_dg + water_dg
    assert figures.us_cups * float(US_CUP_ML) == pytest.approx(figures.water_to_add_ml)
    assert figures.label_cups * 240 == pytest.approx(figures.water_to_add_ml)


CUP = 236.5882365
SPOON = CUP / 16


@pytest.mark.parametrize(
    ("volume_ml", "shown"),
    [
        (338.607, "1½ US cups"),
        (CUP, "1 US cup"),
        (CUP * 1.124, "1 US cup"),
        (CUP * 1.126, "1¼ US cups"),
        (CUP * 0.876, "1 US cup"),
        (CUP * 0.874, "¾ US cup"),
        (CUP / 2, "½ US cup"),
        (CUP / 4, "¼ US cup"),
        (CUP * 0.249, "4 US tablespoons"),
        (CUP / 8, "2 US tablespoons"),
        (CUP * 12.75, "12¾ US cups"),
        (SPOON * 1.99, "2 US tablespoons"),
        (SPOON * 1.6, "1½ US tablespoons"),
        (SPOON, "1 US tablespoon"),
        (SPOON / 2, "½ US tablespoon"),
        (SPOON / 4, "½ US tablespoon"),
        (SPOON * 0.24, "¾ US teaspoon"),
        (SPOON / 6, "½ US teaspoon"),
        (0.1, "¼ US teaspoon"),
    ],
)
def test_measures_to_the_nearest_quarter(volume_ml: float, shown: str) -> None:
    assert quarter_cups(volume_ml) == shown


@pytest.mark.parametrize(
    ("water_dg", "shown"),
    [
        (3_380, "338.0 g · 339 mL · about 1½ US cups"),
        (2_400, "240.0 g · 240 mL · about 1 US cup"),
        (150, "15.0 g · 15 mL · about 1 US tablespoon"),
        (10, "1.0 g · 1 mL · about ¼ US teaspoon"),
        (9, "0.9 g · under 1 mL"),
        (1, "0.1 g · under 1 mL"),
        (0, "no water to add"),
        (-5, "no water to add"),
    ],
)
def test_water_in_words(water_dg: int, shown: str) -> None:
    assert show_water(water_dg) == shown
