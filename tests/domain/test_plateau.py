"""Constant weight, in whole tenths of a gram."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.dryness_working import plateau_working
from stockroom.domain.plateau import (
    RATE,
    TOO_COARSE,
    HoursDoNotFit,
    NoScaleDigit,
    NoWeight,
    TooFewReadings,
    plateau,
)

READINGS = (1632, 1569, 1553, 1552, 1552)
"""163.2, 156.9, 155.3, 155.2 and 155.2 g."""


def test_losses_and_their_percent_of_the_last_weight() -> None:
    # Computed. With the later of each pair as denominator: 4.015, 1.030, 0.064; the earlier:
    # 3.860, 1.020, 0.064.
    found = plateau(READINGS, resolution_dg=1)
    assert found.losses_g == (6.3, 1.6, 0.1, 0.0)
    assert found.losses_percent == pytest.approx((4.06, 1.03, 0.064, 0), abs=0.005)
    assert found.losses_percent[0] != pytest.approx(4.015, abs=0.01)
    assert found.reached


@pytest.mark.parametrize("digit_dg", [1, 10])
def test_the_first_three_readings_are_no_plateau(digit_dg: int) -> None:
    found = plateau(READINGS[:3], resolution_dg=digit_dg)
    assert not found.reached
    assert "still drying" in found.reason
    assert "1.6 g" in found.reason


@pytest.mark.parametrize(
    ("first_g", "rate_g"), [(150, 0.075), (500, 0.25), (1500, 0.75), (3000, 1.5)]
)
def test_the_reference_rate(first_g: int, rate_g: float) -> None:
    # 0.50 mg for each gram (US Pharmacopeia, General Notices 8; from memory).
    assert float(RATE * first_g) == rate_g


def test_a_tenth_in_binary_does_not_matter() -> None:
    # 155.3 - 155.2 is more than 0.1 in binary floating point.
    assert 155.3 - 155.2 > 0.1
    assert plateau((1553, 1552), resolution_dg=1).reached


def test_a_coarse_scale_says_what_it_cannot_see() -> None:
    # A 1 g scale on a 150 g tray: the rate would be 0.075 g.
    found = plateau((1500, 1500))
    assert found.reached
    assert "No loss this scale can see" in found.reason
    assert "0.075 g" in found.reason


@pytest.mark.parametrize(
    ("first_g", "digit_dg", "coarse"),
    [
        (150, 10, True),
        (1999, 10, True),
        (2000, 10, False),
        (3000, 10, False),
        (150, 1, True),
        (199, 1, True),
        (200, 1, False),
    ],
)
def test_a_scale_is_too_coarse_below_2000_times_its_digit(
    first_g: int, digit_dg: int, coarse: bool
) -> None:
    # 0.05 % of the weight is one digit at 2,000 digits (computed).
    found = plateau((first_g * 10, first_g * 10), resolution_dg=digit_dg)
    assert found.too_coarse is coarse
    assert found.coarse_words == (TOO_COARSE if coarse else "")


def test_a_loss_the_scale_does_see_is_not_called_unseen() -> None:
    found = plateau((1550, 1500))
    assert found.too_coarse
    assert not found.reached
    assert found.coarse_words == ""
    assert "no loss this scale can see" in TOO_COARSE
    assert "too coarse to tell on this tray" in TOO_COARSE


def test_on_a_whole_wet_load_the_same_scale_sees_enough() -> None:
    found = plateau((30_000, 20_010, 20_000))
    assert found.reached
    assert "within 0.05 % of the first weight, 1.5 g" in found.reason
    # 3,000 g: 1.5 g are allowed, more than one digit.
    assert plateau((30_000, 20_015, 20_000)).reached
    assert not plateau((30_000, 20_016, 20_000)).reached


def test_a_gain_is_no_plateau_and_the_reading_is_named() -> None:
    found = plateau((1560, 1550, 1575), resolution_dg=10)
    assert not found.reached
    assert "Reading 3 is 2.5 g heavier than reading 2" in found.reason
    middle = plateau((1560, 1540, 1560, 1560), resolution_dg=10)
    assert not middle.reached
    assert "Reading 3 is 2 g heavier than reading 2" in middle.reason


def test_a_gain_of_one_digit_is_the_scale() -> None:
    assert plateau((1560, 1550, 1560), resolution_dg=10).reached


def test_readings_less_than_an_hour_apart_prove_nothing() -> None:
    assert plateau(READINGS, resolution_dg=1, hours=(0, 4, 8, 9, 10)).reached
    soon = plateau(READINGS, resolution_dg=1, hours=(0, 4, 8, 9, 9.5))
    assert not soon.reached
    assert "Only 0.5 h" in soon.reason
    # 2.3 - 1.3 is less than one in binary floating point.
    assert 2.3 - 1.3 < 1
    assert plateau((1552, 1552), resolution_dg=1, hours=(1.3, 2.3)).reached


@pytest.mark.parametrize(
    "hours", [(1, 2), (0, 1, 2, 2, 3), (0, 1, 2, 3, 2), (0, 1, 2, 3, float("nan"))]
)
def test_hours_that_do_not_fit_are_refused(hours: tuple[float, ...]) -> None:
    with pytest.raises(HoursDoNotFit):
        plateau(READINGS, hours=hours)


def test_hours_not_written_down_at_a_reading_are_not_guessed() -> None:
    # Only the last two readings have to be an hour apart.
    assert plateau((1600, 1552, 1552), hours=(None, 8, 9)).reached
    assert plateau((1600, 1552, 1552), hours=(4, None, 4.5)).reached
    assert plateau((1600, 1552, 1552), hours=(4, 8, None)).reached
    soon = plateau((1600, 1552, 1552), hours=(None, 8, 8.5))
    assert not soon.reached
    assert "Only 0.5 h" in soon.reason
    with pytest.raises(HoursDoNotFit, match="rise"):
        plateau((1600, 1552, 1552), hours=(9, None, 8))


def test_what_is_no_list_of_weighings_is_refused() -> None:
    with pytest.raises(TooFewReadings, match="not 1"):
        plateau((1550,))
    with pytest.raises(NoWeight, match="Reading 2"):
        plateau((1550, 0))
    with pytest.raises(NoScaleDigit):
        plateau(READINGS, resolution_dg=0)


def test_the_working_lists_every_reading_and_the_reason() -> None:
    working = plateau_working(READINGS, resolution_dg=1)
    losses, verdict = working.steps
    assert losses.result.startswith("6.3 g (4.059 %), 1.6 g (1.031 %)")
    assert [given_.value_text for given_ in losses.inputs][:2] == ["163.2 g", "156.9 g"]
    assert verdict.result.startswith("yes: No loss this scale can see")
    assert any("not enough" in text for text in working.cautions)


@given(st.lists(st.integers(1, 50_000), min_size=2, max_size=12), st.integers(1, 20))
def test_losses_add_up_and_the_rule_is_the_rule(weights: list[int], digit_dg: int) -> None:
    found = plateau(weights, resolution_dg=digit_dg)
    assert sum(found.losses_dg) == weights[0] - weights[-1]
    gained = any(-loss > digit_dg for loss in found.losses_dg)
    small = found.losses_dg[-1] <= max(digit_dg, 0.0005 * weights[0])
    assert found.reached is (small and not gained)
    assert found.reason.endswith(".")
