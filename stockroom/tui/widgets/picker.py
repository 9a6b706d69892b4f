"""A field that takes one record from the store: type a few letters, Enter takes the first match."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from stockroom.errors import StockroomError
from stockroom.tui.plaintext import clean, fit, plain, width
from stockroom.tui.widgets.fields import Field


@dataclass(frozen=True, slots=True)
class Choice:
    """One record to pick: its key, its name, and a few words that tell it from others."""

    key: int | str
    label: str
    detail: str = ""


Search = Callable[[str], Sequence[Choice]]
"""The best matches for some letters, best first and already cut short; all for none."""


ROOMY = "-roomy"
"""The class of a picker whose list has room of its own, with nothing to lie over."""

SCROLLBAR_CELLS = 1
"""Kept free at the right end of a match, whether or not the list is long enough to scroll."""


class Matches(OptionList, can_focus=False):
    """The matches beneath the line; the keys stay with the line."""


class Picker(Field):
    """A field with a list of matches. Its answer is a `Choice`, or None when nothing is picked.

    The list lies over what is beneath, or has room of its own in a picker of class `-roomy`.
    """

    BINDING_GROUP_TITLE = "In the field"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "down",
            "highlight(1)",
            "Next match",
            show=False,
            id="picker-down",
            tooltip="Go to the next match.",
        ),
        Binding(
            "up",
            "highlight(-1)",
            "Previous match",
            show=False,
            id="picker-up",
            tooltip="Go to the match before.",
        ),
        Binding(
            "escape",
            "close",
            "Close list",
            id="picker-close",
            tooltip="Close the list of matches.",
        ),
    ]
    DEFAULT_CSS = """
    Picker {
        Matches {
            display: none;
            overlay: screen;
            constrain: inside inflect;
            margin-left: 16;
            width: 1fr;
            height: auto;
            max-height: 7;
            padding: 0;
            border: none;
            background: $panel;
            scrollbar-size-vertical: 1;
            & > .option-list--option { padding: 0 1; }
        }
        &.-open Matches { display: block; }
        &.-roomy Matches { display: block; overlay: none; height: 5; visibility: hidden; }
        &.-roomy.-open Matches { visibility: visible; }
    }
    """

    def __init__(
        self,
        name: str,
        label: str,
        search: Search,
        chosen: Choice | None = None,
        *,
        hint: str = "",
        placeholder: str = "type to find",
        answers_to: tuple[str, ...] = (),
    ) -> None:
        """`chosen` is picked at first."""
        value = chosen.label if chosen else ""
        super().__init__(
            name, label, value, hint=hint, placeholder=placeholder, answers_to=answers_to
        )
        self.search = search
        self.choice = chosen
        self._found: tuple[Choice, ...] = ()
        self._looked_up: str | None = None

    def compose_below(self) -> ComposeResult:
        """The list of matches, which lies over what is beneath while it is open."""
        yield Matches()

    @property
    def is_open(self) -> bool:
        """Whether the list of matches is shown."""
        return self.has_class("-open")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Escape closes the list first, and is the form's when it is closed."""
        return self.is_open if action == "close" else True

    def action_highlight(self, step: int) -> None:
        """Open the list at its first match, or go to another match in it."""
        matches = self.query_one(Matches)
        self._catch_up()
        if not self.is_open:
            self._look_up(self.text if self.choice is None else "")
            matches.highlighted = 0 if self._found else None
        elif step > 0:
            matches.action_cursor_down()
        else:
            matches.action_cursor_up()

    def action_close(self) -> None:
        """Close the list; what is typed stays."""
        self._set_open(False)

    def _set_open(self, is_open: bool) -> None:
        """Show or hide the list."""
        self.set_class(is_open, "-open")
        self.refresh_bindings()

    def _look_up(self, letters: str) -> None:
        """Show what matches the letters; with no letters, no match is ready to be taken."""
        self._looked_up = letters
        try:
            self._found = tuple(self.search(letters))
        except StockroomError as error:
            self._found = ()
            self.show_error(error.message)
        self._show_found()
        self.query_one(Matches).highlighted = 0 if self._found and letters else None
        self._set_open(bool(self._found))

    def _show_found(self) -> None:
        """Write the matches into the list, as wide as the line is now."""
        room = max(1, self.input.size.width - SCROLLBAR_CELLS)
        lines = (Option(plain(_line(choice, room))) for choice in self._found)
        self.query_one(Matches).set_options(lines)

    def on_resize(self) -> None:
        """Write the matches again; the same one stays ready to be taken."""
        matches = self.query_one(Matches)
        place = matches.highlighted
        self._show_found()
        matches.highlighted = place

    def _take(self, choice: Choice) -> None:
        """Pick a match: its name stands on the line."""
        self.choice = choice
        self.input.value = choice.label
        self.input.cursor_position = len(self.input.value)
        self.show_error("")
        self._set_open(False)

    def on_descendant_focus(self) -> None:
        """Show what there is to pick from, when nothing is picked and no error is to be read."""
        if self.choice is None and not self.is_open and not self.error:
            self._look_up(self.text)

    def on_descendant_blur(self) -> None:
        """Leave no list behind."""
        self._set_open(False)

    def typed(self) -> None:
        """Other letters, other matches, and nothing picked."""
        super().typed()
        self._catch_up()

    def _catch_up(self) -> None:
        """Look up what stands on the line, unless that is what was picked or looked up last."""
        if self.choice is not None and self.text != clean(self.choice.label):
            self.choice = None
        if self.choice is None and self.text != self._looked_up:
            self._look_up(self.text)

    def finish(self) -> bool:
        """Enter takes the match under the cursor; letters that match nothing are an error."""
        self._catch_up()
        place = self.query_one(Matches).highlighted
        if self.is_open and place is not None:
            self._take(self._found[place])
        if not self.complaint():
            return True
        if self._found:
            self._set_open(True)
        else:
            self.show_error(self.complaint())
        return False

    def complaint(self) -> str:
        """Letters that picked nothing are not an answer."""
        if self.choice is not None or not self.text.strip():
            return ""
        if self._found:
            return "Pick one of the matches, or clear the line."
        return f"Nothing matches “{self.text.strip()}”."

    def press(self, key: str) -> bool:
        """The arrow keys go through the matches at once, so that Enter takes the right one."""
        if key in ("up", "down"):
            self.action_highlight(1 if key == "down" else -1)
            return True
        return super().press(key)

    @on(OptionList.OptionSelected)
    def _clicked(self, event: OptionList.OptionSelected) -> None:
        """A click on a match takes it."""
        event.stop()
        self._take(self._found[event.option_index])
        self.begin()


def _line(choice: Choice, room: int) -> str:
    """A match on one line: its name, and what tells it from others at the right end."""
    detail = clean(choice.detail)
    if not detail or width(clean(choice.label)) + width(detail) + 2 > room:
        return fit(choice.label, room)
    return fit(choice.label, room - width(detail)) + detail
