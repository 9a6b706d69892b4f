"""What a windowed table tells its screen. Reached as `WindowTable.RowChosen` and so on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.message import Message

from stockroom.errors import StockroomError

if TYPE_CHECKING:
    from stockroom.tui.widgets.window_table import WindowTable


class OfTable(Message):
    """A message that names the table it comes from."""

    def __init__(self, table: WindowTable) -> None:
        super().__init__()
        self.table = table

    @property
    def control(self) -> WindowTable:
        """The table, for `@on(..., "#id")`."""
        return self.table

    def _is_newer(self, message: Message) -> bool:
        """Whether a later message of the same kind comes from the same table."""
        return type(message) is type(self) and getattr(message, "table", None) is self.table


class RowHighlighted(OfTable, namespace="window_table"):
    """The cursor came to stand on another record; `key` is None in an empty list."""

    def __init__(self, table: WindowTable, key: int | None) -> None:
        super().__init__(table)
        self.key = key

    def can_replace(self, message: Message) -> bool:
        """Only the newest is wanted when the cursor runs."""
        return self._is_newer(message)


class RowChosen(OfTable, namespace="window_table"):
    """Enter, or a double click, on a record."""

    def __init__(self, table: WindowTable, key: int) -> None:
        super().__init__(table)
        self.key = key


class CountChanged(OfTable, namespace="window_table"):
    """The table's `count_text` reads differently now; `text` is what it reads."""

    def __init__(self, table: WindowTable, text: str) -> None:
        super().__init__(table)
        self.text = text

    def can_replace(self, message: Message) -> bool:
        """Only the newest is wanted when the cursor runs."""
        return self._is_newer(message)


class HeaderChosen(OfTable, namespace="window_table"):
    """A click on a heading; `column` is its index in the table's `columns`."""

    def __init__(self, table: WindowTable, column: int) -> None:
        super().__init__(table)
        self.column = column


class ReadFailed(OfTable, namespace="window_table"):
    """The source could not be read; what was shown before stays."""

    def __init__(self, table: WindowTable, error: StockroomError) -> None:
        super().__init__(table)
        self.error = error


class KeysRead(OfTable, namespace="window_table"):
    """The thread has read all keys. Between the table and itself; `ticket` numbers the reading."""

    def __init__(self, table: WindowTable, ticket: int, keys: Sequence[int]) -> None:
        super().__init__(table)
        self.ticket = ticket
        self.keys = keys
