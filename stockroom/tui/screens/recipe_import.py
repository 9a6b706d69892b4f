"""The review of a recipe file: each line with what it becomes, until one key takes it."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.domain.quantities import UnitSystem
from stockroom.domain.recipe_review import ImportPreview, LineReview, RecipeReview, with_line
from stockroom.errors import StockroomError
from stockroom.services.recipe_files import import_recipes
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.recipe_import_forms import head_form, line_form
from stockroom.tui.screens.recipe_import_words import (
    COLUMNS,
    about_lines,
    head_text,
    heading_text,
    line_row,
)
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.screens.windows import open_window
from stockroom.tui.widgets.fields import ERROR_SIGN
from stockroom.tui.widgets.window_table import WindowTable

NO_LINES = "The file has no ingredients for it."
DROP_WARNING = "Not taken: F9 takes it into the book. Press Escape again to leave it."


class RecipeImportScreen(BaseScreen):
    """The recipes of a file, one at a time. Nothing is in the book until F9."""

    MODE = "kitchen"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f9", "take", "Take", id="import-take", tooltip="Write it in the book."),
        Binding(
            "e",
            "head",
            "Name, serves",
            id="import-head",
            tooltip="Change its name and for how many it is; Enter changes a line.",
        ),
        Binding(
            "n", "other(1)", "Next", id="import-next", tooltip="Go to the next recipe of the file."
        ),
        Binding(
            "b",
            "other(-1)",
            "Before",
            show=False,
            id="import-before",
            tooltip="Go to the recipe before it.",
        ),
        Binding(
            "x",
            "skip",
            "Skip",
            id="import-skip",
            tooltip="Leave this recipe of the file out, or take it in again.",
        ),
        Binding(
            "escape",
            "back",
            "Leave",
            id="import-back",
            tooltip="Leave the file; asks once more.",
        ),
    ]
    DEFAULT_CSS = """
    RecipeImportScreen {
        .heading { padding: 0 1; color: $primary; text-style: bold; }
        .head { padding: 0 1; margin-bottom: 1; }
        #lines { height: 2fr; min-height: 4; }
        .below { height: 1fr; padding: 0 1; margin-top: 1; scrollbar-size-vertical: 1; }
        .foot { padding: 0 1; color: $warning; }
    }
    """

    def __init__(self, preview: ImportPreview) -> None:
        """`preview` is what the file holds, as it is proposed."""
        super().__init__()
        self.preview = preview
        self.place = 0
        self.skipped: frozenset[int] = frozenset()
        self._asked_to_drop = False

    def compose_body(self) -> ComposeResult:
        """Name and people, the lines, what is to be known, and what is wrong."""
        yield Static(classes="heading")
        yield Static(classes="head")
        yield ShortTable(COLUMNS, empty=NO_LINES, id="lines")
        with VerticalScroll(classes="below", can_focus=False):
            yield Static(id="about")
        yield Static(classes="foot")

    @property
    def table(self) -> ShortTable:
        """The lines."""
        return self.query_one("#lines", ShortTable)

    @property
    def review(self) -> RecipeReview:
        """The recipe in view."""
        return self.preview.recipes[self.place]

    @property
    def line(self) -> LineReview | None:
        """The line under the cursor."""
        key = self.table.cursor_key
        return next((one for one in self.review.lines if one.place == key), None)

    def on_mount(self) -> None:
        """Show the first recipe."""
        self.reload()
        self.set_focus(self.table)

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Paint the recipe in view; the record has no part in it until it is taken."""
        review, count = self.review, len(self.preview.recipes)
        units = self.attempt(lambda: self.stockroom.units) or UnitSystem.METRIC
        heading = heading_text(review, self.place + 1, count, skipped=self.place in self.skipped)
        self.query_one(".heading", Static).update(plain(heading))
        self.query_one(".head", Static).update(plain(head_text(review)))
        self.table.show_rows([line_row(line, units) for line in review.lines])
        self._show_about()
        self.refresh_bindings()

    def _show_about(self) -> None:
        """What is to be known of the line under the cursor and of the recipe."""
        self.query_one("#about", Static).update(plain_lines(about_lines(self.review, self.line)))

    @on(WindowTable.RowHighlighted)
    def _moved(self) -> None:
        self._show_about()

    def _say_below(self, text: str) -> None:
        self.query_one(".foot", Static).update(plain(text))

    def _change(self, review: RecipeReview | None) -> None:
        """Go on with the recipe in view so changed."""
        if review is None:
            return
        recipes = list(self.preview.recipes)
        recipes[self.place] = review
        self.preview = replace(self.preview, recipes=tuple(recipes))
        self._asked_to_drop = False
        self._say_below("")
        self.reload()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Of a single recipe there is no other to go to, and none to skip."""
        if action in ("other", "skip"):
            return len(self.preview.recipes) > 1
        return super().check_action(action, parameters)

    # Deciding

    @on(WindowTable.RowChosen)
    def _edit_line(self, message: WindowTable.RowChosen) -> None:
        """Enter on a line asks what it becomes."""
        line = next((one for one in self.review.lines if one.place == message.key), None)
        if line is not None:
            open_window(self, self._edited, line_form, self.stockroom, line)

    def _edited(self, line: LineReview | None) -> None:
        if line is not None:
            self._change(with_line(self.review, line))

    def action_head(self) -> None:
        """Ask for name and people."""
        open_window(self, self._change, head_form, self.stockroom, self.review)

    def action_other(self, step: int) -> None:
        """Show another recipe of the file."""
        self._show(self.place + step)

    def _show(self, place: int) -> None:
        self.place = place % len(self.preview.recipes)
        self._say_below("")
        self.reload()
        if self.review.lines:
            self.table.go_to_key(1)

    def action_skip(self) -> None:
        """Leave the recipe in view out, or take it in again."""
        self.skipped = self.skipped ^ {self.place}
        self._asked_to_drop = False
        self._say_below("")
        self.reload()

    # Taking and leaving

    def action_take(self) -> None:
        """Write the recipes that are not skipped in the book, all or none."""
        chosen = [
            (place, one)
            for place, one in enumerate(self.preview.recipes)
            if place not in self.skipped
        ]
        undecided = next((place for place, one in chosen if one.questions), None)
        if undecided is not None:
            self._show_open(undecided)
            return
        try:
            done = import_recipes(self.stockroom, [one for _, one in chosen])
        except StockroomError as error:
            self._say_below(f"{ERROR_SIGN} {error.message} {error.hint}".strip())
            return
        self.announce("recipe")
        self.app.pop_screen()
        say(self.app, "u undoes it.", title=done.words)

    def _show_open(self, place: int) -> None:
        """Show a recipe that is not decided, with the cursor on its first open line."""
        self._show(place)
        asked = next((line.place for line in self.review.lines if line.question), None)
        if asked is not None:
            self.table.go_to_key(asked)
        self._say_below(f"{ERROR_SIGN} To be decided first: {self.review.questions[0]}.")

    def action_back(self) -> None:
        """Leave, after asking once: what was decided is nowhere else."""
        if self._asked_to_drop:
            self.app.pop_screen()
            return
        self._asked_to_drop = True
        self._say_below(DROP_WARNING)
