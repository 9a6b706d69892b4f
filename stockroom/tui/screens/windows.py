"""Windows that several screens open: a page to read, a question with cautions, a choice."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import ClassVar, ParamSpec, TypeVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from stockroom.domain.cautions import Caution
from stockroom.tui.base import BaseScreen
from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.widgets.picker import Choice

P = ParamSpec("P")
T = TypeVar("T")

CAUTION_SIGN = "!"
"""Stands before a caution, so that colour is not its only mark."""


def open_window(
    screen: BaseScreen,
    then: Callable[[T | None], None] | None,
    window: Callable[P, Screen[T]],
    *args: P.args,
    **kwargs: P.kwargs,
) -> None:
    """Open a window that is built from the record, or tell why it could not be read.

    `then` takes what the window closes with.
    """
    built = screen.attempt(window, *args, **kwargs)
    if built is not None:
        screen.app.push_screen(built, then)


def caution_text(caution: Caution) -> str:
    """A caution with its sign."""
    return f"{CAUTION_SIGN} {caution.text}"


def source_text(caution: Caution) -> str:
    """Where a caution comes from and how it stands."""
    citation, standing = caution.source.citation, caution.standing.words
    return standing if standing.startswith(citation.casefold()) else f"{citation}; {standing}"


class Cautions(Vertical):
    """Cautions one under the other, each with its source beneath."""

    DEFAULT_CSS = """
    Cautions {
        height: auto;
        .text { color: $warning; }
        .source { color: $foreground-muted; margin-left: 2; }
    }
    """

    def __init__(self, cautions: Sequence[Caution] = (), *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.shown: tuple[Caution, ...] = tuple(cautions)

    def compose(self) -> ComposeResult:
        """A text and a source for each."""
        yield from _caution_widgets(self.shown)

    def show(self, cautions: Sequence[Caution]) -> None:
        """Show these cautions instead."""
        if self.shown != tuple(cautions):
            self.shown = tuple(cautions)
            self.remove_children()
            self.mount_all(_caution_widgets(self.shown))


def _caution_widgets(cautions: Sequence[Caution]) -> Iterator[Static]:
    """The lines of some cautions."""
    for caution in cautions:
        yield Static(plain(caution_text(caution)), classes="text")
        yield Static(plain(source_text(caution)), classes="source")


PAGE_CSS = """
PAGE {
    & > .box { width: 76; }
    & > .box > .inside { padding: 1 1 1 2; }
    .lines.-above { margin-bottom: 1; }
}
"""
"""The look of a page to read, whichever window it stands in."""


class ReadScreen(BaseModal[None]):
    """Lines to read, cautions below them; the arrow keys scroll."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "leave", "Close", show=False, id="read-leave", tooltip="Close."),
    ]
    DEFAULT_CSS = PAGE_CSS.replace("PAGE", "ReadScreen")

    def __init__(
        self, heading: str, lines: Sequence[str], cautions: Sequence[Caution] = ()
    ) -> None:
        super().__init__(heading)
        self.lines = tuple(lines)
        self.cautions = tuple(cautions)

    def compose_inside(self) -> ComposeResult:
        """The lines, then the cautions."""
        yield from _page(self.lines, self.cautions)

    def on_mount(self) -> None:
        """Let the arrow keys scroll."""
        _let_scroll(self)


class CareScreen(ConfirmScreen):
    """Asks before something is done, with the cautions that belong to it."""

    DEFAULT_CSS = PAGE_CSS.replace("PAGE", "CareScreen")

    def __init__(self, heading: str, lines: Sequence[str], cautions: Sequence[Caution]) -> None:
        """`lines` say what would be done; `cautions` what to bear in mind before it is."""
        super().__init__(heading, lines)
        self.cautions = tuple(cautions)

    def compose_inside(self) -> ComposeResult:
        """What would be done, then the cautions."""
        yield from _page(self.lines, self.cautions)

    def on_mount(self) -> None:
        """Let the arrow keys scroll."""
        _let_scroll(self)


def _page(lines: Sequence[str], cautions: Sequence[Caution]) -> ComposeResult:
    """Lines, and the cautions below them."""
    if lines:
        yield Static(plain_lines(lines), classes="lines -above" if cautions else "lines")
    if cautions:
        yield Cautions(cautions)


def _let_scroll(window: BaseModal[None] | BaseModal[bool]) -> None:
    """Give the arrow keys to the body of a window."""
    inside = window.query_one(".inside")
    inside.can_focus = True
    inside.focus()


class ChoiceScreen(BaseModal[str]):
    """A few ways to go on; closes with the key of the one taken, or None when left."""

    DEFAULT_CSS = """
    ChoiceScreen {
        .lines { margin-bottom: 1; }
        OptionList, OptionList:focus {
            height: auto;
            border: none;
            padding: 0;
            background: $surface;
            margin-bottom: 1;
        }
    }
    """

    def __init__(self, heading: str, lines: Sequence[str], choices: Sequence[Choice]) -> None:
        """The first of `choices` stands under the cursor."""
        super().__init__(heading)
        self.lines = tuple(lines)
        self.choices = tuple(choices)

    def compose_inside(self) -> ComposeResult:
        """What it is about, then the choices."""
        yield Static(plain_lines(self.lines), classes="lines")
        yield OptionList(
            *(Option(plain(_choice_line(choice)), id=str(choice.key)) for choice in self.choices)
        )

    def on_mount(self) -> None:
        """Stand on the first choice."""
        listed = self.query_one(OptionList)
        listed.focus()
        listed.highlighted = 0

    @on(OptionList.OptionSelected)
    def _taken(self, event: OptionList.OptionSelected) -> None:
        """Enter or a click takes a choice."""
        event.stop()
        self.dismiss(event.option_id)


def _choice_line(choice: Choice) -> str:
    """A choice and what it means, on one line."""
    return f"{choice.label}: {choice.detail}" if choice.detail else choice.label
