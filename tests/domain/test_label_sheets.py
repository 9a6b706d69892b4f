"""Grids of labels: inside the page, apart from each other, filled row by row."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.labels.lengths import (
    inches,
    millimetres,
    read_length,
    read_pair,
    read_size,
    show_mm,
    show_size,
)
from stockroom.domain.labels.sheets import (
    BUILT_IN,
    FARTHEST_NUDGE_UM,
    PAPER_UM,
    Nudge,
    NudgeTooFar,
    Paper,
    Sheet,
    SheetOffPage,
    Spot,
    StartOffSheet,
    check_nudge,
    check_sheet,
    single_label,
    spots,
)
from stockroom.errors import BadInput

GAPS = st.integers(0, 5_000)


@st.composite
def sheets(draw: st.DrawFn) -> Sheet:
    """A sheet that lies on its page, edges touching the page's at times."""
    columns, rows = draw(st.integers(1, 6)), draw(st.integers(1, 14))
    width, height = draw(st.integers(20_000, 35_000)), draw(st.integers(15_000, 20_000))
    across, down = draw(GAPS), draw(GAPS)
    left, top = draw(GAPS), draw(GAPS)
    spare = st.sampled_from((0, 1, 7_000))
    return Sheet(
        "drawn",
        left + columns * (width + across) - across + draw(spare),
        top + rows * (height + down) - down + draw(spare),
        left, top, width, height, across, down, columns, rows,
    )  # fmt: skip


def overlap(sheet: Sheet, one: Spot, other: Spot) -> bool:
    """Whether two labels of one page share any ground."""
    return (
        one.page == other.page
        and abs(one.left_um - other.left_um) < sheet.label_width_um
        and abs(one.top_um - other.top_um) < sheet.label_height_um
    )


@given(sheets(), st.data())
def test_labels_lie_inside_the_page_and_apart(sheet: Sheet, data: st.DataObject) -> None:
    check_sheet(sheet)
    start = data.draw(st.integers(1, sheet.places))
    found = spots(sheet, data.draw(st.integers(1, 30)), start)
    for spot in found:
        assert 0 <= spot.left_um <= sheet.page_width_um - sheet.label_width_um
        assert 0 <= spot.top_um <= sheet.page_height_um - sheet.label_height_um
    assert not any(overlap(sheet, one, other) for one, other in combinations(found, 2))


@given(sheets(), st.data())
def test_rows_are_filled_first_from_the_start_and_no_place_is_skipped(
    sheet: Sheet, data: st.DataObject
) -> None:
    start, count = data.draw(st.integers(1, sheet.places)), data.draw(st.integers(1, 60))
    found = spots(sheet, count, start)
    assert (found[0].page, found[0].place) == (1, start)
    order = [(one.page - 1) * sheet.places + one.place for one in found]
    assert order == list(range(start, start + count))
    reading = [(one.page, one.top_um, one.left_um) for one in found]
    assert reading == sorted(reading)


@pytest.mark.parametrize("sheet", BUILT_IN, ids=lambda sheet: sheet.name)
def test_the_grids_that_come_along_lie_in_the_middle_of_real_paper(sheet: Sheet) -> None:
    """ISO 216 gives A4 210 by 297 mm; US Letter is 8.5 by 11 inches of 25.4 mm."""
    check_sheet(sheet)
    page = (sheet.page_width_um, sheet.page_height_um)
    assert page in ((210_000, 297_000), (215_900, 279_400))
    assert page == PAPER_UM[Paper.A4 if sheet.name.startswith("A4") else Paper.LETTER]
    last = spots(sheet, sheet.places)[-1]
    right = sheet.page_width_um - last.left_um - sheet.label_width_um
    below = sheet.page_height_um - last.top_um - sheet.label_height_um
    assert abs(right - sheet.left_um) <= 1 and abs(below - sheet.top_um) <= 1


def test_a_name_says_measures_only() -> None:
    assert [sheet.name for sheet in BUILT_IN][:2] == [
        "A4 3 × 8, 70 × 37 mm",
        "A4 3 × 7, 63.5 × 38.1 mm",
    ]
    assert len({sheet.name for sheet in BUILT_IN}) == len(BUILT_IN)


