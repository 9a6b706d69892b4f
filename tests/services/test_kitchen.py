"""The kitchen: what a dish takes, oldest first, with its water; and what cooking it leaves."""

from __future__ import annotations

import tempfile
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.conditions import Event
from stockroom.domain.cooking import Basis
from stockroom.domain.foods import Allergen
from stockroom.services import bench, foods, kitchen, packages, shelves
from stockroom.services.kitchen import LineRequest
from stockroom.services.packages import Amount
from stockroom.services.results import CookSheet
from tests.invariants import all_troubles
from tests.world import APPLE, BEEF_RAW, PEAS, World, copied_world


def _line(food: str, amount: Fraction | int | str, basis: Basis = Basis.FRESH) -> LineRequest:
    return LineRequest(food=food, basis=basis, amount=Fraction(amount))


def _picked(sheet: CookSheet) -> list[tuple[str, int, int]]:
    return [
        (pick.candidate.code, pick.take_dg, pick.water_dg)
        for line in sheet.plan.lines
        for pick in line.picks
    ]


def test_a_recipe_is_kept_as_it_was_said(world: World) -> None:
    world.dry_lot(PEAS)
    done = kitchen.add_recipe(
        world.room,
        " Pea   soup ",
        4,
        [
            _line(PEAS.upper(), 300),
            _line(PEAS, "31.25", Basis.DRY),
            _line(PEAS, "1.5", Basis.SERVINGS),
            LineRequest(item=" big  onion ", amount=Fraction("2.125"), unit=" small "),
            LineRequest(item="salt", unit=" "),
        ],
        cooking_water_dg=8_000,
        steps=" Soak.\nSimmer. ",
    )
    assert done.words == "added the recipe Pea soup"
    recipe = kitchen.show_recipe(world.room, "pea SOUP")
    assert recipe.recipe_id == done.made_id
    assert (recipe.name, recipe.serves, recipe.cooking_water_dg) == ("Pea soup", 4, 8_000)
    assert recipe.steps == "Soak.\nSimmer."
    said = [
        (
            line.food,
            line.basis,
            line.weight_dg,
            line.servings_hundredths,
            line.item,
            line.amount_thousandths,
            line.unit,
        )
        for line in recipe.lines
    ]
    assert said == [
        (PEAS, "fresh", 3_000, None, None, None, None),
        (PEAS, "dry", 312, None, None, None, None),
        (PEAS, "servings", None, 150, None, None, None),
        (None, None, None, None, "big onion", 2_125, "small"),
        (None, None, None, None, "salt", None, None),
    ]


def test_a_basis_left_out_is_fresh(world: World) -> None:
    world.dry_lot(PEAS)
    world.recipe("Soup", lines=[LineRequest(food=PEAS, amount=Fraction(50))])
    assert kitchen.show_recipe(world.room, "Soup").lines[0].basis == "fresh"


def test_a_recipe_is_found_by_how_its_name_begins(world: World) -> None:
    world.recipe("Soup of peas", lines=[LineRequest(item="water")])
    world.recipe("Soup", lines=[LineRequest(item="water")])
    assert kitchen.show_recipe(world.room, "soup").name == "Soup"
    assert kitchen.show_recipe(world.room, "soup OF").name == "Soup of peas"


def test_a_recipe_is_changed_and_what_is_not_said_stays(world: World) -> None:
    world.dry_lot(PEAS)
    world.recipe("Pea soup", 2)
    before = kitchen.show_recipe(world.room, "Pea soup")
    kitchen.change_recipe(world.room, "pea", serves=6)
    changed = kitchen.show_recipe(world.room, "Pea soup")
    assert (changed.serves, changed.lines, changed.cooking_water_dg) == (
        6,
        before.lines,
        before.cooking_water_dg,
    )
    kitchen.change_recipe(
        world.room,
        "pea",
        new_name="PEA SOUP",
        lines=[LineRequest(item="leek")],
        cooking_water_dg=0,
        steps="Cook.",
    )
    again = kitchen.show_recipe(world.room, "pea")
    assert (again.name, again.serves, again.cooking_water_dg, again.steps) == (
        "PEA SOUP",
        6,
        0,
        "Cook.",
    )
    assert [line.item for line in again.lines] == ["leek"]


