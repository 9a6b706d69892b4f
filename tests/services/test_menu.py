"""Menus from a real store: what is asked, what is kept, what is cooked, and that all of it holds.

Every plan a service gives is held against `domain.menu.checker`, which shares no code with what
made it.
"""

from __future__ import annotations

import tempfile
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stockroom.clock import FixedClock
from stockroom.domain.conditions import Event
from stockroom.domain.cooking import Basis, FreshNeed, Occasion
from stockroom.domain.foods import Allergen
from stockroom.domain.menu.checker import check
from stockroom.domain.menu.choices import choices
from stockroom.domain.menu.plans import Proof, proof
from stockroom.domain.menu.reading import read_plan
from stockroom.domain.menu.records import Wish
from stockroom.domain.menu.relax import conceded, concessions_for
from stockroom.domain.menu.shelf import shelves
from stockroom.domain.menu_records import MenuOffer, Swap, add_up, gap_words, proven_words
from stockroom.domain.menu_wishes import (
    USUAL,
    WISHES,
    Between,
    MenuWishes,
    WishesUnreadable,
    changed_options,
    wishes_from_json,
    wishes_json,
    with_texts,
)
from stockroom.domain.person import Activity, Sex
from stockroom.errors import BadInput
from stockroom.services import foods, history, kitchen, menu, packages, people
from stockroom.services.kitchen import LineRequest
from stockroom.services.menu_reading import ask, menu_question
from stockroom.services.menu_shown import shown_menu
from stockroom.services.menu_solver import Effort, Progress
from stockroom.services.menu_solver import plan_menu as solve_menu
from stockroom.services.menu_stock import as_package
from stockroom.services.menu_wishes import menu_wishes, set_menu_wishes
from stockroom.services.packages import Amount
from stockroom.services.people import Told
from stockroom.services.session import open_stockroom
from tests.menus import asked, kept, larder, soften, tomorrow
from tests.world import APPLE, BEEF_RAW, PEAS, TODAY, World, copied_world


def sound(offer: MenuOffer) -> bool:
    """Whether the plan keeps to its question, less what is said to be given up."""
    return check(conceded(offer.question, offer.concessions), offer.plan) == ()


def allergic(world: World, *allergens: Allergen) -> None:
    """Ann, who must not get these."""
    people.add_member(
        world.room, "Ann", sex=Sex.FEMALE, age_years=Fraction(41), activity=Activity.LOW,
        told=Told(allergens=allergens),
    )  # fmt: skip


# What is asked


def test_the_question_has_the_stock_as_cooking_has_it(world: World) -> None:
    codes = larder(world)
    soften(world, codes[-1])
    question = menu_question(world.room, TODAY, 3, USUAL)
    assert {one.code for one in question.packages} == {*codes[:6]}, "its sisters are doubtful too"
    first = next(one for one in question.packages if one.code == codes[0])
    package = world.package(codes[0])
    assert first.fresh_dg == package.left_dg + package.left_water_dg
    assert (first.opened, first.firm, first.due) == (True, True, package.best_by)
    sealed = next(one for one in question.packages if one.code == codes[2])
    assert (sealed.opened, sealed.firm) == (False, False)


@pytest.mark.parametrize("reach_days", [0, 40, 4_000])
def test_no_more_packages_than_a_menu_could_reach(world: World, reach_days: int) -> None:
    """The best menu from the packages handed over is the best from all there are."""
    larder(world, dishes=1)
    for _ in range(3):
        world.packed(PEAS, "20xpouch-400-foil:25,absorber=100", wet_g=4000, dry_g=600)
    wishes = replace(USUAL, reach_days=reach_days, finish_packages=True)
    found = ask(world.room, asked(world, 2, wishes))
    everything = tuple(as_package(one) for one in found.book.stock)
    assert (len(found.question.packages) < len(everything)) is (reach_days < 4_000)
    exact = Effort(gap_millionths=0, seconds=20)
    whole = solve_menu(replace(found.question, packages=everything), exact)
    part = solve_menu(found.question, exact)
    assert whole.plan.account.value == part.plan.account.value
    assert whole.proof.bound == part.proof.bound
    assert whole.concessions == part.concessions


