"""Upkeep: the machine's checks on one page, leak tests, and where to look for a lost vacuum."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.leak_working import leak_working
from stockroom.domain.machine_cautions import cautions_beside, machine_cautions
from stockroom.domain.upkeep import UpkeepItem
from stockroom.services.results import Done, UpkeepPage
from stockroom.services.session import Stockroom
from stockroom.services.upkeep import check_page, record_check, upkeep_page
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.package_actions import UNDO_HINT
from stockroom.tui.screens.sections import SectionTable
from stockroom.tui.screens.upkeep_forms import (
    TestDone,
    fault_form,
    interval_form,
    leak_test_form,
)
from stockroom.tui.screens.upkeep_words import (
    COLUMNS,
    about_lines,
    care_lines,
    check_lines,
    fault_lines,
    leak_lines,
    row_keys,
    sections_of,
    summary,
)
from stockroom.tui.screens.windows import ReadScreen, open_window
from stockroom.tui.screens.working import WorkingScreen
from stockroom.tui.widgets.window_table import WindowTable

TASK_OF_TESTS = "leak"
"""The check whose page lists the leak tests."""


class UpkeepScreen(BaseScreen):
    """What the machine wants: one key records a check in order, another a fault."""

    MODE = "upkeep"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "o",
            "in_order",
            "In order",
            id="upkeep-in-order",
            tooltip="Record the check as done today, in order.",
        ),
        Binding(
            "f", "fault", "Fault", id="upkeep-fault", tooltip="Record what is wrong with the part."
        ),
        Binding(
            "l",
            "leak_test",
            "Leak test",
            id="upkeep-leak-test",
            tooltip="Record a pressure-rise test of the closed chamber.",
        ),
        Binding(
            "v",
            "no_vacuum",
            "No vacuum",
            id="upkeep-no-vacuum",
            tooltip="Where to look when the vacuum is not reached, step by step.",
        ),
        Binding(
            "i",
            "interval",
            "How often",
            id="upkeep-interval",
            tooltip="Set how often the check is wanted on this machine.",
        ),
        Binding(
            "w",
            "working",
            "Working",
            show=False,
            id="upkeep-working",
            tooltip="Show how the latest leak rate was reached.",
        ),
        Binding(
            "exclamation_mark",
            "cautions",
            "Cautions",
            id="upkeep-cautions",
            tooltip="What to bear in mind at the machine, with its sources.",
        ),
    ]
    DEFAULT_CSS = """
    UpkeepScreen {
        #summary { height: 1; padding: 0 1; background: $surface; }
        #summary.-done { color: $success; }
        #about { height: auto; padding: 0 1; background: $surface; }
        #care { height: auto; padding: 0 1; background: $surface; color: $warning; }
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self.page: UpkeepPage | None = None
        self.items: dict[int, UpkeepItem] = {}
        self.table = SectionTable(COLUMNS, id="checks")
        self._said = ""
        """What was just recorded; stands in place of the summary until something else is done."""

    @property
    def room(self) -> Stockroom:
        """The open stockroom."""
        room: Stockroom = self.stockroom
        return room

    @property
    def item(self) -> UpkeepItem | None:
        """The check under the cursor."""
        key = self.table.cursor_key
        return None if key is None else self.items.get(key)

    def compose_body(self) -> ComposeResult:
        """What wants doing in one line, the checks, and all about the one under the cursor."""
        yield Static(id="summary")
        yield self.table
        yield Static(id="about")
        yield Static(id="care")

    def on_mount(self) -> None:
        """Show the checks."""
        self.reload()
        self.table.focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the page again; the cursor keeps to its check."""
        if not what:
            # Not an action of our own: an undo, another program, or another day.
            self._said = ""
        page = self.attempt(upkeep_page, self.room)
        if page is None:
            return
        self.page = page
        keys = row_keys(page)
        self.items = {keys[item.check.key]: item for item in page.items}
        self.table.show_sections(sections_of(page, keys), empty="")
        self._show_summary()
        self._show_about()

    def _show_summary(self) -> None:
        line = self.query_one("#summary", Static)
        line.set_class(bool(self._said), "-done")
        line.update(plain(self._said or (summary(self.page) if self.page else "")))

    @on(WindowTable.RowHighlighted)
    def _show_about(self) -> None:
        """Say what to look at, why it is due, and what to bear in mind doing it."""
        item = self.item
        lines = about_lines(item) if item else []
        care = care_lines(cautions_beside(item.check.key)) if item else []
        for name, shown in (("#about", lines), ("#care", care)):
            part = self.query_one(name, Static)
            part.display = bool(shown)
            part.update(plain_lines(shown))
        self.refresh_bindings()

    # Actions

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys for a check need one; the working needs a leak test."""
        if action in ("in_order", "fault", "interval"):
            return self.item is not None
        if action == "working":
            return bool(self.page and self.page.tests)
        return super().check_action(action, parameters)

    def action_in_order(self) -> None:
        """Record the check under the cursor as done, and go on to the next."""
        item = self.item
        if item is None:
            return
        done = self.attempt(record_check, self.room, item.check.key)
        if done is not None:
            self._said = f"✓ {done.words} · {UNDO_HINT}"
            # At once, not with the list when it is read again: the next key may come before.
            self.table.action_move(1)
            self.announce("upkeep")

    def action_fault(self) -> None:
        """Ask what is wrong with the part under the cursor."""
        if self.item is not None:
            open_window(self, self._fault_told, fault_form, self.room, self.item)

    def _fault_told(self, done: Done | None) -> None:
        """Say it; what to bear in mind before putting it right is read first."""
        self._told(done)
        if done is not None and done.cautions:
            self.app.push_screen(ReadScreen("Before you put it right", (), done.cautions))

    def action_interval(self) -> None:
        """Ask how often the check under the cursor is wanted."""
        if self.item is not None:
            open_window(self, self._told, interval_form, self.room, self.item)

    def _told(self, done: Done | None) -> None:
        if done is not None:
            self._said = ""
            say(self.app, f"{done.words} · {UNDO_HINT}")
            self.announce("upkeep")

    def action_leak_test(self) -> None:
        """Ask for the readings of a pressure-rise test."""
        open_window(self, self._test_told, leak_test_form, self.room)

    def _test_told(self, test: TestDone | None) -> None:
        """Say what the test means."""
        if test is None:
            return
        self._said = ""
        self.announce("upkeep")
        self.app.push_screen(ReadScreen("Leak test", leak_lines(test.leak), test.done.cautions))

    def action_working(self) -> None:
        """Show how the latest leak rate was reached."""
        if self.page and self.page.tests:
            latest = self.page.tests[0]
            heading = f"Leak test of {latest.on_day.isoformat()}"
            self.app.push_screen(WorkingScreen(heading, (leak_working(latest.leak.rise),)))

    def action_no_vacuum(self) -> None:
        """Show where to look, and what to bear in mind at the machine."""
        self.app.push_screen(
            ReadScreen("Vacuum not reached: look here, in order", fault_lines(), machine_cautions())
        )

    def action_cautions(self) -> None:
        """Show all that is to be borne in mind at the machine."""
        self.app.push_screen(ReadScreen("At the machine", (), machine_cautions()))

    @on(WindowTable.RowChosen)
    def _open(self, message: WindowTable.RowChosen) -> None:
        """Show a check in full."""
        item = self.items.get(message.key)
        page = self.attempt(check_page, self.room, item.check.key) if item else None
        if page is None:
            return
        tests = self.page.tests if self.page and page.item.check.key == TASK_OF_TESTS else ()
        name = page.item.check.name
        heading = f"{name[:1].upper()}{name[1:]}"
        self.app.push_screen(ReadScreen(heading, check_lines(page, tests), page.cautions))