def test_recipes_are_listed_with_what_they_hold_and_when_cooked(world: World) -> None:
    world.packed(PEAS)
    world.recipe("pea soup", 2)
    world.recipe("Apple cake", 8, [LineRequest(item="apple"), LineRequest(item="flour")])
    kitchen.cook_meal(world.later(4).room, "pea soup", 2)
    listed = [
        (one.name, one.serves, one.stored, one.fresh, one.last_cooked_on)
        for one in kitchen.list_recipes(world.room)
    ]
    assert listed == [
        ("Apple cake", 8, 0, 2, None),
        ("pea soup", 2, 1, 1, world.later(4).room.today),
    ]


def test_a_removed_recipe_leaves_its_meals(world: World) -> None:
    world.packed(PEAS)
    world.recipe("Pea soup")
    kitchen.cook_meal(world.room, "Pea soup", 2)
    assert kitchen.remove_recipe(world.room, "pea soup").words == "removed the recipe Pea soup"
    assert kitchen.list_recipes(world.room) == ()
    assert [meal.name for meal in kitchen.list_meals(world.room)] == ["Pea soup"]


def test_a_sheet_for_more_people_scales_everything(world: World) -> None:
    """200 g of peas for two is 300 g for three; 30 g dry of 155 from 1000 is 193.5 g as fresh."""
    world.packed(PEAS, "4xpouch-400-foil:30")
    world.recipe(
        "Soup",
        2,
        [_line(PEAS, 200), LineRequest(item="onion", amount=Fraction(1), unit="big")],
    )
    sheet = kitchen.cook_sheet(world.room, "Soup", 3)
    plan = sheet.plan
    assert (plan.people, plan.cooking_water_dg) == (3, 7_500)
    assert [(one.item, one.amount, one.unit) for one in plan.fresh] == [
        ("onion", Fraction(3, 2), "big")
    ]
    taken = [take for _, take, _ in _picked(sheet)]
    assert taken == [300, 165]
    assert plan.water_dg == sum(water for *_, water in _picked(sheet)) == 2_535
    assert plan.short == ()


def test_the_three_bases(world: World) -> None:
    """A serving of peas is 85 g as eaten, so one and a half are 127.5 g fresh."""
    world.packed(PEAS, "2xjar-950:70")
    for basis, amount, wanted in (
        (Basis.FRESH, 100, 1_000),
        (Basis.DRY, 10, 100),
        (Basis.SERVINGS, "1.5", 1_275),
    ):
        name = world.recipe(f"By {basis}", 1, [_line(PEAS, amount, basis)])
        (line,) = kitchen.cook_sheet(world.room, name, 1).plan.lines
        assert line.need.wanted_dg == wanted
        got = line.dry_dg if basis is Basis.DRY else line.dry_dg + line.water_dg
        assert wanted <= got < wanted + 8


def test_the_opened_goes_first_then_the_oldest_then_the_soonest(world: World) -> None:
    old = world.packed(PEAS, "2xpouch-400-foil:10,absorber=100")
    later = world.later(10)
    new = later.packed(PEAS, "2xpouch-400-foil:10,absorber=100", "1xbag-zip-1000:10")
    packages.draw_package(later.room, new[0], Amount(dry_dg=50))
    name = world.recipe("All", 1, [_line(PEAS, 45, Basis.DRY)])
    picked = [code for code, *_ in _picked(kitchen.cook_sheet(later.room, name, 1))]
    assert picked == [new[0], old[0], old[1], new[2], new[1]]


def test_what_may_not_be_eaten_is_not_picked(world: World) -> None:
    codes = world.packed(PEAS, "4xpouch-400-foil:10")
    packages.check_package(world.room, codes[0], Event.LEAK)
    packages.discard_packages(world.room, [codes[1]], "torn")
    packages.draw_package(world.room, codes[2])
    name = world.recipe("All", 1, [_line(PEAS, 40, Basis.DRY)])
    sheet = kitchen.cook_sheet(world.room, name, 1)
    assert _picked(sheet) == [(codes[3], 100, 546)]
    assert [line.shortfall_dg for line in sheet.plan.short] == [300]


