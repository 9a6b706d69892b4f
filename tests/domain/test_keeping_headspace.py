"""Gas and oxygen in a package, against published volumes and figures worked by hand.

Worked figures: gas = volume - dry/density, oxygen = 20.95 % of it at the pressure left. Volumes
and fills of dense dry goods follow a supplier's and a household sheet (Intellectual Reserve,
2007; Hagan, Prudent Food Storage FAQ).
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.keeping.headspace import (
    TooMuchForContainer,
    VacuumBeyondBarometer,
    gas_ml,
    oxygen_cc,
    oxygen_left_cc,
    solids_ml,
)


@pytest.mark.parametrize(
    ("volume_ml", "dry_dg", "density", "gas", "oxygen"),
    [
        (3785, 1500, 1500, 3685, 772.0),
        (1500, 1500, 1500, 1400, 293.3),
        (2000, 1800, 1500, 1880, 393.9),
        # 4 L tins: 3,200 g wheat, 3,100 g rice, 2,300 g dry milk (Intellectual Reserve, 2007).
        (4000, 32000, 1380, 1681, 352),
        (4000, 31000, 1450, 1862, 390),
        (4000, 23000, 1450, 2414, 506),
    ],
)
def test_gas_and_oxygen_of_filled_containers(
    volume_ml: int, dry_dg: int, density: int, gas: float, oxygen: float
) -> None:
    found = gas_ml(volume_ml, dry_dg, density)
    assert float(found) == pytest.approx(gas, abs=0.5)
    assert float(oxygen_cc(found)) == pytest.approx(oxygen, abs=0.5)


@pytest.mark.parametrize(
    ("volume_ml", "oxygen"),
    # Empty containers of Hagan's list; 646 cc for a can of 3,083 mL is a supplier's figure.
    [(475, 99.5), (1900, 398), (3300, 691), (3800, 796), (3083, 646)],
)
def test_oxygen_of_an_empty_container(volume_ml: int, oxygen: float) -> None:
    assert float(oxygen_cc(Fraction(volume_ml))) == pytest.approx(oxygen, abs=0.5)


def test_a_gauge_vacuum_leaves_its_share() -> None:
    # 850 cc at 22 inHg, sea level: 0.26473 of an atmosphere, 47.14 cc.
    assert float(oxygen_cc(Fraction(850), 220)) == pytest.approx(47.14, abs=0.01)


def test_the_same_gauge_leaves_less_where_the_barometer_is_low() -> None:
    # About 1,000 m up the barometer stands near 26.54 inHg (standard atmosphere).
    assert oxygen_cc(Fraction(850), 220, 26_540) < oxygen_cc(Fraction(850), 220)


def test_pressing_a_pouch_flat_can_let_the_absorber_take_all() -> None:
    # 150 g in 3,785 mL leaves 472.0 cc behind a 300 cc absorber; pressed to 1,500 mL nothing.
    loose = oxygen_left_cc(oxygen_cc(gas_ml(3785, 1500)), 300)
    assert float(loose) == pytest.approx(472.0, abs=0.1)
    assert oxygen_left_cc(oxygen_cc(gas_ml(1500, 1500)), 300) == 0


def test_solids_use_their_true_density() -> None:
    assert solids_ml(1500) == 100
    assert solids_ml(1200, 1200) == 100


def test_a_container_the_solids_fill_is_refused() -> None:
    with pytest.raises(TooMuchForContainer, match=r"620\.0 g of dry food cannot fit into 400 mL"):
        gas_ml(400, 6200)


def test_a_gauge_deeper_than_the_barometer_is_refused() -> None:
    with pytest.raises(VacuumBeyondBarometer, match=r"27\.0 inHg .* 26\.54 inHg"):
        oxygen_cc(Fraction(850), 270, 26_540)


@given(st.integers(1, 20_000), st.integers(1, 20_000), st.integers(0, 290))
def test_oxygen_rises_with_the_volume_and_falls_with_the_vacuum(
    small: int, more: int, gauge: int
) -> None:
    assert oxygen_cc(Fraction(small)) < oxygen_cc(Fraction(small + more))
    assert oxygen_cc(Fraction(small), gauge + 1) < oxygen_cc(Fraction(small), gauge)
