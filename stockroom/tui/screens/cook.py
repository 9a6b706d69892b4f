"""The cook sheet of one recipe for so many people, and taking it off the shelves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.domain.quantities import UnitSystem
from stockroom.domain.water import show_water
from stockroom.errors import NotFound, StockroomError
from stockroom.services import shelves
from stockroom.services.kitchen import Short
from stockroom.services.results import CookSheet, Done
from stockroom.tui.base import BaseScreen, tell
from stockroom.tui.plaintext import plain, say
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.cook_care import care_page
from stockroom.tui.screens.cook_forms import ServingsAnswer, heat_form, servings_form
from stockroom.tui.screens.cook_instead import InsteadScreen, Swap, offers
from stockroom.tui.screens.cook_lines import (
    egg_texts,
    package_texts,
    raw_texts,
    sheet_lines,
    show_amount,
)
from stockroom.tui.screens.cook_look import Line
from stockroom.tui.screens.cook_order import Order, Reading, read_sheet, stand_ins, take
from stockroom.tui.screens.windows import ChoiceScreen
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.widgets.picker import Choice
from stockroom.tui.words import counted

TAKE = "take"


class CookScreen(BaseScreen):
    """What to fetch, how much water, what to bear in mind; `t` takes it all in one action."""

    MODE = "kitchen"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "t",
            "take",
            "Take it",
            id="cook-take",
            tooltip="Take the packages off the shelves and record the meal, after asking.",
        ),
        Binding(
            "c",
            "heat",
            "Cooked to",
            id="cook-heat",
            tooltip="Say what its raw food is cooked to this once.",
        ),
        Binding(
            "i",
            "instead",
            "Instead",
            id="cook-instead",
            tooltip="Show what could stand in for a food that is short, or take that back.",
        ),
        Binding(
            "f",
            "whole",
            "Take whole",
            id="cook-whole",
            tooltip="Take packages whole where little would stay in them; again takes it back.",
        ),
        Binding(
            "plus,equals_sign", "more(1)", "One more", id="cook-more", tooltip="Cook for one more."
        ),
        Binding("minus", "more(-1)", "One less", id="cook-less", tooltip="Cook for one less."),
        Binding("s", "servings", "Servings", id="cook-servings", tooltip="Type how many servings."),
        working_binding("cook", "Show how each water was reached."),
        Binding("escape", "back", "Back", id="cook-back", tooltip="Back to the recipes."),
    ]
    DEFAULT_CSS = """
    CookScreen {
        .heading { padding: 0 1; color: $primary; text-style: bold; }
        #sheet { padding: 0 1; scrollbar-size-vertical: 1; }
        #sheet Static.-title { color: $accent; text-style: bold; }
        #sheet Static.-section { margin-top: 1; }
        #sheet Static.-quiet { color: $foreground-muted; }
        #sheet Static.-caution { color: $warning; }
        #sheet Static.-alarm { color: $error; text-style: bold; }
    }
    """

    def __init__(self, recipe: str, people: int) -> None:
        """`recipe` is its name."""
        super().__init__()
        self.order = Order(recipe, people)
        self.reading: Reading | None = None

    @property
    def sheet(self) -> CookSheet | None:
        """The sheet in view; None where it could not be worked out."""
        return self.reading.sheet if self.reading else None

    def compose_body(self) -> ComposeResult:
        """The heading, and the sheet that scrolls."""
        yield Static(classes="heading")
        yield VerticalScroll(id="sheet")

    def on_mount(self) -> None:
        """Show the sheet."""
        self.reload()
        self.query_one("#sheet").focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Work the sheet out again; a recipe that is gone has none."""
        try:
            self.reading = read_sheet(self.stockroom, self.order)
            self._show(self.reading, self.stockroom.units)
        except NotFound:
            self.app.pop_screen()
        except StockroomError as error:
            self._show_trouble(error)

    def _show_trouble(self, error: StockroomError) -> None:
        """Say in the sheet's place why there is none."""
        self.reading = None
        self.query_one(".heading", Static).update(plain(self.order.recipe))
        self._paint([Line(f"! {error.message}", "alarm"), Line(error.hint)])
        self.refresh_bindings()
        tell(self.app, error)

    def _show(self, reading: Reading, units: UnitSystem) -> None:
        """Paint the sheet from one reading."""
        sheet = reading.sheet
        self.query_one(".heading", Static).update(plain(heading_text(sheet)))
        ids = list(dict.fromkeys(pick.candidate.package_id for pick in sheet.plan.picks))
        packages = {one.package_id: one for one in shelves.packages_for(self.stockroom, ids)}
        self._paint(sheet_lines(reading, packages, units, whole=self.order.whole))
        self.refresh_bindings()

    def _paint(self, lines: Sequence[Line]) -> None:
        page = self.query_one("#sheet", VerticalScroll)
        page.remove_children()
        page.mount_all(_static(line) for line in lines)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A key has something to do: raw food, what is short, a package to take whole."""
        reading, order = self.reading, self.order
        if action in ("take", "working", "servings"):
            return reading is not None
        if action == "heat":
            return reading is not None and bool(reading.sheet.raw.foods)
        if action == "instead":
            return reading is not None and bool(reading.sheet.plan.short or order.swaps)
        if action == "whole":
            return reading is not None and bool(reading.wholes)
        return super().check_action(action, parameters)

    # How much, and of what

    def _change(self, order: Order) -> None:
        """Go on with the order so changed."""
        if order != self.order:
            self.order = order
            self.reload()

    def action_more(self, count: int) -> None:
        """Cook for one more or one less."""
        self._change(self.order.more(count))

    def action_servings(self) -> None:
        """Ask for the servings."""
        if self.sheet is None:
            return

        def changed(answer: ServingsAnswer | None) -> None:
            if answer is not None:
                self._change(replace(self.order, servings=answer.servings))

        self.app.push_screen(servings_form(self.order, self.sheet.recipe.serves), changed)

    def action_whole(self) -> None:
        """Take packages whole where little would stay, or take that back."""
        self._change(replace(self.order, whole=not self.order.whole))

    def action_heat(self) -> None:
        """Ask what the raw food is cooked to."""
        units = self.attempt(lambda: self.stockroom.units)
        if self.sheet is None or units is None:
            return

        def changed(cook_to_dc: int | None) -> None:
            if cook_to_dc is not None:
                self._change(replace(self.order, cook_to_dc=cook_to_dc))

        self.app.push_screen(heat_form(self.order, self.sheet.raw, units), changed)

    def action_instead(self) -> None:
        """Show what could stand in for what is short."""
        found = self.attempt(stand_ins, self.stockroom, self.order)
        units = self.attempt(lambda: self.stockroom.units)
        if self.sheet is None or found is None or units is None:
            return
        shown = offers(self.sheet, self.order, found, units)
        self.app.push_screen(InsteadScreen(self.order.recipe, shown), self._swapped)

    def _swapped(self, swap: Swap | None) -> None:
        if swap is not None:
            self._change(self.order.swapped(swap.food_id, swap.other_id))

    # Taking it

    def action_take(self) -> None:
        """Ask before taking it: what raw food is cooked to, then about what is short."""
        if self.sheet is None:
            return
        plan = self.sheet.plan
        if not self.sheet.raw.passed:
            self.action_heat()
        elif plan.short and plan.picks:
            self._ask_short(self.sheet, Short(plan))
        else:
            self._ask(self.sheet)

    def _ask(self, sheet: CookSheet) -> None:
        """Say what would be taken, and what to bear in mind."""
        plan = sheet.plan
        picks = len({pick.candidate.code for pick in plan.picks})
        water = show_water(plan.water_dg, sheet.way.at_c, sheet.way.cup)
        lines = [
            f"Takes from {counted(picks, 'package')} and records the meal. u undoes it.",
            f"Water to add back in all: {water}.",
            *self._warnings(sheet),
        ]
        self.app.push_screen(
            ConfirmScreen(f"Take {plan.name} for {plan.people}?", lines), self._confirmed
        )

    def _warnings(self, sheet: CookSheet) -> list[str]:
        """What has to be seen at the moment it is taken."""
        units = self.attempt(lambda: self.stockroom.units) or UnitSystem.METRIC
        return [*raw_texts(sheet, units), *egg_texts(sheet), *package_texts(sheet)]

    def _ask_short(self, sheet: CookSheet, error: Short) -> None:
        """Say what is missing and ask whether to go on."""
        self.app.push_screen(
            ChoiceScreen(
                "The shelves are short",
                [error.message, *self._warnings(sheet)],
                [
                    Choice("leave", "Leave it", "cook for fewer, or i shows what could stand in"),
                    Choice(TAKE, "Take what there is", "the meal is recorded so"),
                ],
            ),
            self._short_answered,
        )

    def _short_answered(self, answer: str | None) -> None:
        if answer == TAKE:
            self._take(short=True)

    def _confirmed(self, sure: bool | None) -> None:
        if sure:
            self._take(short=False)

    def _take(self, *, short: bool) -> None:
        """Take it off the shelves, all in one action."""
        done = self.attempt(take, self.stockroom, self.order, short=short)
        if done:
            self._taken(done)

    def _taken(self, done: Done) -> None:
        """Back to the recipes; say what was done, and how long the dish may stand and keep."""
        self.announce("package", "meal")
        self.app.pop_screen()
        say(self.app, "u undoes it.", title=done.words)
        if done.care is not None:
            self.app.push_screen(care_page(f"Taken: {self.order.recipe}", done.care))

    def action_working(self) -> None:
        """Show how the water of each food was reached."""
        from stockroom.services.workings import cook_working

        if self.sheet is not None:
            plan = self.sheet.plan
            heading = f"Working: {plan.name} for {plan.people}"
            open_working(self, heading, cook_working, self.stockroom, self.sheet)

    def action_back(self) -> None:
        """Back to the recipes."""
        self.app.pop_screen()


def heading_text(sheet: CookSheet) -> str:
    """The dish, how much of it, and what the recipe is written for."""
    plan = sheet.plan
    people = counted(plan.people, "person", "people")
    much = people
    if plan.servings is not None:
        noun = "serving" if plan.servings == 1 else "servings"
        much = f"{people}, {show_amount(plan.servings)} {noun}"
    return f"{plan.name} for {much} (the recipe serves {sheet.recipe.serves})"


def _static(line: Line) -> Static:
    """A line as a widget, indented as a whole so that what wraps stays under it."""
    made = Static(plain(line.text), classes=f"-{line.look}")
    if line.look == "title" and not line.indent:
        made.add_class("-section")
    made.styles.padding = (0, 0, 0, line.indent)
    return made
