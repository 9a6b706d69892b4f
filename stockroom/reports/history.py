"""What happened to a package, line by line and in words."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import HistoryLine
from stockroom.domain.water import show_water
from stockroom.reports.values import (
    DAY,
    TEXT,
    WATER,
    WEIGHT,
    Block,
    Column,
    Field,
    Fields,
    Row,
    Table,
)

_FOUND = ("crisp", "soft", "leak", "damaged")
_WORDS = {
    "use_up": "used up",
    "open": "opened",
    "discard": "discarded",
    "sister_soft": "a sister package was found soft",
    "hold": "held for drying again",
    "recall": "recalled",
    "redried": "dried again",
    "repacked": "packed anew",
    "use_now": "decided: to be used now",
}
_ANEW = ("redried", "repacked")

_COLUMNS = (
    Column("on_day", DAY),
    Column("event"),
    Column("condition"),
    Column("from_place"),
    Column("to_place"),
    Column("dry", WEIGHT),
    Column("water", WATER),
    Column("meal"),
    Column("note"),
)


def history_blocks(lines: Sequence[HistoryLine], units: UnitSystem) -> tuple[Block, ...]:
    """What happened to a package, the first thing first: in words, and as rows for JSON."""
    anew = {line.on_day for line in lines if line.event in _ANEW}
    said = tuple(
        Field("", TEXT, happened(line, units, anew=line.on_day in anew), line.on_day.isoformat())
        for line in lines
    )
    rows = tuple(map(_row, lines))
    return Fields(said, "History"), Table("history", _COLUMNS, rows)


def happened(line: HistoryLine, units: UnitSystem, *, anew: bool = False) -> str:
    """One line of a package's history in words, its note last.

    `anew` says that its food went into a new package on that day.
    """
    words = _happened(line, units)
    if anew and line.event == "draw" and not line.meal:
        words = f"{show_weight(line.dry_dg or 0, units)} went into a new package"
    return f"{words}: {line.note}" if line.note else words


def _happened(line: HistoryLine, units: UnitSystem) -> str:
    """The event without its note."""
    if line.event == "draw":
        taken = f"took {show_weight(line.dry_dg or 0, units)}"
        meal = f" for {line.meal}" if line.meal else ""
        return f"{taken}{meal}, water to add {show_water(line.water_dg or 0)}"
    if line.event == "sealed":
        return f"sealed, put in {line.to_place}" if line.to_place else "sealed"
    if line.event == "moved":
        start = f" from {line.from_place}" if line.from_place else ""
        return f"moved{start} to {line.to_place}"
    if line.event in _FOUND:
        return f"checked {line.event}, now {line.condition}"
    return _WORDS.get(line.event, line.event)


def _row(line: HistoryLine) -> Row:
    """One line under the columns."""
    return (
        line.on_day,
        line.event,
        line.condition,
        line.from_place,
        line.to_place,
        line.dry_dg,
        line.water_dg,
        line.meal,
        line.note,
    )
