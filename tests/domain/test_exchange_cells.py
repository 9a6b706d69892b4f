"""Numbers, weights and days in the cells of a list."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.exchange.days import DayOrder, day_order, read_day_cell
from stockroom.domain.exchange.figures import (
    Decimal,
    decimal_sign,
    read_absorber,
    read_count,
    read_number,
    read_weight_cell,
    read_yes,
)
from stockroom.errors import BadInput

COMMA, POINT = Decimal.COMMA, Decimal.POINT


@pytest.mark.parametrize(
    ("cells", "sign"),
    [
        (["62,5", "1.500"], COMMA),
        (["1.234,5"], COMMA),
        (["62.5", "1,500"], POINT),
        (["1,234.5"], POINT),
        (["62", "1,500", "1.500"], None),
        (["62,5", "62.5"], None),
        ([], None),
    ],
)
def test_the_whole_list_tells_the_sign_before_decimals(
    cells: list[str], sign: Decimal | None
) -> None:
    assert decimal_sign(cells) is sign


@pytest.mark.parametrize(
    ("cell", "sign", "value"),
    [
        ("62,5", None, "62.5"),
        ("1,500", COMMA, "1.5"),
        ("1,500", POINT, "1500"),
        ("1.500", COMMA, "1500"),
        ("1.500", POINT, "1.5"),
        ("1.500", None, "1.5"),
        ("1.234,5", None, "1234.5"),
        ("1,234,567.5", None, "1234567.5"),
        ("1 234,5", COMMA, "1234.5"),
        ("1\u202f234", None, "1234"),
        ("1'234.5", POINT, "1234.5"),
        (".5", None, "0.5"),
    ],
)
def test_numbers_are_read_exactly(cell: str, sign: Decimal | None, value: str) -> None:
    assert read_number(cell, sign) == Fraction(value)


@pytest.mark.parametrize("cell", ["", "x", "1.2.3", "1e5", "-5", "1,2,3.4.5", "١٢", "9" * 16])
def test_what_is_no_number_is_told(cell: str) -> None:
    with pytest.raises(ValueError, match="no number"):
        read_number(cell, POINT)
    with pytest.raises(ValueError, match="say --decimal"):
        read_number("1,500", None)


@given(st.integers(0, 10**9), st.sampled_from(Decimal))
def test_a_number_is_read_as_it_was_written(tenths: int, sign: Decimal) -> None:
    """Python's own format is the other side of the trip."""
    written = f"{tenths / 10:,.1f}"
    if sign is COMMA:
        written = written.translate(str.maketrans(",.", ".,"))
    assert read_number(written, sign) * 10 == tenths


@pytest.mark.parametrize(
    ("cell", "unit", "weight_dg"),
    [
        ("62.5", None, 625),
        ("62.5", "g", 625),
        ("0.5", "kg", 5000),
        # An ounce is 28.349523125 g, NIST Handbook 44, appendix C.
        ("7", "oz", 1984),
        ("1.2 kg", "oz", 12000),
        ("2 lb 3 oz", "g", 9922),
        ("1lb", None, 4536),
    ],
)
def test_weights_are_read_in_the_unit_of_cell_heading_or_household(
    cell: str, unit: str | None, weight_dg: int
) -> None:
    assert read_weight_cell(cell, POINT, unit, "g") == weight_dg


def test_only_water_is_measured_by_volume() -> None:
    # 998.207 kg/m3 at 20 °C, as the table of the water's density says.
    assert read_weight_cell("1 L", POINT, None, "g", water=True) == 9982
    assert read_weight_cell("500", POINT, "ml", "g", water=True) == 4991
    for cell in ("500 mL", "5 cc", "5 cups", "5 °C"):
        with pytest.raises(ValueError, match=r"no unit|no number"):
            read_weight_cell(cell, POINT, None, "g")


def test_absorbers_counts_and_yes() -> None:
    read = {"300": 300, "300cc": 300, "300 CC": 300, "2 x 300 cc": 600, "-": 0, "none": 0, "No": 0}
    assert {cell: read_absorber(cell, POINT) for cell in read} == read
    assert [read_count(cell, POINT) for cell in ("3", "3.0", "1,000")] == [3, 3, 1000]
    assert [read_yes(cell) for cell in ("Yes", "x", "1", "no", "", "-")] == [True] * 3 + [False] * 3
    for wrong, reader in (("300 g", read_absorber), ("1.5", read_count), ("0", read_count)):
        with pytest.raises(ValueError, match=r"cc|whole"):
            reader(wrong, POINT)
    with pytest.raises(ValueError, match="neither"):
        read_yes("perhaps")


DAY = date(2026, 3, 5)


@pytest.mark.parametrize(
    ("cell", "order"),
    [
        ("2026-03-05", None),
        ("2026/3/5", None),
        ("2026-03-05 00:00:00", None),
        ("2026-03-05T00:00", None),
        ("5.3.2026", None),
        ("05.03.26", DayOrder.MONTH_FIRST),
        ("05/03/2026", DayOrder.DAY_FIRST),
        ("03/05/26", DayOrder.MONTH_FIRST),
        ("3/5/2026 12:00 AM", DayOrder.MONTH_FIRST),
        ("5-Mar-26", None),
        ("5 March 2026", None),
        ("Mar 5, 2026", None),
        ("March 5th 2026", None),
    ],
)
def test_days_are_read_in_the_forms_spreadsheets_write(cell: str, order: DayOrder | None) -> None:
    assert read_day_cell(cell, order) == DAY


@pytest.mark.parametrize(
    "cell", ["", "tomorrow", "46086", "31.4.2026", "2026-13-01", "5 Mer 2026", "1999-12-31", "1/1"]
)
def test_what_is_no_day_is_told(cell: str) -> None:
    with pytest.raises(ValueError, match=r"no day|no such day|no month|no code"):
        read_day_cell(cell, DayOrder.DAY_FIRST)


@pytest.mark.parametrize(
    ("cells", "order"),
    [
        (["03/04/2026", "25/11/2026"], DayOrder.DAY_FIRST),
        (["03/04/2026", "11/25/2026"], DayOrder.MONTH_FIRST),
        (["04/04/2026"], DayOrder.DAY_FIRST),
        (["2026-03-04", "3.4.2026"], None),
        ([], None),
    ],
)
def test_the_whole_column_tells_what_comes_first(cells: list[str], order: DayOrder | None) -> None:
    assert day_order(cells, None) is order


@pytest.mark.parametrize(
    ("cells", "words"),
    [(["03/04/2026", "05/06/2026"], "neither"), (["13/04/2026", "04/13/2026", "1/2/26"], "both")],
)
def test_days_that_can_be_read_two_ways_are_asked_about(cells: list[str], words: str) -> None:
    with pytest.raises(BadInput, match="dates") as caught:
        day_order(cells, None)
    assert words in caught.value.hint
    assert day_order(cells, DayOrder.MONTH_FIRST) is DayOrder.MONTH_FIRST


@given(
    st.integers(0, 36_000).map(lambda days: date(2000, 1, 1) + timedelta(days=days)),
    st.sampled_from(DayOrder),
)
def test_a_day_is_read_as_it_was_written(day: date, order: DayOrder) -> None:
    """Python's own format is the other side of the trip."""
    form = "%d/%m/%Y" if order is DayOrder.DAY_FIRST else "%m/%d/%Y"
    assert read_day_cell(day.strftime(form), order) == day
    assert "2025-04-03" in DayOrder.DAY_FIRST.words and "2025-03-04" in DayOrder.MONTH_FIRST.words
