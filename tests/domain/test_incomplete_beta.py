"""The incomplete beta function against its identities and a statistics library."""

from __future__ import annotations

from fractions import Fraction
from math import comb, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import special

from stockroom.domain.incomplete_beta import log_beta, point_below, share_below

exponents = st.floats(-3, 5)
shares = st.floats(0.0001, 0.9999)


@settings(max_examples=200, deadline=None)
@given(exponents, exponents, shares)
def test_it_agrees_with_a_statistics_library(first: float, second: float, x: float) -> None:
    # scipy.special.betainc; its inverse is only good to eight digits, so the point found is put
    # back into the function itself.
    a, b = 10**first, 10**second
    assert share_below(x, a, b) == pytest.approx(special.betainc(a, b, x), abs=2e-9)
    point = point_below(x, a, b)
    below = special.betainc(a, b, max(point - 1e-15, 0))
    assert below - 2e-9 <= x <= special.betainc(a, b, min(point + 1e-15, 1)) + 2e-9


@settings(max_examples=100, deadline=None)
@given(st.floats(1, 500), st.floats(1, 500), shares)
def test_near_its_bulk_it_agrees_too(a: float, b: float, share: float) -> None:
    # scipy.special.betaincinv, where its answers are good.
    found = point_below(share, a, b)
    assert found == pytest.approx(special.betaincinv(a, b, share), abs=1e-7)
    assert share_below(found, a, b) == pytest.approx(special.betainc(a, b, found), abs=1e-11)


@given(st.integers(1, 40), st.integers(1, 40), st.fractions(0, 1, max_denominator=99))
def test_for_whole_numbers_it_is_a_binomial_sum(a: int, b: int, x: Fraction) -> None:
    # I_x(a, b) = P(a or more of a + b - 1), by definition of the two.
    count = a + b - 1
    ways = sum(comb(count, k) * x**k * (1 - x) ** (count - k) for k in range(a, count + 1))
    assert share_below(float(x), a, b) == pytest.approx(float(ways), abs=1e-12)


@settings(max_examples=60)
@given(exponents, exponents, shares)
def test_the_two_ends_mirror_each_other(first: float, second: float, x: float) -> None:
    a, b = 10**first, 10**second
    assert share_below(x, a, b) + share_below(1 - x, b, a) == pytest.approx(1, abs=1e-9)


def test_known_points() -> None:
    # Beta(1/2, 1/2) is the arc-sine law: half its share lies below 1/2, a third below 1/4.
    assert share_below(0.5, 0.5, 0.5) == pytest.approx(0.5, abs=1e-14)
    assert share_below(0.25, 0.5, 0.5) == pytest.approx(1 / 3, abs=1e-14)
    assert point_below(1 / 3, 0.5, 0.5) == pytest.approx(sin(pi / 6) ** 2, abs=1e-14)
    # Beta(1, n): 1 - (1 - x)^n.
    assert share_below(0.3, 1, 7) == pytest.approx(1 - 0.7**7, abs=1e-14)
    assert point_below(0.95, 1, 7) == pytest.approx(1 - 0.05 ** (1 / 7), abs=1e-14)
    assert log_beta(1, 1) == pytest.approx(0, abs=1e-15)


def test_the_ends_are_none_and_all() -> None:
    assert [share_below(x, 3, 4) for x in (-1, 0, 1, 2)] == [0, 0, 1, 1]


def test_the_middle_of_a_symmetric_one_is_the_middle() -> None:
    for a in (0.001, 0.7220149, 1, 3.5, 100_000):
        assert point_below(0.5, a, a) == pytest.approx(0.5, abs=1e-12)
