"""How a number to look at and a belief are explained."""

from __future__ import annotations

from fractions import Fraction
from math import prod

import pytest

from stockroom.domain.belief import EQUALLY_LIKELY, Belief, ImpossibleCount
from stockroom.domain.belief_working import belief_working
from stockroom.domain.sampling import (
    FAULT_RATE,
    IMPERFECT_CHECK,
    LARGEST_LOT,
    ROUGH_RULE,
    ImpossibleSample,
)
from stockroom.domain.sampling_working import sample_working
from stockroom.domain.working import Step, Working

SURE_95 = Fraction(95, 100)


def step_of(working: Working, title: str) -> Step:
    """The step with this title."""
    (found,) = (one for one in working.steps if one.title == title)
    return found


def given_in(step: Step) -> dict[str, str]:
    """The inputs of a step by name."""
    return {one.name: one.value_text for one in step.inputs}


def test_a_number_is_derived_from_the_definition() -> None:
    working = sample_working(20, 2, SURE_95)
    assert step_of(working, "soft packages that must not go unnoticed").figures == "2 + 1"
    allowed = step_of(working, "chance to go unnoticed that is allowed")
    assert (allowed.figures, allowed.result) == ("1 - 95 %", "0.050000 (1/20)")
    chance = step_of(working, "chance that they go unnoticed")
    assert chance.figures == "C(20 - 3, 12) / C(20, 12)"
    # 6188/125970 = 14/285, and 12376/167960 = 7/95 with one fewer (computed).
    assert chance.result == "0.049123 (14/285)"
    least = step_of(working, "least number")
    assert least.result.startswith("12: ")
    assert given_in(least)["chance to go unnoticed with 11"] == "0.073684 (7/95)"
    assert step_of(working, "chance to notice them").result == "0.950877"


def test_what_would_change_a_number() -> None:
    working = sample_working(20, 2, SURE_95)
    others = given_in(step_of(working, "what would change it"))
    # The tables of 90 % and 95 % confidence, and of imperfect checks.
    assert others["with 90 % confidence"] == "11"
    assert others["for at most 1 soft"] == "16"
    assert others["for at most 3 soft"] == "10"
    assert others["with a check that finds 60 % of soft ones"] == "impossible"
    assert "with 95 % confidence" not in others
    # Three of twenty are 15 %: least n with 0.85^n at most 1/20 (binomial, computed).
    assert 0.85**19 <= 0.05 < 0.85**18
    assert step_of(working, "enough for a lot of any size").result == "19"
    assert step_of(working, "rough rule, for the head").result == "12.0"
    assert {FAULT_RATE, ROUGH_RULE} <= set(working.sources)


def test_an_imperfect_check_is_derived_with_its_own_formula() -> None:
    working = sample_working(20, 1, SURE_95, sensitivity=Fraction(60, 100))
    chance = step_of(working, "chance that they go unnoticed")
    assert chance.figures == "sum over k of C(2, k) x C(20 - 2, 20 - k) / C(20, 20) x (1 - 60 %)^k"
    assert chance.result == "0.160000 (4/25)"
    assert IMPERFECT_CHECK in chance.sources
    least = step_of(working, "least number")
    assert least.result == "impossible: the whole lot is not enough"
    others = given_in(step_of(working, "what would change it"))
    assert others["with a check that finds 80 % of soft ones"] == "20"
    assert others["with a check that finds 100 % of soft ones"] == "16"


def test_soft_ones_allowed_for_are_derived_with_their_sum() -> None:
    working = sample_working(100, 3, SURE_95, accept=1)
    chance = step_of(working, "chance that they go unnoticed")
    assert chance.figures.startswith("sum over k from 0 to 1 of C(4, k) x C(100 - 4, 75 - k)")
    others = given_in(step_of(working, "what would change it"))
    assert others["for at most 2 soft"] == "87"
    assert not any("check that finds" in name for name in others)


def test_the_largest_lot_has_a_working_too() -> None:
    working = sample_working(LARGEST_LOT, 30_000, SURE_95)
    # 30,001 soft, nine looked at: nine sound ones in turn.
    sound_nine = prod(Fraction(69_999 - one, 100_000 - one) for one in range(9))
    chance = step_of(working, "chance that they go unnoticed")
    assert chance.result == f"{float(sound_nine):.6f}"
    assert step_of(working, "enough for a lot of any size").result == "9"


def test_a_number_comes_with_what_to_bear_in_mind() -> None:
    said = " ".join(sample_working(20, 2, SURE_95).cautions)
    for words in (
        "Pick at random",
        "Opening a package uses it",
        "look at every package of the lot (engineering judgement)",
        "local codes and licensed guidance",
    ):
        assert words in said


def test_a_belief_is_derived_from_prior_and_counts() -> None:
    working = belief_working(5, 0, remaining=15)
    soft = step_of(working, "soft counted with the prior")
    sound = step_of(working, "sound counted with the prior")
    assert (soft.figures, soft.result) == ("1 + 0", "1")
    assert (sound.figures, sound.result) == ("1 + 5 - 0", "6")
    assert EQUALLY_LIKELY in soft.sources
    assert step_of(working, "share expected to be soft").result == "0.142857 (1/7)"
    assert step_of(working, "soft ones expected among them").figures == "15 x 1 / (1 + 6)"
    none_soft = step_of(working, "chance that none of them is soft")
    assert (none_soft.figures, none_soft.result) == ("B(1, 6 + 15) / B(1, 6)", "0.285714 (2/7)")
    others = given_in(step_of(working, "what would change it"))
    # (1 + 1) / (2 + 5 + 1) and 1 / 8; Beta(1, 19) after five sound ones: 1 / 25.
    assert others["after one more, soft"] == "0.2500"
    assert others["after one more, sound"] == "0.1250"
    assert others["with the prior 1,19"] == "0.0400"
    assert any("not a guarantee" in text for text in working.cautions)


def test_a_prior_of_ones_own_has_no_source() -> None:
    working = belief_working(5, 1, Belief(Fraction(1), Fraction(19)))
    assert EQUALLY_LIKELY not in working.sources
    others = given_in(step_of(working, "what would change it"))
    assert "with the prior 1,19" not in others and "with the prior 0.5,0.5" in others
    assert not any("none of them" in step.title for step in working.steps)


def test_many_others_are_given_without_a_fraction() -> None:
    working = belief_working(40, 0, remaining=1_000)
    found = step_of(working, "chance that none of them is soft").result
    assert found == f"{41 / 1041:.6f}"


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ImpossibleSample):
        sample_working(20, 20, SURE_95)
    with pytest.raises(ImpossibleCount):
        belief_working(5, 6)
