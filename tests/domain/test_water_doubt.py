"""How sure a water is: each weighing's part, against differences taken the long way round."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.water_doubt import WaterPart, add_water_doubt, combined_g, water_doubts
from stockroom.domain.working import Given, Trace

U_NET_G = 1 / sqrt(3)
"""One digit of a kitchen scale, rectangular (JCGM 100:2008, 4.3.7)."""


def water_g(wet_g: float, dry_g: float, take_g: float) -> float:
    """Water for a part of a lot."""
    return take_g * (wet_g - dry_g) / dry_g


# W1/B4 of the mass balance: 1000 g as loaded, 155 g dry, a jar of 62 g.
def test_each_weighing_against_a_small_difference() -> None:
    doubts = water_doubts([WaterPart("the lot", 10_000, 1_550, 620)])
    step = 1e-4
    at = water_g(1000, 155, 62)
    slopes = [
        (water_g(1000 + step, 155, 62) - at) / step,
        (water_g(1000, 155 + step, 62) - at) / step,
        (water_g(1000, 155, 62 + step) - at) / step,
    ]
    assert [one.grams_per_gram for one in doubts] == pytest.approx(slopes, rel=1e-4)
    assert combined_g(doubts) == pytest.approx(
        U_NET_G * sqrt(sum(slope**2 for slope in slopes)), rel=1e-4
    )


def test_all_of_a_lot_is_a_difference_of_two_weights() -> None:
    """W = wet - dry, so u = d sqrt(2/3): 0.816 g for a digit of 1 g (JCGM 100:2008, 5.1.2)."""
    doubts = water_doubts([WaterPart("the lot", 10_000, 1_550, 1_550)])
    assert [one.grams_per_gram for one in doubts] == [1, -1]
    assert combined_g(doubts) == pytest.approx(0.8165, abs=1e-4)


def test_more_trays_weigh_less_surely() -> None:
    one = combined_g(water_doubts([WaterPart("the lot", 10_000, 1_550, 1_550)]))
    four = combined_g(water_doubts([WaterPart("the lot", 10_000, 1_550, 1_550, trays=4)]))
    assert four == pytest.approx(2 * one)


def test_two_packages_of_one_lot_share_its_weights() -> None:
    """The lot's weights are wrong for both alike; what is taken of each is weighed by itself."""
    half = WaterPart("lot A", 10_000, 1_550, 310)
    both = water_doubts([half, half])
    whole = water_doubts([WaterPart("lot A", 10_000, 1_550, 620)])
    assert [one.uncertainty_g for one in both[:2]] == [one.uncertainty_g for one in whole[:2]]
    assert both[2].uncertainty_g == pytest.approx(sqrt(2) * whole[2].uncertainty_g)


@given(
    wet=st.integers(100, 200_000),
    dry_share=st.floats(0.02, 0.9),
    take_share=st.floats(0.01, 0.99),
    digit=st.integers(1, 50),
)
def test_a_coarser_scale_is_never_surer(
    wet: int, dry_share: float, take_share: float, digit: int
) -> None:
    dry = max(2, int(wet * dry_share))
    part = WaterPart("the lot", wet, dry, max(1, int(dry * take_share)))
    fine, coarse = (combined_g(water_doubts([part], one)) for one in (digit, 2 * digit))
    assert coarse == pytest.approx(2 * fine)


def test_it_is_written_with_shares_that_make_up_the_whole() -> None:
    trace = Trace("Water")
    water = Given("water", "338.0 g")
    add_water_doubt(trace, water, [WaterPart("the lot", 10_000, 1_550, 620)])
    working = trace.finish()
    titles = [step.title for step in working.steps]
    assert titles == [
        "standard uncertainty of the water, each weight good to 1 g",
        "what the uncertainty is made of",
        "so the water is good to",
        "what would change it",
    ]
    shares = working.steps[1].result
    percents = [int(part.split()[-2]) for part in shares.split("; ")]
    assert sum(percents) in range(98, 103)
    assert "the lot dry 1 g heavier: 2.58 g less" in working.steps[3].result
    assert {source.key for source in working.sources} == {
        "uncertainty-propagation",
        "scale-digit",
    }


def test_a_perfect_scale_leaves_nothing_to_say() -> None:
    trace = Trace("Water")
    add_water_doubt(trace, Given("water", "1 g"), [WaterPart("the lot", 100, 50, 20)], 0)
    assert trace.finish().steps == ()
