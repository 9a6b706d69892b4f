"""CSV and JSON: the same values as the text, safe in a spreadsheet and on a terminal."""

from __future__ import annotations

import csv
import io
import json
import re
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.quantities import show_servings, show_temperature, show_weight, to_dg
from stockroom.reports import values
from stockroom.reports.as_csv import as_csv, safe_cell
from stockroom.reports.as_json import as_json, dumped
from stockroom.reports.as_text import as_text
from stockroom.reports.plain import clean
from stockroom.reports.values import Column, Kind, Table
from tests.reports.samples import AWKWARD, METRIC, STEERING, reports

NAMES = tuple(reports())
TABLES = {name: report.table for name, report in reports().items() if report.table is not None}


@pytest.mark.parametrize("name", NAMES)
def test_json_can_be_read_and_steers_no_terminal(name: str) -> None:
    for ascii_only in (False, True):
        text = as_json(reports()[name], ascii_only=ascii_only)
        found = json.loads(text)
        assert isinstance(found, list) is reports()[name].is_list
        assert all(line.isprintable() for line in text.splitlines())
        assert text.endswith("\n") and (text.isascii() or not ascii_only)


def test_json_keeps_every_character() -> None:
    found = json.loads(as_json(reports()["packages"]))
    assert found[0]["food"] == AWKWARD
    assert found[1]["note"] == STEERING
    assert found[0]["note"] == "squeezed twice\nsecond line \x07"


WORDS = st.text(st.characters(codec="utf-8"))
ANY_JSON = st.recursive(
    WORDS | st.integers() | st.booleans() | st.none(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3),
    max_leaves=8,
)


@given(ANY_JSON)
def test_any_json_comes_back_as_it_was(value: values.Json) -> None:
    text = dumped(value)
    assert json.loads(text) == value
    assert all(line.isprintable() or clean(line) == line for line in text.split("\n"))


PLAIN = (
    "water_to_add_ml", "gas_ml", "oxygen_cc", "residual_oxygen_cc", "reserve_cc",
    "water_ml", "now_ml", "held_ml",
)  # fmt: skip
"""Calculations give plain numbers under these keys, as they come out."""


@pytest.mark.parametrize("name", NAMES)
def test_keys_name_their_unit(name: str) -> None:
    """A weight is whole tenths of a gram under _dg, a temperature tenths under _dc."""
    for key, value in _pairs(json.loads(as_json(reports()[name]))):
        assert re.fullmatch(r"[a-z][a-z0-9_]*", key), key
        if key.endswith(("_dg", "_dc", "_ml", "_mm", "_cc")) and key not in PLAIN:
            assert value is None or type(value) is int, key
        if key.endswith(("_on", "_by", "today")) and key != "limited_by":
            assert value is None or date.fromisoformat(value), key


@pytest.mark.parametrize("name", TABLES)
def test_text_csv_and_json_agree_cell_for_cell(name: str) -> None:
    table = TABLES[name]
    rows = list(csv.reader(io.StringIO(as_csv(table))))
    keyed = [place for place, column in enumerate(table.columns) if column.key]
    assert rows[0] == [table.columns[place].csv_heading for place in keyed]
    assert len(rows) == len(table.rows) + 1
    for written, row in zip(rows[1:], table.rows, strict=True):
        for cell, place in zip(written, keyed, strict=True):
            column, value = table.columns[place], row[place]
            shown = "" if value is None else column.kind.to_text(value, METRIC)
            assert _as_text_would(cell, column.kind) == shown, column.key


def _as_text_would(cell: str, kind: Kind) -> str:
    """A CSV cell shown as the text table shows its value."""
    plain = cell[1:] if cell[:2] in ("'=", "'+", "'-", "'@") else cell
    if cell == "" and kind is not values.TEXT:
        return ""
    readers = {
        values.WEIGHT: lambda: show_weight(to_dg(Fraction(cell)), METRIC),
        values.WATER: lambda: values.WATER.to_text(to_dg(Fraction(cell)), METRIC),
        values.WATER_GRAMS: lambda: show_weight(to_dg(Fraction(cell)), METRIC),
        values.TEMPERATURE: lambda: show_temperature(to_dg(Fraction(cell)), METRIC),
        values.SERVINGS: lambda: show_servings(Fraction(cell)),
        values.VOLUME: lambda: f"{cell} mL",
        values.LENGTH: lambda: f"{cell} mm",
        values.ABSORBER: lambda: f"{cell} cc" if cell != "0" else "none",
        values.PERCENT: lambda: f"{float(cell):.1f} %",
        values.RATIO: lambda: f"{float(cell):.2f}",
        values.MOMENT: lambda: cell[:16].replace("T", " "),
    }
    return readers.get(kind, lambda: clean(plain))()


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("peas", "peas"),
        ("=1+1", "'=1+1"),
        ("+1+1", "'+1+1"),
        ("-1+1", "'-1+1"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("\tpeas", "'\tpeas"),
        ("\rpeas", "'␍peas"),
        ("-18.5", "-18.5"),
        ("+3", "+3"),
        ("-", "'-"),
        ("-1 kg", "'-1 kg"),
        ("two\nlines", "two\nlines"),
        ("\x1b[31m", "␛[31m"),
        ("a=1", "a=1"),
    ],
)
def test_no_cell_is_a_formula(typed: str, written: str) -> None:
    # The list of first characters is that of OWASP, CSV Injection.
    assert safe_cell(typed) == written


@given(st.lists(st.text(st.characters(codec="utf-8"), max_size=20), min_size=1, max_size=4))
def test_any_text_makes_one_row_of_safe_cells(texts: list[str]) -> None:
    columns = tuple(Column(f"c{place}") for place in range(len(texts)))
    found = list(csv.reader(io.StringIO(as_csv(Table("t", columns, (tuple(texts),))))))
    assert len(found) == 2 and len(found[1]) == len(texts)
    for cell in found[1]:
        number = re.fullmatch(r"[+-]?[0-9]+(\.[0-9]+)?", cell, re.ASCII)
        assert number or not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
        assert "\x1b" not in cell


def test_the_water_calculation_has_the_promised_keys() -> None:
    found = json.loads(as_json(reports()["water"]))
    promised = {
        "water_removed_g",
        "water_per_dry_g",
        "water_to_add_g",
        "water_to_add_ml",
        "us_cups",
    }
    assert promised <= set(found)
    assert all(type(found[key]) is float for key in promised)
    assert {"valid", "check_character"} <= set(json.loads(as_json(reports()["code"])))


def test_every_list_has_a_table_and_text_shows_its_rows() -> None:
    for name, report in reports().items():
        if report.is_list and report.table is not None and report.table.rows:
            assert len(as_text(report, METRIC).splitlines()) >= len(report.table.rows) + 2, name


def _pairs(value: object) -> list[tuple[str, object]]:
    """Every key with its value, at any depth."""
    if isinstance(value, dict):
        return [(str(key), one) for key, one in value.items()] + [
            pair for one in value.values() for pair in _pairs(one)
        ]
    if isinstance(value, list):
        return [pair for one in value for pair in _pairs(one)]
    return []
