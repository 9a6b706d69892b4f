"""A line to find by: what is typed narrows the list under it at once."""

from __future__ import annotations

from collections.abc import Callable

from stockroom.tui.widgets.fields import Field


class FindLine(Field):
    """One line without a note. Enter finishes it; Down goes to the list."""

    DEFAULT_CSS = """
    FindLine {
        padding: 0 1;
        & > .note { display: none; }
        & > .entry > .label { width: 6; }
    }
    """

    def __init__(self, label: str, placeholder: str, go_down: Callable[[], object]) -> None:
        """`go_down` gives the keys to the list."""
        super().__init__("find", label, placeholder=placeholder)
        self._go_down = go_down

    def press(self, key: str) -> bool:
        """Down leaves the line, Enter takes what it found."""
        if key == "down":
            self._go_down()
            return True
        return super().press(key)
