"""What is said once labels are printed, and the list of sheets."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.labels.lengths import show_mm
from stockroom.domain.labels.sheets import BUILT_IN, Sheet
from stockroom.reports.label_sheet import Printed, PrintedLabels
from stockroom.reports.plain import clean
from stockroom.reports.values import (
    COUNT,
    FLAG,
    TEXT,
    Column,
    Data,
    Field,
    Fields,
    Json,
    Kind,
    Prose,
    Report,
    Table,
    document,
    listing,
)

_UM_PER_POINT = 25_400 / 72
MEASURE = Kind(
    lambda value, _: show_mm(value), lambda value: f"{value / 1000:g}", lambda value: value,
    "_mm", "_um", right=True,
)  # fmt: skip
"""A length on paper: millimetres in text and CSV, whole micrometres in JSON."""


def printed_words(made: PrintedLabels, path: str) -> str:
    """What was written where, in one sentence."""
    count = len(made.printed)
    labels = "1 label" if count == 1 else f"{count} labels"
    pages = "1 page" if made.pages == 1 else f"{made.pages} pages"
    return f"Wrote {labels} on {pages} ({clean(made.sheet.name)}) to {clean(path)}."


def next_words(made: PrintedLabels) -> str:
    """Where to go on with the sheet, and what to tell the printer; one sentence each."""
    place = made.printed[-1].spot.place
    scale = "Print at actual size, without fitting to the page."
    if place == made.sheet.places:
        return scale
    return f"{scale} The next free label of the last page is number {place + 1}."


def printed_report(made: PrintedLabels, path: str) -> Report:
    """The same for people and for programs."""
    return document(
        "",
        (
            Prose("", (printed_words(made, path),)),
            Fields(
                (
                    Field("file", TEXT, path),
                    Field("sheet", TEXT, made.sheet.name),
                    Field("pages", COUNT, made.pages),
                )
            ),
            Data("labels", [_printed(one) for one in made.printed]),
            Data("findings", list(made.findings)),
        ),
    )


def _printed(one: Printed) -> Json:
    """One label for programs."""
    return {
        "code": one.label.code,
        "page": one.spot.page,
        "place": one.spot.place,
        "type_points": round(one.fitted.size_um / _UM_PER_POINT, 1),
        "cut": list(one.fitted.cut),
        "left_out": list(one.fitted.left_out),
    }


def sheet_list(sheets: Sequence[Sheet]) -> Report:
    """Sheets with their measures, one a row."""
    columns = (
        Column("sheet", TEXT, "Sheet", least=16),
        Column("own", FLAG, "Own"),
        Column("labels", COUNT, "Labels"),
        Column("left", MEASURE, "Left", drop=2),
        Column("top", MEASURE, "Top", drop=2),
        Column("across_gap", MEASURE, "Across", drop=3),
        Column("down_gap", MEASURE, "Down", drop=3),
        Column("label_width", MEASURE, "Width", drop=1),
        Column("label_height", MEASURE, "Height", drop=1),
        Column("columns", COUNT),
        Column("rows", COUNT),
        Column("page_width", MEASURE),
        Column("page_height", MEASURE),
    )
    rows = tuple(
        (
            sheet.name,
            sheet not in BUILT_IN,
            sheet.places,
            sheet.left_um,
            sheet.top_um,
            sheet.across_um,
            sheet.down_um,
            sheet.label_width_um,
            sheet.label_height_um,
            sheet.columns,
            sheet.rows,
            sheet.page_width_um,
            sheet.page_height_um,
        )
        for sheet in sheets
    )
    return listing(Table("sheets", columns, rows))
