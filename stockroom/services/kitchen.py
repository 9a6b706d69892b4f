"""The kitchen: what a dish takes from the shelves with its water, and cooking it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from stockroom.domain.cautions import cautions_for_cooking
from stockroom.domain.cooking import CookPlan, Recipe, scale
from stockroom.domain.dish_facts import DishFacts, dish_facts, raw_check
from stockroom.domain.foods import FoodGroup, Preparation
from stockroom.domain.keeping.interface import CannotProject
from stockroom.domain.quantities import grams, nearest_whole
from stockroom.domain.records import Food, Meal, Package, RecipeRecord
from stockroom.domain.safe_cooking import RawCheck, heat_of, refuse_uncooked
from stockroom.domain.water_share import WATER_C, WaterWay
from stockroom.domain.wetted import MealCare, care_until, meal_care
from stockroom.domain.whole_packages import LeftOpen, rests, take_whole, whole_packages
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import Act, acting
from stockroom.services.cooking_shelf import plan_from_shelf
from stockroom.services.finding import find_recipe
from stockroom.services.foods import facts_of
from stockroom.services.keeping import project_package
from stockroom.services.packages import take_from
from stockroom.services.recipes import (
    LEAST_COOK_TO_DC,
    MOST_COOK_TO_DC,
    MOST_PEOPLE,
    Clear,
    LineRequest,
    RecipeDetails,
    RecipeExists,
    add_recipe,
    change_recipe,
    list_recipes,
    remove_recipe,
    show_recipe,
)
from stockroom.services.results import CookSheet, Done
from stockroom.services.session import Stockroom
from stockroom.services.written_recipes import (
    NO_SWAPS,
    as_written,
    foods_of,
    swap_foods,
    written_recipe,
)
from stockroom.store import package_rows, recipe_rows

__all__ = [
    "MOST_PEOPLE",
    "Clear",
    "LineRequest",
    "NothingToTake",
    "RecipeDetails",
    "RecipeExists",
    "Short",
    "add_recipe",
    "care_of",
    "change_recipe",
    "cook_meal",
    "cook_sheet",
    "enter_meal",
    "list_meals",
    "list_recipes",
    "recipe_facts",
    "remove_recipe",
    "show_recipe",
    "written_recipe",
]


class Short(Refused):
    """The shelves do not hold what the dish needs."""

    def __init__(self, plan: CookPlan) -> None:
        missing = ", ".join(
            f"{line.need.food_name} {grams(line.shortfall_dg):.1f} g"
            f" {'dry' if line.need.counts_dry else 'fresh equivalent'}"
            for line in plan.short
        )
        super().__init__(
            f"The shelves are short of {missing} for {plan.name}.",
            "Cook for fewer people, or take what there is all the same.",
        )


class NothingToTake(Refused):
    """None of the dish's stored foods is on the shelves."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"Nothing for {name} is on the shelves.", "Choose another recipe, or pack some first."
        )


@dataclass(frozen=True, slots=True)
class _Dish:
    """A recipe of the book with its foods as they are used, swaps made."""

    record: RecipeRecord
    written: Recipe
    foods: dict[int, Food]
    cook_to_dc: int | None


def recipe_facts(room: Stockroom, name: str) -> DishFacts:
    """Allergens and raw food of a recipe, from its foods and its own words. Raises NotFound."""
    record = find_recipe(room, name)
    foods = list(foods_of(room, record).values())
    return dish_facts(foods, record.allergens, record.cook_to_dc)


def cook_sheet(
    room: Stockroom,
    name: str,
    people: int | None = None,
    *,
    servings: Fraction | None = None,
    whole: bool = False,
    swaps: Mapping[int, int] = NO_SWAPS,
    cook_to_dc: int | None = None,
) -> CookSheet:
    """A recipe for so many people: picks first in first out, water, shortfalls, cautions.

    Without `people` for the household. `servings`, of those the recipe is written for, decide the
    amounts where given. `whole` takes whole packages where little would stay in them, `swaps` are
    food ids of the recipe with those that stand in for them, `cook_to_dc` is the temperature it
    is cooked to this once. Raises NotFound, BadInput, MeasureMissing.
    """
    dish = _dish(room, name, swaps, cook_to_dc)
    eaters = _eaters(room, people, servings)
    plan = plan_from_shelf(room, scale(dish.written, eaters, servings))
    if whole:
        plan = take_whole(plan, whole_packages(plan))
    return _sheet(room, dish, plan)


