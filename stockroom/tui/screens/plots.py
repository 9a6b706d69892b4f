"""Plots in a window, each with its figures as text below: a colour never says anything alone.

This module brings the plotting library; it is imported when a plot is first opened.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor, log10
from typing import Any, ClassVar

from textual.app import ComposeResult, RenderResult
from textual.binding import Binding, BindingType
from textual.color import Color
from textual.widgets import Static
from textual_plotext import PlotextPlot

from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain_lines

Colour = tuple[int, int, int]

LINE = "braille"
"""The middle of an estimate is a solid line …"""
DOT = "·"
"""… its edges are dots: told apart without colour."""


@dataclass(frozen=True, slots=True)
class Colours:
    """The colours of the theme in use, as the plotting library takes them."""

    main: Colour
    edge: Colour
    mark: Colour
    ground: Colour


Draw = Callable[[Any, Colours, int], None]
"""Draws on a plot so many cells wide, axes and their names included.

No text that a person typed goes there: that stands in the figures.
"""

_STEPS = (1, 2, 5, 10)
"""Round steps between ticks, times a power of ten."""


def round_ticks(low: float, high: float, *, most: int = 5) -> list[float]:
    """Round numbers, evenly spaced, from at or below `low` to at or above `high`.

    About `most` of them, at least two; one step about a value where low and high are the same.
    """
    span = (high - low) or 1.0
    size = 10 ** floor(log10(span / most))
    step = next(size * one for one in _STEPS if size * one * most >= span * _NEARLY)
    first, last = floor(low / step + _NOISE), ceil(high / step - _NOISE)
    return [step * at for at in range(first, max(last, first + 1) + 1)]


def tick_names(ticks: Sequence[float]) -> list[str]:
    """The ticks as numbers of one width, without decimals nobody needs."""
    names = [f"{tick:.10g}" for tick in ticks]
    widest = max(map(len, names))
    return [name.rjust(widest) for name in names]


_NOISE = 1e-9
_NEARLY = 1 - 1e-9


class DrawnPlot(PlotextPlot):
    """A plot drawn anew at every rendering.

    The library's figure keeps what it worked out when it was built. So each rendering starts from
    an empty one, for the size and in the colours of the theme in use then.
    """

    def __init__(self, draw: Draw) -> None:
        super().__init__()
        self._draw = draw

    def render(self) -> RenderResult:
        """The plot for the size there is now."""
        self.plt.clear_figure()
        self._draw(self.plt, _colours(self.app.theme_variables), self.size.width)
        return super().render()


def _colours(variables: Mapping[str, str]) -> Colours:
    names = ("primary", "secondary", "accent", "surface")
    return Colours(*(Color.parse(variables[name]).rgb for name in names))


class PlotScreen(BaseModal[None]):
    """A plot over its figures; the arrow keys scroll."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "leave", "Close", show=False, id="plot-leave", tooltip="Close."),
    ]
    DEFAULT_CSS = """
    PlotScreen {
        & > .box { width: 100; height: 100%; }
        & > .box > .inside { height: 1fr; padding: 0 1 0 1; }
        DrawnPlot { height: 13; margin-bottom: 1; }
        &.narrow DrawnPlot { height: 10; }
        .above, .figures { padding: 0 1; height: auto; }
        .above { color: $foreground-muted; }
    }
    """

    def __init__(
        self, heading: str, above: Sequence[str], draw: Draw, figures: Sequence[str]
    ) -> None:
        """`above` says how to read the plot; `figures` are what is drawn, a line each."""
        super().__init__(heading)
        self.above = tuple(above)
        self.figures = tuple(figures)
        self._draw = draw

    def compose_inside(self) -> ComposeResult:
        """How to read it, the plot, its figures."""
        yield Static(plain_lines(self.above), classes="above")
        yield DrawnPlot(self._draw)
        yield Static(plain_lines(self.figures), classes="figures")

    def on_mount(self) -> None:
        """Let the arrow keys scroll."""
        inside = self.query_one(".inside")
        inside.can_focus = True
        inside.focus()
