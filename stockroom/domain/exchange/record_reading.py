"""Reading the whole-record document back: every part is looked at before anything is made."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any, cast

from stockroom.domain.exchange.whole_record import (
    FORMAT,
    VERSION,
    BadPart,
    ExportDamaged,
    ExportNewer,
    RecordTable,
    Value,
    WholeRecord,
)

_LARGEST = 2**63
"""SQLite keeps whole numbers below this (documentation of its integer type, published)."""


def read_record_file(
    text: str,
    path: str,
    schemas: Sequence[str],
    needed: Mapping[str, Sequence[str]],
    optional: Mapping[str, Sequence[str]],
) -> WholeRecord:
    """The record a document holds.

    `schemas` are the steps this version knows, the last being today's; `needed` and `optional`
    are today's tables with their columns. A document of an earlier step may lack tables and
    columns, which then have what a new row has. Raises ExportNewer, ExportDamaged.
    """
    try:
        top = _object(_parsed(text), "the document")
        _refuse_other(top, path, schemas)
        tables = _object(top.get("tables"), "tables")
        known = {**needed, **optional}
        _refuse_unknown(tables, known)
        current = top["schema"] == schemas[-1]
        if current:
            _refuse_missing(tables, needed)
        found = tuple(
            _table(name, tables[name], columns, whole=current)
            for name, columns in known.items()
            if name in tables
        )
    except BadPart as bad:
        raise ExportDamaged(path, bad.part, bad.why) from bad
    return WholeRecord(str(top["schema"]), found)


def _parsed(text: str) -> object:
    try:
        return json.loads(text, parse_constant=_no_constant)
    except json.JSONDecodeError as error:
        raise BadPart(f"line {error.lineno}", "it is no whole JSON there") from error
    except (RecursionError, ValueError) as error:
        raise BadPart("the document", "a part of it is no JSON of a record") from error


def _no_constant(word: str) -> object:
    raise ValueError(word)


def _object(value: object, part: str) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise BadPart(part, "it is missing, or no object with names")
    return cast("dict[str, Any]", value)


def _refuse_other(top: Mapping[str, Any], path: str, schemas: Sequence[str]) -> None:
    """Refuse another program's document, and one of a later version."""
    if top.get("format") != FORMAT:
        raise BadPart("format", f"it is not “{FORMAT}”, so this is no export of stockroom's")
    version, schema = top.get("version"), top.get("schema")
    if type(version) is not int or version < 1:
        raise BadPart("version", "it is not a whole number from 1")
    if version > VERSION:
        raise ExportNewer(path, f"version {version} of the document")
    if not isinstance(schema, str):
        raise BadPart("schema", "it does not say which step of the schema it is of")
    if schema not in schemas:
        raise ExportNewer(path, f"schema “{schema[:40]}”")


def _refuse_unknown(tables: Mapping[str, Any], known: Mapping[str, Sequence[str]]) -> None:
    for name in tables:
        if name not in known:
            raise BadPart(f"table “{name[:40]}”", "there is no such table")


def _refuse_missing(tables: Mapping[str, Any], needed: Mapping[str, Sequence[str]]) -> None:
    for name in needed:
        if name not in tables:
            raise BadPart(f"table {name}", "it is missing")


def _table(name: str, rows: object, columns: Sequence[str], *, whole: bool) -> RecordTable:
    """A table's rows, each with the same columns; with `whole` no column may be missing."""
    if not isinstance(rows, list):
        raise BadPart(f"table {name}", "it is not a list of rows")
    every = cast("list[object]", rows)
    if not every:
        return RecordTable(name, tuple(columns), ())
    first = _object(every[0], f"row 1 of {name}")
    used = tuple(column for column in columns if column in first)
    if "id" not in used or (whole and len(used) < len(columns)):
        lacking = next(column for column in columns if column not in first)
        raise BadPart(f"row 1 of {name}", f"{lacking} is missing")
    return RecordTable(
        name,
        used,
        tuple(_row(f"row {at} of {name}", row, used) for at, row in enumerate(every, start=1)),
    )


def _row(part: str, row: object, columns: Sequence[str]) -> tuple[Value, ...]:
    cells = _object(row, part)
    if cells.keys() != set(columns):
        odd = min(cells.keys() ^ set(columns))
        raise BadPart(part, f"{odd[:40]} is {'missing' if odd in columns else 'not known'}")
    return tuple(_value(part, column, cells[column]) for column in columns)


def _value(part: str, column: str, value: object) -> Value:
    if value is None:
        return None
    if type(value) is int and -_LARGEST <= value < _LARGEST:
        return value
    if isinstance(value, str) and not any("\ud800" <= sign <= "\udfff" for sign in value):
        return value
    raise BadPart(part, f"{column} is neither a whole number nor text")
