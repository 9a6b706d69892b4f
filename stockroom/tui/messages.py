"""Messages that pass between screens."""

from __future__ import annotations

from textual.message import Message


class StoreChanged(Message):
    """The record has changed; every screen that shows some of it reads its own page again."""

    def __init__(self, what: frozenset[str] = frozenset()) -> None:
        """`what` names the kinds of record that changed ("package", "run"); empty means any."""
        super().__init__()
        self.what = what
