"""Beliefs about packages nobody has looked at."""

from __future__ import annotations

from fractions import Fraction
from math import comb

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from stockroom.domain.belief import (
    DEFAULT_PRIOR,
    EXACT_UP_TO,
    MOST_CHECKED,
    Belief,
    ImpossibleCount,
    NoSuchPrior,
    Others,
    believe,
    others,
    share_sentence,
)

HALF = Fraction(1, 2)


def prior(soft: int | Fraction, sound: int | Fraction) -> Belief:
    """A belief before any look."""
    return Belief(Fraction(soft), Fraction(sound))


@pytest.mark.parametrize(
    ("before", "checked", "soft", "mean", "low", "high", "upper"),
    [
        (prior(1, 1), 8, 0, 0.1000, 0.0028, 0.3363, 0.2831),
        (prior(1, 1), 20, 1, 0.0909, 0.0117, 0.2382, 0.2067),
        (prior(1, 1), 5, 2, 0.4286, 0.1181, 0.7772, None),
        (prior(1, 19), 5, 1, 0.0800, 0.0103, 0.2112, None),
        (prior(1, 19), 12, 0, 0.0312, None, None, 0.0921),
        (prior(HALF, HALF), 5, 0, 0.0833, None, None, 0.3057),
    ],
)
def test_a_belief_after_a_look(
    before: Belief,
    checked: int,
    soft: int,
    mean: float,
    low: float | None,
    high: float | None,
    upper: float | None,
) -> None:
    # Computed from the beta distribution; four digits are stated.
    after = believe(checked, soft, before)
    assert float(after.mean) == pytest.approx(mean, abs=5.1e-5)
    if low is not None:
        assert after.interval() == pytest.approx((low, high), abs=5.1e-5)
    if upper is not None:
        assert after.upper() == pytest.approx(upper, abs=5.1e-5)


def test_fifteen_others_after_five_sound_ones() -> None:
    # Computed from the beta-binomial distribution.
    left = others(believe(5, 0), 15)
    assert left.none_soft == Fraction(2, 7)
    assert left.expected == Fraction(15, 7)
    assert float(left.expected) == pytest.approx(2.1429, abs=5e-5)
    assert left.up_to(1) == HALF
    assert float(left.up_to(3)) == pytest.approx(0.77193, abs=5e-6)
    assert left.sentence == (
        "Of 15 not looked at, about 2 may be soft; 2 chances in 7 that none is. A belief, not a"
        " guarantee."
    )


def test_eighteen_others_after_one_soft_of_six() -> None:
    # Computed from the beta-binomial distribution.
    left = others(believe(6, 1), 18)
    assert float(left.none_soft) == pytest.approx(0.0700, abs=5e-5)
    assert left.expected == Fraction(9, 2)
    assert float(left.up_to(5)) == pytest.approx(0.66347, abs=5e-6)
    assert left.most_soft() == 10
    assert "4 or 5 may be soft; a chance of 7.0 % that none is." in left.sentence


def test_counts_to_come_as_another_program_prints_them() -> None:
    # Package LearnBayes for R, manual page of pbetap: Beta(3, 12), ten to come.
    printed = (
        0.1798418972, 0.2569169960, 0.2312252964, 0.1622633659, 0.0946536301, 0.0467700290,
        0.0194875121, 0.0066814327, 0.0017896695, 0.0003365190, 0.0000336519,
    )  # fmt: skip
    left = others(prior(3, 12), 10)
    assert [float(left.exactly(one)) for one in range(11)] == pytest.approx(printed, abs=6e-11)


def test_before_any_look_every_number_is_equally_likely() -> None:
    # Bayes 1763: with the uniform prior each count of m is as likely as any other.
    left = others(DEFAULT_PRIOR, 9)
    assert {left.exactly(one) for one in range(10)} == {Fraction(1, 10)}
    # Nineteen of twenty chances are just 95 %: 0 to 18 soft.
    assert others(DEFAULT_PRIOR, 19).most_soft() == 18


@given(st.integers(0, 200), st.data())
def test_the_rule_of_succession(checked: int, data: st.DataObject) -> None:
    # Laplace: after k of n the next is soft with the chance (k + 1) / (n + 2).
    soft = data.draw(st.integers(0, checked))
    after = believe(checked, soft)
    assert after.mean == Fraction(soft + 1, checked + 2)
    assert others(after, 1).exactly(1) == after.mean


weights = st.fractions(Fraction(1, 8), 50, max_denominator=8)
beliefs = st.builds(Belief, weights, weights)


@settings(max_examples=50, deadline=None)
@given(beliefs, st.integers(0, 60))
def test_the_chances_add_up_to_one(belief: Belief, remaining: int) -> None:
    left = others(belief, remaining)
    chances = [left.exactly(one) for one in range(remaining + 1)]
    assert sum(chances) == 1 == left.up_to(remaining)
    assert sum(count * one for count, one in enumerate(chances)) == left.expected
    assert left.none_soft == chances[0]
    assert left.exactly(-1) == left.exactly(remaining + 1) == 0


