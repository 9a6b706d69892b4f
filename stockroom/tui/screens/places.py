"""The forms for places: add one, change its name, kind, temperature or whereabouts."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from stockroom.domain.quantities import UnitSystem, read_temperature, show_temperature
from stockroom.domain.records import Place
from stockroom.services.places import (
    PlaceKind,
    add_place,
    change_place,
    put_place,
)
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.screens.household import NothingChanged
from stockroom.tui.screens.package_forms import place_choice, place_search
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker

KINDS = tuple(Choice(kind, kind) for kind in PlaceKind)

_WARMTH_HINT = "As it is most of the year, such as 18 C or 64 F."


def add_place_form(room: Stockroom, above: Place | None) -> FormScreen[Done]:
    """Asks for a new place, below `above` unless another is picked."""
    units = room.units

    def submit(answers: Answers) -> Done:
        name, below = answers.text("name"), answers.text("below").strip()
        return add_place(
            room,
            f"{below}/{name}" if below else name,
            kind=_kind(answers),
            temperature_dc=_temperature(answers, units),
        )

    chosen = place_choice(above) if above else None
    fields = (
        Field("name", "Name", hint="Such as: rack 1.", answers_to=("place name", "place")),
        Picker("below", "Below", place_search(room), chosen, hint="Empty: below nothing."),
        Picker("kind", "Kind", find_kind, hint="May be left out."),
        _warmth("", units, "May be left out: that of the place it is below."),
    )
    return FormScreen("Add a place", fields, submit)


def change_place_form(room: Stockroom, place: Place) -> FormScreen[Done]:
    """Asks for a place's name, kind and temperature."""
    units = room.units
    own = place.own_temperature_dc
    before = "" if own is None else show_temperature(own, units)
    chosen = next(choice for choice in KINDS if choice.key == place.kind)

    def submit(answers: Answers) -> Done:
        name = answers.text("name").strip()
        warmth = answers.text("temperature").strip()
        kind = _kind(answers)
        if (name, warmth, kind) == (place.name, before, place.kind):
            raise NothingChanged
        return change_place(
            room,
            place.path,
            new_name=name,
            kind=kind,
            temperature_dc=None if warmth == before else read_temperature(warmth, units),
        )

    fields = (
        Field("name", "Name", place.name, answers_to=("place name", "place")),
        Picker("kind", "Kind", find_kind, chosen),
        _warmth(before, units, _WARMTH_HINT),
    )
    return FormScreen(f"Change {place.path}", fields, submit, about=_warmth_now(place, units))


def put_place_form(room: Stockroom, place: Place) -> FormScreen[Done]:
    """Asks which place a place goes below."""

    def submit(answers: Answers) -> Done:
        return put_place(room, place.path, answers.text("into"))

    hint = "Empty: at the top, below nothing."
    field = Picker("into", "Put it below", place_search(room), hint=hint, answers_to=("place",))
    about = ("Everything in it goes along.",)
    return FormScreen(f"Put {place.path} elsewhere", (field,), submit, about=about)


PlaceForm = Callable[[Stockroom, Place], FormScreen[Done]]


def find_kind(letters: str) -> Sequence[Choice]:
    """Kinds of place that begin with these letters."""
    return [choice for choice in KINDS if choice.label.startswith(letters.strip().casefold())]


def _warmth(value: str, units: UnitSystem, hint: str) -> Field:
    unit = "°F" if units is UnitSystem.US else "°C"
    return Field("temperature", "Temperature", value, hint=hint, unit="" if value else unit)


def _warmth_now(place: Place, units: UnitSystem) -> tuple[str, ...]:
    if place.temperature_dc is None:
        return ("No temperature is known here.",)
    where = "its own" if place.own_temperature_dc is not None else "from above"
    return (f"Counted as {show_temperature(place.temperature_dc, units)} ({where}).",)


def _kind(answers: Answers) -> PlaceKind | None:
    key = answers.key("kind")
    return None if key is None else PlaceKind(str(key))


def _temperature(answers: Answers, units: UnitSystem) -> int | None:
    typed = answers.text("temperature").strip()
    return read_temperature(typed, units) if typed else None
