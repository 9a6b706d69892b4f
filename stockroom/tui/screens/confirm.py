"""A window that asks once before something is done."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain_lines


class ConfirmScreen(BaseModal[bool]):
    """Says what is about to happen; Enter does it, Escape leaves it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "confirm", "Do it", id="confirm", tooltip="Do what is asked about."),
    ]

    def __init__(self, heading: str, lines: Sequence[str]) -> None:
        super().__init__(heading)
        self.lines = tuple(lines)

    def compose_inside(self) -> ComposeResult:
        """What is asked about."""
        yield Static(plain_lines(self.lines))

    def action_confirm(self) -> None:
        """Close with yes."""
        self.dismiss(True)
