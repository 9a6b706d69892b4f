"""The forms for packages: move, take food out, discard, note. Each closes with what was done."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from difflib import get_close_matches
from typing import ClassVar

from textual.binding import BindingType
from textual.widgets import Static

from stockroom.domain.conditions import Condition
from stockroom.domain.quantities import UnitSystem, read_servings, read_weight, show_weight
from stockroom.domain.records import Package, Place
from stockroom.domain.water import show_water
from stockroom.errors import StockroomError
from stockroom.services import packages as acts
from stockroom.services.packages import Amount
from stockroom.services.places import list_places
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.plaintext import plain
from stockroom.tui.screens.working_key import WHILE_TYPING, open_working, working_binding
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker, Search
from stockroom.tui.words import (
    caution,
    counted,
    is_past,
    left_words,
    names_of,
    place_words,
)

MOST_MATCHES = 50
MOST_NAMED = 4
"""Packages named one by one in a form; the rest are counted."""

_SERVINGS = re.compile(r"(.+?) *(?:servings?|sv)")

DoneForm = FormScreen[Done]


def place_choice(place: Place) -> Choice:
    """A place to pick, by its path."""
    return Choice(place.place_id, place.path, counted(place.packages, "package"))


def place_search(room: Stockroom) -> Search:
    """Finds places whose path holds every word, or else those with the likest names."""
    places = list_places(room)
    names = {place.path.casefold(): place for place in places}

    def search(letters: str) -> Sequence[Choice]:
        words = letters.casefold().replace("/", " ").split()
        found = [place for name, place in names.items() if all(word in name for word in words)]
        if not found:
            found = [names[near] for near in get_close_matches(letters.casefold(), names, n=5)]
        return [place_choice(place) for place in found[:MOST_MATCHES]]

    return search


def move_form(room: Stockroom, packages: Sequence[Package]) -> DoneForm:
    """Asks where packages go."""

    def submit(answers: Answers) -> Done:
        chosen = answers.choice("place")
        where = chosen.label if chosen else answers.text("place")
        return acts.move_packages(room, [package.code for package in packages], where)

    field = Picker("place", "To", place_search(room), hint="Type a few letters of the place.")
    return FormScreen(f"Move {names_of(packages)}", (field,), submit, about=_which(packages))


def discard_form(room: Stockroom, packages: Sequence[Package]) -> DoneForm:
    """Asks why packages are thrown away."""

    def submit(answers: Answers) -> Done:
        codes = [package.code for package in packages]
        return acts.discard_packages(room, codes, answers.text("why"))

    field = Field("why", "Why", hint="A few words, such as: torn, went soft.")
    return FormScreen(f"Discard {names_of(packages)}", (field,), submit, about=_which(packages))


def note_form(room: Stockroom, package: Package) -> DoneForm:
    """Asks for a package's note."""

    def submit(answers: Answers) -> Done:
        return acts.note_package(room, package.code, answers.text("note"))

    field = Field("note", "Note", package.note, hint="Leave it empty to take the note away.")
    return FormScreen(f"Note on {names_of([package])}", (field,), submit)


def take_form(room: Stockroom, package: Package) -> DoneForm:
    """Asks how much to take; Enter at once takes all that is left."""

    def submit(answers: Answers) -> Done:
        amount = read_amount(answers.text("take"), room.units)
        return acts.draw_package(room, package.code, amount)

    return TakeForm(room, package, submit)


class TakeForm(DoneForm):
    """The form for taking food out of a package; the amount is worked out as it is typed."""

    BINDINGS: ClassVar[list[BindingType]] = [
        working_binding(
            "take", "Show how the water for this amount was reached.", key=WHILE_TYPING
        ),
    ]

    def __init__(
        self, room: Stockroom, package: Package, submit: Callable[[Answers], Done]
    ) -> None:
        self.room = room
        self.package = package
        self.amount = AmountField(package, room.units)
        super().__init__(
            f"Take {names_of([package])}",
            (self.amount,),
            submit,
            about=_before_taking(room, package),
        )

    def action_working(self) -> None:
        """Show how the water for the amount was reached, and the best-by."""
        from stockroom.services.workings import draw_working

        try:
            take_dg = read_amount(self.amount.text, self.room.units).of(self.package)
        except StockroomError as error:
            self._refuse(error)
            return
        heading = f"Working: {names_of([self.package])}"
        open_working(self, heading, draw_working, self.room, self.package, take_dg)


def read_amount(typed: str, units: UnitSystem) -> Amount:
    """How much a person wants: nothing typed is all, "2 sv" servings, anything else a weight.

    Raises BadInput.
    """
    text = typed.strip().casefold()
    if text in ("", "all"):
        return Amount()
    servings = _SERVINGS.fullmatch(text)
    if servings:
        return Amount(servings=read_servings(servings[1], "take"))
    return Amount(dry_dg=read_weight(text, units, "take"))


class AmountField(Field):
    """How much to take; under the line stands what that is, with its water."""

    def __init__(self, package: Package, units: UnitSystem) -> None:
        self.package = package
        self.units = units
        unit = "oz" if units is UnitSystem.US else "g"
        super().__init__(
            "take",
            "Take",
            hint=self._means(""),
            placeholder=f"all, or dry {unit} (20), or servings (1 sv)",
            answers_to=("amount", "weight", "servings"),
        )

    def typed(self) -> None:
        """Say what the amount comes to as it is typed."""
        super().typed()
        self.hint = self._means(self.text)
        self.query_one(".note", Static).update(plain(self.hint))

    def _means(self, text: str) -> str:
        package = self.package
        try:
            take_dg = read_amount(text, self.units).of(package)
        except StockroomError as error:
            return error.hint
        if not 0 < take_dg <= package.left_dg:
            return f"There are {show_weight(package.left_dg, self.units)} in it."
        water_dg = acts.water_for(package, take_dg)
        which = "all: " if take_dg == package.left_dg else ""
        return f"{which}{show_weight(take_dg, self.units)} dry, water to add {show_water(water_dg)}"


def _which(packages: Sequence[Package]) -> list[str]:
    """The packages by name, and where they stand."""
    lines = [
        f"{package.code}  {package.food} · {place_words(package)}"
        for package in packages[:MOST_NAMED]
    ]
    if len(packages) > MOST_NAMED:
        lines.append(f"and {len(packages) - MOST_NAMED:,} more")
    return lines


def _before_taking(room: Stockroom, package: Package) -> list[str]:
    """What to know of a package before it is eaten from."""
    lines = [
        f"{place_words(package)} · {package.container} · {left_words(package, room.units)}",
    ]
    if package.condition == Condition.SETTLING:
        lines.append("Not settle-checked yet: look at it as you open it. Never taste to test.")
    if is_past(package, room.today):
        lines.append(f"Past its best-by {package.best_by} (a quality estimate, not safety).")
    if package.preparation == "raw":
        lines.append(caution("raw-stays-raw").words)
    return lines
