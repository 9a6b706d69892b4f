"""The Kitchen: the recipes, and from one of them to the sheet for so many people."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType

from stockroom.domain.quantities import read_whole
from stockroom.domain.recipe_review import ImportPreview
from stockroom.domain.records import Meal, RecipeSummary
from stockroom.services import kitchen
from stockroom.services.kitchen import MOST_PEOPLE
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import say
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.cook import CookScreen
from stockroom.tui.screens.find_line import FindLine
from stockroom.tui.screens.recipe import RecipeScreen
from stockroom.tui.screens.recipe_import import RecipeImportScreen
from stockroom.tui.screens.recipe_import_forms import FileForm
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.screens.windows import ReadScreen, open_window
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.widgets.window_table import WindowTable
from stockroom.tui.words import counted, long_day

NO_RECIPES = "No recipes yet. Press n to write one: what it takes from the shelves, and the rest."
NO_MATCH = "No recipe has these words in its name. Escape shows all of them."

COLUMNS = (
    Column("Recipe", 24, weight=1, look="main"),
    Column("Serves", 6, align="right"),
    Column("From the shelves", 16, align="right", priority=2),
    Column("Fresh", 5, align="right", priority=3),
    Column("Last cooked", 11, priority=1),
)


class KitchenScreen(BaseScreen):
    """Every recipe by name; Enter asks for how many people and shows what to take."""

    MODE = "kitchen"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "slash", "find", "Find", id="kitchen-find", tooltip="Type some letters of a recipe."
        ),
        Binding("n", "new", "New recipe", id="kitchen-new", tooltip="Write a recipe."),
        Binding("e", "edit", "Edit", id="kitchen-edit", tooltip="Change the recipe."),
        Binding(
            "d", "remove", "Remove", id="kitchen-remove", tooltip="Take the recipe out of the book."
        ),
        Binding(
            "i",
            "import",
            "Import",
            id="kitchen-import",
            tooltip="Import a recipe file: a saved page, or JSON-LD.",
        ),
        Binding(
            "p",
            "plan",
            "Menu",
            id="kitchen-plan",
            tooltip="Open the menu: some days planned from the shelves.",
        ),
        Binding("m", "meals", "Meals", id="kitchen-meals", tooltip="List the latest meals."),
        Binding(
            "escape",
            "all",
            "All recipes",
            show=False,
            id="kitchen-all",
            tooltip="Stop finding and show every recipe.",
        ),
    ]
    DEFAULT_CSS = """
    KitchenScreen {
        FindLine { margin: 1 0; }
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self.recipes: dict[int, RecipeSummary] = {}

    def compose_body(self) -> ComposeResult:
        """The line to find by, and the list."""
        yield FindLine("Find", "press / and type some letters", self.to_list)
        yield ShortTable(COLUMNS, empty=NO_RECIPES, id="recipes")

    @property
    def table(self) -> ShortTable:
        """The list."""
        return self.query_one("#recipes", ShortTable)

    @property
    def find(self) -> FindLine:
        """The line to find by."""
        return self.query_one(FindLine)

    @property
    def recipe(self) -> RecipeSummary | None:
        """The recipe under the cursor."""
        return self.recipes.get(self.table.cursor_key or 0)

    def on_mount(self) -> None:
        """Show the list."""
        self.reload()
        self.table.focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the recipes again, those that have the words that stand in the line."""
        every = self.attempt(kitchen.list_recipes, self.stockroom)
        if every is None:
            return
        words = self.find.text.casefold().split()
        found = [one for one in every if all(word in one.name.casefold() for word in words)]
        self.recipes = {one.recipe_id: one for one in found}
        self.table.empty = NO_MATCH if every else NO_RECIPES
        self.table.show_rows([recipe_row(one) for one in found])
        self.refresh_bindings()

    # Finding

    def action_find(self) -> None:
        """Type to find."""
        self.find.begin()

    def to_list(self) -> None:
        """Give the keys to the list."""
        self.set_focus(self.table)

    def action_all(self) -> None:
        """Show every recipe again."""
        self.find.input.value = ""
        self.to_list()

    @on(Field.Moved)
    def _letters(self, message: Field.Moved) -> None:
        """Show what matches; Enter takes the first match."""
        self.reload()
        if message.done and self.recipes:
            self.to_list()
            self._ask_people(next(iter(self.recipes.values())))

    # A recipe

    @on(WindowTable.RowChosen)
    def _chosen(self, message: WindowTable.RowChosen) -> None:
        """Enter on a recipe asks for how many."""
        recipe = self.recipes.get(message.key)
        if recipe is not None:
            self._ask_people(recipe)

    def _ask_people(self, recipe: RecipeSummary) -> None:
        def cook(people: int | None) -> None:
            if people is not None:
                self.app.push_screen(CookScreen(recipe.name, people))

        open_window(self, cook, people_form, self.stockroom, recipe.name)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There must be a recipe to edit or remove; Escape has something to do while finding."""
        if action in ("edit", "remove"):
            return bool(self.recipes)
        if action == "all":
            return self.find.input.has_focus or bool(self.find.text)
        return super().check_action(action, parameters)

    def action_new(self) -> None:
        """Write a recipe."""
        self.app.push_screen(RecipeScreen(None))

    def action_edit(self) -> None:
        """Change the recipe under the cursor."""
        recipe = self.recipe
        found = recipe and self.attempt(kitchen.show_recipe, self.stockroom, recipe.name)
        if found:
            self.app.push_screen(RecipeScreen(found))

    def action_remove(self) -> None:
        """Take the recipe under the cursor out of the book, after asking."""
        recipe = self.recipe
        if recipe is None:
            return

        def remove(sure: bool | None) -> None:
            done = (
                self.attempt(kitchen.remove_recipe, self.stockroom, recipe.name) if sure else None
            )
            if done:
                self.announce("recipe")
                say(self.app, "u undoes it.", title=done.words)

        lines = ["Meals cooked from it stay in the record. u undoes it."]
        self.app.push_screen(ConfirmScreen(f"Remove {recipe.name}?", lines), remove)

    def action_import(self) -> None:
        """Ask for a recipe file and show what it holds."""

        def review(preview: ImportPreview | None) -> None:
            if preview is not None:
                self.app.push_screen(RecipeImportScreen(preview))

        open_window(self, review, FileForm, self.stockroom)

    def action_plan(self) -> None:
        """Open the menu."""
        from stockroom.tui.screens.menu import MenuScreen

        self.app.push_screen(MenuScreen())

    def action_meals(self) -> None:
        """List the latest meals."""
        meals = self.attempt(kitchen.list_meals, self.stockroom)
        if meals is None:
            return
        lines = [line for meal in meals for line in meal_lines(meal, self.stockroom.today)]
        lines = lines or ["No meals yet. Open a recipe with Enter and take it with t."]
        self.app.push_screen(ReadScreen("Meals, the latest first", lines))


def recipe_row(recipe: RecipeSummary) -> Row:
    """A recipe on one line."""
    cooked = recipe.last_cooked_on.isoformat() if recipe.last_cooked_on else "never"
    foods = counted(recipe.stored, "food")
    cells = (recipe.name, str(recipe.serves), foods, str(recipe.fresh), cooked)
    return Row(recipe.recipe_id, cells)


def meal_lines(meal: Meal, today: date) -> list[str]:
    """A meal on one line; while what is left of it may be eaten, until when on the next."""
    lines = [f"{meal.on_day.isoformat()}  {meal.name} for {meal.people}"]
    care = kitchen.care_of(meal)
    if care is None or care.chilled_until < today:
        return lines
    until = f"  Chilled in time: use by the end of {long_day(care.chilled_until)}"
    return [*lines, "  Egg: eat it at once" if care.at_once else until]


def people_form(room: Stockroom, recipe: str) -> FormScreen[int]:
    """Asks for how many people to cook; the household's number stands there."""

    def read(answers: Answers) -> int:
        return read_whole(answers.text("people"), "people", 1, MOST_PEOPLE)

    people = str(room.household.people)
    field = Field("people", "People", people, restrict=DIGITS, hint="Enter shows what to take.")
    return FormScreen(f"Cook {recipe}", (field,), read)
