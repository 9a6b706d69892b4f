"""What every keeping model takes and gives: the case, the projection and the protocol.

The case holds all that decides how long one package stays good to eat: food, package, oxygen,
moisture, places and events. A model may use less of it than there is; what it leaves out it says
in its working. Every projection is a quality estimate, not safety.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from fractions import Fraction
from typing import NamedTuple, Protocol

from stockroom.domain.working import Working
from stockroom.errors import Refused

QUALITY_NOT_SAFETY = "quality estimate, not safety"
"""Stands beside every projected date."""

LONGEST_MONTHS = 300
"""No projection passes 25 years: no published study supports more (engineering judgement)."""


class FoodClass(StrEnum):
    """How a food keeps once dry. Follows the fat of its dry solids, not its name."""

    FRUIT = "fruit"
    VEGETABLE = "vegetable"
    STARCH = "starch"
    LEAN_MEAT = "lean_meat"
    MEAL = "meal"
    EGG = "egg"
    NONFAT_DAIRY = "nonfat_dairy"
    FATTY_DAIRY = "fatty_dairy"
    NUTS = "nuts"


class PackageKind(StrEnum):
    """What stands between the food and the air, from the model's point of view."""

    FOIL_POUCH = "foil_pouch"
    METALLISED_POUCH = "metallised_pouch"
    VACUUM_BAG = "vacuum_bag"
    ZIP_BAG = "zip_bag"
    JAR = "jar"


class LimitedBy(StrEnum):
    """What ends the projected life first."""

    TEMPERATURE = "temperature"
    OXYGEN = "oxygen"
    MOISTURE = "moisture"
    CAP = "cap"
    """The longest life any projection may give."""
    OPENED = "opened"
    """Opened, or no longer tight."""


@dataclass(frozen=True, slots=True)
class Stay:
    """Where a package stands from one day until the next stay begins (or for good)."""

    from_day: date
    temperature_dc: int | None
    """Tenths of a degree C, day and night together; None when nobody has said."""
    monthly_dc: tuple[int, ...] = ()
    """Twelve monthly means, January first, repeated every year; where given they replace
    `temperature_dc`. Empty when only one figure is known."""
    relative_humidity: Fraction | None = None
    """Of the room's air, 0 to 1; None when nobody has said."""
    measured: bool = False
    """True when the temperature was read there, False when it was only stated."""


@dataclass(frozen=True, slots=True)
class KeepingCase:
    """All that decides how long one package keeps. None means not known, never zero."""

    food_class: FoodClass
    fat_of_solids: Fraction | None
    """Fat as a share of the dry solids, 0 to 1."""
    package_kind: PackageKind
    dry_dg: int
    """Dry food in the package, tenths of a gram."""
    volume_ml: int
    """Volume as closed, or the container's own where that was not measured."""
    area_mm2: int | None
    """Both faces inside the seals; None lets the model estimate it from the volume."""
    absorber_cc: int
    """Oxygen the absorbers can take, cc; 0 for none."""
    vacuum_tenth_inhg: int | None
    """Gauge vacuum at closing, tenths of an inch of mercury; None for none or not read."""
    residual_moisture: Fraction | None
    """Water as a share of the dry package's weight (wet basis)."""
    sealed_on: date
    stays: tuple[Stay, ...] = ()
    """In order of day; what is not covered counts as a place nobody described."""
    opened_on: date | None = None
    seal_lost_on: date | None = None
    """The day it began to leak; for a package found soft, midway since the last good check."""
    redried_on: date | None = None
    """The day it was dried again and repacked; the closure fields describe the new closure."""
    barometer_thousandth_inhg: int | None = None
    """Local station pressure; None is taken as sea level, 29.921 inHg."""
    solid_density_mg_per_ml: int | None = None
    """True density of the dry solids, pores left out; None is taken as 1.5 g/mL."""
    reclosed_with_absorber: bool = False
    """An opened package closed airtight again with a fresh absorber."""
    life_used_before_redrying: Fraction | None = None
    """Share of the quality life spent before `redried_on`, where it is on record; None lets
    the model work it out from the dates."""


@dataclass(frozen=True, slots=True)
class Projection:
    """How long one package may stay good to eat: quality, not safety."""

    best_by: date
    low: date
    high: date
    recheck_by: date
    """The low edge of the band: look at it no later than this."""
    low_months: float
    """Life from sealing to the low edge before rounding, in months of 30.4375 days."""
    mid_months: float
    high_months: float
    limited_by: LimitedBy
    model: str
    explained: Callable[[], Working] = field(repr=False, compare=False)
    """Writes the working when somebody asks for it: nothing is written for a mere date."""
    discard_by: date | None = None
    """The day the food may have taken up so much moisture (water activity 0.60) that it has to
    go; None where the room is too dry for that, or the model does not say."""

    @property
    def working(self) -> Working:
        """How the projection was reached, step by step; written anew at every call."""
        return self.explained()

    @property
    def low_years(self) -> float:
        """Life from sealing to the low edge, in years of 365.25 days."""
        return self.low_months / 12

    @property
    def mid_years(self) -> float:
        """Life from sealing to the best-by date, in years of 365.25 days."""
        return self.mid_months / 12

    @property
    def high_years(self) -> float:
        """Life from sealing to the high edge, in years of 365.25 days."""
        return self.high_months / 12


class LifeUsed(NamedTuple):
    """Shares of the life used by a day, 0 to 1: one is all of it."""

    least: float
    """If everything in doubt is kind: reaches one at the high edge of the best-by."""
    middle: float
    most: float
    """If it is not: reaches one at the low edge."""


class CannotProject(Refused):
    """The case lies outside what any keeping model may speak about."""


class TooMoistToProject(CannotProject):
    """Moist food in a low-oxygen package is a matter of safety, not of keeping quality."""

    def __init__(self, residual_moisture: Fraction) -> None:
        percent = float(residual_moisture * 100)
        super().__init__(
            f"About {percent:.1f} % moisture in a package without oxygen: no best-by is given"
            " above 10 %.",
            "Dry the lot further before it is packed without oxygen;"
            " follow local codes and licensed guidance.",
        )
        self.residual_moisture = residual_moisture


class KeepingModel(Protocol):
    """Anything that can say how long a package keeps."""

    @property
    def name(self) -> str:
        """Short name of the model, stored beside each projection."""
        ...

    def project(self, case: KeepingCase) -> Projection:
        """The projection for one package. Raises CannotProject outside the model's limits."""
        ...

    def explain(self, case: KeepingCase) -> Working:
        """How that projection is reached. Raises CannotProject outside the model's limits."""
        ...

    def project_many(self, cases: Sequence[KeepingCase]) -> list[Projection]:
        """The projections of many packages in their order; equal cases are computed once.

        Raises CannotProject for the first case outside the model's limits.
        """
        ...

    def life_used(self, case: KeepingCase, days: Sequence[float]) -> Sequence[LifeUsed]:
        """The shares of the life used by each of `days` from sealing, with their band.

        Raises CannotProject outside the model's limits.
        """
        ...
