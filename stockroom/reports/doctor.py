"""What the doctor found on paper: each finding in plain words, with what to do."""

from __future__ import annotations

from collections.abc import Iterable

from stockroom.domain.findings import Examination, Finding, Mending
from stockroom.reports.parts import counted
from stockroom.reports.values import (
    FLAG,
    TEXT,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Row,
    Table,
    document,
)

NOTHING = "Nothing found: the file is whole and the record adds up."

_COLUMNS = (
    Column("subject"),
    Column("severity"),
    Column("message"),
    Column("remedy"),
    Column("mendable", FLAG),
)


def examination_report(found: Examination) -> Report:
    """Every finding, the gravest first, and what could not be looked at."""
    return document("", (_table("findings", found.findings), *_read(found)))


def mending_report(done: Mending) -> Report:
    """What was put right, the backup made before it, and what is left for a person."""
    mended = tuple(f"{one.subject}: {one.message}" for one in done.mended)
    first = "Put right" if mended else ""
    return document(
        "",
        (
            Prose("", () if mended else ("There was nothing that could be put right by itself.",)),
            Prose("", mended, first, "- "),
            _table("mended", done.mended),
            Fields((Field("backup", TEXT, done.backup or None, "backup made before it"),)),
            _table("findings", done.left.findings),
            Prose("", ("Left for you:",) if done.left.findings and mended else ()),
            *_read(done.left),
        ),
    )


def _table(key: str, findings: Iterable[Finding]) -> Table:
    """Findings for JSON; text has them in sentences."""
    return Table(key, _COLUMNS, tuple(map(_row, findings)))


def _row(one: Finding) -> Row:
    return one.subject, one.severity.value, one.message, one.remedy, one.mendable


def _read(found: Examination) -> tuple[Block, ...]:
    """The findings one by one in sentences, and a line that sums them up."""
    blocks = [
        Prose("", (one.message, one.remedy), f"{one.severity.value.capitalize()}: {one.subject}")
        for one in found.findings
    ]
    return (*blocks, Prose("left_out", found.left_out), Prose("", (_sum(found),)))


def _sum(found: Examination) -> str:
    """How many of each, or that there is nothing."""
    if not found.findings:
        return NOTHING
    words = [one.severity.value for one in found.findings]
    parts = [counted(words.count(word), word) for word in dict.fromkeys(words)]
    mendable = len(found.mendable)
    more = f" {mendable} can be put right with --mend." if mendable else ""
    return f"Found {' and '.join(parts)}.{more}"
