"""The list of the Horizon: a line of advice takes the room of columns that only foods have."""

from __future__ import annotations

from textual.strip import Strip

from stockroom.tui.screens.horizon_words import COLUMNS, is_advice
from stockroom.tui.screens.sections import SectionTable
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_lines import LinePainter
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.widgets.window_table import HEADER_LINES

_ALIKE = 2
"""Columns at the right end that advice and foods have in common."""
_ADVICE_COLUMNS = (Column("", 20, weight=1, look="main"), *COLUMNS[-_ALIKE:])


class AheadTable(SectionTable):
    """Advice and foods under one heading line."""

    def render_line(self, y: int) -> Strip:
        """A piece of advice from its first and its last cells, or what the table draws."""
        row = self.scroll_offset.y + y - HEADER_LINES
        keys = self._state.keys
        if y < HEADER_LINES or row >= len(keys) or keys[row] < 0 or not is_advice(keys[row]):
            return super().render_line(y)
        record = self._record(row)
        if record is not None:
            cells = (record.cells[0], *record.cells[-_ALIKE:])
            record = Row(record.key, cells, record.tone)
        painter = LinePainter(_ADVICE_COLUMNS, self.scrollable_content_region.width)
        return painter.row(record, self._line_state(row), self._style)
