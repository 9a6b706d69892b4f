"""A table that reads and draws only the rows in view, so that 100,000 cost what 30 do.

The keys of the whole list are read once, in a thread; rows are read by key as they come into
view. The cursor and the marks are keys, never row numbers: they outlive a reload, another order
and another filter.
"""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from typing import ClassVar

from textual import events, on, work
from textual.binding import BindingType
from textual.geometry import Size
from textual.scroll_view import ScrollView
from textual.strip import Strip
from textual.style import Style
from textual.worker import Worker, WorkerState, get_current_worker

from stockroom.errors import StockroomError
from stockroom.tui.widgets import window_look, window_messages
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_copy import copy_cell, copy_rows
from stockroom.tui.widgets.window_lines import SIGN_CELLS, LinePainter, LineState, part_style
from stockroom.tui.widgets.window_rows import MARGIN_ROWS, Row, RowCache, WindowSource
from stockroom.tui.widgets.window_state import ListState

HEADER_LINES = 1
EMPTY_LINE = 2
"""The line on which the text of an empty list begins, counted from the top of the table."""


class WindowTable(ScrollView, can_focus=True):
    """A long list with a cursor and marks, drawn line by line from a `WindowSource`."""

    BINDING_GROUP_TITLE = "In the list"
    ALLOW_SELECT = False
    BINDINGS: ClassVar[list[BindingType]] = list(window_look.BINDINGS)
    COMPONENT_CLASSES: ClassVar[set[str]] = set(window_look.COMPONENTS)
    DEFAULT_CSS = window_look.CSS

    RowHighlighted = window_messages.RowHighlighted
    RowChosen = window_messages.RowChosen
    CountChanged = window_messages.CountChanged
    HeaderChosen = window_messages.HeaderChosen
    ReadFailed = window_messages.ReadFailed

    def __init__(
        self,
        columns: Sequence[Column],
        source: WindowSource | None = None,
        *,
        empty: str = "",
        margin_rows: int = MARGIN_ROWS,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        """`empty` is the sentence shown in place of rows when the list has none."""
        super().__init__(id=id, classes=classes)
        self.columns: tuple[Column, ...] = tuple(columns)
        self.empty = empty
        self.source = source
        self._state = ListState()
        self._cache = RowCache(margin_rows)
        self._column: int | None = None
        self._opened = False
        self._from_top = False
        self._ticket = 0
        self._told: tuple[int | None, str] = (None, "")
        self._failed = False
        self._reading = False
        self._wanted: int | None = None
        self._painter_now: LinePainter | None = None

    # What the screen asks

    @property
    def cursor_key(self) -> int | None:
        """The key under the cursor, or None in an empty list."""
        return self._state.cursor_key

    @property
    def cursor_row(self) -> int:
        """The line of the cursor, counted from 0 at the top of the whole list."""
        return self._state.cursor_row

    @property
    def current(self) -> Row | None:
        """The record under the cursor as last read."""
        return None if self.cursor_key is None else self._cache.get(self.cursor_key)

    @property
    def marked(self) -> tuple[int, ...]:
        """The marked keys, in the order they were marked; a filter may hide some of them."""
        return self._state.marked

    @property
    def chosen(self) -> tuple[int, ...]:
        """The keys an action works on: the marked ones, or else the one under the cursor."""
        return self._state.chosen

    @property
    def count_text(self) -> str:
        """Cursor and length: "3 of 100,000", "3 of …" while it is counted, "none" when empty."""
        return self._state.count_text

    # What the screen tells

    def show(
        self, source: WindowSource, *, empty: str | None = None, from_top: bool = False
    ) -> None:
        """Read another list, for another order or filter. The cursor keeps to its key.

        `from_top` puts the cursor on the first row instead, and `empty` changes the sentence
        shown when there is none.
        """
        self.source = source
        self.empty = self.empty if empty is None else empty
        self.reload(from_top=from_top)

    def reload(self, *, from_top: bool = False) -> None:
        """Read the list again. The old rows stay on screen until the new ones can replace them."""
        self._from_top = self._from_top or from_top
        if not self._opened:
            self._open()
        elif self.source is not None:
            self._count(self.source)

    def set_columns(self, columns: Sequence[Column]) -> None:
        """Show other columns; the cells of the rows must be in their order."""
        self.columns = tuple(columns)
        self._column = None
        self._painter_now = None
        self.refresh()

    def go_to_key(self, key: int) -> bool:
        """Put the cursor on a record, now or as soon as the list being read arrives.

        False when the list as it is now does not have it.
        """
        self._wanted = key if self._reading else None
        if key not in self._state.keys:
            return False
        self._go_to(self._state.keys.index(key))
        return True

    def clear_marks(self) -> None:
        """Take all marks off, after an action has worked on them."""
        self._state.unmark()
        self._marks_changed()

    # Reading

    def on_resize(self, event: events.Resize) -> None:
        """Read the first rows as soon as it is known how many there is room for."""
        self._open()
        self._scroll_to_cursor()

    def _open(self) -> None:
        """Show the first rows from one cheap query, then have the whole list counted."""
        height = self._body_lines
        if self._opened or self.source is None or height < 1:
            return
        try:
            rows = self.source.first(height + self._cache.margin_rows)
        except StockroomError as error:
            self.post_message(self.ReadFailed(self, error))
            return
        self._opened = True
        self._cache.begin(rows)
        self._state.begin(array("q", [row.key for row in rows]))
        self._changed()
        self._count(self.source)

    def _count(self, source: WindowSource) -> None:
        """Have the keys of the whole list read; only the answer to the last asking counts."""
        self._ticket += 1
        self._reading = True
        self._read_keys(source, self._ticket)

    @work(thread=True, exclusive=True, exit_on_error=False, group="read", description="list keys")
    def _read_keys(self, source: WindowSource, ticket: int) -> None:
        """Read the order of the whole list; an answer that comes too late is dropped."""
        worker = get_current_worker()
        try:
            answer = window_messages.KeysRead(self, ticket, source.keys())
        except StockroomError as error:
            answer = self.ReadFailed(self, error)
        if not worker.is_cancelled:
            self.post_message(answer)

    @on(window_messages.KeysRead)
    def _take_keys(self, message: window_messages.KeysRead) -> None:
        """Put the list in place, the cursor at the height on the screen where it was."""
        message.stop()
        if message.ticket != self._ticket:
            return
        self._reading = self._failed = False
        if self._state.counted:
            self._cache.forget()
        above = self._state.cursor_row - self.scroll_offset.y
        self._state.take(message.keys, from_top=self._from_top)
        self._from_top = False
        self.virtual_size = Size(0, len(message.keys) + HEADER_LINES)
        self.scroll_to(y=self._state.cursor_row - above, animate=False, force=True)
        self._go_to(self._wanted_row())

    def _wanted_row(self) -> int:
        """The line of the record last asked for, if the list has it, or that of the cursor."""
        wanted, self._wanted = self._wanted, None
        if wanted is None or wanted not in self._state.keys:
            return self._state.cursor_row
        return self._state.keys.index(wanted)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """A defect in a source ends the program with its traceback, like any other defect."""
        if event.state is WorkerState.ERROR and event.worker.error is not None:
            raise event.worker.error

    def _record(self, row: int) -> Row | None:
        """The record of a line, read with its neighbours when it is not at hand."""
        key = self._state.keys[row]
        if key not in self._cache and self.source is not None and not self._failed:
            top = min(self.scroll_offset.y, row)
            height = max(self._body_lines, row - top + 1)
            try:
                self._cache.read(self.source, self._state.keys, top, height)
            except StockroomError as error:
                self._failed = True
                self.post_message(self.ReadFailed(self, error))
        return self._cache.get(key)

    # Drawing

    @property
    def _body_lines(self) -> int:
        """Lines there are for rows."""
        return max(0, self.scrollable_content_region.height - HEADER_LINES)

    def _painter(self) -> LinePainter:
        """Draws into the width there is now."""
        width = self.scrollable_content_region.width
        if self._painter_now is None or self._painter_now.width_cells != width:
            self._painter_now = LinePainter(self.columns, width)
        return self._painter_now

    def _style(self, name: str) -> Style:
        """The style of a part of the table, by the end of its class name."""
        if name == "ground":
            return self.visual_style
        return part_style(self.get_component_styles(f"window-table--{name}"))

    def render_line(self, y: int) -> Strip:
        """Line `y` of what is visible: the headings, a row, or the sentence of an empty list."""
        painter = self._painter()
        row = self.scroll_offset.y + y - HEADER_LINES
        if y < HEADER_LINES:
            return painter.header(self._style, self._column)
        if not self._state.keys:
            text = self.empty if self._opened else ""
            return painter.words(text, y - EMPTY_LINE, self._style)
        if row >= len(self._state.keys):
            return painter.words("", 0, self._style)
        record = self._record(row)
        return painter.row(record, self._line_state(row), self._style)

    def _line_state(self, row: int) -> LineState:
        """How a line stands: under the cursor, marked."""
        return LineState(
            cursor=row == self._state.cursor_row,
            focused=self.has_focus,
            marked=self._state.is_marked(self._state.keys[row]),
        )

    # The cursor

    def _go_to(self, row: int) -> None:
        """Move the cursor to a line and into view."""
        self._state.go_to(row)
        self._scroll_to_cursor()
        self._changed()

    def _scroll_to_cursor(self) -> None:
        """Scroll by as little as brings the cursor into view."""
        row, top, height = self._state.cursor_row, self.scroll_offset.y, self._body_lines
        target = min(max(top, row - height + 1), row)
        if target != top:
            self.scroll_to(y=target, animate=False, force=True)

    def _changed(self) -> None:
        """Repaint, and tell the screen what reads differently."""
        self.refresh()
        key, count = self._told
        self._told = (self.cursor_key, self.count_text)
        if self.cursor_key != key:
            self.post_message(self.RowHighlighted(self, self.cursor_key))
        if self.count_text != count:
            self.post_message(self.CountChanged(self, self.count_text))

    def action_move(self, lines: int) -> None:
        """Move the cursor by lines."""
        self._go_to(self._state.cursor_row + lines)

    def action_page(self, pages: int) -> None:
        """Move the view, and the cursor in it, by pages."""
        lines = pages * max(1, self._body_lines)
        self.scroll_to(y=self.scroll_offset.y + lines, animate=False, force=True)
        self._go_to(self._state.cursor_row + lines)

    def action_first(self) -> None:
        """Go to the first row."""
        self._go_to(0)

    def action_last(self) -> None:
        """Go to the last row."""
        self._go_to(len(self._state.keys) - 1)

    def action_choose(self) -> None:
        """Tell the screen that the record under the cursor was chosen."""
        if self.cursor_key is not None:
            self.post_message(self.RowChosen(self, self.cursor_key))

    # Marks

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Escape is the screen's own as long as nothing is marked."""
        return bool(self._state.marked) if action == "unmark" else True

    def action_mark(self) -> None:
        """Mark or unmark the record and go on to the next."""
        self._state.toggle_mark()
        self._marks_changed()
        self.action_move(1)

    def _marks_changed(self) -> None:
        """Repaint; Escape belongs to the table exactly while there are marks."""
        self.refresh_bindings()
        self._changed()

    def action_unmark(self) -> None:
        """Take all marks off."""
        self.clear_marks()

    # Copying

    def action_column(self, step: int) -> None:
        """Choose the next drawn column to one side."""
        drawn = [placed.index for placed in self._painter().placed]
        place = drawn.index(self._column) + step if self._column in drawn else 0
        self._column = drawn[max(0, min(place, len(drawn) - 1))]
        self.refresh()

    def action_copy_row(self) -> None:
        """Copy the marked records, or the one under the cursor."""
        if self.source is not None and self.chosen:
            try:
                copy_rows(self.app, self.source, self.chosen)
            except StockroomError as error:
                self.post_message(self.ReadFailed(self, error))

    def action_copy_cell(self) -> None:
        """Copy the cell of the chosen column, or of the first one."""
        if self.current is not None:
            copy_cell(self.app, self.current, self._column or 0)

    # The mouse

    def on_click(self, event: events.Click) -> None:
        """A click moves the cursor, on the left edge it marks; a double click chooses."""
        place = event.get_content_offset(self)
        if place is None:
            return
        if place.y < HEADER_LINES:
            self._click_heading(place.x)
            return
        row = self.scroll_offset.y + place.y - HEADER_LINES
        if row < len(self._state.keys):
            self._go_to(row)
            self._click_row(place.x, event.chain)

    def _click_heading(self, x: int) -> None:
        """Tell the screen which heading was clicked."""
        column = self._painter().column_at(x)
        if column is not None:
            self.post_message(self.HeaderChosen(self, column))

    def _click_row(self, x: int, clicks: int) -> None:
        """Mark by the left edge, choose by a double click."""
        if x < SIGN_CELLS:
            self._state.toggle_mark()
            self._marks_changed()
        elif clicks == 2:
            self.action_choose()
