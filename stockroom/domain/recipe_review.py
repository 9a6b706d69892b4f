"""A recipe read from a file, line by line on its way into the book: what each line becomes.

A line becomes a food of the shelves, something fresh, the pot's cooking water, or is left out.
Proposals are made by the words of the food's name; the person decides. A volume or a count of a
stored food becomes a weight only by a measure of that food which the household weighed itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.cooking import Basis
from stockroom.domain.food_match import ENOUGH, Match, is_water, suggestions
from stockroom.domain.ingredient_text import IngredientText
from stockroom.domain.ingredient_units import one_of, same_unit
from stockroom.domain.ingredient_words import WrittenLine, read_written
from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.recipe_ld import RecipeDraft
from stockroom.domain.recipe_ld_parts import Finding
from stockroom.domain.water import water_density

LONGEST_NAME = 80
"""Characters of a name that the book takes."""
LONGEST_STEPS = 2000
"""Characters of steps that the book takes."""
WATER_AT_C = 20.0
"""How warm water out of a recipe is taken to be where its volume is turned into grams."""


STEPS_CUT = f"the steps are longer than {LONGEST_STEPS} characters: their end is left out"
SHORTENED = f"longer than {LONGEST_NAME} characters: shortened here, whole in the steps"


class Fate(StrEnum):
    """What a line becomes."""

    STORED = "food"
    FRESH = "fresh"
    WATER = "cooking water"
    LEFT_OUT = "left out"


@dataclass(frozen=True, slots=True)
class KnownFood:
    """A food of the household with the measures it weighed of it."""

    name: str
    measures: tuple[FoodMeasure, ...] = ()


@dataclass(frozen=True, slots=True)
class LineReview:
    """One line: its text, what was read, and what it becomes.

    `amount` is grams for water and for the bases fresh and dry; servings, measures (named by
    `unit`), or the number of something fresh. `question` says what must be decided first.
    """

    place: int
    read: IngredientText
    fate: Fate
    name: str
    basis: Basis | None = None
    amount: Fraction | None = None
    unit: str | None = None
    suggestions: tuple[Match, ...] = ()
    question: str = ""

    @property
    def problems(self) -> tuple[str, ...]:
        """Everything doubtful about it, the open question first."""
        asked = (self.question,) if self.question else ()
        shortened = (SHORTENED,) if self.is_shortened else ()
        return (*asked, *self.read.remarks, *shortened)

    @property
    def is_shortened(self) -> bool:
        """Whether it is fresh and its words are too long for a line; those of our own never are."""
        if self.fate is not Fate.FRESH or read_written(self.read.text) is not None:
            return False
        return len(self.read.whole_item) > LONGEST_NAME


@dataclass(frozen=True, slots=True)
class RecipeReview:
    """A whole recipe under review. `serves` is None while nobody said for how many."""

    draft: RecipeDraft
    name: str
    serves: int | None
    lines: tuple[LineReview, ...]

    @property
    def questions(self) -> tuple[str, ...]:
        """What has to be decided before it can be taken into the book."""
        head = ("it has no name",) if not self.name.strip() else ()
        people = ("for how many it is was not said",) if self.serves is None else ()
        kept = any(line.fate in (Fate.STORED, Fate.FRESH) for line in self.lines)
        asked = (f"line {line.place}: {line.question}" for line in self.lines if line.question)
        return (*head, *people, *asked, *(() if kept else ("it has no ingredients",)))

    @property
    def lost(self) -> tuple[str, ...]:
        """What of the file could not be read, apart from what is asked anyway."""
        asked = ("name", "recipeYield")
        lost = (one.words for one in self.draft.lost if one.field not in asked)
        return (*lost, *self.lost_lines)

    @property
    def lost_lines(self) -> tuple[str, ...]:
        """Amounts that could not be read, and steps that the book cannot take whole."""
        unread = (
            f"line {line.place}: {remark}"
            for line in self.lines
            for remark in line.read.remarks
            if line.read.quantity == ""
        )
        return (*unread, *((STEPS_CUT,) if self.steps_are_cut else ()))

    @property
    def whole_steps(self) -> str:
        """The steps, and below them the lines whose words the book has no place for."""
        return "\n".join(one for one in (self.draft.steps, *kept_words(self)) if one)

    @property
    def steps_are_cut(self) -> bool:
        """Whether the steps are longer than the book takes."""
        return len(self.whole_steps) > LONGEST_STEPS

    @property
    def steps(self) -> str:
        """The steps as the book takes them: cut at the end of a line where they are too long."""
        whole = self.whole_steps
        if not self.steps_are_cut:
            return whole
        kept = whole[: LONGEST_STEPS - 2]
        return f"{kept.rpartition(chr(10))[0] or kept}\n…"

    @property
    def cooking_water_dg(self) -> int:
        """The water of all lines that become cooking water."""
        grams = (line.amount or Fraction(0) for line in self.lines if line.fate is Fate.WATER)
        return nearest_whole(sum(grams, Fraction(0)) * 10)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the reading of the file found."""
        return self.draft.findings


