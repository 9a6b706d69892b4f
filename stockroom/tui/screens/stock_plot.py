"""The stock by best-by year: how many servings are best eaten by when."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import show_servings
from stockroom.services.session import Stockroom
from stockroom.services.stock_years import StockYear, stock_years
from stockroom.tui.screens.plots import Colours, PlotScreen, round_ticks, tick_names

_MOST_NAMED = 6
"""Years named below the bars before only every second, third … is: so few that no name pushes
another aside, which the library does in an order of its own."""
_YEAR_CELLS = 6
"""Cells a year's name wants, with a gap."""

_TICKS = 4
_AXES = 2
"""Cells of the axes left and right."""
_WIDEST = 18
"""Cells of a bar with its gap, however few years there are."""
_HAIR = 0.01
"""Years a bar of a single cell is wide."""


def stock_plot_screen(room: Stockroom) -> PlotScreen:
    """The window for the whole stock."""
    years = stock_years(room)
    above = (f"Servings by the year of their best-by ({QUALITY_NOT_SAFETY}).",)

    def draw(plot: Any, colours: Colours, cells: int) -> None:
        _draw(plot, colours, cells, years)

    return PlotScreen("Stock by best-by year", above, draw, figure_lines(years))


def _draw(plot: Any, colours: Colours, cells: int, years: Sequence[StockYear]) -> None:
    known = [(one.year, float(one.servings)) for one in years if one.year is not None]
    if not known:
        return
    ticks = round_ticks(0, max(servings for _, servings in known) or 1, most=_TICKS)
    names = tick_names(ticks)
    inside = cells - len(names[0]) - _AXES
    # Whole cells for every bar and gap: else some years would run into one another.
    each = max(1, min(_WIDEST, (inside - 1) // len(known)))
    middles = [at + (each - 2) / (2 * each) if each > 1 else at for at in range(len(known))]
    width = max(_HAIR, (each - 1.5) / each)
    plot.bar(middles, [servings for _, servings in known], color=colours.main, width=width)
    plot.xlim(-1 / each, (inside - 2) / each)
    plot.ylim(0, ticks[-1])
    plot.yticks(ticks, names)
    apart = max(-(-len(known) // _MOST_NAMED), -(-_YEAR_CELLS // each))
    plot.xticks(middles[::apart], [str(year) for year, _ in known[::apart]])


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
