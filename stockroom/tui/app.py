"""The screens as one program: its main screens, the keys that work everywhere, and the clock.

Every screen shows what the store holds. After an action of its own a screen announces it; a slow
timer notices what another program wrote, and a new day.
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterable
from typing import ClassVar

from textual import work
from textual.app import App, SystemCommand
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.screen import Screen

from stockroom.errors import StockroomError
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen
from stockroom.tui.modal import attempt, tell
from stockroom.tui.plaintext import say
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.start import run_app
from stockroom.tui.theme import THEMES
from stockroom.tui.words import long_day

__all__ = ["StockroomApp", "run_app"]

LOOK_AGAIN_SECONDS = 2.0
"""How often to ask whether another program has written; asking takes about 2 microseconds."""


PAINTED_SECONDS = 0.5
"""By when the first screen stands on any machine; what can wait until then does."""


def _shelves() -> Screen[None]:
    from stockroom.tui.screens.shelves import ShelvesScreen

    return ShelvesScreen()


def _bench() -> Screen[None]:
    from stockroom.tui.screens.bench import BenchScreen

    return BenchScreen()


def _kitchen() -> Screen[None]:
    from stockroom.tui.screens.kitchen import KitchenScreen

    return KitchenScreen()


def _horizon() -> Screen[None]:
    from stockroom.tui.screens.horizon import HorizonScreen

    return HorizonScreen()


def _upkeep() -> Screen[None]:
    from stockroom.tui.screens.upkeep import UpkeepScreen

    return UpkeepScreen()


class StockroomApp(App[None], inherit_bindings=False):
    """The screens on one open stockroom."""

    TITLE = "stockroom"
    CSS_PATH = "style.tcss"
    MODES = {
        "round": RoundScreen,
        "shelves": _shelves,
        "bench": _bench,
        "kitchen": _kitchen,
        "horizon": _horizon,
        "upkeep": _upkeep,
    }
    DEFAULT_MODE = "round"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("u", "undo", "Undo", id="undo", tooltip="Take back the last thing done."),
        Binding("U", "redo", "Redo", id="redo", tooltip="Do again what was undone last."),
        Binding(
            "j",
            "journal",
            "Journal",
            show=False,
            id="journal",
            tooltip="Who did what, and when; undo and redo from there.",
        ),
        Binding(
            "comma",
            "household",
            "Household",
            show=False,
            id="household",
            tooltip="Set the name, the number of people and the units.",
        ),
        Binding(
            "semicolon",
            "people",
            "People",
            show=False,
            id="people",
            tooltip="List the people with what each needs and must not get.",
        ),
        Binding(
            "full_stop",
            "schedule",
            "Looks",
            show=False,
            id="schedule",
            tooltip="Set how often packages are looked at, on which days, how many a day.",
        ),
        Binding(
            "K",
            "calendar",
            "Calendar",
            show=False,
            id="calendar",
            tooltip="Write what is due as a file for any calendar.",
        ),
        Binding("q", "quit", "Quit", show=False, id="quit", tooltip="Leave; all is saved."),
        Binding(
            "ctrl+c",
            "how_to_quit",
            "How to quit",
            show=False,
            id="how-to-quit",
            tooltip="Say which key leaves.",
        ),
    ]

    class DatesOutdated(Message):
        """The best-by dates on record were computed with other figures."""

    def __init__(self, room: Stockroom) -> None:
        super().__init__()
        for theme in THEMES:
            self.register_theme(theme)
        # Before anything is painted: a theme put on later has every style worked out twice.
        self.set_reactive(App.theme, THEMES[0].name)
        self.stockroom = room
        self.defect: Exception | None = None
        self._version_seen = room.version_seen()
        self._day_seen = room.today
        self._trouble = ""

    def on_mount(self) -> None:
        """Show the day and begin to look for changes."""
        self.sub_title = long_day(self._day_seen)
        self.set_interval(LOOK_AGAIN_SECONDS, self.look_again)
        self.set_timer(PAINTED_SECONDS, self._after_first_paint)

    def on_ready(self) -> None:
        """Paint the first screen now."""
        # The framework holds paints back while it starts, then leaves the first to the next
        # frame of its clock, up to 17 ms away. It has no public way to ask for it at once.
        self.screen._on_timer_update()

    def _after_first_paint(self) -> None:
        """See to what can wait until the first screen stands."""
        gc.enable()
        self._look_at_dates()

    # Changes from elsewhere

    def look_again(self) -> None:
        """Have the screens read again when another program has written, or the day has changed."""
        try:
            seen, day = self.stockroom.version_seen(), self.stockroom.today
        except StockroomError as error:
            if error.message != self._trouble:
                self._trouble = error.message
                tell(self, error)
            return
        self._trouble = ""
        if (seen, day) != (self._version_seen, self._day_seen):
            self._version_seen, self._day_seen = seen, day
            self.sub_title = long_day(day)
            self.announce()

    def on_app_focus(self) -> None:
        """Look at once when the terminal comes back into view."""
        self.look_again()

    def announce(self, *what: str) -> None:
        """Tell every main screen that the record has changed."""
        beneath = self.screen_stack[0]
        if isinstance(beneath, BaseScreen):
            beneath.announce(*what)

    # Best-by dates

    @work(thread=True, exit_on_error=False, group="dates", description="are the dates current")
    def _look_at_dates(self) -> None:
        """Ask in a thread whether the dates were computed with the figures in use now."""
        from stockroom.services.keeping import projections_are_current

        try:
            current = projections_are_current(self.stockroom)
        except StockroomError:
            return  # the timer says what is wrong with the store
        if not current:
            self.post_message(self.DatesOutdated())

    def on_stockroom_app_dates_outdated(self) -> None:
        """Compute them anew, in view."""
        from stockroom.tui.screens.recompute import RecomputeScreen

        def read_again(done: bool | None) -> None:
            if done:
                self.announce()

        self.push_screen(RecomputeScreen(self.stockroom), read_again)

    # Actions

    def action_undo(self) -> None:
        """Take back the last thing done."""
        from stockroom.services.history import undo

        self._reverse(undo)

    def action_redo(self) -> None:
        """Do again what was undone last."""
        from stockroom.services.history import redo

        self._reverse(redo)

    def _reverse(self, act: Callable[[Stockroom], Done]) -> None:
        done = attempt(self, act, self.stockroom)
        if done is not None:
            say(self, done.words)
            self.announce()
            self._look_at_dates()

    def action_journal(self) -> None:
        """Show the journal."""
        from stockroom.tui.screens.journal import JournalScreen

        if not isinstance(self.screen, JournalScreen):
            self.push_screen(JournalScreen(self.current_mode))

    def action_household(self) -> None:
        """Ask for the household's settings."""
        from stockroom.tui.screens.household import household_form

        form = attempt(self, household_form, self.stockroom)
        if form is not None:
            self.push_screen(form, self._told)

    def action_people(self) -> None:
        """List the people."""
        from stockroom.tui.screens.people import PeopleScreen

        if not isinstance(self.screen, PeopleScreen):
            self.push_screen(PeopleScreen(self.current_mode))

    def action_schedule(self) -> None:
        """Ask how often packages are looked at; the days are computed anew after it."""
        from stockroom.tui.screens.schedule_form import schedule_form

        form = attempt(self, schedule_form, self.stockroom)
        if form is not None:
            self.push_screen(form, self._told)

    def _told(self, done: Done | None) -> None:
        if done is not None:
            say(self, done.words)
            self.announce()
            self._look_at_dates()

    def action_calendar(self) -> None:
        """Ask where the calendar file goes."""
        from stockroom.tui.screens.calendar_form import CalendarForm

        def told(words: str | None) -> None:
            if words:
                say(self, words)

        self.push_screen(CalendarForm(self.stockroom), told)

    def action_how_to_quit(self) -> None:
        """Say which key leaves, to those used to another."""
        say(self, "Press q on a main screen to leave; Esc closes a window.")

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """The colour themes; every other command comes from the keys of the screen."""
        for theme in THEMES:
            name = theme.name
            about = "Dark colours." if theme.dark else "Light colours."
            yield SystemCommand(f"Colours: {name}", about, lambda name=name: self._wear(name))

    def _wear(self, theme: str) -> None:
        self.theme = theme

    # Defects

    def _fatal_error(self) -> None:
        # Textual would print a long traceback of its own. A defect is raised by `run_app`
        # instead, once the terminal is restored, so that it is reported in one place.
        self.defect = self._exception
        self._close_messages_no_wait()
