"""A list in sections: headings stand between the rows, and the cursor passes over them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual.content import Content
from textual.strip import Strip

from stockroom.tui.plaintext import fit, width
from stockroom.tui.screens.listed import Listed
from stockroom.tui.widgets.window_messages import KeysRead
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.widgets.window_table import HEADER_LINES, WindowTable


@dataclass(frozen=True, slots=True)
class Section:
    """Some rows under a heading, with a few words at the heading's right end."""

    title: str
    aside: str
    rows: tuple[Row, ...]


class SectionTable(WindowTable):
    """A windowed table whose rows with a key below 0 are headings. Rows cannot be marked.

    It is given all its rows at once; a list too long for that has no sections.
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {"window-table--section", "window-table--aside"}
    DEFAULT_CSS = """
    SectionTable {
        & > .window-table--section { color: $primary; text-style: bold; }
        & > .window-table--aside { color: $foreground-muted; }
    }
    """

    def show_sections(self, sections: Sequence[Section], *, empty: str) -> None:
        """Show these sections, those without rows left out; the cursor keeps to its key."""
        rows: list[Row] = []
        for place, section in enumerate(sections, start=1):
            if section.rows:
                rows.append(Row(-place, (section.title, section.aside)))
                rows.extend(section.rows)
        self.source, self.empty, self._opened = Listed(rows), empty, True
        # All is at hand: nothing is read in a thread, and the first paint has the rows in it.
        self._take_keys(KeysRead(self, self._ticket, self.source.keys()))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There is nothing here that works on several rows."""
        return False if action == "mark" else super().check_action(action, parameters)

    def render_line(self, y: int) -> Strip:
        """A heading, or what the table draws."""
        row = self.scroll_offset.y + y - HEADER_LINES
        keys = self._state.keys
        if y < HEADER_LINES or row >= len(keys) or keys[row] >= 0:
            return super().render_line(y)
        return self._heading(self._record(row))

    def _heading(self, record: Row | None) -> Strip:
        """The line of a heading: its title, and its words at the right end when they fit."""
        ground = self._style("ground")
        room = self.scrollable_content_region.width
        title, aside = record.cells if record else ("", "")
        beside = room - width(title) - width(aside) - 2
        if beside < 2:
            aside, beside = "", room - width(title) - 2
        content = Content.assemble(
            (" " + fit(title, width(title)), ground + self._style("section")),
            (" " * max(0, beside), ground),
            (aside, ground + self._style("aside")),
        )
        strip = Strip(content.render_segments(ground), content.cell_length)
        return strip.adjust_cell_length(room, ground.rich_style)

    def _go_to(self, row: int) -> None:
        """Go to a line; from a heading on to the next row in the direction of the move."""
        keys = self._state.keys
        row = max(0, min(row, len(keys) - 1))
        if keys and keys[row] < 0:
            back = row < self._state.cursor_row and row > 0
            row += -1 if back else 1
        super()._go_to(row)

    def _scroll_to_cursor(self) -> None:
        """Keep the heading of the first row of a section in view with it."""
        if self._body_lines < 1:
            return
        super()._scroll_to_cursor()
        row, keys = self._state.cursor_row, self._state.keys
        if 0 < row < len(keys) and keys[row - 1] < 0 and self.scroll_offset.y == row:
            self.scroll_to(y=row - 1, animate=False, force=True)
