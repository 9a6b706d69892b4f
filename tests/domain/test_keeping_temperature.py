"""Warmth: the piecewise law, mean kinetic temperature and life fractions."""

from __future__ import annotations

from fractions import Fraction
from math import exp, isclose, log

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from stockroom.domain.keeping.refusals import ImpossibleFigure, TooWarm
from stockroom.domain.keeping.temperature import (
    arrhenius_life,
    degrees_for,
    energy_of_q10,
    equivalent_temperature,
    life_at,
    life_used,
    mean_kinetic_temperature,
    mean_temperature,
    plain_life,
    q10_between,
    q10_of_energy,
    temperature_factor,
)
from stockroom.domain.units import celsius

YEAR_OF_MONTHS = tuple(
    (float(at_c), 1.0) for at_c in (16, 16, 17, 18, 20, 23, 26, 26, 23, 20, 18, 16)
)
temperatures = st.floats(-30, 45)
q10s = st.floats(1, 6)
readings = st.lists(st.tuples(st.floats(-20, 45), st.floats(0.01, 500)), min_size=1, max_size=12)


def test_q10_from_two_lives() -> None:
    # Sewald and DeVries, Medallion Laboratories (published, secondary copy).
    assert q10_between(20, 20, 10, 30) == 2


def test_degrees_that_change_a_life_threefold() -> None:
    # About 15.8 in an encyclopaedia article on shelf life (published); digits computed.
    assert degrees_for(2, 3) == pytest.approx(15.850, abs=0.001)


def test_home_dried_fruit_between_two_temperatures() -> None:
    # 12 months at 60 F, 6 at 80 F: National Center for Home Food Preservation (published).
    cool, warm = float(celsius(60)), float(celsius(80))
    q10 = q10_between(12, cool, 6, warm)
    assert q10 == pytest.approx(1.8661, abs=0.0001)
    assert plain_life(12, q10, cool, 21) == pytest.approx(8.544, abs=0.001)


def test_a_year_of_monthly_means() -> None:
    # Computed; the formula of US Pharmacopeia <1160> (published).
    assert mean_temperature(YEAR_OF_MONTHS) == pytest.approx(19.917, abs=0.001)
    assert mean_kinetic_temperature(YEAR_OF_MONTHS) == pytest.approx(20.654, abs=0.001)
    assert mean_kinetic_temperature(YEAR_OF_MONTHS, 51.216) == pytest.approx(20.347, abs=0.001)
    assert life_used(10, 2, YEAR_OF_MONTHS).used_fraction == pytest.approx(0.09580, abs=0.00001)
    assert equivalent_temperature(2, YEAR_OF_MONTHS) == pytest.approx(20.380, abs=0.001)


def test_what_remains_after_a_year() -> None:
    used = life_used(10, 2, YEAR_OF_MONTHS)
    assert used.remaining_years_at_21c == pytest.approx(10 * (1 - 0.09580), abs=0.0001)
    assert life_used(1, 2, [(30, 12)]).remaining_years_at_21c == 0


def test_mean_kinetic_temperature_of_a_printed_example() -> None:
    # Isopharm worked example, printed 15.7 (published). With the energy taken as J instead of kJ
    # the same readings give 10.096, which a data-logger maker prints.
    shown = mean_kinetic_temperature([(20, 2), (2, 4), (25, 1)])
    assert shown == pytest.approx(15.678, abs=0.01)
    assert not isclose(shown, 10.096, abs_tol=1)


def test_time_weighs_in_the_kinetic_mean() -> None:
    # A direct sum with unequal times, in kelvin, by hand.
    uneven = [(5.0, 700.0), (35.0, 44.0)]
    constant = 83144 / 8.3144
    wear = sum(time * exp(-constant / (at_c + 273.15)) for at_c, time in uneven) / 744
    expected = constant / -log(wear) - 273.15
    assert mean_kinetic_temperature(uneven) == pytest.approx(expected, abs=1e-9)
    assert mean_kinetic_temperature(uneven) - mean_temperature(uneven) > 4


