"""The steps of a recipe, written in a window of their own."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static, TextArea
from textual.widgets.text_area import Edit, EditResult

from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import clean, plain
from stockroom.tui.widgets.forms import DROP_WARNING


class PlainArea(TextArea):
    """Several lines of text that take no control characters, typed or pasted."""

    def edit(self, edit: Edit) -> EditResult:
        """Make what comes in visible, line by line."""
        edit.text = "\n".join(clean(line) for line in edit.text.splitlines() or [""]) + (
            "\n" if edit.text.endswith("\n") else ""
        )
        return super().edit(edit)


class StepsScreen(BaseModal[str]):
    """The steps of a recipe, as many lines as wanted; closes with the text."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f9", "done", "Done", id="steps-done", tooltip="Keep the steps."),
        Binding(
            "escape",
            "leave",
            "Leave",
            id="steps-leave",
            tooltip="Drop the changes, after asking once.",
        ),
    ]
    DEFAULT_CSS = """
    StepsScreen {
        & > .box { width: 76; }
        TextArea, TextArea:focus { height: 12; border: none; padding: 0 1; background: $panel; }
        .foot { height: 1; color: $warning; }
    }
    """

    def __init__(self, recipe: str, steps: str) -> None:
        super().__init__(f"Steps of {recipe}" if recipe else "Steps")
        self.steps = steps
        self._asked_to_drop = False

    def compose_inside(self) -> ComposeResult:
        """The text."""
        area = PlainArea(
            self.steps, soft_wrap=True, tab_behavior="focus", highlight_cursor_line=False
        )
        area.cursor_blink = False
        yield area
        yield Static(classes="foot")

    def on_mount(self) -> None:
        """Begin to write."""
        self.query_one(PlainArea).focus()

    @on(TextArea.Changed)
    def _written(self) -> None:
        """A change answers the question whether to drop it."""
        self._asked_to_drop = False
        self.query_one(".foot", Static).update("")

    def action_leave(self) -> None:
        """Close without the text, at once if nothing was written."""
        if self._asked_to_drop or self.query_one(PlainArea).text == self.steps:
            self.dismiss(None)
            return
        self._asked_to_drop = True
        self.query_one(".foot", Static).update(plain(DROP_WARNING))

    def action_done(self) -> None:
        """Close with the text."""
        self.dismiss(self.query_one(PlainArea).text)