@dataclass(frozen=True, slots=True)
class ImportPreview:
    """A file's recipes under review, as they were proposed or as they were decided since."""

    path: str
    recipes: tuple[RecipeReview, ...]
    troubles: tuple[str, ...] = ()
    """Parts of the file that could not be read at all."""


def review_of(draft: RecipeDraft, foods: Sequence[KnownFood]) -> RecipeReview:
    """A recipe with a proposal for each of its lines."""
    lines = (
        proposed(place, read, foods, ours=draft.ours)
        for place, read in enumerate(draft.ingredients, start=1)
    )
    return RecipeReview(draft, draft.name, draft.serves, tuple(lines))


def proposed(
    place: int, read: IngredientText, foods: Sequence[KnownFood], *, ours: bool = False
) -> LineReview:
    """What a line may become. Of a file of our own, only what says it is stored is."""
    near = suggestions(read.item, (food.name for food in foods))
    line = LineReview(place, read, Fate.FRESH, read.whole_item, suggestions=near)
    written = read_written(read.text)
    if written is not None:
        return _as_written(line, written, foods)
    if ours:
        return as_fresh(line)
    if read.is_heading:
        return left_out(line)
    if is_water(read.item) and _water_grams(read) is not None:
        return as_water(line)
    best = near[0] if near and near[0].score >= ENOUGH else None
    return as_food(line, _named(best.food, foods)) if best else as_fresh(line)


def _as_written(line: LineReview, written: WrittenLine, foods: Sequence[KnownFood]) -> LineReview:
    """A line of our own writing, as it stood in the book it is from."""
    if written.is_water:
        return as_water(line, written.amount)
    if written.basis is None:
        return replace(as_fresh(line), name=written.name, amount=written.amount, unit=written.unit)
    same = [food for food in foods if food.name.casefold() == written.name.casefold()]
    near = suggestions(written.name, (food.name for food in foods))
    named = replace(
        line, name=written.name, suggestions=near, fate=Fate.STORED, basis=written.basis,
        amount=written.amount, unit=written.unit,
    )  # fmt: skip
    if not same:
        return replace(named, question="there is no food of this name here: choose one")
    return _counted_as(replace(named, name=same[0].name), written, same[0])


def _counted_as(line: LineReview, written: WrittenLine, food: KnownFood) -> LineReview:
    """A stored line that counts as it was written; a measure has to be the food's own."""
    counted = replace(line, amount=written.amount, unit=written.unit)
    if written.unit is None or _measure(food, written.unit) is not None:
        return counted
    return replace(counted, amount=None, question=_weigh(food.name, one_of(written.unit)))


def as_food(
    line: LineReview,
    food: KnownFood,
    basis: Basis | None = None,
    amount: Fraction | None = None,
) -> LineReview:
    """The line as a food of the shelves.

    Without `amount` (grams or servings, as `basis` counts) the weight in the line is taken, or a
    measure of the food; a line that has neither keeps a question.
    """
    stored = replace(
        line, fate=Fate.STORED, name=food.name, basis=basis, amount=amount, unit=None, question=""
    )
    if amount is not None:
        return replace(stored, basis=basis or _way(line.read))
    written = read_written(line.read.text)
    if written is not None and written.basis is not None and basis in (None, written.basis):
        return _counted_as(replace(stored, basis=written.basis), written, food)
    read = line.read
    way = _way(read)
    if read.weight_dg is not None and basis is not Basis.SERVINGS:
        return replace(stored, basis=basis or way, amount=Fraction(read.weight_dg, 10))
    measure = _measure(food, read.unit, way) if read.unit and basis is None else None
    if measure is not None and read.amount is not None:
        return replace(stored, basis=Basis.MEASURE, amount=read.amount, unit=measure.name)
    return replace(stored, basis=basis or way, question=_what_to_weigh(food, read, way))


