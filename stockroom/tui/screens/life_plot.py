"""Life used against time: one package, its band, and where it was moved."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any, ClassVar

from textual.binding import BindingType

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY, LifeUsed
from stockroom.domain.records import Package
from stockroom.services.life_curve import LifeCurve, LifeMark, life_curve
from stockroom.services.session import Stockroom
from stockroom.tui.screens.plots import DOT, LINE, Colours, Draw, PlotScreen
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.words import names_of

_PERCENT_TICKS = (0, 25, 50, 75, 100)
_TICKS = 3
"""Days named below the plot, besides the first: so few that no name pushes another aside, which
the library does in an order of its own."""


class LifePlotScreen(PlotScreen):
    """The plot of one package, and how its date was reached."""

    BINDINGS: ClassVar[list[BindingType]] = [working_binding("life-plot")]

    def __init__(
        self,
        room: Stockroom,
        package: Package,
        above: Sequence[str],
        draw: Draw,
        figures: Sequence[str],
    ) -> None:
        super().__init__(f"Life used: {names_of([package])}", above, draw, figures)
        self.room = room
        self.package = package

    def action_working(self) -> None:
        """Show how its water and best-by were reached."""
        from stockroom.services.workings import package_working

        heading = f"Working: {names_of([self.package])}"
        open_working(self, heading, package_working, self.room, self.package.code)


def life_plot_screen(room: Stockroom, package: Package) -> LifePlotScreen:
    """The window for a package. Raises as `life_curve` does."""
    curve = life_curve(room, package.code)
    found = curve.projection
    above = (
        f"Best by {found.best_by}, between {found.low} and {found.high} ({QUALITY_NOT_SAFETY}).",
        "Line: life used. Dots: the edges. Numbers: the marks below.",
    )

    def draw(plot: Any, colours: Colours, _cells: int) -> None:
        _draw(plot, colours, curve)

    return LifePlotScreen(room, package, above, draw, figure_lines(curve))


def _draw(plot: Any, colours: Colours, curve: LifeCurve) -> None:
    days = [point.day.toordinal() for point in curve.points]
    edges: tuple[list[float], ...] = (
        [100 * point.used.most for point in curve.points],
        [100 * point.used.least for point in curve.points],
    )
    for edge in edges:
        plot.scatter(days, edge, marker=DOT, color=colours.edge)
    middle = [100 * point.used.middle for point in curve.points]
    plot.plot(days, middle, marker=LINE, color=colours.main)
    numbered = sorted(enumerate(curve.marks, start=1), key=lambda one: one[1].is_event)
    for number, mark in numbered:  # what happened is drawn last, over today on the same day
        at = mark.day.toordinal()
        if mark.is_event and mark.day > curve.points[0].day:
            plot.vertical_line(at, color=colours.mark)
        height = 100 * mark.used.middle
        plot.text(str(number), at, height, color=colours.mark, background=colours.ground)
    plot.ylim(0, 100)
    plot.yticks(_PERCENT_TICKS, [f"{one} %" for one in _PERCENT_TICKS])
    plot.xticks(*day_ticks(curve.points[0].day, curve.points[-1].day))


def day_ticks(first: date, last: date) -> tuple[list[int], list[str]]:
    """Places and names of a few days from first to last, evenly."""
    start, length = first.toordinal(), (last - first).days
    places = sorted({start + length * step // _TICKS for step in range(_TICKS + 1)})
    return places, [f"{date.fromordinal(place):%Y-%m}" for place in places]


def figure_lines(curve: LifeCurve) -> Sequence[str]:
    """The marks with the share used by then, and the edges beside it."""
    lines = ["     day         used    between"]
    lines += [_line(number, mark) for number, mark in enumerate(curve.marks, start=1)]
    return lines


def _line(number: int, mark: LifeMark) -> str:
    return f"{number:>3}  {mark.day}  {_percent(mark.used)}  {mark.words}"


def _percent(used: LifeUsed) -> str:
    return f"{used.middle:>5.0%}  {used.least:>4.0%}–{used.most:<4.0%}"
