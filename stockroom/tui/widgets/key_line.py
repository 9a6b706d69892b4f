"""The bottom line: the main keys of the moment, as many as fit, and always the one for help."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from textual import events
from textual.binding import ActiveBinding
from textual.content import Content
from textual.keys import format_key
from textual.screen import Screen
from textual.widget import Widget

GAP_CELLS = 2
"""Blank cells between two keys."""

HELP_ID = "help"
"""The binding that keeps its place at the right end of the line."""

_KEY_NAMES = {
    "escape": "Esc",
    "enter": "Enter",
    "space": "Space",
    "tab": "Tab",
    "backspace": "Backspace",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "home": "Home",
    "end": "End",
    "up": "↑",
    "down": "↓",
    "left": "←",
    "right": "→",
}


def shown_key(key: str) -> str:
    """A key as it is printed on a keyboard: "Esc", "F2", "?", "Shift+Tab"."""
    *held, last = key.split("+")
    if last in _KEY_NAMES:
        name = _KEY_NAMES[last]
    elif last[:1] == "f" and last[1:].isdigit():
        name = last.upper()
    else:
        name = format_key(last)
    return "+".join([part.capitalize() for part in held] + [name])


class KeyLine(Widget):
    """Main keys with a word each, in the order of the bindings; a click presses the key."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES = {"key-line--key", "key-line--word"}
    DEFAULT_CSS = """
    KeyLine {
        dock: bottom;
        height: 1;
        padding: 0 1;
        background: $surface;
        color: $foreground-muted;
        & > .key-line--key { color: $accent; text-style: bold; }
        & > .key-line--word { color: $foreground; }
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self._places: list[tuple[range, str]] = []

    def on_mount(self) -> None:
        """Follow the bindings as focus moves."""
        self.screen.bindings_updated_signal.subscribe(self, self._follow)

    def _follow(self, screen: Screen[Any]) -> None:
        """Show the keys that work now."""
        self.refresh()

    def render(self) -> Content:
        """The keys that fit, and the one for help at the right end."""
        help_key, others = self._shown()
        end = self._item(help_key) if help_key else Content()
        line = Content()
        self._places = []
        for active in others:
            item = self._item(active)
            left = line.cell_length
            if left + item.cell_length + GAP_CELLS + end.cell_length > self.size.width:
                break
            self._places.append((range(left, left + item.cell_length), active.binding.key))
            line += item + " " * GAP_CELLS
        line += " " * (self.size.width - line.cell_length - end.cell_length)
        if help_key:
            self._places.append((range(line.cell_length, self.size.width), help_key.binding.key))
        return line + end

    def _shown(self) -> tuple[ActiveBinding | None, Sequence[ActiveBinding]]:
        """The binding for help, and the others to show: each action once, Escape last."""
        shown: dict[str, ActiveBinding] = {}
        for active in self.screen.active_bindings.values():
            if active.binding.show and active.enabled:
                shown.setdefault(active.binding.action, active)
        help_key = next((one for one in shown.values() if one.binding.id == HELP_ID), None)
        others = [one for one in shown.values() if one is not help_key]
        return help_key, sorted(others, key=lambda one: one.binding.key == "escape")

    def _item(self, active: ActiveBinding) -> Content:
        """One key and its word."""
        return Content.assemble(
            (shown_key(active.binding.key), self.get_visual_style("key-line--key")),
            (f" {active.binding.description}", self.get_visual_style("key-line--word")),
        )

    def on_click(self, event: events.Click) -> None:
        """Press the key whose word was clicked."""
        place = event.get_content_offset(self)
        for cells, key in self._places:
            if place is not None and place.x in cells:
                self.app.simulate_key(key)
