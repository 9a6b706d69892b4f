"""What can be done with the package and the place under the cursors of the Shelves."""

from __future__ import annotations

from collections.abc import Callable

from stockroom.domain.records import Package, Place
from stockroom.tui.screens.package_actions import PackageActions
from stockroom.tui.screens.windows import open_window


class CursorActions(PackageActions):
    """Actions on what is under the cursors. Subclasses give `_package` and `place`."""

    @property
    def place(self) -> Place | None:
        """The place under the panel's cursor."""
        return None

    def _package(self) -> Package | None:
        """The package under the list's cursor, as it is now."""
        return None

    def _with_package(self, act: Callable[[Package], None]) -> None:
        package = self._package()
        if package is not None:
            act(package)

    def action_check(self) -> None:
        """Record what a check of the package finds."""
        self._with_package(self.check)

    def action_take(self) -> None:
        """Take food out of the package."""
        self._with_package(self.take)

    def action_note(self) -> None:
        """Write a note on the package."""
        self._with_package(self.write_note)

    def action_working(self) -> None:
        """Show how the package's figures were reached."""
        self._with_package(self.show_working)

    def action_what_if(self) -> None:
        """Show what would become of the package elsewhere or packed otherwise."""
        self._with_package(self.show_what_if)

    def action_life(self) -> None:
        """Plot how much of the package's life is used."""
        self._with_package(self.show_life)

    def action_walk(self) -> None:
        """Go along the place under the panel's cursor, one package at a time."""
        self.walk(self.place)

    @property
    def at_place(self) -> Place | None:
        """The place under the panel's cursor, while the keys go to the panel."""
        return None

    def action_sample(self) -> None:
        """Show how many of the place, or of the package's lot, to look at, and which ones."""
        from stockroom.tui.screens.sample import open_sample

        if self.at_place is not None:
            open_sample(self, self.home, self.at_place.path)
        else:
            self._with_package(lambda one: open_sample(self, self.home, one.lot_code))

    def print_place_labels(self) -> None:
        """Ask how labels of all packages in the place under the panel's cursor are printed."""
        from stockroom.tui.screens.label_form import Wanted, open_labels

        if self.at_place is not None:
            path = self.at_place.path
            open_labels(self, self.room, Wanted(f"For every package in {path}.", place=path))

    def action_gains(self) -> None:
        """Show which moves and repackings gain the store the most."""
        from stockroom.tui.screens.gains import GainsScreen

        self.app.push_screen(GainsScreen(self.room, self))

    def action_years(self) -> None:
        """Plot the stock by best-by year."""
        from stockroom.tui.screens.stock_plot import stock_plot_screen

        open_window(self, None, stock_plot_screen, self.room)

    def action_climate(self) -> None:
        """Show the temperatures of the place under the panel's cursor."""
        from stockroom.tui.screens.climate import climate_screen

        if self.place is not None:
            open_window(self, None, climate_screen, self.room, self.place, self)
