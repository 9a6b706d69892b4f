"""What a windowed table reads: rows by key, kept only for the part of the list in view."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, Protocol

Tone = Literal["", "good", "due", "bad", "quiet"]
"""What a row's state means, apart from the word for it, which is always in a cell as well."""

MARGIN_ROWS = 10
"""Rows read and kept beyond each edge of the view (engineering judgement)."""


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a table: the record's key and its cells as text, in the order of the columns."""

    key: int
    cells: tuple[str, ...]
    tone: Tone = ""


class WindowSource(Protocol):
    """A counted, ordered list that gives out only the rows asked for.

    Any of the three may raise a StockroomError; the table then says so and keeps what it shows.
    """

    def first(self, count: int) -> Sequence[Row]:
        """At most `count` rows from the start of the list, from one cheap query."""
        ...

    def keys(self) -> Sequence[int]:
        """Every key in order, best as `array("q")`. Called in a thread of its own."""
        ...

    def rows(self, keys: Sequence[int]) -> Sequence[Row]:
        """The rows of these keys, in any order; a key that is gone is left out."""
        ...


class RowCache:
    """The rows of the view and its margin. Rows outside are forgotten at the next reading."""

    def __init__(self, margin_rows: int = MARGIN_ROWS) -> None:
        self.margin_rows = margin_rows
        self._rows: dict[int, Row | None] = {}

    def __len__(self) -> int:
        return len(self._rows)

    def __contains__(self, key: int) -> bool:
        return key in self._rows

    def get(self, key: int) -> Row | None:
        """The row of a key, or None when it was not read or is gone from the store."""
        return self._rows.get(key)

    def forget(self) -> None:
        """Drop every row, after the record behind them has changed."""
        self._rows.clear()

    def begin(self, rows: Sequence[Row]) -> None:
        """Start with the first rows of a list whose keys are not known yet."""
        self._rows = {row.key: row for row in rows}

    def read(self, source: WindowSource, keys: Sequence[int], top: int, height: int) -> None:
        """Make the rows of lines `top` to `top + height` ready, and those of the margin.

        Reads only what is missing. A key the source does not return is remembered as gone, so
        that it is not asked for again at every repaint.
        """
        window = keys[max(0, top - self.margin_rows) : top + height + self.margin_rows]
        missing = tuple(key for key in window if key not in self._rows)
        fetched = {row.key: row for row in source.rows(missing)} if missing else {}
        self._rows = {
            key: self._rows[key] if key in self._rows else fetched.get(key) for key in window
        }


def landing_row(before: Sequence[int], row: int, after: Sequence[int]) -> int:
    """The line on which a cursor that stood on line `row` of `before` stands in `after`.

    It stays on its key. If that is gone it takes the nearest key below it that is still there,
    which is the row that took its place; then the nearest above; and 0 in a list without any.
    """
    if not before or not after:
        return 0
    try:
        return after.index(before[row])
    except ValueError:
        return _nearest_left(before, row, after)


def _nearest_left(before: Sequence[int], row: int, after: Sequence[int]) -> int:
    """The line in `after` of the key nearest to line `row` of `before`, looking below first."""
    places = {key: place for place, key in enumerate(after)}
    below = (places[key] for key in before[row:] if key in places)
    above = (places[key] for key in reversed(before[:row]) if key in places)
    return next(below, next(above, 0))
