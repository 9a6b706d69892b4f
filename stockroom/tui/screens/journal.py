"""The journal: who did what and when, in words; undo and redo from there."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.records import JournalEntry
from stockroom.services.history import journal_entries, journal_keys
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import plain
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.title_bar import TitleBar
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.widgets.window_table import WindowTable

COLUMNS = (
    Column("Day", 10, look="quiet"),
    Column("Who", 8, look="quiet", priority=2),
    Column("What was done", 20, weight=1),
)
UNDONE = "(undone)"
"""Stands before an entry that a later one took back."""


class JournalSource:
    """The journal as rows, the latest entry first."""

    def __init__(self, room: Stockroom) -> None:
        self.room = room

    def first(self, count: int) -> Sequence[Row]:
        """The latest entries."""
        return self.rows(journal_keys(self.room)[:count])

    def keys(self) -> Sequence[int]:
        """Every entry."""
        return journal_keys(self.room)

    def rows(self, keys: Sequence[int]) -> Sequence[Row]:
        """These entries."""
        return [entry_row(entry) for entry in journal_entries(self.room, keys)]


def entry_row(entry: JournalEntry) -> Row:
    """One entry as a line."""
    cells = (entry.on_day.isoformat(), entry.actor, _words(entry))
    return Row(entry.entry_id, cells, "quiet" if entry.reversed else "")


class JournalScreen(BaseScreen):
    """Every action there was, the latest first."""

    BINDING_GROUP_TITLE = "In the journal"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", "Back", id="journal-back", tooltip="Back to the screen before."),
    ]
    DEFAULT_CSS = """
    JournalScreen {
        .heading { height: 1; padding: 0 1; background: $surface; text-style: bold; }
        #entry { height: auto; max-height: 4; padding: 0 1; background: $surface; }
    }
    """

    def __init__(self, mode: str) -> None:
        """`mode` is the main screen it was opened from, and goes back to."""
        super().__init__()
        self.from_mode = mode

    def compose_body(self) -> ComposeResult:
        """The heading, the list, and the whole of the entry under the cursor."""
        yield Static("Journal · the latest first", classes="heading")
        yield WindowTable(COLUMNS, JournalSource(self.stockroom), empty="Nothing was done yet.")
        yield Static(id="entry")

    def on_mount(self) -> None:
        """Begin with the latest entry."""
        self.query_one(TitleBar).here = self.from_mode
        self.query_one(WindowTable).focus()

    @on(WindowTable.RowHighlighted)
    def _show_entry(self, message: WindowTable.RowHighlighted) -> None:
        """Show the entry under the cursor in full: the list may cut it."""
        found = None
        if message.key is not None:
            found = self.attempt(journal_entries, self.stockroom, [message.key])
        words = [_whole(entry) for entry in found or ()]
        self.query_one("#entry", Static).update(plain("".join(words)))

    def action_go(self, mode: str) -> None:
        """Show another main screen; the one it was opened from lies beneath."""
        if mode == self.from_mode:
            self.action_back()
        else:
            super().action_go(mode)

    def action_back(self) -> None:
        """Back to the screen before."""
        self.dismiss()


def _whole(entry: JournalEntry) -> str:
    return f"{entry.at:%Y-%m-%d %H:%M} UTC, {entry.actor}: {_words(entry)}"


def _words(entry: JournalEntry) -> str:
    return f"{UNDONE} {entry.words}" if entry.reversed else entry.words
