"""The keys, the colours and the words of the Shelves."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from textual.binding import Binding, BindingType

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Package
from stockroom.services.shelves import LIVE_CONDITIONS, ShelfFilter
from stockroom.tui.screens.findings import walk_binding
from stockroom.tui.screens.package_actions import package_binding
from stockroom.tui.screens.sample_keys import sample_binding
from stockroom.tui.screens.shelf_rows import SideList
from stockroom.tui.widgets.fields import LineInput
from stockroom.tui.words import (
    GONE,
    is_past,
    left_words,
    place_words,
    water_words,
)


def _key(key: str, action: str, name: str, tooltip: str, *, show: bool, id: str = "") -> Binding:
    """A key of the Shelves."""
    return Binding(
        key,
        action,
        name,
        show=show,
        id=f"shelves-{id or action.replace('_', '-')}",
        tooltip=tooltip,
    )


BINDINGS = (
    _key(
        "slash", "search", "Search", "Type a food, a place, a code or words of a note.", show=True
    ),
    package_binding("m", "move", "Move", "Put the marked packages in a place.", show=True),
    package_binding("x", "take", "Take", "Take food out, all or a part.", show=True),
    package_binding("c", "check", "Check", "Record what a check finds.", show=True),
    package_binding("d,D", "discard", "Discard", "Throw the marked packages away.", show=True),
    package_binding("n", "note", "Note", "Write a note on the package.", show=False),
    package_binding("w", "working", "Working", "Show how its figures were reached.", show=False),
    package_binding("f", "what_if", "What if", "Elsewhere, or packed otherwise.", show=False),
    package_binding("l", "life", "Life plot", "Plot the life used over time.", show=False),
    package_binding(
        "L", "labels", "Labels", "Of the marked packages; in the panel, of the place.", show=False
    ),
    _key("o", "order", "Order", "By best-by, food, place, day made or code.", show=True),
    _key("t", "state", "State", "Only settling, sound, suspect, and so on.", show=True),
    _key("p", "side", "Panel", "Show the panel of places and go to it, or hide it.", show=True),
    _key("g", "group", "Places/foods", "Group by place or by food in the panel.", show=False),
    _key("escape", "clear", "Show all", "Clear the search and show everything.", show=True),
    walk_binding("Go along the place in the panel, package by package.", show=False),
    sample_binding(
        "shelves-sample", "How many to look at: of the package's lot; in the panel, of the place."
    ),
    _key("a", "add_place", "Add place", "Add a place, below the one in the panel.", show=False),
    _key("e", "change_place", "Change place", "Name, kind, temperature of the place.", show=False),
    _key("P", "put_place", "Put place", "Put the place below another, with all in it.", show=False),
    _key("T", "climate", "Temperatures", "Months, humidity, logger of the place.", show=False),
    _key("G", "gains", "Gains", "What would keep the whole store longer.", show=False),
    _key("v", "years", "By year", "Plot the stock by best-by year.", show=False),
    _key("r", "remove_place", "Remove place", "Remove a place never used.", show=False),
)

CSS = """
ShelvesScreen {
    #status { height: 1; padding: 0 1; background: $surface; }
    #shown { width: 1fr; text-wrap: nowrap; text-overflow: ellipsis; }
    #count { width: auto; color: $foreground-muted; padding-left: 1; }
    #find { display: none; height: 1; padding: 0 1; background: $surface; }
    #find .label { width: 6; color: $foreground-muted; }
    SearchLine { width: 1fr; background: $panel; }
    SearchLine:focus { background: $block-cursor-background; }
    #body { height: 1fr; }
    #side { width: 24; background: $surface; border-right: vkey $border-blurred; }
    #side:focus { border-right: vkey $border; }
    #about { height: auto; max-height: 4; padding: 0 1; background: $surface; }
    #about.-empty { display: none; }
    &.-without-side #side { display: none; }
    &.narrow #side { display: none; }
    &.narrow.-with-side #side { display: block; width: 1fr; border: none; }
    &.narrow.-with-side #packages, &.narrow.-with-side #about { display: none; }
}
"""

ORDER_WORDS = {
    "best_by": "by best-by",
    "food": "by food",
    "place": "by place",
    "made": "by day made",
    "code": "by code",
}


class SearchLine(LineInput):
    """Where words to find are typed; Enter or the down arrow goes on to the list."""

    BINDING_GROUP_TITLE = "In the search line"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter",
            "screen.leave_search",
            "To the list",
            id="search-leave",
            tooltip="Keep what is typed and go to the list.",
        ),
        Binding(
            "down",
            "screen.leave_search",
            "To the list",
            show=False,
            id="search-down",
            tooltip="Keep what is typed and go to the list.",
        ),
    ]

    def __init__(self) -> None:
        super().__init__(
            "",
            lambda key: False,
            restrict=None,
            placeholder="food, place, code or words of a note",
        )


def status_words(wanted: ShelfFilter, side: SideList) -> str:
    """What is listed and in which order: "Cellar · by food · suspect · “peas”"."""
    parts = ["Everything"]
    if wanted.place_id is not None and wanted.place_id in side.places:
        parts = [side.places[wanted.place_id].path]
    elif wanted.food_id is not None and wanted.food_id in side.foods:
        parts = [side.foods[wanted.food_id].name]
    parts.append(ORDER_WORDS[wanted.order])
    if wanted.conditions != LIVE_CONDITIONS:
        parts.append(f"only {wanted.conditions[0]}")
    if wanted.words:
        parts.append(f"“{wanted.words}”")
    return " · ".join(parts)


def about_lines(package: Package, units: UnitSystem, today: date) -> list[str]:
    """The package under the cursor: what and where it is, what it holds, until when."""
    if package.condition in GONE:
        return [f"{package.food} · {package.condition} {package.gone_on}"]
    return [
        f"{package.food} · {place_words(package)} · {package.container}",
        f"{left_words(package, units)} · {water_words(package)}",
        _best_by(package, today),
    ]


def _best_by(package: Package, today: date) -> str:
    if package.best_by is None:
        return "no best-by is given; Enter says why"
    past = "past its best-by" if is_past(package, today) else "best by"
    return f"{past} {package.best_by} ({QUALITY_NOT_SAFETY})"
