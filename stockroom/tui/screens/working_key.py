"""The key for the working: the same letter on every screen, a function key where text is typed.

The window and the services behind it are imported when the key is first pressed.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, ParamSpec

from textual.binding import Binding
from textual.screen import Screen

from stockroom.services.results import WorkingPage
from stockroom.tui.modal import attempt

P = ParamSpec("P")

LETTER = "w"
WHILE_TYPING = "f6"


def working_binding(
    screen: str,
    tooltip: str = "Show how its figures were reached.",
    *,
    key: str = LETTER,
    show: bool = True,
) -> Binding:
    """The key on one screen; `screen` begins the binding's id."""
    return Binding(key, "working", "Working", show=show, id=f"{screen}-working", tooltip=tooltip)


def open_working(
    screen: Screen[Any],
    heading: str,
    build: Callable[P, WorkingPage],
    *args: P.args,
    **kwargs: P.kwargs,
) -> None:
    """Open the workings that `build` answers, or tell why there are none."""
    from stockroom.tui.screens.working import WorkingScreen

    page = attempt(screen.app, build, *args, **kwargs)
    if page is not None and page.workings:
        screen.app.push_screen(WorkingScreen(heading, page.workings))
