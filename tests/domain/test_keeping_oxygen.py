"""Oxygen: the budget, the absorber, what comes in, and the quality life by four routes."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from stockroom.domain.keeping.headspace import (
    TooMuchForContainer,
    VacuumBeyondBarometer,
    gas_ml,
    oxygen_cc,
)
from stockroom.domain.keeping.oxygen import (
    absorber_figures,
    advised_absorbers,
    barometer_at,
    ingress_cc_per_day,
    pull_after_absorbing_inhg,
    quality_life_days,
)
from stockroom.domain.keeping.refusals import ImpossibleFigure
from stockroom.reference.keeping_figures import keeping_figures
from tests.benchmarks.plain_keeping import quality_days as quality_by_bisection

SIZES = keeping_figures().absorber_sizes_cc

lives = st.floats(30, 10_000)
airs = st.floats(10, 2_000)
amounts = st.one_of(st.just(0.0), st.floats(0.01, 5_000))
ingresses = st.one_of(st.just(0.0), st.floats(0.0001, 100))
masses = st.floats(5, 3_000)
tolerances = st.floats(0.01, 1)


def test_a_gallon_with_too_small_an_absorber() -> None:
    # 150 g at 1.5 g/mL in 3,785 cc, 300 cc absorber (computed): the rule of one 300 cc absorber
    # to a gallon was made for dense dry goods.
    found = absorber_figures(3785, 1500, SIZES, absorber_cc=300)
    assert found.gas_ml == pytest.approx(3685, abs=0.1)
    assert found.oxygen_cc == pytest.approx(772.0, abs=0.1)
    assert found.residual_oxygen_cc == pytest.approx(472.0, abs=0.1)
    assert found.residual_oxygen_cc / 150 == pytest.approx(3.15, abs=0.005)
    assert found.oxygen_percent_after == pytest.approx(12.81, abs=0.005)
    assert found.reserve_cc == 0


def test_the_same_pouch_pressed_flat() -> None:
    found = absorber_figures(1500, 1500, SIZES, absorber_cc=300)
    assert found.gas_ml == pytest.approx(1400, abs=0.1)
    assert found.oxygen_cc == pytest.approx(293.3, abs=0.1)
    assert found.reserve_cc == pytest.approx(6.7, abs=0.1)
    assert (found.residual_oxygen_cc, found.oxygen_percent_after) == (0, 0)


def test_gas_is_the_volume_less_the_solid_volume_not_the_container() -> None:
    # Sized from the container 3,785 cc would hold 793 cc of oxygen; from the volume the pieces
    # take up, next to none.
    assert absorber_figures(3785, 1500, SIZES).oxygen_cc < 0.2095 * 3785 - 15


def test_a_rigid_jar_shows_the_pull_of_its_oxygen() -> None:
    # 0.7905 atm left, a pull of 6.27 inHg (computed).
    gas = Fraction(1000)
    oxygen = oxygen_cc(gas)
    assert float(1 - oxygen / gas) == pytest.approx(0.7905, abs=0.001)
    assert pull_after_absorbing_inhg(oxygen, gas) == pytest.approx(6.27, abs=0.01)


def test_a_gauge_vacuum_at_sea_level() -> None:
    # 850 cc at 22 inHg (computed); 100 g of solids of 1.0 g/mL beside them.
    found = absorber_figures(950, 1000, SIZES, density_mg_per_ml=1000, vacuum_tenth_inhg=220)
    assert found.gas_ml == 850
    assert found.oxygen_cc == pytest.approx(47.14, abs=0.01)
    assert found.oxygen_cc / (0.2095 * 850) == pytest.approx(0.26473, abs=0.00001)


def test_ingress_through_foil() -> None:
    # 0.12 m2 at 0.06 cc/(m2 day atm) (computed). In air a fifth of an atmosphere drives it.
    a_day = ingress_cc_per_day(0.06, 0.12, 0)
    assert a_day == pytest.approx(0.001508, abs=0.000001)
    assert a_day * 365.25 == pytest.approx(0.551, abs=0.001)


def test_ingress_through_a_lid_is_not_multiplied_again() -> None:
    # Whole-package figures (ASTM F1307) are in air already.
    assert ingress_cc_per_day(0, 0, 0.01) == 0.01


@pytest.mark.parametrize(
    ("dry_dg", "density", "gas", "oxygen"),
    # 4,000 cc of wheat, rice and dry milk: Intellectual Reserve sheet (published, secondary).
    [(32_000, 1380, 1681, 352), (31_000, 1450, 1862, 390), (23_000, 1450, 2414, 506)],
)
def test_cans_of_dense_goods(dry_dg: int, density: int, gas: float, oxygen: float) -> None:
    found = absorber_figures(4000, dry_dg, SIZES, density_mg_per_ml=density)
    assert found.gas_ml == pytest.approx(gas, abs=0.5)
    assert found.oxygen_cc == pytest.approx(oxygen, abs=0.5)


def test_an_empty_can_and_the_same_half_full() -> None:
    # 646 cc in an empty can is a supplier's figure (published): 3,083 mL; 50 to 75 % filled.
    volume_ml = 646 / 0.2095
    assert volume_ml == pytest.approx(3083, abs=1)
    for filled, oxygen in ((0.5, 323), (0.75, 161.5)):
        held = oxygen_cc(Fraction(volume_ml * (1 - filled)))
        assert float(held) == pytest.approx(oxygen, abs=1)


@pytest.mark.parametrize(
    ("volume_ml", "oxygen"),
    # Volumes: Hagan, Prudent Food Storage FAQ (published, secondary copy).
    [(475, 99.5), (1900, 398), (3300, 691), (3800, 796), (19_000, 3981), (22_800, 4777)],
)
def test_empty_containers(volume_ml: int, oxygen: float) -> None:
    found = absorber_figures(volume_ml, 0, SIZES)
    assert found.oxygen_cc == pytest.approx(oxygen, abs=0.5)


def test_the_advised_absorber_is_the_next_stock_size() -> None:
    # 2,000 cc, 180 g (computed): 1.25 x 393.9 = 492.3, next size 500, reserve 106.1.
    found = absorber_figures(2000, 1800, SIZES)
    assert found.oxygen_cc == pytest.approx(393.9, abs=0.1)
    assert found.oxygen_cc * 1.25 == pytest.approx(492.3, abs=0.1)
    assert (found.absorber_cc, found.absorbers) == (500, (500,))
    assert found.reserve_cc == pytest.approx(106.1, abs=0.1)


def test_above_the_largest_size_several() -> None:
    # An empty 22.8 L pail: 1.25 x 4,777 = 5,971 cc.
    found = absorber_figures(22_800, 0, SIZES)
    assert found.absorbers == (2000, 2000, 2000)
    assert advised_absorbers(Fraction(1700), SIZES) == (2000, 200)
    assert advised_absorbers(Fraction(1600), SIZES) == (2000,)


@given(st.fractions(0, 20_000), st.lists(st.integers(1, 3000), min_size=1, max_size=8))
def test_advised_absorbers_always_cover_the_oxygen_with_margin(
    oxygen: Fraction, sizes: list[int]
) -> None:
    chosen = advised_absorbers(oxygen, sizes)
    assert sum(chosen) >= oxygen * Fraction(5, 4)
    assert set(chosen) <= set(sizes)
    # No smaller last one would do.
    smaller = [size for size in sizes if size < chosen[-1]]
    assert all(sum(chosen[:-1]) + size < oxygen * Fraction(5, 4) for size in smaller)


@pytest.mark.parametrize("sizes", [(), (0, 100), (-50,)])
def test_stock_without_a_size_is_refused(sizes: tuple[int, ...]) -> None:
    with pytest.raises(ImpossibleFigure, match="absorber size"):
        advised_absorbers(Fraction(100), sizes)


def test_the_barometer_falls_with_height() -> None:
    # Standard atmosphere: 26.54 inHg at 1,000 m (from memory); sea level 29.921.
    assert barometer_at(1000) == pytest.approx(26_540, abs=5)
    assert barometer_at(0) == 29_921
    with pytest.raises(ImpossibleFigure):
        barometer_at(20_000)


def test_the_same_gauge_leaves_less_gas_up_a_mountain() -> None:
    up = absorber_figures(
        950, 1000, SIZES, vacuum_tenth_inhg=220, barometer_thousandth_inhg=barometer_at(1000)
    )
    down = absorber_figures(950, 1000, SIZES, vacuum_tenth_inhg=220)
    assert up.oxygen_cc < down.oxygen_cc * 0.6


@pytest.mark.parametrize(
    "figures",
    [
        {"volume_ml": -1, "dry_dg": 10},
        {"volume_ml": 0, "dry_dg": 10},
        {"volume_ml": 500, "dry_dg": -10},
        {"volume_ml": 500, "dry_dg": 10, "density_mg_per_ml": 0},
        {"volume_ml": 500, "dry_dg": 10, "vacuum_tenth_inhg": -1},
        {"volume_ml": 500, "dry_dg": 10, "barometer_thousandth_inhg": 0},
        {"volume_ml": 500, "dry_dg": 10, "absorber_cc": -100},
    ],
)
def test_figures_that_cannot_be_are_refused(figures: dict[str, int]) -> None:
    with pytest.raises(ImpossibleFigure):
        absorber_figures(sizes_cc=SIZES, **figures)


def test_a_full_container_and_a_gauge_past_the_barometer_are_refused() -> None:
    with pytest.raises(TooMuchForContainer):
        absorber_figures(100, 1500, SIZES)
    with pytest.raises(VacuumBeyondBarometer):
        absorber_figures(1000, 1500, SIZES, vacuum_tenth_inhg=300)


@pytest.mark.parametrize(
    ("left", "reserve", "ingress", "tolerance", "days", "within"),
    # Llow 3650, Lair 270, 150 g (computed).
    [
        (20, 0, 0.02, 0.3, 773.31, 0.05),
        (30, 0, 0, 0.6, 2433.33, 0.05),
        (0, 25, 0.03, 0.3, 1653.72, 0.05),
        (5000, 0, 0, 0.3, 270, 0),
        (0, 1000, 0.01, 0.3, 3650, 0),
    ],
)
def test_quality_life_in_figures(
    left: float, reserve: float, ingress: float, tolerance: float, days: float, within: float
) -> None:
    found = quality_life_days(3650, 270, left, reserve, ingress, 150, tolerance)
    assert found == pytest.approx(days, abs=within)
    by_bisection = quality_by_bisection(3650, 270, left, reserve, ingress, 150, tolerance)
    assert by_bisection == pytest.approx(days, abs=max(within, 1e-9))


def test_closed_forms_of_the_three_plain_cases() -> None:
    # No ingress and the uptake finished; nothing left and the absorber spent; much oxygen.
    assert quality_life_days(3650, 270, 30, 0, 0, 150, 0.6) == pytest.approx(
        3650 * (1 - 0.2 / 0.6), rel=1e-12
    )
    assert quality_life_days(3650, 270, 0, 25, 0.03, 150, 0.3) == pytest.approx(
        (1 + 25 / 45) / (1 / 3650 + 0.03 / 45), rel=1e-12
    )
    assert quality_life_days(3650, 270, 1e6, 0, 0, 150, 0.3) == 270


def test_a_class_that_keeps_as_well_in_air_keeps_its_life() -> None:
    assert quality_life_days(300, 300, 5000, 0, 9, 150, 0.3) == 300
    assert quality_life_days(300, 400, 5000, 0, 9, 150, 0.3) == 300


@given(lives, airs, amounts, amounts, ingresses, masses, tolerances)
def test_the_exact_solution_agrees_with_bisection(
    free: float,
    air: float,
    left: float,
    reserve: float,
    ingress: float,
    dry: float,
    tolerance: float,
) -> None:
    left, reserve = (left, 0.0) if left > reserve else (0.0, reserve)
    found = quality_life_days(free, air, left, reserve, ingress, dry, tolerance)
    expected = quality_by_bisection(free, air, left, reserve, ingress, dry, tolerance)
    assert found == pytest.approx(expected, rel=1e-9)
    assert min(air, free) * (1 - 1e-12) <= found <= free * (1 + 1e-12)


@given(lives, airs, amounts, amounts, ingresses, masses, tolerances)
def test_a_general_root_finder_finds_the_same_day(
    free: float,
    air: float,
    left: float,
    reserve: float,
    ingress: float,
    dry: float,
    tolerance: float,
) -> None:
    # scipy.optimize.brentq on the equation as it is written in the model's description.
    assume(air < free * 0.999)
    left, reserve = (left, 0.0) if left > reserve else (0.0, reserve)
    fastest = tolerance * (1 / air - 1 / free)

    def damage(days: float) -> float:
        taken = (left + max(0.0, ingress * days - reserve)) / dry
        return days / free + min(taken, fastest * days) / tolerance - 1

    expected = brentq(damage, air * 0.999, free * 1.001, xtol=1e-9)
    found = quality_life_days(free, air, left, reserve, ingress, dry, tolerance)
    assert found == pytest.approx(expected, rel=1e-7)


@pytest.mark.parametrize(
    ("left", "reserve", "ingress", "tolerance"),
    [(20, 0, 0.02, 0.3), (0, 25, 0.03, 0.3), (5, 0, 0.5, 0.1), (0, 200, 0.4, 0.6)],
)
def test_following_the_oxygen_day_by_day_ends_on_the_same_day(
    left: float, reserve: float, ingress: float, tolerance: float
) -> None:
    # scipy.integrate.solve_ivp: oxygen enters, the absorber takes it while it can, the food the
    # rest; time and oxygen wear, the oxygen no faster than in air.
    free, air, dry = 3650.0, 270.0, 150.0

    def rates(_: float, state: list[float]) -> list[float]:
        _, spare = state
        return [0.0 if spare > 0 else ingress, -ingress if spare > 0 else 0.0]

    fastest = tolerance * (1 / air - 1 / free)

    def used_up(days: float, state: list[float]) -> float:
        return days / free + min((left + state[0]) / dry, fastest * days) / tolerance - 1

    used_up.terminal = True  # type: ignore[attr-defined]
    path = solve_ivp(rates, (0, 4000), [0.0, reserve], events=used_up, max_step=0.5)
    found = quality_life_days(free, air, left, reserve, ingress, dry, tolerance)
    assert found == pytest.approx(path.t_events[0][0], rel=0.001)


@given(lives, airs, amounts, ingresses, masses, tolerances, st.floats(1, 20))
def test_more_oxygen_more_ingress_and_less_reserve_never_lengthen(
    free: float,
    air: float,
    left: float,
    ingress: float,
    dry: float,
    tolerance: float,
    more: float,
) -> None:
    base = quality_life_days(free, air, left, 0, ingress, dry, tolerance)
    slack = 1 + 1e-9
    assert quality_life_days(free, air, left * more, 0, ingress, dry, tolerance) <= base * slack
    assert quality_life_days(free, air, left, 0, ingress * more, dry, tolerance) <= base * slack
    assert quality_life_days(free, air, 0, left, ingress, dry, tolerance) >= base / slack


@given(st.integers(200, 5000), st.integers(1, 2000), st.integers(1, 1000))
def test_headspace_and_oxygen_rise_together(volume_ml: int, dry_dg: int, more: int) -> None:
    assert oxygen_cc(gas_ml(volume_ml, dry_dg)) < oxygen_cc(gas_ml(volume_ml + more, dry_dg))
