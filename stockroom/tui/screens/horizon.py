"""The Horizon: will anything be wasted, what would save it, and how long each food lasts.

The first paint names the foods there are; the forecast and then the advice follow from a thread.
"""

from __future__ import annotations

from dataclasses import replace
from threading import Event
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from stockroom.domain.horizon.advice import Advice
from stockroom.domain.horizon.pages import FoodHorizon, HorizonPage
from stockroom.domain.quantities import UnitSystem
from stockroom.errors import StockroomError
from stockroom.services.horizon import horizon, least_rate_workings
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.shelves import foods_with_counts
from stockroom.tui.base import BaseScreen, tell
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.horizon_keys import HORIZON_BINDINGS
from stockroom.tui.screens.horizon_report import MONTHS
from stockroom.tui.screens.horizon_table import AheadTable
from stockroom.tui.screens.horizon_words import (
    COLUMNS,
    LOOKING,
    NOTHING,
    STOPPED,
    WEIGHING,
    advice_key,
    advice_lines,
    first_sections,
    food_key,
    food_lines,
    package_lines,
    sections_of,
)
from stockroom.tui.screens.package_actions import UNDO_HINT
from stockroom.tui.screens.windows import ReadScreen, open_window
from stockroom.tui.widgets.window_table import WindowTable


