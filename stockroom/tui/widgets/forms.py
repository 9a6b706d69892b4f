"""A form in a window: digits and Enter from field to field, and nothing typed is ever lost.

When the service refuses, the window stays as it is: the words appear beside the field the error
names, or at the bottom when it names none. Leaving asks once more if something was typed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar, Generic, TypeVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.errors import BadInput, NotFound, StockroomError
from stockroom.tui.help import HelpScreen
from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.widgets.fields import ERROR_SIGN, Field
from stockroom.tui.widgets.key_line import HELP_ID
from stockroom.tui.widgets.picker import ROOMY, Choice, Picker, Search

T = TypeVar("T")

DROP_WARNING = "Press Escape again to drop what you typed."


@dataclass(frozen=True, slots=True)
class Answers:
    """What stands in a form's fields, by their names."""

    texts: Mapping[str, str]
    choices: Mapping[str, Choice | None]

    def text(self, name: str) -> str:
        """What was typed in a field."""
        return self.texts[name]

    def choice(self, name: str) -> Choice | None:
        """What was picked in a picker, or None."""
        return self.choices[name]

    def key(self, name: str) -> int | str | None:
        """The key of what was picked, or None."""
        choice = self.choices[name]
        return None if choice is None else choice.key


class FormScreen(BaseModal[T], Generic[T]):
    """Asks for a few things and hands them to `submit`; the window closes with its result.

    `submit` turns the answers into the typed result, calling the service if there is one to
    call. A StockroomError it raises is shown and nothing typed is touched.
    """

    BINDING_GROUP_TITLE = "In this form"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "f9",
            "submit",
            "Done",
            id="form-submit",
            tooltip="Finish the form from any field; Enter in the last field does the same.",
        ),
        Binding(
            "escape",
            "leave",
            "Leave",
            id="form-leave",
            tooltip="Leave the form; asks once more if something was typed.",
        ),
        Binding("f1", "help", "Keys", id=HELP_ID, tooltip="List every key that works here."),
    ]
    DEFAULT_CSS = """
    FormScreen {
        .about { color: $foreground-muted; margin-bottom: 1; }
        .foot { height: auto; min-height: 1; color: $warning; }
        &.narrow .label { width: 12; }
        &.narrow .note { margin-left: 12; }
        &.narrow Matches { margin-left: 12; }
    }
    """

    def __init__(
        self,
        heading: str,
        fields: Sequence[Field],
        submit: Callable[[Answers], T],
        *,
        about: Sequence[str] = (),
    ) -> None:
        """`about` is what the person needs to know before answering, a line each."""
        super().__init__(heading)
        self.fields = tuple(fields)
        self.about = tuple(about)
        self._submit = submit
        self._asked_to_drop = False
        self._said_for: Answers | None = None

    def compose_inside(self) -> ComposeResult:
        """What to know, the fields, and the line for what is wrong with the whole."""
        if self.about:
            yield Static(plain_lines(self.about), classes="about")
        yield from self.fields
        yield Static(classes="foot")

    def on_mount(self) -> None:
        """Begin at the first field."""
        if isinstance(self.fields[-1], Picker):
            self.fields[-1].add_class(ROOMY)
        self.fields[0].begin()

    @property
    def answers(self) -> Answers:
        """What stands in the fields now."""
        return Answers(
            {field.name or "": field.text for field in self.fields},
            {field.name or "": field.choice for field in self.fields if isinstance(field, Picker)},
        )

    def _say_below(self, text: str) -> None:
        """Show a sentence under the fields until one of them changes; "" shows none."""
        self._said_for = self.answers
        foot = self.query_one(".foot", Static)
        foot.update(plain(text))
        if text:
            # Below a long form on a low terminal it would be said out of sight.
            self.call_after_refresh(foot.scroll_visible, animate=False)

    @on(Field.Moved)
    def _go_on(self, message: Field.Moved) -> None:
        """Enter goes to the next field, from the last one it finishes the form."""
        message.stop()
        if self.answers != self._said_for:
            self._asked_to_drop = False
            self._say_below("")
        if not message.done:
            return
        place = self.fields.index(message.field) + 1
        if place < len(self.fields):
            self.fields[place].begin()
        else:
            self.action_submit()

    def action_submit(self) -> None:
        """Hand the answers over; close with the result, or show why it was refused."""
        if self.stop_at_unfit():
            return
        try:
            result = self._submit(self.answers)
        except StockroomError as error:
            self._refuse(error)
        else:
            self.dismiss(result)

    def stop_at_unfit(self) -> bool:
        """Whether a field holds what cannot be an answer at all; it says so then."""
        unfit = next((field for field in self.fields if field.complaint()), None)
        if unfit is not None:
            unfit.show_error(unfit.complaint())
            unfit.begin()
        return unfit is not None

    def _refuse(self, error: StockroomError) -> None:
        """Show the refusal where it belongs and put the typing cursor there."""
        words = f"{error.message} {error.hint}".strip()
        named = _named(error)
        field = next((field for field in self.fields if named in field.names), None)
        for picker in (one for one in self.fields if isinstance(one, Picker)):
            picker.action_close()  # its matches would lie over the words
        if field is None:
            self._say_below(f"{ERROR_SIGN} {words}")
        else:
            field.show_error(words)
            field.begin()

    def action_leave(self) -> None:
        """Close without a result, at once if nothing was typed."""
        if self._asked_to_drop or not any(field.is_changed for field in self.fields):
            self.dismiss(None)
            return
        self._asked_to_drop = True
        self._say_below(DROP_WARNING)

    def action_help(self) -> None:
        """List every key that works here."""
        self.app.push_screen(HelpScreen(self))


def _named(error: StockroomError) -> str:
    """The entry an error is about, as a field would be called; "" when it names none."""
    if isinstance(error, BadInput):
        return error.what.casefold()
    return error.kind.casefold() if isinstance(error, NotFound) else ""


def pick_one(
    heading: str, label: str, search: Search, *, about: Sequence[str] = ()
) -> FormScreen[Choice | None]:
    """A window to pick one record; closes with its `Choice`, or None."""
    picker = Picker("picked", label, search)
    return FormScreen(heading, (picker,), lambda answers: answers.choice("picked"), about=about)
