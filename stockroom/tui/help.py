"""The window behind `?`: every key that works now, written from the bindings themselves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from textual.app import App, ComposeResult
from textual.binding import ActiveBinding, Binding, BindingType
from textual.containers import Horizontal
from textual.dom import DOMNode
from textual.screen import Screen
from textual.widgets import Static

from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain
from stockroom.tui.widgets.key_line import shown_key

PALETTE_ACTION = "command_palette"
EVERYWHERE = "Everywhere"
FIRST_SECTIONS = ("On this screen", "In this form", "In this window")
"""What a person can do here stands before how to move about."""

LAST_SECTIONS = ("Screens", EVERYWHERE)


@dataclass(frozen=True, slots=True)
class KeyHelp:
    """One action: the keys that do it, its name and what it does. `id` re-maps the keys."""

    id: str
    keys: tuple[str, ...]
    description: str
    tooltip: str


def is_listed(binding: Binding) -> bool:
    """Whether a binding is one of ours: those have ids. The framework's palette counts too."""
    return binding.id is not None or binding.action.endswith(PALETTE_ACTION)


def key_sections(bindings: Mapping[str, ActiveBinding]) -> dict[str, tuple[KeyHelp, ...]]:
    """The bindings by where they work, each action once with all its keys."""
    sections: dict[str, dict[str, KeyHelp]] = {name: {} for name in FIRST_SECTIONS}
    for key, (node, binding, _enabled, tooltip) in bindings.items():
        if not is_listed(binding):
            continue
        section = sections.setdefault(_section_name(node, binding), {})
        before = section.get(binding.action)
        keys = (*before.keys, shown_key(key)) if before else (shown_key(key),)
        section[binding.action] = KeyHelp(
            binding.id or PALETTE_ACTION, keys, binding.description.capitalize(), tooltip
        )
    sections |= {name: sections.pop(name) for name in LAST_SECTIONS if name in sections}
    return {name: tuple(section.values()) for name, section in sections.items() if section}


def _section_name(node: DOMNode, binding: Binding) -> str:
    """The heading a binding is listed under."""
    if binding.group is not None and binding.group.description:
        return binding.group.description
    if isinstance(node, App):
        return EVERYWHERE
    return getattr(node, "BINDING_GROUP_TITLE", None) or "In this part"


class HelpScreen(BaseModal[None]):
    """Keys, names and one sentence each, by where they work."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "question_mark,f1,enter",
            "leave",
            "Close",
            show=False,
            id="help-leave",
            tooltip="Close the list of keys.",
        ),
    ]
    DEFAULT_CSS = """
    HelpScreen {
        & > .box { width: 76; height: 100%; }
        & > .box > .inside { height: 1fr; }
        .section { color: $primary; text-style: bold; margin-top: 1; }
        .section.-first { margin-top: 0; }
        .line { height: auto; }
        .keys { width: 12; color: $accent; text-style: bold; }
        .name { width: 18; }
        .what { width: 1fr; padding: 0 1 0 0; color: $foreground-muted; }
        &.narrow .keys { width: 10; }
        &.narrow .name { width: 15; }
    }
    """

    def __init__(self, screen: Screen[Any]) -> None:
        """Lists what works on `screen` at the moment it is asked for."""
        super().__init__("Keys")
        self.sections = key_sections(screen.active_bindings)

    def compose_inside(self) -> ComposeResult:
        """A heading for each section and a line for each action."""
        for place, (name, lines) in enumerate(self.sections.items()):
            yield Static(plain(name), classes="section" if place else "section -first")
            for line in lines:
                with Horizontal(classes="line"):
                    yield Static(plain(" ".join(line.keys)), classes="keys")
                    yield Static(plain(line.description), classes="name")
                    yield Static(plain(line.tooltip), classes="what")

    def on_mount(self) -> None:
        """Let the arrow keys scroll."""
        inside = self.query_one(".inside")
        inside.can_focus = True
        inside.focus()
