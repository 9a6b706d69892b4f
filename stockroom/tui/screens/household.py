"""The form for the household's settings."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.quantities import UnitSystem, read_whole
from stockroom.domain.units import Cup
from stockroom.errors import Refused
from stockroom.services.household import MOST_PEOPLE, change_household
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.screens.food_forms import among
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker

LOWEST_M, HIGHEST_M = -430, 5500
"""From the shore of the Dead Sea to the highest towns: what is believed of a height typed here."""
_ALTITUDE_HINT = "Above the sea: the thinner the air, the less oxygen is packed in."

UNITS = (
    Choice(UnitSystem.METRIC, "metric", "g, °C"),
    Choice(UnitSystem.US, "us", "oz, lb, °F"),
)
CUPS = (
    Choice(Cup.US, "us", "236.6 mL"),
    Choice(Cup.LABEL, "label", "240 mL, of food labels"),
)


class NothingChanged(Refused):
    """A form was finished as it was opened."""

    def __init__(self) -> None:
        super().__init__("Nothing was changed.", "Change something, or leave with Esc.")


def household_form(room: Stockroom) -> FormScreen[Done]:
    """Asks for name, units, cup, people and altitude."""
    now = room.household
    height = "" if now.altitude_m is None else str(now.altitude_m)

    def submit(answers: Answers) -> Done:
        name = answers.text("name").strip()
        people = read_whole(answers.text("people"), "people", 1, MOST_PEOPLE)
        units = UnitSystem(answers.key("units") or now.units)
        cup = Cup(answers.key("cup") or now.cup)
        height = answers.text("altitude").strip()
        altitude_m = read_whole(height, "altitude", LOWEST_M, HIGHEST_M) if height else None
        said = (name, people, units, cup)
        if said == (now.name, now.people, now.units, now.cup) and (
            altitude_m in (None, now.altitude_m)
        ):
            raise NothingChanged
        return change_household(
            room,
            name=name if name != now.name else None,
            people=people if people != now.people else None,
            units=units if units != now.units else None,
            altitude_m=altitude_m if altitude_m != now.altitude_m else None,
            cup=cup if cup != now.cup else None,
        )

    fields = (
        Field("name", "Name", now.name, hint="What you call yourselves, if you like."),
        Picker("units", "Units", among(UNITS), _chosen(UNITS, now.units), hint="metric or us."),
        Picker(
            "cup", "Cup", among(CUPS), _chosen(CUPS, now.cup), hint="us 236.6 mL, label 240 mL."
        ),
        Field("people", "People", str(now.people), restrict=DIGITS, hint="Who eat from it."),
        Field("altitude", "Altitude", height, restrict=DIGITS, unit="m", hint=_ALTITUDE_HINT),
    )
    return FormScreen("Household", fields, submit, about=(f"The record is at {room.path}",))


def _chosen(choices: Sequence[Choice], key: str) -> Choice:
    """The one of this key."""
    return next(choice for choice in choices if choice.key == key)
