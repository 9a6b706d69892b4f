"""A report to read in a window: worked out in view, with what to do about it on its keys."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from threading import Event
from typing import ClassVar

from textual import events, on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import ProgressBar, Static
from textual.worker import get_current_worker

from stockroom.errors import StockroomError
from stockroom.reports.as_text import as_text
from stockroom.reports.values import Fields, Prose, Report, Table
from stockroom.services.session import Stockroom
from stockroom.tui.help import HelpScreen
from stockroom.tui.modal import BaseModal, tell
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.horizon_file import take_along
from stockroom.tui.widgets.key_line import HELP_ID

Tell = Callable[[int, int], None]
"""Is told how much is done, of how much."""
Cancelled = Callable[[], bool]

WORKING_OUT = "Working it out …"
MONTHS = 12
"""How far the screens look ahead."""
ROUNDS = 200
SEED = 1
"""The odds are drawn from one seed, so that the same store gives the same odds again."""
TAKE_ALONG = Binding(
    "c",
    "take_along",
    "Copy or write",
    id="report-take-along",
    tooltip="Copy it, or write it to a file.",
)


class ReportWindow(BaseModal[None]):
    """A report as text, as wide as the window. Subclasses give `find`."""

    BINDINGS: ClassVar[list[BindingType]] = [
        TAKE_ALONG,
        Binding(
            "question_mark,f1", "help", "Keys", id=HELP_ID, tooltip="List every key that works."
        ),
    ]
    DEFAULT_CSS = """
    ReportWindow {
        & > .box { width: 100; height: 100%; }
        & > .box > .inside { height: 1fr; padding: 0 1; }
        ProgressBar { margin: 1 0; width: 1fr; display: none; }
        Bar { width: 1fr; }
        &.-counting ProgressBar { display: block; }
    }
    """

    class Progress(Message):
        """So many of so many are done."""

        def __init__(self, done: int, of: int) -> None:
            super().__init__()
            self.done = done
            self.of = of

        def can_replace(self, message: Message) -> bool:
            """Only the newest is worth showing."""
            return isinstance(message, ReportWindow.Progress)

    class Found(Message):
        """The report is there, or what stood in the way."""

        def __init__(self, answer: Report | StockroomError) -> None:
            super().__init__()
            self.answer = answer

    def __init__(self, room: Stockroom, heading: str) -> None:
        super().__init__(heading)
        self.room = room
        self.report: Report | None = None
        self._over = Event()

    def compose_inside(self) -> ComposeResult:
        """How far it has come, then the report."""
        yield ProgressBar(show_eta=False)
        yield Static(plain(WORKING_OUT), classes="report")

    def find(self, progress: Tell, cancelled: Cancelled) -> Report:
        """The report. Runs in a thread; raises StockroomError."""
        raise LookupError(progress, cancelled)

    def on_mount(self) -> None:
        """Begin, and let the arrow keys scroll."""
        inside = self.query_one(".inside")
        inside.can_focus = True
        inside.focus()
        self.begin()

    def on_unmount(self) -> None:
        """Nobody waits any more."""
        self._over.set()

    def begin(self) -> None:
        """Work it out."""
        self._over = Event()
        self.refresh_bindings()
        self._look(self._over)

    @work(thread=True, exclusive=True, exit_on_error=False, group="report", description="a report")
    def _look(self, over: Event) -> None:
        """Work it out in a thread; an answer that comes too late is dropped."""
        worker = get_current_worker()

        def progress(done: int, of: int) -> None:
            self.post_message(self.Progress(done, of))

        answer: Report | StockroomError
        try:
            answer = self.find(progress, lambda: over.is_set() or worker.is_cancelled)
        except StockroomError as error:
            answer = error
        if not worker.is_cancelled:
            self.post_message(self.Found(answer))

    @on(Progress)
    def _show_progress(self, message: Progress) -> None:
        """Move the bar."""
        if self.report is None:
            self.add_class("-counting")
            self.query_one(ProgressBar).update(total=message.of, progress=message.done)

    @on(Found)
    def _show_found(self, message: Found) -> None:
        """Show the report, or say what stood in the way."""
        self.remove_class("-counting")
        if isinstance(message.answer, StockroomError):
            tell(self.app, message.answer)
            return
        self.report = message.answer
        self._write_out()
        self.refresh_bindings()

    @on(events.Resize)
    def _write_out(self) -> None:
        """Set the report out for the width there is now."""
        if self.report is None:
            return
        part = self.query_one(".report", Static)
        text = as_text(replace(self.report, title=""), self.room.units, part.size.width or None)
        part.update(plain_lines(text.rstrip("\n").split("\n")))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There must be a report to take along."""
        if action == "take_along":
            return self.report is not None
        return super().check_action(action, parameters)

    def action_take_along(self) -> None:
        """Ask whether it is copied or written."""
        if self.report is not None:
            take_along(self.app, self.room, self.report, self.room.units)

    def action_help(self) -> None:
        """List every key that works here."""
        self.app.push_screen(HelpScreen(self))

    def action_leave(self) -> None:
        """Stop, and close."""
        self._over.set()
        self.dismiss(None)


