"""The one place where SQLite's values become ours and back."""

from __future__ import annotations

import unicodedata
from datetime import date


def day(text: str) -> date:
    """A stored day; the column is never empty."""
    return date.fromisoformat(text)


def day_or_none(text: str | None) -> date | None:
    """A stored day that may be unknown or not have come."""
    return None if text is None else date.fromisoformat(text)


def text_of(value: date | None) -> str | None:
    """A day as it is stored."""
    return None if value is None else value.isoformat()


def marks(count: int) -> str:
    """Placeholders for an IN list of `count` values."""
    return ", ".join("?" * count)


def like_prefix(text: str) -> str:
    """A LIKE pattern for texts that begin with `text`; use with ESCAPE '!'."""
    return _escaped(text) + "%"


def like_inside(text: str) -> str:
    """A LIKE pattern for texts that hold `text`; use with ESCAPE '!'."""
    return "%" + _escaped(text) + "%"


def _escaped(text: str) -> str:
    return text.replace("!", "!!").replace("%", "!%").replace("_", "!_")


def folded(text: str) -> str:
    """A text as it is compared when searching: without case and without accents."""
    apart = unicodedata.normalize("NFKD", text)
    return "".join(sign for sign in apart if not unicodedata.combining(sign)).casefold()


def note_words(text: str) -> str:
    """A full-text query for notes holding words that begin with each of these words.

    Each word is quoted, so nothing typed is read as query language; no words, no search ("").
    """
    # A NUL would end the query inside a quoted word.
    words = text.replace("\0", " ").split()
    quoted = ('"' + word.replace('"', '""') + '"*' for word in words if word.strip('"'))
    return " ".join(quoted)
