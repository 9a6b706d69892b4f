"""The climate of a place: what the best-by dates reckon with, and where it comes from."""

from __future__ import annotations

from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.quantities import UnitSystem, show_temperature
from stockroom.domain.records import Place
from stockroom.services.climate import ClimatePage, climate_page, set_months
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen
from stockroom.tui.help import HelpScreen
from stockroom.tui.modal import BaseModal, attempt
from stockroom.tui.plaintext import plain_lines, say
from stockroom.tui.screens.climate_forms import LoggerForm, humidity_form, months_form
from stockroom.tui.screens.climate_words import (
    MONTHS,
    climate_lines,
    is_steady,
    month_lines,
)
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.widgets.key_line import HELP_ID

UNKNOWN = "A temperature makes the best-by dates of what stands here better: press e or l."


def _key(key: str, action: str, name: str, tooltip: str, *, show: bool = True) -> Binding:
    return Binding(key, action, name, id=f"climate-{action}", tooltip=tooltip, show=show)


class ClimateScreen(BaseModal[None]):
    """One place's temperatures and humidity, with the keys that change them."""

    BINDINGS: ClassVar[list[BindingType]] = [
        _key("e", "months", "Months", "Type the temperatures of the twelve months."),
        _key("h", "humidity", "Humidity", "Say how damp the air is there."),
        _key("l", "logger", "Logger file", "Bring in the readings of a temperature logger."),
        _key("v", "plot", "Plot", "Show the temperatures over the year."),
        _key("d", "steady", "Drop months", "Go back to the steady temperature.", show=True),
        Binding(
            "question_mark,f1", "help", "Keys", id=HELP_ID, tooltip="List every key that works."
        ),
    ]
    DEFAULT_CSS = """
    ClimateScreen {
        & > .box { width: 78; }
        .lines, .months { height: auto; margin-bottom: 1; }
    }
    """

    def __init__(self, room: Stockroom, page: ClimatePage, beneath: BaseScreen) -> None:
        """`beneath` hears of what was changed."""
        super().__init__(f"Climate of {page.place.path}")
        self.room = room
        self.page = page
        self.beneath = beneath

    def compose_inside(self) -> ComposeResult:
        """Where the temperatures come from, then the twelve months."""
        yield Static(classes="lines")
        yield Static(classes="months")

    def on_mount(self) -> None:
        """Show the place as it was read."""
        inside = self.query_one(".inside")
        inside.can_focus = True
        inside.focus()
        self._show()

    def _show(self) -> None:
        units = self.room.units
        lines = climate_lines(self.page, units)
        self.query_one(".lines", Static).update(plain_lines(lines))
        months = self.page.months_dc
        shown = [UNKNOWN] if not months else []
        if not is_steady(self.page):
            shown = month_lines(months, units)
        below = self.query_one(".months", Static)
        below.display = bool(shown)
        below.update(plain_lines(shown))
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A plot needs temperatures that change, and only months can be dropped."""
        if action == "plot":
            return not is_steady(self.page)
        if action == "steady":
            return bool(self.page.readings or self.page.climate.monthly_dc)
        return super().check_action(action, parameters)

    def action_months(self) -> None:
        """Ask for the twelve months."""
        self.app.push_screen(months_form(self.room, self.page), self._told)

    def action_humidity(self) -> None:
        """Ask how damp it is."""
        self.app.push_screen(humidity_form(self.room, self.page), self._told)

    def action_logger(self) -> None:
        """Ask for a logger's file."""
        self.app.push_screen(LoggerForm(self.room, self.page.place.path), self._told)

    def action_steady(self) -> None:
        """Take months and readings away, once it was confirmed."""
        path = self.page.place.path

        def drop(sure: bool | None) -> None:
            if sure:
                self._told(attempt(self.app, set_months, self.room, path, {}))

        lines = ["Its months and readings are taken away; its steady temperature counts again."]
        self.app.push_screen(ConfirmScreen(f"Drop the months of {path}", lines), drop)

    def action_plot(self) -> None:
        """Show the year."""
        from stockroom.tui.screens.plots import (
            LINE,
            Colours,
            PlotScreen,
            round_ticks,
            tick_names,
        )

        units = self.room.units
        months = self.page.months_dc

        def draw(plot: Any, colours: Colours, _cells: int) -> None:
            warmth = _in_units(months, units)
            plot.plot(range(1, 13), warmth, marker=LINE, color=colours.main)
            plot.xticks(range(1, 13), [name[0] for name in MONTHS])
            ticks = round_ticks(min(warmth), max(warmth))
            plot.yticks(ticks, tick_names(ticks))
            plot.ylim(ticks[0], ticks[-1])

        above = (f"Mean temperature of each month, {'°F' if units is UnitSystem.US else '°C'}.",)
        figures = month_lines(months, units)
        heading = f"The year in {self.page.place.path}"
        self.app.push_screen(PlotScreen(heading, above, draw, figures))

    def action_help(self) -> None:
        """List every key that works here."""
        self.app.push_screen(HelpScreen(self))

    def _told(self, done: Done | None) -> None:
        """Say what was changed and show it."""
        if done is None:
            return
        say(self.app, f"{done.words} · u undoes")
        self.beneath.announce("place", "package")
        page = attempt(self.app, climate_page, self.room, self.page.place.path)
        if page is not None:
            self.page = page
            self._show()


def climate_screen(room: Stockroom, place: Place, beneath: BaseScreen) -> ClimateScreen:
    """The window for a place. Raises NotFound."""
    return ClimateScreen(room, climate_page(room, place.path), beneath)


def _in_units(months_dc: tuple[int, ...], units: UnitSystem) -> list[float]:
    """The months as the household reads them."""
    return [float(show_temperature(one, units).split()[0]) for one in months_dc]