def test_packages_past_their_best_by_are_left_out_and_said(world: World) -> None:
    codes = larder(world)
    packages.check_package(world.later(1).room, codes[2], Event.CRISP)
    late = world.on(date(2070, 1, 1))
    found = ask(late.room, asked(late))
    assert found.question.packages == ()
    (past,) = [each.words for each in found.findings]
    assert past.startswith("12 packages were due before 2070-01-01")
    assert "quality estimate, not safety" in past
    may = ask(late.room, asked(late, wishes=replace(USUAL, past_best_by=True)))
    assert {one.code for one in may.question.packages} == set(codes[1:]), "an open one never"


def test_energy_and_protein_are_of_the_composition_as_loaded(world: World) -> None:
    """Peas, green, frozen, boiled: 78 kcal and 5.15 g of protein in 100 g (USDA SR 28, 11313)."""
    larder(world)
    option = menu_question(world.room, TODAY, 1, USUAL).options[0]
    assert option.name == "Pea dish 0"
    by_people = {one.people: one for one in option.helpings}
    assert set(by_people) == {2, 3}
    assert by_people[2].kcal == 234 + 1_500
    assert by_people[2].protein_dg == 154 + 400 or by_people[2].protein_dg == 155 + 400
    assert by_people[3].kcal == 351 + 2_250
    assert option.cooks


def test_dry_amounts_and_water_follow_what_is_on_the_shelves(world: World) -> None:
    """4000 g of apple gave 480 g dry: 20 g dry are 166.7 g fresh with 146.7 g of water."""
    larder(world)
    options = {one.name: one for one in menu_question(world.room, TODAY, 1, USUAL).options}
    porridge = options["Porridge 0"].helpings[0]
    assert [use.fresh_dg for use in porridge.uses] == [1_667]
    assert porridge.water_ml == 147
    soup = options["Pea dish 0"].helpings[0]
    sheet = kitchen.cook_sheet(world.room, "Pea dish 0", 2).plan
    assert abs(soup.water_ml * 10 - sheet.water_dg - sheet.cooking_water_dg) <= 30


def test_what_is_not_known_is_said(world: World) -> None:
    larder(world, dishes=1)
    kitchen.change_recipe(
        world.room, "Porridge 0", clear=[kitchen.Clear.FRESH_KCAL, kitchen.Clear.FRESH_PROTEIN]
    )
    offer = menu.quick_menu(world.room, asked(world, 1))
    words = [each.words for each in offer.page.findings]
    assert "Energy or protein of Porridge 0 is counted without its fresh items." in words


def test_allergens_of_those_who_eat_are_hard(world: World) -> None:
    larder(world)
    kept(world)
    menu.lock_dish(world.room, TODAY, "pea")
    foods.change_food(world.room, PEAS, allergens=[Allergen.MILK])
    allergic(world, Allergen.MILK)
    offer = menu.plan_menu(world.room, asked(world))
    assert sound(offer)
    assert all(dish.name.startswith("Porridge") for dish in offer.page.dishes)
    why = {each.name: each.why for each in offer.page.account.excluded}
    assert why["Pea dish 1"] == "holds milk, which Ann must not get"
    assert any("was locked and is left out" in each.words for each in offer.page.findings)
    assert any("holds milk" in each for each in shown_menu(world.room).stale)


def test_food_of_unknown_ingredients_is_not_served_to_the_allergic(world: World) -> None:
    larder(world, dishes=1)
    foods.add_food(world.room, "Stew", like="Beef stew, canned")
    kitchen.change_recipe(
        world.room, "Pea dish 0", lines=[LineRequest(food="Stew", amount=Fraction(100))]
    )
    assert menu_question(world.room, TODAY, 1, USUAL).options[0].why_not == ""
    allergic(world, Allergen.EGG)
    why_not = menu_question(world.room, TODAY, 1, USUAL).options[0].why_not
    assert why_not == "what went into Stew is not known, and Ann has an allergy"
    foods.change_food(world.room, "Stew", allergens=[])
    assert menu_question(world.room, TODAY, 1, USUAL).options[0].why_not == ""