def test_a_sheet_says_what_to_bear_in_mind(world: World) -> None:
    foods.add_food(world.room, "Stew base", like=BEEF_RAW, allergens=[Allergen.WHEAT])
    beef = world.packed("Stew base", "1xjar-475:50", dry_g=270)[0]
    crab = world.packed("Crab, Dungeness, moist heat", "1xpouch-400-foil:20,absorber=100")[0]
    packages.check_package(world.room, crab, Event.CRISP)
    name = world.recipe(
        "Stew", 1, [_line("Stew base", 40), _line("Crab, Dungeness, moist heat", 10)]
    )
    sheet = kitchen.cook_sheet(world.later(400).room, name, 1)
    assert sheet.allergens == ("crustacean_shellfish", "wheat")
    assert sheet.raw_foods == ("Stew base",)
    assert sheet.unchecked == (beef,)
    assert sheet.past_best_by == (beef,)
    assert sheet.ingredients_unknown == ()
    assert sheet.cautions


def test_best_by_itself_is_not_past(world: World) -> None:
    code = world.packed(PEAS, "1xjar-475:20")[0]
    best_by = world.package(code).best_by
    assert best_by is not None
    name = world.recipe("Soup", 1, [_line(PEAS, 10)])
    on_the_day = world.on(best_by)
    assert kitchen.cook_sheet(on_the_day.room, name, 1).past_best_by == ()
    assert kitchen.cook_sheet(on_the_day.later(1).room, name, 1).past_best_by == (code,)


def test_a_dish_nobody_described_asks_to_look(world: World) -> None:
    foods.add_food(
        world.room,
        "Our stew",
        food_class=foods.FoodClass.MEAL,
        preparation=foods.Preparation.COOKED,
    )
    world.packed("Our stew", "1xjar-475:20")
    name = world.recipe("Stew", 1, [_line("Our stew", 20)])
    assert kitchen.cook_sheet(world.room, name, 1).ingredients_unknown == ("Our stew",)


def test_cooking_takes_what_the_sheet_said(world: World) -> None:
    codes = world.packed(PEAS, "3xpouch-400-foil:30")
    world.recipe("Soup", 2, [_line(PEAS, 250), _line(PEAS, 10, Basis.DRY)])
    later = world.later(6)
    sheet = kitchen.cook_sheet(later.room, "Soup", 2)
    done = kitchen.cook_meal(later.room, "Soup", 2)
    assert done.words == (
        f"cooked Soup for 2 from {len(_picked(sheet))} packages,"
        f" {sheet.plan.water_dg / 10:.1f} g of water to rehydrate"
    )
    assert done.codes == codes[:2]
    assert done.cautions == sheet.cautions
    (meal,) = kitchen.list_meals(later.room)
    assert (meal.meal_id, meal.name, meal.people, meal.on_day) == (
        done.made_id,
        "Soup",
        2,
        later.room.today,
    )
    assert (meal.rehydration_water_dg, meal.cooking_water_dg) == (sheet.plan.water_dg, 5_000)
    drawn = [
        (package.code, line.dry_dg, line.water_dg)
        for package in shelves.packages_for(later.room, [1, 2, 3])
        for line in shelves.package_detail(later.room, package.code).history
        if line.meal == "Soup"
    ]
    assert sorted(drawn) == sorted(_picked(sheet))
    assert world.package(codes[0]).condition == "used"
    assert world.package(codes[1]).condition == "opened"
    assert world.package(codes[2]).condition == "settling"
    assert all_troubles(world.room) == []


