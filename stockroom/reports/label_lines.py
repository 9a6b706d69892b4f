"""Labels as plain lines, to be copied by hand onto tape or card."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stockroom.domain.labels.fitting import ELLIPSIS
from stockroom.domain.labels.statements import Label, Statement
from stockroom.reports.plain import cells, clean, cut, wrap
from stockroom.reports.values import TEXT, WORDS, Column, Report, Table, document

NARROWEST_LINE = 12
"""The longest thing that is never broken is a day or a code."""
WIDEST_LINE = 200
USUAL_LINE = 40


@dataclass(frozen=True, slots=True)
class LabelLines:
    """What to write on one label."""

    code: str
    lines: tuple[str, ...]


def label_lines(labels: Sequence[Label], width: int = USUAL_LINE) -> tuple[LabelLines, ...]:
    """Each label in lines of at most `width` characters.

    A statement is said in its longest form that fits on a line. Free text is cut, by words and
    then by letters; everything else goes on over the next line rather than being cut.
    """
    return tuple(
        LabelLines(
            label.code,
            tuple(line for one in label.statements for line in _lines_of(one, width)),
        )
        for label in labels
    )


def lines_text(labels: Sequence[LabelLines]) -> str:
    """All of them, a blank line between two."""
    return "\n".join("".join(f"{line}\n" for line in label.lines) for label in labels)


def lines_report(labels: Sequence[LabelLines]) -> Report:
    """The same for programs."""
    columns = (Column("code", TEXT), Column("lines", WORDS))
    rows = tuple((label.code, label.lines) for label in labels)
    table = Table("labels", columns, rows)
    return document("", (table,), table)


def _lines_of(statement: Statement, width: int) -> Iterator[str]:
    """One statement in one line, or in several where it may not be cut."""
    forms = [clean(form) for form in statement.forms]
    fitting = next((form for form in forms if cells(form) <= width), None)
    if fitting is not None:
        yield fitting
    elif statement.free:
        yield _cut(forms[-1], width)
    else:
        yield from wrap(forms[-1], width)


def _cut(text: str, width: int) -> str:
    """The text cut at the end of a word where one fits, else between letters."""
    words = text.split(" ")
    for count in range(len(words) - 1, 0, -1):
        kept = " ".join(words[:count]).rstrip(" ,;:") + ELLIPSIS
        if cells(kept) <= width:
            return kept
    return cut(text, width)
