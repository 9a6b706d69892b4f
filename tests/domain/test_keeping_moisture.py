"""Moisture: isotherms, vapour pressure, permeance, and the uptake by four routes."""

from __future__ import annotations

from math import inf, log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.keeping.moisture import (
    Isotherm,
    driving_kpa,
    film_permeance,
    gab_moisture,
    lid_permeance,
    moisture_life_days,
    package_permeance,
    saturation_kpa,
    uptake_integral,
)
from stockroom.reference.keeping_figures import keeping_figures

ISOTHERMS = {one.food_class: one.isotherm for one in keeping_figures().classes}
FRUIT = ISOTHERMS[FoodClass.FRUIT]


def linear_days(
    equilibrium: float, limit: float, start: float, permeance: float, area: float, solids: float,
    pressure: float, slope: float,
) -> float:  # fmt: skip
    """Labuza's straight-line form (Taoukis, El Meskine and Labuza 1988), for comparison only."""
    rate = permeance * area / solids * pressure / slope
    return log((equilibrium - start) / (equilibrium - limit)) / rate


def test_the_straight_line_form() -> None:
    # Input after K. Cooksey (published, secondary copy); 23.766 mmHg and the answer computed.
    found = linear_days(0.08, 0.06, 0.02, 0.3, 0.15, 500, 23.766, 0.06)
    assert found == pytest.approx(30.82, abs=0.01)


def fruit_days(vapour_transmission: float = 9, humidity: float = 0.55, at_c: float = 21) -> float:
    """145.5 g of fruit solids behind 0.12 m2 of film, water activity 0.10 to 0.30."""
    return moisture_life_days(
        145.5,
        package_permeance(vapour_transmission, 0.12, 0),
        driving_kpa(at_c),
        uptake_integral(FRUIT, 0.10, 0.30, humidity),
    )


def test_fruit_in_a_zip_bag_is_soft_after_five_weeks() -> None:
    # Computed; the straight-line form between the same two points gives 37.47.
    assert fruit_days() == pytest.approx(37.10, abs=0.02)
    start, limit = gab_moisture(FRUIT, 0.10), gab_moisture(FRUIT, 0.30)
    slope = (limit - start) / 0.20
    straight = linear_days(
        start + slope * 0.45,
        limit,
        start,
        film_permeance(9),
        0.12,
        145.5,
        saturation_kpa(21),
        slope,
    )
    assert straight == pytest.approx(37.47, abs=0.02)


def test_fruit_followed_step_by_step() -> None:
    # Time stepping, computed: 37.11.
    through = film_permeance(9) * 0.12 * saturation_kpa(21) / 145.5
    activity, day, step = 0.10, 0.0, 0.005
    while activity < 0.30:
        slope = (gab_moisture(FRUIT, activity + 1e-6) - gab_moisture(FRUIT, activity)) / 1e-6
        activity += through * (0.55 - activity) / slope * step
        day += step
    assert day == pytest.approx(37.11, abs=0.02)


@pytest.mark.parametrize(
    ("activity", "held"), [(0.11, 0.0327), (0.22, 0.0495), (0.33, 0.0666), (0.43, 0.0873)]
)
def test_isotherm_of_kiwifruit(activity: float, held: float) -> None:
    # Parameters: Moraga and others 2006, Journal of Food Engineering 72:147 (abstract).
    assert gab_moisture(Isotherm(0.046, 10.6, 1.20), activity) == pytest.approx(held, abs=0.0001)


def test_isotherm_of_fruit() -> None:
    # Computed.
    assert gab_moisture(FRUIT, 0.10) == pytest.approx(0.03516, abs=0.00001)
    assert gab_moisture(FRUIT, 0.30) == pytest.approx(0.07461, abs=0.00001)


