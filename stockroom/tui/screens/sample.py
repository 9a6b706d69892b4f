"""A sample of a lot or a place: which packages to look at, and what the looks say of the others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from stockroom.domain.belief_working import CAUTIONS as BELIEF_CAUTIONS
from stockroom.domain.conditions import Event
from stockroom.domain.quantities import read_day
from stockroom.domain.records import Package
from stockroom.domain.sample_page import SURE, SamplePage, Wish
from stockroom.domain.sampling_working import CAUTIONS as SAMPLE_CAUTIONS
from stockroom.errors import StockroomError
from stockroom.services.results import Done
from stockroom.services.sampling import sample_of, sample_workings
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen
from stockroom.tui.modal import tell
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.package_actions import PackageActions
from stockroom.tui.screens.sample_keys import BINDINGS, CSS
from stockroom.tui.screens.sample_words import (
    CONFIDENCES,
    LOOKS,
    LOT_COLUMNS,
    PLACE_COLUMNS,
    Look,
    below_lines,
    heading,
    how_words,
    rows_of,
    said_words,
    settings_lines,
    what_to_do,
)
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.screens.working import WorkingScreen
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.title_bar import TitleBar
from stockroom.tui.widgets.window_table import WindowTable
from stockroom.tui.words import place_words


class SampleScreen(PackageActions):
    """The packages to look at, picked at random; one key records a look and goes on to the next.

    Where the looks are by opening, each that is recorded here opens its package.
    """

    BINDINGS: ClassVar[list[BindingType]] = list(BINDINGS)
    DEFAULT_CSS = CSS

    class Sampled(Message):
        """The page is there, or what stood in the way."""

        def __init__(self, answer: SamplePage | StockroomError) -> None:
            super().__init__()
            self.answer = answer

    def __init__(self, mode: str, name: str, page: SamplePage) -> None:
        """`mode` is the main screen it was opened from; `name` the lot's code or the place."""
        super().__init__()
        self.from_mode = mode
        self.name_of_group = name
        self.page = page
        self.wish = page.wish
        self.everything = False
        """Whether all of the group is listed, not only what was picked."""
        columns = LOT_COLUMNS if page.food else PLACE_COLUMNS
        self.table = ShortTable(columns, empty="", id="picks")
        self._last: Package | None = None
        """What was looked at last: an undo puts the cursor back on it."""
        self._at_fault: Package | None = None
        """What was last found at fault here: the key that decides begins with it."""

    @property
    def home(self) -> str:
        """The main screen it was opened from."""
        return self.from_mode

    @property
    def look(self) -> Look:
        """How packages are looked at."""
        return next(one for one in LOOKS if one.finds == self.wish.sensitivity)

    @property
    def listed(self) -> Sequence[Package]:
        """What the list shows."""
        return self.page.packages if self.everything else self.page.picks

    @property
    def package(self) -> Package | None:
        """The package under the cursor."""
        key = self.table.cursor_key
        return next((one for one in self.listed if one.package_id == key), None)

    def compose_body(self) -> ComposeResult:
        """What to do and what was asked for, the list, what the looks say, what was recorded."""
        yield Static(classes="heading")
        yield Static(id="do")
        yield Static(id="settings")
        yield self.table
        with VerticalScroll(id="below"):
            yield Static(id="which")
            yield Static(id="says")
            yield Static(id="how")
        yield Static(id="said")

    def on_mount(self) -> None:
        """Show the page as it was read, the first package to look at under the cursor."""
        self.query_one(TitleBar).here = self.from_mode
        self._say("")
        self._show()
        self._go_on()
        self.table.focus()

    # Reading

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the page again."""
        if not what:
            # Not a look of our own: an undo, another program, or another day.
            self._say("")
        self._read(self.room, self.wish)

    @work(thread=True, exclusive=True, exit_on_error=False, group="sample", description="a sample")
    def _read(self, room: Stockroom, wish: Wish) -> None:
        """Read in a thread; an answer that comes too late is dropped."""
        worker = get_current_worker()
        answer: SamplePage | StockroomError
        try:
            answer = sample_of(room, self.name_of_group, wish)
        except StockroomError as error:
            answer = error
        if not worker.is_cancelled:
            self.post_message(self.Sampled(answer))

    @on(Sampled)
    def _take(self, message: Sampled) -> None:
        """Show what was read, or say what stood in the way and keep what was asked before."""
        if isinstance(message.answer, StockroomError):
            self.wish = self.page.wish
            tell(self.app, message.answer)
            return
        before, self.page = self.page, message.answer
        last = self._last
        self._show()
        if last is not None and last.code in before.found and last.code not in self.page.found:
            self._last = self._at_fault = None
            self.table.go_to_key(last.package_id)

    # What stands there

    def on_resize(self) -> None:
        """Set the lines out for the width there is now."""
        self._show()

    def _show(self) -> None:
        """Fill in what was read."""
        page = self.page
        self.query_one(".heading", Static).update(plain(heading(page)))
        words, mood = what_to_do(page, all_listed=len(self.listed) == page.sample.lot)
        do = self.query_one("#do", Static)
        do.set_classes(mood)
        do.update(plain(words))
        settings = settings_lines(page, self.look, self.room.today, self.app.size.width - 2)
        self.query_one("#settings", Static).update(settings)
        self.table.show_rows(rows_of(page, self.listed))
        self._show_below()

    @on(WindowTable.RowHighlighted)
    def _show_below(self) -> None:
        """Say what the looks say, and how to look at the package under the cursor.

        A place holds many foods: there the package's food and place stand whole as well.
        """
        package = self.package
        which = self.query_one("#which", Static)
        which.display = package is not None and not self.page.food
        which.update(plain(f"{package.food} · {place_words(package)}" if package else ""))
        lines = below_lines(self.page, self.look)
        self.query_one("#says", Static).update(plain_lines(lines))
        self.query_one("#how", Static).update(plain(how_words(self.look, package)))
        self.refresh_bindings()

    def _say(self, words: str, look: str = "") -> None:
        """Say what was just recorded, below the list."""
        line = self.query_one("#said", Static)
        line.display = bool(words)
        line.set_classes(look)
        line.update(plain(words))

    def _go_on(self) -> None:
        """Go to the next package that was not looked at: below first, then from the top."""
        listed, found, key = self.listed, self.page.found, self.table.cursor_key
        at = next((place for place, one in enumerate(listed) if one.package_id == key), 0)
        ahead = (*listed[at:], *listed[:at])
        following = next((one for one in ahead if one.code not in found), None)
        if following is not None:
            self.table.go_to_key(following.package_id)

    # Looks

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Looks need a package, a decision one at fault; numbers go from 0 to all but one."""
        may = {
            "found": self.package is not None,
            "decide": self._to_decide() is not None,
            "all": len(self.page.picks) < len(self.page.packages),
            "fewer": self._at_most > 0,
            "more": self._at_most < self.page.sample.lot - 1,
            "common": False,
        }
        return may[action] if action in may else super().check_action(action, parameters)

    def action_found(self, finding: str) -> None:
        """Record what the look found and go on to the next that was not looked at."""
        package, event = self.package, Event(finding)
        if package is None:
            return
        opened = self.look.finds == SURE

        def say_found(done: Done) -> None:
            crisp = event is Event.CRISP
            self._at_fault = None if crisp else package
            words = said_words(package, event, done, opened=opened)
            self._say(words, "-good" if crisp else "-bad")

        if self.record_finding(package, event, told=say_found, opened=opened):
            self._last = package
            # At once, not with the page when it is read again: the next key may come before.
            self.page = replace(self.page, found=self.page.found | {package.code: event.value})
            self._go_on()

    def _to_decide(self) -> Package | None:
        """The package at fault under the cursor, or the one just found."""
        here = self.package
        if here is not None and self.page.found.get(here.code, Event.CRISP) != Event.CRISP:
            return here
        return self._at_fault

    def action_decide(self) -> None:
        """Ask what becomes of the package found at fault."""
        package = self._to_decide()
        if package is not None:
            self.decide(package)

    @on(WindowTable.RowChosen)
    def _open(self, message: WindowTable.RowChosen) -> None:
        """Show the package in full."""
        message.stop()
        if self.package is not None:
            self.open_package(self.package.code)

    def action_all(self) -> None:
        """List every package, or only what was picked."""
        self.everything = not self.everything
        self._show()

    # What is asked for

    @property
    def _at_most(self) -> int:
        """Soft ones that could be lived with, as last asked for."""
        asked = self.wish.at_most
        return self.page.sample.at_most if asked is None else asked

    def _ask_for(self, wish: Wish) -> None:
        self.wish = wish
        self._say("")
        self._read(self.room, wish)

    def action_fewer(self) -> None:
        """Allow one soft package less."""
        self._ask_for(replace(self.wish, at_most=self._at_most - 1))

    def action_more(self) -> None:
        """Allow one soft package more."""
        self._ask_for(replace(self.wish, at_most=self._at_most + 1))

    def action_sure(self) -> None:
        """Ask for the next confidence."""
        at = CONFIDENCES.index(self.wish.confidence) + 1
        self._ask_for(replace(self.wish, confidence=CONFIDENCES[at % len(CONFIDENCES)]))

    def action_how(self) -> None:
        """Go on to the next way to look."""
        at = LOOKS.index(self.look) + 1
        self._ask_for(replace(self.wish, sensitivity=LOOKS[at % len(LOOKS)].finds))

    def action_since(self) -> None:
        """Ask for the day from which looks count."""

        def asked(wish: Wish | None) -> None:
            if wish is not None:
                self._ask_for(wish)

        self.app.push_screen(since_form(self.room, self.wish), asked)

    # Pages beside it

    def action_working(self) -> None:
        """Show how the number to look at and the belief were reached."""
        workings = self.attempt(sample_workings, self.room, self.name_of_group, self.wish)
        if workings is not None:
            self.app.push_screen(WorkingScreen(f"Working: {heading(self.page)}", workings))

    def action_cautions(self) -> None:
        """Show what to bear in mind with a sample and a belief."""
        lines = dict.fromkeys((*SAMPLE_CAUTIONS, *BELIEF_CAUTIONS))
        self.app.push_screen(ReadScreen("Bear in mind", [f"- {one}" for one in lines]))

    def action_go(self, mode: str) -> None:
        """Show another main screen; the one it was opened from lies beneath."""
        if mode == self.from_mode:
            self.action_back()
        else:
            super().action_go(mode)

    def action_back(self) -> None:
        """Back to the page it was opened from."""
        self.dismiss()


def open_sample(screen: BaseScreen, mode: str, name: str) -> None:
    """Open the sample of a lot or a place over a screen, or say why there is none."""
    page = screen.attempt(sample_of, screen.stockroom, name)
    if page is not None:
        screen.app.push_screen(SampleScreen(mode, name, page))


def since_form(room: Stockroom, wish: Wish) -> FormScreen[Wish]:
    """Asks from which day looks count."""

    def read(answers: Answers) -> Wish:
        typed = answers.text("since").strip()
        return replace(wish, since=read_day(typed, room.today, "since") if typed else None)

    known = "" if wish.since is None else wish.since.isoformat()
    hint = "A day such as 2026-03-01, or -30; empty: today."
    about = ("Looks before that day do not count: a package can go soft later.",)
    return FormScreen(
        "Which looks count", (Field("since", "Looks since", known, hint=hint),), read, about=about
    )
