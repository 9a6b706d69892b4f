"""The tables behind the plain best-by, from data/plain_lives.csv and its neighbours."""

from __future__ import annotations

from functools import cache

from stockroom.domain.keeping.interface import FoodClass, LimitedBy, PackageKind
from stockroom.domain.keeping.plain_lives import Band, OpenedLife, PlainLife, PlainLives, Tolerance
from stockroom.reference.sources import source_of, standing_of
from stockroom.reference.tables import ReferenceDamaged, Row, exact, read_table, whole, yes


@cache
def plain_lives() -> PlainLives:
    """Everything the plain table needs. Raises ReferenceDamaged when a row is missing."""
    rows = tuple(_life(row) for row in read_table("plain_lives"))
    found = [(row.food_class, row.package_kind, row.oxygen_removed) for row in rows]
    for wanted in (
        (food_class, kind, removed)
        for food_class in FoodClass
        for kind in PackageKind
        for removed in (False, True)
    ):
        if found.count(wanted) != 1:
            raise ReferenceDamaged("plain_lives", f"{wanted} must stand there once")
    opened = {row["closed_how"]: _opened(row) for row in read_table("opened_lives")}
    return PlainLives(rows, _tolerances(), opened["open"], opened["reclosed_with_absorber"])


def _life(row: Row) -> PlainLife:
    """One row of the plain table, lives in months."""
    return PlainLife(
        FoodClass(row["food_class"]),
        PackageKind(row["package_kind"]),
        yes("plain_lives", row, "oxygen_removed"),
        Band(
            exact("plain_lives", row, "low_months"),
            exact("plain_lives", row, "mid_months"),
            exact("plain_lives", row, "high_months"),
        ),
        LimitedBy(row["limited_by"]),
        source_of("plain_lives", row),
        standing_of("plain_lives", row),
    )


def _tolerances() -> tuple[Tolerance, ...]:
    """The oxygen each class tolerates, from the class figures."""
    return tuple(
        Tolerance(
            FoodClass(row["food_class"]),
            Band(
                exact("class_figures", row, "pessimistic"),
                exact("class_figures", row, "middle"),
                exact("class_figures", row, "optimistic"),
            ),
            source_of("class_figures", row),
            standing_of("class_figures", row),
        )
        for row in read_table("class_figures")
        if row["quantity"] == "oxygen_tolerance"
    )


def _opened(row: Row) -> OpenedLife:
    """One row of the opened lives, in days."""
    table = "opened_lives"
    return OpenedLife(
        whole(table, row, "low_days"),
        whole(table, row, "mid_days"),
        whole(table, row, "high_days"),
        source_of(table, row),
        standing_of(table, row),
    )