@settings(max_examples=40, deadline=None)
@given(
    weights=st.lists(st.integers(1, 400), min_size=1, max_size=4),
    wants=st.lists(
        st.tuples(st.sampled_from([Basis.FRESH, Basis.DRY, Basis.SERVINGS]), st.integers(1, 60)),
        min_size=1,
        max_size=3,
    ),
    meals=st.integers(1, 4),
)
def test_meal_after_meal_the_record_is_the_sheet(
    room_template: Path, weights: list[int], wants: list[tuple[Basis, int]], meals: int
) -> None:
    """Packages opened in one meal and drawn from in the next: paper and record stay the same."""
    with tempfile.TemporaryDirectory() as folder:
        world = copied_world(room_template, Path(folder) / "stockroom.db")
        room = world.room
        splits = [f"1xcan-3300:{dg / 10}" for dg in weights]
        world.packed(PEAS, *splits, wet_g=1234.5, dry_g=207.3)
        lines = [_line(PEAS, Fraction(n, 2 if b is Basis.SERVINGS else 1), b) for b, n in wants]
        world.recipe("Soup", 3, lines)
        for _ in range(meals):
            sheet = kitchen.cook_sheet(room, "Soup", 2)
            if not _picked(sheet):
                break
            kitchen.cook_meal(room, "Soup", 2, take_short=True)
            meal = kitchen.list_meals(room)[0]
            water_dg = room.store.value(
                "SELECT sum(water_dg) FROM draw WHERE meal_id = ?", (meal.meal_id,)
            )
            assert meal.rehydration_water_dg == sheet.plan.water_dg == water_dg
            assert all_troubles(room) == []
        room.close()


def test_what_is_short_is_taken_only_when_said(world: World) -> None:
    codes = world.packed(PEAS, "1xpouch-400-foil:10")
    world.recipe("Soup", 2)
    done = kitchen.cook_meal(world.room, "Soup", 2, take_short=True)
    assert done.words == "cooked Soup for 2 from 1 package, 54.5 g of water to rehydrate"
    assert done.codes == codes


def test_a_dish_of_fresh_things_alone_is_cooked_from_nothing(world: World) -> None:
    world.recipe("Salad", 2, [LineRequest(item="lettuce")])
    done = kitchen.cook_meal(world.room, "Salad", 2)
    assert done.words == "cooked Salad for 2 from 0 packages, 0.0 g of water to rehydrate"
    assert kitchen.list_meals(world.room)[0].rehydration_water_dg == 0


def test_meals_are_listed_latest_first(world: World) -> None:
    world.recipe("Salad", 2, [LineRequest(item="lettuce")])
    for days in (0, 2, 1):
        kitchen.cook_meal(world.later(days).room, "Salad", days + 1)
    assert [meal.people for meal in kitchen.list_meals(world.room)] == [3, 2, 1]
    assert [meal.people for meal in kitchen.list_meals(world.room, count=2)] == [3, 2]


def test_a_food_corrected_since_counts_in_servings_as_it_is_now(world: World) -> None:
    world.packed(PEAS, "1xjar-950:100")
    name = world.recipe("Soup", 1, [_line(PEAS, 1, Basis.SERVINGS)])
    foods.change_food(world.room, PEAS, serving_dg=1_700)
    (line,) = kitchen.cook_sheet(world.room, name, 1).plan.lines
    assert line.need.wanted_dg == 1_700


def test_a_food_renamed_stays_in_its_recipes(world: World) -> None:
    world.packed(PEAS)
    name = world.recipe("Soup", 1, [_line(PEAS, 10)])
    foods.change_food(world.room, PEAS, new_name="Garden peas")
    assert kitchen.show_recipe(world.room, name).lines[0].food == "Garden peas"
    assert kitchen.cook_sheet(world.room, name, 1).plan.lines[0].need.food_name == "Garden peas"


@pytest.mark.parametrize("people", [1, 1000])
def test_the_ends_of_how_many_may_be_cooked_for(world: World, people: int) -> None:
    world.packed(APPLE)
    name = world.recipe("Crumble", 1000, [_line(APPLE, 1)])
    assert kitchen.cook_sheet(world.room, name, people).plan.people == people


def test_an_open_run_is_no_stock(world: World) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, PEAS, gross_dg=9_000)
    name = world.recipe("Soup", 2)
    assert kitchen.cook_sheet(world.room, name, 2).plan.short[0].shortfall_dg == 2_000
