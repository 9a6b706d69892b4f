"""Lists of some dozens of records, shown by the same table as the long ones."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.tui.screens.listed import Listed
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.widgets.window_table import WindowTable


class ShortTable(WindowTable):
    """A table of a list at hand. It has no marks: actions work on the row under the cursor."""

    def __init__(self, columns: Sequence[Column], *, empty: str, id: str) -> None:
        """`empty` is the sentence that stands there when the list has no rows."""
        super().__init__(columns, Listed(()), empty=empty, id=id)
        self.held: tuple[Row, ...] = ()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Space marks nothing here."""
        return False if action == "mark" else super().check_action(action, parameters)

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Show these rows instead; the cursor keeps to its key."""
        self.held = tuple(rows)
        self.show(Listed(self.held))
