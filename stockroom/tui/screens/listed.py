"""Lists that are in memory already, for the windowed tables."""

from __future__ import annotations

from array import array
from collections.abc import Sequence

from stockroom.tui.widgets.window_rows import Row


class Listed:
    """A `WindowSource` over rows that are all at hand."""

    def __init__(self, rows: Sequence[Row]) -> None:
        """The keys of the rows must differ."""
        self._rows = tuple(rows)
        self._by_key = {row.key: row for row in self._rows}

    def first(self, count: int) -> Sequence[Row]:
        """The first rows."""
        return self._rows[:count]

    def keys(self) -> Sequence[int]:
        """Every key in order."""
        return array("q", [row.key for row in self._rows])

    def rows(self, keys: Sequence[int]) -> Sequence[Row]:
        """The rows of these keys."""
        return [self._by_key[key] for key in keys if key in self._by_key]
