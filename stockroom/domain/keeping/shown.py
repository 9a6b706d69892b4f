"""Numbers of the keeping model as text, for its working."""

from __future__ import annotations

from math import inf

from stockroom.domain.keeping.dates import DAYS_A_MONTH, show_life
from stockroom.domain.keeping.figures import Figure, Quantity
from stockroom.domain.keeping.interface import FoodClass, PackageKind
from stockroom.domain.working import Given, Standing

_NOISE_MONTHS = 1e-7

UNITS = {
    Quantity.LIFE_WITHOUT_OXYGEN: "years",
    Quantity.LIFE_IN_AIR: "months",
    Quantity.Q10: "",
    Quantity.OXYGEN_TOLERANCE: "cc/g",
    Quantity.OXYGEN_TRANSMISSION: "cc/(m² day atm)",
    Quantity.VAPOUR_TRANSMISSION: "g/(m² day)",
    Quantity.LID_OXYGEN: "cc/day",
    Quantity.LID_VAPOUR: "mg/day",
    Quantity.ROOM_HUMIDITY: "",
    Quantity.FIRST_ACTIVITY: "",
    Quantity.CRISP_LIMIT: "",
    Quantity.STATED_TEMPERATURE: "°C",
    Quantity.OPENED_LIFE: "days",
    Quantity.RESIDUAL_MOISTURE: "",
}


def number(value: float, unit: str = "") -> str:
    """A number with four figures and its unit."""
    return f"{value:.4g} {unit}".rstrip()


def days(value: float) -> str:
    """A number of days."""
    return "never" if value == inf else number(value, "days")


def past_or_days(value: float) -> str:
    """The day a counter ends; one that never gets there ends past the longest life."""
    return "past 25 years" if value == inf else days(value)


def life_words(value_days: float) -> str:
    """A life in days as words, rounded down: "14 days", "9 months", "10 years"."""
    if value_days == inf:
        return "never"
    return show_life(value_days / float(DAYS_A_MONTH) + _NOISE_MONTHS)


def spoken(word: FoodClass | PackageKind) -> str:
    """A class or kind as a person says it."""
    return word.value.replace("_", " ")


def computed(name: str, value_text: str) -> Given:
    """A number that was worked out, as an input."""
    return Given(name, value_text, standing=Standing.COMPUTED)


def middle_of(figure: Figure) -> Given:
    """A figure at its middle value, with its source and standing."""
    return Given(
        figure.quantity.words,
        number(figure.spread.middle, UNITS[figure.quantity]),
        figure.source,
        figure.standing,
    )


def spread_of(figure: Figure) -> str:
    """All three values of a figure with their unit."""
    spread = figure.spread
    values = (spread.pessimistic, spread.middle, spread.optimistic)
    sign = "+" if figure.quantity is Quantity.STATED_TEMPERATURE else ""
    shown = " to ".join(f"{value:{sign}.4g}" for value in values if sign == "" or value != 0)
    return f"{shown} {UNITS[figure.quantity]}".rstrip()
