"""The figures the keeping model stands on: each with its spread, source and standing."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stockroom.domain.keeping.interface import FoodClass, PackageKind
from stockroom.domain.keeping.moisture import Isotherm
from stockroom.domain.working import Source, Standing


class Quantity(StrEnum):
    """What a figure is a figure of."""

    LIFE_WITHOUT_OXYGEN = "life_without_oxygen"
    """Years at 21 °C."""
    LIFE_IN_AIR = "life_in_air"
    """Months at 21 °C."""
    Q10 = "q10"
    OXYGEN_TOLERANCE = "oxygen_tolerance"
    """cc of oxygen per g of dry food."""
    OXYGEN_TRANSMISSION = "oxygen_transmission"
    """cc/(m2 day atm)."""
    VAPOUR_TRANSMISSION = "vapour_transmission"
    """g/(m2 day) at 38 °C and 90 % humidity."""
    LID_OXYGEN = "lid_oxygen"
    """cc a day, in air."""
    LID_VAPOUR = "lid_vapour"
    """mg a day at 25 °C and a humidity difference of 0.6."""
    ROOM_HUMIDITY = "room_humidity"
    FIRST_ACTIVITY = "first_activity"
    """Water activity of the food when packed."""
    CRISP_LIMIT = "crisp_limit"
    """Water activity at which it is no longer crisp."""
    STATED_TEMPERATURE = "stated_temperature"
    """Degrees C by which a place may be warmer than was said."""
    OPENED_LIFE = "opened_life"
    """Days."""
    RESIDUAL_MOISTURE = "residual_moisture"
    """Share of the dry food, wet basis; without a spread of its own."""

    @property
    def words(self) -> str:
        """The quantity as a person reads it."""
        return _WORDS[self]


_WORDS = {
    Quantity.LIFE_WITHOUT_OXYGEN: "life without oxygen",
    Quantity.LIFE_IN_AIR: "life in air",
    Quantity.Q10: "Q10",
    Quantity.OXYGEN_TOLERANCE: "oxygen this food tolerates",
    Quantity.OXYGEN_TRANSMISSION: "oxygen through the film",
    Quantity.VAPOUR_TRANSMISSION: "vapour through the film",
    Quantity.LID_OXYGEN: "oxygen through the lid",
    Quantity.LID_VAPOUR: "vapour through the lid",
    Quantity.ROOM_HUMIDITY: "humidity of the room",
    Quantity.FIRST_ACTIVITY: "water activity when packed",
    Quantity.CRISP_LIMIT: "water activity where crispness ends",
    Quantity.STATED_TEMPERATURE: "temperature of the place, where it was not measured",
    Quantity.OPENED_LIFE: "life once open or not tight",
    Quantity.RESIDUAL_MOISTURE: "residual moisture",
}

VARIED = tuple(quantity for quantity in Quantity if quantity is not Quantity.RESIDUAL_MOISTURE)
"""The quantities the band varies one at a time, in the order of `life.Values`."""


@dataclass(frozen=True, slots=True)
class Spread:
    """One quantity at its pessimistic, middle and optimistic value."""

    pessimistic: float
    middle: float
    optimistic: float

    def times(self, factor: float) -> Spread:
        """The spread in another unit."""
        return Spread(self.pessimistic * factor, self.middle * factor, self.optimistic * factor)

    def less(self, amount: float) -> Spread:
        """The spread counted from `amount`."""
        return Spread(self.pessimistic - amount, self.middle - amount, self.optimistic - amount)

    def lower_of(self, other: Spread) -> Spread:
        """The lower value at each of the three places."""
        return Spread(
            min(self.pessimistic, other.pessimistic),
            min(self.middle, other.middle),
            min(self.optimistic, other.optimistic),
        )


NOTHING = Spread(0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a table: a quantity, its spread and where it comes from."""

    quantity: Quantity
    spread: Spread
    unit: str
    source: Source
    standing: Standing
    anchor: Source | None = None
    """The publication it was drawn toward, where there is one."""


@dataclass(frozen=True, slots=True)
class ClassFigures:
    """All figures of one food class."""

    food_class: FoodClass
    life_without_oxygen: Figure
    life_in_air: Figure
    oxygen_tolerance: Figure
    crisp_limit: Figure
    isotherm: Isotherm
    isotherm_source: Source
    isotherm_standing: Standing


@dataclass(frozen=True, slots=True)
class BarrierFigures:
    """What one kind of package lets through; None where it has no such path."""

    package_kind: PackageKind
    oxygen_transmission: Figure | None
    vapour_transmission: Figure | None
    lid_oxygen: Figure | None
    lid_vapour: Figure | None


@dataclass(frozen=True, slots=True)
class KeepingFigures:
    """Everything the full model knows; complete for every class and kind of package."""

    classes: tuple[ClassFigures, ...]
    barriers: tuple[BarrierFigures, ...]
    q10: Figure
    room_humidity: Figure
    first_activity: Figure
    stated_temperature: Figure
    opened: Figure
    """Days an opened or leaking package stays good where nothing better is known."""
    reclosed: Figure
    """The same, closed airtight again with a fresh absorber."""
    residual_moisture: Figure
    """Share of water, wet basis, where the lot's was not recorded."""
    absorber_sizes_cc: tuple[int, ...]
