"""Columns of a windowed table: which of them fit a width, and how wide each becomes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from stockroom.tui.plaintext import Align, Keep

Look = Literal["plain", "main", "quiet", "tone"]
"""How a column is drawn: `main` stands out, `quiet` steps back, `tone` takes the row's tone."""

GAP_CELLS = 2
"""Blank cells between two columns."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its heading and how it gives way when the screen is narrow.

    `width` is a fixed number of cells. With `weight` above 0 the column is flexible: it is at
    least `width` cells wide and takes a share of the spare cells by weight. `priority` 0 always
    stays; the highest number is the first to drop out. A text too long keeps its `keep` end: for a
    place ("Cellar / Rack 2 / Bin 7") that is the end. All widths are in terminal cells.
    """

    title: str
    width: int
    weight: int = 0
    align: Align = "left"
    priority: int = 0
    look: Look = "plain"
    keep: Keep = "start"


@dataclass(frozen=True, slots=True)
class Placed:
    """A column that is drawn: `index` is its place in a row's cells, `left` its first cell."""

    index: int
    left: int
    width: int
    column: Column


def lay_out(columns: Sequence[Column], room_cells: int) -> tuple[Placed, ...]:
    """The columns that fit into `room_cells`, each with its place and width, in their order."""
    chosen = _that_fit(columns, room_cells)
    widths = _shrunk([column.width for _, column in chosen], room_cells)
    spare = room_cells - _taken(widths)
    shares = _shares([column.weight for _, column in chosen], max(spare, 0))
    placed: list[Placed] = []
    left = 0
    for (index, column), width, share in zip(chosen, widths, shares, strict=True):
        placed.append(Placed(index, left, width + share, column))
        left += width + share + GAP_CELLS
    return tuple(placed)


def _taken(widths: Sequence[int]) -> int:
    """Cells that columns of these widths take, gaps included."""
    return sum(widths) + GAP_CELLS * (len(widths) - 1)


def _that_fit(columns: Sequence[Column], room_cells: int) -> list[tuple[int, Column]]:
    """The numbered columns left after dropping the least wanted ones until the rest fit."""
    chosen = list(enumerate(columns))
    while _taken([column.width for _, column in chosen]) > room_cells:
        last = max(range(len(chosen)), key=lambda place: (chosen[place][1].priority, place))
        if chosen[last][1].priority == 0:
            break
        del chosen[last]
    return chosen


def _shrunk(widths: list[int], room_cells: int) -> list[int]:
    """The widths with the widest made narrower, cell by cell, until they fit (never below 1)."""
    while _taken(widths) > room_cells and max(widths, default=1) > 1:
        widths[widths.index(max(widths))] -= 1
    return widths


def _shares(weights: Sequence[int], spare_cells: int) -> list[int]:
    """The spare cells dealt out by weight, all of them, when any column is flexible."""
    total = sum(weights)
    shares: list[int] = []
    dealt = reached = 0
    for weight in weights:
        reached += weight
        upto = spare_cells * reached // total if total else 0
        shares.append(upto - dealt)
        dealt = upto
    return shares
