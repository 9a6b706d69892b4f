"""The forms of the recipe editor: what heads a recipe, a stored line, a fresh line, the steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import TextArea
from textual.widgets.text_area import Edit, EditResult

from stockroom.domain.cooking import Basis
from stockroom.domain.quantities import (
    UnitSystem,
    read_servings,
    read_weight,
    read_whole,
    show_weight,
    to_dg,
)
from stockroom.errors import BadInput
from stockroom.services import foods
from stockroom.services.kitchen import MOST_PEOPLE, LineRequest
from stockroom.services.names import clean_name, clean_note
from stockroom.services.session import Stockroom
from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import clean
from stockroom.tui.screens.cook_lines import show_amount
from stockroom.tui.screens.food_forms import among
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
    """Asks for a food from the shelves, how it is counted, and how much."""
    units = room.units
    before = _stored_amount(line, units)

    def read(answers: Answers) -> LineRequest:
        food = answers.choice("food")
        if food is None:
            raise BadInput("food", answers.text("food"), "some letters and take one of the list")
        basis = Basis(str(answers.key("basis") or Basis.SERVINGS))
        typed = answers.text("amount")
        if line and line.amount and (typed, basis) == (before, line.basis):
            return replace(line, food=str(food.key))
        return LineRequest(str(food.key), basis, amount=_read_stored(typed, basis, units))

    food = Choice(line.food, line.food) if line and line.food else None
    basis = next(one for one in BASES if line is None or one.key == line.basis)
    return FormScreen(
        "From the shelves",
        (
            Picker("food", "Food", own_food_search(room), food, hint="Foods you have dried."),
            Picker("basis", "Counted in", among(BASES), basis, hint="servings, fresh or dry"),
            Field("amount", "Amount", before, hint="For all it serves."),
        ),
        read,
    )


def _read_stored(typed: str, basis: Basis, units: UnitSystem) -> Fraction:
    """Servings, or grams. Raises BadInput."""
    if basis is Basis.SERVINGS:
        return read_servings(typed, "amount")
    weight_dg = read_weight(typed, units, "amount")
    if not weight_dg:
        raise BadInput("amount", typed, "a weight above 0")
    return Fraction(weight_dg, 10)


def _stored_amount(line: LineRequest | None, units: UnitSystem) -> str:
    """The amount as it would be typed."""
    if line is None or line.amount is None:
        return ""
    if line.basis is Basis.SERVINGS:
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


class PlainArea(TextArea):
    """Several lines of text that take no control characters, typed or pasted."""

    def edit(self, edit: Edit) -> EditResult:
        """Make what comes in visible, line by line."""
        edit.text = "\n".join(clean(line) for line in edit.text.splitlines() or [""]) + (
            "\n" if edit.text.endswith("\n") else ""
        )
        return super().edit(edit)


class StepsScreen(BaseModal[str]):
    """The steps of a recipe, as many lines as wanted; closes with the text."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f9", "done", "Done", id="steps-done", tooltip="Keep the steps."),
        Binding("escape", "leave", "Leave", id="steps-leave", tooltip="Drop the changes."),
    ]
    DEFAULT_CSS = """
    StepsScreen {
        & > .box { width: 76; }
        TextArea, TextArea:focus { height: 12; border: none; padding: 0 1; background: $panel; }
    }
    """

    def __init__(self, recipe: str, steps: str) -> None:
        super().__init__(f"Steps of {recipe}" if recipe else "Steps")
        self.steps = steps

    def compose_inside(self) -> ComposeResult:
        """The text."""
        area = PlainArea(
            self.steps, soft_wrap=True, tab_behavior="focus", highlight_cursor_line=False
        )
        area.cursor_blink = False
        yield area

    def on_mount(self) -> None:
        """Begin to write."""
        self.query_one(PlainArea).focus()

    def action_done(self) -> None:
        """Close with the text."""
        self.dismiss(self.query_one(PlainArea).text)
