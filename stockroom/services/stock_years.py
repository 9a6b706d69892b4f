"""How much of the stock is best eaten by which year."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.services.session import Stockroom
from stockroom.store.stock_rows import stock_by_year


@dataclass(frozen=True, slots=True)
class StockYear:
    """Live packages whose best-by falls in a year; `year` is None for those without one."""

    year: int | None
    packages: int
    servings: Fraction


def stock_years(room: Stockroom) -> tuple[StockYear, ...]:
    """Every year from the first best-by to the last, those with nothing too; no best-by last."""
    packages: dict[int | None, int] = {}
    servings: dict[int | None, Fraction] = {}
    for year, serving_dg, count, whole_dg in stock_by_year(room.store):
        packages[year] = packages.get(year, 0) + count
        servings[year] = servings.get(year, Fraction(0)) + Fraction(whole_dg, serving_dg)
    known = [year for year in packages if year is not None]
    years: list[int | None] = list(range(min(known), max(known) + 1)) if known else []
    if None in packages:
        years.append(None)
    return tuple(
        StockYear(year, packages.get(year, 0), servings.get(year, Fraction(0))) for year in years
    )