@pytest.mark.parametrize(
    ("cook_to_dc", "why_not"),
    [
        (None, "takes raw food (Beef, eye of round, lean, raw) and has no cooking step"),
        (628, "takes raw food (Beef, eye of round, lean, raw), which needs 160 °F (71.1 °C)"),
        (711, ""),
    ],
)
def test_raw_food_is_never_served_uncooked(
    world: World, cook_to_dc: int | None, why_not: str
) -> None:
    """Least temperatures: USDA Food Safety and Inspection Service, 160 °F where minced."""
    larder(world, dishes=1)
    world.packed(BEEF_RAW, "2xpouch-400-foil:40", wet_g=500, dry_g=140)
    beef = [LineRequest(food=BEEF_RAW, amount=Fraction(50))]
    kitchen.add_recipe(world.room, "Stew", 2, beef, cook_to_dc=cook_to_dc, fresh_kcal=1_500)
    offer = menu.plan_menu(world.room, asked(world, 2))
    option = next(one for one in offer.question.options if one.name == "Stew")
    assert option.why_not == why_not
    assert sound(offer)
    assert not why_not or "Stew" not in {dish.name for dish in offer.plan.dishes}


def test_a_measure_without_a_weight_leaves_the_dish_out(world: World) -> None:
    from stockroom.services import measures

    larder(world, dishes=1)
    measures.set_measure(world.room, PEAS, "cup", 380)
    cup = LineRequest(food=PEAS, basis=Basis.MEASURE, amount=Fraction(1), unit="cup")
    kitchen.change_recipe(world.room, "Pea dish 0", lines=[cup])
    assert menu_question(world.room, TODAY, 1, USUAL).options[0].why_not == ""
    measures.remove_measure(world.room, PEAS, "cup")
    assert "no weight on record" in menu_question(world.room, TODAY, 1, USUAL).options[0].why_not


@pytest.mark.parametrize("strict", [False, True])
def test_dislikes_are_soft_or_strict(world: World, strict: bool) -> None:
    larder(world)
    people.add_member(
        world.room, "Ann", sex=Sex.FEMALE, age_years=Fraction(41), activity=Activity.LOW,
        told=Told(dislikes=[PEAS]),
    )  # fmt: skip
    wishes = replace(USUAL, strict_dislikes=strict)
    (dislike,) = menu_question(world.room, TODAY, 2, wishes).wishes.dislikes
    assert dislike.hard is strict
    offer = menu.plan_menu(world.room, asked(world, 2, wishes))
    assert sound(offer)
    assert ("--dislikes soft" in offer.page.options) is strict


# The plan


def test_the_plan_saves_what_is_due_and_says_so(world: World) -> None:
    codes = larder(world)
    offer = menu.plan_menu(world.room, asked(world))
    assert sound(offer) and offer.concessions == ()
    saved = {each.code: each.used_dg for each in offer.page.account.at_risk}
    package = world.package(codes[0])
    assert saved[codes[0]] == package.left_dg + package.left_water_dg
    assert offer.page.proven == "Proven: no menu can save more."
    assert offer.page.packages[0].code in codes
    assert {each.key for each in offer.page.cautions} >= {"clock", "best-by", "local-codes"}


def test_the_first_menu_is_there_at_once_and_the_search_is_heard(world: World) -> None:
    larder(world)
    first: list[MenuOffer] = []
    heard: list[Progress] = []
    before = world.whole_dump()
    offer = menu.plan_menu(world.room, asked(world), first=first.append, progress=heard.append)
    assert world.whole_dump() == before
    assert len(first) == 1 and sound(first[0]) and first[0].ending == menu.QUICK
    assert heard and heard[-1].value == offer.proof.value
    assert offer.proof.value >= first[0].proof.value


def test_a_search_that_is_cancelled_gives_the_best_found(world: World) -> None:
    larder(world)
    offer = menu.plan_menu(world.room, asked(world, 7), cancelled=lambda: True)
    assert sound(offer)
    assert offer.plan.dishes
    assert menu.keep_menu(world.room, offer).made_id


