"""The household's foods: what they count as, how they were prepared, what is in them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.foods import Allergen
from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import Food
from stockroom.services import foods
from stockroom.services.measures import list_measures
from stockroom.services.results import Done
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import plain, say
from stockroom.tui.screens.food_forms import add_form, edit_form
from stockroom.tui.screens.labels import allergen_words
from stockroom.tui.screens.measures import MeasuresScreen
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.screens.windows import open_window
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.widgets.window_table import WindowTable

NO_FOODS = (
    "No foods of your own yet. Loading a tray takes a food over from the table;"
    " press n to add one that is not in it."
)
UNKNOWN = "not said"

COLUMNS = (
    Column("Food", 14, weight=2, look="main"),
    Column("Keeps as", 12, priority=3),
    Column("Prepared", 8, look="tone"),
    Column("Serving", 11, align="right", priority=1),
    Column("Allergens", 10, weight=1, priority=2),
)


class FoodsScreen(BaseScreen):
    """The foods this household dries."""

    MODE = "bench"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "add", "New food", id="foods-add", tooltip="Add a food of your own."),
        Binding(
            "e",
            "edit",
            "Edit",
            id="foods-edit",
            tooltip="Change name, preparation, serving, allergens or note; Enter does the same.",
        ),
        Binding(
            "m",
            "measures",
            "Measures",
            id="foods-measures",
            tooltip="Say what a cup or a scoop of the food weighs, so that recipes count in it.",
        ),
        Binding("escape", "back", "Back", id="foods-back", tooltip="Back to the Bench."),
    ]
    DEFAULT_CSS = """
    FoodsScreen {
        .heading { padding: 0 1; color: $primary; text-style: bold; }
        #about-food {
            height: auto;
            min-height: 2;
            padding: 0 1;
            border-top: solid $border-blurred;
        }
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self.foods: dict[int, Food] = {}
        self.units = UnitSystem.METRIC
        self.measures: tuple[FoodMeasure, ...] = ()

    def compose_body(self) -> ComposeResult:
        """The list, and all about the food under the cursor."""
        yield Static("Foods of this household", classes="heading")
        yield ShortTable(COLUMNS, empty=NO_FOODS, id="foods")
        yield Static(id="about-food")

    @property
    def table(self) -> ShortTable:
        """The list."""
        return self.query_one("#foods", ShortTable)

    @property
    def food(self) -> Food | None:
        """The food under the cursor."""
        return self.foods.get(self.table.cursor_key or 0)

    def on_mount(self) -> None:
        """Show the list."""
        self.reload()
        self.table.focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the foods again."""
        found = self.attempt(foods.list_foods, self.stockroom)
        units = self.attempt(lambda: self.stockroom.units)
        if found is None or units is None:
            return
        self.units = units
        self.foods = {food.food_id: food for food in found}
        self.measures = self.attempt(list_measures, self.stockroom) or ()
        self.table.show_rows([food_row(food, self.units) for food in found])
        self._describe()
        self.refresh_bindings()

    @on(WindowTable.RowHighlighted)
    def _describe(self) -> None:
        """Say all about the food under the cursor."""
        food = self.food
        text = food_text(food, self.units, self.measures) if food else ""
        self.query_one("#about-food", Static).update(plain(text))

    def action_add(self) -> None:
        """Ask what the new food is."""
        open_window(self, self._done, add_form, self.stockroom)

    @on(WindowTable.RowChosen)
    def action_edit(self) -> None:
        """Ask what is to be changed about the food under the cursor."""
        food = self.food
        if food:
            open_window(self, self._done, edit_form, self.stockroom, food)

    def _done(self, done: Done | None) -> None:
        if done:
            self.announce("food")
            say(self.app, done.words)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There must be a food to edit or to measure."""
        if action in ("edit", "measures"):
            return bool(self.foods)
        return super().check_action(action, parameters)

    def action_measures(self) -> None:
        """Show the measures of the food under the cursor."""
        food = self.food
        if food:
            self.app.push_screen(MeasuresScreen(food.name))

    def action_back(self) -> None:
        """Back to the Bench."""
        self.app.pop_screen()


def food_row(food: Food, units: UnitSystem) -> Row:
    """A food on one line."""
    allergens = ", ".join(Allergen(one).words for one in food.allergens)
    unknown = "to check" if food.ingredients_unknown else "none"
    tone: Tone = "due" if food.preparation == "raw" else ""
    cells = (
        food.name,
        food.food_class.replace("_", " "),
        food.preparation,
        show_weight(food.serving_dg, units),
        allergens or unknown,
    )
    return Row(food.food_id, cells, tone)


def food_text(food: Food, units: UnitSystem, measures: Sequence[FoodMeasure] = ()) -> str:
    """All about a food; of `measures`, which are those of all foods, its own."""
    water = UNKNOWN if food.water_cg is None else f"{food.water_cg / 100:.1f} %"
    parts = [
        food.name,
        f"keeps as {food.food_class.replace('_', ' ')}",
        food.preparation,
        f"serving {show_weight(food.serving_dg, units)} with its water",
        f"water as loaded {water}",
        allergen_words(food) or "no allergens named",
        *(
            f"1 {one.name} is {show_weight(one.weight_dg, units)} {one.basis}"
            for one in measures
            if one.food_id == food.food_id
        ),
    ]
    return " · ".join([*parts, *([food.note] if food.note else [])])
