"""What rotation, forecast and provision come to for a household: frozen, ready to be shown."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.advice import Advice
from stockroom.domain.horizon.dry_next import Gap
from stockroom.domain.horizon.eating_rate import EatingRate
from stockroom.domain.horizon.forecast import Fate, FoodForecast, PackageForecast
from stockroom.domain.horizon.household_eating import Basis, HouseholdEating
from stockroom.domain.horizon.odds import FoodOdds, Odds
from stockroom.domain.horizon.planned import Unserved
from stockroom.domain.horizon.provision import Provision
from stockroom.domain.horizon.stock import NONE, StockPackage
from stockroom.domain.horizon.use_order import UseOrder
from stockroom.domain.household_need import HouseholdNeed
from stockroom.domain.quantities import show_servings


@dataclass(frozen=True, slots=True)
class KnownFood:
    """A food as the horizon names it."""

    food_id: int
    name: str
    group: FoodGroup
    serving_dg: int


class WhyApart(StrEnum):
    """Why packages are said apart and not counted as food to be eaten."""

    SUSPECT = "suspect: decide what becomes of it first"
    HELD = "held to be dried again"
    UNDATED = "without a best-by"
    RAW = "raw: it must be cooked first"

    @property
    def key(self) -> str:
        """The word for programs."""
        return self.name.lower()


@dataclass(frozen=True, slots=True)
class SetApart:
    """Packages that are not counted, for one reason."""

    why: WhyApart
    packages: int
    servings: Fraction


@dataclass(frozen=True, slots=True)
class TargetRow:
    """Servings of a food group the household wants; set, or what it eats in the target's days."""

    group: FoodGroup
    servings: Fraction
    was_set: bool


@dataclass(frozen=True, slots=True)
class SetRate:
    """The eating of one food, as the household set it or as the record tells."""

    food: KnownFood
    how: HouseholdEating


@dataclass(frozen=True, slots=True)
class StoreTarget:
    """For how many days the household wants to store, and what of a group."""

    days: int
    was_set: bool
    groups: tuple[TargetRow, ...] = ()
    asked: bool = False
    """Whether the days were asked for this once."""


@dataclass(frozen=True, slots=True)
class PlannedPart:
    """What of the menu was taken out first, and what could not be reckoned."""

    dishes: int = 0
    servings: Fraction = NONE
    unserved: tuple[tuple[KnownFood, Unserved], ...] = ()
    unknown: tuple[str, ...] = ()
    """Dishes with a line whose amount cannot be told in servings, with its food."""


@dataclass(frozen=True, slots=True)
class FoodHorizon:
    """One food: what there is, how it is eaten, what becomes of it, and its least rate."""

    food: KnownFood
    how: HouseholdEating
    forecast: FoodForecast
    least: EatingRate
    raw: frozenset[int] = frozenset()
    """Packages of raw food, by number in the store: to be cooked first."""

    @property
    def known(self) -> bool:
        """Whether anybody said how it is eaten; without it nothing is said of its waste."""
        return self.how.basis is not Basis.NOBODY

    @property
    def servings(self) -> Fraction:
        """What is in time today."""
        every = (one.package.servings for one in self.in_time)
        return sum(every, NONE)

    @property
    def in_time(self) -> tuple[PackageForecast, ...]:
        """Packages that are not past their best-by."""
        return tuple(one for one in self.forecast.packages if one.fate is not Fate.PAST)

    @property
    def unused_servings(self) -> Fraction:
        """What passes its best-by in the forecast; none is told where nobody said."""
        return self.forecast.unused_servings if self.known else NONE

    @property
    def unused(self) -> tuple[PackageForecast, ...]:
        """The packages of which something passes."""
        wasted = (Fate.UNUSED, Fate.PARTLY)
        return tuple(one for one in self.forecast.packages if self.known and one.fate in wasted)

    @property
    def runs_out_on(self) -> date | None:
        """The last day there is any to eat in time, where it is known how it is eaten."""
        return self.forecast.runs_out_on if self.known else None


@dataclass(frozen=True, slots=True)
class HorizonPage:
    """The forecast of a household. `until` is the first day after it."""

    today: date
    days: int
    until: date
    foods: tuple[FoodHorizon, ...]
    planned: PlannedPart
    apart: tuple[SetApart, ...]
    advice: tuple[Advice, ...] = ()
    not_looked_at: int = 0
    """Packages that pass unused and were not looked at for a move or a repacking."""
    odds: Odds | None = None

    @property
    def unused_servings(self) -> Fraction:
        """What passes its best-by, all foods together."""
        return sum((one.unused_servings for one in self.foods), NONE)

    @property
    def past_servings(self) -> Fraction:
        """What was past already."""
        return sum((one.forecast.past_servings for one in self.foods), NONE)

    @property
    def nobody_said(self) -> tuple[FoodHorizon, ...]:
        """Foods in stock of which nobody said how they are eaten."""
        return tuple(one for one in self.foods if not one.known and one.in_time)

    @property
    def sentence(self) -> str:
        """Whether all is eaten in time, and where it first is not."""
        known = [one for one in self.foods if one.known]
        if not known:
            return "Nobody said how fast anything is eaten, so nothing can be said of waste."
        short = [
            (one.forecast.shortfall.best_by, one.food.name, one.forecast.shortfall)
            for one in known
            if one.forecast.shortfall is not None
        ]
        if not short:
            return f"Eaten as said, nothing passes its best-by before {self.until}."
        best_by, name, first = min(short, key=lambda one: one[:2])
        total = show_servings(self.unused_servings)
        return (
            f"Eaten as said, {total} servings pass their best-by before {self.until}. The first is"
            f" {name}: {show_servings(first.servings)} servings on {best_by}, beginning with"
            f" {first.package.code}."
        )

    def odds_of(self, food_id: int) -> FoodOdds | None:
        """The odds of one food, where they were asked for."""
        every = () if self.odds is None else self.odds.foods
        return next((one for one in every if one.food_id == food_id), None)


@dataclass(frozen=True, slots=True)
class FoodOrder:
    """One food in both orders."""

    food: KnownFood
    how: HouseholdEating
    order: UseOrder


@dataclass(frozen=True, slots=True)
class Stop:
    """A package to take on the round, and from when on."""

    food: KnownFood
    package: StockPackage
    place: str
    from_day: date | None
    to_day: date | None
    fate: Fate
    raw: bool = False
    known: bool = True
    """Whether anybody said how the food is eaten; else its best-by brought it here."""


@dataclass(frozen=True, slots=True)
class RotationPage:
    """The order of use of each food, and the round of what to take, as it is walked."""

    today: date
    until: date
    orders: tuple[FoodOrder, ...]
    stops: tuple[Stop, ...]
    past: tuple[Stop, ...]
    apart: tuple[SetApart, ...]


@dataclass(frozen=True, slots=True)
class CoverPage:
    """What the store gives the household, and what to dry next."""

    today: date
    need: HouseholdNeed
    target: StoreTarget
    provision: Provision
    apart: tuple[SetApart, ...]
    gaps: tuple[Gap, ...]
    power_out: bool
    raw_too: bool
