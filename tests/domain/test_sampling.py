"""How many packages to look at, against tables and by the definition."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import comb

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from stockroom.domain.hypergeometric import Draw
from stockroom.domain.sampling import (
    LARGEST_LOT,
    ImpossibleSample,
    MissesAndAccepts,
    RateBelowOne,
    detection_probability,
    enough_for_any_lot,
    most_soft,
    passing,
    rough_number,
    sample_for_rate,
    sample_size,
)
from tests.domain.sampling_tables import (
    ANY_LOT,
    AT_MOST,
    FAULT_RATES,
    IMPERFECT,
    MISPRINTS,
    ONE_ALLOWED,
    RATES,
    SHARE_GOOD,
    rows,
)

SURE_95 = Fraction(95, 100)
SOFT = (0, 1, 2, 3, 5)


@pytest.mark.parametrize("percent", FAULT_RATES)
def test_the_number_for_a_fault_rate(percent: int) -> None:
    # ISPM 31, FAO/IPPC 2008; see the table for the standing of each part.
    for lot_text, *cells in rows(FAULT_RATES[percent]):
        lot = int(lot_text)
        for rate, cell in zip(RATES, cells, strict=True):
            if cell == "-":
                with pytest.raises(RateBelowOne):
                    sample_for_rate(lot, rate, Fraction(percent, 100))
                continue
            found = sample_for_rate(lot, rate, Fraction(percent, 100))
            assert found.inspect == int(cell.rstrip("*")), (lot, rate)
            assert ((lot * rate).denominator == 1) is not cell.endswith("*"), (lot, rate)
            assert found.refuted_by == lot * rate // 1


@pytest.mark.parametrize(("lot", "rate", "percent", "printed", "exact"), MISPRINTS)
def test_two_printed_cells_are_wrong(
    lot: int, rate: Fraction, percent: int, printed: int, exact: int
) -> None:
    # ISPM 31: 56 for 100 at 2 % takes "less than" where the rest of the table takes "at most", as
    # the chance with 55 is just 1/5; 2114 for 20000 at 0.1 % is a slip for 2174.
    allowed = 1 - Fraction(percent, 100)
    assert sample_for_rate(lot, rate, Fraction(percent, 100)).inspect == exact != printed
    missed = {opened: chance_by_hand(lot, int(lot * rate), opened) for opened in (printed, exact)}
    assert missed[exact] <= allowed
    if printed < exact:
        assert missed[printed] > allowed
    else:
        assert missed[exact] == allowed


def chance_by_hand(lot: int, soft: int, opened: int) -> Fraction:
    """The chance that none of those looked at is soft, from its definition."""
    return Fraction(comb(lot - soft, opened), comb(lot, opened))


@pytest.mark.parametrize("percent", ANY_LOT)
def test_enough_for_a_lot_of_any_size(percent: int) -> None:
    found = tuple(enough_for_any_lot(rate, Fraction(percent, 100)) for rate in RATES)
    assert found == ANY_LOT[percent]


def test_enough_for_any_lot_is_enough_for_every_lot() -> None:
    for lot in (20, 100, 1_000, LARGEST_LOT):
        found = sample_for_rate(lot, Fraction(1, 20), SURE_95).inspect
        assert found is not None and found <= enough_for_any_lot(Fraction(1, 20), SURE_95)
    assert enough_for_any_lot(Fraction(1), SURE_95) == 1
    # (1 - 1/2)^n meets 1/8 just at n = 3.
    assert enough_for_any_lot(Fraction(1, 2), Fraction(7, 8)) == 3


@pytest.mark.parametrize("percent", AT_MOST)
def test_the_number_for_at_most_so_many_soft(percent: int) -> None:
    for lot_text, *cells in rows(AT_MOST[percent]):
        for at_most, cell in zip(SOFT, cells, strict=True):
            if cell == "-":
                with pytest.raises(ImpossibleSample):
                    sample_size(int(lot_text), at_most, Fraction(percent, 100))
                continue
            found = sample_size(int(lot_text), at_most, Fraction(percent, 100))
            assert found.inspect == int(cell), (lot_text, at_most)


def test_the_number_when_one_soft_is_allowed_for() -> None:
    for lot_text, *cells in rows(ONE_ALLOWED):
        for at_most, cell in zip(SOFT, cells, strict=True):
            if cell == "-":
                with pytest.raises(ImpossibleSample):
                    sample_size(int(lot_text), at_most, SURE_95, accept=1)
                continue
            found = sample_size(int(lot_text), at_most, SURE_95, accept=1)
            assert found.inspect == int(cell), (lot_text, at_most)


def test_the_number_for_a_share_of_good_ones() -> None:
    for lot_text, *cells in rows(SHARE_GOOD):
        lot = int(lot_text)
        for good, cell in zip((50, 70, 90), cells, strict=True):
            at_most = int(lot * Fraction(100 - good, 100))
            assert sample_size(lot, at_most, SURE_95).inspect == int(cell), (lot, good)


def test_the_number_with_an_imperfect_check() -> None:
    for lot, soft, *cells in rows(IMPERFECT):
        for percent, cell in zip((100, 90, 80, 60), cells, strict=True):
            found = sample_size(
                int(lot), int(soft) - 1, SURE_95, sensitivity=Fraction(percent, 100)
            )
            wanted = None if cell == "-" else int(cell)
            assert found.inspect == wanted, (lot, soft, percent)


def test_the_chance_behind_a_number() -> None:
    # Computed: 14/285 is 6188/125970, 7/95 is 12376/167960.
    found = sample_size(20, 2, SURE_95)
    assert (found.inspect, found.detection_probability) == (12, float(1 - Fraction(14, 285)))
    assert detection_probability(20, 3, 12) == 1 - Fraction(6188, 125970)
    assert detection_probability(20, 3, 11) == 1 - Fraction(12376, 167960)
    assert float(1 - detection_probability(20, 3, 12)) == pytest.approx(0.04912, abs=5e-6)
    assert float(1 - detection_probability(20, 3, 11)) == pytest.approx(0.0737, abs=5e-5)


def test_the_rough_rule() -> None:
    # Cannon and Roe 1982 (from memory): 12.0 where the exact number is 12.
    assert rough_number(20, 3, SURE_95) == pytest.approx(12.0, abs=0.05)


@pytest.mark.parametrize(
    ("lot", "soft", "opened", "percent", "chance"),
    [(20, 2, 10, 80, 0.648421), (20, 2, 20, 80, 0.9600), (50, 5, 20, 90, 0.902990)],
)
def test_the_chance_with_an_imperfect_check(
    lot: int, soft: int, opened: int, percent: int, chance: float
) -> None:
    # Computed from the definition.
    found = detection_probability(lot, soft, opened, Fraction(percent, 100))
    assert float(found) == pytest.approx(chance, abs=5e-7)


def test_impossible_is_an_answer() -> None:
    found = sample_size(20, 1, SURE_95, sensitivity=Fraction(60, 100))
    assert found.inspect is None
    # Both of two soft ones missed with all 20 looked at: 0.4 x 0.4.
    assert found.detection_probability == pytest.approx(1 - 0.16, abs=1e-15)
    assert found.sentence == (
        "Impossible: even with all 20 checked in this way, 2 soft would be noticed only 84.00 % of"
        " the time. Use a better check: open them, weigh them, break a piece."
    )
    assert passing(found) == ()


def test_impossible_never_reads_like_enough() -> None:
    # Nine soft, each noticed with 0.2831: 0.94996 of the time, which 95.0 % would hide.
    found = sample_size(20, 8, SURE_95, sensitivity=Fraction(2831, 10_000))
    assert found.inspect is None
    assert 0.9495 < found.detection_probability < 0.95
    assert "only 94.99 % of the time" in found.sentence


def test_the_sentences() -> None:
    assert sample_size(20, 2, SURE_95).sentence == (
        "Look at 12 of 20, picked at random: if none is found soft, then with 95 % confidence at"
        " most 2 of the 20 are soft."
    )
    assert sample_size(20, 0, Fraction(995, 1000)).sentence == (
        "Look at 20 of 20, picked at random: if none is found soft, then with 99.5 % confidence"
        " none of the 20 is soft."
    )
    assert sample_size(20, 1, SURE_95, accept=1).sentence == (
        "Look at 20 of 20, picked at random: if at most 1 is found soft, then with 95 % confidence"
        " at most 1 of the 20 is soft."
    )
    glance = sample_size(20, 2, SURE_95, sensitivity=Fraction(9, 10)).sentence
    assert glance.startswith("Look at 14 of 20 in this way, picked at random: ")
    assert most_soft(20, 12, 0, SURE_95).sentence == (
        "12 of 20 looked at, none soft: with 95 % confidence at most 2 of the 20 are soft."
    )
    assert most_soft(20, 0, 0, SURE_95).sentence == (
        "0 of 20 looked at, none soft: that says nothing yet about the others."
    )
    assert most_soft(20, 20, 1, SURE_95).sentence == (
        "20 of 20 looked at, 1 soft: with 95 % confidence at most 1 of the 20 is soft."
    )


lots = st.integers(1, 40)
confidences = st.sampled_from([Fraction(one, 100) for one in (50, 80, 90, 95, 99)])
sensitivities = st.sampled_from([Fraction(one, 10) for one in (10, 9, 8, 5, 2)])


@given(lots, st.data(), confidences, sensitivities)
def test_the_number_is_the_least_that_does(
    lot: int, data: st.DataObject, confidence: Fraction, sensitivity: Fraction
) -> None:
    at_most = data.draw(st.integers(0, lot - 1))
    accept = data.draw(st.integers(0, at_most)) if sensitivity == 1 else 0
    found = sample_size(lot, at_most, confidence, accept=accept, sensitivity=sensitivity)
    enough = [
        opened
        for opened in range(lot + 1)
        if missed(lot, at_most + 1, opened, accept, sensitivity) <= 1 - confidence
    ]
    assert found.inspect == (enough[0] if enough else None)
    looked_at = lot if found.inspect is None else found.inspect
    wanted = 1 - missed(lot, at_most + 1, looked_at, accept, sensitivity)
    assert found.detection_probability == pytest.approx(float(wanted), abs=1e-15)


def missed(lot: int, soft: int, opened: int, accept: int, sensitivity: Fraction) -> Fraction:
    """The chance that at most `accept` are noticed, each soft one noticed or not by itself."""
    total = Fraction(0)
    for found in range(max(0, soft + opened - lot), min(soft, opened) + 1):
        ways = comb(soft, found) * comb(lot - soft, opened - found)
        noticed_few = sum(
            comb(found, k) * sensitivity**k * (1 - sensitivity) ** (found - k)
            for k in range(min(accept, found) + 1)
        )
        total += ways * noticed_few
    return total / comb(lot, opened)


@given(lots, st.data(), confidences, sensitivities)
def test_more_soft_ones_and_better_checks_need_less(
    lot: int, data: st.DataObject, confidence: Fraction, sensitivity: Fraction
) -> None:
    at_most = data.draw(st.integers(0, lot - 1))
    assume(at_most + 1 < lot)

    def number(of: int, most: int, sure: Fraction, finds: Fraction) -> int:
        found = sample_size(of, most, sure, sensitivity=finds).inspect
        return of + 1 if found is None else found

    asked = number(lot, at_most, confidence, sensitivity)
    assert number(lot, at_most + 1, confidence, sensitivity) <= asked
    assert number(lot, at_most, confidence, Fraction(1)) <= asked
    assert number(lot, at_most, confidence / 2, sensitivity) <= asked
    if asked <= lot:
        assert number(lot + 1, at_most, confidence, sensitivity) >= asked


@given(lots, st.data(), sensitivities)
def test_looking_at_more_finds_more(lot: int, data: st.DataObject, sensitivity: Fraction) -> None:
    soft, opened = data.draw(st.integers(1, lot)), data.draw(st.integers(0, lot - 1))
    chance = detection_probability(lot, soft, opened, sensitivity)
    assert detection_probability(lot, soft, opened + 1, sensitivity) > chance or chance == 1
    assert detection_probability(lot, soft - 1, opened, sensitivity) <= chance
    sure = detection_probability(lot, soft, opened)
    assert sure >= chance
    assert sure == 1 - chance_by_hand(lot, soft, opened)


@given(lots, st.data(), confidences)
def test_a_look_and_its_planning_say_the_same(
    lot: int, data: st.DataObject, confidence: Fraction
) -> None:
    at_most = data.draw(st.integers(0, lot - 1))
    accept = data.draw(st.integers(0, at_most))
    inspect = sample_size(lot, at_most, confidence, accept=accept).inspect
    assert inspect is not None
    assert most_soft(lot, inspect, min(accept, inspect), confidence).most <= at_most
    if inspect > accept:
        assert most_soft(lot, inspect - 1, accept, confidence).most > at_most


@given(lots, st.data(), confidences)
def test_what_a_look_says_is_the_least_number_not_refuted(
    lot: int, data: st.DataObject, confidence: Fraction
) -> None:
    opened = data.draw(st.integers(0, lot))
    found = data.draw(st.integers(0, opened))
    most = most_soft(lot, opened, found, confidence).most
    assert found <= most <= lot - (opened - found)
    chances = [missed(lot, soft, opened, found, Fraction(1)) for soft in range(found, lot + 1)]
    refuted = [found + step for step, one in enumerate(chances) if one <= 1 - confidence]
    assert most == (refuted[0] - 1 if refuted else lot)


def test_what_an_imperfect_look_says() -> None:
    # 17 of 20 with a check that notices 90 %: at most 1, by the table; sure eyes need 16.
    assert most_soft(20, 17, 0, SURE_95, sensitivity=Fraction(9, 10)).most == 1
    assert most_soft(20, 16, 0, SURE_95, sensitivity=Fraction(9, 10)).most == 2
    assert most_soft(20, 20, 0, SURE_95, sensitivity=Fraction(1, 100)).most == 20


def test_what_lots_pass() -> None:
    found = passing(sample_size(20, 2, SURE_95))
    assert [soft for soft, _ in found] == [1, 2, 3, 5, 6, 10]
    for soft, chance in found:
        assert chance == pytest.approx(float(chance_by_hand(20, soft, 12)), abs=1e-15)
    assert [soft for soft, _ in passing(sample_size(1, 0, SURE_95))] == [1]
    for known in ({"accept": 1}, {"sensitivity": Fraction(9, 10)}):
        sample = sample_size(24, 3, SURE_95, **known)
        for soft, chance in passing(sample):
            wanted = missed(24, soft, sample.inspect or 0, sample.accept, sample.sensitivity)
            assert chance == pytest.approx(float(wanted), abs=1e-15)


LARGE: tuple[tuple[int, int, dict[str, Fraction | int]], ...] = (
    (0, 95_000, {}),
    (50_000, 5, {}),
    (99_999, 1, {}),
    (50_000, 50_261, {"accept": 25_000}),
    (50_000, 5_990, {"sensitivity": Fraction(1, 1000)}),
    (500, 596, {"sensitivity": Fraction(999, 1000)}),
)
"""Soft at most and the number to look at of 100,000; the last three also found by halving with
scipy.stats.hypergeom, the first three follow from the definition."""


@pytest.mark.parametrize(("at_most", "wanted", "known"), LARGE)
def test_the_largest_lot_needs_no_sum_of_long_numbers(
    at_most: int,
    wanted: int,
    known: dict[str, Fraction | int],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[Draw] = []
    exactly: Callable[[Draw], Fraction] = Draw.passes

    def counted(draw: Draw) -> Fraction:
        asked.append(draw)
        return exactly(draw)

    monkeypatch.setattr(Draw, "passes", counted)
    found = sample_size(LARGEST_LOT, at_most, SURE_95, **known)
    assert found.inspect == wanted
    # Only one soft in the lot can meet 1/20 exactly; that sum has one term.
    assert all(draw.soft == 1 for draw in asked)
    refuted = {"accept": 0, "sensitivity": Fraction(1), **known}
    draws = [Draw(LARGEST_LOT, at_most + 1, one, **refuted) for one in (wanted, wanted - 1)]
    (_, high), (low, _) = (draw.bounds() for draw in draws)
    assert high <= Fraction(1, 20) < low or at_most == 0


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda: sample_size(0, 0, SURE_95), "packages in the lot cannot be 0"),
        (lambda: sample_size(LARGEST_LOT + 1, 0, SURE_95), "cannot be 100001"),
        (lambda: sample_size(20, 20, SURE_95), "may be in the lot cannot be 20"),
        (lambda: sample_size(20, -1, SURE_95), "cannot be -1"),
        (lambda: sample_size(20, 1, SURE_95, accept=2), "allowed for in the sample cannot be 2"),
        (lambda: sample_size(20, 1, Fraction(1)), "confidence cannot be 100 %"),
        (lambda: sample_size(20, 1, Fraction(0)), "confidence cannot be 0 %"),
        (lambda: sample_size(20, 1, SURE_95, sensitivity=Fraction(0)), "sensitivity cannot be 0 %"),
        (lambda: sample_for_rate(20, Fraction(0), SURE_95), "share that is soft cannot be 0 %"),
        (lambda: enough_for_any_lot(Fraction(3, 2), SURE_95), "soft cannot be 150 %"),
        (lambda: most_soft(20, 21, 0, SURE_95), "looked at cannot be 21"),
        (lambda: most_soft(20, 5, 6, SURE_95), "found cannot be 6"),
        (lambda: detection_probability(20, 21, 5), "soft packages cannot be 21"),
        (lambda: detection_probability(20, 2, 21), "looked at cannot be 21"),
    ],
)
def test_what_cannot_be_is_refused(ask: Callable[[], object], words: str) -> None:
    with pytest.raises(ImpossibleSample) as refusal:
        ask()
    assert words in refusal.value.message and refusal.value.hint.startswith("It has to be ")


def test_an_imperfect_check_allows_for_none() -> None:
    for ask in (
        lambda: sample_size(20, 2, SURE_95, accept=1, sensitivity=Fraction(9, 10)),
        lambda: most_soft(20, 5, 1, SURE_95, sensitivity=Fraction(9, 10)),
    ):
        with pytest.raises(MissesAndAccepts, match="not one that finds 90 %"):
            ask()


@settings(max_examples=40, deadline=None)
@given(st.integers(1, LARGEST_LOT), st.data(), confidences)
def test_lots_of_any_size_are_answered_exactly(
    lot: int, data: st.DataObject, confidence: Fraction
) -> None:
    at_most = data.draw(st.integers(0, min(lot - 1, 50)))
    inspect = sample_size(lot, at_most, confidence).inspect
    assert inspect is not None

    def passes(opened: int) -> Fraction:
        ways = [Fraction(lot - opened - one, lot - one) for one in range(at_most + 1)]
        product = Fraction(1)
        for one in ways:
            product *= max(one, Fraction(0))
        return product

    assert passes(inspect) <= 1 - confidence < passes(inspect - 1)