def cook_meal(
    room: Stockroom,
    name: str,
    people: int | None = None,
    *,
    servings: Fraction | None = None,
    take_short: bool = False,
    whole: bool = False,
    swaps: Mapping[int, int] = NO_SWAPS,
    cook_to_dc: int | None = None,
) -> Done:
    """Take a recipe's packages off the shelf and record the meal, all in one action.

    Amounts as in `cook_sheet`. The clock of the wetted food starts now. Raises Short unless
    `take_short`, NothingToTake, RawWithoutCooking, CookedTooLittle, NotSealedYet, NotFound,
    BadInput and MeasureMissing.
    """
    with acting(room, "cook") as act:
        done = enter_meal(
            room,
            act,
            name,
            people,
            servings=servings,
            take_short=take_short,
            whole=whole,
            swaps=swaps,
            cook_to_dc=cook_to_dc,
        )
        act.words = done.words
    return done


def enter_meal(
    room: Stockroom,
    act: Act,
    name: str,
    people: int | None = None,
    *,
    servings: Fraction | None = None,
    take_short: bool = False,
    whole: bool = False,
    swaps: Mapping[int, int] = NO_SWAPS,
    cook_to_dc: int | None = None,
) -> Done:
    """Take a recipe's packages and record the meal, inside an action. As `cook_meal`."""
    sheet = cook_sheet(
        room, name, people, servings=servings, whole=whole, swaps=swaps, cook_to_dc=cook_to_dc
    )
    plan = sheet.plan
    _refuse(sheet, take_short=take_short)
    care = None
    if plan.picks:
        care = meal_care(room.clock.now(), act.today, at_once=bool(sheet.at_once))
    meal_id = _record(room, act, sheet, care)
    codes = tuple(dict.fromkeys(pick.candidate.code for pick in plan.picks))
    return Done(_words(sheet), sheet.cautions, codes, made_id=meal_id, care=care)


def list_meals(room: Stockroom, *, count: int = 50) -> tuple[Meal, ...]:
    """The latest meals first."""
    return tuple(recipe_rows.meals(room.store, count=count))


def care_of(meal: Meal) -> MealCare | None:
    """How long a recorded meal may stand and keep; None where nothing was wetted."""
    if meal.wetted_at is None or meal.eat_by is None:
        return None
    return care_until(meal.wetted_at, meal.eat_by, at_once=meal.eat_by == meal.on_day)


def _dish(room: Stockroom, name: str, swaps: Mapping[int, int], cook_to_dc: int | None) -> _Dish:
    """What is to be cooked."""
    if cook_to_dc is not None and not LEAST_COOK_TO_DC <= cook_to_dc <= MOST_COOK_TO_DC:
        raise BadInput(
            "cooked to", f"{cook_to_dc / 10:g} °C", "a temperature from 30 to 150 °C (86 to 302 °F)"
        )
    record = find_recipe(room, name)
    foods = foods_of(room, record)
    stand_ins = swap_foods(room, foods, swaps)
    used = [stand_ins.get(food_id, food) for food_id, food in foods.items()]
    return _Dish(
        record,
        as_written(room, record, foods, stand_ins),
        {food.food_id: food for food in used},
        record.cook_to_dc if cook_to_dc is None else cook_to_dc,
    )


def _eaters(room: Stockroom, people: int | None, servings: Fraction | None) -> int:
    """How many people eat; servings without people are one for each."""
    if servings is not None and not 0 < servings <= MOST_PEOPLE:
        raise BadInput("servings", str(servings), f"a number above 0, up to {MOST_PEOPLE}")
    if people is None:
        people = room.household.people if servings is None else max(1, nearest_whole(servings))
    if not 1 <= people <= MOST_PEOPLE:
        raise BadInput("people", str(people), f"a whole number from 1 to {MOST_PEOPLE}")
    return people


def _sheet(room: Stockroom, dish: _Dish, plan: CookPlan) -> CookSheet:
    """The sheet of a plan."""
    ids = dict.fromkeys(pick.candidate.package_id for pick in plan.picks)
    picked = package_rows.packages_by_ids(room.store, list(ids))
    foods = dish.foods
    facts = dish_facts(list(foods.values()), dish.record.allergens, dish.cook_to_dc)
    raw = _raw(foods, picked, dish.cook_to_dc)
    cooked = any(one.preparation == Preparation.COOKED for one in picked)
    eggs = {one.food for one in picked if foods[one.food_id].food_group == FoodGroup.EGG}
    return CookSheet(
        recipe=dish.record,
        plan=plan,
        cautions=cautions_for_cooking([facts_of(food) for food in foods.values()]),
        allergens=facts.allergens,
        ingredients_unknown=facts.ingredients_unknown,
        raw_foods=tuple(food.name for food in raw.foods),
        unchecked=tuple(one.code for one in picked if one.condition == "settling"),
        past_best_by=tuple(
            one.code for one in picked if one.best_by is not None and one.best_by < room.today
        ),
        written=dish.written,
        way=_way(room, dish.record),
        wholes=whole_packages(plan),
        left_open=_left_open(room, plan, picked),
        raw=raw,
        heat=heat_of(raw, reheated=cooked),
        at_once=tuple(sorted(eggs)),
    )


