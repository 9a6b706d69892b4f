"""Lists as spreadsheets write them: signs, titles, headings, encodings.

No spreadsheet program runs here, so the texts are written by hand with the traits of their
exports: CRLF line ends, a title over merged cells with empty cells beside it, quoted line breaks,
doubled quotes, a byte-order mark, a "sep=" line, a guarded formula.
"""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.exchange.headings import SPELLINGS, Field, find_headings, read_said
from stockroom.domain.exchange.sheet import MOST_ROWS, decode_sheet, read_sheet
from stockroom.errors import BadInput

HEADINGS = ("Food", "Dry weight (g)", "Sealed on", "Note")
ROWS = (
    ("Peas; green", "62,5", "2026-01-05", "two\r\nlines"),
    ('Soup "of the day"', "70", "2026-01-06", ""),
)


def written(between: str, *, title: bool = False, ends: str = "\r\n") -> str:
    """The rows as a spreadsheet writes them."""
    page = io.StringIO(newline="")
    writer = csv.writer(page, delimiter=between, lineterminator=ends)
    if title:
        writer.writerow(("Our larder, 2026", "", "", ""))
        writer.writerow(("", "", "", ""))
    writer.writerow(HEADINGS)
    writer.writerows(ROWS)
    return page.getvalue()


@pytest.mark.parametrize("between", ["\t", ";", ",", "|"])
@pytest.mark.parametrize("title", [False, True])
@pytest.mark.parametrize("ends", ["\r\n", "\n", "\r"])
def test_a_list_is_read_whatever_stands_between_its_cells(
    between: str, title: bool, ends: str
) -> None:
    sheet = read_sheet(written(between, title=title, ends=ends), {})
    assert (sheet.between, sheet.heading_line) == (between, 3 if title else 1)
    assert {field: heading.at for field, heading in sheet.headings.items()} == {
        Field.FOOD: 0, Field.DRY: 1, Field.SEALED_ON: 2, Field.NOTE: 3,
    }  # fmt: skip
    assert sheet.headings[Field.DRY].unit == "g"
    assert [row.cells[0] for row in sheet.rows] == ["Peas; green", 'Soup "of the day"']
    assert sheet.rows[0].cells[3].split() == ["two", "lines"]
    # The break inside a cell counts as a line, so the second row begins one further down.
    assert [row.line for row in sheet.rows] == [sheet.heading_line + 1, sheet.heading_line + 3]


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"]
)
def test_a_list_is_read_in_the_encodings_spreadsheets_write(encoding: str) -> None:
    text = "Food,dry\nCrème brûlée – “Zoë’s”,62\n"
    assert (decode_sheet(text.encode(encoding)) or "").lstrip("\ufeff") == text


@pytest.mark.parametrize("held", [b"\x89PNG\0\0\0", b"\xff\xfea", b"PK\x03\x04\0\0\x81\x8d"])
def test_what_is_no_text_is_told(held: bytes) -> None:
    assert decode_sheet(held) is None


def test_a_stated_sign_and_blank_lines_are_passed_over() -> None:
    sheet = read_sheet("sep=|\n\nfood|dry, or so|sealed\n\n , |1|2\n", {Field.DRY: "dry, or so"})
    assert sheet.between == "|" and sheet.rows[0].line == 5 and sheet.heading_line == 3


def test_the_apostrophe_that_guards_a_formula_is_taken_off() -> None:
    """OWASP's first characters of formulas; an apostrophe before anything else is the text's."""
    cells = ("=1+1", "+x", "-x", "@x")
    lines = "".join(f"'{cell},1,2026-01-01\n" for cell in cells)
    sheet = read_sheet(f"food,dry,sealed\n{lines}'s-Hertogenbosch,1,2026-01-01\n", {})
    assert [row.cells[0] for row in sheet.rows] == [*cells, "'s-Hertogenbosch"]


@pytest.mark.parametrize("field", Field)
def test_every_spelling_finds_its_field(field: Field) -> None:
    for spelling in SPELLINGS[field]:
        for heading in (spelling, spelling.upper(), spelling.replace(" ", "_"), f" {spelling}: "):
            assert find_headings((heading,), {}).keys() == {field}, heading


def test_no_heading_belongs_to_two_fields() -> None:
    every = [spelling for spellings in SPELLINGS.values() for spelling in spellings]
    assert len(every) == len(set(every))


@pytest.mark.parametrize(
    ("heading", "field", "unit"),
    [
        ("Dry weight [oz]", Field.DRY, "oz"),
        ("dry_weight_g", Field.DRY, "g"),
        ("Net weight in kg", Field.DRY, "kg"),
        ("Water (mL)", Field.WATER, "ml"),
        ("Absorber cc", Field.ABSORBER, "cc"),
        ("Absorber (if any)", Field.ABSORBER, None),
    ],
)
def test_a_unit_stands_in_the_heading(heading: str, field: Field, unit: str | None) -> None:
    found = find_headings((heading,), {})
    if heading == "Absorber (if any)":
        assert found[field].unit is None
        return
    assert (found[field].unit, found[field].text) == (unit, heading)


def test_the_surest_heading_is_taken_and_the_others_are_named() -> None:
    sheet = read_sheet("Name,Food,Weight,Dry weight,Date,Shelf life\na,b,1,2,3,4\n", {})
    assert {one.text for one in sheet.headings.values()} == {"Food", "Dry weight", "Date"}
    assert sheet.unused == ("Name", "Weight", "Shelf life")


def test_a_heading_can_be_given() -> None:
    said = read_said(["food=Was", "dry = Trocken (g)", "sealed-on=Am"])
    sheet = read_sheet("Was;Trocken (g);Am\nErbsen;62;2026-01-05\n", said)
    assert sheet.headings[Field.DRY].unit == "g" and sheet.unused == ()
    for wrong in ("food", "foods=x", "food= "):
        with pytest.raises(BadInput, match="--column"):
            read_said([wrong])
    with pytest.raises(BadInput, match="nowhere"):
        read_sheet("food,dry,sealed,x\na,1,2,3\n", {Field.PLACE: "nowhere"})


@pytest.mark.parametrize("after", ["", "\npeas,1,2026-01-01" * 9, "x" * 140_000, 'y"z"'])
def test_a_quote_left_open_is_told_by_its_line(after: str) -> None:
    """Otherwise all that follows would be one cell, and its rows gone without a word."""
    with pytest.raises(BadInput, match="line 3") as caught:
        read_sheet(f'food,dry,sealed\npeas,1,2026-01-01\n"soup{after}', {})
    assert "quotes closed" in caught.value.hint


def test_an_endless_list_is_refused() -> None:
    with pytest.raises(BadInput, match=f"{MOST_ROWS + 1} lines"):
        read_sheet("\n" * MOST_ROWS, {})


@given(
    st.lists(
        st.lists(st.text(st.characters(exclude_categories=["Cs", "Cc"])), min_size=3, max_size=3),
        max_size=5,
    )
)
def test_what_a_csv_writer_wrote_is_read_back(rows: list[list[str]]) -> None:
    """Python's own writer is the other side of the trip."""
    page = io.StringIO(newline="")
    writer = csv.writer(page, quoting=csv.QUOTE_ALL)
    writer.writerows([("food", "dry", "sealed"), *(["x", "y", "".join(row)] for row in rows)])
    sheet = read_sheet(page.getvalue(), {})
    kept = ["".join(row).strip().strip("\u00a0") for row in rows]
    kept = [cell[1:] if cell[:2] in ("'=", "'+", "'-", "'@") else cell for cell in kept]
    assert [row.cells[2] for row in sheet.rows] == kept
