"""What could stand in for a food that is short."""

from __future__ import annotations

import pytest

from stockroom.domain.cooking import Basis, Measure, StoredNeed
from stockroom.domain.foods import Allergen, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.substitutes import (
    KnownFood,
    Stocked,
    as_safe,
    fresh_equivalent,
    least_safe,
    stand_ins,
)

RAW, COOKED, READY = Preparation.RAW, Preparation.COOKED, Preparation.READY


def known(
    food_id: int,
    name: str,
    group: FoodGroup = FoodGroup.VEGETABLE,
    food_class: FoodClass = FoodClass.VEGETABLE,
    preparation: Preparation = COOKED,
    *allergens: Allergen,
) -> KnownFood:
    return KnownFood(food_id, name, group, food_class, preparation, allergens)


PEAS = known(1, "peas")
STARCH = FoodClass.STARCH


def names(*stock: KnownFood, dry_dg: int = 100, water_dg: int = 500) -> list[str]:
    found = stand_ins(PEAS, 600, [Stocked(one, dry_dg, water_dg) for one in stock], [Allergen.MILK])
    return [one.food.name for one in found]


def test_the_same_group_goes_first_then_the_class_and_new_allergens_last() -> None:
    soy = known(6, "edamame", FoodGroup.VEGETABLE, FoodClass.VEGETABLE, COOKED, Allergen.SOYBEANS)
    leeks_in_milk = known(
        7, "creamed leeks", FoodGroup.VEGETABLE, FoodClass.VEGETABLE, COOKED, Allergen.MILK
    )
    assert names(
        soy,
        known(2, "herbs", FoodGroup.HERB),
        known(3, "sweetcorn", FoodGroup.VEGETABLE, STARCH),
        known(4, "kale"),
        leeks_in_milk,
        known(5, "beef", FoodGroup.MEAT_COOKED, FoodClass.LEAN_MEAT),
    ) == ["creamed leeks", "kale", "sweetcorn", "herbs", "edamame"]


def test_new_allergens_are_marked_and_those_of_the_dish_are_not() -> None:
    both = known(
        2, "kale", FoodGroup.VEGETABLE, FoodClass.VEGETABLE, COOKED, Allergen.MILK, Allergen.EGG
    )
    (one,) = stand_ins(PEAS, 10, [Stocked(both, 100, 0)], [Allergen.MILK])
    assert one.new_allergens == (Allergen.EGG,)
    assert one.same_group and one.same_class


def test_there_has_to_be_enough_of_it() -> None:
    kale = known(2, "kale")
    assert names(kale, dry_dg=100, water_dg=500) == ["kale"]
    assert names(kale, dry_dg=100, water_dg=499) == []


def test_nothing_stands_in_for_itself() -> None:
    assert names(PEAS) == []


@pytest.mark.parametrize(
    ("preparation", "wanted", "fits"),
    [
        (RAW, RAW, True), (COOKED, RAW, True), (READY, RAW, True),
        (RAW, COOKED, False), (COOKED, COOKED, True), (READY, COOKED, True),
        (RAW, READY, False), (COOKED, READY, False), (READY, READY, True),
    ],
)  # fmt: skip
def test_it_is_prepared_as_safely(
    preparation: Preparation, wanted: Preparation, fits: bool
) -> None:
    assert as_safe(preparation, wanted) is fits
    found = stand_ins(
        known(1, "peas", preparation=wanted),
        1,
        [Stocked(known(2, "kale", preparation=preparation), 10, 10)],
        (),
    )
    assert bool(found) is fits


def test_the_least_safe_lot_counts() -> None:
    assert least_safe([READY, RAW, COOKED]) is RAW
    assert least_safe([READY, COOKED]) is COOKED


def test_the_fresh_equivalent_is_kept() -> None:
    """20 % of solids: 50 g dry were 250 g fresh."""
    dry = StoredNeed(1, "peas", Basis.DRY, 500)
    assert fresh_equivalent(dry, 8_000) == 2_500
    assert fresh_equivalent(dry, None) is None
    assert fresh_equivalent(dry, 10_000) is None
    assert fresh_equivalent(StoredNeed(1, "peas", Basis.FRESH, 500), None) == 500
    spoon = Measure("spoon", Basis.DRY, 100)
    assert fresh_equivalent(StoredNeed(1, "peas", Basis.MEASURE, 5, measure=spoon), 8_000) == 2_500
