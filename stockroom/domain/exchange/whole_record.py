"""The whole record as one document: what each table holds, as it is stored.

Weights are whole tenths of a gram (`_dg`), temperatures whole tenths of a degree Celsius (`_dc`),
volumes millilitres (`_ml`), days and instants ISO text: the name of a column says its unit.
"""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.errors import Refused, StockroomError

FORMAT = "stockroom record"
VERSION = 1
"""Raise when a program that reads the version before would misread the document."""

Value = int | str | None


class ExportNewer(Refused):
    """The document was written by a later version; nothing was made of it."""

    def __init__(self, path: str, wanted: str) -> None:
        """`wanted` is what this version does not know, in words."""
        super().__init__(
            f"The file {path} was written by a later version of stockroom: it has {wanted}.",
            "Install the newer version; this one changed nothing.",
        )


class ExportDamaged(StockroomError):
    """The document is no whole export; says which part and why."""

    def __init__(self, path: str, part: str, why: str) -> None:
        """`part` is such as "row 3 of lot"."""
        super().__init__(
            f"The file {path} cannot be taken in; {part}: {why}.",
            "Nothing was made of it; name another export, or restore a backup.",
        )


@dataclass(frozen=True, slots=True)
class RecordTable:
    """One table: its columns by name, and its rows in order of row number."""

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Value, ...], ...]


@dataclass(frozen=True, slots=True)
class WholeRecord:
    """Every table of a store at one moment, with the step of the schema they are of."""

    schema: str
    tables: tuple[RecordTable, ...]

    @property
    def with_journal(self) -> bool:
        """Whether every change is in it, so that what was done can be undone."""
        return any(table.name == "change" for table in self.tables)

    def count(self, name: str) -> int:
        """How many rows a table has; 0 for one that is not there."""
        return sum(len(table.rows) for table in self.tables if table.name == name)


class BadPart(ValueError):
    """A part of a document that cannot be, and why."""

    def __init__(self, part: str, why: str) -> None:
        super().__init__(f"{part}: {why}")
        self.part = part
        self.why = why
