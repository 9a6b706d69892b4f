"""Packages of a food in the order in which they are used, no more of them than asked for.

A store may hold thousands of packages of one food, of which a dish takes two. The few opened ones
are read whole; the sealed ones by whole days of the making, the oldest first, a page at a time.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from stockroom.domain.kitchen_records import StockSum
from stockroom.domain.rotation import Candidate
from stockroom.store.connection import Store
from stockroom.store.rows import day, marks

_LEFT_WATER = (
    "package.water_dg - CASE WHEN package.taken_dg = 0 THEN 0 ELSE"
    " ifnull((SELECT sum(water_dg) FROM draw WHERE package_id = package.id), 0) END"
)
_CANDIDATE = f"""
    SELECT package.id, package.code, package.food_id, lot.made_on,
        ifnull(projection.best_by, lot.made_on), package.opened_on IS NOT NULL,
        package.dry_dg - package.taken_dg, {_LEFT_WATER}, package.dry_dg"""

# CROSS JOIN keeps the lots outermost: their index gives the days in order, so that a page ends
# without looking at the packages after it.
_BY_DAY = """
    FROM lot CROSS JOIN package ON package.lot_id = lot.id AND package.food_id = lot.food_id
    LEFT JOIN projection ON projection.package_id = package.id
    WHERE lot.food_id = ? AND package.condition IN ('settling', 'sound')"""


def opened_candidates(store: Store, food_id: int) -> list[Candidate]:
    """The opened packages of a food that may be eaten from."""
    rows = store.query(
        f"{_CANDIDATE} FROM package JOIN lot ON lot.id = package.lot_id"
        " LEFT JOIN projection ON projection.package_id = package.id"
        " WHERE package.food_id = ? AND package.condition = 'opened'",
        (food_id,),
    )
    return [_candidate(row) for row in rows]


def sealed_candidates(
    store: Store, food_id: int, *, after: date | None, least: int
) -> list[Candidate]:
    """Sealed packages of a food that may be eaten, made after a day, the oldest first.

    `least` of them or a few more, as the last day is given whole; fewer when there are no more.
    """
    since = "" if after is None else after.isoformat()
    rows = store.query(
        f"{_CANDIDATE} {_BY_DAY} AND lot.made_on > ? ORDER BY lot.made_on LIMIT ?",
        (food_id, since, least),
    )
    if len(rows) < least:
        return [_candidate(row) for row in rows]
    last = str(rows[-1][3])
    whole_day = store.query(f"{_CANDIDATE} {_BY_DAY} AND lot.made_on = ?", (food_id, last))
    return [_candidate(row) for row in [*(row for row in rows if row[3] != last), *whole_day]]


def _candidate(row: tuple[Any, ...]) -> Candidate:
    return Candidate(
        *row[:3],
        made_on=day(row[3]),
        best_by=day(row[4]),
        opened=bool(row[5]),
        available_dg=row[6],
        water_dg=row[7],
        packed_dg=row[8],
    )


def stock_sums(store: Store, food_ids: Sequence[int]) -> list[StockSum]:
    """What may be eaten of these foods, by food and by how the lots were prepared."""
    rows = store.query(
        "SELECT package.food_id, lot.preparation, sum(package.dry_dg - package.taken_dg),"
        f" sum({_LEFT_WATER}) FROM package JOIN lot ON lot.id = package.lot_id"
        f" WHERE package.food_id IN ({marks(len(food_ids))})"
        " AND package.condition IN ('settling', 'sound', 'opened')"
        " GROUP BY package.food_id, lot.preparation",
        tuple(food_ids),
    )
    return [StockSum(*row) for row in rows]
