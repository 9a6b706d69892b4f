"""Mass balance of trays and lots."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.drying import (
    DryAboveWet,
    LotTotals,
    NothingWeighed,
    TareAboveGross,
    TrayWeights,
    WeightMissing,
    lot_totals,
    net_weight,
    tray_weights,
)


def test_b1a_and_b4_water_per_dry_gram() -> None:
    tray = tray_weights(1, 10_000, 1_550)
    assert (tray.position, tray.wet_dg, tray.dry_dg) == (1, 10_000, 1_550)
    assert tray.water_removed_dg == 8_450
    assert tray.water_per_dry == Fraction(8450, 1550)
    assert float(tray.water_per_dry) == pytest.approx(5.4516, abs=5e-5)


# D8/B3b: 10 kg from 80 % to 15 % water leaves 2.353 kg, 7.647 kg removed (computed).
def test_b3b_removed_percent_is_of_the_loaded_weight() -> None:
    totals = LotTotals(100_000, 23_530)
    assert totals.water_removed_dg == 76_470
    assert totals.removed_percent == pytest.approx(76.47)


def test_lot_totals_add_the_trays() -> None:
    totals = lot_totals([TrayWeights(1, 10_000, 1_550), TrayWeights(3, 5_000, 900)])
    assert totals == LotTotals(15_000, 2_450)
    assert totals.water_per_dry == Fraction(12_550, 2_450)


@given(st.lists(st.tuples(st.integers(1, 9_000), st.integers(0, 60_000)), min_size=1, max_size=7))
def test_lot_water_is_the_sum_of_tray_water(rows: list[tuple[int, int]]) -> None:
    trays = [tray_weights(n, dry + water, dry) for n, (dry, water) in enumerate(rows)]
    totals = lot_totals(trays)
    assert totals.water_removed_dg == sum(tray.water_removed_dg for tray in trays)
    assert totals.water_per_dry * totals.dry_dg + totals.dry_dg == totals.wet_dg
    low, high = min(t.water_per_dry for t in trays), max(t.water_per_dry for t in trays)
    assert low <= totals.water_per_dry <= high


def test_a_tray_that_lost_nothing_is_recorded() -> None:
    assert tray_weights(2, 500, 500).water_removed_dg == 0


def test_missing_and_impossible_weights_are_refused() -> None:
    with pytest.raises(WeightMissing) as caught:
        tray_weights(3, None, 900)
    assert "tray 3 as loaded" in caught.value.message
    with pytest.raises(WeightMissing) as caught:
        tray_weights(3, 900, None)
    assert "tray 3 dry" in caught.value.message
    for dry_dg in (0, -1):
        with pytest.raises(NothingWeighed) as nothing:
            tray_weights(3, 900, dry_dg)
        assert "tray 3 dry" in nothing.value.message
    with pytest.raises(DryAboveWet) as above:
        tray_weights(3, 900, 901)
    assert above.value.message.startswith("Tray 3 weighs 90.1 g dry but 90.0 g as loaded")
    with pytest.raises(WeightMissing):
        lot_totals([])


def test_net_weight() -> None:
    assert net_weight(18_200, 8_200, "Tray 1") == 10_000
    assert net_weight(8_200, 8_200, "Tray 1") == 0
    with pytest.raises(TareAboveGross) as caught:
        net_weight(8_199, 8_200, "Tray 1")
    assert caught.value.message.startswith("Tray 1 weighs 819.9 g with food but 820.0 g empty")
