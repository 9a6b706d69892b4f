"""The household measures of one food: what a cup or a scoop of it weighs, by the own scale."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.cooking import Basis
from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.domain.quantities import UnitSystem, read_weight, show_weight
from stockroom.errors import BadInput
from stockroom.services.measures import list_measures, remove_measure, set_measure
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import plain, say
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.food_forms import among
from stockroom.tui.screens.package_actions import UNDO_HINT
from stockroom.tui.screens.run_forms import unit_word
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.screens.windows import open_window
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.widgets.window_table import WindowTable

NO_MEASURES = (
    "No measures yet. Press n to say what one cup or one scoop of it weighs; recipes can count"
    " in it then."
)
NEVER_WATER = "Weigh it on your scale, never reckon it from water: dry food in a cup is mostly air."
ON_SCALE = "On your scale, without the cup."

COLUMNS = (
    Column("Measure", 14, weight=1, look="main"),
    Column("Weighs", 11, align="right"),
    Column("As it was", 9, look="quiet"),
)
STATES = (
    Choice(Basis.DRY.value, "dry", "as it comes out of the package"),
    Choice(Basis.FRESH.value, "fresh", "as it was before drying"),
)


class MeasuresScreen(BaseScreen):
    """What one of each measure of a food weighs."""

    MODE = "bench"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "add", "New measure", id="measures-add", tooltip="Say what a measure weighs."),
        Binding(
            "e",
            "edit",
            "Weigh again",
            id="measures-edit",
            tooltip="Change what the measure weighs; Enter does the same.",
        ),
        Binding("d", "remove", "Remove", id="measures-remove", tooltip="Forget the measure."),
        Binding("escape", "back", "Back", id="measures-back", tooltip="Back to the foods."),
    ]
    DEFAULT_CSS = """
    MeasuresScreen {
        .heading { padding: 0 1; color: $primary; text-style: bold; }
        .about { padding: 0 1; margin-bottom: 1; color: $foreground-muted; }
    }
    """

    def __init__(self, food: str) -> None:
        """`food` is its name."""
        super().__init__()
        self.food = food
        self.measures: dict[int, FoodMeasure] = {}

    def compose_body(self) -> ComposeResult:
        """The food, how to weigh, and the list."""
        yield Static(plain(f"Measures of {self.food}"), classes="heading")
        yield Static(plain(NEVER_WATER), classes="about")
        yield ShortTable(COLUMNS, empty=NO_MEASURES, id="measures")

    @property
    def table(self) -> ShortTable:
        """The list."""
        return self.query_one("#measures", ShortTable)

    @property
    def measure(self) -> FoodMeasure | None:
        """The measure under the cursor."""
        return self.measures.get(self.table.cursor_key or 0)

    def on_mount(self) -> None:
        """Show the list."""
        self.reload()
        self.table.focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the measures again."""
        found = self.attempt(list_measures, self.stockroom, self.food)
        units = self.attempt(lambda: self.stockroom.units)
        if found is None or units is None:
            return
        self.measures = {one.measure_id: one for one in found}
        self.table.show_rows([measure_row(one, units) for one in found])
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There must be a measure to weigh again or to forget."""
        if action in ("edit", "remove"):
            return bool(self.measures)
        return super().check_action(action, parameters)

    def action_add(self) -> None:
        """Ask for a measure and what it weighs."""
        open_window(self, self._done, measure_form, self.stockroom, self.food, None)

    @on(WindowTable.RowChosen)
    def action_edit(self) -> None:
        """Ask what the measure under the cursor weighs now."""
        if self.measure:
            open_window(self, self._done, measure_form, self.stockroom, self.food, self.measure)

    def action_remove(self) -> None:
        """Forget the measure under the cursor, after asking."""
        measure = self.measure
        if measure is None:
            return

        def remove(sure: bool | None) -> None:
            room = self.stockroom
            self._done(
                self.attempt(remove_measure, room, self.food, measure.name) if sure else None
            )

        lines = [f"A recipe that counts in it waits until one is weighed again. {UNDO_HINT} it."]
        heading = f"Forget one {measure.name} of {self.food}?"
        self.app.push_screen(ConfirmScreen(heading, lines), remove)

    def _done(self, done: Done | None) -> None:
        if done:
            self.announce("food", "recipe")
            say(self.app, f"{UNDO_HINT} it.", title=done.words)

    def action_back(self) -> None:
        """Back to the foods."""
        self.app.pop_screen()


def measure_row(measure: FoodMeasure, units: UnitSystem) -> Row:
    """A measure on one line."""
    weight = show_weight(measure.weight_dg, units)
    return Row(measure.measure_id, (f"1 {measure.name}", weight, measure.basis))


def measure_form(room: Stockroom, food: str, measure: FoodMeasure | None) -> FormScreen[Done]:
    """Asks what one measure of a food weighs; `measure` is the one weighed again, else None."""
    units = room.units
    weight = show_weight(measure.weight_dg, units) if measure else ""
    state = next(one for one in STATES if measure is None or one.key == measure.basis)

    def put(answers: Answers) -> Done:
        basis = Basis(str(answers.key("basis") or state.key))
        typed = answers.text("weight")
        if measure is None:
            weight_dg = _read_weight(typed, units)
            return set_measure(room, food, answers.text("name"), weight_dg, basis=basis)
        weight_dg = measure.weight_dg if typed == weight else _read_weight(typed, units)
        return set_measure(room, food, measure.name, weight_dg, basis=basis)

    name = Field("name", "One", answers_to=("measure",), hint="Such as cup, scoop or ladle.")
    fields = (
        Picker("basis", "Of it", among(STATES), state, hint="dry or fresh"),
        Field("weight", "Weighs", weight, unit=unit_word(units), hint=ON_SCALE),
    )
    heading = f"One {measure.name} of {food}" if measure else f"A measure of {food}"
    return FormScreen(heading, fields if measure else (name, *fields), put, about=(NEVER_WATER,))


def _read_weight(typed: str, units: UnitSystem) -> int:
    """A weight above nothing, tenths of a gram. Raises BadInput."""
    weight_dg = read_weight(typed, units, "weight")
    if not weight_dg:
        raise BadInput("weight", typed, "a weight above 0")
    return weight_dg
