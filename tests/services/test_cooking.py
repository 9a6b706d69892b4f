"""Cooking with wishes: whole packages, servings, swaps, raw food, water, and the clock after it."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from fractions import Fraction

import pytest

from stockroom.domain.cooking import Basis, Occasion
from stockroom.domain.foods import Allergen, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.units import Cup
from stockroom.services import (
    foods,
    history,
    household,
    kitchen,
    packages,
    recipes,
    substitutes,
    workings,
)
from stockroom.services.cooking_shelf import FIRST_PAGE
from stockroom.services.kitchen import Clear, LineRequest
from stockroom.services.packages import Amount
from stockroom.store import candidate_rows
from tests.invariants import all_troubles
from tests.workings import check_figures, step_of
from tests.world import APPLE, BEEF_RAW, PEAS, World

CRAB = "Crab, Dungeness, moist heat"


def _line(food: str, amount: int | str, basis: Basis = Basis.FRESH) -> LineRequest:
    return LineRequest(food=food, basis=basis, amount=Fraction(amount))


# What a recipe says of itself


def test_a_recipe_keeps_all_that_is_said_of_it_and_gives_it_up_when_told(world: World) -> None:
    world.dry_lot(PEAS)
    recipes.add_recipe(
        world.room,
        "Soup",
        4,
        [LineRequest(food=PEAS, amount=Fraction(100), hold_back_percent=10)],
        hold_back_percent=0,
        cook_to_dc=740,
        water_temperature_dc=600,
        occasion=Occasion.BREAKFAST,
        fresh_kcal=120,
        fresh_protein_dg=40,
        origin=" our own ",
        allergens=[Allergen.WHEAT, Allergen.MILK, Allergen.WHEAT],
    )
    kept = kitchen.show_recipe(world.room, "Soup")
    assert (kept.hold_back_percent, kept.cook_to_dc, kept.water_temperature_dc) == (0, 740, 600)
    assert (kept.occasion, kept.fresh_kcal, kept.fresh_protein_dg) == ("breakfast", 120, 40)
    assert (kept.origin, kept.allergens) == ("our own", ("milk", "wheat"))
    assert kept.lines[0].hold_back_percent == 10
    (listed,) = kitchen.list_recipes(world.room)
    assert (listed.occasion, listed.cook_to_dc) == ("breakfast", 740)
    recipes.change_recipe(world.room, "Soup", serves=3)
    changed = kitchen.show_recipe(world.room, "Soup")
    assert (changed.cook_to_dc, changed.allergens, changed.origin) == (
        740,
        kept.allergens,
        "our own",
    )
    recipes.change_recipe(world.room, "Soup", clear=list(Clear), allergens=(), origin="")
    bare = kitchen.show_recipe(world.room, "Soup")
    assert (bare.cook_to_dc, bare.water_temperature_dc, bare.fresh_kcal) == (None, None, None)
    assert (bare.fresh_protein_dg, bare.allergens, bare.origin) == (None, (), "")
    assert (bare.hold_back_percent, bare.occasion) == (0, "breakfast")
    history.undo(world.room)
    assert kitchen.show_recipe(world.room, "Soup") == changed


def test_allergens_and_raw_food_are_carried_up(world: World) -> None:
    world.packed(CRAB)
    world.packed(BEEF_RAW, wet_g=500, dry_g=140)
    recipes.add_recipe(
        world.room, "Surf", 2, [_line(CRAB, 50), _line(BEEF_RAW, 50)], allergens=[Allergen.MILK]
    )
    facts = kitchen.recipe_facts(world.room, "surf")
    assert facts.allergens == ("crustacean_shellfish", "milk")
    assert [(one.name, one.least.fahrenheit) for one in facts.raw.foods] == [(BEEF_RAW, 160)]
    assert not facts.raw.passed
    assert kitchen.cook_sheet(world.room, "Surf", 2).allergens == facts.allergens


# Water


def test_water_is_split_and_measured_as_the_dish_and_the_household_say(world: World) -> None:
    world.packed(PEAS, "2xjar-950:70")
    household.change_household(world.room, cup=Cup.LABEL)
    recipes.add_recipe(
        world.room,
        "Soup",
        2,
        [
            LineRequest(food=PEAS, amount=Fraction(100), hold_back_percent=0),
            _line(PEAS, 20, Basis.DRY),
        ],
        hold_back_percent=40,
        water_temperature_dc=600,
    )
    sheet = kitchen.cook_sheet(world.room, "Soup", 2)
    first, second = sheet.plan.lines
    assert (first.water.held_dg, first.water.now_dg) == (0, first.water_dg)
    assert second.water.held_dg == pytest.approx(second.water_dg * 0.4, abs=0.5)
    assert sheet.plan.water.all_dg == sheet.plan.water_dg
    assert (sheet.way.at_c, sheet.way.cup) == (60.0, Cup.LABEL)
    *of_foods, in_all = workings.cook_working(world.room, sheet).workings
    for working, line in zip(of_foods, sheet.plan.lines, strict=True):
        assert "label cup" in working.conclusion
        assert step_of(working, "to hold back").result == f"{line.water.held_dg / 10:.1f} g"
        assert step_of(working, "to add at first").result == f"{line.water.now_dg / 10:.1f} g"
        assert "60 °C" in step_of(working, "volume").formula
        assert check_figures(working) >= 8
    assert step_of(in_all, "to add at first").result == f"{sheet.plan.water.now_dg / 10:.1f} g"
    assert check_figures(in_all) >= 4


def test_water_is_at_twenty_degrees_and_in_us_cups_when_nothing_was_said(world: World) -> None:
    world.packed(PEAS)
    sheet = kitchen.cook_sheet(world.room, world.recipe(), 2)
    assert (sheet.way.at_c, sheet.way.cup) == (20.0, Cup.US)


# How much


def test_servings_decide_the_amounts_and_the_meal_keeps_people(world: World) -> None:
    world.packed(PEAS, "2xjar-950:70")
    world.recipe("Soup", 2)
    sheet = kitchen.cook_sheet(world.room, "Soup", servings=Fraction(5, 2))
    assert sheet.plan.lines[0].need.wanted_dg == 2_500
    assert sheet.plan.people == 2
    working = workings.cook_working(world.room, sheet).workings[0]
    assert step_of(working, "wanted").figures == "200.0 g x 5/2 / 2"
    kitchen.cook_meal(world.room, "Soup", 3, servings=Fraction(1, 2))
    (meal,) = kitchen.list_meals(world.room)
    assert (meal.people, meal.cooking_water_dg) == (3, 1_250)


def test_without_a_number_it_is_for_the_household(world: World) -> None:
    world.packed(PEAS, "2xjar-950:70")
    household.change_household(world.room, people=3)
    assert kitchen.cook_sheet(world.room, world.recipe("Soup", 2)).plan.people == 3


# The last package


def test_the_whole_of_the_last_package_is_offered_and_taken(world: World) -> None:
    """95 g as fresh stay of a pouch of 193.5 g: more than a serving of 85 g; 65 g are less."""
    codes = world.packed(PEAS, "2xpouch-400-foil:30")
    world.recipe("Soup", 1, [_line(PEAS, 130)])
    sheet = kitchen.cook_sheet(world.room, "Soup", 1)
    (offer,) = sheet.wholes
    line = sheet.plan.lines[0]
    assert (offer.code, line.dry_dg + offer.more_dg) == (codes[0], 300)
    (rest,) = sheet.left_open
    assert (rest.code, rest.left_dg, rest.left_water_dg) == (
        codes[0],
        offer.more_dg,
        offer.more_water_dg,
    )
    whole = kitchen.cook_sheet(world.room, "Soup", 1, whole=True)
    assert (whole.wholes, whole.left_open, whole.plan.lines[0].dry_dg) == ((), (), 300)
    assert check_figures(workings.cook_working(world.room, whole).workings[0]) >= 6
    kitchen.cook_meal(world.room, "Soup", 1, whole=True)
    assert world.package(codes[0]).condition == "used"
    (meal,) = kitchen.list_meals(world.room)
    assert meal.rehydration_water_dg == whole.plan.water_dg
    assert all_troubles(world.room) == []


def test_what_stays_open_has_the_day_the_record_gives_it_afterwards(world: World) -> None:
    codes = world.packed(PEAS, "2xpouch-1500-foil:70,absorber=300")
    world.recipe("Soup", 1, [_line(PEAS, 30, Basis.DRY)])
    later = world.later(30)
    (rest,) = kitchen.cook_sheet(later.room, "Soup", 1).left_open
    assert (rest.code, rest.left_dg, rest.why_not) == (codes[0], 400, "")
    kitchen.cook_meal(later.room, "Soup", 1)
    assert rest.use_by == world.package(codes[0]).best_by
    assert rest.use_by is not None
    assert rest.use_by <= later.room.today + timedelta(days=14)
    (again,) = kitchen.cook_sheet(later.later(3).room, "Soup", 1).left_open
    assert again.use_by == rest.use_by


def test_no_day_is_given_before_the_package_was_sealed(world: World) -> None:
    world.packed(PEAS)
    name = world.recipe()
    (rest,) = kitchen.cook_sheet(world.later(-1).room, name, 2).left_open
    assert rest.use_by is None
    assert "sealed on 2026-11-25" in rest.why_not


# Raw food


def test_raw_food_is_cooked_by_the_recipe_or_for_this_once(world: World) -> None:
    codes = world.packed(BEEF_RAW, "2xpouch-400-foil:40", wet_g=500, dry_g=140)
    world.recipe("Stew", 2, [_line(BEEF_RAW, 100)])
    sheet = kitchen.cook_sheet(world.room, "Stew", 2)
    assert sheet.raw_foods == (BEEF_RAW,)
    assert not sheet.raw.passed
    assert sheet.heat is sheet.raw.least
    assert sheet.heat is not None and sheet.heat.fahrenheit == 160
    once = kitchen.cook_sheet(world.room, "Stew", 2, cook_to_dc=711)
    assert once.raw.passed
    done = kitchen.cook_meal(world.room, "Stew", 2, cook_to_dc=711)
    assert done.words.endswith("; raw food cooked to 71.1 °C")
    assert done.codes == codes[:1]
    recipes.change_recipe(world.room, "Stew", cook_to_dc=740)
    assert "cooked to 74.0 °C" in kitchen.cook_meal(world.room, "Stew", 2).words


def test_cooked_food_is_reheated_and_ready_food_is_not(world: World) -> None:
    foods.add_food(
        world.room, "Our stew", food_class=FoodClass.MEAL, preparation=Preparation.COOKED
    )
    world.packed("Our stew")
    world.packed(APPLE)
    world.recipe("Stew", 2, [_line("Our stew", 100)])
    world.recipe("Apples", 2, [_line(APPLE, 100)])
    stew = kitchen.cook_sheet(world.room, "Stew", 2)
    assert stew.heat is not None
    assert (stew.heat.fahrenheit, stew.raw.passed) == (165, True)
    assert kitchen.cook_sheet(world.room, "Apples", 2).heat is None


# The clock


def test_a_meal_is_wetted_now_and_keeps_three_days_cold(world: World) -> None:
    """C1 and C2: two hours out of the cold, one in a hot room; wetted 11-25, last day 11-28."""
    world.packed(PEAS)
    done = kitchen.cook_meal(world.room, world.recipe(), 2)
    at = datetime(2026, 11, 25, 12, tzinfo=UTC)
    assert done.care is not None
    assert done.care.wetted_at == at
    assert done.care.out_until == at.replace(hour=14)
    assert done.care.out_until_hot == at.replace(hour=13)
    assert (done.care.chilled_until, done.care.at_once) == (date(2026, 11, 28), False)
    (meal,) = kitchen.list_meals(world.room)
    assert (meal.wetted_at, meal.eat_by) == (at, date(2026, 11, 28))
    assert kitchen.care_of(meal) == done.care


def test_rehydrated_egg_is_eaten_at_once(world: World) -> None:
    foods.add_food(
        world.room,
        "Our scrambled egg",
        food_class=FoodClass.EGG,
        preparation=Preparation.COOKED,
        group=FoodGroup.EGG,
    )
    world.packed("Our scrambled egg")
    name = world.recipe("Breakfast", 2, [_line("Our scrambled egg", 100)])
    assert kitchen.cook_sheet(world.room, name, 2).at_once == ("Our scrambled egg",)
    done = kitchen.cook_meal(world.room, name, 2)
    assert done.care is not None and done.care.at_once
    (meal,) = kitchen.list_meals(world.room)
    assert meal.eat_by == meal.on_day
    assert kitchen.care_of(meal) == done.care


def test_what_was_not_wetted_has_no_clock(world: World) -> None:
    world.recipe("Salad", 2, [LineRequest(item="lettuce")])
    assert kitchen.cook_meal(world.room, "Salad", 2).care is None
    (meal,) = kitchen.list_meals(world.room)
    assert (meal.wetted_at, meal.eat_by, kitchen.care_of(meal)) == (None, None, None)


# Stand-ins


def _short_of_peas(world: World) -> None:
    """Peas for one of two; plenty of a kale and a soybean mash of ours, a little cabbage."""
    world.packed(PEAS, "1xpouch-400-foil:10")
    for name, dry_g, allergens in (
        ("Our kale", 140, ()), ("Our soy mash", 140, (Allergen.SOYBEANS,)), ("Our cabbage", 12, ()),
    ):  # fmt: skip
        foods.add_food(world.room, name, like=PEAS, allergens=list(allergens))
        world.packed(name, f"1xjar-950:{dry_g}", wet_g=1000, dry_g=150)
    world.packed(APPLE)
    world.recipe("Soup", 2, [_line(PEAS, 200), LineRequest(item="salt")])


def test_foods_that_could_stand_in_with_their_water(world: World) -> None:
    _short_of_peas(world)
    (found,) = substitutes.substitutes(world.room, "Soup", 2)
    assert (found.food, found.line.shortfall_dg) == (PEAS, 1_355)
    assert [one.food for one in found.options] == ["Our kale", "Our soy mash"]
    kale, soy = found.options
    assert (kale.new_allergens, soy.new_allergens) == ((), ("soybeans",))
    assert 2_000 <= kale.dry_dg + kale.water_dg < 2_008
    assert (kale.same_group, kale.same_class, kale.preparation) == (True, True, "cooked")


def test_a_swap_is_cooked_as_it_was_offered(world: World) -> None:
    _short_of_peas(world)
    (found,) = substitutes.substitutes(world.room, "Soup", 2)
    soy = found.options[1]
    swaps = {found.food_id: soy.food_id}
    sheet = kitchen.cook_sheet(world.room, "Soup", 2, swaps=swaps)
    (line,) = sheet.plan.lines
    assert (line.need.food_name, line.need.instead_of) == ("Our soy mash", PEAS)
    assert (line.dry_dg, line.water_dg) == (soy.dry_dg, soy.water_dg)
    assert "soybeans" in sheet.allergens
    assert substitutes.substitutes(world.room, "Soup", 2, swaps=swaps) == ()
    working = workings.cook_working(world.room, sheet).workings[0]
    assert f"instead of {PEAS}" in step_of(working, "wanted").formula
    done = kitchen.cook_meal(world.room, "Soup", 2, swaps=swaps)
    assert f"; Our soy mash instead of {PEAS}" in done.words
    assert [line.food for line in kitchen.show_recipe(world.room, "Soup").lines] == [PEAS, None]


def test_what_other_lines_take_is_not_offered_twice(world: World) -> None:
    _short_of_peas(world)
    world.recipe("Both", 2, [_line(PEAS, 200), _line("Our kale", 130, Basis.DRY)])
    (found,) = substitutes.substitutes(world.room, "Both", 2)
    assert [one.food for one in found.options] == ["Our soy mash"]


def test_nothing_short_needs_no_stand_in(world: World) -> None:
    world.packed(PEAS)
    assert substitutes.substitutes(world.room, world.recipe(), 2) == ()


# Reading no more than is taken


def test_of_a_full_shelf_only_the_first_packages_are_read(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Forty days of packing; for one pouch no day after the first page is read."""
    codes = [
        world.later(day).packed(PEAS, "3xpouch-400-foil:10", wet_g=210, dry_g=31)
        for day in range(40)
    ]
    read: list[int] = []
    honest = candidate_rows.sealed_candidates

    def counted(*args: object, **wanted: object) -> object:
        rows = honest(*args, **wanted)  # type: ignore[arg-type]
        read.append(len(rows))
        return rows

    monkeypatch.setattr(candidate_rows, "sealed_candidates", counted)
    last = world.later(40)
    name = last.recipe("Soup", 1, [_line(PEAS, 10, Basis.DRY)])
    (line,) = kitchen.cook_sheet(last.room, name, 1).plan.lines
    assert [pick.candidate.code for pick in line.picks] == [codes[0][0]]
    assert sum(read) <= FIRST_PAGE + 3
    read.clear()
    (line,) = kitchen.cook_sheet(last.room, name, 100).plan.lines
    assert [pick.candidate.code for pick in line.picks] == [
        code for of_day in codes for code in of_day
    ][:100]
    assert sum(read) <= 2 * 100 + 3 * FIRST_PAGE


def test_a_plan_by_pages_is_the_plan_of_the_whole_shelf(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    for day in range(12):
        split = f"{1 + day % 3}xpouch-400-foil:{5 + 7 * (day % 4)}"
        (first, *_) = world.later(day // 2).packed(PEAS, split)
        if day % 5 == 0:
            packages.draw_package(world.later(20).room, first, Amount(dry_dg=13))
    later = world.later(20)
    name = later.recipe(
        "Soup", 1, [_line(PEAS, 40), _line(PEAS, 9, Basis.DRY), _line(PEAS, 1, Basis.SERVINGS)]
    )
    by_pages = [kitchen.cook_sheet(later.room, name, people).plan for people in range(1, 30)]
    monkeypatch.setattr("stockroom.services.cooking_shelf.FIRST_PAGE", 1_000)
    whole = [kitchen.cook_sheet(later.room, name, people).plan for people in range(1, 30)]
    assert by_pages == whole
    assert any(plan.short for plan in whole)
    monkeypatch.setattr("stockroom.services.cooking_shelf.FIRST_PAGE", 1)
    assert [kitchen.cook_sheet(later.room, name, people).plan for people in range(1, 30)] == whole
