"""The book of recipes on paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from stockroom.domain.dish_facts import DishFacts
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import RecipeLine, RecipeRecord, RecipeSummary
from stockroom.domain.units import Cup
from stockroom.domain.water_share import WaterWay
from stockroom.reports.cook_water import water_kind
from stockroom.reports.plain import clean, clean_lines
from stockroom.reports.values import (
    AMOUNT,
    COUNT,
    DAY,
    SERVINGS,
    TEMPERATURE,
    TEXT,
    WEIGHT,
    WORDS,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Row,
    Table,
    document,
    listing,
)

_RECIPES = (
    Column("name", title="recipe", least=16),
    Column("serves", COUNT, "serves"),
    Column("stored", COUNT, "from the shelves"),
    Column("fresh", COUNT, "fresh"),
    Column("last_cooked_on", DAY, "last cooked"),
)


def recipe_list(recipes: Sequence[RecipeSummary]) -> Report:
    """Every recipe with how many ingredients it has."""
    rows = tuple(
        (one.name, one.serves, one.stored, one.fresh, one.last_cooked_on) for one in recipes
    )
    return listing(Table("recipes", _RECIPES, rows, empty="No recipes yet."))


_LINES = (
    Column("", title="ingredient", least=16),
    Column("", title="amount", least=10),
    Column("", title="from"),
    Column("food"),
    Column("basis"),
    Column("weight", WEIGHT),
    Column("servings", SERVINGS),
    Column("item"),
    Column("amount", AMOUNT),
    Column("unit"),
    Column("hold_back_percent", COUNT),
)


def recipe_report(
    recipe: RecipeRecord,
    units: UnitSystem,
    facts: DishFacts | None = None,
    cup: Cup = Cup.US,
) -> Report:
    """One recipe as it stands in the book; `facts` are what its foods bring along."""
    rows = tuple(_recipe_row(line, units) for line in recipe.lines)
    blocks: tuple[Block, ...] = (
        Fields((*_head(recipe, cup), *_fresh_facts(recipe), *_carried(facts))),
        Table("lines", _line_columns(recipe), rows),
        Prose("steps", clean_lines(recipe.steps), "Steps"),
    )
    return document(recipe.name, blocks)


def _head(recipe: RecipeRecord, cup: Cup) -> tuple[Field, ...]:
    """For how many it is, and what it asks of the cook."""
    water = water_kind(WaterWay(cup=cup))
    return (
        Field("recipe", TEXT, recipe.name),
        Field("serves", COUNT, recipe.serves, "serves"),
        Field("occasion", TEXT, recipe.occasion, "cooked as"),
        Field("origin", TEXT, recipe.origin, "from"),
        Field("hold_back_percent", COUNT, recipe.hold_back_percent, "hold back", " % of the water"),
        Field("water_temperature", TEMPERATURE, recipe.water_temperature_dc, "water at"),
        Field("cooking_water", water, recipe.cooking_water_dg),
        Field("", water, recipe.cooking_water_dg or None, "cooking water"),
        Field(
            "cook_to", TEMPERATURE, recipe.cook_to_dc, "cooked to", ", in the middle",
            missing="no cooking step",
        ),
    )  # fmt: skip


def _fresh_facts(recipe: RecipeRecord) -> tuple[Field, ...]:
    """What the fresh items bring along, for all served."""
    after = " for all it serves"
    return (
        Field("fresh_kcal", COUNT, recipe.fresh_kcal, "fresh energy", f" kcal{after}"),
        Field("fresh_protein", WEIGHT, recipe.fresh_protein_dg, "fresh protein", after),
        Field("fresh_allergens", WORDS, recipe.allergens, "fresh allergens"),
    )


def _carried(facts: DishFacts | None) -> tuple[Field, ...]:
    """Allergens and raw food of the whole dish, from its foods and its own words."""
    if facts is None:
        return ()
    raw = tuple(one.name for one in facts.raw.foods)
    least = facts.raw.least
    needs = "" if least is None else f": must be cooked to {least.words}"
    return (
        Field("allergens", WORDS, facts.allergens, "allergens", missing="none on record"),
        Field(
            "ingredients_unknown", WORDS, facts.ingredients_unknown, "allergens of",
            ": check what went into them",
        ),
        Field("raw_foods", WORDS, raw, "raw", needs),
    )  # fmt: skip


def _line_columns(recipe: RecipeRecord) -> tuple[Column, ...]:
    """The columns of its lines; the share held back is shown where a line has its own."""
    *columns, last = _LINES
    own = any(line.hold_back_percent is not None for line in recipe.lines)
    return (*columns, replace(last, title="hold back, %") if own else last)


def _recipe_row(line: RecipeLine, units: UnitSystem) -> Row:
    """One ingredient, in words and as it is stored."""
    servings = _hundredths(line.servings_hundredths)
    amount = None if line.amount_thousandths is None else Fraction(line.amount_thousandths, 1000)
    return (
        line.food or line.item or "",
        clean(ingredient_amount(line, units)),
        "shelves" if line.food is not None else "fresh",
        line.food,
        line.basis,
        line.weight_dg,
        servings,
        line.item,
        amount,
        line.unit,
        line.hold_back_percent,
    )


def ingredient_amount(line: RecipeLine, units: UnitSystem) -> str:
    """How much of an ingredient, as a person says it: "240.0 g fresh", "2 servings", "2 each"."""
    if line.servings_hundredths is not None:
        return f"{AMOUNT.to_text(_hundredths(line.servings_hundredths), units)} servings"
    if line.weight_dg is not None:
        return f"{show_weight(line.weight_dg, units)} {line.basis}"
    if line.amount_thousandths is None:
        return "some"
    amount = AMOUNT.to_text(Fraction(line.amount_thousandths, 1000), units)
    return f"{amount} {line.unit}" if line.unit else amount


def _hundredths(count: int | None) -> Fraction | None:
    """Hundredths as an exact number."""
    return None if count is None else Fraction(count, 100)
