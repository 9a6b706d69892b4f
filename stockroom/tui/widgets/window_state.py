"""Where a windowed table stands: its ordered keys, its cursor and its marks. No drawing."""

from __future__ import annotations

from array import array
from collections.abc import Sequence

from stockroom.tui.widgets.window_rows import landing_row


class ListState:
    """The keys of a list in order, one of them under the cursor, any of them marked.

    Marks outlive a filter: a marked key that is not in the list now stays marked, and
    `count_text` says how many there are.
    """

    def __init__(self) -> None:
        self.keys: Sequence[int] = array("q")
        self.counted = False
        self.cursor_row = 0
        self._marks: dict[int, None] = {}
        self._hidden_marks = 0

    @property
    def cursor_key(self) -> int | None:
        """The key under the cursor, or None in an empty list."""
        return self.keys[self.cursor_row] if self.keys else None

    @property
    def marked(self) -> tuple[int, ...]:
        """The marked keys, in the order they were marked."""
        return tuple(self._marks)

    @property
    def chosen(self) -> tuple[int, ...]:
        """What an action works on: the marked keys, or else the key under the cursor."""
        if self._marks:
            return self.marked
        return () if self.cursor_key is None else (self.cursor_key,)

    @property
    def count_text(self) -> str:
        """The cursor's place and the length of the list: "3 of 100,000 · 2 marked"."""
        if not self.keys:
            return "none" if self.counted else "…"
        total = f"{len(self.keys):,}" if self.counted else "…"
        return f"{self.cursor_row + 1:,} of {total}{self._marks_text()}"

    def _marks_text(self) -> str:
        """How many are marked, and how many of those the list does not show."""
        if not self._marks:
            return ""
        hidden = f" ({self._hidden_marks:,} not shown)" if self._hidden_marks else ""
        return f" · {len(self._marks):,} marked{hidden}"

    def is_marked(self, key: int) -> bool:
        """Whether a key carries a mark."""
        return key in self._marks

    def begin(self, keys: Sequence[int]) -> None:
        """Start with the first keys of a list that has not been counted yet."""
        self.keys = keys
        self.counted = False
        self.cursor_row = 0

    def take(self, keys: Sequence[int], *, from_top: bool = False) -> None:
        """Put the whole list in place; the cursor stays on its key or goes to its place."""
        self.cursor_row = 0 if from_top else landing_row(self.keys, self.cursor_row, keys)
        self.keys = keys
        self.counted = True
        self._hidden_marks = len(self._marks.keys() - set(keys)) if self._marks else 0

    def go_to(self, row: int) -> None:
        """Put the cursor on a line, or on the nearest there is."""
        self.cursor_row = max(0, min(row, len(self.keys) - 1))

    def toggle_mark(self) -> None:
        """Mark the key under the cursor, or take its mark off."""
        key = self.cursor_key
        if key is None:
            return
        if key in self._marks:
            del self._marks[key]
        else:
            self._marks[key] = None

    def unmark(self) -> None:
        """Take all marks off."""
        self._marks.clear()
        self._hidden_marks = 0
