"""Plain text for a terminal or a printer: made safe, measured in cells, cut and wrapped.

Text that people typed may hold anything. A control character is shown as its picture from the
Unicode block "Control Pictures" (an escape shows as `␛`); an invisible character that could turn
a line round or hide in it is shown as `·`. Widths are terminal cells: a wide character counts
two, a combining mark none (Unicode Standard Annex 11, as in Python's `unicodedata`).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

ELLIPSIS = "…"
HIDDEN = "·"
"""Shown for an invisible character that has no picture of its own."""

NARROWEST = 20
"""No page is set narrower than this: below it a terminal has to wrap by itself."""

_ZERO_WIDTH = ("Mn", "Me", "Cf")
# Invisible characters that turn a line round, join it or hide in it. The joiners of Persian and
# of emoji are left out: text cannot be read without them.
_HIDDEN = frozenset(
    chr(code)
    for first, last in (
        (0x80, 0x9F),  # C1 controls
        (0xAD, 0xAD),  # soft hyphen
        (0x61C, 0x61C),  # Arabic letter mark
        (0x180E, 0x180E),  # Mongolian vowel separator
        (0x200B, 0x200B),  # zero width space
        (0x200E, 0x200F),  # direction marks
        (0x202A, 0x202E),  # direction embeddings and overrides
        (0x2060, 0x206F),  # word joiner, invisible operators, direction isolates
        (0xFEFF, 0xFEFF),  # byte order mark
        (0xFFF9, 0xFFFB),  # interlinear annotation
        (0xE0000, 0xE007F),  # tags
    )
    for code in range(first, last + 1)
)


def clean(text: str) -> str:
    """The text on one line, with every control or direction character shown as a visible sign."""
    return text if text.isprintable() else "".join(map(_shown, text))


def clean_lines(text: str) -> tuple[str, ...]:
    """A text of several lines, each made safe; () for an empty text."""
    return tuple(clean(line) for line in text.splitlines())


def is_control(character: str) -> bool:
    """Whether a character could steer a terminal or hide in a line, rather than be read."""
    return character in _HIDDEN or unicodedata.category(character) in ("Cc", "Cs", "Zl", "Zp")


def cells(text: str) -> int:
    """Terminal cells a clean text takes."""
    return len(text) if text.isascii() else sum(map(_cells_of, text))


def cut(text: str, most: int) -> str:
    """The text in `most` cells at the most, with an ellipsis where it is cut.

    A wide character is never halved, so a cut text may be one cell shorter.
    """
    if cells(text) <= most:
        return text
    return "" if most <= 0 else _head(text, most - 1) + ELLIPSIS


def pad(text: str, width: int, *, right: bool = False) -> str:
    """The text cut or filled with spaces to exactly `width` cells; `right` fills before it."""
    shown = cut(text, width)
    spaces = " " * (width - cells(shown))
    return spaces + shown if right else shown + spaces


def wrap(text: str, width: int | None, *, first: str = "", rest: str = "") -> tuple[str, ...]:
    """A clean text in lines of at most `width` cells, or on one line when `width` is None.

    `first` stands before the first line and `rest` before the others. A word wider than a line
    is broken.
    """
    if width is None:
        return (f"{first}{text}".rstrip(),)
    lines: list[str] = []
    line, empty = first, True
    for word in _pieces(text.split(), max(width - max(cells(first), cells(rest)), 1)):
        if not empty and cells(line) + 1 + cells(word) > width:
            lines.append(line.rstrip())
            line, empty = rest, True
        line = line + word if empty else f"{line} {word}"
        empty = False
    return (*lines, line.rstrip())


def _pieces(words: Iterable[str], most: int) -> Iterable[str]:
    """The words, those wider than `most` cells broken up."""
    for word in words:
        left = word
        while cells(left) > most:
            piece = _head(left, most) or left[0]
            yield piece
            left = left[len(piece) :]
        if left:
            yield left


def _head(text: str, most: int) -> str:
    """The longest beginning that takes no more than `most` cells, with its combining marks."""
    if text.isascii():
        return text[:most]
    used = 0
    for place, character in enumerate(text):
        used += _cells_of(character)
        if used > most:
            return text[:place]
    return text


def _cells_of(character: str) -> int:
    """Cells of one character."""
    if character.isascii():
        return 1
    if unicodedata.category(character) in _ZERO_WIDTH:
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _shown(character: str) -> str:
    """A character as it may be shown: itself, its picture, or a dot."""
    if not is_control(character):
        return character
    code = ord(character)
    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "\N{SYMBOL FOR DELETE}"
    if code in (0x2028, 0x2029):
        return "\N{SYMBOL FOR NEWLINE}"
    return "\N{REPLACEMENT CHARACTER}" if unicodedata.category(character) == "Cs" else HIDDEN
