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
from stockroom.domain.cooking import Basis
from stockroom.services.kitchen import LineRequest, add_recipe
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


def recipes() -> tuple[WrittenRecipe, ...]:
    """Every recipe of the book."""
    return tuple(_recipe(entry) for entry in tomllib.loads(read_text("recipes.toml"))["recipe"])


def recipe_steps() -> Iterator[Step]:
    """Each recipe is added on its own day, before the first meal cooked from it."""
    for recipe in recipes():
        yield Step(recipe.since, Part.SET_UP, recipe.who, partial(_add, recipe))


def _add(recipe: WrittenRecipe, room: Stockroom) -> None:
    add_recipe(
        room,
        recipe.name,
        recipe.serves,
        recipe.lines,
        cooking_water_dg=recipe.pot_water_g * 10,
        steps=recipe.steps,
    )


def _recipe(entry: dict[str, Any]) -> WrittenRecipe:
    return WrittenRecipe(
        name=str(entry["name"]),
        since=entry["since"],
        who=str(entry["who"]),
        serves=int(entry["serves"]),
        pot_water_g=int(entry["pot_water_g"]),
        lines=tuple(_line(words) for words in [*entry["shelf"], *entry["fresh"]]),
        steps=str(entry["steps"]).strip(),
    )


def _line(words: list[str]) -> LineRequest:
    """["venison stew", "4", "servings"], or for what is not on the shelf ["oats", "200", "g"]."""
    name, amount, unit = words
    if unit in _BASES:
        return LineRequest(food=name, basis=_BASES[unit], amount=Fraction(amount))
    return LineRequest(item=name, amount=Fraction(amount) if amount else None, unit=unit or None)


_BASES = {"servings": Basis.SERVINGS, "g fresh": Basis.FRESH, "g dry": Basis.DRY}
