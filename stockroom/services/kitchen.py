"""The kitchen: recipes, what a dish takes from the shelves with its water, and cooking it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.cautions import cautions_for_cooking
from stockroom.domain.conditions import USABLE
from stockroom.domain.cooking import (
    Basis,
    CookPlan,
    FreshNeed,
    Recipe,
    StoredNeed,
    cook_plan,
    scale,
)
from stockroom.domain.quantities import grams, nearest_whole
from stockroom.domain.records import Food, Meal, Package, RecipeLine, RecipeRecord, RecipeSummary
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import acting
from stockroom.services.finding import find_food, find_recipe
from stockroom.services.foods import facts_of
from stockroom.services.names import clean_name, clean_note
from stockroom.services.packages import candidate_of, take_from
from stockroom.services.results import CookSheet, Done
from stockroom.services.session import Stockroom
from stockroom.store import food_rows, package_rows, recipe_rows

MOST_PEOPLE = 1000
MOST_WEIGHT_DG = 1_000_000
MOST_HUNDREDTHS = 100_000
MOST_THOUSANDTHS = 1_000_000_000


class RecipeExists(Refused):
    """Two recipes of one name could not be told apart."""

    def __init__(self, name: str) -> None:
        super().__init__(f"There is already a recipe “{name}”.", "Choose another name.")


class Short(Refused):
    """The shelves do not hold what the dish needs."""

    def __init__(self, plan: CookPlan) -> None:
        missing = ", ".join(
            f"{line.need.food_name} {grams(line.shortfall_dg):.1f} g"
            f" {'dry' if line.need.basis is Basis.DRY else 'fresh equivalent'}"
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
class LineRequest:
    """One ingredient as a person says it: a stored food with a basis, or a fresh item.

    For a stored food `amount` is grams (basis fresh or dry) or servings; for a fresh item it is
    in `unit`, and may be left out.
    """

    food: str | None = None
    basis: Basis | None = None
    item: str | None = None
    amount: Fraction | None = None
    unit: str | None = None


def list_recipes(room: Stockroom) -> tuple[RecipeSummary, ...]:
    """Every recipe by name."""
    return tuple(recipe_rows.recipe_summaries(room.store))


def show_recipe(room: Stockroom, name: str) -> RecipeRecord:
    """One recipe with its lines. Raises NotFound with the nearest names."""
    return find_recipe(room, name)


def add_recipe(
    room: Stockroom,
    name: str,
    serves: int,
    lines: Sequence[LineRequest],
    *,
    cooking_water_dg: int = 0,
    steps: str = "",
) -> Done:
    """Add a recipe. Raises RecipeExists, NotFound or BadInput."""
    chosen = clean_name(name, "recipe name")
    _check(serves, lines)
    with acting(room, "recipe") as act:
        if recipe_rows.recipe_by_name(room.store, chosen) is not None:
            raise RecipeExists(chosen)
        made = recipe_rows.insert_recipe(
            room.store,
            name=chosen,
            serves=serves,
            cooking_water_dg=_water(cooking_water_dg),
            steps=clean_note(steps),
            lines=_lines(room, lines),
        )
        act.words = f"added the recipe {chosen}"
    return Done(act.words, made_id=made)


def change_recipe(
    room: Stockroom,
    name: str,
    *,
    new_name: str | None = None,
    serves: int | None = None,
    lines: Sequence[LineRequest] | None = None,
    cooking_water_dg: int | None = None,
    steps: str | None = None,
) -> Done:
    """Change a recipe; what is None stays. New lines replace the old ones."""
    with acting(room, "recipe") as act:
        recipe = find_recipe(room, name)
        chosen = recipe.name if new_name is None else clean_name(new_name, "recipe name")
        other = recipe_rows.recipe_by_name(room.store, chosen)
        if other is not None and other.recipe_id != recipe.recipe_id:
            raise RecipeExists(chosen)
        if lines is not None:
            _check(serves or recipe.serves, lines)
        water_dg = recipe.cooking_water_dg if cooking_water_dg is None else cooking_water_dg
        changed = RecipeRecord(
            recipe_id=recipe.recipe_id,
            name=chosen,
            serves=_serves(serves) if serves is not None else recipe.serves,
            cooking_water_dg=_water(water_dg),
            steps=recipe.steps if steps is None else clean_note(steps),
            lines=recipe.lines if lines is None else _lines(room, lines),
        )
        if changed == recipe:
            raise BadInput("recipe", "", "what to change: name, serves, lines, water or steps")
        recipe_rows.update_recipe(room.store, changed)
        act.words = f"changed the recipe {chosen}"
    return Done(act.words, made_id=recipe.recipe_id)


def remove_recipe(room: Stockroom, name: str) -> Done:
    """Take a recipe out of the book; meals cooked from it stay in the record."""
    with acting(room, "recipe") as act:
        recipe = find_recipe(room, name)
        recipe_rows.delete_recipe(room.store, recipe.recipe_id)
        act.words = f"removed the recipe {recipe.name}"
    return Done(act.words)


def cook_sheet(room: Stockroom, name: str, people: int) -> CookSheet:
    """A recipe for so many people: picks first in first out, water, shortfalls, cautions."""
    recipe = find_recipe(room, name)
    _check_people(people)
    foods = _foods(room, recipe)
    shelf = {
        food_id: package_rows.first_in_packages(room.store, food_id, USABLE) for food_id in foods
    }
    plan = cook_plan(
        scale(_recipe(recipe, foods), people),
        {food_id: [candidate_of(one) for one in packages] for food_id, packages in shelf.items()},
    )
    packages = {one.package_id: one for some in shelf.values() for one in some}
    return _sheet(room, recipe, plan, foods, packages)


def cook_meal(room: Stockroom, name: str, people: int, *, take_short: bool = False) -> Done:
    """Take a recipe's packages off the shelf for so many people and record the meal.

    All draws are one action. Raises Short unless `take_short`, NothingToTake and NotSealedYet.
    """
    with acting(room, "cook") as act:
        sheet = cook_sheet(room, name, people)
        plan = sheet.plan
        picks = [pick for line in plan.lines for pick in line.picks]
        if plan.lines and not picks:
            raise NothingToTake(sheet.recipe.name)
        if plan.short and not take_short:
            raise Short(plan)
        meal_id = recipe_rows.insert_meal(
            room.store,
            recipe_id=sheet.recipe.recipe_id,
            name=sheet.recipe.name,
            people=people,
            on_day=act.today,
            rehydration_water_dg=plan.water_dg,
            cooking_water_dg=plan.cooking_water_dg,
        )
        for pick in picks:
            # Read again: a recipe may name one food twice and draw a package in two steps.
            package = package_rows.package_by_id(room.store, pick.candidate.package_id)
            assert package is not None
            take_from(room, act, package, pick.take_dg, meal_id=meal_id)
        act.words = (
            f"cooked {sheet.recipe.name} for {people} from {_packages_word(len(picks))},"
            f" {grams(plan.water_dg):.1f} g of water to rehydrate"
        )
    codes = tuple(dict.fromkeys(pick.candidate.code for pick in picks))
    return Done(act.words, sheet.cautions, codes, made_id=meal_id)


def list_meals(room: Stockroom, *, count: int = 50) -> tuple[Meal, ...]:
    """The latest meals first."""
    return tuple(recipe_rows.meals(room.store, count=count))


def _sheet(
    room: Stockroom,
    recipe: RecipeRecord,
    plan: CookPlan,
    foods: dict[int, Food],
    packages: dict[int, Package],
) -> CookSheet:
    picked = [
        packages[one]
        for one in dict.fromkeys(
            pick.candidate.package_id for line in plan.lines for pick in line.picks
        )
    ]
    raw_ids = {one.food_id for one in picked if one.preparation == "raw"}
    return CookSheet(
        recipe=recipe,
        plan=plan,
        cautions=cautions_for_cooking([facts_of(food) for food in foods.values()]),
        allergens=tuple(sorted({one for food in foods.values() for one in food.allergens})),
        ingredients_unknown=tuple(
            sorted(food.name for food in foods.values() if food.ingredients_unknown)
        ),
        raw_foods=tuple(sorted(foods[food_id].name for food_id in raw_ids)),
        unchecked=tuple(one.code for one in picked if one.condition == "settling"),
        past_best_by=tuple(
            one.code for one in picked if one.best_by is not None and one.best_by < room.today
        ),
    )


def written_recipe(room: Stockroom, record: RecipeRecord) -> Recipe:
    """A recipe as it stands in the book, as the rules see it."""
    return _recipe(record, _foods(room, record))


def _recipe(record: RecipeRecord, foods: dict[int, Food]) -> Recipe:
    """The stored recipe as the rules see it."""
    lines: list[StoredNeed | FreshNeed] = []
    for line in record.lines:
        if line.food_id is None:
            amount = line.amount_thousandths
            lines.append(
                FreshNeed(
                    line.item or "",
                    None if amount is None else Fraction(amount, 1000),
                    line.unit,
                )
            )
            continue
        food = foods[line.food_id]
        basis = Basis(line.basis or Basis.FRESH)
        lines.append(
            StoredNeed(food.food_id, food.name, basis, _amount(line, basis), food.serving_dg)
        )
    return Recipe(record.name, record.serves, record.cooking_water_dg, tuple(lines))


def _amount(line: RecipeLine, basis: Basis) -> int | Fraction:
    if basis is Basis.SERVINGS:
        return Fraction(line.servings_hundredths or 0, 100)
    return line.weight_dg or 0


def _foods(room: Stockroom, recipe: RecipeRecord) -> dict[int, Food]:
    ids = {line.food_id for line in recipe.lines if line.food_id is not None}
    found = (food_rows.food_by_id(room.store, food_id) for food_id in ids)
    return {food.food_id: food for food in found if food is not None}


def _lines(room: Stockroom, lines: Sequence[LineRequest]) -> tuple[RecipeLine, ...]:
    return tuple(_line(room, position, line) for position, line in enumerate(lines, start=1))


def _line(room: Stockroom, position: int, line: LineRequest) -> RecipeLine:
    if line.food is None:
        item = clean_name(line.item or "", "ingredient")
        amount = None if line.amount is None else nearest_whole(line.amount * 1000)
        if amount is not None and not 1 <= amount <= MOST_THOUSANDTHS:
            raise BadInput(f"amount of {item}", f"{line.amount}", "a number above 0, up to 1000000")
        unit = clean_name(line.unit, "unit") if line.unit and line.unit.strip() else None
        return RecipeLine(position, None, None, None, None, None, item, amount, unit)
    food = find_food(room, line.food)
    basis = line.basis or Basis.FRESH
    if line.amount is None or line.amount <= 0:
        raise BadInput(f"amount of {food.name}", "", "a weight or a number of servings above 0")
    weight_dg = None if basis is Basis.SERVINGS else nearest_whole(line.amount * 10)
    servings = nearest_whole(line.amount * 100) if basis is Basis.SERVINGS else None
    if not 1 <= (weight_dg or servings or 0) <= (MOST_WEIGHT_DG if weight_dg else MOST_HUNDREDTHS):
        raise BadInput(
            f"amount of {food.name}",
            str(line.amount),
            "0.1 g to 100 kg, or 0.01 to 1000 servings",
        )
    return RecipeLine(
        position, food.food_id, food.name, basis, weight_dg, servings, None, None, None
    )


def _check(serves: int, lines: Sequence[LineRequest]) -> None:
    _serves(serves)
    if not lines:
        raise BadInput("recipe", "", "at least one ingredient")


def _serves(serves: int) -> int:
    if not 1 <= serves <= MOST_PEOPLE:
        raise BadInput("serves", str(serves), f"a whole number from 1 to {MOST_PEOPLE}")
    return serves


def _water(water_dg: int) -> int:
    if not 0 <= water_dg <= MOST_WEIGHT_DG:
        raise BadInput("cooking water", f"{grams(water_dg):g} g", "a weight from 0 g to 100 kg")
    return water_dg


def _check_people(people: int) -> None:
    if not 1 <= people <= MOST_PEOPLE:
        raise BadInput("people", str(people), f"a whole number from 1 to {MOST_PEOPLE}")


def _packages_word(count: int) -> str:
    return "1 package" if count == 1 else f"{count} packages"
