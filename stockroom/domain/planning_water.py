"""Water to keep for people: what to store, how much of it to drink, what rehydration adds.

The store is FEMA's and the Red Cross's gallon for each person and day, of which two quarts are for
drinking; the Sphere figures stand beside it as what people live on in an emergency. The water that
dried food takes up comes on top: the gallon does not know of it. Millilitres are exact.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.units import US_GALLON_ML, US_QUART_ML
from stockroom.domain.working import Source, Standing

STORED_WATER = Source(
    "fema-water",
    "FEMA and American Red Cross, Food and Water in an Emergency, FEMA 477: at least one US gallon"
    " for each person and day, two quarts of it to drink, for three days or better two weeks; more"
    " in heat, for children, nursing mothers and the ill; self-filled water replaced every six"
    " months",
    Standing.PUBLISHED,
)
SURVIVAL_WATER = Source(
    "sphere-water",
    "Sphere Project, Humanitarian Charter and Minimum Standards in Humanitarian Response, 2011:"
    " water in an emergency for each person and day, survival 2.5 to 3 L, basic hygiene 2 to 6 L,"
    " basic cooking 3 to 6 L, in all 7.5 to 15 L",
    Standing.PUBLISHED,
)
REHYDRATION_EXTRA = Source(
    "rehydration-extra",
    "Water that dried food takes up is counted on top of the water stored for people",
    Standing.ENGINEERING_JUDGEMENT,
)
WATER_SOURCES = (STORED_WATER, SURVIVAL_WATER, REHYDRATION_EXTRA)

STORED_ML = US_GALLON_ML
"""For each person and day at least (`STORED_WATER`)."""
DRUNK_ML = 2 * US_QUART_ML
"""Of that, to drink at least (`STORED_WATER`)."""
LEAST_DAYS = 3
GOOD_DAYS = 14
"""Days to store for, at least and better (`STORED_WATER`)."""
REPLACE_MONTHS = 6
"""Self-filled water is replaced after so many (`STORED_WATER`)."""

MORE_FOR = (
    "Heat, children, nursing mothers and ill people need more; fill-it-yourself water is replaced"
    f" every {REPLACE_MONTHS} months."
)


@dataclass(frozen=True, slots=True)
class Use:
    """One use of water for a person in a day, in litres from and to."""

    name: str
    low_l: Fraction
    high_l: Fraction


SURVIVAL = Use("survival: drinking and food", Fraction(5, 2), Fraction(3))
HYGIENE = Use("basic hygiene", Fraction(2), Fraction(6))
COOKING = Use("basic cooking", Fraction(3), Fraction(6))
SPHERE_USES = (SURVIVAL, HYGIENE, COOKING)
"""`SURVIVAL_WATER`."""
SPHERE_TOTAL = Use("in all", Fraction(15, 2), Fraction(15))
"""`SURVIVAL_WATER`: as printed; its parts add up to just that."""


@dataclass(frozen=True, slots=True)
class WaterStore:
    """Water for people over some days, in millilitres."""

    people: int
    days: int
    stored_ml: Fraction
    """To store for people: drinking, food and washing."""
    drunk_ml: Fraction
    """Of the stored, to drink at least."""
    rehydration_ml: Fraction
    """For dried food, on top."""

    @property
    def total_ml(self) -> Fraction:
        """The water for people and for their dried food."""
        return self.stored_ml + self.rehydration_ml


def water_store(people: int, days: int, rehydration_ml_a_day: Fraction | int = 0) -> WaterStore:
    """Water for so many people and days; `rehydration_ml_a_day` is for each person.

    ValueError for a number below nought.
    """
    if people < 0 or days < 0 or rehydration_ml_a_day < 0:
        raise ValueError(f"{people} people, {days} days, {rehydration_ml_a_day} mL each")
    person_days = people * days
    return WaterStore(
        people,
        days,
        person_days * STORED_ML,
        person_days * DRUNK_ML,
        person_days * Fraction(rehydration_ml_a_day),
    )
