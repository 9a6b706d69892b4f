"""What if: a package as it stands beside what could be done with it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual.binding import BindingType

from stockroom.domain.cautions import Caution
from stockroom.domain.records import Package
from stockroom.services.packages import move_packages
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.whatif import Choice, WhatIfPage, what_if
from stockroom.tui.modal import attempt
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.table_window import TableWindow
from stockroom.tui.screens.whatif_words import (
    NO_DATE,
    SHORT_LIMITS,
    band_cell,
    best_by_lines,
    gain_cell,
    gain_words,
    how_to_repack,
    sentence,
    way_cell,
)
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.words import caution, names_of, place_words

COLUMNS = (
    Column("Choice", 30, weight=1, look="main", keep="start"),
    Column("Best by", 10),
    Column("Between", 15, priority=2, look="quiet"),
    Column("Gain", 11, align="right", look="tone"),
    Column("Limit", 8, priority=1, look="quiet"),
)
ABOVE = "Every date is a quality estimate, not safety. A gain is against leaving it as it is."
NOW = 0

Then = Callable[[Done | None], None]
"""Takes what was done, None when it was refused."""


class WhatIfScreen(TableWindow[Done]):
    """The ways on for one package, the best first. Closes with what was done."""

    BINDINGS: ClassVar[list[BindingType]] = [
        working_binding("what-if", "Show how the date of this choice was reached."),
    ]

    def __init__(self, room: Stockroom, page: WhatIfPage) -> None:
        super().__init__(
            room,
            f"What if: {names_of([page.package])}",
            COLUMNS,
            above=[f"Now in {place_words(page.package)} · {page.package.container}.", ABOVE],
        )
        self.page = page
        self.ways: tuple[Choice, ...] = (page.now, *page.choices)

    def on_mount(self) -> None:
        """Show the ways on."""
        super().on_mount()
        self.show_rows([self._row(key, choice) for key, choice in enumerate(self.ways)])

    def _row(self, key: int, choice: Choice) -> Row:
        days = choice.gain_days
        cells = (
            way_cell(choice),
            choice.best_by.isoformat() if choice.best_by else NO_DATE,
            band_cell(choice),
            gain_cell(self.page.now, choice),
            SHORT_LIMITS.get(choice.limited_by, ""),
        )
        return Row(key, cells, "good" if days > 0 else "bad" if days < 0 else "")

    def words_of(self, key: int) -> Sequence[str]:
        """The choice in full, and what Enter would do."""
        choice = self.ways[key]
        lines = [sentence(choice), *best_by_lines(choice)]
        if key != NOW:
            gain = gain_cell(self.page.now, choice)
            lines += [f"Against leaving it: {gain}."] if gain else []
            lines.append(
                "Enter moves it there." if choice.kind == "move" else "Enter says how it is done."
            )
        return lines

    def chosen(self, key: int) -> None:
        """Ask before a move; say how to repack."""
        choice = self.ways[key]
        if choice.kind == "move":
            ask_to_move(self, [self.page.package], choice, self._moved)
        elif choice.kind == "repack":
            show_repacking(self, [self.page.package], choice)

    def _moved(self, done: Done | None) -> None:
        if done is not None:
            self.dismiss(done)

    def action_working(self) -> None:
        """Show how the date of the choice under the cursor was reached."""
        from stockroom.services.outlook_workings import choice_working

        key = self.table.cursor_key
        if key is not None:
            choice = self.ways[key]
            heading = f"Working: {self.page.package.code} {choice.words}"
            open_working(self, heading, choice_working, self.room, self.page, choice)


def what_if_screen(room: Stockroom, package: Package) -> WhatIfScreen:
    """The window for a package. Raises as `what_if` does."""
    return WhatIfScreen(room, what_if(room, package.code))


def ask_to_move(
    screen: TableWindow[Done], packages: Sequence[Package], choice: Choice, then: Then
) -> None:
    """Ask once; a yes moves the packages. `then` takes what was done."""

    def move(sure: bool | None) -> None:
        if sure:
            codes = [package.code for package in packages]
            then(attempt(screen.app, move_packages, screen.room, codes, choice.place))

    gain = f"Gains {gain_words(choice.gain_days).lstrip('+')}." if choice.gain_days > 0 else ""
    lines = [f"To: {choice.place}", *best_by_lines(choice), *([gain] if gain else [])]
    screen.app.push_screen(ConfirmScreen(f"Move {names_of(packages)}", lines), move)


def show_repacking(screen: TableWindow[Done], packages: Sequence[Package], choice: Choice) -> None:
    """Say how a repacking is done, with what to bear in mind."""
    cautions: list[Caution] = [caution("local-codes")]
    if any(package.preparation == "raw" for package in packages):
        cautions.insert(0, caution("raw-stays-raw"))
    screen.app.push_screen(
        ReadScreen("How it is repacked", how_to_repack(packages, choice), cautions)
    )
