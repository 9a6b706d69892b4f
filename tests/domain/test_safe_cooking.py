"""Least temperatures, beside the figures of the USDA Food Safety and Inspection Service."""

from __future__ import annotations

import pytest

from stockroom.domain.foods import FoodGroup
from stockroom.domain.quantities import UnitSystem, read_temperature
from stockroom.domain.safe_cooking import (
    ANY_OTHER,
    EGG_DISHES,
    FISH,
    MINCED_MEAT,
    MIXED_DISHES,
    POULTRY,
    REHEATING,
    WHOLE_CUTS,
    CookedTooLittle,
    LeastTemperature,
    RawCheck,
    RawFood,
    RawWithoutCooking,
    heat_of,
    least_for_raw,
    refuse_uncooked,
)
from stockroom.domain.working import Standing


# USDA FSIS, safe minimum internal temperatures.
@pytest.mark.parametrize(
    ("least", "fahrenheit", "dc", "rest"),
    [
        (WHOLE_CUTS, 145, 628, 3),
        (MINCED_MEAT, 160, 711, 0),
        (POULTRY, 165, 739, 0),
        (FISH, 145, 628, 0),
        (EGG_DISHES, 160, 711, 0),
        (MIXED_DISHES, 165, 739, 0),
        (REHEATING, 165, 739, 0),
    ],
)
def test_published_temperatures(
    least: LeastTemperature, fahrenheit: int, dc: int, rest: int
) -> None:
    assert (least.fahrenheit, least.temperature_dc, least.rest_minutes) == (fahrenheit, dc, rest)
    assert least.source.standing is Standing.PUBLISHED
    assert read_temperature(f"{fahrenheit} F", UnitSystem.US) == dc


@pytest.mark.parametrize("group", FoodGroup)
def test_every_group_has_one_and_none_is_below_what_its_food_may_need(group: FoodGroup) -> None:
    least = least_for_raw(group)
    expected = {
        FoodGroup.MEAT_RAW: 160, FoodGroup.POULTRY: 165, FoodGroup.FISH: 145, FoodGroup.EGG: 160,
    }  # fmt: skip
    assert least.fahrenheit == expected.get(group, 165)
    if group in (FoodGroup.VEGETABLE, FoodGroup.FRUIT, FoodGroup.DAIRY):
        assert least is ANY_OTHER
        assert least.source.standing is Standing.ENGINEERING_JUDGEMENT


MINCE = RawFood("mince", MINCED_MEAT)
COD = RawFood("cod", FISH)


def test_the_strictest_of_the_raw_foods_counts() -> None:
    assert RawCheck((COD, MINCE), 710).least is MINCED_MEAT
    assert not RawCheck((COD, MINCE), 710).passed
    assert RawCheck((COD, MINCE), 711).passed
    assert RawCheck((COD,), 628).passed
    assert RawCheck().passed
    assert RawCheck().least is None


def test_raw_food_without_a_cooking_step_is_refused() -> None:
    with pytest.raises(RawWithoutCooking) as caught:
        refuse_uncooked("Pie", RawCheck((MINCE, COD)))
    assert "mince, cod" in caught.value.message
    assert "160 °F (71.1 °C)" in caught.value.hint


def test_a_cooking_step_that_is_not_hot_enough_is_refused() -> None:
    with pytest.raises(CookedTooLittle) as caught:
        refuse_uncooked("Pie", RawCheck((MINCE,), 628))
    assert "145 °F (62.8 °C)" in caught.value.message
    assert "160 °F (71.1 °C)" in caught.value.message
    refuse_uncooked("Pie", RawCheck((MINCE,), 711))
    refuse_uncooked("Salad", RawCheck())


def test_the_rest_is_said_where_there_is_one() -> None:
    assert WHOLE_CUTS.words == "145 °F (62.8 °C) and 3 minutes of rest"
    assert POULTRY.words == "165 °F (73.9 °C)"


def test_cooked_food_beside_raw_is_reheated_too() -> None:
    # USDA FSIS: raw fish 145 °F, cooked food reheated to 165 °F; the dish gets the hotter.
    fish = RawCheck((RawFood("Cod", FISH),), None)
    nothing = RawCheck((), None)
    assert heat_of(fish, reheated=False) is FISH
    assert heat_of(fish, reheated=True) is REHEATING
    assert heat_of(nothing, reheated=True) is REHEATING
    assert heat_of(nothing, reheated=False) is None
