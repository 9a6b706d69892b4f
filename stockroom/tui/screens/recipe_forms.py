"""The forms of the recipe editor: what heads a recipe, a stored line, a fresh line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from stockroom.domain.cooking import Basis
from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.domain.quantities import (
    UnitSystem,
    grams,
    read_servings,
    read_weight,
    read_whole,
    show_weight,
    to_dg,
)
from stockroom.errors import BadInput
from stockroom.services import foods
from stockroom.services.kitchen import MOST_PEOPLE, LineRequest
from stockroom.services.measures import list_measures
from stockroom.services.names import clean_name, clean_note
from stockroom.services.session import Stockroom
from stockroom.tui.screens.cook_lines import show_amount
from stockroom.tui.screens.recipe_draft import Draft
from stockroom.tui.screens.run_forms import nearness, unit_word
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker, Search

BASES = tuple(
    Choice(basis.value, basis.value, words)
    for basis, words in (
        (Basis.SERVINGS, "by the food's own serving"),
        (Basis.FRESH, "weight as it was before drying"),
        (Basis.DRY, "weight of the dry food"),
    )
)


MEASURE = "measure:"
"""Begins the key of a choice that is a household measure; its name follows."""

BASIS_HINT = "servings, fresh, dry, or your measure"


def head_form(room: Stockroom, draft: Draft) -> FormScreen[Draft]:
    """Asks for name, serves and cooking water; closes with the draft so changed."""
    units = room.units
    water_before = show_weight(draft.cooking_water_dg, units) if draft.cooking_water_dg else ""

    def change(answers: Answers) -> Draft:
        return replace(
            draft,
            name=clean_name(answers.text("name"), "recipe name"),
            serves=read_whole(answers.text("serves"), "serves", 1, MOST_PEOPLE),
            cooking_water_dg=_read_water(answers.text("water"), water_before, draft, units),
        )

    serves = draft.serves or room.household.people
    return FormScreen(
        "New recipe" if draft.is_new else f"Edit {draft.original}",
        (
            Field("name", "Name", draft.name, answers_to=("recipe name",)),
            Field("serves", "Serves", str(serves), restrict=DIGITS, hint="People, as written."),
            Field(
                "water", "Cooking water", water_before, unit=unit_word(units),
                hint="The pot's own water, beside what the dried food takes up.",
            ),
        ),
        change,
    )  # fmt: skip


def _read_water(typed: str, before: str, draft: Draft, units: UnitSystem) -> int:
    """Cooking water; left as it stood it is not read again, so that no rounding creeps in."""
    if typed == before:
        return draft.cooking_water_dg
    return read_weight(typed, units, "cooking water") if typed.strip() else 0


def own_food_search(room: Stockroom) -> Search:
    """Finds the household's own foods by words of their name."""
    names = [food.name for food in foods.list_foods(room)]

    def search(letters: str) -> Sequence[Choice]:
        words = letters.casefold().split()
        found = [name for name in names if all(word in name.casefold() for word in words)]
        return [
            Choice(name, name) for name in sorted(found, key=lambda name: nearness(name, letters))
        ]

    return search


def stored_form(room: Stockroom, line: LineRequest | None) -> FormScreen[LineRequest]:
    """Asks for a food from the shelves, how it is counted, and how much.

    Household measures are offered where the food has any.
    """
    units, known = room.units, list_measures(room)
    before, kept = _stored_amount(line, units), _kept_basis(line)
    food = Choice(line.food, line.food) if line and line.food else None
    picker = Picker("food", "Food", own_food_search(room), food, hint="Foods you have dried.")
    counts = basis_search(known, lambda: picker.choice, kept)

    def read(answers: Answers) -> LineRequest:
        choice = answers.choice("food")
        if choice is None:
            raise BadInput("food", answers.text("food"), "some letters and take one of the list")
        chosen = answers.choice("basis") or kept
        _check_measure(chosen, counts(""))
        typed = answers.text("amount")
        if line and line.amount and (typed, chosen.key) == (before, kept.key):
            return replace(line, food=str(choice.key))
        basis, unit = _basis_of(chosen)
        amount = _read_stored(typed, basis, units)
        held = line.hold_back_percent if line else None
        return LineRequest(str(choice.key), basis, None, amount, unit, held)

    return FormScreen(
        "From the shelves",
        (
            picker,
            Picker("basis", "Counted in", counts, kept, hint=BASIS_HINT),
            Field("amount", "Amount", before, hint="For all it serves."),
        ),
        read,
    )


