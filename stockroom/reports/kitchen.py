"""The kitchen on paper: what to take for a dish with its water, and the recipes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from stockroom.domain.cooking import Basis, CookPlan, FreshNeed
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import RecipeLine, RecipeRecord, RecipeSummary
from stockroom.reports.done import sentence
from stockroom.reports.parts import caution_blocks
from stockroom.reports.plain import clean, clean_lines
from stockroom.reports.values import (
    AMOUNT,
    COUNT,
    CUPS,
    DAY,
    FLAG,
    MILLILITRES,
    SERVINGS,
    TEXT,
    WATER,
    WATER_GRAMS,
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
from stockroom.services.results import CookSheet, Done

_PICKS = (
    Column("food", title="food", least=10),
    Column("code", title="package"),
    Column("take", WEIGHT, "take dry"),
    Column("water", WATER_GRAMS, "water"),
    Column("", MILLILITRES, "or", drop=2),
    Column("", CUPS, "or about"),
    Column("leaves", WEIGHT, "leaves", drop=3),
    Column("opens", FLAG),
    Column("finishes", FLAG),
    Column("fresh_equivalent", WEIGHT),
    Column("best_by", DAY),
    Column("place", title="place", least=8, drop=1),
)


def cook_report(sheet: CookSheet, places: Mapping[str, str], done: Done | None = None) -> Report:
    """A recipe for so many people: picks, waters, what is short, what to buy, what to mind.

    `places` says for each picked package's code where it stands; `done` is the meal, when the
    packages were taken.
    """
    plan = sheet.plan
    blocks: tuple[Block, ...] = (
        *_taken(done),
        _picks(plan, places),
        Fields((*_waters(plan), *_warnings(sheet))),
        _short(plan),
        _fresh(plan.fresh),
        Prose("steps", clean_lines(sheet.recipe.steps), "Steps"),
        *caution_blocks(sheet.cautions),
    )
    return document(f"{plan.name} for {plan.people}", blocks)


def _taken(done: Done | None) -> tuple[Block, ...]:
    """That the meal was cooked, and the packages it took from."""
    codes = () if done is None else done.codes
    fields = (
        Field("done", TEXT, None if done is None else done.words),
        Field("codes", WORDS, codes),
    )
    said = () if done is None else (sentence(done.words),)
    return Prose("", said), Fields(fields)


def _picks(plan: CookPlan, places: Mapping[str, str]) -> Table:
    """What to take, first in first out."""
    rows = tuple(
        (
            line.need.food_name,
            pick.candidate.code,
            pick.take_dg,
            pick.water_dg,
            pick.water_dg,
            pick.water_dg,
            pick.left_dg,
            pick.opens,
            pick.finishes,
            pick.fresh_dg,
            pick.candidate.best_by,
            places.get(pick.candidate.code, ""),
        )
        for line in plan.lines
        for pick in line.picks
    )
    return Table("picks", _PICKS, rows, "Take", empty="Nothing from the shelves.")


def _waters(plan: CookPlan) -> tuple[Field, ...]:
    """The two waters, which are counted apart."""
    cooking = plan.cooking_water_dg or None
    return (
        Field("recipe", TEXT, plan.name),
        Field("people", COUNT, plan.people),
        Field("water", WATER, plan.water_dg, "water to add", " in all, an upper bound"),
        Field("cooking_water", WATER, plan.cooking_water_dg),
        Field("", WATER, cooking, "cooking water", " on top of it"),
    )


def _warnings(sheet: CookSheet) -> tuple[Field, ...]:
    """What to look at before anybody eats."""
    unknown, raw = sheet.ingredients_unknown, sheet.raw_foods
    return (
        Field("raw_foods", WORDS, raw, "raw", ": must be cooked after water is added"),
        Field("unchecked_codes", WORDS, sheet.unchecked, "not checked", ": no settle check yet"),
        Field(
            "past_best_by_codes", WORDS, sheet.past_best_by, "past best-by",
            f" ({QUALITY_NOT_SAFETY})",
        ),
        Field("allergens", WORDS, sheet.allergens, "allergens", missing="none on record"),
        Field(
            "ingredients_unknown", WORDS, unknown, "allergens of",
            ": check what went into them",
        ),
    )  # fmt: skip


_SHORT = (
    Column("food", title="food", least=12),
    Column("short", WEIGHT, "short by"),
    Column("counted_as", title="counted as"),
    Column("servings", SERVINGS, "servings"),
)


def _short(plan: CookPlan) -> Table:
    """What the shelves do not have, counted as the recipe counts it."""
    rows = tuple(
        (
            line.need.food_name,
            line.shortfall_dg,
            "dry" if line.need.basis is Basis.DRY else "fresh equivalent",
            line.shortfall_servings,
        )
        for line in plan.short
    )
    return Table("short", _SHORT, rows, "Short: the shelves do not hold this")


_FRESH = (
    Column("item", title="item", least=12),
    Column("amount", AMOUNT, "amount"),
    Column("unit", title="unit"),
)


def _fresh(needs: Sequence[FreshNeed]) -> Table:
    """What does not come from the shelves."""
    rows = tuple((need.item, need.amount, need.unit) for need in needs)
    return Table("fresh", _FRESH, rows, "Fresh: to buy or to have in the kitchen")


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
)


def recipe_report(recipe: RecipeRecord, units: UnitSystem) -> Report:
    """One recipe as it stands in the book."""
    blocks: tuple[Block, ...] = (
        Fields(
            (
                Field("recipe", TEXT, recipe.name),
                Field("serves", COUNT, recipe.serves, "serves"),
                Field("cooking_water", WATER, recipe.cooking_water_dg),
                Field("", WATER, recipe.cooking_water_dg or None, "cooking water"),
            )
        ),
        Table("lines", _LINES, tuple(_recipe_row(line, units) for line in recipe.lines)),
        Prose("steps", clean_lines(recipe.steps), "Steps"),
    )
    return document(recipe.name, blocks)


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
