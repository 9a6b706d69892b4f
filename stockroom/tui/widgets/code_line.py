"""A line that takes codes, typed or scanned, beside keys that are single letters.

A code begins with a digit: as long as nothing is typed, a letter is a key of the screen. Once a
digit stands there, letters belong to the code, until Enter or Escape.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget

LONGEST = 40
"""More signs than any code has; a longer one is cut, and then is no code."""


class CodeLine(Widget, can_focus=True):
    """What is typed of a code; Enter hands it on.

    Each key is acted on as it comes, so that a scanner's burst of keys stays in order: `keys` are
    those of the screen that work while no code is being typed.
    """

    BINDING_GROUP_TITLE = "While a code is typed"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "find", "Find", id="code-find", tooltip="Go to the package of the code."),
        Binding(
            "backspace", "rub_out", "Rub out", show=False, id="code-rub-out", tooltip="One sign."
        ),
        Binding("escape", "clear", "Clear", id="code-clear", tooltip="Forget what is typed."),
    ]
    COMPONENT_CLASSES: ClassVar[set[str]] = {"code-line--label", "code-line--hint"}
    DEFAULT_CSS = """
    CodeLine {
        height: 1;
        padding: 0 1;
        background: $panel;
        & > .code-line--label { color: $foreground-muted; }
        & > .code-line--hint { color: $foreground-muted; }
        &.-typing { background: $block-cursor-background; }
    }
    """

    def __init__(
        self, find: Callable[[str], object], keys: Mapping[str, Callable[[], object]]
    ) -> None:
        """`find` takes a whole code."""
        super().__init__()
        self.typed = ""
        self._find = find
        self._keys = keys

    def render(self) -> Content:
        """What is typed so far, or that a code can be."""
        label = ("Code  ", self.get_visual_style("code-line--label"))
        hint = self.get_visual_style("code-line--hint")
        if not self.typed:
            return Content.assemble(label, ("type or scan one at any time, then Enter", hint))
        return Content.assemble(label, (self.typed, "bold"), "▌", ("  Enter finds it", hint))

    def on_key(self, event: events.Key) -> None:
        """Take a sign of a code, or do at once what the key means."""
        if not self._takes(event.key, event.character or ""):
            return
        event.stop()
        event.prevent_default()

    def _takes(self, key: str, sign: str) -> bool:
        """Whether the key was meant for this line."""
        if sign.isascii() and (sign.isdigit() or (self.typed and sign.isalnum())):
            self._put(self.typed + sign.upper())
            return True
        if not self.typed:
            act = self._keys.get(key)
            if act is not None:
                act()
            return act is not None
        if key in ("enter", "backspace", "escape"):
            {"enter": self.action_find, "backspace": self.action_rub_out}.get(
                key, self.action_clear
            )()
            return True
        return sign.isprintable() and bool(sign)

    def _put(self, typed: str) -> None:
        self.typed = typed[:LONGEST]
        self.set_class(bool(self.typed), "-typing")
        self.refresh()
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Its keys are the screen's own while nothing is typed."""
        return bool(self.typed) if action in ("find", "rub_out", "clear") else True

    def action_find(self) -> None:
        """Hand the code on."""
        code = self.typed
        self._put("")
        self._find(code)

    def action_rub_out(self) -> None:
        """Take the last sign back."""
        self._put(self.typed[:-1])

    def action_clear(self) -> None:
        """Forget what is typed."""
        self._put("")
