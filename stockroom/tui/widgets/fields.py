"""One entry of a form: a label, a line to type on, and a line beneath for a hint or an error."""

from __future__ import annotations

from collections.abc import Callable

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.message import Message
from textual.widgets import Input, Label, Static

from stockroom.tui.plaintext import clean, plain

DIGITS = r"[-+0-9.,]*"
"""What a field for a number lets through."""

ERROR_SIGN = "!"
"""Stands before an error, so that colour is not its only mark."""


class LineInput(Input):
    """An input on one line without a frame, which takes no control characters, typed or pasted.

    Keys that arrive in one burst, from a scanner or a slow line, stay in order: `press` acts on
    the keys it knows at once, and what is typed after Enter waits until it is known where the
    typing cursor goes, and follows it there.
    """

    def __init__(
        self, value: str, press: Callable[[str], bool], *, restrict: str | None, placeholder: str
    ) -> None:
        """`press` is handed each key first, and says whether that was all there is to do."""
        super().__init__(
            clean(value), restrict=restrict, placeholder=clean(placeholder), compact=True
        )
        self.cursor_blink = False
        self._press = press
        self._held: list[events.Key] | None = None

    def validate_value(self, value: str) -> str:
        """The value with control characters made visible, so that none reaches the terminal."""
        return clean(value)

    def on_key(self, event: events.Key) -> None:
        """Keep a key that came after Enter, send a late one on, or let the field act on it."""
        if self._held is not None:
            self._held.append(events.Key(event.key, event.character))
        elif self.screen.focused is not self:
            self.app.post_message(events.Key(event.key, event.character))
        elif not self._press(event.key):
            return
        event.stop()
        event.prevent_default()

    def hold(self) -> None:
        """Keep the keys that come from now on."""
        self._held = []

    def release(self) -> None:
        """Send the kept keys on to where the typing cursor is now; nowhere if the form closed."""
        kept, self._held = self._held, None
        if self.screen.is_current:
            for key in kept or ():
                self.app.post_message(key)


class Field(Vertical):
    """A line to type on. Enter goes on to the next field; an error stays until something changes.

    `name` is what the form's answers call it. An error that names one of `answers_to`, the label
    or the name belongs to this field.
    """

    DEFAULT_CSS = """
    Field {
        height: auto;
        & > .entry { height: 1; }
        .label { width: 16; color: $foreground-muted; }
        LineInput { width: 1fr; background: $panel; }
        LineInput.-textual-compact { padding: 0 1; }
        LineInput:focus { background: $block-cursor-background; }
        .unit { width: auto; padding: 0 0 0 1; color: $foreground-muted; }
        .note { height: auto; min-height: 1; margin-left: 16; padding: 0 1; }
        .note { color: $foreground-muted; }
        &.-error .note { color: $error; }
        &.-here .label { color: $foreground; text-style: bold; }
    }
    """

    class Moved(Message):
        """Something was typed, or Enter was pressed and the field is `done` with.

        Sent to the screen itself. A form goes on to the next field when one is done; a handler of
        its own that calls `prevent_default` can go elsewhere instead.
        """

        def __init__(self, field: Field, *, done: bool) -> None:
            super().__init__()
            self.field = field
            self.done = done

    def __init__(
        self,
        name: str,
        label: str,
        value: str = "",
        *,
        hint: str = "",
        unit: str = "",
        placeholder: str = "",
        restrict: str | None = None,
        answers_to: tuple[str, ...] = (),
    ) -> None:
        """`unit` stands behind the line; `restrict` is a regular expression such as `DIGITS`."""
        super().__init__(name=name, id=f"field-{name}")
        self.label = label
        self.hint = hint
        self.unit = unit
        self.names = frozenset(word.casefold() for word in (name, label, *answers_to))
        self.input = LineInput(value, self.press, restrict=restrict, placeholder=placeholder)
        self._before = self.input.value
        self._error = ""
        self._error_for = ""

    def compose(self) -> ComposeResult:
        """Label, line and unit side by side, what a kind of field adds, the note beneath."""
        with Horizontal(classes="entry"):
            yield Label(plain(self.label), classes="label")
            yield self.input
            if self.unit:
                yield Label(plain(self.unit), classes="unit")
        yield from self.compose_below()
        yield Static(plain(self.hint), classes="note")

    def compose_below(self) -> ComposeResult:
        """What stands between the line and the note."""
        yield from ()

    @property
    def text(self) -> str:
        """What stands on the line now."""
        return self.input.value

    @property
    def is_changed(self) -> bool:
        """Whether anything was typed that differs from what stood there at first."""
        return self.input.value != self._before

    @property
    def error(self) -> str:
        """The error shown, or "" when there is none."""
        return self._error

    def show_error(self, text: str) -> None:
        """Show what is wrong in place of the hint; "" shows the hint again."""
        self._error, self._error_for = text, self.text
        self.set_class(bool(text), "-error")
        note = f"{ERROR_SIGN} {text}" if text else self.hint
        self.query_one(".note", Static).update(plain(note))

    def begin(self) -> None:
        """Put the typing cursor on the line, at once."""
        self.screen.set_focus(self.input)

    def typed(self) -> None:
        """Something was typed; the news of it may come later than the next key."""
        if self._error and self.text != self._error_for:
            self.show_error("")

    def finish(self) -> bool:
        """Enter was pressed: whether the field is done with, so that the next one is wanted."""
        return True

    def complaint(self) -> str:
        """Why what stands on the line cannot be an answer at all; "" when it may be."""
        return ""

    def press(self, key: str) -> bool:
        """Act on a key that is not text; False when it is none of the field's own."""
        if key != "enter":
            return False
        if self.finish():
            self.input.hold()
            self.screen.post_message(self.Moved(self, done=True))
            self.screen.call_later(self.input.release)
        return True

    def on_descendant_focus(self) -> None:
        """Let the label stand out."""
        self.add_class("-here")

    def on_descendant_blur(self) -> None:
        """Let the label step back."""
        self.remove_class("-here")

    @on(Input.Changed)
    def _input_changed(self, event: Input.Changed) -> None:
        """A change answers the error."""
        event.stop()
        self.typed()
        self.screen.post_message(self.Moved(self, done=False))
