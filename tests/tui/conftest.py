"""Comparing screens with what they looked like before: `pytest tests/tui --update-screens`."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from textual._compositor import Compositor
from textual._context import visible_screen_stack
from textual.app import App
from textual.screen import Screen

from stockroom.tui.screens import round as round_screen
from tests.tui.screen_text import SNAPSHOTS, screen_text, snapshot_path


def pytest_addoption(parser: pytest.Parser) -> None:
    """The switch that writes the screens as they are now."""
    parser.addoption(
        "--update-screens",
        action="store_true",
        default=False,
        help="write the text of every screen to tests/tui/snapshots instead of comparing",
    )


@pytest.fixture(autouse=True)
def no_wait_after_the_first_paint(monkeypatch: pytest.MonkeyPatch) -> None:
    """What follows the first paint of the Round follows at once."""
    monkeypatch.setattr(round_screen, "LATER_SECONDS", 0.001)


@pytest.fixture(autouse=True)
def unseen_paints_are_left_out(
    monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest
) -> None:
    """Nobody looks at a screen between two keys: it is painted when a test reads it.

    Textual paints headless screens too and throws it away, which was a third of the time. A test
    of the painting itself is marked `painted`.
    """
    if request.node.get_closest_marker("painted") is not None:
        return
    paint = Compositor.render_update

    def only_whole(
        self: Compositor,
        full: bool = False,
        screen_stack: list[Screen[Any]] | None = None,
        simplify: bool = False,
    ) -> Any:
        if full or simplify:
            return paint(self, full, screen_stack, simplify)
        visible_screen_stack.set([] if screen_stack is None else screen_stack)
        self._dirty_regions.clear()
        return None

    monkeypatch.setattr(Compositor, "render_update", only_whole)


@pytest.fixture
def in_greenwich(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The clock on the wall shows universal time."""
    with monkeypatch.context() as patch:
        patch.setenv("TZ", "UTC")
        time.tzset()
        yield
    time.tzset()


@pytest.fixture
def same_screen(request: pytest.FixtureRequest) -> Callable[[App[Any], str], None]:
    """Call with the app and a literal name: fails when the screen reads differently."""
    update = request.config.getoption("--update-screens", default=False)

    def compare(app: App[Any], name: str) -> None:
        path = snapshot_path(name, app)
        now = screen_text(app) + "\n"
        if update:
            SNAPSHOTS.mkdir(exist_ok=True)
            path.write_text(now, encoding="utf-8")
            return
        assert path.exists(), f"no {path.name} on file; look at the screen, then --update-screens"
        assert now.splitlines() == path.read_text(encoding="utf-8").splitlines()

    return compare
