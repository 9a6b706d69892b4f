"""Columns and rows of a linear model with whole numbers, gathered in flat arrays.

The arrays are laid out as solvers take them: rows one after another, each with the numbers of
its columns and their factors.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable
from math import inf


class Sheet:
    """A model being written: columns with cost and bounds, rows with bounds and factors."""

    def __init__(self) -> None:
        self.cost = array("d")
        self.low = array("d")
        self.high = array("d")
        self.whole = array("i")
        self.row_low = array("d")
        self.row_high = array("d")
        self.starts = array("i", (0,))
        self.index = array("i")
        self.factor = array("d")

    def column(
        self, cost: float = 0, low: float = 0, high: float = inf, *, whole: bool = False
    ) -> int:
        """Add a column and tell its number."""
        self.cost.append(cost)
        self.low.append(low)
        self.high.append(high)
        self.whole.append(1 if whole else 0)
        return len(self.cost) - 1

    def row(self, low: float, high: float, terms: Iterable[tuple[int, float]]) -> None:
        """Add a row: low <= sum of factor times column <= high. Each column once."""
        self.row_low.append(low)
        self.row_high.append(high)
        for column, factor in terms:
            self.index.append(column)
            self.factor.append(factor)
        self.starts.append(len(self.index))
