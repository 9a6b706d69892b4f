"""What is known of a package found soft, leaking or damaged, and what follows for time and acid.

Every fact that nobody knows counts as the stricter one. The record has days, not hours, so time is
counted in calendar days and, where a person gives them, hours.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date
from enum import StrEnum

from stockroom.domain.calendar import days_between
from stockroom.domain.cautions import EARLY_HOURS, is_low_acid
from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.rechecks import SETTLE_DAYS
from stockroom.domain.tightness import Tightness

FEW_DAYS = 3
"""The most days food may have been soft where a few days are allowed. Fruit: engineering
judgement. Chilled low-acid food: USDA FSIS gives leftovers 3 to 4 days, the stricter taken."""
MINUTES_OUT = 120
"""Out of the cold, all together: the 2-hour rule of USDA FSIS, danger zone, 2016 (published)."""
MINUTES_OUT_HOT = 60
"""The same in a room above 90 °F (32.2 °C); same source."""


class Signs(StrEnum):
    """What shows that food has spoiled."""

    NONE = "none"
    MOULD = "mould"
    ODOUR = "odour"
    SWOLLEN = "swollen"
    STICKY_ODOUR = "sticky_odour"

    @property
    def words(self) -> str:
        """As a person would say it."""
        return _SIGNS[self]


class Feel(StrEnum):
    """How the food feels."""

    SNAPS = "snaps"
    SLIGHTLY_SOFT = "slightly_soft"
    MOIST = "moist"
    """Moist to see, or wet in the middle."""

    @property
    def words(self) -> str:
        """As a person would say it."""
        return _FEELS[self]


_SIGNS = {
    Signs.NONE: "no sign of spoilage",
    Signs.MOULD: "mould",
    Signs.ODOUR: "an off odour",
    Signs.SWOLLEN: "gas or a swollen package",
    Signs.STICKY_ODOUR: "sticky, with an odour",
}
_FEELS = {
    Feel.SNAPS: "snaps to the middle",
    Feel.SLIGHTLY_SOFT: "slightly soft",
    Feel.MOIST: "moist to see, or wet in the middle",
}


@dataclass(frozen=True, slots=True)
class SoftFacts:
    """One package as it was found. None means not known, or not said."""

    food_class: FoodClass
    preparation: Preparation
    low_oxygen: bool
    """As it was sealed, with an absorber or under vacuum; opening it since changes nothing."""
    sealed_on: date | None
    """The day of the closure it was found in."""
    found_on: date
    """The day it was found soft, leaking or damaged."""
    decided_on: date
    """The day of the decision; time runs on until then unless it has been frozen."""
    acid: bool | None = None
    """True for pH 4.6 or below. A fruit nobody knows this of counts as low-acid."""
    last_crisp_on: date | None = None
    """The last check that found it crisp; None when it was never looked at."""
    hot_room: bool = False
    """Whether it stands above 90 °F (32.2 °C)."""
    signs: Signs | None = None
    feel: Feel | None = None
    hours_since_sealing: int | None = None
    """Hours from sealing to finding."""
    frozen_since_found: bool | None = None
    kept_cold: bool | None = None
    """Whether it was chilled or frozen ever since sealing."""
    minutes_out: int | None = None
    """Minutes out of the cold, all together, since it left the machine."""
    tightness: Tightness | None = None

    @property
    def counts_to(self) -> date:
        """The day to which it may have gone on spoiling."""
        return self.found_on if self.frozen_since_found else max(self.found_on, self.decided_on)

    @property
    def minutes_allowed(self) -> int:
        """Minutes that wet low-acid food may be out of the cold, all together."""
        return MINUTES_OUT_HOT if self.hot_room else MINUTES_OUT

    @property
    def minutes_counted(self) -> int | None:
        """Minutes it was out of the cold: none for food kept cold ever since; None unknown."""
        if self.minutes_out is None and self.kept_cold:
            return 0
        return self.minutes_out


def is_acid_fruit(food_class: FoodClass, acid: bool | None) -> bool:
    """Whether the kinder rules for fruit hold: a fruit known to be acid, and nothing else.

    Stricter than `is_low_acid` about the unknown: no class says enough of one food's acidity to
    eat it by. Other acid food has no row of its own, so it counts with the low-acid.
    """
    known = food_class is FoodClass.FRUIT and acid is True
    return known and not is_low_acid(food_class, acid)


def within_a_day(facts: SoftFacts) -> bool:
    """Whether it is known that no more than about 24 hours passed between sealing and finding.

    Hours nobody knows count as more, except on the sealing day itself. Two calendar days on is
    more than 24 hours whatever is said; so is a sealing day nobody knows.
    """
    if facts.hours_since_sealing is None and facts.sealed_on != facts.counts_to:
        return False
    return may_be_within_a_day(facts)


def may_be_within_a_day(facts: SoftFacts) -> bool:
    """Whether it was sealed on that day or the day before, and nobody says more than 24 hours."""
    hours = facts.hours_since_sealing
    if hours is not None and not 0 <= hours <= EARLY_HOURS:
        return False
    if facts.sealed_on is None or facts.sealed_on > facts.found_on:
        return False
    return days_between(facts.sealed_on, facts.counts_to) <= SETTLE_DAYS


def soft_since(facts: SoftFacts) -> date | None:
    """The earliest day it can have gone soft: last found crisp, else sealed; None unknown."""
    crisp, sealed = facts.last_crisp_on, facts.sealed_on
    if sealed is None or sealed > facts.found_on:
        return None
    if crisp is None or not sealed <= crisp <= facts.found_on:
        return sealed
    return crisp


def soft_days(facts: SoftFacts, until: date) -> int | None:
    """The most days it can have been soft until a day; None when nobody knows."""
    since = soft_since(facts)
    return None if since is None else days_between(since, until)


def cold_enough(facts: SoftFacts) -> bool:
    """Whether it is known to have been out of the cold no longer than allowed."""
    minutes = facts.minutes_counted
    return minutes is not None and 0 <= minutes <= facts.minutes_allowed


def as_answers(facts: SoftFacts) -> dict[str, str | int | bool | None]:
    """Every fact under its name as a plain value, days in ISO form: to be kept with a decision."""
    plain: dict[str, str | int | bool | None] = {}
    for one in fields(facts):
        value = getattr(facts, one.name)
        plain[one.name] = value.isoformat() if isinstance(value, date) else value
    return plain
