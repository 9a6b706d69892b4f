"""Reports as text for people: plain columns, nothing but letters, digits and signs.

Headings are words and the line below them dashes; no colour, no box drawing. With a width, long
texts are cut with an ellipsis and less needed columns are left out; without one nothing is cut.
"""

from __future__ import annotations

from stockroom.domain.quantities import UnitSystem
from stockroom.reports.plain import NARROWEST, cells, clean, cut, pad, wrap
from stockroom.reports.values import Block, Column, Field, Fields, Prose, Report, Table

GAP = "  "
_LEAST = 4
_UNKNOWN = ""


def as_text(report: Report, units: UnitSystem, width: int | None = None) -> str:
    """The whole report; `width` is the page's cells, None for no limit. Ends with a newline."""
    page = None if width is None else max(width, NARROWEST)
    parts: list[str] = []
    if report.title:
        parts.append("\n".join(wrap(clean(report.title), page)))
    parts.extend(text for block in report.blocks if (text := _block(block, units, page)))
    return "\n\n".join(parts) + "\n"


def _block(block: Block, units: UnitSystem, page: int | None) -> str:
    """One block, without the newline at its end; empty when there is nothing to say."""
    if isinstance(block, Table):
        lines = table_lines(block, units, page)
    elif isinstance(block, Fields):
        lines = _field_lines(block, units, page)
    elif isinstance(block, Prose):
        lines = _prose_lines(block, page)
    else:
        return ""
    return "\n".join(lines)


def table_lines(table: Table, units: UnitSystem, page: int | None) -> tuple[str, ...]:
    """A table's title, caption, headings and rows; its `empty` sentence when it has no rows.

    No lines for a table without any titled column (it is for CSV and JSON only), nor for one
    without rows that has nothing to say about it.
    """
    shown = [place for place, column in enumerate(table.columns) if column.title]
    if not shown:
        return ()
    if not table.rows:
        return (*_said(table.title, page), *_said(table.empty, page)) if table.empty else ()
    above = (*_said(table.title, page), *_said(table.caption, page))
    texts = [
        tuple(_cell(table.columns[place], row[place], units) for place in shown)
        for row in table.rows
    ]
    columns = [table.columns[place] for place in shown]
    widths = _widths(columns, texts, page)
    headings = tuple(column.title for column in columns)
    dashes = tuple("-" * width for width in widths)
    body = (headings, dashes, *texts)
    return (*above, *(_line(columns, widths, row, page) for row in body))


def _said(text: str | None, page: int | None) -> tuple[str, ...]:
    """A sentence in lines, or none."""
    return wrap(clean(text), page) if text else ()


def _cell(column: Column, value: object, units: UnitSystem) -> str:
    """One cell's text, on one line."""
    return _UNKNOWN if value is None else column.kind.to_text(value, units)


def _line(columns: list[Column], widths: list[int], row: tuple[str, ...], page: int | None) -> str:
    """One line of a table. A width of 0 leaves the column out."""
    line = GAP.join(
        pad(text, width, right=column.kind.right)
        for column, width, text in zip(columns, widths, row, strict=True)
        if width
    ).rstrip()
    return line if page is None else cut(line, page)


def _widths(columns: list[Column], texts: list[tuple[str, ...]], page: int | None) -> list[int]:
    """The width of each column so that the table fits the page; 0 for one left out."""
    widths = [
        max(cells(column.title), *(cells(row[place]) for row in texts))
        for place, column in enumerate(columns)
    ]
    if page is None:
        return widths
    # A column that can be done without goes before a name is cut past reading.
    for place in _droppable(columns):
        if _total(_squeezed(columns, widths)) <= page:
            break
        widths[place] = 0
    return _shrunk(columns, widths, page)


def _droppable(columns: list[Column]) -> list[int]:
    """The places of the columns that may be left out, the least needed first."""
    places = [place for place, column in enumerate(columns) if column.drop]
    return sorted(places, key=lambda place: -columns[place].drop)


def _squeezed(columns: list[Column], widths: list[int]) -> list[int]:
    """The widths when every text is cut as far as it still reads well: half over the least."""
    return [
        min(width, column.least * 3 // 2) if column.least else width
        for column, width in zip(columns, widths, strict=True)
    ]


def _shrunk(columns: list[Column], widths: list[int], page: int) -> list[int]:
    """The widest texts made narrower, one cell at a time, until the line fits the page."""
    found = list(widths)
    while _total(found) > page:
        elastic = [
            place
            for place, column in enumerate(columns)
            if column.least and found[place] > min(column.least, _LEAST)
        ]
        if not elastic:
            break
        found[max(elastic, key=lambda place: found[place])] -= 1
    return found


def _total(widths: list[int]) -> int:
    """The cells of a line with columns of these widths."""
    present = [width for width in widths if width]
    return sum(present) + len(GAP) * (len(present) - 1)


def _field_lines(block: Fields, units: UnitSystem, page: int | None) -> tuple[str, ...]:
    """Label and value in two columns; a long value goes on below itself."""
    shown = [
        (field.label, text)
        for field in block.fields
        if field.label and (text := _field_text(field, units))
    ]
    column = max((cells(label) for label, _ in shown), default=0)
    lines = [*_said(block.title, page)]
    for label, text in shown:
        first = pad(label, column) + GAP
        lines.extend(wrap(text, page, first=first, rest=" " * cells(first)))
    return tuple(lines)


def _field_text(field: Field, units: UnitSystem) -> str:
    """A field's value with what follows it; empty when it is to be left out."""
    if field.value is None:
        return clean(field.missing)
    text = field.kind.to_text(field.value, units)
    return f"{text}{clean(field.after)}" if text else clean(field.missing)


def _prose_lines(block: Prose, page: int | None) -> tuple[str, ...]:
    """The sentences under their title."""
    if not block.lines:
        return ()
    lines = [*_said(block.title, page)]
    hanging = " " * cells(block.bullet)
    for sentence in block.lines:
        lines.extend(wrap(clean(sentence), page, first=block.bullet, rest=hanging))
    return tuple(lines)
