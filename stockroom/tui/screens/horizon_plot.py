"""The stock over the coming months, group by group, with the part that passes its best-by."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.horizon.pages import HorizonPage
from stockroom.domain.horizon.stock_ahead import EATEN_EVENLY, GroupAhead, stock_ahead
from stockroom.domain.quantities import show_servings
from stockroom.reports.parts import QUALITY_CAPTION, spoken
from stockroom.tui.plaintext import plain_lines
from stockroom.tui.screens.plots import Colours, DrawnPlot, PlotScreen, round_ticks, tick_names

_TICKS = 4
_AXES = 2
"""Cells of the axes left and right."""
_NAME_CELLS = 4
"""Cells a month's name wants, with a gap."""
_WIDEST = 7
"""Cells of a bar with its gap."""
_HAIR = 0.01
STOCK, AT_RISK = "░", "█"
"""Signs of the bars, told apart without colour."""
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


class StockAheadPlot(PlotScreen):
    """One group at a time; the figures of all of them stand below."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "group(1)", "Next group", id="ahead-next", tooltip="Plot the next group."),
        Binding(
            "p", "group(-1)", "Group before", id="ahead-before", tooltip="Plot the group before."
        ),
    ]

    def __init__(self, groups: Sequence[GroupAhead]) -> None:
        """`groups` holds all foods together first."""
        self.groups = tuple(groups)
        self.at = 0

        def draw(plot: Any, colours: Colours, cells: int) -> None:
            _draw(plot, colours, cells, self.groups[self.at])

        super().__init__(
            "Stock over the coming months", _above(self.groups[0]), draw, figure_lines(self.groups)
        )

    def action_group(self, step: int) -> None:
        """Plot another group."""
        self.at = (self.at + step) % len(self.groups)
        self.query_one(".above", Static).update(plain_lines(_above(self.groups[self.at])))
        self.query_one(DrawnPlot).refresh()


def stock_ahead_plot(page: HorizonPage) -> StockAheadPlot:
    """The window for a forecast."""
    return StockAheadPlot(stock_ahead(page))


def _above(one: GroupAhead) -> tuple[str, ...]:
    """How to read the plot."""
    return (
        f"{name_of(one)}: servings in time at the start of each month.",
        f"{AT_RISK} passes its best-by unused · {STOCK} the rest. {QUALITY_CAPTION}",
    )


def name_of(one: GroupAhead) -> str:
    """A group as it is spoken."""
    words = "all foods" if one.group is None else spoken(one.group.value)
    return f"{words[:1].upper()}{words[1:]}"


def _draw(plot: Any, colours: Colours, cells: int, one: GroupAhead) -> None:
    months = one.months
    ticks = round_ticks(0, float(max(each.servings for each in months)) or 1, most=_TICKS)
    names = tick_names(ticks)
    inside = cells - len(names[0]) - _AXES
    # Whole cells for every bar and gap: else some months would run into one another.
    each = max(1, min(_WIDEST, (inside - 1) // len(months)))
    middles = [at + (each - 2) / (2 * each) if each > 1 else at for at in range(len(months))]
    width = max(_HAIR, (each - 1.5) / each)
    whole = [float(then.servings) for then in months]
    lost = [float(then.at_risk) for then in months]
    plot.bar(middles, whole, color=colours.main, width=width, marker=STOCK)
    if any(lost):
        plot.bar(middles, lost, color=colours.mark, width=width, marker=AT_RISK)
    plot.xlim(-1 / each, (inside - 2) / each)
    plot.ylim(0, ticks[-1])
    plot.yticks(ticks, names)
    apart = -(-_NAME_CELLS // each)
    named = [_MONTHS[then.on_day.month - 1] for then in months]
    plot.xticks(middles[::apart], named[::apart])


def figure_lines(groups: Sequence[GroupAhead]) -> list[str]:
    """A line for each group and month."""
    lines: list[str] = []
    for one in groups:
        lines += [name_of(one), "day         servings  pass unused  nobody said"]
        lines += [
            f"{then.on_day}  {show_servings(then.servings):>8}  {show_servings(then.at_risk):>11}"
            f"  {show_servings(then.unsaid):>11}"
            for then in one.months
        ]
        lines.append("")
    return [*lines, f"{EATEN_EVENLY.words} ({EATEN_EVENLY.standing.words})."]
