"""Foods: taken from the reference table or described, found, corrected."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.foods import Allergen, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.reference.foods import foods as reference_foods
from stockroom.services import foods, shelves
from tests.world import APPLE, BEEF_RAW, PEAS, World


def _own(world: World, name: str) -> foods.Food:
    (found,) = [food for food in foods.list_foods(world.room) if food.name == name]
    return found


def test_a_food_like_another_has_its_figures(world: World) -> None:
    """Peas, frozen, boiled: 79.52 g water, 78 kcal, 5.15 g protein in 100 g (USDA SR28 11313)."""
    done = foods.add_food(world.room, " Garden   peas ", like="pea_frozen_cooked", note=" sweet ")
    assert done.words == "added the food Garden peas"
    food = _own(world, "Garden peas")
    assert (food.water_cg, food.energy_tenth_kcal, food.protein_cg) == (7_952, 780, 515)
    assert (food.food_class, food.food_group, food.preparation) == (
        "vegetable",
        "vegetable",
        "cooked",
    )
    assert (food.serving_dg, food.note, food.ingredients_unknown) == (850, "sweet", False)


def test_what_is_said_goes_before_what_it_is_like(world: World) -> None:
    foods.add_food(
        world.room,
        "Salt beef",
        like=BEEF_RAW,
        food_class=FoodClass.MEAL,
        group=FoodGroup.MEAL,
        preparation=Preparation.COOKED,
        serving_dg=1_230,
        water_percent=Fraction("61.27"),
        allergens=[Allergen.WHEAT, Allergen.MILK, Allergen.WHEAT],
    )
    food = _own(world, "Salt beef")
    assert (food.food_class, food.food_group, food.preparation) == ("meal", "meal", "cooked")
    assert (food.serving_dg, food.water_cg) == (1_230, 6_127)
    assert food.allergens == ("milk", "wheat")


def test_a_food_described_by_hand_claims_to_know_nothing(world: World) -> None:
    for food_class in FoodClass:
        foods.add_food(
            world.room, f"Our {food_class}", food_class=food_class, preparation=Preparation.READY
        )
        food = _own(world, f"Our {food_class}")
        assert food.water_cg is food.fat_cg is food.energy_tenth_kcal is food.reference_key is None
        assert food.fat_of_solids is None
        assert food.ingredients_unknown
        assert food.serving_dg > 0
        assert foods.facts_of(food).check_ingredients


def test_every_reference_food_can_be_taken_over(world: World) -> None:
    for shipped in reference_foods().values():
        foods.add_food(world.room, f"ours: {shipped.key}", like=shipped.name)
    own = {food.reference_key: food for food in foods.list_foods(world.room)}
    assert set(own) == set(reference_foods())
    for key, shipped in reference_foods().items():
        food = own[key]
        assert food.allergens == tuple(sorted(shipped.allergens.allergens))
        assert food.ingredients_unknown == shipped.allergens.check_ingredients
        assert food.fat_of_solids == shipped.fat_of_solids
        assert foods.facts_of(food).allergens == tuple(sorted(shipped.allergens.allergens))


def test_search_shows_our_own_first_and_each_name_once(world: World) -> None:
    foods.add_food(world.room, "Peas with mint", like=PEAS)
    world.dry_lot(PEAS)
    found = foods.search_foods(world.room, "peas")
    assert [choice.own for choice in found[:2]] == [True, True]
    assert [choice.name for choice in found].count(PEAS) == 1
    assert all("peas" in choice.name.casefold() for choice in found)
    assert not any(choice.own for choice in found[2:])


def test_every_word_must_stand_in_the_name(world: World) -> None:
    assert [choice.name for choice in foods.search_foods(world.room, "RAW beef round")] == [
        BEEF_RAW
    ]
    assert foods.search_foods(world.room, "beef zzz") == ()
    assert len(foods.search_foods(world.room, " ")) == len(reference_foods())
    (choice,) = foods.search_foods(world.room, APPLE)
    assert (choice.water_percent, choice.preparation, choice.own) == (86.67, "ready", False)


def test_a_food_is_corrected_and_its_packages_with_it(world: World) -> None:
    code = world.packed(PEAS)[0]
    done = foods.change_food(
        world.room,
        PEAS.lower(),
        new_name="Garden peas",
        serving_dg=1_000,
        allergens=[Allergen.SESAME],
        note="from the south bed",
    )
    assert done.words == "changed the food Garden peas"
    food = _own(world, "Garden peas")
    assert (food.serving_dg, food.allergens, food.note) == (
        1_000,
        ("sesame",),
        "from the south bed",
    )
    package = world.package(code)
    assert (package.food, package.serving_dg) == ("Garden peas", 1_000)
    assert package.servings_left == Fraction(package.dry_dg + package.water_dg, 1_000)
    assert shelves.package_detail(world.room, code).allergens == ("sesame",)
    assert world.listed("garden") == list(world.listed())


def test_a_name_may_change_its_capitals(world: World) -> None:
    world.dry_lot(PEAS)
    foods.change_food(world.room, PEAS, new_name=PEAS.upper())
    assert [food.name for food in foods.list_foods(world.room)] == [PEAS.upper()]


def test_lots_keep_the_preparation_they_were_made_with(world: World) -> None:
    code = world.dry_lot(BEEF_RAW, 500, 140)
    foods.change_food(world.room, BEEF_RAW, preparation=Preparation.COOKED)
    assert world.lot(code).preparation == "raw"
    assert world.package(world.pack(code, "1xjar-475:10")[0]).preparation == "raw"
    later = world.dry_lot(BEEF_RAW, 500, 140)
    assert world.lot(later).preparation == "cooked"


def test_saying_the_allergens_settles_the_ingredients(world: World) -> None:
    foods.add_food(world.room, "Stew", food_class=FoodClass.MEAL, preparation=Preparation.COOKED)
    foods.change_food(world.room, "Stew", note="beans and barley")
    assert _own(world, "Stew").ingredients_unknown
    foods.change_food(world.room, "Stew", allergens=[])
    assert not _own(world, "Stew").ingredients_unknown


def test_allergens_are_replaced_not_added_to(world: World) -> None:
    foods.add_food(world.room, "Sauce", like=PEAS, allergens=[Allergen.MILK, Allergen.EGG])
    foods.change_food(world.room, "Sauce", allergens=[Allergen.EGG, Allergen.TREE_NUTS])
    assert _own(world, "Sauce").allergens == ("egg", "tree_nuts")
    foods.change_food(world.room, "Sauce", allergens=[])
    assert _own(world, "Sauce").allergens == ()


def test_foods_are_listed_by_name_whatever_the_capitals(world: World) -> None:
    for name in ("beta", "Alpha", "Gamma", "alpha 2"):
        foods.add_food(world.room, name, like=PEAS)
    names = [food.name for food in foods.list_foods(world.room)]
    assert names == ["Alpha", "alpha 2", "beta", "Gamma"]
