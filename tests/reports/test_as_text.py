"""Reports as text: pages kept, widths kept, nothing that steers a terminal."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.cautions import CAUTIONS
from stockroom.reports.as_text import as_text, table_lines
from stockroom.reports.parts import caution_lines
from stockroom.reports.plain import NARROWEST, cells, clean
from stockroom.reports.values import (
    COUNT,
    TEXT,
    WEIGHT,
    Column,
    Field,
    Fields,
    Table,
    document,
    listing,
)
from tests.reports import golden
from tests.reports.samples import METRIC, US, reports

NAMES = tuple(reports())


@pytest.mark.parametrize("name", NAMES)
def test_a_page_is_as_it_was(name: str) -> None:
    # Written anew by: python -m tests.reports.golden
    assert golden.page(name) == golden.path_of(name).read_text(encoding="utf-8")


def test_no_page_is_left_over() -> None:
    assert {one.name for one in golden.PAGES.iterdir()} == {
        golden.path_of(name).name for name in NAMES
    }


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("width", [1, 20, 37, 60, 80, 120, 200])
def test_no_line_is_wider_than_the_page(name: str, width: int) -> None:
    for line in as_text(reports()[name], METRIC, width).splitlines():
        assert cells(line) <= max(width, NARROWEST)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("units", [METRIC, US])
def test_no_text_steers_a_terminal(name: str, units: object) -> None:
    text = as_text(reports(US if units is US else METRIC)[name], US if units is US else METRIC)
    assert all(line.isprintable() for line in text.splitlines())
    assert text.endswith("\n") and not text.endswith("\n\n") and "\n\n\n" not in text
    assert not any(line != line.rstrip() for line in text.splitlines())


@pytest.mark.parametrize("name", NAMES)
def test_without_a_width_nothing_is_cut(name: str) -> None:
    assert "…" not in as_text(reports()[name], METRIC)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("width", [60, 80, None])
def test_a_best_by_never_stands_alone(name: str, width: int | None) -> None:
    text = as_text(reports()[name], METRIC, width)
    if "best-by" in text.lower():
        assert "qualityestimate,notsafety" in "".join(text.lower().split())


def test_us_units_show_ounces_and_water_in_all_three_measures() -> None:
    page = as_text(reports(US)["package"], US)
    assert "1.76 oz of 2.19 oz packed" in page
    assert "272.6 g · 273 mL · about 1¼ US cups" in page


def test_columns_least_needed_go_first() -> None:
    table = Table(
        "t",
        (
            Column("a", TEXT, "name", least=5),
            Column("b", COUNT, "keep"),
            Column("c", TEXT, "second", drop=1),
            Column("d", TEXT, "first", drop=2),
        ),
        (("a long name", 1, "c" * 8, "d" * 8),),
    )
    assert "first" in table_lines(table, METRIC, 40)[0]
    at_30 = table_lines(table, METRIC, 30)
    assert (
        "second" in at_30[0]
        and "first" not in at_30[0]
        and at_30[2].startswith("a long n… ") is False
    )
    at_20 = table_lines(table, METRIC, 20)
    assert "second" not in at_20[0] and at_20[2].startswith("a long name")


@given(
    st.lists(
        st.tuples(st.text(max_size=30), st.integers(0, 10**6), st.text(max_size=10)),
        min_size=1,
        max_size=5,
    ),
    st.integers(20, 80),
)
def test_every_table_fits_and_keeps_its_rows(rows: list[tuple[str, int, str]], width: int) -> None:
    columns = (
        Column("name", TEXT, "name", least=6),
        Column("weight", WEIGHT, "weight"),
        Column("note", TEXT, "note", least=4, drop=1),
    )
    lines = table_lines(Table("t", columns, tuple(rows)), METRIC, width)
    assert len(lines) == len(rows) + 2
    assert all(cells(line) <= width for line in lines)
    for line, row in zip(lines[2:], rows, strict=True):
        assert f"{row[1] / 10:.1f} g" in line
        assert clean(line) == line


def test_an_empty_table_says_so_or_nothing() -> None:
    columns = (Column("name", TEXT, "name"),)
    assert as_text(listing(Table("t", columns, (), empty="None.")), METRIC) == "None.\n"
    assert table_lines(Table("t", columns, (), title="Rows"), METRIC, 80) == ()


def test_a_value_not_known_is_left_out_or_said() -> None:
    fields = Fields(
        (
            Field("a", WEIGHT, None, "left out"),
            Field("b", WEIGHT, None, "said", missing="not known"),
            Field("c", WEIGHT, 0, "nothing"),
            Field("d", COUNT, 4),
        )
    )
    assert as_text(document("", (fields,)), METRIC) == "said     not known\nnothing  0.0 g\n"


def test_cautions_come_once_each_the_gravest_first() -> None:
    shown = caution_lines([CAUTIONS[-1], CAUTIONS[2], CAUTIONS[0], CAUTIONS[2]])
    assert shown == (CAUTIONS[0].words, CAUTIONS[2].words, CAUTIONS[-1].words)
    assert "local codes and licensed guidance" in shown[-1]
    for one in CAUTIONS:
        assert one.source.citation in one.words or one.standing.words in one.words


@pytest.mark.parametrize("width", [30, 60, 80])
def test_a_history_is_wrapped_and_not_cut(width: int) -> None:
    page = as_text(reports()["package"], METRIC, width)
    history = " ".join(page[page.index("History") :].split())
    assert "took 12.0 g for Pea soup, water to add 65.4 g" in history
    assert "=1+1 ␛[31mred·" in history