@given(sheets(), st.integers(1, 900))
def test_a_sheet_past_its_page_is_refused(sheet: Sheet, by: int) -> None:
    right = sheet.left_um + sheet.columns * (sheet.label_width_um + sheet.across_um)
    too_wide = Sheet(
        "drawn", right - sheet.across_um - by, sheet.page_height_um, sheet.left_um, sheet.top_um,
        sheet.label_width_um, sheet.label_height_um, sheet.across_um, sheet.down_um,
        sheet.columns, sheet.rows,
    )  # fmt: skip
    with pytest.raises(SheetOffPage, match="right edge"):
        check_sheet(too_wide)


def test_a_sheet_too_high_says_by_how_much() -> None:
    with pytest.raises(SheetOffPage, match=r"reach 3 mm past the lower edge"):
        check_sheet(Sheet("x", 210_000, 297_000, 0, 0, 70_000, 37_500, 0, 0, 3, 8))


@pytest.mark.parametrize("start", [0, -1, 25])
def test_a_start_off_the_sheet_is_refused(start: int) -> None:
    with pytest.raises(StartOffSheet, match="24 labels"):
        spots(BUILT_IN[0], 1, start)


def test_a_single_label_is_its_own_page() -> None:
    sheet = single_label(*read_size("2 x 1 in"))
    assert (sheet.page_width_um, sheet.page_height_um) == (50_800, 25_400)
    assert [(one.page, one.left_um, one.top_um) for one in spots(sheet, 2)] == [
        (1, 0, 0),
        (2, 0, 0),
    ]
    assert sheet.words == "one label of 50.8 × 25.4 mm"


def test_a_nudge_has_an_end() -> None:
    check_nudge(Nudge(FARTHEST_NUDGE_UM, -FARTHEST_NUDGE_UM))
    with pytest.raises(NudgeTooFar, match=r"10\.01 mm"):
        check_nudge(Nudge(0, -FARTHEST_NUDGE_UM - 10))


@pytest.mark.parametrize(
    ("text", "um"),
    [("12.7", 12_700), ("12,7 mm", 12_700), ("0.5 in", 12_700), ('1"', 25_400), ("0", 0)],
)
def test_lengths_are_read_exactly(text: str, um: int) -> None:
    """The inch is 25.4 mm by definition."""
    assert read_length(text, "left") == um


@pytest.mark.parametrize("text", ["", "-1", "1 cm", "1e3", "abc", "1001", "41 in", "١"])
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="left"):
        read_length(text, "left")


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("70x37", (70_000, 37_000)),
        ("70 × 37 mm", (70_000, 37_000)),
        ("63,5 mm x 38,1 mm", (63_500, 38_100)),
        ("4 x 2 in", (101_600, 50_800)),
        ("4in x 50", (101_600, 1_270_000)),
    ],
)
def test_sizes_are_read(text: str, size: tuple[int, int]) -> None:
    if max(size) > 1_000_000:
        with pytest.raises(BadInput):
            read_size(text)
    else:
        assert read_size(text) == size


@pytest.mark.parametrize("text", ["70", "0x37", "70x", "70xx37", "-70x37", ""])
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="size"):
        read_size(text)


def test_a_pair_goes_right_then_down() -> None:
    assert read_pair("0.5,-1", "nudge") == (500, -1_000)
    assert read_pair("-0.25 2 ", "nudge") == (-250, 2_000)
    for text in ("1", "1,2,3", "a,b", ""):
        with pytest.raises(BadInput, match="nudge"):
            read_pair(text, "nudge")


@given(st.integers(0, 999_999))
def test_what_is_shown_is_read_as_the_same_to_the_hundredth(um: int) -> None:
    assert abs(read_length(show_mm(um), "left") - um) <= 5


def test_inches_and_millimetres_as_written() -> None:
    assert (inches("2 5/8"), inches("3/16"), millimetres("63.5")) == (66_675, 4_762, 63_500)
    assert Fraction(66_675, 25_400) == Fraction(21, 8)
    assert show_size(63_500, 38_100) == "63.5 × 38.1 mm"
