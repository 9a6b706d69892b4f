"""The people who eat from the stockroom: their need for a day, what they must not get."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.household_need import HouseholdNeed, MemberNeed
from stockroom.services.people import (
    household_need,
    member_cautions,
    need_working,
    remove_member,
)
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.package_actions import UNDO_HINT
from stockroom.tui.screens.people_forms import (
    add_person_form,
    change_person_form,
    dislikes_form,
)
from stockroom.tui.screens.people_words import (
    CARE,
    COLUMNS,
    NOBODY,
    member_lines,
    member_row,
    summary,
    total_lines,
)
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.screens.windows import ReadScreen, open_window
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.widgets.title_bar import TitleBar
from stockroom.tui.widgets.window_table import WindowTable


class PeopleScreen(BaseScreen):
    """Everybody who is listed, with the total of the household."""

    BINDING_GROUP_TITLE = "Among the people"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "add", "New person", id="people-add", tooltip="Add a person."),
        Binding(
            "e",
            "edit",
            "Change",
            id="people-edit",
            tooltip="Change name, age, size, activity or allergens; Enter does the same.",
        ),
        Binding(
            "d",
            "dislikes",
            "Dislikes",
            id="people-dislikes",
            tooltip="Add a food they would rather not eat, or take one off.",
        ),
        Binding(
            "r", "remove", "Remove", id="people-remove", tooltip="Take the person off the list."
        ),
        working_binding("people", "Show how the need of all was reached."),
        Binding(
            "exclamation_mark",
            "cautions",
            "Cautions",
            show=False,
            id="people-cautions",
            tooltip="What to bear in mind with these figures, with its sources.",
        ),
        Binding("escape", "back", "Back", id="people-back", tooltip="Back to the screen before."),
    ]
    DEFAULT_CSS = """
    PeopleScreen {
        .heading { height: 1; padding: 0 1; background: $surface; text-style: bold; }
        #total { height: auto; padding: 0 1; background: $surface; color: $foreground-muted; }
        #about-person { height: auto; max-height: 7; padding: 0 1; background: $surface; }
        #care { height: auto; padding: 0 1; background: $surface; color: $warning; }
    }
    """

    def __init__(self, mode: str) -> None:
        """`mode` is the main screen it was opened from, and goes back to."""
        super().__init__()
        self.from_mode = mode
        self.need: HouseholdNeed | None = None
        self.table = ShortTable(COLUMNS, empty=NOBODY, id="people")

    @property
    def room(self) -> Stockroom:
        """The open stockroom."""
        room: Stockroom = self.stockroom
        return room

    @property
    def person(self) -> MemberNeed | None:
        """The person under the cursor."""
        found = self.need.members if self.need else ()
        key = self.table.cursor_key
        return next((one for one in found if one.member.member_id == key), None)

    def compose_body(self) -> ComposeResult:
        """The total, the list, all about the person under the cursor, and what to bear in mind."""
        yield Static("People", classes="heading")
        yield Static(id="total")
        yield self.table
        yield Static(id="about-person")
        yield Static(plain(CARE), id="care")

    def on_mount(self) -> None:
        """Show the people."""
        self.query_one(TitleBar).here = self.from_mode
        self.reload()
        self.table.focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the people again; the cursor keeps to its person."""
        need = self.attempt(household_need, self.room)
        if need is None:
            return
        self.need = need
        self.query_one(".heading", Static).update(plain(f"People · {summary(need)}"))
        lines = total_lines(need)
        total = self.query_one("#total", Static)
        total.display = bool(lines)
        total.update(plain_lines(lines))
        self.table.show_rows([member_row(one) for one in need.members])
        self._describe()

    @on(WindowTable.RowHighlighted)
    def _describe(self) -> None:
        """Say all about the person under the cursor."""
        one = self.person
        units = self.attempt(lambda: self.room.units)
        about = self.query_one("#about-person", Static)
        about.display = one is not None
        about.update(plain_lines(member_lines(one, units) if one and units else []))
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys for a person need one under the cursor."""
        if action in ("edit", "dislikes", "remove"):
            return self.person is not None
        return super().check_action(action, parameters)

    # Actions

    def action_add(self) -> None:
        """Ask who the new person is."""
        open_window(self, self._told, add_person_form, self.room)

    @on(WindowTable.RowChosen)
    def action_edit(self) -> None:
        """Ask what is to be changed about the person under the cursor."""
        one = self.person
        if one:
            open_window(self, self._told, change_person_form, self.room, one.member, one.age_years)

    def action_dislikes(self) -> None:
        """Ask which food the person under the cursor would rather not eat."""
        if self.person:
            open_window(self, self._told, dislikes_form, self.room, self.person.member)

    def action_remove(self) -> None:
        """Take the person under the cursor off the list."""
        if self.person:
            self._told(self.attempt(remove_member, self.room, self.person.member.name))

    def action_working(self) -> None:
        """Show how the need of all was reached."""
        open_working(self, "The need of the household for a day", need_working, self.room)

    def action_cautions(self) -> None:
        """Show what is to be borne in mind."""
        self.app.push_screen(ReadScreen("With these figures", (CARE,), member_cautions()))

    def _told(self, done: Done | None) -> None:
        if done is not None:
            say(self.app, f"{done.words} · {UNDO_HINT}")
            self.announce("person")

    def action_go(self, mode: str) -> None:
        """Show another main screen; the one it was opened from lies beneath."""
        if mode == self.from_mode:
            self.action_back()
        else:
            super().action_go(mode)

    def action_back(self) -> None:
        """Back to the screen before."""
        self.dismiss()