@pytest.mark.parametrize(("q10", "factor"), [(2, 3.1748), (3, 6.2403), (4, 10.0794)])
def test_plain_law_between_70_and_100_fahrenheit(q10: float, factor: float) -> None:
    # Computed.
    shorter = plain_life(1, q10, float(celsius(70)), float(celsius(100)))
    assert 1 / shorter == pytest.approx(factor, abs=0.0001)


def test_the_rule_of_thumb_of_halving_each_ten_degrees() -> None:
    # Rule of thumb (published, secondary copy).
    assert plain_life(1, 2, 22, 32) == 0.5
    assert plain_life(1, 2, 22, 12) == 2


@pytest.mark.parametrize(("at_c", "years"), [(26, 4.2426), (40, 0.7724), (2, 18.1886)])
def test_piecewise_law_in_the_middle_hot_and_cold(at_c: float, years: float) -> None:
    # Computed; 2 °C counts as 5 °C.
    assert life_at(6, 2, at_c) == pytest.approx(years, abs=0.0005)
    assert life_at(6, 2, 2) == life_at(6, 2, 5) == life_at(6, 2, -18)


@pytest.mark.parametrize(
    ("q10", "factors"),
    # Computed; with 1.6 within 8 % of the US Army Natick ration chart from 60 to 100 F.
    [
        (1.6, (1.298, 0.770, 0.578, 0.237, 0.097)),
        (2.0, (1.470, 0.680, 0.454, 0.186, 0.076)),
    ],
)
def test_piecewise_law_by_fahrenheit(q10: float, factors: tuple[float, ...]) -> None:
    reference_c = float(celsius(70))
    found = [
        temperature_factor(float(celsius(at_f)), q10, reference_c)
        for at_f in (60, 80, 90, 100, 110)
    ]
    assert found == pytest.approx(factors, abs=0.001)


@pytest.mark.parametrize(
    ("q10", "energy"),
    # Computed from the Arrhenius law at 20 to 30 °C.
    [(2, 51.216), (1.6, 34.728), (3, 81.176)],
)
def test_energies_that_match_a_q10(q10: float, energy: float) -> None:
    assert energy_of_q10(q10) == pytest.approx(energy, abs=0.001)
    assert q10_of_energy(energy) == pytest.approx(q10, abs=0.0001)


def test_the_pharmacopoeias_energy_is_a_q10_of_three() -> None:
    assert q10_of_energy(83.144) == pytest.approx(3.08, abs=0.005)


def test_arrhenius_and_q10_agree_over_the_ten_degrees_they_share() -> None:
    energy = energy_of_q10(2.0)
    assert arrhenius_life(4, energy, 20, 30) == pytest.approx(2, rel=1e-12)


def test_the_copied_chart_of_years_by_temperature_is_not_ours() -> None:
    # 40 and 30 years at 39.76 and 49.84 F beside 20 at 59.92: the two cold rows of a much copied
    # chart break its own rule of doubling each 10.08 F.
    warm, cold = float(celsius(59.92)), float(celsius(39.76))
    q10 = 2 ** (18 / 10.08)
    assert plain_life(20, q10, warm, cold) == pytest.approx(80, rel=0.001)
    assert life_at(20, q10, cold) != pytest.approx(40, rel=0.05)


def test_too_warm_is_refused_with_its_figure() -> None:
    with pytest.raises(TooWarm, match=r"45\.1 °C is too warm"):
        life_at(10, 2, 45.1)
    assert life_at(10, 2, 45) > 0
    with pytest.raises(TooWarm):
        life_used(10, 2, [(20, 3), (50, 0.1)])


@pytest.mark.parametrize(
    ("life", "q10", "at_c"),
    [(-1, 2, 20), (10, 0.5, 20), (10, 2, float("nan")), (float("inf"), 2, 20), (10, 2, -300)],
)
def test_what_cannot_be_is_refused(life: float, q10: float, at_c: float) -> None:
    with pytest.raises(ImpossibleFigure):
        life_at(life, q10, at_c)


