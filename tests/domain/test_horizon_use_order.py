"""First in first out beside earliest best-by first, and why they differ."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given

from stockroom.domain.horizon.stock import StockPackage
from stockroom.domain.horizon.use_order import use_order
from tests.domain.horizon_cases import START, package, shelves


def ids(packages: tuple[StockPackage, ...]) -> list[int]:
    """Their numbers."""
    return [one.package_id for one in packages]


# A, B, C, D in order of age, five days to eat each, best by on days 40, 9, 12 and 21.
FOUR = [package(number, best, made=-50 + number) for number, best in enumerate((40, 9, 12, 21))]


def test_the_worked_example_by_age_and_by_best_by() -> None:
    # Computed by hand. By age: -35, +1, +3, -1. By best-by: -4, -2, -6, -20.
    found = use_order(FOUR, START, Fraction(1))
    assert (ids(found.by_age), ids(found.by_best_by)) == ([0, 1, 2, 3], [1, 2, 3, 0])
    assert (found.worst_by_age_days, found.worst_by_best_by_days) == (3, -2)
    assert found.words == (
        "The two orders differ: follow the best-by. By age the worst package is 3 days late;"
        " by best-by, 2 days early."
    )


def test_an_older_pouch_may_outlast_a_younger_jar() -> None:
    pouch = package(1, 3000, made=-90, packed_in="foil pouch")
    jar = package(2, 300, made=-20, packed_in="jar")
    found = use_order([pouch, jar], START)
    assert found.differs and found.worst_by_age_days is None
    (over,) = found.overtaken
    assert (over.younger, over.older) == (jar, pouch)
    assert over.reason == (
        "26060A02 (jar) goes before 26060A01 (foil pouch), which comes first by age"
        " (2026-02-09 after 2025-12-01): its best-by is 2026-12-26, the other's 2034-05-18;"
        " the older foil pouch outlasts the younger jar."
    )
    assert found.words == "The two orders differ: follow the best-by."


def test_other_reasons() -> None:
    def reason(*packages: StockPackage) -> str:
        (over,) = use_order(packages, START).overtaken
        return over.reason

    assert "where and as it is packed" in reason(package(1, 50, made=-9), package(2, 20, made=-8))
    assert "open already" in reason(package(1, 50, opened=True), package(2, 20))
    assert "(open)" in reason(package(1, 50, opened=True), package(2, 20))


def test_the_same_order_needs_no_reason() -> None:
    found = use_order([package(2, 20, made=-8), package(1, 10, made=-9)], START, Fraction(1))
    assert not found.differs and found.overtaken == ()
    assert found.words == "First in first out and earliest best-by first are the same here."
    empty = use_order([], START, Fraction(1))
    assert (empty.by_age, empty.worst_by_age_days, empty.differs) == ((), None, False)


def test_no_pace_of_nought() -> None:
    with pytest.raises(ValueError, match="an appetite of 0"):
        use_order(FOUR, START, Fraction(0))


@given(shelves())
def test_the_orders_hold_the_same_and_best_by_is_never_later(shelf: list[StockPackage]) -> None:
    found = use_order(shelf, START, Fraction(2))
    assert sorted(ids(found.by_age)) == sorted(ids(found.by_best_by))
    if shelf:
        assert found.worst_by_age_days is not None and found.worst_by_best_by_days is not None
        assert found.worst_by_best_by_days <= found.worst_by_age_days
    places = {one.package_id: at for at, one in enumerate(found.by_best_by)}
    ages = {one.package_id: at for at, one in enumerate(found.by_age)}
    for over in found.overtaken:
        younger, older = over.younger.package_id, over.older.package_id
        assert places[younger] < places[older] and ages[younger] > ages[older]
    # A pair that stands the other way round somewhere is told of.
    assert found.differs == bool(found.overtaken)
