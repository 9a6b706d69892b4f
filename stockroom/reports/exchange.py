"""The record as files: one JSON document, or one CSV file for each table."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Sequence
from datetime import date

from stockroom.domain.exchange.whole_record import FORMAT, VERSION, RecordTable, WholeRecord
from stockroom.reports.as_csv import safe_cell
from stockroom.reports.parts import counted
from stockroom.reports.plain import clean
from stockroom.reports.values import COUNT, TEXT, Column, Field, Fields, Prose, Report, Table
from stockroom.reports.values import document as report_of

KIND = "record"
"""What the document is called where another file stands in its way."""
TABLE_KIND = "table"
_BEGINS = f'{{\n"format": {json.dumps(FORMAT)},\n'
UNITS = {
    "_dg": "tenths of a gram",
    "_cg": "hundredths of a gram in 100 g",
    "_dc": "tenths of a degree Celsius",
    "_ml": "millilitres",
    "_mm": "millimetres",
    "_cc": "cubic centimetres of oxygen",
    "_tenth_inhg": "tenths of an inch of mercury below the air outside",
    "_tenth_kcal": "tenths of a kilocalorie in 100 g",
    "_microbar": "thousandths of a millibar",
    "_on, _by, since": "days as YYYY-MM-DD",
    "at, _at": "instants as ISO 8601; of the journal and weighings in UTC",
}
"""How the end of a column's name tells its unit."""


def record_file(record: WholeRecord, today: date) -> bytes:
    """The record as one JSON document in UTF-8, one row a line."""
    head = {
        "version": VERSION,
        "schema": record.schema,
        "written_on": today.isoformat(),
        "units": UNITS,
    }
    parts = [_BEGINS]
    parts += [f"{json.dumps(key)}: {_json(value)},\n" for key, value in head.items()]
    parts.append('"tables": {\n')
    parts.append(",\n".join(_table(table) for table in record.tables))
    parts.append("\n}\n}\n")
    return "".join(parts).encode()


def is_our_record(head: bytes) -> bool:
    """Whether a file begins as one of ours does."""
    return head.startswith(_BEGINS.encode())


def _table(table: RecordTable) -> str:
    rows = ",\n".join(_json(dict(zip(table.columns, row, strict=True))) for row in table.rows)
    return f"{json.dumps(table.name)}: [\n{rows}\n]" if rows else f"{json.dumps(table.name)}: []"


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)


def table_file(table: RecordTable) -> bytes:
    """One table as CSV in UTF-8: a heading of the columns as stored, then every row.

    What is not known is an empty cell. A cell that a spreadsheet would run gets an apostrophe
    before it, which reading a list back takes off (OWASP, CSV Injection, published).
    """
    page = io.StringIO()
    writer = csv.writer(page, lineterminator="\n")
    writer.writerow(table.columns)
    writer.writerows([_cell(value) for value in row] for row in table.rows)
    return page.getvalue().encode()


def _cell(value: int | str | None) -> str | int:
    if value is None:
        return ""
    return safe_cell(value) if isinstance(value, str) else value


def is_our_table(table: RecordTable, head: bytes) -> bool:
    """Whether a file begins as this table's file does."""
    return head.startswith(",".join(table.columns).encode() + b"\n")


def written_words(tables: Sequence[RecordTable], where: str) -> str:
    """What was written where, in one sentence."""
    rows = counted(sum(len(table.rows) for table in tables), "row")
    return f"Wrote {rows} of {counted(len(tables), 'table')} to {clean(where)}."


_TABLES = (Column("table", title="table"), Column("rows", COUNT, "rows"))


def written_report(tables: Sequence[RecordTable], where: str) -> Report:
    """What was written where, table by table; those without a row are left to programs."""
    rows = tuple((table.name, len(table.rows)) for table in tables)
    return report_of(
        "",
        (
            Prose("", (written_words(tables, where),)),
            Fields((Field("file", TEXT, where),)),
            Table("tables", _TABLES, tuple(row for row in rows if row[1]), empty="No rows."),
        ),
    )
