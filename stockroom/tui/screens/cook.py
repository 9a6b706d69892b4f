"""The cook sheet of one recipe for so many people, and taking it off the shelves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.domain.quantities import UnitSystem
from stockroom.domain.water import show_water
from stockroom.errors import NotFound, StockroomError
from stockroom.services import kitchen, shelves
from stockroom.services.kitchen import MOST_PEOPLE, Short
from stockroom.services.results import CookSheet, Done
from stockroom.tui.base import BaseScreen, tell
from stockroom.tui.plaintext import plain, say
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.cook_lines import Line, package_texts, raw_texts, sheet_lines
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
            "plus,equals_sign", "more(1)", "One more", id="cook-more", tooltip="Cook for one more."
        ),
        Binding("minus", "more(-1)", "One less", id="cook-less", tooltip="Cook for one less."),
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
        self.recipe = recipe
        self.people = people
        self.sheet: CookSheet | None = None

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
            self.sheet = kitchen.cook_sheet(self.stockroom, self.recipe, self.people)
            self._show(self.sheet, self.stockroom.units)
        except NotFound:
            self.app.pop_screen()
        except StockroomError as error:
            tell(self.app, error)

    def _show(self, sheet: CookSheet, units: UnitSystem) -> None:
        """Paint the sheet from one reading."""
        people = counted(self.people, "person", "people")
        head = f"{sheet.recipe.name} for {people} (the recipe serves {sheet.recipe.serves})"
        self.query_one(".heading", Static).update(plain(head))
        picks = [pick for line in sheet.plan.lines for pick in line.picks]
        ids = list(dict.fromkeys(pick.candidate.package_id for pick in picks))
        packages = {one.package_id: one for one in shelves.packages_for(self.stockroom, ids)}
        self._paint(sheet_lines(sheet, packages, units))

    def _paint(self, lines: Sequence[Line]) -> None:
        page = self.query_one("#sheet", VerticalScroll)
        page.remove_children()
        page.mount_all(_static(line) for line in lines)

    def action_more(self, people: int) -> None:
        """Cook for one more or one less."""
        wanted = self.people + people
        if 1 <= wanted <= MOST_PEOPLE:
            self.people = wanted
            self.reload()

    def action_take(self) -> None:
        """Ask before taking it; when the shelves are short, whether to take what there is."""
        if self.sheet is None:
            return
        plan = self.sheet.plan
        if plan.short and any(line.picks for line in plan.lines):
            self._ask_short(Short(plan))
            return
        picks = len({pick.candidate.code for line in plan.lines for pick in line.picks})
        lines = [
            f"Takes from {counted(picks, 'package')} and records the meal. u undoes it.",
            f"Water to add back in all: {show_water(plan.water_dg)}.",
        ]
        lines += [*raw_texts(self.sheet), *package_texts(self.sheet)]
        heading = f"Take {plan.name} for {plan.people}?"
        self.app.push_screen(ConfirmScreen(heading, lines), self._confirmed)

    def _ask_short(self, error: Short) -> None:
        """Say what is missing and ask whether to go on."""
        self.app.push_screen(
            ChoiceScreen(
                "The shelves are short",
                [error.message],
                [
                    Choice("leave", "Leave it", "cook for fewer people, or another recipe"),
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
        done = self.attempt(
            kitchen.cook_meal, self.stockroom, self.recipe, self.people, take_short=short
        )
        if done:
            self._taken(done)

    def _taken(self, done: Done) -> None:
        """Back to the recipes, and say what was done."""
        self.announce("package", "meal")
        self.app.pop_screen()
        say(self.app, "u undoes it.", title=done.words)

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


def _static(line: Line) -> Static:
    """A line as a widget, indented as a whole so that what wraps stays under it."""
    made = Static(plain(line.text), classes=f"-{line.look}")
    if line.look == "title" and not line.indent:
        made.add_class("-section")
    made.styles.padding = (0, 0, 0, line.indent)
    return made
