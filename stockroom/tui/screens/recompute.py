"""Computing every best-by anew, after the model or the household's height has changed."""

from __future__ import annotations

from threading import Event

from textual import on, work
from textual.app import ComposeResult
from textual.message import Message
from textual.widgets import ProgressBar, Static

from stockroom.errors import StockroomError
from stockroom.services.keeping import refresh_everything
from stockroom.services.session import Stockroom
from stockroom.tui.modal import BaseModal, tell
from stockroom.tui.plaintext import say
from stockroom.tui.words import counted


class RecomputeScreen(BaseModal[bool]):
    """Shows how far it has come; Escape leaves it for another time. Closes with True when done."""

    DEFAULT_CSS = """
    RecomputeScreen {
        ProgressBar { margin: 1 0; width: 1fr; }
        Bar { width: 1fr; }
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
            return isinstance(message, RecomputeScreen.Progress)

    class Finished(Message):
        """It is over: how many were computed, or what stood in the way."""

        def __init__(self, count: int, error: StockroomError | None = None) -> None:
            super().__init__()
            self.count = count
            self.error = error

    def __init__(self, room: Stockroom) -> None:
        super().__init__("Best-by dates")
        self.room = room
        self._left = Event()

    def compose_inside(self) -> ComposeResult:
        """What is done and why, and how far it has come."""
        yield Static(
            "Best-by dates and the days to look at packages were computed with other figures than"
            " those in use now, or not at all. They are being computed anew; nothing else changes."
        )
        yield ProgressBar(show_eta=False)

    def on_mount(self) -> None:
        """Begin."""
        self._compute()

    @work(thread=True, exit_on_error=False, group="recompute", description="best-by dates anew")
    def _compute(self) -> None:
        """Compute in a thread; a write is never dropped half-way, so it is not exclusive."""
        try:
            count = refresh_everything(self.room, self._tell_progress, self._left.is_set)
            answer = self.Finished(count)
        except StockroomError as error:
            answer = self.Finished(0, error)
        self.post_message(answer)

    def _tell_progress(self, done: int, of: int) -> None:
        self.post_message(self.Progress(done, of))

    @on(Progress)
    def _show_progress(self, message: Progress) -> None:
        """Move the bar."""
        self.query_one(ProgressBar).update(total=message.of, progress=message.done)

    @on(Finished)
    def _finish(self, message: Finished) -> None:
        """Close, and say how it went."""
        self.dismiss(message.count > 0)
        if message.error is not None:
            tell(self.app, message.error)
        elif self._left.is_set():
            say(self.app, "The dates stay as they were; they are computed another time.")
        else:
            say(self.app, f"Best-by dates of {counted(message.count, 'package')} computed anew.")

    def action_leave(self) -> None:
        """Stop; the dates stay as they were."""
        self._left.set()
