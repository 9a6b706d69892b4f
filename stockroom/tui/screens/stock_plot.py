"""The stock by best-by year: how many servings are best eaten by when."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import show_servings
from stockroom.services.session import Stockroom
from stockroom.services.stock_years import StockYear, stock_years
from stockroom.tui.screens.plots import Colours, PlotScreen

_MOST_NAMED = 6
"""Years named below the bars before only every second, third … is: so few that no name pushes
another aside, which the library does in an order of its own."""


def stock_plot_screen(room: Stockroom) -> PlotScreen:
    """The window for the whole stock."""
    years = stock_years(room)
    above = (f"Servings by the year of their best-by ({QUALITY_NOT_SAFETY}).",)

    def draw(plot: Any, colours: Colours) -> None:
        _draw(plot, colours, years)

    return PlotScreen("Stock by best-by year", above, draw, figure_lines(years))


def _draw(plot: Any, colours: Colours, years: Sequence[StockYear]) -> None:
    known = [(one.year, float(one.servings)) for one in years if one.year is not None]
    if not known:
        return
    plot.bar(
        [year for year, _ in known],
        [servings for _, servings in known],
        color=colours.main,
        width=0.6,
    )
    each = -(-len(known) // _MOST_NAMED)
    named = [year for year, _ in known][::each]
    plot.xticks(named, [str(year) for year in named])
    plot.ylim(0, max(servings for _, servings in known) or 1)


def figure_lines(years: Sequence[StockYear]) -> list[str]:
    """A line for each year."""
    if not years:
        return ["Nothing is on the shelves yet."]
    lines = ["year    packages  servings"]
    for one in years:
        name = "none  " if one.year is None else f"{one.year}  "
        lines.append(f"{name}  {one.packages:>8,}  {show_servings(one.servings):>8}")
    if years[-1].year is None:
        lines.append("none: the estimate gives no best-by; the page of the package says why.")
    return lines
