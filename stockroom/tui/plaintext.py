"""Text that people typed, made safe to show: never markup, never a raw control character.

Textual reads a `str` as markup, so a food called `jar [soft]` would lose half its name. Everything
a person typed goes through one of these functions on its way to the screen. A control character is
shown as its picture from the Unicode block "Control Pictures" (an escape shows as `␛`); an
invisible character that could turn a line round or hide in it is shown as `·`. Nothing is dropped:
what is shown has one sign for each character typed.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from typing import Any, Literal

from rich.text import Text
from textual.app import App
from textual.content import Content

Align = Literal["left", "right"]
Keep = Literal["start", "end"]
"""Which end of a text that is too long stays in view."""

Severity = Literal["information", "warning", "error"]

ELLIPSIS = "…"
HIDDEN = "·"
"""Shown for an invisible character that has no picture of its own."""

_LONGEST_CLUSTER = 8
"""Code points looked at for each cell: no readable sign is built of more."""

_HIDDEN_RANGES = (
    (0x7F + 1, 0x9F),  # C1 controls
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


def _shown_instead() -> dict[int, str]:
    """Every code point that must not reach a terminal, and the sign shown in its place."""
    shown = {code: chr(0x2400 + code) for code in range(0x20)}
    shown[0x7F] = "\N{SYMBOL FOR DELETE}"
    shown[0x2028] = shown[0x2029] = "\N{SYMBOL FOR NEWLINE}"
    for first, last in _HIDDEN_RANGES:
        shown.update(dict.fromkeys(range(first, last + 1), HIDDEN))
    shown.update(dict.fromkeys(range(0xD800, 0xE000), "\N{REPLACEMENT CHARACTER}"))
    return shown


_SHOWN_INSTEAD = _shown_instead()


def clean(text: str) -> str:
    """The text on one line, with every control or direction character shown as a visible sign."""
    return text if text.isprintable() else text.translate(_SHOWN_INSTEAD)


def plain(text: str, style: str = "") -> Content:
    """One line of a person's text for Static, Label, OptionList and the like."""
    return Content.styled(clean(text), style) if style else Content(clean(text))


def plain_lines(lines: Iterable[str]) -> Content:
    """Several lines of text, each made safe; only the breaks between them are real."""
    return Content("\n".join(clean(line) for line in lines))


def cell(text: str) -> Text:
    """A person's text for a cell of a DataTable."""
    return Text(clean(text), no_wrap=True, overflow="ellipsis")


def title(text: str) -> str:
    """A person's text for `border_title` and `border_subtitle`, which are always read as markup."""
    return clean(text).replace("[", "\\[")


def say(app: App[Any], text: str, severity: Severity = "information", title: str = "") -> None:
    """Show a passing notice. `title` names the thing, `text` says what happened or what to do.

    Textual shows a notice's title as it stands, so the title is made safe but not escaped.
    """
    app.notify(clean(text), title=clean(title), severity=severity, markup=False)


def width(text: str) -> int:
    """Terminal cells the text takes: a wide character counts two, a combining mark none."""
    return len(text) if text.isascii() else Content(text).cell_length


def fit(text: str, cells: int, align: Align = "left", keep: Keep = "start") -> str:
    """The text made safe and cut or padded to exactly `cells` terminal cells.

    A text too long has an ellipsis where it is cut. A wide character is never halved: a space
    fills its place.
    """
    shown = _cut(clean(text), cells, keep)
    spaces = " " * (cells - width(shown))
    return spaces + shown if align == "right" else shown + spaces


def _cut(text: str, cells: int, keep: Keep) -> str:
    """As much of one end of the text as `cells` hold, with an ellipsis if some is left out."""
    most = (cells + 1) * _LONGEST_CLUSTER
    if cells <= 0:
        return ""
    if len(text) <= most and width(text) <= cells:
        return text
    if keep == "end":
        return ELLIPSIS + _tail(text[-most:], cells - 1)
    return _head(text[:most], cells - 1) + ELLIPSIS


def _head(text: str, cells: int) -> str:
    """The longest beginning that takes no more than `cells`."""
    if text.isascii():
        return text[:cells]
    ends = range(1, len(text) + 1)
    return text[: bisect_right(ends, cells, key=lambda end: width(text[:end]))]


def _tail(text: str, cells: int) -> str:
    """The longest ending that takes no more than `cells` and begins with a whole sign."""
    starts = range(len(text) + 1)
    start = bisect_left(starts, -cells, key=lambda start: -width(text[start:]))
    while start < len(text) and (width(text[start]) == 0 or width(text[start:]) > cells):
        start += 1
    return text[start:]