class HorizonScreen(BaseScreen):
    """Advice and foods in one list; Enter does what a piece of advice says, after asking."""

    MODE = "horizon"
    BINDINGS: ClassVar[list[BindingType]] = list(HORIZON_BINDINGS)
    DEFAULT_CSS = """
    HorizonScreen {
        #sentence { height: auto; max-height: 4; padding: 0 1; background: $surface; }
        #looking { height: 1; padding: 0 1; color: $warning; display: none; }
        #about-line { height: auto; max-height: 6; padding: 0 1; background: $surface; }
    }
    """

    class Weighed(Message):
        """So many of so many kinds of package were asked about."""

        def __init__(self, done: int, of: int) -> None:
            super().__init__()
            self.done = done
            self.of = of

        def can_replace(self, message: Message) -> bool:
            """Only the newest is worth showing."""
            return isinstance(message, HorizonScreen.Weighed)

    class Found(Message):
        """The forecast is there, `whole` with its advice; or what stood in the way."""

        def __init__(
            self, page: HorizonPage | None, error: StockroomError | None = None, *, whole: bool
        ) -> None:
            super().__init__()
            self.page = page
            self.error = error
            self.whole = whole

    def __init__(self) -> None:
        super().__init__()
        self.page: HorizonPage | None = None
        self.foods: dict[int, FoodHorizon] = {}
        self.advice: dict[int, Advice] = {}
        self.looking = False
        self._stop = Event()
        self._untouched = True
        """The cursor was not moved yet, so it goes to the first advice when there is some."""
        self.table = AheadTable(COLUMNS, id="ahead")

    @property
    def room(self) -> Stockroom:
        """The open stockroom."""
        room: Stockroom = self.stockroom
        return room

    @property
    def food(self) -> FoodHorizon | None:
        """The food under the cursor, or that of the advice there."""
        key = self.table.cursor_key or 0
        advice = self.advice.get(key)
        return self.foods.get(key if advice is None else food_key(advice.food_id))

    def compose_body(self) -> ComposeResult:
        """The sentence, how far the looking has come, the list, the line under the cursor."""
        yield Static(plain(LOOKING), id="sentence")
        yield Static(id="looking")
        yield self.table
        yield Static(id="about-line")

    def on_mount(self) -> None:
        """Name the foods at once, and look ahead."""
        foods = self.attempt(foods_with_counts, self.room)
        if foods is not None:
            self.table.show_sections(first_sections(foods), empty=LOOKING)
        self.table.focus()
        self.reload()

    def on_unmount(self) -> None:
        """Nobody waits any more."""
        self._stop.set()

    # Looking ahead

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Look ahead again; what is shown stays until the new is there."""
        self._stop.set()
        self._stop = Event()
        self._say_looking(LOOKING)
        self._look(self._stop)

    @work(
        thread=True, exclusive=True, exit_on_error=False, group="horizon", description="the horizon"
    )
    def _look(self, stop: Event) -> None:
        """Forecast first, then weigh up advice; an answer that comes too late is dropped."""
        worker = get_current_worker()

        def over() -> bool:
            return stop.is_set() or worker.is_cancelled

        def progress(done: int, of: int) -> None:
            if not worker.is_cancelled:
                self.post_message(self.Weighed(done, of))

        try:
            page = horizon(self.room, months=MONTHS, advise=False)
            if not worker.is_cancelled:
                self.post_message(self.Found(page, whole=False))
            if not over():
                page = horizon(self.room, months=MONTHS, progress=progress, cancelled=over)
            answer = self.Found(page, whole=True)
        except StockroomError as error:
            answer = self.Found(None, error, whole=True)
        if not worker.is_cancelled:
            self.post_message(answer)

    @on(Weighed)
    def _show_weighed(self, message: Weighed) -> None:
        """Say how far it has come."""
        if self.looking:
            self._say_looking(f"{WEIGHING}: {message.done} of {message.of} · Esc stops")

    def _say_looking(self, text: str, *, over: bool = False) -> None:
        """Say that it is being looked ahead, or that this is over."""
        self.looking = not over
        line = self.query_one("#looking", Static)
        line.display = bool(text)
        line.update(plain(text))
        self.refresh_bindings()

    @on(Found)
    def _show_found(self, message: Found) -> None:
        """Show the forecast; advice found before stays until the new is there."""
        if message.whole:
            stopped = self._stop.is_set() and message.error is None
            self._say_looking(STOPPED if stopped else "", over=True)
        if message.error is not None:
            tell(self.app, message.error)
        page = message.page
        if page is None:
            return
        if not message.whole:
            known = {one.food.food_id for one in page.foods}
            before = self.page.advice if self.page else ()
            page = replace(page, advice=tuple(one for one in before if one.food_id in known))
        self._show(page)

    def _show(self, page: HorizonPage) -> None:
        """Paint the page; the cursor keeps to its line."""
        self.page = page
        self.foods = {food_key(one.food.food_id): one for one in page.foods}
        self.advice = {advice_key(one): one for one in page.advice}
        self.query_one("#sentence", Static).update(plain(page.sentence if page.foods else ""))
        self.query_one("#sentence").display = bool(page.foods)
        sections = sections_of(page, page.advice) if page.foods else []
        self.table.show_sections(sections, empty=NOTHING)
        if self._untouched and self.advice:
            self._untouched = False
            self.table.action_first()
        self._describe()

    @on(WindowTable.RowHighlighted)
    def _describe(self) -> None:
        """Say all about the line under the cursor."""
        about = self.query_one("#about-line", Static)
        lines = self._lines()
        about.display = bool(lines)
        about.update(plain_lines(lines))
        self.refresh_bindings()

    def _lines(self) -> list[str]:
        advice = self.advice.get(self.table.cursor_key or 0)
        if advice is not None:
            return advice_lines(advice, self._units())
        return [] if self.food is None else food_lines(self.food)

    def _units(self) -> UnitSystem:
        return self.attempt(lambda: self.room.units) or UnitSystem.METRIC

    # What is done

    @on(WindowTable.RowChosen)
    def _choose(self, message: WindowTable.RowChosen) -> None:
        """Do what the advice says, after asking; list the packages of a food."""
        from stockroom.tui.screens.horizon_acts import act_on

        advice = self.advice.get(message.key)
        food = self.foods.get(message.key)
        if advice is not None:
            act_on(self, advice, self._units(), self._told)
        elif food is not None:
            self.app.push_screen(ReadScreen(food.food.name, package_lines(food)))

    def _told(self, done: Done | None) -> None:
        """Say it, and look again: what comes next may be other advice now."""
        if done is not None:
            say(self.app, f"{done.words} · {UNDO_HINT}")
            self.announce("package", "eating")

    # Keys

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys for a food need one; Escape has something to stop while it is looked ahead."""
        if action in ("eating", "working"):
            return self.food is not None
        if action in ("rotation", "odds", "plot", "whole"):
            return bool(self.foods)
        if action == "stop":
            return self.looking
        if action == "again":
            return not self.looking
        return super().check_action(action, parameters)

    def action_stop(self) -> None:
        """Stop weighing up advice."""
        self._stop.set()

    def action_again(self) -> None:
        """Look ahead again."""
        self.reload()

    def action_rotation(self) -> None:
        """Show what to take, place by place."""
        from stockroom.tui.screens.horizon_round import RotationWindow

        self.app.push_screen(RotationWindow(self.room))

    def action_eating(self) -> None:
        """Ask how fast the food under the cursor is eaten."""
        from stockroom.tui.screens.horizon_forms import rate_form

        if self.food is not None:
            open_window(self, self._told, rate_form, self.room, self.food)

    def action_cover(self) -> None:
        """Show for how long the store would feed the household."""
        from stockroom.tui.screens.horizon_report import CoverWindow

        self.app.push_screen(CoverWindow(self.room))

    def action_target(self) -> None:
        """Ask what the store is to hold."""
        from stockroom.tui.screens.horizon_forms import target_form

        open_window(self, self._told, target_form, self.room)

    def action_odds(self) -> None:
        """Reckon the odds."""
        from stockroom.tui.screens.horizon_report import OddsWindow

        self.app.push_screen(OddsWindow(self.room))

    def action_plot(self) -> None:
        """Plot the stock over the coming months."""
        from stockroom.tui.screens.horizon_plot import stock_ahead_plot

        if self.page is not None:
            self.app.push_screen(stock_ahead_plot(self.page))

    def action_whole(self) -> None:
        """Read all of it as on paper."""
        from stockroom.reports.horizon import horizon_report
        from stockroom.tui.screens.horizon_report import WholeHorizonWindow

        if self.page is not None:
            self.app.push_screen(WholeHorizonWindow(self.room, horizon_report(self.page)))

    def action_working(self) -> None:
        """Show how the least rate of the food under the cursor was reached."""
        from stockroom.tui.screens.working import WorkingScreen

        food = self.food
        if self.page is None or food is None:
            return
        workings = least_rate_workings(replace(self.page, foods=(food,)))
        if workings:
            self.app.push_screen(WorkingScreen(f"Working: {food.food.name}", workings))
