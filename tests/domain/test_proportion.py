"""Counted shares with their exact intervals, and how often a plan passes a series of lots."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from stockroom.domain.proportion import (
    LEAST_TO_TELL,
    NoSuchShare,
    chance_at_most,
    lower_limit,
    proportion,
    upper_limit,
)

ONE_IN_TEN = Fraction(90, 100)


@pytest.mark.parametrize(
    ("soft", "looked_at", "low", "high"),
    [
        (81, 263, 0.2527, 0.3676),
        (15, 148, 0.0578, 0.1617),
        (0, 20, 0.0000, 0.1684),
        (1, 29, 0.0009, 0.1776),
    ],
)
def test_exact_intervals(soft: int, looked_at: int, low: float, high: float) -> None:
    # Newcombe, Statistics in Medicine 17:857-872, 1998, table I, Clopper-Pearson (from memory;
    # agrees with a statistics library).
    found = proportion(soft, looked_at)
    assert (found.low, found.high) == pytest.approx((low, high), abs=5.1e-5)
    assert found.share == Fraction(soft, looked_at)


def test_an_upper_limit_as_another_program_prints_it() -> None:
    # Package GenBinomApps for R, manual page of clopper.pearson.ci: 5 of 100000, alpha 0.05.
    found = upper_limit(5, 100_000, Fraction(95, 100))
    assert found == pytest.approx(0.0001051275, abs=5e-11)


@settings(max_examples=80, deadline=None)
@given(st.integers(1, 400), st.data(), st.sampled_from([80, 90, 95, 99]))
def test_intervals_agree_with_a_statistics_library(
    looked_at: int, data: st.DataObject, percent: int
) -> None:
    # scipy.stats.binomtest, method "exact".
    soft = data.draw(st.integers(0, looked_at))
    found = proportion(soft, looked_at, Fraction(percent, 100))
    library = stats.binomtest(soft, looked_at).proportion_ci(percent / 100, method="exact")
    assert (found.low, found.high) == pytest.approx((library.low, library.high), abs=1e-7)
    assert found.low <= Fraction(soft, looked_at) <= found.high


@given(st.integers(1, 40), st.data())
def test_a_limit_is_where_the_binomial_sum_says(looked_at: int, data: st.DataObject) -> None:
    soft = data.draw(st.integers(0, looked_at - 1))
    at = Fraction(upper_limit(soft, looked_at, ONE_IN_TEN))
    assert float(chance_at_most(soft, looked_at, at)) == pytest.approx(0.1, abs=1e-9)
    mirrored = lower_limit(looked_at - soft, looked_at, ONE_IN_TEN)
    assert mirrored == pytest.approx(1 - float(at), abs=1e-12)


PLANS = (
    (3, 0, 40, 0.8847, 0.5358),
    (5, 0, 25, 0.8811, 0.3690),
    (13, 0, 10, 0.8775, 0.1623),
    (13, 1, 40, 0.9068, 0.2678),
    (20, 1, 25, 0.9118, 0.1810),
    (20, 2, 40, 0.9561, 0.2448),
    (32, 2, 25, 0.9548, 0.1579),
    (50, 1, 10, 0.9106, 0.0756),
    (50, 3, 25, 0.9638, 0.1288),
    (50, 5, 40, 0.9856, 0.1776),
    (80, 2, 10, 0.9534, 0.0652),
    (80, 5, 25, 0.9848, 0.1128),
    (80, 7, 40, 0.9853, 0.1428),
)
"""Looked at, soft ones accepted, acceptable quality in thousandths (ISO 2859-1, normal, level II),
the chance to pass at that quality, and the quality passed one time in ten. Computed, binomial."""


@pytest.mark.parametrize(("looked_at", "accept", "thousandths", "chance", "poor"), PLANS)
def test_how_often_a_plan_passes(
    looked_at: int, accept: int, thousandths: int, chance: float, poor: float
) -> None:
    found = chance_at_most(accept, looked_at, Fraction(thousandths, 1000))
    assert float(found) == pytest.approx(chance, abs=5.1e-5)
    assert float(found) == pytest.approx(
        stats.binom(looked_at, thousandths / 1000).cdf(accept), abs=1e-12
    )
    assert upper_limit(accept, looked_at, ONE_IN_TEN) == pytest.approx(poor, abs=5.1e-5)


def test_an_operating_curve() -> None:
    # NIST/SEMATECH e-Handbook of Statistical Methods, 6.2.3.2: 52 looked at, 3 accepted (from
    # memory; .845 and .739 are printed at 4 and 5 %, .846 and .738 computed).
    printed = (.998, .980, .930, .845, .739, .620, .502, .394, .300, .223, .162, .115)  # fmt: skip
    found = [float(chance_at_most(3, 52, Fraction(one, 100))) for one in range(1, 13)]
    assert found == pytest.approx(printed, abs=0.001)


def test_too_few_to_tell() -> None:
    # The rule's own anchor: with five sound ones half of all may still be soft, with six no more.
    assert proportion(0, LEAST_TO_TELL - 1).high > 0.5 > proportion(0, LEAST_TO_TELL).high
    assert proportion(0, 5).too_few_to_tell and not proportion(0, 6).too_few_to_tell
    assert proportion(2, 5).sentence == "2 of 5 soft: too few to tell."
    assert proportion(2, 25).sentence == (
        "2 of 25 soft: from 1.0 % to 26.0 % of packages like these, with 95 % confidence."
    )
    nothing = proportion(0, 0)
    assert (nothing.low, nothing.high, nothing.share) == (0, 1, None)
    assert nothing.too_few_to_tell


def test_shares_that_stand_apart() -> None:
    assert proportion(9, 12).stands_apart(proportion(1, 30))
    assert proportion(1, 30).stands_apart(proportion(9, 12))
    assert not proportion(3, 12).stands_apart(proportion(1, 30))
    # Five of five would be clear enough, but five are too few to tell.
    assert proportion(5, 5).low > proportion(0, 30).high
    assert not proportion(5, 5).stands_apart(proportion(0, 30))
    assert not proportion(0, 30).stands_apart(proportion(5, 5))


@pytest.mark.parametrize(("soft", "looked_at"), [(-1, 5), (6, 5), (0, -1)])
def test_what_is_no_share_is_refused(soft: int, looked_at: int) -> None:
    with pytest.raises(NoSuchShare, match="is no share"):
        proportion(soft, looked_at)
    with pytest.raises(NoSuchShare):
        chance_at_most(soft, looked_at, Fraction(1, 2))
