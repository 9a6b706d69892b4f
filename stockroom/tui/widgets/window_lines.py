"""Drawing one line of a windowed table, from plain text and named styles."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from textual.content import Content
from textual.css.styles import RenderStyles
from textual.strip import Strip
from textual.style import Style

from stockroom.tui.plaintext import clean, fit
from stockroom.tui.widgets.columns import Column, Placed, lay_out
from stockroom.tui.widgets.window_rows import Row

CURSOR_SIGN = "▸"
MARK_SIGN = "✓"
SIGN_CELLS = 3
"""Cells at the left edge for the two signs and a blank."""

NOT_READ = "…"
"""Stands in the first column of a row that is not read, or gone from the store."""

StyleOf = Callable[[str], Style]
"""Gives the style of a part by its name ("header", "tone-due"); "ground" is the table itself."""


def part_style(rules: RenderStyles) -> Style:
    """What a component class adds to the ground it is drawn on.

    The framework's own partial style loses an opaque background, so the rules are read here.
    """
    letters = rules.text_style
    return Style(
        background=rules.background if rules.has_rule("background") else None,
        foreground=rules.color if rules.has_rule("color") else None,
        bold=letters.bold,
        italic=letters.italic,
        underline=letters.underline,
    )


@dataclass(frozen=True, slots=True)
class LineState:
    """How a row stands in the table at this moment."""

    cursor: bool = False
    focused: bool = False
    marked: bool = False


class LinePainter:
    """Lays the columns out for a width and draws lines into it."""

    def __init__(self, columns: Sequence[Column], width_cells: int) -> None:
        self.width_cells = width_cells
        self.placed: tuple[Placed, ...] = lay_out(columns, max(1, width_cells - SIGN_CELLS - 1))

    def column_at(self, x: int) -> int | None:
        """The index of the column drawn at cell `x` of the line, or None between columns."""
        for placed in self.placed:
            if placed.left <= x - SIGN_CELLS < placed.left + placed.width:
                return placed.index
        return None

    def header(self, style: StyleOf, current: int | None) -> Strip:
        """The line of headings; the one with index `current` is the column keys act on."""
        base = style("ground") + style("header")
        parts = [(" " * SIGN_CELLS, base)]
        for placed, gap in self._with_gaps():
            text = fit(placed.column.title, placed.width, placed.column.align)
            look = style("header-current") if placed.index == current else Style.null()
            parts += [(text, base + look), (gap, base)]
        return self._strip(parts, base)

    def row(self, row: Row | None, state: LineState, style: StyleOf) -> Strip:
        """The line of one record; without a record, a line that says it is not there."""
        base = _base_style(state, style)
        signs = (CURSOR_SIGN if state.cursor else " ") + (MARK_SIGN if state.marked else " ")
        parts = [(fit(signs, SIGN_CELLS), base + style("sign"))]
        for placed, gap in self._with_gaps():
            column = placed.column
            text = fit(_cell(row, placed.index), placed.width, column.align, column.keep)
            parts += [(text, base + _look(row, column, style)), (gap, base)]
        return self._strip(parts, base)

    def words(self, text: str, line: int, style: StyleOf) -> Strip:
        """Line `line` of a text that stands in the place of rows, wrapped to the width."""
        room = max(1, self.width_cells - 2 * SIGN_CELLS)
        lines = Content(clean(text)).wrap(room)
        shown = lines[line].plain if 0 <= line < len(lines) else ""
        base = style("ground") + style("empty")
        return self._strip([(" " * SIGN_CELLS + shown, base)], base)

    def _with_gaps(self) -> list[tuple[Placed, str]]:
        """Each drawn column with the blanks that follow it."""
        ends = [placed.left for placed in self.placed[1:]]
        gaps = [
            " " * (end - placed.left - placed.width)
            for placed, end in zip(self.placed, ends, strict=False)
        ]
        return list(zip(self.placed, [*gaps, ""], strict=True))

    def _strip(self, parts: Sequence[tuple[str, Style]], base: Style) -> Strip:
        """A strip of exactly the line's width."""
        content = Content.assemble(*parts)
        strip = Strip(content.render_segments(base), content.cell_length)
        return strip.adjust_cell_length(self.width_cells, base.rich_style)


def _cell(row: Row | None, index: int) -> str:
    """The text of a row's cell; a missing record shows one sign in its first column."""
    if row is None:
        return NOT_READ if index == 0 else ""
    return row.cells[index] if index < len(row.cells) else ""


def _base_style(state: LineState, style: StyleOf) -> Style:
    """The ground a row is drawn on."""
    base = style("ground")
    if state.marked:
        base += style("marked")
    if state.cursor:
        base += style("cursor") if state.focused else style("cursor-away")
    return base


def _look(row: Row | None, column: Column, style: StyleOf) -> Style:
    """What a cell adds to its row's ground: its column's look and the row's tone."""
    if row is None or row.tone == "quiet":
        return style("quiet")
    if column.look == "tone":
        return style(f"tone-{row.tone}") if row.tone else Style.null()
    return Style.null() if column.look == "plain" else style(column.look)
