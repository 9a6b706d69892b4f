"""Labels as a PDF: placed on their sheet, words made to fit, each with its code as a QR symbol.

A symbol carries the code alone, as plain text (no claim to any scheme of trade numbers). It is of
version 1 at error level H, so a third of it may be soiled and it still reads (level H restores
about 30 %: ISO/IEC 18004, from memory), and 10 mm wide at least.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any, Protocol, cast

from stockroom.domain.labels.fitting import Fitted, fit
from stockroom.domain.labels.laying import STRONG_EXTRA_EMS, Line
from stockroom.domain.labels.layout import QUIET_MODULES, Layout, layout
from stockroom.domain.labels.least import TextDoesNotFit, least_size
from stockroom.domain.labels.lengths import UM_PER_MM
from stockroom.domain.labels.sheets import Nudge, Sheet, Spot, check_nudge, check_sheet, spots
from stockroom.domain.labels.statements import Label, Statement, to_write_in
from stockroom.reports.label_fonts import Font, Fonts, needs_shaping
from stockroom.reports.plain import clean

KIND = "label sheet"
MARK = "en-x-stockroom"
"""The document's language, with a private part (RFC 5646, 2.2.7, published) that marks it as ours:
it stands near the beginning of the file."""
_POINT_UM = 25_400 / 72
_TRIAL_POINTS = 100
_OVERLAP_UM = 10
"""Rows of the symbol overlap by as much, so that no viewer shows a line between them."""


@dataclass(frozen=True, slots=True)
class Printed:
    """One label as it was printed."""

    label: Label
    spot: Spot
    fitted: Fitted


@dataclass(frozen=True, slots=True)
class PrintedLabels:
    """A file of labels, each label's place, and what the person should know."""

    sheet: Sheet
    content: bytes
    printed: tuple[Printed, ...]
    findings: tuple[str, ...]

    @property
    def pages(self) -> int:
        """How many pages it has."""
        return self.printed[-1].spot.page


class _FontInUse(Protocol):
    """A font of the document."""

    def close(self) -> None: ...


class _Canvas(Protocol):
    """What the drawing library does for a label, all lengths in millimetres."""

    fonts: dict[str, _FontInUse]

    def add_page(self) -> None: ...
    def add_font(self, family: str, style: str, fname: Path) -> None: ...
    def set_font(self, family: str, style: str = "", size: float = 0) -> None: ...
    def set_text_shaping(self, use_shaping_engine: bool = True) -> None: ...
    def get_string_width(self, s: str) -> float: ...
    def set_xy(self, x: float, y: float) -> None: ...
    def cell(self, w: float, h: float, text: str) -> bool: ...
    def rect(self, x: float, y: float, w: float, h: float, style: str) -> None: ...
    def local_context(self, **state: Any) -> AbstractContextManager[None]: ...
    def output(self) -> bytearray: ...


def is_our_label_sheet(head: bytes) -> bool:
    """Whether a file that begins so is a sheet of labels this program wrote."""
    return head.startswith(b"%PDF") and f"/Lang ({MARK})".encode() in head


def label_pdf(
    labels: Sequence[Label],
    sheet: Sheet,
    on_day: date,
    *,
    start: int = 1,
    nudge: Nudge | None = None,
    fonts: Fonts | None = None,
) -> PrintedLabels:
    """The file with all labels, the first at place `start`. `on_day` is the day it says of itself.

    ValueError for no labels. Raises StartOffSheet, SheetOffPage, NudgeTooFar, TextDoesNotFit.
    """
    if not labels:
        raise ValueError("a file of labels holds one label at least")
    moved = nudge or Nudge()
    check_sheet(sheet)
    check_nudge(moved)
    press = _Press(_canvas(sheet, on_day), fonts or Fonts())
    placed = spots(sheet, len(labels), start)
    try:
        ready = [press.readable(label) for label in labels]
        printed = tuple(
            Printed(label, spot, press.fitted(label, sheet))
            for label, spot in zip(ready, placed, strict=True)
        )
        press.draw(printed, sheet, moved)
        findings = (*press.findings, *_given_way(printed))
        return PrintedLabels(sheet, press.content, printed, findings)
    finally:
        press.close()


def _canvas(sheet: Sheet, on_day: date) -> _Canvas:
    """An empty document of the sheet's pages."""
    from fpdf import FPDF

    pages = (sheet.page_width_um / UM_PER_MM, sheet.page_height_um / UM_PER_MM)
    document = FPDF(orientation="portrait", unit="mm", format=pages)
    document.set_auto_page_break(False)
    document.set_margin(0)
    document.c_margin = 0
    document.set_lang(MARK)
    document.set_title("stockroom labels")
    document.set_producer("stockroom")
    document.set_creation_date(datetime(on_day.year, on_day.month, on_day.day, tzinfo=UTC))
    return cast(_Canvas, document)


