"""Forms of the import: the file, what one line becomes, and the head of the recipe."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from stockroom.domain.cooking import Basis
from stockroom.domain.ingredient_text import read_ingredient
from stockroom.domain.quantities import UnitSystem, read_servings, read_weight, read_whole
from stockroom.domain.recipe_review import (
    Fate,
    ImportPreview,
    KnownFood,
    LineReview,
    RecipeReview,
    as_food,
    as_fresh,
    as_water,
    left_out,
)
from stockroom.errors import BadInput, StockroomError
from stockroom.services.names import clean_name
from stockroom.services.recipe_files import known_foods, read_recipe_file
from stockroom.services.session import Stockroom
from stockroom.services.written_files import path_of
from stockroom.tui.screens.recipe_import_words import amount_typed
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker, Search

MOST_PEOPLE = 1000

_FATES = (
    Choice(Fate.FRESH.value, "fresh", "not from the shelves"),
    Choice(Fate.WATER.value, "cooking water", "the pot's own water"),
    Choice(Fate.LEFT_OUT.value, "leave out", "its words go into the steps"),
)
_BASES = (
    Choice("", "as the line says", "its weight, or a measure of the food"),
    Choice(Basis.FRESH.value, "fresh", "weight as it was before drying"),
    Choice(Basis.DRY.value, "dry", "weight of the dry food"),
    Choice(Basis.SERVINGS.value, "servings", "by the food's own serving"),
)
_FOOD = "food:"


class FileForm(FormScreen[ImportPreview]):
    """Asks for the file; closes with what it holds."""

    def __init__(self, room: Stockroom) -> None:
        super().__init__(
            "Import a recipe file",
            (Field("file", "File", hint="A saved page of a recipe, or a file of JSON-LD."),),
            lambda answers: read_recipe_file(room, path_of(answers.text("file"))),
            about=("Each line is shown before anything is kept.",),
        )

    def _refuse(self, error: StockroomError) -> None:
        """What is wrong with the file stands beside it."""
        self.fields[0].show_error(f"{error.message} {error.hint}")
        self.fields[0].begin()


def line_form(room: Stockroom, line: LineReview) -> FormScreen[LineReview]:
    """Asks what a line becomes, how it counts and how much; closes with the line so decided."""
    units, known = room.units, known_foods(room)
    before_amount, before = amount_typed(line, units), _choice_of(line)
    basis = next((one for one in _BASES if one.key == line.basis), _BASES[0])

    def read(answers: Answers) -> LineReview:
        choice = answers.choice("becomes")
        if choice is None:
            raise BadInput("becomes", answers.text("becomes"), "letters, and take one of the list")
        typed = answers.text("amount").strip()
        untouched = typed == before_amount.strip()
        if untouched and (choice.key, answers.key("basis")) == (before.key, basis.key):
            return line
        # An amount nobody touched belongs to what the line was before.
        amount = "" if untouched and choice.key != before.key else typed
        return _decided(line, choice, answers.key("basis"), amount, known, units)

    return FormScreen(
        f"Line {line.place}",
        (
            Picker(
                "becomes", "Becomes", _search(line, known), before,
                hint="A food of yours, fresh, cooking water, or leave out.",
            ),
            Picker("basis", "Counted in", _among(_BASES), basis, hint="For a food only."),
            Field("amount", "Amount", before_amount, hint="Empty: as much as the line says."),
        ),
        read,
        about=(line.read.text, *line.problems),
    )  # fmt: skip


def _decided(
    line: LineReview,
    choice: Choice,
    basis_key: int | str | None,
    typed: str,
    known: Sequence[KnownFood],
    units: UnitSystem,
) -> LineReview:
    """The line as it was decided. Raises BadInput."""
    if choice.key == Fate.LEFT_OUT.value:
        return left_out(line)
    if choice.key == Fate.WATER.value:
        return as_water(line, _grams(typed, units) if typed else None)
    if choice.key == Fate.FRESH.value:
        return _fresh(line, typed)
    food = next(one for one in known if _FOOD + one.name == choice.key)
    basis = Basis(str(basis_key)) if basis_key else None
    if not typed:
        return as_food(line, food, basis)
    if basis is Basis.SERVINGS:
        return as_food(line, food, basis, read_servings(typed, "amount"))
    return as_food(line, food, basis, _grams(typed, units))


def _grams(typed: str, units: UnitSystem) -> Fraction:
    """Grams above none. Raises BadInput."""
    weight_dg = read_weight(typed, units, "amount")
    if not weight_dg:
        raise BadInput("amount", typed, "a weight above 0")
    return Fraction(weight_dg, 10)


def _fresh(line: LineReview, typed: str) -> LineReview:
    """The line as something fresh, of another amount when one is typed. Raises BadInput."""
    fresh = as_fresh(line)
    if not typed:
        return fresh
    read = read_ingredient(f"{typed} x")
    if read.amount is None or read.item != "x":
        raise BadInput("amount", typed, "an amount such as 2, 1 1/2 cups or 200 g")
    return replace(fresh, amount=read.amount, unit=read.unit)


def _choice_of(line: LineReview) -> Choice:
    """What a line is now, as a choice."""
    if line.fate is Fate.STORED:
        return Choice(_FOOD + line.name, line.name)
    return next(one for one in _FATES if one.key == line.fate.value)


def _search(line: LineReview, known: Sequence[KnownFood]) -> Search:
    """The near foods, the three other ways, then every food by name."""
    near = [one.food for one in line.suggestions]
    rest = sorted(one.name for one in known if one.name not in near)
    every = (
        *(Choice(_FOOD + name, name, "near it") for name in near),
        *_FATES,
        *(Choice(_FOOD + name, name) for name in rest),
    )

    def search(letters: str) -> Sequence[Choice]:
        words = letters.casefold().split()
        return [one for one in every if all(word in one.label.casefold() for word in words)]

    return search


def _among(choices: Sequence[Choice]) -> Search:
    """Finds among a few choices by how they begin."""

    def search(letters: str) -> Sequence[Choice]:
        wanted = letters.strip().casefold()
        return [one for one in choices if one.label.startswith(wanted)]

    return search


def head_form(room: Stockroom, review: RecipeReview) -> FormScreen[RecipeReview]:
    """Asks for the name and for how many; closes with the recipe so changed."""

    def change(answers: Answers) -> RecipeReview:
        return replace(
            review,
            name=clean_name(answers.text("name"), "recipe name"),
            serves=read_whole(answers.text("serves"), "serves", 1, MOST_PEOPLE),
        )

    said = review.draft.yield_words
    serves = room.household.people if review.serves is None else review.serves
    return FormScreen(
        "Name and people",
        (
            Field("name", "Name", review.name, answers_to=("recipe name",)),
            Field(
                "serves", "Serves", str(serves), restrict=DIGITS,
                hint=f"The file says: {said}" if said else "The file does not say.",
            ),
        ),
        change,
    )  # fmt: skip
