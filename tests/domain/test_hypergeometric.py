"""Chances of picking at random without putting back, and the bounds that close them in."""

from __future__ import annotations

from fractions import Fraction
from math import comb

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from stockroom.domain.hypergeometric import (
    Draw,
    chance_at_most,
    chance_missed,
    chance_of,
    power_at_most,
    power_bounds,
)

CLOSE = Fraction(1, 10**30)


@st.composite
def draws(draw: st.DrawFn, largest: int = 60) -> tuple[int, int, int]:
    """A lot, how many are soft, and how many are looked at."""
    lot = draw(st.integers(1, largest))
    return lot, draw(st.integers(0, lot)), draw(st.integers(0, lot))


def by_hand(lot: int, soft: int, opened: int, found: int) -> Fraction:
    """The definition, term by term."""
    if found > soft or opened - found > lot - soft:
        return Fraction(0)
    return Fraction(comb(soft, found) * comb(lot - soft, opened - found), comb(lot, opened))


@given(draws(), st.integers(-1, 61))
def test_the_chance_of_a_number_is_the_definition(case: tuple[int, int, int], found: int) -> None:
    wanted = by_hand(*case, found) if 0 <= found <= case[2] else 0
    assert chance_of(*case, found) == wanted


@given(draws(), st.integers(0, 60))
def test_the_chance_of_a_number_or_fewer_is_their_sum(
    case: tuple[int, int, int], found: int
) -> None:
    terms = (by_hand(*case, k) for k in range(min(found, case[2]) + 1))
    assert chance_at_most(*case, found) == sum(terms)


@given(draws(), st.fractions(0, 1, max_denominator=50))
def test_the_chance_to_miss_all_is_the_definition(
    case: tuple[int, int, int], sensitivity: Fraction
) -> None:
    terms = (by_hand(*case, k) * (1 - sensitivity) ** k for k in range(case[2] + 1))
    assert chance_missed(*case, sensitivity) == sum(terms)


@settings(max_examples=60, deadline=None)
@given(draws(largest=5_000), st.integers(0, 200))
def test_the_chances_agree_with_a_statistics_library(
    case: tuple[int, int, int], found: int
) -> None:
    # scipy.stats.hypergeom(number in all, number soft, number drawn).
    lot, soft, opened = case
    library = stats.hypergeom(lot, soft, opened)
    assert Draw(lot, soft, opened, found).passed() == pytest.approx(library.cdf(found), abs=1e-9)
    assert float(chance_of(lot, soft, opened, found)) == pytest.approx(
        library.pmf(found), rel=1e-7, abs=1e-12
    )


@pytest.mark.parametrize(
    ("lot", "soft", "opened", "accept"),
    [
        (100_000, 50_000, 50_000, 24_800),
        (100_000, 1_000, 5_000, 40),
        (100_000, 3, 90_000, 1),
        (99_999, 60_000, 70, 30),
    ],
)
def test_large_lots_agree_with_a_statistics_library(
    lot: int, soft: int, opened: int, accept: int
) -> None:
    wanted = stats.hypergeom(lot, soft, opened).cdf(accept)
    assert Draw(lot, soft, opened, accept).passed() == pytest.approx(wanted, rel=1e-8)


@given(draws(), st.integers(0, 12), st.fractions(0, 1, max_denominator=40))
def test_the_bounds_hold_the_exact_chance(
    case: tuple[int, int, int], accept: int, sensitivity: Fraction
) -> None:
    for draw in (Draw(*case, accept), Draw(*case, 0, sensitivity)):
        low, high = draw.bounds()
        assert low <= draw.passes() <= high
        assert high - low < CLOSE
        assert draw.passed() + draw.noticed() == pytest.approx(1, abs=1e-15)


@pytest.mark.parametrize(
    "draw",
    [
        Draw(4_000, 2_000, 2_000, 990),
        Draw(4_000, 30, 3_900, 28),
        Draw(3_000, 1_500, 900, 0, Fraction(1, 500)),
        Draw(3_000, 2_900, 2_800, 0, Fraction(999, 1000)),
    ],
)
def test_the_bounds_hold_the_exact_chance_of_larger_lots(draw: Draw) -> None:
    low, high = draw.bounds()
    assert low <= draw.passes() <= high
    assert high - low < CLOSE


def test_what_is_left_out_of_the_bounds_is_counted_as_possible() -> None:
    # So few soft that no weight of them is added up: not nothing, and below 1e-30.
    rare = Draw(20_000, 10_000, 10_000, 4_000)
    low, high = rare.bounds()
    assert low == 0 < rare.passes() <= high < CLOSE
    common = Draw(20_000, 10_000, 10_000, 6_000)
    assert common.bounds()[0] <= common.passes() < 1
    assert common.bounds()[1] == 1


def test_a_chance_equal_to_the_limit_is_within_it() -> None:
    # 98 x 97 x ... over 100 x 99 x ...: 45 x 44 / (100 x 99) = 1/5, computed.
    draw = Draw(100, 2, 55)
    assert draw.passes() == Fraction(1, 5)
    assert draw.passes_at_most(Fraction(1, 5))
    assert not draw.passes_at_most(Fraction(1, 5) - Fraction(1, 10**60))
    assert Draw(100, 2, 54).passes() > Fraction(1, 5)
    # As numbers in binary the one chance of 1/20 would be more than the other.
    assert 1 - 0.95 > float(Draw(100, 1, 95).passes()) == 0.05
    assert Draw(100, 1, 95).passes_at_most(1 - Fraction(95, 100))


def test_a_limit_met_in_a_large_lot_is_decided_exactly() -> None:
    # Half of the lot soft save one, half looked at: by symmetry just half the chance.
    even = Draw(4_002, 2_001, 2_001, 1_000)
    assert even.passes() == Fraction(1, 2)
    assert even.passes_at_most(Fraction(1, 2))
    assert not even.passes_at_most(Fraction(1, 2) - Fraction(1, 10**80))


def test_too_many_to_be_missed_are_never_missed() -> None:
    assert Draw(100, 6, 95).bounds() == (0, 0)
    assert Draw(100, 6, 95).passed() == 0
    assert Draw(100, 0, 95).passed() == 1
    assert Draw(100_000, 50_000, 60_000, 9_999).bounds() == (0, 0)


@given(st.fractions(0, 1, max_denominator=1_000), st.integers(0, 300))
def test_a_power_lies_between_its_bounds(base: Fraction, exponent: int) -> None:
    low, high = power_bounds(base, exponent)
    assert low <= base**exponent * 2**160 <= high
    assert high - low < 2**20
    assert power_at_most(base, exponent, base**exponent)
    if base and exponent:
        assert not power_at_most(base, exponent, base**exponent * Fraction(999, 1000))
