"""Which food an ingredient may be: what is proposed, what is only listed, and what is not."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.food_match import ENOUGH, is_water, likeness, suggestions

FOODS = (
    "Apple, raw, peeled", "Beef, eye of round, lean, raw", "Chicken stew", "Peas, green",
    "Crème brûlée", "Sweetcorn", "Tomato soup", "Venison stew", "Blackberries", "Potatoes, mashed",
    "Chicken, broiler, breast, roasted",
)  # fmt: skip


@pytest.mark.parametrize(
    ("item", "food"),
    [
        ("peas", "Peas, green"),
        ("frozen green peas", "Peas, green"),
        ("PEA", "Peas, green"),
        ("apples", "Apple, raw, peeled"),
        ("blackberry", "Blackberries"),
        ("potato", "Potatoes, mashed"),
        ("sweet corn", "Sweetcorn"),
        ("minced beef", "Beef, eye of round, lean, raw"),
        ("creme brulee", "Crème brûlée"),
        ("chicken breast", "Chicken, broiler, breast, roasted"),
    ],
)
def test_the_food_meant_is_proposed(item: str, food: str) -> None:
    best = suggestions(item, FOODS)[0]
    assert best.food == food
    assert best.score >= ENOUGH


@pytest.mark.parametrize(
    "item",
    ["apple juice", "tomatoes", "chicken stock", "green beans", "beef stew", "salt", "", "raw",
     "black pepper", "pea protein powder"],
)  # fmt: skip
def test_another_food_is_not_proposed(item: str) -> None:
    assert all(one.score < ENOUGH for one in suggestions(item, FOODS))


def test_what_is_near_is_listed_best_first_and_equals_by_name() -> None:
    near = suggestions("stew", FOODS)
    assert [one.food for one in near] == ["Chicken stew", "Venison stew"]
    assert near[0].score == near[1].score < ENOUGH


def test_the_same_name_comes_first() -> None:
    assert suggestions("apple", ("Apple, dried", "apple"))[0].food == "apple"
    assert likeness("APPLE ", "apple") == 1


@pytest.mark.parametrize("item", ["water", "warm water", "Boiling Water", "cold tap water"])
def test_water_is_known_however_warm(item: str) -> None:
    assert is_water(item)


@pytest.mark.parametrize("item", ["", "coconut water", "watermelon", "rose water", "warm"])
def test_other_waters_are_ingredients(item: str) -> None:
    assert not is_water(item)


@given(st.text(max_size=40), st.text(max_size=40))
@settings(max_examples=100)
def test_a_likeness_is_a_share(item: str, food: str) -> None:
    assert 0 <= likeness(item, food) <= 1