@pytest.mark.parametrize(
    ("at_c", "kpa", "steam"),
    # Computed; the last column steam tables (from memory).
    [
        (15, 1.7052, 1.706),
        (20, 2.3383, 2.339),
        (21, 2.4872, None),
        (25, 3.1685, 3.170),
        (30, 4.2451, 4.247),
        (38, 6.6304, 6.633),
    ],
)
def test_saturation_pressure(at_c: float, kpa: float, steam: float | None) -> None:
    assert saturation_kpa(at_c) == pytest.approx(kpa, abs=0.0001)
    if steam is not None:
        assert saturation_kpa(at_c) == pytest.approx(steam, rel=0.001)


@pytest.mark.parametrize(
    ("food_class", "dry", "moist"),
    # m(0.2) and m(0.4), computed.
    [
        (FoodClass.VEGETABLE, 0.06703, 0.10613),
        (FoodClass.MEAL, 0.05446, 0.08623),
        (FoodClass.LEAN_MEAT, 0.05304, 0.08165),
        (FoodClass.NUTS, 0.02331, 0.03835),
    ],
)
def test_isotherms_by_class(food_class: FoodClass, dry: float, moist: float) -> None:
    assert gab_moisture(ISOTHERMS[food_class], 0.2) == pytest.approx(dry, abs=0.00001)
    assert gab_moisture(ISOTHERMS[food_class], 0.4) == pytest.approx(moist, abs=0.00001)


def test_permeance_of_film_and_lid() -> None:
    # Computed: WVTR 9 at 38 °C and 90 %; 0.5 mg a day at 25 °C and a difference of 0.6.
    assert film_permeance(9) == pytest.approx(1.5082, rel=0.001)
    assert lid_permeance(0.5) == pytest.approx(2.6300e-4, rel=0.001)
    assert package_permeance(9, 0.12, 0.5) == pytest.approx(1.5082 * 0.12 + 2.63e-4, rel=0.001)


def test_isotherm_of_fatty_dairy_against_whole_milk_powder() -> None:
    # Computed 0.08501; whole milk powder measured 0.0848 g/g dry (published abstract).
    held = gab_moisture(ISOTHERMS[FoodClass.FATTY_DAIRY], 0.6)
    assert held == pytest.approx(0.08501, abs=0.00001)
    assert held == pytest.approx(0.0848, rel=0.005)


def test_a_room_drier_than_the_limit_never_softens_it() -> None:
    assert uptake_integral(FRUIT, 0.10, 0.30, 0.30) == inf
    assert fruit_days(humidity=0.25) == inf


def test_food_already_at_the_limit_is_soft_at_once() -> None:
    assert uptake_integral(FRUIT, 0.30, 0.30, 0.55) == 0
    assert uptake_integral(FRUIT, 0.35, 0.30, 0.20) == 0
    assert moisture_life_days(100, 0, 2.5, 0) == 0


def test_a_package_that_lets_nothing_in() -> None:
    assert moisture_life_days(100, 0, 2.5, 0.1) == inf


def test_the_kept_integral_is_the_one_for_its_own_figures() -> None:
    # The cache must tell classes, limits and rooms apart.
    seen = {
        uptake_integral(isotherm, start, limit, humidity)
        for isotherm in ISOTHERMS.values()
        for start, limit in ((0.05, 0.33), (0.10, 0.33), (0.10, 0.45))
        for humidity in (0.5, 0.6)
    }
    assert len(seen) == len(ISOTHERMS) * 6


@pytest.mark.parametrize(
    "isotherm",
    [
        Isotherm(8, 0.065, 1.05),
        Isotherm(0.065, 8, 1.3),
        Isotherm(0.065, -1, 1.0),
        Isotherm(0.001, 8, 1.0),
        Isotherm(0.065, 8, 0),
    ],
    ids=["columns swapped", "K too large", "C negative", "monolayer too small", "no K"],
)
def test_isotherms_that_cannot_be(isotherm: Isotherm) -> None:
    assert not isotherm.is_plausible


