"""Residual moisture with its uncertainty, planned yield, and what must not be concluded."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from stockroom.domain.drying import (
    DryAboveWet,
    NothingWeighed,
    TareAboveGross,
    TrayWeights,
    WeightMissing,
)
from stockroom.domain.dryness import (
    NegativeUncertainty,
    NoSuchWaterFraction,
    Verdict,
    dry_basis,
    dry_weight_for,
    lot_residual,
    planned_yield,
    residual_after_removing,
    residual_moisture,
    residual_moisture_on_tray,
    wet_basis,
)
from stockroom.domain.dryness_working import residual_working
from stockroom.domain.units import LABEL_CUP_ML, US_CUP_ML
from stockroom.domain.working import Standing

weights = st.integers(10, 100_000)
shares = st.floats(0.01, 0.97)


@pytest.mark.parametrize(
    ("wet_g", "water", "dry_g", "u_water", "percent", "uncertainty"),
    # Computed after JCGM 100:2008, 5.1.2; water of strawberry, tomato and apple from USDA SR28.
    [
        (1000, 0.850, 155, 0.010, 3.226, 0.06462),
        (1500, 0.9095, 146, 0.005, 7.021, 0.0515),
        (2000, 0.9452, 118, 0.005, 7.119, 0.0849),
        (1200, 0.650, 440, 0.010, 4.545, 0.0273),
        (1000, 0.8556, 150, 0.010, 3.733, 0.0668),
    ],
    ids=["base case", "strawberry", "tomato", "cooked chicken", "apple"],
)
def test_moisture_left_and_its_uncertainty(
    wet_g: int, water: float, dry_g: int, u_water: float, percent: float, uncertainty: float
) -> None:
    found = residual_moisture(wet_g * 10, dry_g * 10, water, u_water=u_water)
    assert 100 * found.residual == pytest.approx(percent, abs=0.001)
    digits = len(str(uncertainty).partition(".")[2])
    assert found.standard_uncertainty == pytest.approx(
        uncertainty, abs=max(1e-5, 0.5 * 10**-digits)
    )
    assert found.expanded == 2 * found.standard_uncertainty


def test_the_uncertainty_decides_not_the_estimate_alone() -> None:
    # 3.2 % looks dry, but U is 13 points, over 99 % of its square from the table's water figure.
    found = residual_moisture(10_000, 1550, 0.850)
    assert found.expanded == pytest.approx(0.1292, abs=0.0001)
    assert found.verdict is Verdict.UNDECIDED
    assert found.components.water_share > 0.99


def test_the_verdict_is_on_the_figures_as_shown() -> None:
    # Cooked chicken: 4.545 % and U 5.461 make 10.006, which is shown as 10.0 % and is within.
    chicken = residual_moisture(12_000, 4400, 0.650)
    assert 100 * chicken.high == pytest.approx(10.006, abs=0.001)
    assert chicken.verdict is Verdict.WITHIN
    assert residual_moisture(12_000, 4405, 0.650).verdict is Verdict.UNDECIDED


def test_components_of_the_base_case() -> None:
    parts = residual_moisture(10_000, 1550, 0.850).components
    assert parts.water_fraction == pytest.approx(0.064516, abs=1e-6)
    assert parts.dry == pytest.approx(0.003605, abs=1e-6)
    assert parts.wet == pytest.approx(0.000559, abs=1e-6)


def test_a_tray_weighed_twice_shares_its_tare() -> None:
    found = residual_moisture_on_tray(
        18_200, 9750, 8200, 0.85, u_water=0.010, u_reading_g=0.577, u_tare_g=2
    )
    assert found.standard_uncertainty == pytest.approx(0.065475, abs=1e-6)
    # Wrongly taken as two independent tares the same figures give 0.065843.
    parts = found.components
    by_dry, by_wet = parts.dry / 0.577, parts.wet / 0.577
    wrong = sqrt(
        parts.water_fraction**2 + parts.dry**2 + parts.wet**2 + 4 * (by_dry**2 + by_wet**2)
    )
    assert wrong == pytest.approx(0.065843, abs=1e-6)


def test_a_lot_is_the_sum_of_its_trays_and_each_weight_has_its_own_doubt() -> None:
    # Four trays of 250 g come to the base case; independent weights add as the root of 4.
    trays = [TrayWeights(position, 2_500, 387 + (position < 3)) for position in range(1, 5)]
    found = lot_residual(trays, 0.85)
    assert found is not None
    assert found.residual == pytest.approx(0.03226, abs=5e-6)
    single = residual_moisture(10_000, 1_550, 0.85)
    assert found.components.dry == pytest.approx(2 * single.components.dry)
    assert found.components.wet == pytest.approx(2 * single.components.wet)
    assert found.components.water_fraction == pytest.approx(single.components.water_fraction)
    assert found.standard_uncertainty == pytest.approx(
        sqrt(0.064516**2 + 4 * (0.003605**2 + 0.000559**2)), abs=2e-6
    )
    assert lot_residual(trays[:1], 0.85) == residual_moisture(2_500, 388, 0.85)


def test_without_a_water_fraction_there_is_no_estimate() -> None:
    assert lot_residual([TrayWeights(1, 2_500, 388)], None) is None
    with pytest.raises(WeightMissing, match="the lot's trays"):
        lot_residual([], 0.85)


def test_below_zero_is_shown_and_flagged_never_cut_off() -> None:
    # Computed: -1.351 %.
    found = residual_moisture(10_000, 1480, 0.850)
    assert 100 * found.residual == pytest.approx(-1.351, abs=0.001)
    assert found.is_negative
    assert "does not fit this food" in found.sentence


def test_a_gross_error_is_over_whatever_the_uncertainty() -> None:
    found = residual_moisture(10_000, 2500, 0.85, u_water=0.01)
    assert found.residual == pytest.approx(0.40)
    assert found.verdict is Verdict.OVER


def test_a_control_batch_narrows_the_uncertainty() -> None:
    # u(w) 0.003 instead of 0.010: U about 4 points (engineering judgement).
    found = residual_moisture(10_000, 1550, 0.850, u_water=0.003)
    assert found.expanded == pytest.approx(0.0394, abs=0.0005)
    assert found.verdict is Verdict.WITHIN


@pytest.mark.parametrize(("water", "grams"), [(0.85, 154.639), (0.9095, 93.299)])
def test_weight_for_a_target(water: float, grams: float) -> None:
    # 3 % from 1,000 g (computed).
    assert dry_weight_for(10_000, water, 0.03) == pytest.approx(grams, abs=0.001)


@pytest.mark.parametrize(("wet", "dry"), [(0.03226, 0.03333), (0.85, 5.667), (0.20, 0.25)])
def test_wet_and_dry_basis(wet: float, dry: float) -> None:
    # Computed: 3.333, 566.7 and 25 % dry basis.
    assert dry_basis(wet) == pytest.approx(dry, abs=0.0005)
    assert wet_basis(dry_basis(wet)) == pytest.approx(wet, rel=1e-12)


def test_ten_kilograms_from_80_to_15_percent() -> None:
    # Computed: 2.353 kg left, 7.647 removed.
    left = dry_weight_for(100_000, 0.80, 0.15) / 1000
    assert left == pytest.approx(2.353, abs=0.001)
    assert 10 - left == pytest.approx(7.647, abs=0.001)


@pytest.mark.parametrize(
    ("water", "dry_of_100", "restore"),
    # At 2 % moisture; water from USDA SR28, computed.
    [
        (0.9095, 9.23, 9.83),
        (0.9452, 5.59, 16.88),
        (0.7886, 21.57, 3.64),
        (0.6526, 35.45, 1.82),
        (0.6844, 32.20, 2.11),
        (0.7615, 24.34, 3.11),
    ],
    ids=["strawberry", "tomato", "peas", "chicken", "rice", "egg"],
)
def test_planned_yield(water: float, dry_of_100: float, restore: float) -> None:
    found = planned_yield(water, 0.02)
    assert 100 * found.dry_per_loaded == pytest.approx(dry_of_100, abs=0.01)
    assert found.restore_per_dry == pytest.approx(restore, abs=0.01)


@pytest.mark.parametrize(
    ("removed", "left_percent"),
    [(0.90, 36.2), (0.95, 22.1), (0.98, 10.2), (0.99, 5.4), (0.995, 2.8)],
)
def test_water_removed_is_not_moisture_left(removed: float, left_percent: float) -> None:
    # Of food with 85 % water (computed): "98 % of the water removed" is not 2 % moisture.
    found = 100 * residual_after_removing(0.85, removed)
    assert found == pytest.approx(left_percent, abs=0.05)
    assert found > 100 * (1 - removed) * 2


def test_a_us_cup_is_neither_237_nor_240_millilitres() -> None:
    # 21 CFR 101.9(b)(5)(viii): 240 mL is the label cup.
    assert float(US_CUP_ML) == 236.5882365
    assert LABEL_CUP_ML == 240


@pytest.mark.parametrize("water", [-0.01, 1.0, 1.5, float("nan")])
def test_a_share_that_cannot_be_is_refused(water: float) -> None:
    with pytest.raises(NoSuchWaterFraction, match="water fraction"):
        residual_moisture(10_000, 1550, water)
    with pytest.raises(NoSuchWaterFraction):
        planned_yield(0.85, water)
    with pytest.raises(NoSuchWaterFraction):
        residual_after_removing(0.85, 1.2)


def test_weights_that_cannot_be_are_refused() -> None:
    with pytest.raises(DryAboveWet):
        residual_moisture(1000, 1550, 0.85)
    with pytest.raises(NothingWeighed):
        residual_moisture(1000, 0, 0.85)
    with pytest.raises(TareAboveGross):
        residual_moisture_on_tray(18_200, 9750, 9800, 0.85, u_reading_g=0.6, u_tare_g=2)


@pytest.mark.parametrize("value", [-0.1, float("inf")])
def test_a_negative_uncertainty_is_refused(value: float) -> None:
    with pytest.raises(NegativeUncertainty):
        residual_moisture(10_000, 1550, 0.85, u_water=value)
    with pytest.raises(NegativeUncertainty):
        residual_moisture_on_tray(18_200, 9750, 8200, 0.85, u_reading_g=value, u_tare_g=2)


def test_the_working_shows_the_sum_its_uncertainty_and_the_verdict() -> None:
    working = residual_working(10_000, 1550, 0.850)
    first, combined, made_of, expanded, verdict, change = working.steps
    assert first.figures == "1 - 1000.0 g x (1 - 0.85) / 155.0 g"
    assert first.result == "0.0323"
    assert combined.result == "0.064619"
    assert made_of.result.startswith("99.7 %")
    assert expanded.result == "0.1292"
    assert verdict.result.startswith("undecided")
    assert any("cannot show dryness" in text for text in working.cautions)
    assert any("local codes" in text for text in working.cautions)
    limit = verdict.inputs[2]
    assert limit.stands_as is Standing.PUBLISHED
    assert working.conclusion.startswith("3.2 %, between -9.7 and 16.1 %: undecided")
    # Dry weight at the limit: 1000 x (1 - 0.85) / (1 - 0.10) = 166.7 g; slopes by differences.
    assert "at 166.7 g dry, 11.7 g more, it would be 10 %" in change.result
    more_water = residual_moisture(10_000, 1550, 0.860).residual
    more_dry = residual_moisture(10_000, 1560, 0.850).residual
    base = residual_moisture(10_000, 1550, 0.850).residual
    assert f"0.01 higher: {100 * (more_water - base):+.1f} percentage points" in change.result
    assert f"1 g more dry: {100 * (more_dry - base):+.2f}" in change.result


@given(weights, weights, shares, st.integers(1, 500))
def test_more_left_with_more_water_and_a_heavier_dry_weight(
    wet_dg: int, dry_dg: int, water: float, more: int
) -> None:
    assume(dry_dg + more <= wet_dg)
    base = residual_moisture(wet_dg, dry_dg, water).residual
    assert residual_moisture(wet_dg, dry_dg + more, water).residual > base
    assert residual_moisture(wet_dg, dry_dg, water + 0.01).residual > base
    assert residual_moisture(wet_dg + more, dry_dg, water).residual < base


@given(weights, shares, st.floats(0, 0.2))
def test_drying_to_the_target_gives_the_target(wet_dg: int, water: float, target: float) -> None:
    dry_g = dry_weight_for(wet_dg, water, target)
    assert 1 - wet_dg / 10 * (1 - water) / dry_g == pytest.approx(target, abs=1e-9)


@given(shares, st.floats(0, 0.3), st.floats(0.001, 0.3))
def test_yield_rises_with_the_moisture_left_and_water_restores_the_load(
    water: float, residual: float, more: float
) -> None:
    found = planned_yield(water, residual)
    assert planned_yield(water, residual + more).dry_per_loaded > found.dry_per_loaded
    loaded = found.dry_per_loaded * (1 + found.restore_per_dry)
    assert loaded == pytest.approx(1, rel=1e-9)


@given(weights, weights, shares, st.floats(0, 0.05), st.integers(0, 50))
def test_the_three_verdicts_follow_from_the_band(
    wet_dg: int, dry_dg: int, water: float, u_water: float, digit_dg: int
) -> None:
    assume(dry_dg <= wet_dg)
    found = residual_moisture(wet_dg, dry_dg, water, u_water=u_water, resolution_dg=digit_dg)
    assert found.low <= found.residual <= found.high
    expected = Verdict.UNDECIDED
    # Away from the half tenth of a percent that is rounded either way.
    assume(all(abs(abs(edge - 0.10) - 0.0005) > 1e-6 for edge in (found.low, found.high)))
    if found.residual + found.expanded < 0.1005:
        expected = Verdict.WITHIN
    elif found.residual - found.expanded > 0.1005:
        expected = Verdict.OVER
    assert found.verdict is expected