def _raw(foods: Mapping[int, Food], picked: Iterable[Package], cook_to_dc: int | None) -> RawCheck:
    """The raw food among the packages, by the lots they are of."""
    ids = {one.food_id for one in picked if one.preparation == Preparation.RAW}
    return raw_check((foods[food_id] for food_id in ids), cook_to_dc)


def _way(room: Stockroom, record: RecipeRecord) -> WaterWay:
    """How the dish's water is measured."""
    at_dc = record.water_temperature_dc
    return WaterWay(WATER_C if at_dc is None else at_dc / 10, room.household.cup)


def _left_open(room: Stockroom, plan: CookPlan, picked: Sequence[Package]) -> tuple[LeftOpen, ...]:
    """What stays in packages opened for the dish or before, and until when it is to be used."""
    by_id = {package.package_id: package for package in picked}
    found: list[LeftOpen] = []
    for package_id, (_, pick) in rests(plan).items():
        package = by_id[package_id]
        left_water_dg = pick.candidate.water_dg - pick.water_dg
        rest = LeftOpen(package.code, package.food, pick.left_dg, left_water_dg, None)
        found.append(_with_use_by(room, package, rest))
    return tuple(found)


def _with_use_by(room: Stockroom, package: Package, rest: LeftOpen) -> LeftOpen:
    """The same with the day the keeping model gives the package once it is opened."""
    if room.today < package.sealed_on:
        return replace(rest, why_not=f"it is sealed on {package.sealed_on.isoformat()} only")
    opened = replace(package, condition="opened", opened_on=package.opened_on or room.today)
    try:
        return replace(rest, use_by=project_package(room, opened).best_by)
    except CannotProject as refusal:
        return replace(rest, why_not=str(refusal))


def _refuse(sheet: CookSheet, *, take_short: bool) -> None:
    """Say no to a dish of nothing, to one that is short, and to one served raw."""
    plan = sheet.plan
    if plan.lines and not plan.picks:
        raise NothingToTake(sheet.recipe.name)
    if plan.short and not take_short:
        raise Short(plan)
    refuse_uncooked(sheet.recipe.name, sheet.raw)


def _record(room: Stockroom, act: Act, sheet: CookSheet, care: MealCare | None) -> int:
    """Write the meal and take its packages, inside an action; returns the meal's id."""
    plan = sheet.plan
    meal_id = recipe_rows.insert_meal(
        room.store,
        recipe_rows.NewMeal(
            recipe_id=sheet.recipe.recipe_id,
            name=sheet.recipe.name,
            people=plan.people,
            on_day=act.today,
            rehydration_water_dg=plan.water_dg,
            cooking_water_dg=plan.cooking_water_dg,
            wetted_at=None if care is None else care.wetted_at,
            eat_by=None if care is None else care.chilled_until,
        ),
    )
    for pick in plan.picks:
        # Read again: a recipe may name one food twice and draw a package in two steps.
        package = package_rows.package_by_id(room.store, pick.candidate.package_id)
        assert package is not None
        take_from(room, act, package, pick.take_dg, meal_id=meal_id)
    return meal_id


def _words(sheet: CookSheet) -> str:
    """The sentence for the journal."""
    plan = sheet.plan
    count = len(plan.picks)
    packages = "1 package" if count == 1 else f"{count} packages"
    said = (
        f"cooked {sheet.recipe.name} for {plan.people} from {packages},"
        f" {grams(plan.water_dg):.1f} g of water to rehydrate"
    )
    for line in plan.lines:
        if line.need.instead_of:
            said += f"; {line.need.food_name} instead of {line.need.instead_of}"
    if sheet.raw.foods and sheet.raw.cook_to_dc is not None:
        said += f"; raw food cooked to {sheet.raw.cook_to_dc / 10:.1f} °C"
    return said
