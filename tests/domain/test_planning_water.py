"""Water to keep for people: the published figures, and sums of them."""

from __future__ import annotations

from fractions import Fraction
from typing import cast

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.planning_water import (
    DRUNK_ML,
    GOOD_DAYS,
    LEAST_DAYS,
    MORE_FOR,
    REPLACE_MONTHS,
    SPHERE_TOTAL,
    SPHERE_USES,
    STORED_ML,
    WATER_SOURCES,
    water_store,
)

# pint (pint.readthedocs.io), default registry, read with exact fractions.
PINT = pint.UnitRegistry(non_int_type=cast(type[float], Fraction))


def litres(gallons: Fraction | int) -> float:
    """US gallons in litres, by pint."""
    return float(PINT.Quantity(Fraction(gallons), "gallon").to("liter").magnitude)


def test_four_people_for_a_fortnight() -> None:
    # FEMA 477: a gallon for each person and day; 56 gal = 211.98 L. Two quarts of it to drink.
    found = water_store(4, GOOD_DAYS, 1_500)
    assert float(found.stored_ml) / 1000 == pytest.approx(litres(56))
    assert float(found.stored_ml) / 1000 == pytest.approx(211.98, abs=0.005)
    assert float(DRUNK_ML) / 1000 == pytest.approx(1.893, abs=0.0005)
    assert found.drunk_ml == found.stored_ml / 2
    # 4 x 14 x 1.5 L on top: 84 L = 22.2 gal.
    assert found.rehydration_ml == 84_000
    assert 84 / litres(1) == pytest.approx(22.2, abs=0.05)
    assert found.total_ml == found.stored_ml + 84_000


def test_the_published_figures() -> None:
    # FEMA and American Red Cross, Food and Water in an Emergency, FEMA 477.
    assert float(STORED_ML) / 1000 == pytest.approx(litres(1))
    assert (LEAST_DAYS, GOOD_DAYS, REPLACE_MONTHS) == (3, 14, 6)
    assert "nursing" in MORE_FOR and "Heat" in MORE_FOR
    # Sphere Project, 2011, basic water needs: the parts add up to the total.
    assert (SPHERE_TOTAL.low_l, SPHERE_TOTAL.high_l) == (Fraction(15, 2), 15)
    assert sum(use.low_l for use in SPHERE_USES) == SPHERE_TOTAL.low_l
    assert sum(use.high_l for use in SPHERE_USES) == SPHERE_TOTAL.high_l
    assert len({one.key for one in WATER_SOURCES}) == 3


@given(st.integers(0, 500), st.integers(0, 400), st.integers(0, 5_000))
def test_water_grows_with_people_and_days(people: int, days: int, each: int) -> None:
    found = water_store(people, days, each)
    assert found.stored_ml == water_store(days, people, each).stored_ml
    assert water_store(people + 1, days, each).total_ml - found.total_ml == days * (
        STORED_ML + each
    )
    assert found.drunk_ml <= found.stored_ml <= found.total_ml


@pytest.mark.parametrize(("people", "days", "each"), [(-1, 3, 0), (4, -1, 0), (4, 3, -1)])
def test_below_nought_there_is_no_store(people: int, days: int, each: int) -> None:
    with pytest.raises(ValueError, match="people"):
        water_store(people, days, each)
