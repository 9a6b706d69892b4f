"""What every main screen has: title bar, key line, help, reloading, and words for refusals."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, ClassVar, ParamSpec, TypeVar
from weakref import WeakSet

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.screen import Screen
from textual.worker import Worker, WorkerState

from stockroom.errors import StockroomError
from stockroom.tui.messages import StoreChanged
from stockroom.tui.modal import (
    EVERYWHERE_GROUP,
    FOCUS_BINDINGS,
    BaseModal,
    TroubleScreen,
    attempt,
    tell,
)
from stockroom.tui.palette import KeyCommands
from stockroom.tui.tabs import TABS
from stockroom.tui.widgets.key_line import HELP_ID, KeyLine
from stockroom.tui.widgets.title_bar import TitleBar
from stockroom.tui.widgets.window_table import WindowTable

__all__ = ["BaseModal", "BaseScreen", "TroubleScreen", "attempt", "tell"]

P = ParamSpec("P")
R = TypeVar("R")


class BaseScreen(Screen[None]):
    """A main screen. Subclasses give `MODE`, `compose_body` and, for their own parts, `reload`.

    Reading the record is a matter of `reload`; a change is announced by `announce`, after which
    every screen reloads, those out of sight when they next come into view.
    """

    MODE: ClassVar[str] = ""
    """The mode the app knows this screen by; names the tab that is marked in the title bar."""

    BINDING_GROUP_TITLE = "On this screen"
    HORIZONTAL_BREAKPOINTS = [(0, "narrow"), (72, "normal")]
    COMMANDS = {KeyCommands}
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "question_mark,f1",
            "help",
            "Keys",
            id=HELP_ID,
            tooltip="List every key that works here.",
            group=EVERYWHERE_GROUP,
        ),
        *FOCUS_BINDINGS,
        *(tab.binding for tab in TABS),
    ]
    DEFAULT_CSS = """
    BaseScreen { background: $background; layout: vertical; }
    """

    _mounted: ClassVar[WeakSet[BaseScreen]] = WeakSet()

    def __init__(self) -> None:
        super().__init__()
        self._stale = False

    @property
    def stockroom(self) -> Any:
        """The app's way to the services: the one thing a screen asks of the app beyond Textual."""
        app: Any = self.app
        return app.stockroom

    def compose(self) -> ComposeResult:
        """The title bar, the screen's own parts, the key line."""
        yield TitleBar(self.MODE)
        yield from self.compose_body()
        yield KeyLine()

    def compose_body(self) -> ComposeResult:
        """The screen's own parts."""
        yield from ()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read again what this screen shows. `what` names the kinds of record that changed.

        Reloads every windowed table; a screen with other parts adds them.
        """
        for table in self.query(WindowTable):
            table.reload()

    # Requests

    def attempt(self, act: Callable[P, R], *args: P.args, **kwargs: P.kwargs) -> R | None:
        """The result of a service call, or None after telling the person why it was refused."""
        return attempt(self.app, act, *args, **kwargs)

    def announce(self, *what: str) -> None:
        """Tell every main screen that the record has changed."""
        for screen in tuple(self._mounted):
            screen.post_message(StoreChanged(frozenset(what)))

    # What happens

    def on_mount(self) -> None:
        """Be among the screens that hear of changes."""
        self._mounted.add(self)

    def on_unmount(self) -> None:
        """Hear no more of changes."""
        self._mounted.discard(self)

    def on_store_changed(self, message: StoreChanged) -> None:
        """Reload now if in view (a window may lie over it), else when next in view."""
        message.stop()
        if self in self.app.screen_stack:
            self.reload(message.what)
        else:
            self._stale = True

    def on_screen_resume(self) -> None:
        """Catch up with what changed while another screen was in view."""
        if self._stale:
            self._stale = False
            self.reload()

    def on_window_table_read_failed(self, message: WindowTable.ReadFailed) -> None:
        """Say why a list could not be read."""
        message.stop()
        tell(self.app, message.error)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """Workers run with exit_on_error=False: what they raise is heard here or nowhere."""
        error = event.worker.error
        if event.state is not WorkerState.ERROR or error is None:
            return
        if not isinstance(error, StockroomError):
            raise error
        tell(self.app, error)

    # Actions

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A tab's key works only when the app has that screen."""
        if action == "go":
            return parameters[0] in self.app.MODES
        return super().check_action(action, parameters)

    def action_go(self, mode: str) -> None:
        """Show another main screen."""
        if mode != self.MODE:
            self.app.switch_mode(mode)

    def action_help(self) -> None:
        """List every key that works here."""
        from stockroom.tui.help import HelpScreen

        self.app.push_screen(HelpScreen(self))
