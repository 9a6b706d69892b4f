"""Reports as JSON: the record's own integers under keys that name their unit, ISO dates.

Every character that could steer a terminal is written as its \\u escape, so nothing is lost and
nothing is obeyed.
"""

from __future__ import annotations

import json

from stockroom.reports.plain import is_control
from stockroom.reports.values import Column, Data, Field, Fields, Json, Report, Row, Table


def as_json(report: Report, *, ascii_only: bool = False) -> str:
    """The report as indented JSON with a newline at its end."""
    return dumped(json_value(report), ascii_only=ascii_only)


def dumped(value: Json, *, ascii_only: bool = False) -> str:
    """Any JSON value as text that is safe on a terminal.

    `ascii_only` writes every other character as its escape, for an output that cannot take it.
    """
    text = json.dumps(value, ensure_ascii=ascii_only, indent=2)
    if not text.replace("\n", "").isprintable():
        text = "".join(
            _escaped(character) if is_control(character) and character != "\n" else character
            for character in text
        )
    return text + "\n"


def json_value(report: Report) -> Json:
    """An array of rows for a list, otherwise an object of fields, tables and prose."""
    if report.is_list and report.table is not None:
        return _rows(report.table)
    found: dict[str, Json] = {}
    for block in report.blocks:
        if isinstance(block, Table):
            # One without a key is for text alone, as with prose.
            found.update({block.key: _rows(block)} if block.key else {})
        elif isinstance(block, Fields):
            found.update(_field(field) for field in block.fields if field.key)
        elif isinstance(block, Data):
            found[block.key] = block.value
        elif block.key:
            found[block.key] = list(block.lines)
    return found


def _rows(table: Table) -> Json:
    """A table as an array of objects."""
    return [_row(table.columns, row) for row in table.rows]


def _row(columns: tuple[Column, ...], row: Row) -> Json:
    """One row as an object."""
    return {
        column.json_key: None if value is None else column.kind.to_json(value)
        for column, value in zip(columns, row, strict=True)
        if column.key
    }


def _field(field: Field) -> tuple[str, Json]:
    """A field's key with its unit, and its value."""
    value = None if field.value is None else field.kind.to_json(field.value)
    return field.key + field.kind.json_suffix, value


def _escaped(character: str) -> str:
    """A character as JSON escapes it: two halves above the basic plane."""
    return json.dumps(character)[1:-1]
