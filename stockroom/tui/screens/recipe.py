"""The recipe editor: written by keyboard alone, saved as one action."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import RecipeRecord
from stockroom.domain.water import show_water
from stockroom.errors import StockroomError
from stockroom.services import foods
from stockroom.services.kitchen import LineRequest
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.recipe_details import details_form, draft_texts
from stockroom.tui.screens.recipe_draft import Draft, amount_text, draft_of, held_text, save
from stockroom.tui.screens.recipe_forms import (
    fresh_form,
    head_form,
    hold_back_form,
    stored_form,
)
from stockroom.tui.screens.recipe_steps import StepsScreen
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.screens.windows import open_window
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.fields import ERROR_SIGN
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.widgets.window_table import WindowTable

NO_LINES = "No ingredients yet. Press a for a food from the shelves, i for anything else."
NO_FOODS = "Dry some first, or add foods on the Bench with f."
DROP_WARNING = "Not saved: F9 saves. Press Escape again to drop what you wrote."

COLUMNS = (
    Column("Ingredient", 16, weight=1, look="main"),
    Column("Amount", 18, align="right"),
    Column("Hold back", 9, align="right", look="quiet", priority=2),
    Column("From", 7, look="quiet", priority=1),
)


class RecipeScreen(BaseScreen):
    """One recipe being written or changed. Nothing is in the record until F9."""

    MODE = "kitchen"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f9", "save", "Save", id="recipe-save", tooltip="Write the recipe in the book."),
        Binding(
            "a", "add_stored", "Add food", id="recipe-add", tooltip="Add a food from the shelves."
        ),
        Binding(
            "i",
            "add_fresh",
            "Add fresh",
            id="recipe-fresh",
            tooltip="Add something that is not on the shelves.",
        ),
        Binding(
            "d",
            "remove_line",
            "Remove",
            id="recipe-remove",
            tooltip="Remove the ingredient under the cursor; Enter changes it.",
        ),
        Binding(
            "e",
            "head",
            "Name, water",
            id="recipe-head",
            tooltip="Change name, people it serves and cooking water.",
        ),
        Binding(
            "m",
            "details",
            "More",
            id="recipe-more",
            tooltip="Change its cooking step, its water, and what is known of its fresh items.",
        ),
        Binding("p", "steps", "Steps", id="recipe-steps", tooltip="Write the steps."),
        Binding(
            "h",
            "hold_back",
            "Hold back",
            id="recipe-hold-back",
            tooltip="Say how much of this ingredient's water is held back.",
        ),
        Binding(
            "escape",
            "back",
            "Leave",
            id="recipe-back",
            tooltip="Leave the recipe; asks once more if it is not saved.",
        ),
    ]
    DEFAULT_CSS = """
    RecipeScreen {
        .heading { padding: 0 1; color: $primary; text-style: bold; }
        .head { padding: 0 1; margin-bottom: 1; }
        #lines { height: 2fr; min-height: 4; }
        .below { height: 1fr; padding: 0 1; margin-top: 1; scrollbar-size-vertical: 1; }
        .foot { padding: 0 1; color: $warning; }
    }
    """

    def __init__(self, recipe: RecipeRecord | None) -> None:
        """`recipe` is None for a new one."""
        super().__init__()
        self.before = draft_of(recipe) if recipe else Draft()
        self.draft = self.before
        self._asked_to_drop = False

    def compose_body(self) -> ComposeResult:
        """Name and water, the ingredients, the steps, and what is wrong."""
        yield Static(classes="heading")
        yield Static(classes="head")
        yield ShortTable(COLUMNS, empty=NO_LINES, id="lines")
        with VerticalScroll(classes="below", can_focus=False):
            yield Static(id="steps")
        yield Static(classes="foot")

    @property
    def table(self) -> ShortTable:
        """The ingredients."""
        return self.query_one("#lines", ShortTable)

    @property
    def place(self) -> int | None:
        """The place of the ingredient under the cursor in the draft."""
        key = self.table.cursor_key
        return None if key is None or key > len(self.draft.lines) else key - 1

    def on_mount(self) -> None:
        """Show the draft; a new recipe begins with its name."""
        self.reload()
        self.set_focus(self.table)
        if self.draft.is_new:
            self.action_head()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Paint the draft; the record has no part in it until it is saved."""
        draft = self.draft
        units = self.attempt(lambda: self.stockroom.units) or UnitSystem.METRIC
        self.query_one(".heading", Static).update(plain(draft.name or "New recipe"))
        head = [head_text(draft), draft_texts(draft, units)] if draft.serves else []
        self.query_one(".head", Static).update(plain_lines(head))
        rows = [line_row(place, line, units) for place, line in enumerate(draft.lines, start=1)]
        self.table.show_rows(rows)
        steps = draft.steps.splitlines() or ["No steps yet: p writes them."]
        self.query_one("#steps", Static).update(plain_lines(["Steps:", *steps]))

    def _say_below(self, text: str) -> None:
        self.query_one(".foot", Static).update(plain(text))

    def _change(self, draft: Draft) -> None:
        """Go on with another draft."""
        self.draft = draft
        self._asked_to_drop = False
        self._say_below("")
        self.reload()
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There must be an ingredient to remove, and one from the shelves to hold water back of."""
        if action == "hold_back":
            return self.place is not None and bool(self.draft.lines[self.place].food)
        if action == "remove_line":
            return bool(self.draft.lines)
        return super().check_action(action, parameters)

    # The parts of the recipe

    def action_head(self) -> None:
        """Ask for name, people and cooking water."""
        open_window(self, self._headed, head_form, self.stockroom, self.draft)

    def _headed(self, draft: Draft | None) -> None:
        """A new recipe that was given no name is left again."""
        if draft is not None:
            self._change(draft)
        elif self.draft.is_new and not self.draft.name:
            self.app.pop_screen()

    def action_add_stored(self) -> None:
        """Ask for a food from the shelves."""
        if not self.attempt(foods.list_foods, self.stockroom):
            say(self.app, NO_FOODS, title="No foods yet")
            return
        open_window(self, self._added, stored_form, self.stockroom, None)

    def action_add_fresh(self) -> None:
        """Ask for something else."""
        self.app.push_screen(fresh_form(None), self._added)

    def _added(self, line: LineRequest | None) -> None:
        if line is not None:
            lines = (*self.draft.lines, line)
            self._change(replace(self.draft, lines=lines))
            self.table.go_to_key(len(lines))

    @on(WindowTable.RowChosen)
    def _edit_line(self, message: WindowTable.RowChosen) -> None:
        """Enter on an ingredient changes it."""
        place = message.key - 1
        if place >= len(self.draft.lines):
            return
        line = self.draft.lines[place]
        edited = partial(self._edited, place)
        if line.food:
            open_window(self, edited, stored_form, self.stockroom, line)
        else:
            self.app.push_screen(fresh_form(line), edited)

    def _edited(self, place: int, line: LineRequest | None) -> None:
        if line is not None:
            lines = self.draft.lines
            self._change(replace(self.draft, lines=(*lines[:place], line, *lines[place + 1 :])))

    def action_remove_line(self) -> None:
        """Remove the ingredient under the cursor."""
        place = self.place
        if place is not None:
            lines = self.draft.lines
            self._change(replace(self.draft, lines=(*lines[:place], *lines[place + 1 :])))

    @on(WindowTable.RowHighlighted)
    def _moved(self) -> None:
        """Other keys work on other ingredients."""
        self.refresh_bindings()

    def action_hold_back(self) -> None:
        """Ask how much of this ingredient's water is held back."""
        place = self.place
        if place is not None:
            form = hold_back_form(self.draft.lines[place])
            self.app.push_screen(form, partial(self._edited, place))

    def action_details(self) -> None:
        """Ask for the rest that can be said of it."""
        open_window(self, self._detailed, details_form, self.stockroom, self.draft)

    def _detailed(self, draft: Draft | None) -> None:
        if draft is not None:
            self._change(draft)

    def action_steps(self) -> None:
        """Write the steps."""
        self.app.push_screen(StepsScreen(self.draft.name, self.draft.steps), self._stepped)

    def _stepped(self, steps: str | None) -> None:
        if steps is not None:
            self._change(replace(self.draft, steps=steps.strip()))

    # Saving and leaving

    def action_save(self) -> None:
        """Write the recipe in the book; a refusal keeps what was written."""
        try:
            done = save(self.stockroom, self.draft)
        except StockroomError as error:
            self._say_below(f"{ERROR_SIGN} {error.message} {error.hint}".strip())
            return
        self.announce("recipe")
        self.app.pop_screen()
        say(self.app, "u undoes it.", title=done.words)

    def action_back(self) -> None:
        """Leave, at once if there is nothing to lose."""
        if self._asked_to_drop or self.draft == self.before:
            self.app.pop_screen()
            return
        self._asked_to_drop = True
        self._say_below(DROP_WARNING)


def head_text(draft: Draft) -> str:
    """What a recipe is for, in one line; nothing until that is said."""
    if not draft.serves:
        return ""
    water = show_water(draft.cooking_water_dg) if draft.cooking_water_dg else "none"
    return f"Serves {draft.serves} · cooking water: {water}"


def line_row(place: int, line: LineRequest, units: UnitSystem) -> Row:
    """An ingredient on one line; its key is its place, from 1."""
    source = "shelves" if line.food else "fresh"
    name = line.food or line.item or ""
    return Row(place, (name, amount_text(line, units), held_text(line), source))
