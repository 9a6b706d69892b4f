"""The book of recipes: reading it, and writing in it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from typing import TypedDict, Unpack

from stockroom.domain.cooking import Basis, MeasureMissing, Occasion
from stockroom.domain.foods import Allergen
from stockroom.domain.quantities import grams, nearest_whole
from stockroom.domain.records import RecipeLine, RecipeRecord, RecipeSummary
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import acting
from stockroom.services.finding import find_food, find_recipe
from stockroom.services.names import clean_name, clean_note
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.written_recipes import measure_of
from stockroom.store import recipe_rows

MOST_PEOPLE = 1000
MOST_WEIGHT_DG = 1_000_000
MOST_HUNDREDTHS = 100_000
MOST_THOUSANDTHS = 1_000_000_000
LEAST_COOK_TO_DC, MOST_COOK_TO_DC = 300, 1500
COLDEST_WATER_DC, HOTTEST_WATER_DC = 40, 1000
"""The table of water's density goes from 4 to 100 °C."""
MOST_KCAL = 1_000_000


class RecipeExists(Refused):
    """Two recipes of one name could not be told apart."""

    def __init__(self, name: str) -> None:
        super().__init__(f"There is already a recipe “{name}”.", "Choose another name.")


class Clear(StrEnum):
    """What a recipe may be without, to be taken away from it: None alone means "stays"."""

    COOK_TO = "cook_to_dc"
    WATER_TEMPERATURE = "water_temperature_dc"
    FRESH_KCAL = "fresh_kcal"
    FRESH_PROTEIN = "fresh_protein_dg"


class RecipeDetails(TypedDict, total=False):
    """What more can be said of a recipe; what is left out or None stays as it is.

    `cook_to_dc` is the temperature in the middle of its cooking step, `allergens` are those of its
    fresh items, `fresh_kcal` and `fresh_protein_dg` are theirs for as many as it serves.
    """

    hold_back_percent: int | None
    cook_to_dc: int | None
    water_temperature_dc: int | None
    occasion: Occasion | None
    fresh_kcal: int | None
    fresh_protein_dg: int | None
    origin: str | None
    allergens: Collection[Allergen] | None


@dataclass(frozen=True, slots=True)
class LineRequest:
    """One ingredient as a person says it: a stored food with a basis, or a fresh item.

    For a stored food `amount` is grams (basis fresh or dry), servings, or a count of the food's
    household measure named by `unit`; for a fresh item it is in `unit`, and may be left out.
    `hold_back_percent` is the share of its water to hold back, None for the recipe's own.
    """

    food: str | None = None
    basis: Basis | None = None
    item: str | None = None
    amount: Fraction | None = None
    unit: str | None = None
    hold_back_percent: int | None = None


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
    **details: Unpack[RecipeDetails],
) -> Done:
    """Add a recipe. Raises RecipeExists, MeasureMissing, NotFound or BadInput."""
    with acting(room, "recipe") as act:
        made = enter_recipe(
            room, name, serves, lines, cooking_water_dg=cooking_water_dg, steps=steps, **details
        )
        act.words = f"added the recipe {clean_name(name, 'recipe name')}"
    return Done(act.words, made_id=made)


def enter_recipe(
    room: Stockroom,
    name: str,
    serves: int,
    lines: Sequence[LineRequest],
    *,
    cooking_water_dg: int = 0,
    steps: str = "",
    **details: Unpack[RecipeDetails],
) -> int:
    """Write a recipe in the book, inside a unit of work; returns its id. Raises as `add_recipe`."""
    chosen = clean_name(name, "recipe name")
    _check(serves, lines)
    if recipe_rows.recipe_by_name(room.store, chosen) is not None:
        raise RecipeExists(chosen)
    recipe = RecipeRecord(
        recipe_id=0,
        name=chosen,
        serves=serves,
        cooking_water_dg=_water(cooking_water_dg),
        steps=clean_note(steps),
        lines=_lines(room, lines),
    )
    return recipe_rows.insert_recipe(room.store, _with_details(recipe, details, ()))


def change_recipe(
    room: Stockroom,
    name: str,
    *,
    new_name: str | None = None,
    serves: int | None = None,
    lines: Sequence[LineRequest] | None = None,
    cooking_water_dg: int | None = None,
    steps: str | None = None,
    clear: Collection[Clear] = (),
    **details: Unpack[RecipeDetails],
) -> Done:
    """Change a recipe; what is None stays, what `clear` names is taken away.

    New lines replace the old ones. Raises RecipeExists, MeasureMissing, NotFound or BadInput.
    """
    with acting(room, "recipe") as act:
        recipe = find_recipe(room, name)
        chosen = recipe.name if new_name is None else clean_name(new_name, "recipe name")
        other = recipe_rows.recipe_by_name(room.store, chosen)
        if other is not None and other.recipe_id != recipe.recipe_id:
            raise RecipeExists(chosen)
        if lines is not None:
            _check(serves or recipe.serves, lines)
        water_dg = recipe.cooking_water_dg if cooking_water_dg is None else cooking_water_dg
        changed = replace(
            recipe,
            name=chosen,
            serves=_serves(serves) if serves is not None else recipe.serves,
            cooking_water_dg=_water(water_dg),
            steps=recipe.steps if steps is None else clean_note(steps),
            lines=recipe.lines if lines is None else _lines(room, lines),
        )
        changed = _with_details(changed, details, clear)
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


