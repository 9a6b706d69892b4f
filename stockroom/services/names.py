"""Names and notes as people type them: kept exactly, but never empty and never endless."""

from __future__ import annotations

from stockroom.errors import BadInput

LONGEST_NAME = 80
LONGEST_NOTE = 2000


def clean_name(typed: str, what: str) -> str:
    """A name without space round it; inner characters stay. Raises BadInput."""
    name = " ".join(storable(typed, what).split())
    if not name:
        raise BadInput(what, typed, "a name with at least one letter or digit")
    if len(name) > LONGEST_NAME:
        raise BadInput(what, f"{name[:30]}…", f"at most {LONGEST_NAME} characters")
    return name


def clean_note(typed: str) -> str:
    """A note without space round it. Raises BadInput when it is endless."""
    note = storable(typed, "note").strip()
    if len(note) > LONGEST_NOTE:
        raise BadInput("note", f"{note[:30]}…", f"at most {LONGEST_NOTE} characters")
    return note


def storable(typed: str, what: str) -> str:
    """The text itself, when a file can hold it. Raises BadInput."""
    # Half a surrogate pair comes from a terminal that does not send UTF-8.
    if any("\ud800" <= character <= "\udfff" for character in typed):
        raise BadInput(what, "…", "it again in a terminal set to UTF-8")
    return typed
