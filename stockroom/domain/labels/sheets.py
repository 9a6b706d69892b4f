"""Sheets of labels: where each label lies on the page.

Lengths are whole micrometres (`_um`), so that millimetres and inches are both exact (1 in =
25.4 mm by definition). Places on a sheet are counted from 1, along the rows from the top left.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stockroom.domain.labels.lengths import UM_PER_MM, inches, millimetres, show_mm, show_size
from stockroom.errors import Refused

MOST_ACROSS = 40
MOST_DOWN = 80
"""Columns and rows of a sheet: engineering judgement, to catch slips of the finger."""
FARTHEST_NUDGE_UM = 10 * UM_PER_MM
"""How far a print is moved to meet the labels: engineering judgement. More is another sheet."""


class Paper(StrEnum):
    """A size of paper. A4 is of ISO 216; US Letter is 8.5 by 11 inches (from memory)."""

    A4 = "A4"
    LETTER = "US Letter"


PAPER_UM: dict[Paper, tuple[int, int]] = {
    Paper.A4: (210_000, 297_000),
    Paper.LETTER: (215_900, 279_400),
}
"""Width and height of each paper, upright."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A page with labels in rows and columns; a single label is a page of its own."""

    name: str
    page_width_um: int
    page_height_um: int
    left_um: int
    """From the page's left edge to the first label."""
    top_um: int
    label_width_um: int
    label_height_um: int
    across_um: int
    """The gap between two labels side by side."""
    down_um: int
    """The gap between two labels one above the other."""
    columns: int
    rows: int

    @property
    def places(self) -> int:
        """Labels on one page."""
        return self.columns * self.rows

    @property
    def words(self) -> str:
        """What it is by its measures."""
        size = show_size(self.label_width_um, self.label_height_um)
        if self.places == 1 and self.page_width_um == self.label_width_um:
            return f"one label of {size}"
        page = show_size(self.page_width_um, self.page_height_um)
        return f"{self.columns} × {self.rows} labels of {size} on {page}"


@dataclass(frozen=True, slots=True)
class Spot:
    """Where one label lies: the page from 1, its place from 1, its top left corner."""

    page: int
    place: int
    left_um: int
    top_um: int


@dataclass(frozen=True, slots=True)
class Nudge:
    """How far everything is moved on the page, to the right and down."""

    right_um: int = 0
    down_um: int = 0


class SheetOffPage(Refused):
    """The labels of a sheet would reach past the page."""

    def __init__(self, side: str, by_um: int) -> None:
        """`side` is "right" or "lower", the edge they reach past."""
        super().__init__(
            f"The labels would reach {show_mm(by_um)} past the {side} edge of the page.",
            "Measure the sheet again: margins, labels and the gaps between them.",
        )


class StartOffSheet(Refused):
    """The first label was to be printed where the sheet has none."""

    def __init__(self, start: int, places: int) -> None:
        super().__init__(
            f"The sheet has {places} labels, so printing cannot start at number {start}.",
            f"Count along the rows from the top left: 1 to {places}.",
        )


class NudgeTooFar(Refused):
    """A print was to be moved farther than printers stray."""

    def __init__(self, by_um: int) -> None:
        super().__init__(
            f"A nudge of {show_mm(by_um)} is no matter of the printer.",
            f"Nudge by {show_mm(FARTHEST_NUDGE_UM)} at most, or measure the sheet again.",
        )


def check_sheet(sheet: Sheet) -> None:
    """Raise SheetOffPage when its labels do not all lie on the page."""
    width = sheet.columns * (sheet.label_width_um + sheet.across_um) - sheet.across_um
    height = sheet.rows * (sheet.label_height_um + sheet.down_um) - sheet.down_um
    over_right = sheet.left_um + width - sheet.page_width_um
    over_bottom = sheet.top_um + height - sheet.page_height_um
    if over_right > 0:
        raise SheetOffPage("right", over_right)
    if over_bottom > 0:
        raise SheetOffPage("lower", over_bottom)


def check_nudge(nudge: Nudge) -> None:
    """Raise NudgeTooFar for more than printers stray."""
    far = max(abs(nudge.right_um), abs(nudge.down_um))
    if far > FARTHEST_NUDGE_UM:
        raise NudgeTooFar(far)


def spots(sheet: Sheet, count: int, start: int = 1) -> tuple[Spot, ...]:
    """Where `count` labels lie, the first at place `start` of the first page.

    Raises StartOffSheet.
    """
    if not 1 <= start <= sheet.places:
        raise StartOffSheet(start, sheet.places)
    return tuple(_spot(sheet, index) for index in range(start - 1, start - 1 + count))


def _spot(sheet: Sheet, index: int) -> Spot:
    """The spot of a label counted from 0 over all pages."""
    page, place = divmod(index, sheet.places)
    row, column = divmod(place, sheet.columns)
    return Spot(
        page=page + 1,
        place=place + 1,
        left_um=sheet.left_um + column * (sheet.label_width_um + sheet.across_um),
        top_um=sheet.top_um + row * (sheet.label_height_um + sheet.down_um),
    )


def single_label(width_um: int, height_um: int) -> Sheet:
    """A page that is one label."""
    return Sheet(
        name=show_size(width_um, height_um),
        page_width_um=width_um,
        page_height_um=height_um,
        left_um=0,
        top_um=0,
        label_width_um=width_um,
        label_height_um=height_um,
        across_um=0,
        down_um=0,
        columns=1,
        rows=1,
    )


def _centred(
    paper: Paper, columns: int, rows: int, size_um: tuple[int, int], across_um: int = 0
) -> Sheet:
    """A grid in the middle of the page, named by its measures."""
    page_width, page_height = PAPER_UM[paper]
    width, height = size_um
    return Sheet(
        name=f"{paper} {columns} × {rows}, {show_size(width, height)}",
        page_width_um=page_width,
        page_height_um=page_height,
        left_um=(page_width - columns * (width + across_um) + across_um) // 2,
        top_um=(page_height - rows * height) // 2,
        label_width_um=width,
        label_height_um=height,
        across_um=across_um,
        down_um=0,
        columns=columns,
        rows=rows,
    )


def _mm(width: str, height: str) -> tuple[int, int]:
    return millimetres(width), millimetres(height)


def _inches(width: str, height: str) -> tuple[int, int]:
    return inches(width), inches(height)


_GAP = millimetres("2.5")

BUILT_IN: tuple[Sheet, ...] = (
    _centred(Paper.A4, 3, 8, _mm("70", "37")),
    _centred(Paper.A4, 3, 7, _mm("63.5", "38.1"), _GAP),
    _centred(Paper.A4, 2, 7, _mm("99.1", "38.1"), _GAP),
    _centred(Paper.A4, 2, 4, _mm("99.1", "67.7"), _GAP),
    _centred(Paper.A4, 5, 13, _mm("38.1", "21.2"), _GAP),
    _centred(Paper.LETTER, 2, 5, _inches("4", "2"), inches("3/16")),
    _centred(Paper.LETTER, 3, 10, _inches("2 5/8", "1"), inches("1/8")),
    _centred(Paper.LETTER, 2, 3, _inches("4", "10/3"), inches("3/16")),
)
"""Plain grids that are sold widely: common practice, no source. Measure the sheet in hand."""
