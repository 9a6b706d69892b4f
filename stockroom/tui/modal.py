"""Windows that open over a screen, and what happens when a request cannot be met."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, ClassVar, ParamSpec, TypeVar

from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from stockroom.errors import StockroomError, StoreTrouble
from stockroom.tui.plaintext import plain, say, title
from stockroom.tui.widgets.key_line import KeyLine

P = ParamSpec("P")
R = TypeVar("R")
T = TypeVar("T")

EVERYWHERE_GROUP = Binding.Group("Everywhere")

FOCUS_BINDINGS = (
    Binding(
        "tab",
        "app.focus_next",
        "Next part",
        show=False,
        id="focus-next",
        tooltip="Go to the next list or field.",
        group=EVERYWHERE_GROUP,
    ),
    Binding(
        "shift+tab",
        "app.focus_previous",
        "Previous part",
        show=False,
        id="focus-previous",
        tooltip="Go back to the list or field before.",
        group=EVERYWHERE_GROUP,
    ),
)


class BaseModal(ModalScreen[T]):
    """A framed window with a heading, a body that scrolls, and a line of keys."""

    BINDING_GROUP_TITLE = "In this window"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "Close", id="modal-leave", tooltip="Close the window."),
        *FOCUS_BINDINGS,
    ]
    DEFAULT_CSS = """
    BaseModal {
        align: center middle;
        background: $background 65%;
        & > .box {
            width: 68;
            max-width: 100%;
            height: auto;
            max-height: 100%;
            border: round $border;
            border-title-color: $primary;
            border-title-style: bold;
            background: $surface;
        }
        & > .box > .inside {
            height: auto;
            max-height: 100%;
            padding: 1 1 0 2;
            scrollbar-size-vertical: 1;
            scrollbar-gutter: stable;
        }
        & > .box > KeyLine { dock: bottom; padding: 0 2; }
        &.narrow > .box { width: 100%; }
    }
    """
    HORIZONTAL_BREAKPOINTS = [(0, "narrow"), (72, "normal")]

    def __init__(self, heading: str) -> None:
        """`heading` is shown in the frame; it may hold a person's own words."""
        super().__init__()
        self.heading = heading

    def compose(self) -> ComposeResult:
        """The frame around what `compose_inside` gives."""
        with Vertical(classes="box") as box:
            box.border_title = title(self.heading)
            with VerticalScroll(classes="inside", can_focus=False):
                yield from self.compose_inside()
            yield KeyLine()

    def compose_inside(self) -> ComposeResult:
        """The body of the window."""
        yield from ()

    def action_leave(self) -> None:
        """Close without an answer."""
        self.dismiss(None)


class TroubleScreen(BaseModal[None]):
    """The store itself stands in the way: what is wrong and what to do, until it is read."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "leave", "Close", id="trouble-leave", tooltip="Close the window."),
    ]
    DEFAULT_CSS = """
    TroubleScreen {
        & > .box { border: round $error; border-title-color: $error; }
        Static { margin-bottom: 1; }
    }
    """

    def __init__(self, error: StockroomError) -> None:
        super().__init__("The store is in the way")
        self.error = error

    def compose_inside(self) -> ComposeResult:
        """The message, and the hint that goes with it."""
        yield Static(plain(self.error.message))
        yield Static(plain(self.error.hint))


def tell(app: App[Any], error: StockroomError) -> None:
    """Show why a request was not met: a window for store trouble, a passing notice otherwise."""
    if not isinstance(error, StoreTrouble):
        say(app, error.hint or error.message, "warning", title=error.message if error.hint else "")
    elif not isinstance(app.screen, TroubleScreen):
        app.push_screen(TroubleScreen(error))


def attempt(app: App[Any], act: Callable[P, R], *args: P.args, **kwargs: P.kwargs) -> R | None:
    """The result of a service call, or None after telling the person why it was refused.

    Only a StockroomError is turned into words. Any other exception is a defect and passes on.
    """
    try:
        return act(*args, **kwargs)
    except StockroomError as error:
        tell(app, error)
        return None