@settings(max_examples=60, deadline=None)
@given(beliefs, st.integers(1, 400), st.data())
def test_the_chances_agree_with_a_statistics_library(
    belief: Belief, remaining: int, data: st.DataObject
) -> None:
    # scipy.stats.betabinom(number to come, a, b).
    soft = data.draw(st.integers(0, remaining))
    left = others(belief, remaining)
    library = stats.betabinom(remaining, float(belief.soft), float(belief.sound))
    assert float(left.exactly(soft)) == pytest.approx(library.pmf(soft), rel=1e-8, abs=1e-14)
    assert float(left.up_to(soft)) == pytest.approx(library.cdf(soft), abs=1e-8)
    most = left.most_soft()
    assert left.up_to(most) >= Fraction(95, 100) - Fraction(1, 10**9)
    assert most == 0 or left.up_to(most - 1) < Fraction(95, 100)


@given(beliefs, st.floats(0.5, 0.99))
def test_the_shares_agree_with_a_statistics_library(belief: Belief, level: float) -> None:
    library = stats.beta(float(belief.soft), float(belief.sound))
    exact = Fraction(level).limit_denominator(1000)
    assert belief.interval(exact) == pytest.approx(library.interval(float(exact)), abs=1e-7)
    assert belief.upper(exact) == pytest.approx(library.ppf(float(exact)), abs=1e-7)


@given(beliefs, st.integers(0, 30), st.integers(0, 30), st.data())
def test_two_looks_are_one(first: Belief, one: int, two: int, data: st.DataObject) -> None:
    soft = data.draw(st.integers(0, one)), data.draw(st.integers(0, two))
    assert believe(two, soft[1], believe(one, soft[0], first)) == believe(
        one + two, sum(soft), first
    )


@given(beliefs, st.integers(1, 40))
def test_looking_takes_no_chance_out_of_nothing(belief: Belief, remaining: int) -> None:
    # The next is sound and then none of the rest soft: the same as none soft now.
    after = Belief(belief.soft, belief.sound + 1)
    step = (1 - belief.mean) * others(after, remaining - 1).none_soft
    assert others(belief, remaining).none_soft == step


def test_exact_and_by_logarithms_they_meet() -> None:
    belief = believe(40, 3, prior(HALF, Fraction(7, 3)))
    exact, nearly = others(belief, EXACT_UP_TO), others(belief, EXACT_UP_TO + 1)
    for soft in (0, 5, 40):
        library = stats.betabinom(EXACT_UP_TO + 1, float(belief.soft), float(belief.sound))
        assert float(nearly.exactly(soft)) == pytest.approx(library.pmf(soft), rel=1e-9)
        assert float(exact.exactly(soft)) == pytest.approx(float(nearly.exactly(soft)), rel=0.1)
    # Whole numbers: C(n + m - k, ...) by counting, n 40 and k 0 with the uniform prior.
    whole = others(believe(40, 0), 1_000)
    assert float(whole.none_soft) == pytest.approx(float(Fraction(41, 1_041)), rel=1e-9)


def test_the_largest_numbers_are_answered() -> None:
    left = others(believe(MOST_CHECKED, MOST_CHECKED // 2), MOST_CHECKED)
    assert left.expected == MOST_CHECKED // 2
    # About normal: mean 50,000, variance m p q (a + b + m) / (a + b + 1) = 50,000 (computed).
    assert left.most_soft() == pytest.approx(50_000 + 1.645 * 50_000**0.5, abs=2)
    assert "a chance of less than 0.1 % that none is" in left.sentence


@pytest.mark.parametrize(
    ("left", "words"),
    [
        (others(believe(5, 0), 0), "None is left that was not looked at. A belief"),
        (others(believe(5, 0), 1), "One was not looked at; 1 chance in 7 that it is soft."),
        (others(believe(30, 0), 3), "fewer than 1 may be soft; a chance of 91.2 % that none is."),
        (others(believe(7, 0), 1), "1 chance in 9 that it is soft."),
        (others(believe(5, 5), 4), "about 3 may be soft; a chance of 0.5 % that none is."),
    ],
)
def test_the_sentences(left: Others, words: str) -> None:
    assert words in left.sentence
    assert left.sentence.endswith("A belief, not a guarantee.")


def test_a_share_in_a_sentence() -> None:
    assert share_sentence(believe(8, 0)) == (
        "Of packages like these about 10.0 % may be soft, with 95 % belief from 0.3 % to 33.6 %."
        " A belief, not a guarantee."
    )


def test_nothing_left_holds_nothing_soft() -> None:
    left = others(believe(5, 1), 0)
    assert (left.expected, left.none_soft, left.most_soft()) == (0, 1, 0)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ImpossibleCount, match="soft ones among 5 cannot be 6"):
        believe(5, 6)
    with pytest.raises(ImpossibleCount, match="looked at cannot be -1"):
        believe(-1, 0)
    with pytest.raises(ImpossibleCount, match="cannot be 100001"):
        others(DEFAULT_PRIOR, MOST_CHECKED + 1)
    for soft, sound in ((0, 1), (1, 0), (-1, 3), (2_000_000, 1)):
        with pytest.raises(NoSuchPrior, match="cannot be used"):
            believe(5, 1, prior(soft, sound))


@given(st.integers(1, 60), st.integers(1, 60))
def test_with_nothing_known_a_clean_look_counts(checked: int, remaining: int) -> None:
    # Uniform prior, none soft of n: none of m more with C(n + m, n) / C(n + m + 1, n + 1).
    none_soft = others(believe(checked, 0), remaining).none_soft
    assert none_soft == Fraction(
        comb(checked + remaining, checked), comb(checked + remaining + 1, checked + 1)
    )
