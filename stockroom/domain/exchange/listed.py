"""The rows of a list read as packages, with everything that stands in the way by line and column.

One problem does not hide another: every cell is read, and what cannot be is told.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from stockroom.domain.codes import LAST_PACKAGE_NUMBER
from stockroom.domain.exchange.days import DayOrder, day_order, read_day_cell
from stockroom.domain.exchange.figures import (
    Decimal,
    decimal_sign,
    read_absorber,
    read_count,
    read_weight_cell,
    read_yes,
)
from stockroom.domain.exchange.headings import Field
from stockroom.domain.exchange.sheet import Sheet, SheetRow
from stockroom.domain.packing import LARGEST_ABSORBER_CC
from stockroom.domain.quantities import HEAVIEST_DG, UnitSystem, grams

WATER_APART_DG = 10
"""So far the water may be from wet less dry weight: a gram of rounding, engineering judgement."""
_FIGURES = (Field.DRY, Field.WATER, Field.WET, Field.ABSORBER, Field.COUNT)
_DAYS = (Field.SEALED_ON, Field.MADE_ON)
_LONGEST_SHOWN = 40


@dataclass(frozen=True, slots=True)
class Problem:
    """What stands in the way of a row: its line, the heading of its column, and why."""

    line: int
    column: str
    why: str


@dataclass(frozen=True, slots=True)
class ListedRow:
    """One row: so many packages alike. Water None is not told; names are as they were typed."""

    line: int
    food: str
    dry_dg: int
    water_dg: int | None
    container: str
    absorber_cc: int
    vacuum: bool
    sealed_on: date
    made_on: date
    place: str
    count: int
    note: str
    code: str


@dataclass(frozen=True, slots=True)
class ListRead:
    """A list with what could be read of it; `order` and `decimal` are how it was read."""

    sheet: Sheet
    rows: tuple[ListedRow, ...]
    problems: tuple[Problem, ...]
    order: DayOrder | None
    decimal: Decimal | None

    @property
    def packages(self) -> int:
        """How many packages the rows are."""
        return sum(row.count for row in self.rows)


class _Reader:
    """Reads the cells of one list; a cell written the same way is read once."""

    def __init__(
        self, sheet: Sheet, order: DayOrder | None, decimal: Decimal | None, units: UnitSystem
    ) -> None:
        self.sheet = sheet
        self.problems: list[Problem] = []
        self._seen: dict[tuple[Field, str], object] = {}
        bare = "oz" if units is UnitSystem.US else "g"
        named = {field: heading.unit for field, heading in sheet.headings.items()}
        self._readers: Mapping[Field, Callable[[str], object]] = {
            Field.DRY: lambda cell: _weight(cell, decimal, named.get(Field.DRY), bare),
            Field.WET: lambda cell: _weight(cell, decimal, named.get(Field.WET), bare),
            Field.WATER: lambda cell: _water(cell, decimal, named.get(Field.WATER), bare),
            Field.ABSORBER: lambda cell: _absorber(cell, decimal),
            Field.COUNT: lambda cell: _count(cell, decimal),
            Field.VACUUM: read_yes,
            Field.SEALED_ON: lambda cell: read_day_cell(cell, order),
            Field.MADE_ON: lambda cell: read_day_cell(cell, order),
        }

    def text(self, row: SheetRow, field: Field) -> str:
        """A cell as it is."""
        return row.cell(self.sheet.headings.get(field))

    def value(self, row: SheetRow, field: Field) -> object:
        """A cell read, None for an empty one; trouble with it is noted and raised."""
        cell = self.text(row, field)
        if not cell:
            return None
        key = (field, cell)
        if key not in self._seen:
            try:
                self._seen[key] = self._readers[field](cell)
            except ValueError as error:
                self._seen[key] = error
        found = self._seen[key]
        if isinstance(found, ValueError):
            self.trouble(row, field, f"{_shown(cell)}: {found}")
        return found

    def trouble(self, row: SheetRow, field: Field, why: str) -> None:
        """Note what stands in the way of a row."""
        heading = self.sheet.headings.get(field)
        self.problems.append(Problem(row.line, heading.text if heading else str(field), why))


def read_list(
    sheet: Sheet,
    *,
    units: UnitSystem,
    today: date,
    order: DayOrder | None = None,
    decimal: Decimal | None = None,
) -> ListRead:
    """The packages of a list; `units` are those of figures without one.

    `order` and `decimal` None are told by the whole list. Raises BadInput when the order of day
    and month cannot be told.
    """
    order = day_order(_cells(sheet, _DAYS), order)
    decimal = decimal or decimal_sign(_cells(sheet, _FIGURES))
    reader = _Reader(sheet, order, decimal, units)
    found = [_row(reader, row, today) for row in sheet.rows]
    rows = tuple(row for row in found if row is not None)
    return ListRead(sheet, rows, tuple(reader.problems), order, decimal)


def _cells(sheet: Sheet, fields: tuple[Field, ...]) -> list[str]:
    headings = [sheet.headings[field] for field in fields if field in sheet.headings]
    return [row.cell(heading) for row in sheet.rows for heading in headings]


def _row(reader: _Reader, row: SheetRow, today: date) -> ListedRow | None:
    """One row, or None when something stands in its way, which is noted."""
    before = len(reader.problems)
    if any(row.cells[reader.sheet.width :]):
        why = "the row has more cells than there are headings: a name with a comma needs quotes"
        reader.problems.append(Problem(row.line, "", why))
        return None
    values = {field: reader.value(row, field) for field in (*_FIGURES, *_DAYS, Field.VACUUM)}
    food, dry_dg = reader.text(row, Field.FOOD), values[Field.DRY]
    if not food:
        reader.trouble(row, Field.FOOD, "no food is named")
    if dry_dg is None:
        reader.trouble(row, Field.DRY, "there is no dry weight")
    days = _days(reader, row, values, today)
    water_dg = _water_of(reader, row, values)
    if len(reader.problems) > before or days is None:
        return None
    return ListedRow(
        line=row.line,
        food=food,
        dry_dg=_whole(dry_dg),
        water_dg=water_dg,
        container=reader.text(row, Field.CONTAINER),
        absorber_cc=_whole(values[Field.ABSORBER]),
        vacuum=values[Field.VACUUM] is True,
        sealed_on=days[0],
        made_on=days[1],
        place=reader.text(row, Field.PLACE),
        count=_whole(values[Field.COUNT]) or 1,
        note=reader.text(row, Field.NOTE),
        code=reader.text(row, Field.CODE),
    )


def _days(
    reader: _Reader, row: SheetRow, values: Mapping[Field, object], today: date
) -> tuple[date, date] | None:
    """The days of sealing and of making; one stands for the other where only one is told."""
    sealed, made = values[Field.SEALED_ON], values[Field.MADE_ON]
    if isinstance(sealed, ValueError) or isinstance(made, ValueError):
        return None
    sealed_on, made_on = sealed or made, made or sealed
    if not isinstance(sealed_on, date) or not isinstance(made_on, date):
        reader.trouble(row, Field.SEALED_ON, "there is no day")
        return None
    field = Field.SEALED_ON if sealed is not None else Field.MADE_ON
    if sealed_on > today:
        reader.trouble(row, field, f"{sealed_on.isoformat()} has not come")
    if made_on > sealed_on:
        reader.trouble(
            row, field, f"sealed on {sealed_on.isoformat()}, before it was made on"
            f" {made_on.isoformat()}",
        )  # fmt: skip
    return sealed_on, made_on


def _water_of(reader: _Reader, row: SheetRow, values: Mapping[Field, object]) -> int | None:
    """The water of a package: told, or wet less dry weight; None where neither is."""
    dry, water, wet = values[Field.DRY], values[Field.WATER], values[Field.WET]
    told_dg = water if isinstance(water, int) else None
    if not isinstance(wet, int) or not isinstance(dry, int):
        return told_dg
    if wet < dry:
        words = f"wet {grams(wet):.1f} g is less than dry {grams(dry):.1f} g"
        reader.trouble(row, Field.WET, words)
    elif told_dg is not None and abs(wet - dry - told_dg) > WATER_APART_DG:
        words = f"wet less dry is {grams(wet - dry):.1f} g, the water {grams(told_dg):.1f} g"
        reader.trouble(row, Field.WATER, words)
    return wet - dry if told_dg is None else told_dg


def _whole(value: object) -> int:
    return value if isinstance(value, int) else 0


def _weight(cell: str, decimal: Decimal | None, unit: str | None, bare: str) -> int:
    weight_dg = read_weight_cell(cell, decimal, unit, bare)
    if not 1 <= weight_dg <= HEAVIEST_DG:
        raise ValueError("it is no weight from 0.1 g to 100 kg")
    return weight_dg


def _water(cell: str, decimal: Decimal | None, unit: str | None, bare: str) -> int:
    water_dg = read_weight_cell(cell, decimal, unit, bare, water=True)
    if water_dg > HEAVIEST_DG:
        raise ValueError("it is more than 100 kg")
    return water_dg


def _absorber(cell: str, decimal: Decimal | None) -> int:
    absorber_cc = read_absorber(cell, decimal)
    if absorber_cc > LARGEST_ABSORBER_CC:
        raise ValueError(f"it is more than {LARGEST_ABSORBER_CC} cc")
    return absorber_cc


def _count(cell: str, decimal: Decimal | None) -> int:
    count = read_count(cell, decimal)
    if count > LAST_PACKAGE_NUMBER:
        raise ValueError(f"it is more than {LAST_PACKAGE_NUMBER}, as many as a lot can have")
    return count


def _shown(cell: str) -> str:
    """A cell as a problem quotes it."""
    short = cell if len(cell) <= _LONGEST_SHOWN else f"{cell[:_LONGEST_SHOWN].rstrip()}…"
    return f"“{short}”"