def test_every_class_has_an_isotherm_that_can_be() -> None:
    assert all(isotherm.is_plausible for isotherm in ISOTHERMS.values())


classes = st.sampled_from(FoodClass)
starts = st.floats(0.02, 0.28)
rises = st.floats(0.02, 0.3)
drives = st.floats(0.02, 0.4)


@given(classes, starts, rises, drives)
def test_the_integral_agrees_with_quadrature(
    food_class: FoodClass, start: float, rise: float, above: float
) -> None:
    # scipy.integrate.quad on the isotherm's slope, which in partial fractions is
    # m0 K [1/(1 - Ka)^2 + (C - 1)/(1 + (C - 1) K a)^2].
    isotherm = ISOTHERMS[food_class]
    m0, c, k = isotherm
    limit, humidity = start + rise, start + rise + above

    def slope(activity: float) -> float:
        return m0 * k * (1 / (1 - k * activity) ** 2 + (c - 1) / (1 + (c - 1) * k * activity) ** 2)

    expected, _ = quad(lambda a: slope(a) / (humidity - a), start, limit)
    found = uptake_integral(isotherm, start, limit, humidity)
    assert found == pytest.approx(expected, rel=1e-4)


@given(classes, starts, rises, drives, st.floats(0.5, 10), st.floats(5, 39))
@settings(max_examples=50, deadline=None)
def test_following_the_water_day_by_day_ends_on_the_same_day(
    food_class: FoodClass,
    start: float,
    rise: float,
    above: float,
    transmission: float,
    at_c: float,
) -> None:
    # scipy.integrate.solve_ivp: water enters by P p0 (RH - a), the food's activity follows its
    # isotherm, turned round by solving the quadratic for a.
    isotherm = ISOTHERMS[food_class]
    m0, c, k = isotherm
    limit, humidity, solids = start + rise, start + rise + above, 145.5

    def activity(held: float) -> float:
        # m (1 - x)(1 + (C - 1) x) = m0 C x with x = K a.
        a2, a1, a0 = held * (1 - c), held * (c - 2) - m0 * c, held
        root = (a1 * a1 - 4 * a2 * a0) ** 0.5
        return (-a1 - root) / (2 * a2) / k

    through = package_permeance(transmission, 0.12, 0) * saturation_kpa(at_c)

    def uptake(_: float, held: list[float]) -> list[float]:
        return [through * (humidity - activity(held[0])) / solids]

    def soft(_: float, held: list[float]) -> float:
        return held[0] - gab_moisture(isotherm, limit)

    soft.terminal = True  # type: ignore[attr-defined]
    days = moisture_life_days(
        solids, through, 1.0, uptake_integral(isotherm, start, limit, humidity)
    )
    path = solve_ivp(
        uptake, (0, days * 2), [gab_moisture(isotherm, start)], events=soft, rtol=1e-9, atol=1e-12
    )
    assert days == pytest.approx(path.t_events[0][0], rel=1e-4)


@given(classes, starts, rises, drives, st.floats(0.01, 0.3))
def test_a_more_humid_room_is_never_slower(
    food_class: FoodClass, start: float, rise: float, above: float, more: float
) -> None:
    isotherm, limit = ISOTHERMS[food_class], start + rise
    assert uptake_integral(isotherm, start, limit, limit + above + more) < uptake_integral(
        isotherm, start, limit, limit + above
    )


@given(st.floats(0.001, 20), st.floats(1.01, 5), st.floats(5, 39))
def test_leakier_film_and_warmer_rooms_are_faster(
    transmission: float, more: float, at_c: float
) -> None:
    base = fruit_days(transmission, at_c=at_c)
    assert fruit_days(transmission * more, at_c=at_c) < base
    assert fruit_days(transmission, at_c=at_c + 1) < base
    assert fruit_days(transmission, at_c=-18) == fruit_days(transmission, at_c=5)
