"""The odds of waste: the stream against published values, the odds against closed formulas."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from fractions import Fraction
from math import log, sqrt
from statistics import NormalDist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import kstest

from stockroom.domain.horizon.chance_stream import ChanceStream
from stockroom.domain.horizon.eating import FoodEating, Pace, steady
from stockroom.domain.horizon.forecast import Fate, forecast
from stockroom.domain.horizon.odds import NINTH_TENTH, Odds, odds_of_waste
from stockroom.domain.horizon.planned import PlannedUse
from stockroom.domain.horizon.stock import StockPackage
from tests.domain.horizon_cases import START, day, package, rates, shelves

NORMAL = NormalDist()


def played(
    shelf: list[StockPackage],
    *eating: FoodEating,
    rounds: int = 4000,
    days: int = 365,
    seed: int = 26329,
    planned: tuple[PlannedUse, ...] = (),
    spread: float = 0.0,
    cancelled: Callable[[], bool] | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Odds:
    """The odds with one spread for food 1."""
    return odds_of_waste(
        shelf, eating, START, days=days, rounds=rounds, chance=ChanceStream(seed), planned=planned,
        spreads={1: spread, 2: spread, 3: spread}, cancelled=cancelled, progress=progress,
    )  # fmt: skip


def test_the_stream_gives_the_published_values() -> None:
    # SplitMix64 seeded with 1234567: the five values of Rosetta Code's task "Splitmix64"; with 0:
    # the first values of the reference program splitmix64.c.
    assert ChanceStream(1_234_567).words(5) == [
        6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431,
        16408922859458223821,
    ]  # fmt: skip
    assert ChanceStream(0).words(3) == [
        0xE220A8397B1DCDAF, 0x6E789E6AA1B965F4, 0x06C45D188009454F,
    ]  # fmt: skip


def test_the_stream_goes_on_where_it_ended() -> None:
    stream = ChanceStream(7)
    assert [*stream.words(2), *stream.words(3)] == ChanceStream(7).words(5)
    assert ChanceStream(-1).words(2) == ChanceStream(2**64 - 1).words(2)
    assert len(ChanceStream(7).normals(3)) == 3 and ChanceStream(7).normals(0) == []


def test_normal_values_are_normal() -> None:
    # Kolmogorov and Smirnov's test in scipy; the seed is fixed, so it answers the same every time.
    assert kstest(ChanceStream(26329).normals(20_000), "norm").pvalue > 0.01
    assert NORMAL.inv_cdf(0.9) == pytest.approx(NINTH_TENTH, abs=1e-12)


@pytest.mark.parametrize("band", [(40, 300), (90, 101), (100, 300), (40, 100)])
@pytest.mark.parametrize("days", [40, 100, 180, 300])
def test_a_package_nobody_eats_passes_as_its_band_says(band: tuple[int, int], days: int) -> None:
    # Made 100 days before the start, best by day 100: a life of 200 days. Its logarithm is normal
    # about that with its own width to either side, so the chance is in closed form.
    one = package(1, 100, band=band)
    edge = 100 + (band[0] if days < 100 else band[1])
    width = abs(log(edge / 200)) / NINTH_TENTH
    at = log((100 + days) / 200)
    expected = float(at >= 0) if not width else NORMAL.cdf(at / width)
    (found,) = played([one], days=days).foods[0].packages
    assert found.chance == pytest.approx(expected, abs=4 * sqrt(0.25 / 4000))
    assert found.unused_share == pytest.approx(found.chance)
    assert found.standard_error == pytest.approx(sqrt(found.chance * (1 - found.chance) / 4000))


def test_one_in_ten_passes_before_the_low_edge() -> None:
    (found,) = played([package(1, 100, band=(40, 300))], days=40).foods[0].packages
    assert found.chance == pytest.approx(0.1, abs=0.02)


@pytest.mark.parametrize("servings", [60, 100, 130])
def test_eating_may_be_slower_than_thought(servings: int) -> None:
    # One a day for 100 days, log-normal about that mean with a spread of 0.4: closed form.
    width = sqrt(log(1 + 0.4**2))
    expected = NORMAL.cdf((log(servings / 100) + width**2 / 2) / width)
    odds = played([package(1, 100, servings)], steady(1, Fraction(1)), spread=0.4)
    assert odds.foods[0].packages[0].chance == pytest.approx(expected, abs=0.035)


def test_eating_keeps_its_mean() -> None:
    # Best by beyond the end: the mean left over is what is not eaten of 10,000 in 100 days.
    odds = played([package(1, 100, 10_000)], steady(1, Fraction(10)), spread=0.3)
    assert odds.foods[0].unused_servings == pytest.approx(9_000, rel=0.003)


@settings(max_examples=60)
@given(shelves(foods=2), st.lists(rates, min_size=2, max_size=2))
def test_without_doubt_the_odds_are_the_forecast(
    shelf: list[StockPackage], a_day: list[Fraction]
) -> None:
    eating = [
        FoodEating(1, (Pace(date.min, a_day[0]), Pace(day(9), a_day[1]))),
        steady(2, a_day[1]),
    ]
    planned = (PlannedUse(1, day(4), Fraction(5, 2)),)
    sure = forecast(shelf, eating, START, days=30, planned=planned)
    odds = played(shelf, *eating, rounds=2, days=30, planned=planned)
    for food, plain in zip(odds.foods, sure.foods, strict=True):
        assert food.unused_servings == pytest.approx(float(plain.unused_servings), abs=1e-9)
        assert food.lasts_share == float(plain.lasts)
        passes = {one.package.package_id: one for one in plain.packages}
        for one in food.packages:
            unused = float(passes[one.package.package_id].unused_servings)
            if unused > 1e-6 or one.unused_share > 1e-6:
                assert one.chance == 1.0
                assert passes[one.package.package_id].fate in (Fate.UNUSED, Fate.PARTLY)


def test_when_it_may_run_out() -> None:
    shelf = [package(1, 300, 100)]
    (sure,) = played(shelf, steady(1, Fraction(1)), rounds=3).foods
    assert (sure.early, sure.middle, sure.late) == (day(99), day(99), day(99))
    (found,) = played(shelf, steady(1, Fraction(1)), spread=0.25).foods
    # Days to eat 100 at a pace log-normal about 1: quantiles in closed form.
    width = sqrt(log(1 + 0.25**2))
    for said, share in ((found.early, 0.1), (found.middle, 0.5), (found.late, 0.9)):
        assert said is not None
        days = 100 * 2.718281828459045 ** (NORMAL.inv_cdf(share) * width + width**2 / 2)
        assert (said - START).days == pytest.approx(days, abs=4)
    (lasting,) = played(shelf, steady(1, Fraction(1, 4)), days=100, rounds=50).foods
    assert (lasting.early, lasting.lasts_share) == (None, 1.0)


def test_doubt_is_shared_within_a_food() -> None:
    # Packages of one food go together more often than those of two.
    def both(second_food: int) -> float:
        shelf = [package(1, 100, band=(40, 250)), package(2, 100, food=second_food, band=(40, 250))]
        joint = 0
        stream = ChanceStream(11)
        for _ in range(1500):
            odds = odds_of_waste(shelf, [], START, days=70, rounds=1, chance=stream)
            joint += all(one.chance for food in odds.foods for one in food.packages)
        return joint / 1500

    assert both(1) > both(2) + 0.03


def test_the_same_seed_gives_the_same_and_another_another() -> None:
    shelf = [package(number, 60 + number, 4, band=(30, 200)) for number in range(20)]
    pace = steady(1, Fraction(1))
    first = played(shelf, pace, rounds=40, spread=0.25)
    assert played(list(reversed(shelf)), pace, rounds=40, spread=0.25) == first
    assert played(shelf, pace, rounds=40, spread=0.25, seed=2) != first


def test_progress_is_told_and_it_can_be_stopped() -> None:
    seen: list[tuple[int, int]] = []
    odds = played(
        [package(1, 100, band=(40, 300))], rounds=9,
        progress=lambda done, asked: seen.append((done, asked)), cancelled=lambda: len(seen) >= 3,
    )  # fmt: skip
    assert seen == [(1, 9), (2, 9), (3, 9)]
    assert (odds.rounds, odds.asked_rounds, odds.stopped) == (3, 9, True)
    at_once = played([package(1, 100)], rounds=9, cancelled=lambda: True)
    assert at_once.rounds == 0 and at_once.foods[0].packages == ()
    assert at_once.foods[0].middle is None
    with pytest.raises(ValueError, match="0 rounds"):
        played([], rounds=0)


def test_what_is_past_or_planned_is_left_out_and_the_usual_spread_stands() -> None:
    shelf = [package(1, -4), package(2, 50, 3), package(3, 60, 0), package(4, 70, 2)]
    planned = (PlannedUse(1, day(5), Fraction(3), package_id=2),)
    odds = odds_of_waste(
        shelf, [steady(1, Fraction(1, 35))], START, days=90, rounds=400, chance=ChanceStream(3),
        planned=planned,
    )  # fmt: skip
    assert [one.package.package_id for one in odds.foods[0].packages] == [4]
    # Two in seventy days at one in thirty-five: about an even chance, as the spread is a quarter.
    assert odds.foods[0].packages[0].chance == pytest.approx(0.55, abs=0.08)


def test_a_package_without_any_life_passes() -> None:
    (found,) = played([package(1, 5, made=5, band=(3, 9))], rounds=5, days=30).foods[0].packages
    assert found.chance == 1.0
