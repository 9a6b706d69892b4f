"""Recipes in and out as files: the review of what a file holds, and the file that is written."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from fractions import Fraction

from stockroom.domain.cooking import Basis
from stockroom.domain.ingredient_amounts import written_number
from stockroom.domain.quantities import UnitSystem, show_weight, to_dg
from stockroom.domain.recipe_ld import OWN_IDENTIFIER
from stockroom.domain.recipe_ld_writing import recipes_node
from stockroom.domain.recipe_review import Fate, ImportPreview, LineReview, RecipeReview
from stockroom.domain.records import RecipeRecord
from stockroom.reports.done import sentence
from stockroom.reports.parts import counted
from stockroom.reports.plain import clean, clean_lines
from stockroom.reports.values import (
    COUNT,
    TEXT,
    WATER,
    Block,
    Column,
    Data,
    Field,
    Fields,
    Json,
    Prose,
    Report,
    Table,
    document,
)
from stockroom.services.results import Done

KIND = "recipe file"
"""What the file is called where another stands in its way."""

_OURS = re.compile(rb'\{\s*"@context": "https://schema\.org",')

_LINES = (
    Column("", COUNT, "line"),
    Column("", title="in the file", least=14),
    Column("", title="becomes", least=10),
    Column("", title="as", least=8),
    Column("", title="problem", least=12, drop=1),
)


def recipe_file(recipes: Sequence[RecipeRecord]) -> bytes:
    """The recipes as schema.org JSON-LD in UTF-8.

    Grams of stored foods are written in words ("240 g Peas, green (fresh weight), freeze-dried"),
    and read back by `recipe import` as the same lines.
    """
    return (json.dumps(recipes_node(recipes), ensure_ascii=False, indent=2) + "\n").encode()


def is_our_recipe_file(head: bytes) -> bool:
    """Whether a file begins as one of ours does: its identifier stands near the beginning."""
    return bool(_OURS.match(head)) and f'"identifier": "{OWN_IDENTIFIER}'.encode() in head


def written_report(recipes: Sequence[RecipeRecord], path: str) -> Report:
    """What was written where."""
    names = tuple(one.name for one in recipes)
    words = written_words(recipes, path)
    fields = (
        Field("file", TEXT, path),
        Field("count", COUNT, len(recipes)),
    )
    listed: Json = list(names)
    return document("", (Prose("", (words,)), Fields(fields), Data("recipes", listed)))


def written_words(recipes: Sequence[RecipeRecord], path: str) -> str:
    """The same in one sentence."""
    return f"Wrote {counted(len(recipes), 'recipe')} to {clean(path)}."


def import_report(preview: ImportPreview, units: UnitSystem, done: Done | None = None) -> Report:
    """What a file holds and what each line becomes; `done` when it was taken into the book."""
    whole: Json = [_recipe_data(one) for one in preview.recipes]
    blocks: list[Block] = [
        Prose("", () if done is None else (sentence(done.words),)),
        Fields((Field("file", TEXT, preview.path), Field("done", TEXT, done and done.words))),
        Data("recipes", whole),
        Prose("troubles", preview.troubles, "Parts of the file that could not be read", "- "),
    ]
    for place, one in enumerate(preview.recipes, start=1):
        blocks.extend(_recipe_blocks(place, len(preview.recipes), one, units))
    return document("" if done else f"What {clean(preview.path)} holds", blocks)


def _recipe_blocks(
    place: int, count: int, review: RecipeReview, units: UnitSystem
) -> tuple[Block, ...]:
    """One recipe under review."""
    title = f"Recipe {place} of {count}" if count > 1 else ""
    water = review.cooking_water_dg or None
    head = (
        Field("", TEXT, review.name or None, "recipe", missing="it has no name"),
        Field("", COUNT, review.serves, "serves", missing="not said"),
        Field("", WATER, water, "cooking water"),
        Field("", TEXT, review.draft.origin or None, "from"),
    )
    findings = tuple(one.words for one in review.findings)
    return (
        Fields(head, title),
        Table("", _LINES, tuple(_row(line, units) for line in review.lines)),
        Prose("", clean_lines(review.steps), "Steps"),
        Prose("", findings, "About the file", "- "),
        Prose("", review.lost_lines, "Not read", "- "),
        Prose("", review.questions, "To be decided before it can be taken", "- "),
    )


def _row(line: LineReview, units: UnitSystem) -> tuple[object, ...]:
    problem = "; ".join(line.problems) or None
    return (line.place, line.read.text, becomes(line), amount_words(line, units), problem)


def becomes(line: LineReview) -> str:
    """What a line becomes, by name."""
    if line.fate in (Fate.WATER, Fate.LEFT_OUT):
        return line.fate.value
    return line.name


def amount_words(line: LineReview, units: UnitSystem) -> str:
    """How much of it and how that counts: "150.0 g fresh", "2 servings", "3/4 cup, not stored"."""
    if line.fate is Fate.LEFT_OUT:
        return ""
    if line.amount is None:
        return "some" if line.fate is Fate.FRESH else "how much?"
    if line.fate is Fate.WATER:
        return show_weight(to_dg(line.amount), units)
    number = written_number(line.amount.limit_denominator(1000))
    if line.fate is Fate.FRESH:
        return f"{number} {line.unit}" if line.unit else number
    if line.basis is Basis.SERVINGS:
        return f"{number} {'serving' if line.amount == 1 else 'servings'}"
    if line.basis is Basis.MEASURE:
        return f"{number} {line.unit}"
    return f"{show_weight(to_dg(line.amount), units)} {line.basis}"


def _recipe_data(review: RecipeReview) -> Json:
    """A recipe under review for programs."""
    lines: Json = [_line_data(line) for line in review.lines]
    findings: Json = [
        {"field": one.field, "line": one.place or None, "message": one.message, "lost": one.lost}
        for one in review.findings
    ]
    questions: Json = list(review.questions)
    return {
        "name": review.name,
        "serves": review.serves,
        "yield": review.draft.yield_words,
        "cooking_water_dg": review.cooking_water_dg,
        "origin": review.draft.origin,
        "steps": review.steps,
        "lines": lines,
        "findings": findings,
        "questions": questions,
    }


def _line_data(line: LineReview) -> Json:
    """A line for programs: its text, what was read of it, what it becomes."""
    read = line.read
    suggestions: Json = [
        {"food": one.food, "score": float(f"{one.score:.2f}")} for one in line.suggestions
    ]
    problems: Json = list(line.problems)
    return {
        "line": line.place,
        "text": read.text,
        "read_amount": _number(read.amount),
        "read_unit": read.unit,
        "read_item": read.item,
        "read_note": read.note,
        "read_weight_dg": read.weight_dg,
        "becomes": line.fate.value,
        "name": line.name,
        "basis": line.basis,
        "amount": _number(line.amount),
        "unit": line.unit,
        "suggestions": suggestions,
        "problems": problems,
    }


def _number(amount: Fraction | None) -> float | None:
    return None if amount is None else float(amount)
