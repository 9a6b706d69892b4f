"""Recipes out of a file by chance: sometimes of a name that is taken, sometimes undecided."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from stockroom.services import recipe_files
from stockroom.services.session import Stockroom
from tests.services.cases_recipe_files import SOUP, reviews


def _import(room: Stockroom, pick: Random) -> object:
    lines = pick.sample(["150 g peas", "2 cups peas", "1 egg", "300 ml water", "salt"], 3)
    made = [
        {**SOUP, "name": f"Soup {pick.randrange(4)}", "recipeIngredient": lines}
        for _ in range(pick.randrange(1, 3))
    ]
    return recipe_files.import_recipes(room, reviews(room, *made))


RECIPE_FILE_STEPS: dict[str, Callable[[Stockroom, Random], object]] = {
    "recipe_files.import_recipes": _import
}
