"""The household's settings on paper."""

from __future__ import annotations

from stockroom.domain.quantities import UnitSystem
from stockroom.domain.units import Cup
from stockroom.reports.values import COUNT, TEXT, Field, Fields, Report, document

_UNIT_WORDS = {
    UnitSystem.METRIC: " (grams and degrees Celsius)",
    UnitSystem.US: " (ounces, pounds and degrees Fahrenheit)",
}


def household_report(
    name: str,
    people: int,
    units: UnitSystem,
    store: str,
    altitude_m: int | None = None,
    cup: Cup = Cup.US,
) -> Report:
    """Name, people, units, cup, height above the sea and the file the store is in."""
    return document(
        "Household",
        (
            Fields(
                (
                    Field("name", TEXT, name, "name", missing="not named"),
                    Field("people", COUNT, people, "people"),
                    Field("units", TEXT, str(units), "units", _UNIT_WORDS[units]),
                    Field("cup", TEXT, str(cup), "cup", f", {float(cup.volume_ml):.1f} mL"),
                    Field(
                        "altitude_m", COUNT, altitude_m, "height", " m above the sea",
                        missing="not said: sea level is reckoned with",
                    ),
                    Field("store", TEXT, store, "store"),
                )
            ),
        ),
    )  # fmt: skip
