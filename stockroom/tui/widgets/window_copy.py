"""Copying out of a windowed table, as plain text."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from textual.app import App

from stockroom.tui.plaintext import clean, say
from stockroom.tui.widgets.window_rows import Row, WindowSource


def copy_rows(app: App[Any], source: WindowSource, keys: Sequence[int]) -> None:
    """Put the records on the clipboard, a line each in the order of `keys`, tabs between cells."""
    found = {row.key: row for row in source.rows(keys)}
    lines = ["\t".join(map(clean, found[key].cells)) for key in keys if key in found]
    app.copy_to_clipboard("\n".join(lines))
    say(app, "1 row copied." if len(lines) == 1 else f"{len(lines):,} rows copied.")


def copy_cell(app: App[Any], row: Row, column: int) -> None:
    """Put one cell on the clipboard."""
    text = clean(row.cells[column])
    app.copy_to_clipboard(text)
    say(app, text, title="Copied")