def test_what_cannot_be_had_is_said_with_the_wishes_that_fit(world: World) -> None:
    larder(world)
    wishes = replace(USUAL, apart_days=9, water_ml_a_day=300, energy=Between(100, 120))
    offer = menu.plan_menu(world.room, asked(world, 5, wishes))
    assert sound(offer)
    assert offer.page.give_up and offer.page.options
    again = menu.plan_menu(world.room, replace(offer.request, wishes=offer.eased))
    assert again.concessions == () and sound(again)
    assert changed_options(wishes, offer.eased) == offer.page.options


def test_what_is_given_up_beside_a_locked_dish_is_enough(world: World) -> None:
    """The locked dish alone is over the water of a day, and its limit is raised to it by itself.

    For the breakfast beside it more has to be given up than what is over the raised limit.
    """
    larder(world, dishes=3)
    kept(world, 2)
    main = next(dish for dish in shown_menu(world.room).on(TODAY) if "Pea" in dish.name)
    assert main.water_ml is not None
    menu.lock_dish(world.room, TODAY, main.name)
    wishes = replace(USUAL, water_ml_a_day=main.water_ml - 5)
    question = ask(world.room, menu.request_again(world.room, wishes)).question
    every = choices(question, shelves(question), loosened=True)
    chosen = [one for one in every if one.day == 0 and one.locked]
    chosen += [one for one in every if one.day == 0 and one.water_ml and not one.locked][:1]
    given = concessions_for(question, every, chosen)
    total_ml = sum(one.water_ml for one in chosen)
    (water_ml,) = [one.amount for one in given if one.wish is Wish.WATER]
    assert water_ml == total_ml - main.water_ml + 5
    plan = read_plan(conceded(question, given), chosen)
    assert check(conceded(question, given), plan) == ()


def test_fresh_items_are_added_up(world: World) -> None:
    larder(world)
    offer = menu.plan_menu(world.room, asked(world))
    rice = sum(Fraction(100) * dish.people for dish in offer.plan.dishes if "Pea" in dish.name)
    found = {(need.item, need.unit): need.amount for need in offer.page.shopping}
    assert found["rice", "g"] == rice
    assert found["salt", None] is None
    some = add_up([FreshNeed("Salt", None, None), FreshNeed("salt", Fraction(1), None)])
    assert [need.amount for need in some] == [Fraction(1), None]


# Kept, changed, cooked


def test_a_kept_menu_survives_reopening(world: World) -> None:
    larder(world)
    offer = kept(world)
    page = shown_menu(world.room)
    world.room.close()
    with_it = open_stockroom(world.path, clock=FixedClock(TODAY), actor="tester")
    again = shown_menu(with_it)
    assert again == page
    assert again.kept and again.stale == () and again.wishes == offer.request.wishes
    assert [(one.on, one.name, one.people) for one in again.dishes] == [
        (one.on, one.name, one.people) for one in offer.plan.dishes
    ]
    assert again.account.days == offer.page.account.days
    assert again.packages == offer.page.packages
    with_it.close()


def test_keeping_takes_the_place_of_what_is_not_cooked(world: World) -> None:
    larder(world, dishes=5)
    kept(world, 4)
    first = shown_menu(world.room).dishes[0]
    menu.cook_planned(world.room, first.on, first.name)
    later = tomorrow(world)
    missed = [dish for dish in shown_menu(later.room).dishes if dish.on == TODAY]
    offer = menu.plan_menu(later.room, asked(later, 2))
    assert sound(offer)
    menu.keep_menu(later.room, offer)
    page = shown_menu(later.room)
    assert [dish.name for dish in page.dishes if dish.on == TODAY] == [one.name for one in missed]
    for day in (TODAY + timedelta(days=1), TODAY + timedelta(days=2)):
        assert [one.name for one in page.on(day)] == [one.name for one in offer.page.on(day)]
    assert page.on(TODAY + timedelta(days=3))
    assert any("was planned and not cooked" in each.words for each in page.findings)


