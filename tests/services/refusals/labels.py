"""Refusals of labels and of the sheets they are printed on."""

from __future__ import annotations

from dataclasses import replace

from stockroom.domain.labels.sheets import BUILT_IN, SheetOffPage
from stockroom.errors import BadInput, NotFound
from stockroom.services import label_sheets, labels
from stockroom.services.finding import CodeMistyped
from tests.services.cases_labels import OWN_SHEET, sheet_saved
from tests.services.refusals.base import Refusal, closed, nothing, packed

LABELS = (
    Refusal(
        "labels.labels_of",
        NotFound,
        packed,
        lambda room: labels.labels_of(room, ["26329A01", "26329A77"]),
        ("26329A77",),
    ),
    Refusal(
        "labels.labels_of",
        BadInput,
        packed,
        lambda room: labels.labels_of(room, ["peas"]),
        ("peas", "26329A072"),
    ),
    Refusal(
        "labels.labels_of",
        CodeMistyped,
        packed,
        lambda room: labels.labels_of(room, ["26329A01Z"]),
        ("26329A01Z", "mistyped"),
    ),
    Refusal(
        "labels.labels_of",
        labels.GoneUnlabelled,
        packed,
        lambda room: labels.labels_of(room, ["26329A03"]),
        ("26329A03", "used", "nothing to label"),
    ),
    Refusal(
        "labels.labels_of",
        labels.NothingToLabel,
        closed,
        lambda room: labels.labels_of(room, ["26329A"]),
        ("lot 26329A", "nothing to print"),
    ),
    Refusal(
        "labels.bin_labels",
        NotFound,
        packed,
        lambda room: labels.bin_labels(room, ["26329B"]),
        ("26329B",),
    ),
    Refusal(
        "labels.bin_labels",
        BadInput,
        packed,
        lambda room: labels.bin_labels(room, ["?"]),
        ("?",),
    ),
    Refusal(
        "labels.bin_labels",
        CodeMistyped,
        packed,
        lambda room: labels.bin_labels(room, ["26329A01Z"]),
        ("26329A01Z",),
    ),
    Refusal(
        "labels.bin_labels",
        labels.NothingToLabel,
        packed,
        lambda room: labels.bin_labels(room, [], "loft"),
        ("loft", "nothing to print"),
    ),
    Refusal(
        "label_sheets.find_sheet",
        NotFound,
        nothing,
        lambda room: label_sheets.find_sheet(room, "A4"),
        ("A4 3 × 8, 70 × 37 mm",),
    ),
    Refusal(
        "label_sheets.find_sheet",
        BadInput,
        nothing,
        lambda room: label_sheets.find_sheet(room, " , "),
        ("label sheet",),
    ),
    Refusal(
        "label_sheets.save_sheet",
        BadInput,
        nothing,
        lambda room: label_sheets.save_sheet(room, replace(OWN_SHEET, rows=0)),
        ("rows", "from 1 to 80"),
    ),
    Refusal(
        "label_sheets.save_sheet",
        BadInput,
        nothing,
        lambda room: label_sheets.save_sheet(room, replace(OWN_SHEET, name="–")),
        ("sheet name", "letter or digit"),
    ),
    Refusal(
        "label_sheets.save_sheet",
        SheetOffPage,
        nothing,
        lambda room: label_sheets.save_sheet(room, replace(OWN_SHEET, left_um=20_000)),
        ("4 mm past the right edge",),
    ),
    Refusal(
        "label_sheets.save_sheet",
        label_sheets.LabelsTooSmall,
        nothing,
        lambda room: label_sheets.save_sheet(room, replace(OWN_SHEET, label_height_um=15_000)),
        ("64 × 15 mm", "17 × 17 mm"),
    ),
    Refusal(
        "label_sheets.save_sheet",
        label_sheets.SheetNameTaken,
        nothing,
        lambda room: label_sheets.save_sheet(
            room, replace(OWN_SHEET, name=BUILT_IN[0].name.replace("×", "x"))
        ),
        ("always there",),
    ),
    Refusal(
        "label_sheets.save_sheet",
        label_sheets.SameSheet,
        sheet_saved,
        lambda room: label_sheets.save_sheet(room, OWN_SHEET),
        ("Für Zoë", "already"),
    ),
    Refusal(
        "label_sheets.remove_sheet",
        NotFound,
        nothing,
        lambda room: label_sheets.remove_sheet(room, "freezer"),
        ("freezer",),
    ),
    Refusal(
        "label_sheets.remove_sheet",
        BadInput,
        nothing,
        lambda room: label_sheets.remove_sheet(room, ""),
        ("label sheet", "nothing"),
    ),
    Refusal(
        "label_sheets.remove_sheet",
        label_sheets.SheetNameTaken,
        nothing,
        lambda room: label_sheets.remove_sheet(room, "a4 3x8"),
        ("only your own can be removed",),
    ),
)
