"""A window with a short list: what the row under the cursor means stands below it in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar, Generic, TypeVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.services.session import Stockroom
from stockroom.tui.help import HelpScreen
from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain_lines
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.key_line import HELP_ID
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.widgets.window_table import WindowTable

T = TypeVar("T")


class TableWindow(BaseModal[T], Generic[T]):
    """Lines, a table, and words about its row. Subclasses give `words_of` and `chosen`."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "question_mark,f1", "help", "Keys", id=HELP_ID, tooltip="List every key that works."
        ),
    ]
    DEFAULT_CSS = """
    TableWindow {
        & > .box { width: 100; height: 100%; }
        & > .box > .inside { height: 1fr; padding: 0 0 0 1; }
        .above { height: auto; padding: 0 1; margin-bottom: 1; color: $foreground-muted; }
        WindowTable { height: 5; background: $surface; }
        .below { height: 1fr; padding: 0 1; margin-top: 1; scrollbar-size-vertical: 1; }
        .words { height: auto; }
    }
    """

    def __init__(
        self,
        room: Stockroom,
        heading: str,
        columns: Sequence[Column],
        *,
        above: Sequence[str] = (),
        empty: str = "",
    ) -> None:
        """`above` stands over the table; `empty` is the sentence of a table without rows."""
        super().__init__(heading)
        self.room = room
        self.above = tuple(above)
        self.table = ShortTable(columns, empty=empty, id="choices")

    def compose_inside(self) -> ComposeResult:
        """The lines above, the table, the words below."""
        yield Static(plain_lines(self.above), classes="above")
        yield self.table
        with VerticalScroll(classes="below"):
            yield Static(classes="words")
            yield from self.compose_below()

    def compose_below(self) -> ComposeResult:
        """What stands below the words, whichever row the cursor is on."""
        yield from ()

    def on_mount(self) -> None:
        """The keys go to the table."""
        self.table.focus()

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Show these rows, as high as they need and at most half the window."""
        self.table.styles.height = max(4, min(len(rows) + 1, self.app.size.height // 2 - 1))
        self.table.show_rows(rows)

    def words_of(self, key: int) -> Sequence[str]:
        """What a row means, a line each."""
        raise LookupError(key)

    def chosen(self, key: int) -> None:
        """Enter was pressed on a row."""

    def action_help(self) -> None:
        """List every key that works here."""
        self.app.push_screen(HelpScreen(self))

    @on(WindowTable.RowHighlighted)
    def _say(self, message: WindowTable.RowHighlighted) -> None:
        """Say what the row under the cursor means."""
        message.stop()
        lines = () if message.key is None else self.words_of(message.key)
        self.query_one(".words", Static).update(plain_lines(lines))
        self.query_one(".below", VerticalScroll).scroll_home(animate=False)

    @on(WindowTable.RowChosen)
    def _choose(self, message: WindowTable.RowChosen) -> None:
        """Enter or a click takes a row."""
        message.stop()
        self.chosen(message.key)
