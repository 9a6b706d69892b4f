"""What is told of a store's copies: what is in one, what was made, what a restore would change."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class StoreFacts:
    """What is in a store: enough to tell one copy from another."""

    packages: int
    """Every package ever made."""
    live: int
    """Those neither used up nor discarded."""
    lots: int
    entries: int
    """Entries of the journal."""
    last_words: str = ""
    """What was done last; "" when nothing was."""
    last_on: date | None = None
    first_on: date | None = None
    step: str = ""
    """The latest step of the schema."""


@dataclass(frozen=True, slots=True)
class BackupMade:
    """A copy that was made, opened and found sound."""

    path: str
    size_bytes: int
    facts: StoreFacts
    removed: tuple[str, ...] = ()
    """Older copies that gave way to it."""


@dataclass(frozen=True, slots=True)
class RestorePreview:
    """What a restore would change."""

    store: str
    file: str
    wanted: StoreFacts
    """What is in the copy."""
    migrated_from: str = ""
    """The last step of the copy's schema, when it is older than today's."""
    present: StoreFacts | None = None
    """What is in the store now; None when there is none, or none that can be read."""
    trouble: str = ""
    """Why the present store cannot be read."""
    lost: int = 0
    """Entries of the present journal that the copy has not."""
    regained: int = 0
    """Entries of the copy's journal that the present store has not."""


@dataclass(frozen=True, slots=True)
class Restored:
    """A restore carried out. `kept` is where the store that was there is now, "" if none was."""

    preview: RestorePreview
    kept: str
