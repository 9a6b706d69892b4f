"""Recipes in and out as files: what a file holds, into the book once decided, and out again."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.domain.recipe_ld import read_recipes
from stockroom.domain.recipe_page import read_page
from stockroom.domain.recipe_review import (
    Fate,
    ImportPreview,
    KnownFood,
    LineReview,
    RecipeReview,
    review_of,
)
from stockroom.domain.records import RecipeRecord
from stockroom.errors import BadInput, Refused, StockroomError
from stockroom.services.acting import acting
from stockroom.services.finding import find_recipe
from stockroom.services.recipes import LineRequest, enter_recipe
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import food_rows, measure_rows, recipe_rows

MOST_BYTES = 5 * 1024 * 1024
MOST_RECIPES = 1000
"""Recipes that are reviewed of one file: engineering judgement."""


class RecipeFileUnreadable(StockroomError):
    """A file of recipes cannot be opened."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The recipe file {path} cannot be read: {why}.",
            "Check the path; a page of recipes has to be saved from the browser first.",
        )


class RecipeFileTooLarge(StockroomError):
    """A file larger than any page of recipes."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"The recipe file {path} is larger than {MOST_BYTES // (1024 * 1024)} MB.",
            "Save the page alone, without its pictures, or split the file.",
        )


class NotARecipeFile(StockroomError):
    """A file holds neither JSON nor a page with JSON-LD."""

    def __init__(self, path: str, why: str) -> None:
        """`why` says where reading stopped."""
        super().__init__(
            f"The file {path} cannot be read as recipes: {why}.",
            "It has to be JSON-LD (schema.org), or a saved page that holds it.",
        )


class NoRecipeInFile(StockroomError):
    """A file was read, and no recipe is in it."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"There is no schema.org Recipe in {path}.",
            "Save the page of the recipe itself, or write it with `stockroom recipe add`.",
        )


class NotDecided(Refused):
    """Lines of a recipe are still open."""

    def __init__(self, name: str, questions: Sequence[str]) -> None:
        """`questions` say what is to be decided."""
        more = f"; and {len(questions) - 1} more" if len(questions) > 1 else ""
        super().__init__(
            f"“{name}” cannot be taken yet: {questions[0]}{more}.",
            "Say what each open line becomes: a food with an amount, fresh, water, or left out.",
        )


class NoRecipesYet(Refused):
    """There is nothing to write to a file."""

    def __init__(self) -> None:
        super().__init__(
            "There are no recipes in the book.", "Write one, or bring in a file, first."
        )


def read_recipe_file(room: Stockroom, path: Path) -> ImportPreview:
    """What a file holds, with a proposal for each line; nothing is kept.

    Raises RecipeFileUnreadable, RecipeFileTooLarge, NotARecipeFile, NoRecipeInFile.
    """
    page = read_page(_text(path))
    drafts = [draft for value in page.values for draft in read_recipes(value)][:MOST_RECIPES]
    if not drafts and page.troubles:
        raise NotARecipeFile(str(path), page.troubles[0])
    if not drafts:
        raise NoRecipeInFile(str(path))
    foods = known_foods(room)
    return ImportPreview(
        str(path), tuple(review_of(draft, foods) for draft in drafts), page.troubles
    )


def known_foods(room: Stockroom) -> tuple[KnownFood, ...]:
    """The household's own foods with their measures: what a line can become."""
    measures: dict[int, list[FoodMeasure]] = {}
    for one in measure_rows.all_measures(room.store):
        measures.setdefault(one.food_id, []).append(one)
    return tuple(
        KnownFood(food.name, tuple(measures.get(food.food_id, ())))
        for food in food_rows.all_foods(room.store)
    )


def import_recipes(room: Stockroom, recipes: Sequence[RecipeReview]) -> Done:
    """Write decided recipes in the book, all of them or none.

    Raises NotDecided, RecipeExists, MeasureMissing, NotFound or BadInput.
    """
    if not recipes:
        raise BadInput("recipes", "", "at least one recipe to take")
    with acting(room, "recipe") as act:
        made = 0
        for one in recipes:
            if one.questions or one.serves is None:
                raise NotDecided(one.name or "recipe", one.questions)
            made = enter_recipe(
                room,
                one.name,
                one.serves,
                _requests(one),
                cooking_water_dg=one.cooking_water_dg,
                steps=one.steps,
                origin=one.draft.origin or None,
            )
        names = ", ".join(" ".join(one.name.split()) for one in recipes)
        noun = "the recipe" if len(recipes) == 1 else f"{len(recipes)} recipes:"
        act.words = f"imported {noun} {names}"
    return Done(act.words, made_id=made)


def recipes_to_write(room: Stockroom, names: Sequence[str] = ()) -> tuple[RecipeRecord, ...]:
    """The recipes of these names whole, each once; all of them when none is named.

    Raises NoRecipesYet, NotFound, Ambiguous.
    """
    if names:
        found = [find_recipe(room, name) for name in names]
        return tuple({one.recipe_id: one for one in found}.values())
    every = tuple(recipe_rows.all_recipes(room.store))
    if not every:
        raise NoRecipesYet()
    return every


def _requests(review: RecipeReview) -> list[LineRequest]:
    """The lines that stand in the book."""
    return [_request(line) for line in review.lines if line.fate in (Fate.STORED, Fate.FRESH)]


def _request(line: LineReview) -> LineRequest:
    if line.fate is Fate.STORED:
        return LineRequest(food=line.name, basis=line.basis, amount=line.amount, unit=line.unit)
    # Less than the book can count is as good as "some".
    counted = line.amount if line.amount is not None and line.amount >= Fraction(1, 1000) else None
    return LineRequest(item=line.name, amount=counted, unit=line.unit)


def _text(path: Path) -> str:
    """A file's text, in UTF-8, UTF-16 or else Latin letters as old programs write them."""
    try:
        if not path.is_file():
            raise RecipeFileUnreadable(str(path), _no_file(path))
        with path.open("rb") as file:
            held = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise RecipeFileUnreadable(str(path), str(why).rstrip(".").lower()) from error
    if len(held) > MOST_BYTES:
        raise RecipeFileTooLarge(str(path))
    encodings = (
        ("utf-16",) if held.startswith((b"\xff\xfe", b"\xfe\xff")) else ("utf-8-sig", "cp1252")
    )
    for encoding in encodings:
        try:
            return held.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise NotARecipeFile(str(path), "it is no text")


def _no_file(path: Path) -> str:
    if path.is_dir():
        return "it is a folder"
    return "it is no plain file" if path.exists() else "there is no such file"
