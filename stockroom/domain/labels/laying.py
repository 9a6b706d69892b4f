"""Laying words in lines beside and below the code symbol, at one size of type."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from stockroom.domain.labels.layout import Area

# Engineering judgement, as are all measures of the layout here.
LINE_PERCENT = 120
"""From one line to the next, of the size of type."""
STRONG_PERCENT = 115
"""How much larger a strong line is set."""
STRONG_EXTRA_EMS = 0.04
"""How much wider a strong text is drawn than its letters measure."""


@dataclass(frozen=True, slots=True)
class Words:
    """One statement to be laid. `free` words may be broken between letters."""

    key: str
    text: str
    strong: bool
    free: bool


@dataclass(frozen=True, slots=True)
class Line:
    """One printed line: its words, and its top left corner in the area."""

    key: str
    text: str
    strong: bool
    left_um: int
    top_um: int
    size_um: int


def lay(
    words: Sequence[Words], area: Area, measure: Callable[[str], float], size_um: int
) -> tuple[Line, ...] | None:
    """The lines of all words at one size, or None when they do not fit. `measure` is in ems."""
    page = _Page(area, measure)
    for one in words:
        scale = STRONG_PERCENT if one.strong else 100
        if not page.take(one, size_um * scale // 100):
            return None
    return tuple(page.lines)


class _Page:
    """Lines as they are added, from the top."""

    def __init__(self, area: Area, measure: Callable[[str], float]) -> None:
        self.area = area
        self.measure = measure
        self.lines: list[Line] = []
        self.top_um = 0

    def take(self, words: Words, size_um: int) -> bool:
        """Add all lines of a statement; False when there is no room for them."""
        rest = words.text.split(" ")
        while rest:
            height = size_um * LINE_PERCENT // 100
            if self.top_um + height > self.area.height_um:
                return False
            count = self._fitting(rest, words.strong, size_um)
            if count == 0:
                rest = self._broken(rest, words, size_um)
                if not rest:
                    return False
                continue
            text = " ".join(rest[:count])
            left = self._left_um
            line = Line(words.key, text, words.strong, left, self.top_um, size_um)
            self.lines.append(line)
            self.top_um += height
            rest = rest[count:]
        return True

    @property
    def _beside(self) -> bool:
        """Whether the next line stands beside the symbol."""
        return self.top_um < self.area.symbol_um

    @property
    def _left_um(self) -> int:
        return self.area.symbol_um if self._beside else 0

    def _fits(self, text: str, strong: bool, size_um: int) -> bool:
        ems = self.measure(text) + (STRONG_EXTRA_EMS if strong else 0)
        return self._left_um + ems * size_um <= self.area.width_um

    def _fitting(self, rest: Sequence[str], strong: bool, size_um: int) -> int:
        """How many words go on the next line."""
        count = 0
        while count < len(rest) and self._fits(" ".join(rest[: count + 1]), strong, size_um):
            count += 1
        return count

    def _broken(self, rest: list[str], words: Words, size_um: int) -> list[str]:
        """What is left to lay when the first word is too wide; nothing when it cannot be laid.

        Below the symbol there may be room; else a free text is broken between letters.
        """
        if self._beside and not words.free:
            self.top_um = self.area.symbol_um
            return rest
        if not words.free:
            return []
        for end in _breaks(rest[0]):
            if self._fits(rest[0][:end], words.strong, size_um):
                return [rest[0][:end], rest[0][end:], *rest[1:]]
        if self._beside:
            self.top_um = self.area.symbol_um
            return rest
        return []


def _breaks(word: str) -> Iterator[int]:
    """Where a word may be broken, the latest first: never before a combining mark."""
    for end in range(len(word) - 1, 0, -1):
        if not unicodedata.category(word[end]).startswith("M"):
            yield end
