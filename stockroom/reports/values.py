"""What a report is made of: columns and fields of raw values, set out only when asked.

A report keeps the numbers of the record (whole tenths of a gram, whole tenths of a degree, dates,
exact fractions). A `Kind` says how such a value reads for people, in CSV and in JSON, so that the
three can never disagree. `None` means not known and is never shown as zero.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction
from typing import Any

from stockroom.domain.quantities import (
    UnitSystem,
    grams,
    show_servings,
    show_temperature,
    show_weight,
)
from stockroom.domain.water import millilitres, quarter_cups, show_water
from stockroom.reports.plain import clean

Json = dict[str, "Json"] | list["Json"] | str | int | float | bool | None


@dataclass(frozen=True, slots=True)
class Kind:
    """How one kind of value is written; the suffixes name the unit in a heading."""

    to_text: Callable[[Any, UnitSystem], str]
    to_csv: Callable[[Any], str]
    to_json: Callable[[Any], Json]
    csv_suffix: str = ""
    json_suffix: str = ""
    right: bool = False


def _tenths(value: int) -> str:
    """Tenths as a plain decimal number."""
    return f"{grams(value):.1f}"


def _own(value: Any) -> Json:
    """A value JSON can hold as it is."""
    whole: Json = value
    return whole


def _iso(value: date) -> str:
    """A day or an instant as ISO text."""
    return value.isoformat()


def _decimal(value: Fraction) -> float:
    """A fraction as the nearest decimal number."""
    return float(value)


def _moment(value: datetime, _units: UnitSystem) -> str:
    """An instant to the minute, in UTC."""
    return f"{value:%Y-%m-%d %H:%M}"


def _amount(value: Fraction) -> str:
    """A number with two decimals at most and no zeros at its end; a trace is "<0.01"."""
    shown = f"{float(value):.2f}".rstrip("0").rstrip(".")
    return "<0.01" if shown == "0" and value > 0 else shown


TEXT = Kind(lambda value, _: clean(value), str, _own)
COUNT = Kind(lambda value, _: str(value), str, _own, right=True)
WEIGHT = Kind(show_weight, _tenths, _own, "_g", "_dg", right=True)
WATER = Kind(lambda value, _: show_water(value), _tenths, _own, "_g", "_dg")
WATER_GRAMS = Kind(
    lambda value, _: show_weight(value, UnitSystem.METRIC), _tenths, _own, "_g", "_dg", right=True
)
"""The three measures of `WATER`, each in a column of its own: grams, then mL and cups."""
MILLILITRES = Kind(lambda value, _: f"{millilitres(value):.0f} mL", _tenths, _own, right=True)
CUPS = Kind(lambda value, _: quarter_cups(millilitres(value)) if value else "", _tenths, _own)
TEMPERATURE = Kind(show_temperature, _tenths, _own, "_c", "_dc", right=True)
VOLUME = Kind(lambda value, _: f"{value} mL", str, _own, "_ml", "_ml", right=True)
LENGTH = Kind(lambda value, _: f"{value} mm", str, _own, "_mm", "_mm", right=True)
ABSORBER = Kind(lambda value, _: f"{value} cc" if value else "none", str, _own, "_cc", "_cc")
SERVINGS = Kind(
    lambda value, _: show_servings(value), lambda value: f"{float(value):.2f}", _decimal, right=True
)
AMOUNT = Kind(lambda value, _: _amount(value), _amount, _decimal, right=True)
RATIO = Kind(
    lambda value, _: f"{float(value):.2f}",
    lambda value: f"{float(value):.4f}",
    _decimal,
    right=True,
)
PERCENT = Kind(
    lambda value, _: f"{float(value):.1f} %", lambda value: f"{float(value):.2f}", _decimal,
    right=True,
)  # fmt: skip


def decimal_kind(digits: int) -> Kind:
    """A plain number, shown with so many decimals and whole in JSON."""
    return Kind(lambda value, _: f"{float(value):.{digits}f}", str, float)


DAY = Kind(lambda value, _: _iso(value), _iso, _iso)
MOMENT = Kind(_moment, _iso, _iso)
FLAG = Kind(lambda value, _: "yes" if value else "no", lambda value: "yes" if value else "no", bool)
WORDS = Kind(lambda value, _: clean(", ".join(value)), ", ".join, list)
"""Several words, such as the allergens of a food: a list in JSON."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table.

    `key` names the value in CSV and JSON, where the kind adds its unit; a column without one is
    for text only. `title` stands above the column in text; a column without one is left to CSV
    and JSON. `least` is how far a long text
    may be cut (0: never); a column with `drop` is left out of text when the page is too narrow,
    the highest first.
    """

    key: str
    kind: Kind = TEXT
    title: str = ""
    least: int = 0
    drop: int = 0

    @property
    def csv_heading(self) -> str:
        """The column's name in CSV, with its unit."""
        return self.key + self.kind.csv_suffix

    @property
    def json_key(self) -> str:
        """The column's name in JSON, with its unit."""
        return self.key + self.kind.json_suffix


Row = tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under columns. `empty` is said when there is none."""

    key: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    title: str = ""
    caption: str = ""
    """A line above the headings: what has to be borne in mind with every row."""
    empty: str = ""


@dataclass(frozen=True, slots=True)
class Field:
    """One value with its name. A field without a label is left to JSON, one without a key to text.

    `after` follows the value in text; `missing` stands for None, and a None without it leaves the
    line out.
    """

    key: str
    kind: Kind
    value: Any
    label: str = ""
    after: str = ""
    missing: str = ""


@dataclass(frozen=True, slots=True)
class Fields:
    """Values one under the other."""

    fields: tuple[Field, ...]
    title: str = ""


@dataclass(frozen=True, slots=True)
class Prose:
    """Sentences: cautions, notes, the steps of a recipe. An empty `key` is left out of JSON."""

    key: str
    lines: tuple[str, ...]
    title: str = ""
    bullet: str = ""


@dataclass(frozen=True, slots=True)
class Data:
    """A nested value that only JSON shows; text says the same in prose beside it."""

    key: str
    value: Json


Block = Table | Fields | Prose | Data


@dataclass(frozen=True, slots=True)
class Report:
    """One result, ready to be set out. `table` is its list form, for CSV and for lists in JSON.

    A report whose only block is its table is a list: JSON gives an array of its rows. Any other
    gives an object of its fields, tables and prose.
    """

    blocks: tuple[Block, ...]
    title: str = ""
    table: Table | None = None

    @property
    def is_list(self) -> bool:
        """Whether the report is one table and nothing else."""
        return len(self.blocks) == 1 and self.blocks[0] is self.table


def listing(table: Table) -> Report:
    """A report that is one list."""
    return Report((table,), table=table)


def document(title: str, blocks: Iterable[Block | None], table: Table | None = None) -> Report:
    """A report of several blocks; blocks that are None are left out."""
    return Report(tuple(block for block in blocks if block is not None), title, table)