class WholeHorizonWindow(ReportWindow):
    """All that is said of what lies ahead, with the commands, the cautions and the sources."""

    def __init__(self, room: Stockroom, report: Report) -> None:
        super().__init__(room, report.title)
        self._given = report

    def find(self, progress: Tell, cancelled: Cancelled) -> Report:
        """What the screen holds already."""
        return self._given


class CoverWindow(ReportWindow):
    """For how long the store would feed the household, and what to dry next."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "p",
            "power",
            "Power out",
            id="cover-power",
            tooltip="Leave out what stands in a freezer, as with the power out; again counts it.",
        ),
        Binding(
            "x",
            "raw",
            "Raw too",
            id="cover-raw",
            tooltip="Count raw food too, which has to be cooked; again leaves it out.",
        ),
    ]

    def __init__(self, room: Stockroom) -> None:
        super().__init__(room, "Cover: how long it would feed you")
        self.power_out = False
        self.raw_too = False

    def find(self, progress: Tell, cancelled: Cancelled) -> Report:
        """The cover as things stand."""
        from stockroom.reports.cover import cover_report
        from stockroom.services.provision import cover

        return cover_report(cover(self.room, power_out=self.power_out, raw_too=self.raw_too))

    def action_power(self) -> None:
        """Take the power away, or give it back."""
        self.power_out = not self.power_out
        self.begin()

    def action_raw(self) -> None:
        """Count raw food too, or leave it out again."""
        self.raw_too = not self.raw_too
        self.begin()


class OddsWindow(ReportWindow):
    """The odds that food passes its best-by, over many rounds; Escape stops and closes."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "s",
            "stop",
            "Stop here",
            id="odds-stop",
            tooltip="Stop the rounds and show what they came to so far.",
        ),
    ]

    def __init__(self, room: Stockroom) -> None:
        super().__init__(room, "Odds of waste")

    def find(self, progress: Tell, cancelled: Cancelled) -> Report:
        """The odds, with what to bear in mind and the sources."""
        from stockroom.reports.horizon import horizon_report
        from stockroom.services.horizon import horizon, horizon_odds

        page = horizon(self.room, months=MONTHS, advise=False)
        odds = horizon_odds(
            self.room,
            months=MONTHS,
            rounds=ROUNDS,
            seed=SEED,
            progress=progress,
            cancelled=cancelled,
        )
        known = {one.food.food_id for one in page.foods}
        told = replace(odds, foods=tuple(one for one in odds.foods if one.food_id in known))
        return odds_part(horizon_report(replace(page, odds=told)))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There is something to stop only while the rounds go on."""
        if action == "stop":
            return self.report is None
        return super().check_action(action, parameters)

    def action_stop(self) -> None:
        """Show what the rounds came to so far."""
        self._over.set()


_ODDS_TABLES = ("odds", "package_odds")
_BESIDE_ODDS = ("sentence", "cautions", "sources")


def odds_part(report: Report) -> Report:
    """What a forecast says of its odds: their tables, what stands below them, cautions, sources."""
    blocks = report.blocks
    last = max(
        at
        for at, one in enumerate(blocks)
        if isinstance(one, Table) and one.key in _ODDS_TABLES
    )  # fmt: skip
    kept = tuple(
        one
        for at, one in enumerate(blocks)
        if (isinstance(one, Table) and one.key in _ODDS_TABLES)
        or (isinstance(one, Fields) and any(field.key == "rounds" for field in one.fields))
        or (isinstance(one, Prose) and (one.key in _BESIDE_ODDS or at == last + 1))
    )
    (table, *_) = [one for one in kept if isinstance(one, Table)]
    return Report(kept, report.title.replace("Horizon", "Odds", 1), table)