def _with_details(
    recipe: RecipeRecord, details: RecipeDetails, clear: Collection[Clear]
) -> RecipeRecord:
    """The recipe with what more was said of it."""
    said = {key: value for key, value in details.items() if value is not None}
    both = sorted(str(key) for key in clear if str(key) in said)
    if both:
        raise BadInput("recipe", ", ".join(both), "either a value for it or to take it away")
    _check_details(details)
    if "origin" in said:
        said["origin"] = clean_note(str(said["origin"]))
    if "occasion" in said:
        said["occasion"] = str(said["occasion"])
    allergens = details.get("allergens")
    if allergens is not None:
        said["allergens"] = tuple(sorted({str(one) for one in allergens}))
    return replace(recipe, **said, **{str(key): None for key in clear})


def _check_details(details: RecipeDetails) -> None:
    """Refuse figures that no dish has."""
    _hold_back(details.get("hold_back_percent"))
    _within(
        details.get("cook_to_dc"), LEAST_COOK_TO_DC, MOST_COOK_TO_DC, "cooked to",
        "a temperature from 30 to 150 °C (86 to 302 °F)", _degrees,
    )  # fmt: skip
    _within(
        details.get("water_temperature_dc"), COLDEST_WATER_DC, HOTTEST_WATER_DC,
        "water temperature", "a temperature from 4 to 100 °C (39 to 212 °F)", _degrees,
    )  # fmt: skip
    _within(
        details.get("fresh_kcal"), 0, MOST_KCAL, "energy of the fresh items",
        f"a whole number of kcal from 0 to {MOST_KCAL}", str,
    )  # fmt: skip
    _within(
        details.get("fresh_protein_dg"), 0, MOST_WEIGHT_DG, "protein of the fresh items",
        "a weight from 0 g to 100 kg", _weight,
    )  # fmt: skip
    known = {str(one) for one in Allergen}
    for one in details.get("allergens") or ():
        if str(one) not in known:
            raise BadInput("allergen", str(one), f"one of {', '.join(sorted(known))}")
    occasion = details.get("occasion")
    if occasion is not None and str(occasion) not in {str(one) for one in Occasion}:
        raise BadInput("occasion", str(occasion), f"one of {', '.join(Occasion)}")


def _lines(room: Stockroom, lines: Sequence[LineRequest]) -> tuple[RecipeLine, ...]:
    return tuple(_line(room, position, line) for position, line in enumerate(lines, start=1))


def _line(room: Stockroom, position: int, line: LineRequest) -> RecipeLine:
    """A line as the record has it."""
    if line.food is None:
        return _fresh_line(position, line)
    food = find_food(room, line.food)
    basis = line.basis or Basis.FRESH
    held = _hold_back(line.hold_back_percent)
    if line.amount is None or line.amount <= 0:
        raise BadInput(f"amount of {food.name}", "", "a weight or a number of servings above 0")
    stored = RecipeLine(
        position, food.food_id, food.name, basis, None, None, None, None, None, held
    )
    if basis is Basis.MEASURE:
        if not (line.unit and line.unit.strip()):
            raise MeasureMissing(food.name, "measure")
        unit = measure_of(room, food, clean_name(line.unit, "measure")).name
        count = _scaled(food.name, line.amount, 1000, MOST_THOUSANDTHS)
        return replace(stored, amount_thousandths=count, unit=unit)
    if basis is Basis.SERVINGS:
        count = _scaled(food.name, line.amount, 100, MOST_HUNDREDTHS)
        return replace(stored, servings_hundredths=count)
    return replace(stored, weight_dg=_scaled(food.name, line.amount, 10, MOST_WEIGHT_DG))


def _scaled(food: str, amount: Fraction, parts: int, most: int) -> int:
    """An amount in whole parts, as the record counts it."""
    count = nearest_whole(amount * parts)
    if not 1 <= count <= most:
        raise BadInput(
            f"amount of {food}", str(amount), "0.1 g to 100 kg, or 0.01 to 1000 servings"
        )
    return count


def _fresh_line(position: int, line: LineRequest) -> RecipeLine:
    """A fresh item as the record has it."""
    item = clean_name(line.item or "", "ingredient")
    amount = None if line.amount is None else nearest_whole(line.amount * 1000)
    if amount is not None and not 1 <= amount <= MOST_THOUSANDTHS:
        raise BadInput(f"amount of {item}", f"{line.amount}", "a number above 0, up to 1000000")
    if line.hold_back_percent is not None:
        raise BadInput(
            f"water held back of {item}", f"{line.hold_back_percent} %", "it for stored food only"
        )
    unit = clean_name(line.unit, "unit") if line.unit and line.unit.strip() else None
    return RecipeLine(position, None, None, None, None, None, item, amount, unit)


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


def _hold_back(percent: int | None) -> int | None:
    if percent is not None and not 0 <= percent <= 100:
        raise BadInput("water held back", f"{percent} %", "a share from 0 to 100 %")
    return percent


def _within(
    value: int | None,
    low: int,
    high: int,
    what: str,
    accepted: str,
    show: Callable[[int], str],
) -> None:
    """Refuse a figure outside its range."""
    if value is not None and not low <= value <= high:
        raise BadInput(what, show(value), accepted)


def _degrees(temperature_dc: int) -> str:
    return f"{temperature_dc / 10:g} °C"


def _weight(weight_dg: int) -> str:
    return f"{grams(weight_dg):g} g"
