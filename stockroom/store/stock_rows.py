"""The stock summed up, for looking at all of it at once."""

from __future__ import annotations

from stockroom.store.connection import Store


def stock_by_year(store: Store) -> list[tuple[int | None, int, int, int]]:
    """Live packages by best-by year and size of serving.

    Each row has the year (None without a best-by), the weight of one serving, the packages, and
    what is left in them with its water, both weights in tenths of a gram.
    """
    rows = store.query(
        "SELECT CAST(substr(projection.best_by, 1, 4) AS INTEGER), food.serving_dg, count(*),"
        " sum(package.dry_dg + package.water_dg - package.taken_dg"
        "  - CASE WHEN package.taken_dg = 0 THEN 0 ELSE ifnull("
        "    (SELECT sum(water_dg) FROM draw WHERE package_id = package.id), 0) END)"
        " FROM package JOIN food ON food.id = package.food_id"
        " LEFT JOIN projection ON projection.package_id = package.id"
        " WHERE package.condition NOT IN ('used', 'discarded')"
        " GROUP BY 1, 2"
    )
    return [(row[0], int(row[1]), int(row[2]), int(row[3])) for row in rows]
