"""A list of packages before it is taken in: how it was read, what stands in the way, the lots."""

from __future__ import annotations

from stockroom.domain.exchange.preview import ListPreview
from stockroom.reports.done import sentence
from stockroom.reports.parts import caution_data, counted
from stockroom.reports.plain import clean
from stockroom.reports.values import (
    COUNT,
    DAY,
    TEXT,
    WATER_GRAMS,
    WEIGHT,
    WORDS,
    Block,
    Column,
    Data,
    Field,
    Fields,
    Prose,
    Report,
    Table,
    document,
)
from stockroom.services.results import Done

_MARKS = {"\t": "tabs", ";": "semicolons", ",": "commas", "|": "bars"}

_LOTS = (
    Column("code", title="lot"),
    Column("food", title="food", least=14),
    Column("made_on", DAY, "made on"),
    Column("packages", COUNT, "packages"),
    Column("dry", WEIGHT, "dry"),
    Column("water", WATER_GRAMS, "water", drop=1),
)
_PROBLEMS = (
    Column("line", COUNT, "line"),
    Column("column", title="column", least=8),
    Column("why", title="what stands in the way", least=20),
)
_COLUMNS = (
    Column("field", title="read as"),
    Column("heading", title="heading", least=12),
    Column("unit", title="in"),
)
NO_EVIDENCE = (
    "Nothing in a list shows how dry the food is: no tray was weighed or tested here. Packages"
    " sealed without oxygen carry that as their reason. Follow local codes and licensed guidance."
)
"""Said before a list is taken, for that is where it is decided."""


def list_report(preview: ListPreview, done: Done | None = None) -> Report:
    """What a list holds and becomes; `done` when it was taken in."""
    title = "" if done else f"What {clean(preview.name)} holds"
    blocks: list[Block] = [
        Prose("", () if done is None else (sentence(done.words),)),
        _head(preview, done),
        Table("columns", _COLUMNS, _columns(preview), "Columns"),
        Prose("unused", preview.read.sheet.unused, "Columns nothing is read from", "- "),
        Table("problems", _PROBLEMS, _problems(preview), "Problems", empty="No problems."),
        Table("lots", _LOTS, _lots(preview), "Lots", empty="No lots."),
        Prose("taken_over", preview.taken_over, "Foods taken over from the reference table", "- "),
        Prose("new_foods", preview.new_foods, "Foods to be added", "- "),
        Prose("new_places", preview.new_places, "Places to be added", "- "),
        Prose("", _warnings(preview), "To bear in mind", "- "),
        Data("cautions", caution_data(preview.cautions)),
    ]
    return document(title, blocks)


def _head(preview: ListPreview, done: Done | None) -> Fields:
    read = preview.read
    between = _MARKS.get(read.sheet.between, read.sheet.between)
    return Fields(
        (
            Field("file", TEXT, preview.name, "list"),
            Field("rows", COUNT, len(read.sheet.rows), "rows"),
            Field("packages", COUNT, preview.packages, "packages"),
            Field("between", TEXT, between, "between cells"),
            Field("heading_line", COUNT, read.sheet.heading_line, "headings on line"),
            Field("dates", TEXT, read.order and read.order.words, "dates"),
            Field("decimal", TEXT, read.decimal and read.decimal.value, "decimals after a"),
            Field("condition", TEXT, preview.condition, "condition"),
            Field("water_reckoned", COUNT, preview.reckoned),
            Field("done", TEXT, done and done.words),
            Field("codes", WORDS, done.codes if done else None),
        )
    )


def _columns(preview: ListPreview) -> tuple[tuple[object, ...], ...]:
    headings = preview.read.sheet.headings.items()
    return tuple(
        (field.value.replace("_", " "), heading.text, heading.unit) for field, heading in headings
    )


def _problems(preview: ListPreview) -> tuple[tuple[object, ...], ...]:
    return tuple((one.line, one.column, one.why) for one in preview.problems)


def _lots(preview: ListPreview) -> tuple[tuple[object, ...], ...]:
    return tuple(
        (one.code, one.food, one.made_on, one.packages, one.dry_dg, one.water_dg)
        for one in preview.lots
    )


def _warnings(preview: ListPreview) -> tuple[str, ...]:
    """What the list does not tell, in sentences."""
    said = [NO_EVIDENCE]
    if preview.reckoned:
        said.append(
            f"The water of {counted(preview.reckoned, 'package')} is not in the list: it is"
            " reckoned from the usual water of the food."
        )
    if preview.condition == "sound":
        said.append("They come in as sound because you say so; nobody looked at them here.")
    return tuple(said)
