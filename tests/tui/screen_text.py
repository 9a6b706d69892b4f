"""What a person sees, as text: the one place that reads the framework's private compositor."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from textual._context import visible_screen_stack
from textual.app import App

SNAPSHOTS = Path(__file__).parent / "snapshots"

HARD_NAME = '[/] jar [soft] "7" 冷凍'
"""The name of the food in every test of a screen: markup, quotes and wide characters."""

SIZES = ((80, 24), (60, 20))
"""The terminals every screen is looked at on: columns, lines."""


def screen_text(app: App[Any]) -> str:
    """What the person sees, line by line, painted now with what lies behind a window."""
    visible_screen_stack.set(app._background_screens)
    return "\n".join(strip.text.rstrip() for strip in app.screen._compositor.render_strips())


def snapshot_path(name: str, app: App[Any]) -> Path:
    """The file that holds what the screen `name` looks like at the app's size."""
    return SNAPSHOTS / f"{name}-{app.size.width}x{app.size.height}.txt"
