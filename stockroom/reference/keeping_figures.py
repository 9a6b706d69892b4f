"""Everything the full keeping model stands on, put together from the tables.

class_figures.csv (lives, oxygen tolerance, isotherm and crispness by food class), barriers.csv
(by kind of package), keeping_figures.csv (what holds for all), opened_lives.csv, absorbers.csv.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

from stockroom.domain.keeping.figures import (
    BarrierFigures,
    ClassFigures,
    Figure,
    KeepingFigures,
    Quantity,
    Spread,
)
from stockroom.domain.keeping.interface import FoodClass, PackageKind
from stockroom.domain.keeping.moisture import Isotherm
from stockroom.reference.containers import absorber_sizes
from stockroom.reference.sources import source_of, sources, standing_of
from stockroom.reference.tables import ReferenceDamaged, Row, exact, read_table

_CLASS_TABLE = "class_figures"
_BARRIER_TABLE = "barriers"
_COMMON_TABLE = "keeping_figures"
_OPENED_TABLE = "opened_lives"
_ENDS = ("pessimistic", "middle", "optimistic")


@cache
def keeping_figures() -> KeepingFigures:
    """All figures. Raises ReferenceDamaged when a row is missing, doubled or cannot be."""
    common = _by_quantity(_COMMON_TABLE, read_table(_COMMON_TABLE))
    opened = {row["closed_how"]: row for row in read_table(_OPENED_TABLE)}
    return KeepingFigures(
        classes=tuple(_class(food_class) for food_class in FoodClass),
        barriers=tuple(_barrier(kind) for kind in PackageKind),
        q10=_figure(_COMMON_TABLE, common, Quantity.Q10),
        room_humidity=_figure(_COMMON_TABLE, common, Quantity.ROOM_HUMIDITY),
        first_activity=_figure(_COMMON_TABLE, common, Quantity.FIRST_ACTIVITY),
        stated_temperature=_figure(_COMMON_TABLE, common, Quantity.STATED_TEMPERATURE),
        opened=_opened(opened, "open"),
        reclosed=_opened(opened, "reclosed_with_absorber"),
        residual_moisture=_figure(_COMMON_TABLE, common, "residual_moisture"),
        absorber_sizes_cc=tuple(size.size_cc for size in absorber_sizes()),
    )


def _class(food_class: FoodClass) -> ClassFigures:
    """The figures of one class."""
    rows = _by_quantity(
        _CLASS_TABLE,
        (row for row in read_table(_CLASS_TABLE) if row["food_class"] == food_class),
    )
    isotherm = Isotherm(
        *(
            _spread(_CLASS_TABLE, _row(_CLASS_TABLE, rows, name)).middle
            for name in ("gab_monolayer", "gab_c", "gab_k")
        )
    )
    if not isotherm.is_plausible:
        raise ReferenceDamaged(_CLASS_TABLE, f"the isotherm of {food_class} cannot be")
    gab = rows["gab_monolayer"]
    return ClassFigures(
        food_class,
        _figure(_CLASS_TABLE, rows, Quantity.LIFE_WITHOUT_OXYGEN),
        _figure(_CLASS_TABLE, rows, Quantity.LIFE_IN_AIR),
        _figure(_CLASS_TABLE, rows, Quantity.OXYGEN_TOLERANCE),
        _figure(_CLASS_TABLE, rows, Quantity.CRISP_LIMIT),
        isotherm,
        source_of(_CLASS_TABLE, gab),
        standing_of(_CLASS_TABLE, gab),
    )


def _barrier(kind: PackageKind) -> BarrierFigures:
    """The figures of one kind of package: those of its film, or those of its lid."""
    rows = _by_quantity(
        _BARRIER_TABLE,
        (row for row in read_table(_BARRIER_TABLE) if row["package_kind"] == kind),
    )
    film = (Quantity.OXYGEN_TRANSMISSION, Quantity.VAPOUR_TRANSMISSION)
    lid = (Quantity.LID_OXYGEN, Quantity.LID_VAPOUR)
    has_film, has_lid = (all(quantity in rows for quantity in path) for path in (film, lid))
    if has_film == has_lid or len(rows) != 2:
        raise ReferenceDamaged(_BARRIER_TABLE, f"{kind} needs both figures of a film or of a lid")
    found = {quantity: _figure(_BARRIER_TABLE, rows, quantity) for quantity in (film, lid)[has_lid]}
    return BarrierFigures(
        kind,
        found.get(Quantity.OXYGEN_TRANSMISSION),
        found.get(Quantity.VAPOUR_TRANSMISSION),
        found.get(Quantity.LID_OXYGEN),
        found.get(Quantity.LID_VAPOUR),
    )


def _opened(rows: Mapping[str, Row], closed_how: str) -> Figure:
    """One row of the opened lives, in days."""
    row = _row(_OPENED_TABLE, rows, closed_how)
    low, mid, high = (
        float(exact(_OPENED_TABLE, row, column)) for column in ("low_days", "mid_days", "high_days")
    )
    return Figure(
        Quantity.OPENED_LIFE,
        Spread(low, mid, high),
        "days",
        source_of(_OPENED_TABLE, row),
        standing_of(_OPENED_TABLE, row),
    )


def _figure(table: str, rows: Mapping[str, Row], name: str) -> Figure:
    """One figure of a table with its spread."""
    row = _row(table, rows, name)
    return Figure(
        Quantity(name),
        _spread(table, row),
        row["unit"],
        source_of(table, row),
        standing_of(table, row),
        sources()[row["anchor"]] if row["anchor"] else None,
    )


def _spread(table: str, row: Row) -> Spread:
    """The three values of a row."""
    pessimistic, middle, optimistic = (float(exact(table, row, end)) for end in _ENDS)
    return Spread(pessimistic, middle, optimistic)


def _by_quantity(table: str, rows: Iterable[Row]) -> dict[str, Row]:
    """Rows by their quantity; one that stands there twice is damage."""
    found: dict[str, Row] = {}
    for row in rows:
        if row["quantity"] in found:
            raise ReferenceDamaged(table, f"{row['quantity']} stands there twice")
        found[row["quantity"]] = row
    return found


def _row(table: str, rows: Mapping[str, Row], name: str) -> Row:
    """The row of a name; a missing one is damage."""
    row = rows.get(name)
    if row is None:
        raise ReferenceDamaged(table, f"{name} is missing")
    return row