def test_what_is_locked_or_cooked_stays_when_planned_again(world: World) -> None:
    larder(world, dishes=5)
    kept(world, 4)
    dishes = shown_menu(world.room).dishes
    menu.cook_planned(world.room, TODAY, dishes[0].name)
    menu.lock_dish(world.room, dishes[-1].on, dishes[-1].name)
    offer = menu.plan_menu(world.room, menu.request_again(world.room))
    assert sound(offer)
    today = {dish.name: dish.mark for dish in offer.page.on(TODAY)}
    assert today[dishes[0].name] == "cooked"
    assert not any("cooked already" in each.words for each in offer.page.findings)
    assert not any("cooked already" in each.why for each in offer.page.account.excluded)
    last = {dish.name: dish.mark for dish in offer.page.on(dishes[-1].on)}
    assert last[dishes[-1].name] == "locked"
    menu.keep_menu(world.room, offer)
    marks = {(dish.on, dish.name): dish.mark for dish in shown_menu(world.room).dishes}
    assert marks[TODAY, dishes[0].name] == "cooked"
    assert marks[dishes[-1].on, dishes[-1].name] == "locked"


def test_a_cooked_dish_is_not_planned_again_too_soon(world: World) -> None:
    larder(world, dishes=3)
    kitchen.cook_meal(world.room, "Porridge 0", 2)
    offer = menu.plan_menu(world.room, asked(world, 2))
    assert sound(offer) and offer.page.give_up == ()
    assert "Porridge 0" not in {dish.name for dish in offer.plan.dishes}


def test_another_dish_is_put_in_its_place(world: World) -> None:
    larder(world, dishes=5)
    kept(world, 3)
    first = shown_menu(world.room).dishes[1]
    name = next(f"Pea dish {n}" for n in range(5) if f"Pea dish {n}" != first.name)
    swap = Swap(first.on, first.name, name)
    offer = menu.plan_menu(world.room, menu.request_again(world.room, swap=swap))
    assert sound(offer)
    menu.keep_menu(world.room, offer)
    marks = {dish.name: dish.mark for dish in shown_menu(world.room).on(first.on)}
    assert marks[name] == "locked" and first.name not in marks


def test_cooking_a_planned_dish_is_one_action(world: World) -> None:
    larder(world)
    kept(world)
    first = shown_menu(world.room).dishes[0]
    before, count = world.dump(), len(history.journal_keys(world.room))
    done = menu.cook_planned(world.room, first.on, first.name)
    assert len(history.journal_keys(world.room)) == count + 1
    assert done.care is not None and done.words.endswith("as planned for 2026-11-25")
    page = shown_menu(world.room)
    assert page.dishes[0].cooked and page.stale == ()
    (meal,) = kitchen.list_meals(world.room)
    assert (meal.name, meal.people) == (first.name, first.people)
    history.undo(world.room)
    assert world.dump() == before


def test_changed_stock_is_said(world: World) -> None:
    codes = larder(world)
    kept(world)
    assert shown_menu(world.room).stale == ()
    packages.note_package(world.room, codes[3], "for Zoë")
    assert shown_menu(world.room).stale == ()
    packages.draw_package(world.room, codes[3], Amount(dry_dg=10))
    (said,) = shown_menu(world.room).stale
    assert said.startswith("1 package has come, gone or been taken from")
    for code in codes[:6]:
        soften(world, code)
    page = shown_menu(world.room)
    assert any("the shelves do not hold enough" in each for each in page.stale)
    assert {dish.mark for dish in page.dishes if dish.name.startswith("Pea")} == {"not now"}
    assert {dish.mark for dish in page.dishes if dish.name.startswith("Porridge")} == {""}


def test_a_menu_of_a_removed_recipe_still_shows(world: World) -> None:
    larder(world)
    kept(world)
    first = shown_menu(world.room).dishes[0]
    menu.lock_dish(world.room, first.on, first.name)
    kitchen.remove_recipe(world.room, first.name)
    page = shown_menu(world.room)
    why_not = {dish.name: dish.why_not for dish in page.on(first.on)}
    assert why_not[first.name] == "its recipe is not in the book any more"
    offer = menu.plan_menu(world.room, menu.request_again(world.room))
    assert sound(offer)
    menu.keep_menu(world.room, offer)
    assert first.name in {dish.name for dish in shown_menu(world.room).on(first.on)}


def test_a_plan_kept_after_the_shelves_changed_takes_what_is_there(world: World) -> None:
    codes = larder(world)
    offer = menu.plan_menu(world.room, asked(world))
    packages.draw_package(world.room, codes[4], Amount(dry_dg=10))
    menu.keep_menu(world.room, offer)
    assert len(shown_menu(world.room).dishes) == len(offer.plan.dishes)