def _what_to_weigh(food: KnownFood, read: IngredientText, way: Basis) -> str:
    """What to do about a line that has no weight."""
    if read.amount is None:
        return f"how much of {food.name} is not said: give a weight or servings"
    one = one_of(read.unit or "piece")
    if read.unit and _measure(food, read.unit) is not None:
        # A cup of dry food and a cup of the fresh are not the same food by a long way.
        return f"one {one} of {food.name} was weighed, but not {way}: weigh one {way}, give grams"
    return _weigh(food.name, one)


def _weigh(food: str, unit: str) -> str:
    return f"what one {unit} of {food} weighs is not known: weigh one, and give grams"


def as_fresh(line: LineReview) -> LineReview:
    """The line as something that is not on the shelves, amount and unit as they were read."""
    read = line.read
    return replace(
        line, fate=Fate.FRESH, name=_short(read), basis=None, amount=read.amount,
        unit=read.unit, question="",
    )  # fmt: skip


def _short(read: IngredientText) -> str:
    """The item with its note, or as much of it as a line of the book takes."""
    whole = read.whole_item
    if len(whole) <= LONGEST_NAME:
        return whole
    cut = whole[: LONGEST_NAME - 1].rpartition(" ")[0] or whole[: LONGEST_NAME - 1]
    return f"{cut.rstrip(' ,')}…"


def as_water(line: LineReview, grams: Fraction | None = None) -> LineReview:
    """The line as cooking water; without `grams` as much as it says, at 20 °C."""
    known = _water_grams(line.read) if grams is None else grams
    question = "" if known is not None else "how much water is not said: give its weight"
    return replace(
        line, fate=Fate.WATER, name="water", basis=None, amount=known, unit=None, question=question
    )


def left_out(line: LineReview) -> LineReview:
    """The line without a place in the book."""
    return replace(
        line, fate=Fate.LEFT_OUT, name=line.read.text, basis=None, amount=None, unit=None,
        question="",
    )  # fmt: skip


def with_line(review: RecipeReview, line: LineReview) -> RecipeReview:
    """The recipe with one of its lines decided anew."""
    lines = (line if one.place == line.place else one for one in review.lines)
    return replace(review, lines=tuple(lines))


def kept_words(review: RecipeReview) -> tuple[str, ...]:
    """Lines of the file whose words would be lost, for the steps: notes of foods and of water."""
    return tuple(
        f"In the recipe: {line.read.text}"
        for line in review.lines
        if (line.fate is Fate.STORED and line.read.note and read_written(line.read.text) is None)
        or (line.fate is Fate.LEFT_OUT and not line.read.is_heading)
        or line.is_shortened
    )


def _named(name: str, foods: Iterable[KnownFood]) -> KnownFood:
    return next(food for food in foods if food.name == name)


def _measure(food: KnownFood, unit: str, basis: Basis | None = None) -> FoodMeasure | None:
    """The food's own measure of this name, weighed fresh or dry as `basis` says."""
    named = (one for one in food.measures if same_unit(one.name, unit))
    return next((one for one in named if basis is None or one.basis == basis), None)


def _water_grams(read: IngredientText) -> Fraction | None:
    """Grams of water a line asks for; its volume weighs what water weighs."""
    if read.weight_dg is not None:
        return Fraction(read.weight_dg, 10)
    if read.volume_ml is None:
        return None
    exact = read.volume_ml * Fraction(str(water_density(WATER_AT_C))) / 1000
    return Fraction(nearest_whole(exact * 10), 10)


def _way(read: IngredientText) -> Basis:
    """How the line counts a weight: dry where it says so itself, else fresh."""
    words = read.text.casefold().replace("-", " ")
    return Basis.DRY if "freeze dried" in words else Basis.FRESH
