"""Default servings and allergens of the shipped foods."""

from __future__ import annotations

import pytest

from stockroom.domain.foods import Allergen, FoodGroup, Preparation
from stockroom.domain.working import Standing
from stockroom.reference.allergens import NOTHING_KNOWN, allergens_for
from stockroom.reference.foods import food, foods
from stockroom.reference.servings import serving_for
from stockroom.reference.tables import read_table

DISHES = (FoodGroup.MEAL, FoodGroup.SOUP_SAUCE, FoodGroup.DESSERT)


@pytest.mark.parametrize("group", list(FoodGroup))
def test_every_group_has_a_serving_a_person_could_eat(group: FoodGroup) -> None:
    serving = serving_for(group)
    assert 40 <= serving.serving_dg <= 3000
    assert serving.meaning


def test_the_foods_own_row_goes_first_then_the_preparation_then_the_group() -> None:
    # Reference amounts of 21 CFR 101.12(b) as remembered: fish 85 g cooked, 110 g raw.
    assert serving_for(FoodGroup.FISH, Preparation.COOKED).serving_dg == 850
    assert serving_for(FoodGroup.FISH, Preparation.RAW).serving_dg == 1100
    assert serving_for(FoodGroup.DAIRY, Preparation.READY, "cheese_feta").serving_dg == 300
    assert serving_for(FoodGroup.DAIRY, Preparation.READY, "kefir").serving_dg == 1700


def test_no_serving_passes_for_published() -> None:
    standings = {one.serving.standing for one in foods().values()}
    assert standings == {Standing.FROM_MEMORY, Standing.ENGINEERING_JUDGEMENT}


@pytest.mark.parametrize("table", ["servings", "allergens", "energy_exceptions", "low_acid_fruit"])
def test_rows_for_a_food_name_a_food_there_is(table: str) -> None:
    for row in read_table(table):
        assert row["food_key"] in foods() or (table == "servings" and not row["food_key"])


def test_every_dish_says_check_what_went_into_it() -> None:
    for one in foods().values():
        if one.group in DISHES:
            assert one.allergens.check_ingredients, one.key


@pytest.mark.parametrize(
    ("key", "allergens"),
    # The nine of the United States: FDA, FALCPA 2004 and FASTER Act 2021.
    [
        ("cheese_cheddar", {Allergen.MILK}),
        ("egg_noodle_cooked", {Allergen.WHEAT, Allergen.EGG}),
        ("shrimp_raw", {Allergen.CRUSTACEAN_SHELLFISH}),
        ("cod_raw", {Allergen.FISH}),
        ("tofu_firm", {Allergen.SOYBEANS}),
        ("hummus_home", {Allergen.SESAME}),
        ("bulgur_cooked", {Allergen.WHEAT}),
        ("strawberry_raw", set[Allergen]()),
    ],
)
def test_what_the_food_itself_plainly_contains(key: str, allergens: set[Allergen]) -> None:
    assert set(food(key).allergens.allergens) == allergens


@pytest.mark.parametrize(
    ("group", "allergen"),
    [(FoodGroup.DAIRY, Allergen.MILK), (FoodGroup.EGG, Allergen.EGG)],
)
def test_no_food_of_the_group_is_forgotten(group: FoodGroup, allergen: Allergen) -> None:
    for one in foods().values():
        if one.group is group:
            assert allergen in one.allergens.allergens, one.key


def test_fish_and_shellfish_are_named_but_molluscs_are_only_noted() -> None:
    # Molluscs are among the fourteen of the European Union, not the nine (from memory).
    for one in foods().values():
        if one.group is not FoodGroup.FISH:
            continue
        if one.key == "scallop_steamed":
            assert one.allergens.allergens == ()
            assert "mollusc" in one.allergens.note
            assert one.allergens.standing is Standing.FROM_MEMORY
        else:
            assert one.allergens.allergens, one.key


def test_a_name_that_says_milk_egg_or_wheat_food_has_its_allergen() -> None:
    words = {
        "cheese": Allergen.MILK,
        "milk": Allergen.MILK,
        "yogurt": Allergen.MILK,
        "egg": Allergen.EGG,
        "noodle": Allergen.WHEAT,
        "spaghetti": Allergen.WHEAT,
        "lasagna": Allergen.WHEAT,
        "bread": Allergen.WHEAT,
        "pie": Allergen.WHEAT,
    }
    for one in foods().values():
        spoken = {word.strip(",").lower() for word in one.name.split()}
        for word, allergen in words.items():
            if word in spoken:
                assert allergen in one.allergens.allergens, (one.key, word)


def test_a_food_without_a_row_is_none_of_the_nine() -> None:
    assert allergens_for("carrot_raw") == NOTHING_KNOWN


def test_allergens_are_spoken_as_words() -> None:
    assert Allergen.CRUSTACEAN_SHELLFISH.words == "crustacean shellfish"
    assert len(Allergen) == 9