# Wishes


def test_wishes_are_kept_and_go_back_to_usual(world: World) -> None:
    wishes = replace(USUAL, cooking_weekdays=(2, 5), water_ml_a_day=6_500, extras=Between(0, 1))
    done = set_menu_wishes(world.room, wishes)
    assert menu_wishes(world.room) == wishes
    assert 'cook-on "Wed Sat"' in done.words and 'water "6.5 L"' in done.words
    set_menu_wishes(world.room, USUAL)
    assert menu_wishes(world.room) == USUAL
    history.undo(world.room)
    assert menu_wishes(world.room) == wishes


TYPED = (
    ("breakfasts", "1", Between(1, 1)),
    ("mains", "0 to 2", Between(0, 2)),
    ("energy", "70–120 %", Between(70, 120)),
    ("protein_percent", "60 %", 60),
    ("cooking_weekdays", "sat, WED", (2, 5)),
    ("cooking_weekdays", "every day", None),
    ("water_ml_a_day", "1.5 L", 1_500),
    ("water_ml_a_day", "800 ml", 800),
    ("water_ml_a_day", "6", 6_000),
    ("water_ml_in_all", "any", None),
    ("helpings_percent", "150 100%", (100, 150)),
    ("strict_dislikes", "Strict", True),
    ("past_best_by", "no", False),
)


@pytest.mark.parametrize(("field", "text", "value"), TYPED)
def test_wishes_are_read_as_typed(field: str, text: str, value: object) -> None:
    one = next(each for each in WISHES if each.field == field)
    assert getattr(with_texts(USUAL, [(one, text)]), field) == value
    assert one.read(one.show(value), field) == value


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("breakfasts", "2-1"),
        ("breakfasts", "10"),
        ("energy", "much"),
        ("energy", "-5"),
        ("apart_days", "0"),
        ("cooking_weekdays", "w"),
        ("cooking_weekdays", "Wed Foo"),
        ("water_ml_a_day", "1.5 ml"),
        ("water_ml_a_day", "99999999"),
        ("helpings_percent", ""),
        ("helpings_percent", "100 x"),
        ("helpings_percent", "1 2 3 4 5 6"),
        ("strict_dislikes", "yes"),
        ("finish_packages", "1"),
    ],
)
def test_unfit_wishes_are_refused_by_name(field: str, text: str) -> None:
    one = next(each for each in WISHES if each.field == field)
    with pytest.raises(BadInput) as caught:
        with_texts(USUAL, [(one, text)])
    assert caught.value.what == one.label.casefold()


def test_every_wish_can_be_typed_and_stored() -> None:
    assert [one.field for one in WISHES] == list(MenuWishes.__dataclass_fields__)
    assert wishes_from_json(wishes_json(USUAL)) == USUAL
    assert wishes_from_json("{}") == USUAL


@pytest.mark.parametrize(
    "text",
    ["", "[]", '{"feast": 1}', '{"energy": 5}', '{"energy": {"least": 9, "most": 1}}',
     '{"apart_days": "3"}', '{"past_best_by": 1}', '{"cooking_weekdays": [7]}',
     '{"cooking_weekdays": []}', '{"water_ml_a_day": -1}', '{"helpings_percent": [150, 100]}'],
)  # fmt: skip
def test_damaged_wishes_are_not_believed(text: str) -> None:
    with pytest.raises(WishesUnreadable):
        wishes_from_json(text)


# In words


@pytest.mark.parametrize(
    ("known", "at_risk", "words"),
    [
        (proof(100, None), True, "It is not known"),
        (proof(100, 100), True, "Proven: no menu can save more."),
        (proof(0, 0), False, "Nothing is at risk"),
        (proof(100_000, 100_850), True, "no menu can save more than 0.9 % more."),
        (proof(0, 125), True, "by more than 12.5 g saved."),
    ],
)
def test_how_good_it_is_known_to_be(known: Proof, at_risk: bool, words: str) -> None:
    assert words in proven_words(known, at_risk)


