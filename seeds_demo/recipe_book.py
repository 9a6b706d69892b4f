"""The hut's recipes, from data/recipes.toml, each added on the day it was written down."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import partial
from typing import Any

from seeds_demo.steps import Part, Step
from seeds_demo.tables import read_text
from stockroom.domain.cooking import Basis, Occasion
from stockroom.domain.foods import Allergen
from stockroom.services.kitchen import LineRequest, add_recipe
from stockroom.services.measures import set_measure
from stockroom.services.session import Stockroom


@dataclass(frozen=True, slots=True)
class WrittenRecipe:
    """A recipe as it stands in the book."""

    name: str
    since: date
    who: str
    serves: int
    pot_water_g: int
    lines: tuple[LineRequest, ...]
    steps: str
    cook_to_dc: int | None = None
    """What it is cooked to in the middle, where it has a cooking step."""
    measures: tuple[tuple[str, str, int], ...] = ()
    """Food, household measure and its dry weight, weighed on the day the recipe was written."""
    fresh_kcal: int = 0
    fresh_protein_g: int = 0
    fresh_allergens: tuple[Allergen, ...] = ()
    occasion: Occasion = Occasion.MAIN


def recipes() -> tuple[WrittenRecipe, ...]:
    """Every recipe of the book."""
    return tuple(_recipe(entry) for entry in tomllib.loads(read_text("recipes.toml"))["recipe"])


def recipe_steps() -> Iterator[Step]:
    """Each recipe is added on its own day, before the first meal cooked from it."""
    for recipe in recipes():
        yield Step(recipe.since, Part.SET_UP, recipe.who, partial(_add, recipe))


def _add(recipe: WrittenRecipe, room: Stockroom) -> None:
    for food, measure, weight_dg in recipe.measures:
        set_measure(room, food, measure, weight_dg)
    add_recipe(
        room,
        recipe.name,
        recipe.serves,
        recipe.lines,
        cooking_water_dg=recipe.pot_water_g * 10,
        steps=recipe.steps,
        cook_to_dc=recipe.cook_to_dc,
        fresh_kcal=recipe.fresh_kcal,
        fresh_protein_dg=recipe.fresh_protein_g * 10,
        allergens=recipe.fresh_allergens,
        occasion=recipe.occasion,
    )


def _recipe(entry: dict[str, Any]) -> WrittenRecipe:
    return WrittenRecipe(
        name=str(entry["name"]),
        since=entry["since"],
        who=str(entry["who"]),
        serves=int(entry["serves"]),
        pot_water_g=int(entry["pot_water_g"]),
        lines=(
            *(_stored(words) for words in entry["shelf"]),
            *(_fresh(words) for words in entry["fresh"]),
        ),
        steps=str(entry["steps"]).strip(),
        cook_to_dc=entry.get("cook_to_dc"),
        measures=tuple(
            (food, measure, int(grams) * 10) for food, measure, grams in entry.get("measures", ())
        ),
        fresh_kcal=int(entry["brings"][0]),
        fresh_protein_g=int(entry["brings"][1]),
        fresh_allergens=tuple(Allergen(one) for one in entry.get("contains", ())),
        occasion=Occasion(entry.get("occasion", Occasion.MAIN)),
    )


def _stored(words: list[str]) -> LineRequest:
    """["venison stew", "4", "servings"], or in a household measure ["apple slices", "1", "cup"]."""
    food, amount, unit = words
    if unit in _BASES:
        return LineRequest(food=food, basis=_BASES[unit], amount=Fraction(amount))
    return LineRequest(food=food, basis=Basis.MEASURE, amount=Fraction(amount), unit=unit)


def _fresh(words: list[str]) -> LineRequest:
    """What is not on the shelf: ["oats", "200", "g"]."""
    item, amount, unit = words
    return LineRequest(item=item, amount=Fraction(amount) if amount else None, unit=unit or None)


_BASES = {"servings": Basis.SERVINGS, "g fresh": Basis.FRESH, "g dry": Basis.DRY}
