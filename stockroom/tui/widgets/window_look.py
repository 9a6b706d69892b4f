"""The keys and the colours of a windowed table."""

from __future__ import annotations

from textual.binding import Binding


def _key(key: str, action: str, name: str, label: str, tooltip: str) -> Binding:
    """A key of the table, listed by `?` and left out of the line of main keys."""
    return Binding(key, action, label, show=False, id=f"table-{name}", tooltip=tooltip)


BINDINGS = (
    _key("enter", "choose", "choose", "Open", "Open the row under the cursor."),
    _key("up", "move(-1)", "up", "Row up", "Move the cursor one row up."),
    _key("down", "move(1)", "down", "Row down", "Move the cursor one row down."),
    _key("pageup", "page(-1)", "page-up", "Page up", "Move the view one page up."),
    _key("pagedown", "page(1)", "page-down", "Page down", "Move the view one page down."),
    _key("home", "first", "first", "First row", "Go to the first row of the list."),
    _key("end", "last", "last", "Last row", "Go to the last row of the list."),
    _key("space", "mark", "mark", "Mark", "Mark or unmark; actions take all marked."),
    _key("escape", "unmark", "unmark", "Clear marks", "Take the marks off all rows."),
    _key("left", "column(-1)", "left", "Column left", "Choose the column to copy from."),
    _key("right", "column(1)", "right", "Column right", "Choose the column to copy from."),
    _key("y", "copy_row", "copy-row", "Copy row", "Copy the row, or all marked rows."),
    _key("Y", "copy_cell", "copy-cell", "Copy cell", "Copy the cell of the chosen column."),
)

COMPONENTS = frozenset(
    f"window-table--{part}"
    for part in (
        "header",
        "header-current",
        "cursor",
        "cursor-away",
        "marked",
        "sign",
        "main",
        "quiet",
        "empty",
        "tone-good",
        "tone-due",
        "tone-bad",
    )
)

CSS = """
WindowTable {
    overflow-x: hidden;
    overflow-y: auto;
    scrollbar-gutter: stable;
    scrollbar-size-vertical: 1;
    width: 1fr;
    height: 1fr;
    background: $background;
    color: $foreground;
    & > .window-table--header { background: $surface; color: $foreground-muted; }
    & > .window-table--header-current { color: $foreground-muted; text-style: underline; }
    & > .window-table--cursor { background: $block-cursor-background; }
    & > .window-table--cursor-away { background: $surface; }
    & > .window-table--marked { background: $accent 14%; }
    & > .window-table--sign { color: $accent; text-style: bold; }
    & > .window-table--main { text-style: bold; }
    & > .window-table--quiet { color: $foreground-muted; }
    & > .window-table--empty { color: $foreground-muted; }
    & > .window-table--tone-good { color: $success; }
    & > .window-table--tone-due { color: $warning; }
    & > .window-table--tone-bad { color: $error; text-style: bold; }
}
"""