@pytest.mark.parametrize(
    "given_readings",
    [[], [(20.0, 0.0)], [(20.0, -1.0)], [(float("nan"), 1.0)], [(20.0, float("inf"))]],
)
def test_readings_that_say_nothing_are_refused(
    given_readings: list[tuple[float, float]],
) -> None:
    with pytest.raises(ImpossibleFigure):
        mean_kinetic_temperature(given_readings)


@pytest.mark.parametrize("energy", [0, -5, float("nan"), 5000])
def test_an_energy_that_cannot_be_is_refused(energy: float) -> None:
    with pytest.raises(ImpossibleFigure, match="activation energy"):
        mean_kinetic_temperature([(20, 1)], energy)


def test_a_negative_stay_and_a_life_of_nothing_are_refused() -> None:
    with pytest.raises(ImpossibleFigure, match="stay"):
        life_used(10, 2, [(20, -1)])
    with pytest.raises(ImpossibleFigure, match="life"):
        life_used(0, 2, [(20, 1)])


@given(q10s, temperatures, temperatures)
def test_warmer_never_keeps_longer(q10: float, one: float, other: float) -> None:
    cool, warm = sorted((one, other))
    assert life_at(10, q10, warm) <= life_at(10, q10, cool) * (1 + 1e-12)


@given(st.floats(1.2, 6), st.floats(5, 44))
def test_warmer_shortens_above_five_degrees(q10: float, at_c: float) -> None:
    assert life_at(10, q10, at_c + 1) < life_at(10, q10, at_c)


@given(q10s)
def test_the_law_has_no_step_at_its_knee(q10: float) -> None:
    below, above = temperature_factor(32, q10), temperature_factor(32 + 1e-9, q10)
    assert above == pytest.approx(below, rel=1e-6)


@given(readings, st.floats(20, 150))
def test_the_kinetic_mean_lies_between_the_mean_and_the_warmest(
    given_readings: list[tuple[float, float]], energy: float
) -> None:
    found = mean_kinetic_temperature(given_readings, energy)
    assert found >= mean_temperature(given_readings) - 1e-6
    assert found <= max(at_c for at_c, _ in given_readings) + 1e-6


@given(readings)
def test_the_kinetic_mean_does_not_care_for_the_unit_of_time(
    given_readings: list[tuple[float, float]],
) -> None:
    in_minutes = [(at_c, 60 * hours) for at_c, hours in given_readings]
    assert mean_kinetic_temperature(in_minutes) == pytest.approx(
        mean_kinetic_temperature(given_readings), abs=1e-9
    )


@given(st.floats(1, 40), q10s, st.floats(-20, 45), st.floats(0, 200), st.floats(0, 1))
def test_splitting_a_stay_changes_nothing(
    life: float, q10: float, at_c: float, months: float, share: float
) -> None:
    whole = life_used(life, q10, [(at_c, months)])
    split = life_used(life, q10, [(at_c, months * share), (at_c, months * (1 - share))])
    assert split.used_fraction == pytest.approx(whole.used_fraction, rel=1e-9, abs=1e-12)


@given(st.floats(1.2, 6), readings)
def test_the_equivalent_temperature_uses_as_much_life(
    q10: float, given_readings: list[tuple[float, float]]
) -> None:
    total = sum(time for _, time in given_readings)
    at_c = equivalent_temperature(q10, given_readings)
    assume(at_c <= 45)
    one = life_used(10, q10, [(at_c, total)]).used_fraction
    assert one == pytest.approx(life_used(10, q10, given_readings).used_fraction, rel=1e-9)


@given(st.integers(-20, 113))
def test_fahrenheit_and_celsius_give_the_same_life(at_f: int) -> None:
    in_fahrenheit = celsius(Fraction(at_f))
    typed_c = float(f"{float(in_fahrenheit):.10f}")
    assert life_at(10, 2, float(in_fahrenheit)) == pytest.approx(life_at(10, 2, typed_c), rel=1e-9)