def test_a_kept_gap_is_told_upwards() -> None:
    assert gap_words(1).endswith("0.1 % more.")
    assert gap_words(10_000).endswith("1.0 % more.")
    assert "was not known" in gap_words(None)


# Whatever is in the store


def by_chance(world: World, pick: Random) -> None:
    """Packages, dishes and people drawn by chance."""
    for food, wet_g in ((PEAS, 3000), (APPLE, 2000), (BEEF_RAW, 1000)):
        for _ in range(pick.randrange(3)):
            made = world.later(-pick.randrange(1, 60))
            count, each = pick.randrange(1, 4), pick.choice((20, 35, 50))
            splits = f"{count}x{pick.choice(('pouch-1500-foil', 'bag-zip-1000'))}:{each}"
            codes = made.packed(food, splits, wet_g=wet_g, dry_g=wet_g * 0.15)
            if pick.random() < 0.4:
                packages.draw_package(world.room, codes[0], Amount(dry_dg=each * 4))
            if pick.random() < 0.2:
                soften(world, codes[-1])
    for number in range(pick.randrange(1, 6)):
        lines = (
            [
                LineRequest(
                    food=food.name,
                    basis=pick.choice((Basis.FRESH, Basis.DRY, Basis.SERVINGS)),
                    amount=Fraction(pick.choice((1, 2, 20, 50))),
                )
                for food in pick.sample(list(foods.list_foods(world.room)), 1)
            ]
            if foods.list_foods(world.room) and pick.random() < 0.9
            else []
        )
        kitchen.add_recipe(
            world.room,
            f"Dish {number}",
            pick.choice((1, 2, 4)),
            [*lines, LineRequest(item="rice", amount=Fraction(pick.randrange(1, 9)))],
            cooking_water_dg=pick.choice((0, 4_000)),
            cook_to_dc=pick.choice((None, 600, 740)),
            occasion=pick.choice(list(Occasion)),
            fresh_kcal=pick.choice((None, 400, 2_000, 4_000)),
            allergens=pick.choice(((), (Allergen.EGG,))),
        )  # fmt: skip
    if pick.random() < 0.3:
        allergic(world, Allergen.EGG)


def wishes_by_chance(pick: Random) -> MenuWishes:
    """Loose wishes and tight ones."""
    return MenuWishes(
        breakfasts=Between(pick.randrange(2), 1),
        mains=Between(pick.randrange(2), 2),
        energy=Between(pick.choice((0, 60, 90)), pick.choice((120, 300))),
        plan_energy=Between(pick.choice((0, 80)), pick.choice((120, 300))),
        protein_percent=pick.choice((0, 50)),
        apart_days=pick.randrange(1, 4),
        cooking_weekdays=pick.choice((None, (2, 4))),
        water_ml_a_day=pick.choice((None, 800)),
        reach_days=pick.choice((0, 30, 2_000)),
        past_best_by=pick.random() < 0.3,
        finish_packages=pick.random() < 0.3,
    )


@settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(seed=st.integers(0, 2**32 - 1))
def test_every_plan_is_sound_whatever_is_in_the_store(room_template: Path, seed: int) -> None:
    """Quick, searched, kept, shown and planned again, the checker finds nothing."""
    pick = Random(seed)
    with tempfile.TemporaryDirectory() as folder:
        world = copied_world(room_template, Path(folder) / "stockroom.db")
        by_chance(world, pick)
        request = asked(world, pick.randrange(1, 4), wishes_by_chance(pick))
        assert sound(menu.quick_menu(world.room, request))
        offer = menu.plan_menu(world.room, request, seconds=10)
        assert sound(offer)
        before = world.dump()
        if offer.plan.dishes:
            menu.keep_menu(world.room, offer)
            page = shown_menu(world.room)
            assert page.stale == () and page.account.days
            dish = pick.choice(page.dishes)
            menu.lock_dish(world.room, dish.on, dish.name)
            again = menu.plan_menu(world.room, menu.request_again(world.room), seconds=10)
            assert sound(again)
            assert (dish.on, dish.name) in {
                (one.on, one.name) for one in again.page.dishes if one.locked
            }
            history.undo(world.room)
            history.undo(world.room)
        assert world.dump() == before
        world.room.close()
