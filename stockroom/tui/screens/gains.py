"""Gains: the moves and repackings that would gain the whole store the most."""

from __future__ import annotations

from collections.abc import Sequence
from threading import Event
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import ProgressBar

from stockroom.domain.quantities import show_servings
from stockroom.errors import StockroomError
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.whatif import LEAST_GAIN_DAYS, Gain, gains
from stockroom.tui.base import BaseScreen
from stockroom.tui.modal import tell
from stockroom.tui.plaintext import say
from stockroom.tui.screens.table_window import TableWindow
from stockroom.tui.screens.whatif import ask_to_move, show_repacking
from stockroom.tui.screens.whatif_words import best_by_lines, gain_words, sentence, way_cell
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.words import names_of, place_words

COLUMNS = (
    Column("Packages", 16, weight=1, look="main"),
    Column("What to do", 30, weight=1),
    Column("Gain each", 11, align="right", look="tone"),
    Column("Servings", 8, align="right", priority=1),
)
ABOVE = "Ranked by servings times days gained. Every date is a quality estimate, not safety."
LOOKING = "Looking at every package …"
NOTHING = (
    f"No move or repacking gains {LEAST_GAIN_DAYS} days or more. A place only counts once its"
    " temperature is known."
)


class GainsScreen(TableWindow[Done]):
    """The ranked advice, worked out in view; Escape stops the looking and closes."""

    BINDINGS: ClassVar[list[BindingType]] = [
        working_binding("gains", "Show how this gain and its dates were reached."),
    ]
    DEFAULT_CSS = """
    GainsScreen {
        ProgressBar { margin: 0 1 1 1; width: 1fr; display: none; }
        Bar { width: 1fr; }
        &.-looking ProgressBar { display: block; }
    }
    """

    class Progress(Message):
        """So many of so many kinds of package are looked at."""

        def __init__(self, done: int, of: int) -> None:
            super().__init__()
            self.done = done
            self.of = of

        def can_replace(self, message: Message) -> bool:
            """Only the newest is worth showing."""
            return isinstance(message, GainsScreen.Progress)

    class Found(Message):
        """The advice is there, or what stood in the way."""

        def __init__(self, advice: tuple[Gain, ...], error: StockroomError | None = None) -> None:
            super().__init__()
            self.advice = advice
            self.error = error

    def __init__(self, room: Stockroom, beneath: BaseScreen) -> None:
        """`beneath` hears of what was moved."""
        super().__init__(room, "Gains: what would keep longer", COLUMNS, above=[ABOVE])
        self.beneath = beneath
        self.advice: tuple[Gain, ...] = ()
        self._left = Event()

    def compose_inside(self) -> ComposeResult:
        """The bar stands where the words of a row will be."""
        yield from super().compose_inside()
        yield ProgressBar(show_eta=False)

    def on_mount(self) -> None:
        """Begin to look."""
        super().on_mount()
        self._begin()

    def on_unmount(self) -> None:
        """Stop looking when the window is gone."""
        self._left.set()

    def _begin(self) -> None:
        self.add_class("-looking")
        self.table.empty = LOOKING
        self.show_rows(())
        self._look()

    @work(thread=True, exit_on_error=False, group="gains", description="what gains most")
    def _look(self) -> None:
        """Look in a thread; what it finds after the window was left is dropped."""
        try:
            found = self.Found(
                gains(self.room, progress=self._tell_progress, cancelled=self._left.is_set)
            )
        except StockroomError as error:
            found = self.Found((), error)
        if not self._left.is_set():
            self.post_message(found)

    def _tell_progress(self, done: int, of: int) -> None:
        self.post_message(self.Progress(done, of))

    @on(Progress)
    def _show_progress(self, message: Progress) -> None:
        """Move the bar."""
        self.query_one(ProgressBar).update(total=message.of, progress=message.done)

    @on(Found)
    def _show_found(self, message: Found) -> None:
        """Show the advice."""
        self.remove_class("-looking")
        self.advice = message.advice
        self.table.empty = NOTHING
        self.show_rows([_row(key, gain) for key, gain in enumerate(self.advice)])
        self.refresh_bindings()
        if message.error is not None:
            tell(self.app, message.error)

    def words_of(self, key: int) -> Sequence[str]:
        """The advice in full, and what Enter would do."""
        gain = self.advice[key]
        first, choice = gain.packages[0], gain.choice
        many = len(gain.packages) > 1
        lines = [
            f"{names_of(gain.packages)} of lot {first.lot_code}, {first.food},"
            f" now in {place_words(first)}.",
            sentence(choice),
            *best_by_lines(choice),
            f"Gains {gain_words(choice.gain_days).lstrip('+')} {'each' if many else ''}".rstrip()
            + f", {show_servings(gain.servings)} servings in all.",
        ]
        move = f"Enter moves {'all of them' if many else 'it'} there."
        lines.append(move if choice.kind == "move" else "Enter says how it is done.")
        return lines

    def chosen(self, key: int) -> None:
        """Ask before a move; say how to repack."""
        gain = self.advice[key]
        if gain.choice.kind == "move":
            ask_to_move(self, gain.packages, gain.choice, self._moved)
        else:
            show_repacking(self, gain.packages, gain.choice)

    def _moved(self, done: Done | None) -> None:
        """Say it, and look again: the next best piece of advice may be another now."""
        if done is not None:
            say(self.app, f"{done.words} · u undoes")
            self.beneath.announce("package")
            self._begin()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Without advice there is no working."""
        if action == "working":
            return bool(self.advice)
        return super().check_action(action, parameters)

    def action_working(self) -> None:
        """Show how the advice under the cursor was reached."""
        from stockroom.services.outlook_workings import gain_working

        key = self.table.cursor_key
        if key is not None:
            gain = self.advice[key]
            heading = f"Working: {names_of(gain.packages)}, {gain.choice.words}"
            open_working(self, heading, gain_working, self.room, gain)

    def action_leave(self) -> None:
        """Stop looking, and close."""
        self._left.set()
        self.dismiss(None)


def _row(key: int, gain: Gain) -> Row:
    food = gain.packages[0].food
    cells = (
        f"{len(gain.packages):,} × {food}",
        way_cell(gain.choice),
        gain_words(gain.choice.gain_days),
        show_servings(gain.servings),
    )
    return Row(key, cells, "good")