def basis_search(
    known: Sequence[FoodMeasure], food: Callable[[], Choice | None], kept: Choice
) -> Search:
    """Finds a way to count: servings, fresh, dry, or a measure of the food that is picked.

    `kept` is how the line counted before: a measure stays, though its weight is off the record.
    """

    def search(letters: str) -> Sequence[Choice]:
        picked = food()
        mine = [one for one in known if picked is not None and one.food == picked.key]
        measures = [
            Choice(MEASURE + one.name, one.name, f"your measure, {grams(one.weight_dg):.1f} g each")
            for one in mine
        ]
        every = [*BASES, *measures]
        if kept.key not in {one.key for one in every}:
            every.append(kept)
        wanted = letters.strip().casefold()
        return [one for one in every if one.label.casefold().startswith(wanted)]

    return search


def _kept_basis(line: LineRequest | None) -> Choice:
    """How a line counts now; a new one in servings."""
    if line is not None and line.basis is Basis.MEASURE:
        return Choice(MEASURE + (line.unit or ""), line.unit or "", "as it was")
    return next(one for one in BASES if line is None or one.key == line.basis)


def _basis_of(choice: Choice) -> tuple[Basis, str | None]:
    """The basis of a choice, and the measure's name where it is one."""
    key = str(choice.key)
    if key.startswith(MEASURE):
        return Basis.MEASURE, key.removeprefix(MEASURE)
    return Basis(key), None


def _check_measure(chosen: Choice, offered: Sequence[Choice]) -> None:
    """A measure belongs to its food: after another food was picked it is none. Raises BadInput."""
    if chosen.key not in {one.key for one in offered}:
        names = ", ".join(one.label for one in offered)
        raise BadInput("basis", chosen.label, f"one of {names}")


def hold_back_form(line: LineRequest) -> FormScreen[LineRequest]:
    """Asks how much of one food's water is held back; closes with the line so changed."""

    def read(answers: Answers) -> LineRequest:
        typed = answers.text("held").strip()
        return replace(
            line, hold_back_percent=read_whole(typed, "hold back", 0, 100) if typed else None
        )

    before = "" if line.hold_back_percent is None else str(line.hold_back_percent)
    field = Field(
        "held", "Hold back", before, unit="%", restrict=DIGITS, answers_to=("water held back",),
        hint="Of its water, until it was tasted; empty: as the recipe says.",
    )  # fmt: skip
    return FormScreen(f"Water for {line.food}", (field,), read)


def _read_stored(typed: str, basis: Basis, units: UnitSystem) -> Fraction:
    """Servings or measures, or grams. Raises BadInput."""
    if basis is Basis.SERVINGS:
        return read_servings(typed, "amount")
    if basis is Basis.MEASURE:
        return _read_fresh(typed)
    weight_dg = read_weight(typed, units, "amount")
    if not weight_dg:
        raise BadInput("amount", typed, "a weight above 0")
    return Fraction(weight_dg, 10)


def _stored_amount(line: LineRequest | None, units: UnitSystem) -> str:
    """The amount as it would be typed."""
    if line is None or line.amount is None:
        return ""
    if line.basis in (Basis.SERVINGS, Basis.MEASURE):
        return show_amount(line.amount)
    return show_weight(to_dg(line.amount), units)


def fresh_form(line: LineRequest | None) -> FormScreen[LineRequest]:
    """Asks for something that is not on the shelves."""

    def read(answers: Answers) -> LineRequest:
        typed = answers.text("amount").strip()
        return LineRequest(
            item=clean_name(answers.text("ingredient"), "ingredient"),
            amount=_read_fresh(typed) if typed else None,
            unit=clean_note(answers.text("unit")) or None,
        )

    amount = show_amount(line.amount) if line and line.amount is not None else ""
    return FormScreen(
        "Also needed",
        (
            Field("ingredient", "What", (line.item or "") if line else ""),
            Field("amount", "Amount", amount, hint="Such as 2, 1.5 or 1 1/2; may stay empty."),
            Field(
                "unit", "Unit", (line.unit or "") if line else "", hint="Such as tbsp, g, cloves."
            ),
        ),
        read,
    )


def _read_fresh(typed: str) -> Fraction:
    """An amount above nothing. Raises BadInput."""
    try:
        return read_servings(typed, "amount")
    except BadInput as error:
        raise BadInput("amount", error.typed, "an amount such as 2, 1.5 or 1 1/2") from error
