"""Beginning a check walk: where it leads, and what was wanted at the end of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stockroom.domain.records import Place
from stockroom.services.places import list_places
from stockroom.services.session import Stockroom
from stockroom.tui.plaintext import say
from stockroom.tui.screens.check_walk import CheckWalkScreen
from stockroom.tui.screens.package_forms import place_choice, place_search
from stockroom.tui.screens.walk_list import Walk, too_far, walk_of, walk_of_place, walk_of_today
from stockroom.tui.widgets.forms import FormScreen
from stockroom.tui.widgets.picker import Choice, Picker
from stockroom.tui.words import counted

if TYPE_CHECKING:
    from stockroom.tui.screens.package_actions import PackageActions

TODAY = 0
"""The key of today's list among the places to pick from; ids of places begin at 1."""


def open_walk(screen: PackageActions, place: Place | None) -> None:
    """Begin a walk through a place; without one ask which, or take today's list."""
    if place is not None:
        _begin_in(screen, place)
        return
    form = screen.attempt(walk_form, screen.room)

    def chosen(choice: Choice | None) -> None:
        if choice is None:
            return
        if choice.key == TODAY:
            _begin(screen, screen.attempt(walk_of_today, screen.room))
        else:
            places = screen.attempt(list_places, screen.room) or ()
            open_walk(screen, next((one for one in places if one.place_id == choice.key), None))

    if form is not None:
        screen.app.push_screen(form, chosen)


def _begin_in(screen: PackageActions, place: Place) -> None:
    """Go along a place, unless it holds too much for one walk."""
    many = screen.attempt(too_far, screen.room, place)
    if many:
        say(screen.app, f"{many:,} packages are too many for one walk: pick a place within it.")
    elif many is not None:
        _begin(screen, screen.attempt(walk_of_place, screen.room, place))


def walk_form(room: Stockroom) -> FormScreen[Choice | None]:
    """Asks where the walk leads: Enter at once takes today's list."""
    many = len(walk_of_today(room).packages)
    today = Choice(TODAY, "today's list", counted(many, "package"))
    search = place_search(room)

    def find(letters: str) -> list[Choice]:
        first = [today] if today.label.startswith(letters.strip().casefold()) else []
        places = search(letters) if letters else [place_choice(one) for one in list_places(room)]
        return [*first, *places]

    picker = Picker("picked", "Along", find, today, hint="Or a few letters of a place.")
    about = (
        "One package at a time, in the order of the shelves. A code takes you to its package.",
    )
    return FormScreen(
        "Check walk", (picker,), lambda answers: answers.choice("picked"), about=about
    )


def _begin(screen: PackageActions, walk: Walk | None) -> None:
    """Go along, and do what was wanted at the end of it."""
    if walk is None:
        return
    if not walk.packages:
        say(screen.app, f"{walk.name}: nothing there wants looking at.")
        return
    page = CheckWalkScreen(screen.home, walk)

    def over(_: None) -> None:
        if page.after is None:
            return
        if page.after.decide is not None:
            screen.decide(page.after.decide)
        elif page.after.look_at:
            found = screen.attempt(walk_of, screen.room, "Sisters", page.after.look_at)
            _begin(screen, found)

    screen.app.push_screen(page, over)
