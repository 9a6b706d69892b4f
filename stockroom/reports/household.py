"""The household's settings on paper."""

from __future__ import annotations

from stockroom.domain.quantities import UnitSystem
from stockroom.reports.values import COUNT, TEXT, Field, Fields, Report, document

_UNIT_WORDS = {
    UnitSystem.METRIC: " (grams and degrees Celsius)",
    UnitSystem.US: " (ounces, pounds and degrees Fahrenheit)",
}


def household_report(name: str, people: int, units: UnitSystem, store: str) -> Report:
    """Name, people, units and the file the store is in."""
    return document(
        "Household",
        (
            Fields(
                (
                    Field("name", TEXT, name, "name", missing="not named"),
                    Field("people", COUNT, people, "people"),
                    Field("units", TEXT, str(units), "units", _UNIT_WORDS[units]),
                    Field("store", TEXT, store, "store"),
                )
            ),
        ),
    )
