"""One ordinary use of bringing recipes in from a file."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

from stockroom.domain.recipe_ld import read_recipes
from stockroom.domain.recipe_review import KnownFood, RecipeReview, review_of
from stockroom.services import foods, recipe_files
from stockroom.services.session import Stockroom
from tests.services.case import Case
from tests.world import PEAS, World

SOUP = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Pea soup für Zoë",
    "recipeYield": "4 servings",
    "author": "Zoë’s mother",
    "recipeIngredient": ["150 g peas, thawed", "500 ml water", "1 1/2 tbsp oil", "salt to taste"],
    "recipeInstructions": ["Soak.", "Simmer."],
    "cookTime": "PT20M",
}
"""A soup of one stored food."""


def recipe_page(room: Stockroom, *recipes: dict[str, object]) -> Path:
    """A file of recipes beside the store."""
    path = room.path.with_name("recipes.json")
    path.write_text(json.dumps(list(recipes or (SOUP,))), encoding="utf-8")
    return path


def reviews(room: Stockroom, *recipes: dict[str, object]) -> tuple[RecipeReview, ...]:
    """A file of recipes as it is proposed."""
    return recipe_files.read_recipe_file(room, recipe_page(room, *recipes)).recipes


def with_peas(world: World) -> None:
    """The household has dried peas."""
    foods.add_food(world.room, PEAS, like=PEAS)


def _both() -> tuple[RecipeReview, ...]:
    """The soup twice under two names, decided without a look at the store."""
    (draft,) = read_recipes(SOUP)
    soup = review_of(draft, (KnownFood(PEAS),))
    return soup, replace(soup, name="The same again")


RECIPE_FILE_CASES: dict[str, Case] = {
    "recipe_files.import_recipes": Case(
        with_peas, lambda room: recipe_files.import_recipes(room, _both())
    )
}