class _Press:
    """The document under way: which font each text takes, how wide it is, and the drawing."""

    def __init__(self, canvas: _Canvas, fonts: Fonts) -> None:
        self.canvas = canvas
        self.fonts = fonts
        self.findings: list[str] = []
        self._families: dict[Path, str] = {}
        self._widths: dict[str, float] = {}

    @property
    def content(self) -> bytes:
        """The whole file."""
        return bytes(self.canvas.output())

    def close(self) -> None:
        """Close the font files, which the library leaves open."""
        for font in self.canvas.fonts.values():
            font.close()

    def readable(self, label: Label) -> Label:
        """The label with every text in letters that some font has."""
        said = tuple(self._readable(label.code, one) for one in label.statements)
        return replace(label, statements=said)

    def _readable(self, code: str, statement: Statement) -> Statement:
        """A statement some font can print: pictures left out, or a line to write it on."""
        forms = tuple(clean(unicodedata.normalize("NFC", form)) for form in statement.forms)
        if self.fonts.for_text(forms[0]) is not None:
            return replace(statement, forms=forms)
        missing = _missing(self.fonts, forms[0])
        bare = self.fonts.without_signs(forms[0])
        if bare.removeprefix(statement.stem).strip(" :") and self.fonts.for_text(bare):
            self.findings.append(f"{code}: no font here has {missing}; it is left out.")
            return replace(statement, forms=(bare,))
        self.findings.append(
            f"{code}: no font here has {missing}; there is a line to write the {statement.key} on."
            " Name a font file that has them with --font."
        )
        return to_write_in(statement)

    def fitted(self, label: Label, sheet: Sheet) -> Fitted:
        """The label's words made to fit. Raises TextDoesNotFit."""
        parts = layout(sheet.label_width_um, sheet.label_height_um)
        found = None if parts is None else fit(label, parts.area, self.measure)
        if found is None:
            raise TextDoesNotFit(
                label.code,
                (sheet.label_width_um, sheet.label_height_um),
                least_size(label, sheet.label_width_um, sheet.label_height_um, self.measure),
            )
        return found

    def measure(self, text: str) -> float:
        """The width of a text in ems of its font."""
        if text not in self._widths:
            self._set_font(text, _TRIAL_POINTS)
            width_um = self.canvas.get_string_width(text) * UM_PER_MM
            self._widths[text] = width_um / (_TRIAL_POINTS * _POINT_UM)
        return self._widths[text]

    def _set_font(self, text: str, points: float) -> None:
        """Take the font of a text, shaped where its script is."""
        font = self.fonts.for_text(text) or self.fonts.bundled
        self.canvas.set_font(self._family(font), "", points)
        self.canvas.set_text_shaping(needs_shaping(text))

    def _family(self, font: Font) -> str:
        """The name a font goes by in the document."""
        if font.path not in self._families:
            name = f"label{len(self._families)}"
            self.canvas.add_font(name, "", font.path)
            self._families[font.path] = name
        return self._families[font.path]

    def draw(self, printed: Sequence[Printed], sheet: Sheet, nudge: Nudge) -> None:
        """Draw every label on its page."""
        parts = layout(sheet.label_width_um, sheet.label_height_um)
        assert parts is not None
        page = 0
        for one in printed:
            while page < one.spot.page:
                self.canvas.add_page()
                page += 1
            left = one.spot.left_um + parts.padding_um + nudge.right_um
            top = one.spot.top_um + parts.padding_um + nudge.down_um
            self._draw_symbol(one.label.code, parts, left, top)
            for line in one.fitted.lines:
                self._draw_line(line, left, top)

    def _draw_symbol(self, code: str, parts: Layout, left_um: int, top_um: int) -> None:
        """The code as a QR symbol inside its blank margin."""
        side = parts.module_um
        for row, start, length in _dark_runs(code):
            self.canvas.rect(
                (left_um + (QUIET_MODULES + start) * side) / UM_PER_MM,
                (top_um + (QUIET_MODULES + row) * side) / UM_PER_MM,
                length * side / UM_PER_MM,
                (side + _OVERLAP_UM) / UM_PER_MM,
                "F",
            )

    def _draw_line(self, line: Line, left_um: int, top_um: int) -> None:
        """One line of words; a strong one is drawn with its outline."""
        extra = STRONG_EXTRA_EMS * line.size_um if line.strong else 0
        style = {"text_mode": "FILL_STROKE", "line_width": extra / UM_PER_MM} if extra else {}
        with self.canvas.local_context(**style):
            self._set_font(line.text, line.size_um / _POINT_UM)
            self.canvas.set_xy(
                (left_um + line.left_um + extra / 2) / UM_PER_MM,
                (top_um + line.top_um) / UM_PER_MM,
            )
            width = self.canvas.get_string_width(line.text)
            self.canvas.cell(width, line.size_um / UM_PER_MM, line.text)


def _dark_runs(code: str) -> Iterator[tuple[int, int, int]]:
    """Row, first column and length of every run of dark modules."""
    from segno import make_qr

    symbol = cast(Any, make_qr)(code, version=1, error="h", mode="alphanumeric", boost_error=False)
    for row, modules in enumerate(cast("Sequence[Sequence[int]]", symbol.matrix)):
        start = 0
        while start < len(modules):
            end = start
            while end < len(modules) and modules[end]:
                end += 1
            if end > start:
                yield row, start, end - start
            start = end + 1


def _missing(fonts: Fonts, text: str) -> str:
    """The characters of a text that the bundled font lacks, as a person reads them."""
    lacking = [sign for sign in dict.fromkeys(text) if not fonts.bundled.has(sign)]
    return "“" + "".join(lacking[:8]) + ("…" if len(lacking) > 8 else "") + "”"


_NAMED = {
    "name": "the name",
    "dryness": "why dryness was not shown",
    "preparation": "how it was prepared",
    "packages": "the number of packages",
    "servings": "servings",
    "absorber": "the note on the absorber",
    "water": "the water to add",
}


def _given_way(printed: Sequence[Printed]) -> Iterator[str]:
    """What was cut or left out for lack of room, and on how many labels."""
    for said, keys_of in (
        ("cut short", [one.fitted.cut for one in printed]),
        ("left out", [one.fitted.left_out for one in printed]),
    ):
        for key, words in _NAMED.items():
            count = sum(key in keys for keys in keys_of)
            if count:
                on = "1 label" if count == 1 else f"{count} labels"
                yield f"For lack of room on {on}: {words} {said}."
