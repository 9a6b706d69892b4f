"""Recipes of the book as schema.org JSON-LD, in standard fields only.

Grams of stored foods are written in words ("240 g Peas, green (fresh weight), freeze-dried"), since
a schema.org Recipe has no field for them; read back here they are the same lines. What the book
keeps beside (how much water to hold back, what to cook to) has no field either and is not written.
"""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.ingredient_words import recipe_lines
from stockroom.domain.recipe_ld import OWN_IDENTIFIER
from stockroom.domain.recipe_ld_values import Node, as_json_text
from stockroom.domain.records import RecipeRecord

CONTEXT = "https://schema.org"


def recipes_node(recipes: Sequence[RecipeRecord]) -> Node:
    """The whole file: one recipe as itself, several as a graph."""
    if len(recipes) == 1:
        return {"@context": CONTEXT, **recipe_node(recipes[0])}
    return {"@context": CONTEXT, "@graph": [recipe_node(one) for one in recipes]}


def recipe_node(recipe: RecipeRecord) -> Node:
    """One recipe; its identifier comes first, so that the beginning of a file tells whose it is."""
    node: Node = {
        "@type": "Recipe",
        "identifier": f"{OWN_IDENTIFIER}{recipe.recipe_id}",
        "name": as_json_text(recipe.name),
        "recipeYield": f"{recipe.serves} {'serving' if recipe.serves == 1 else 'servings'}",
        "recipeIngredient": [as_json_text(one) for one in recipe_lines(recipe)],
    }
    steps = [line.strip() for line in recipe.steps.splitlines() if line.strip()]
    if steps:
        node["recipeInstructions"] = [
            {"@type": "HowToStep", "text": as_json_text(line)} for line in steps
        ]
    if recipe.origin:
        node["author"] = as_json_text(recipe.origin)
    return node
