"""Recipes out of schema.org JSON-LD, with a finding for everything that could not be taken over.

Follows schema.org's Recipe, HowToStep, HowToSection, QuantitativeValue and NutritionInformation
(schema.org, CC BY-SA 3.0; the vocabulary from memory, its own example checked in the tests). What
the book has no place for is named, never dropped in silence.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from stockroom.domain.ingredient_text import IngredientText, read_ingredient
from stockroom.domain.recipe_ld_parts import (
    Finding,
    nutrition_line,
    origin_words,
    read_instructions,
    read_yield,
    time_line,
)
from stockroom.domain.recipe_ld_values import (
    Node,
    as_array,
    as_list,
    as_node,
    bare,
    field,
    lines_of,
    nodes_of_type,
    text_of,
)

OWN_IDENTIFIER = "stockroom recipe "
"""What the identifier of a recipe of our own writing begins with."""

_TAKEN = """
    name recipeYield yield recipeIngredient ingredients recipeInstructions prepTime cookTime
    totalTime nutrition suitableForDiet author url identifier
"""
_READ = frozenset(_TAKEN.split())
_MOST_LINES = 500
"""Ingredient lines that are read of one recipe: engineering judgement."""


@dataclass(frozen=True, slots=True)
class RecipeDraft:
    """A recipe as the file has it. `serves` is None when the file names no number of people.

    `ours` is set for one that this program wrote: its lines say themselves what is stored.
    """

    name: str
    serves: int | None
    yield_words: str
    ingredients: tuple[IngredientText, ...]
    steps: str
    origin: str
    ours: bool
    findings: tuple[Finding, ...]

    @property
    def lost(self) -> tuple[Finding, ...]:
        """The findings about what could not be read."""
        return tuple(one for one in self.findings if one.lost)


def read_recipes(value: object) -> tuple[RecipeDraft, ...]:
    """Every recipe of a parsed JSON-LD value, in its order."""
    named = {
        name: node
        for node in _nodes(value)
        if len(node) > 1 and isinstance(name := node.get("@id"), str)
    }
    return tuple(_draft(_whole(node, named), value) for node in nodes_of_type(value, "Recipe"))


def _nodes(value: object) -> Iterator[Node]:
    """The nodes at the top and in a graph, which others may name by their @id."""
    for one in as_list(value):
        node = as_node(one)
        if node is not None:
            yield node
            yield from (each for each in map(as_node, as_list(node.get("@graph"))) if each)


def _whole(recipe: Node, named: Mapping[str, Node]) -> Node:
    """The recipe with the nodes it names by their @id put in their places."""
    return {key: _replaced(value, named) for key, value in recipe.items()}


def _replaced(value: object, named: Mapping[str, Node]) -> object:
    node = as_node(value)
    if node is not None:
        reference = node.get("@id")
        only = set(node) == {"@id"}
        return named.get(reference, node) if only and isinstance(reference, str) else node
    several = as_array(value)
    if several is not None:
        return [_replaced(one, named) for one in several]
    return value


def _draft(node: Node, whole: object) -> RecipeDraft:
    """One recipe, read field by field."""
    name = text_of(field(node, "name"))
    served = read_yield(_first(node, "recipeYield", "yield"))
    ingredients, unread = _ingredients(node)
    told = read_instructions(field(node, "recipeInstructions"))
    times, untimed = time_line(node)
    nutrition, uneaten = nutrition_line(field(node, "nutrition"))
    steps = "\n".join(one for one in (times, *told.lines, nutrition) if one)
    findings = (
        *_about_context(whole),
        *(() if name else (Finding("name", "it has none: give it one", lost=True),)),
        *served.findings,
        *unread,
        *told.findings,
        *untimed,
        *uneaten,
        *_about_the_rest(node),
    )
    ours = text_of(field(node, "identifier")).startswith(OWN_IDENTIFIER)
    return RecipeDraft(
        name, served.serves, served.words, ingredients, steps, origin_words(node), ours, findings
    )


def _first(node: Node, *names: str) -> object:
    """The first of these fields that is there."""
    return next((found for name in names if (found := field(node, name)) is not None), None)


def _ingredients(node: Node) -> tuple[tuple[IngredientText, ...], list[Finding]]:
    """The ingredient lines, and what could not be read among them."""
    value = _first(node, "recipeIngredient", "ingredients")
    # A single text may hold the whole list.
    several = list(lines_of(value)) if isinstance(value, str) else as_list(value)
    findings: list[Finding] = []
    lines: list[IngredientText] = []
    for place, one in enumerate(several[:_MOST_LINES], start=1):
        words = text_of(one)
        if words:
            lines.append(read_ingredient(words))
        else:
            findings.append(Finding("recipeIngredient", "it has no text", place, lost=True))
    if len(several) > _MOST_LINES:
        more = f"only the first {_MOST_LINES} of {len(several)} lines are read"
        findings.append(Finding("recipeIngredient", more, lost=True))
    if not lines:
        findings.append(Finding("recipeIngredient", "there are no ingredients", lost=True))
    return tuple(lines), findings


def _about_context(value: object) -> tuple[Finding, ...]:
    """That the file does not say its words are schema.org's."""
    contexts = [node.get("@context") for node in map(as_node, as_list(value)) if node]
    if any("schema.org" in str(one) for one in contexts):
        return ()
    return (Finding("@context", "it does not name schema.org; read as if it did"),)


def _about_the_rest(node: Node) -> Iterator[Finding]:
    """Fields that were seen and are not kept."""
    diets = [bare(text_of(one)) for one in as_list(field(node, "suitableForDiet"))]
    if any(diets):
        named = ", ".join(one for one in diets if one)
        yield Finding(
            "suitableForDiet", f"“{named}” is not taken over: judge it by what goes into your dish"
        )
    rest = sorted({bare(key) for key in node if not key.startswith("@")} - _READ)
    if rest:
        yield Finding("other fields", f"not kept: {', '.join(rest)}")
