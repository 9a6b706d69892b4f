"""Short phrases the screens share: days, conditions, best-by, places."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from stockroom.domain.calendar import days_between
from stockroom.domain.conditions import Condition
from stockroom.domain.quantities import UnitSystem, show_servings, show_weight
from stockroom.domain.rechecks import settle_check_due
from stockroom.domain.records import Package, StoredProjection
from stockroom.domain.walking import WalkingOrder, walking_order
from stockroom.tui.widgets.window_rows import Tone

if TYPE_CHECKING:
    from stockroom.domain.caution_table import Caution

GONE = (Condition.USED, Condition.DISCARDED)
"""Conditions of packages that stand nowhere any more."""

NO_PLACE = "no place yet"


def long_day(day: date) -> str:
    """A day for the title bar: "Sat 28 Nov 2026"."""
    return f"{day:%a} {day.day} {day:%b %Y}"


def days_ago(day: date, today: date) -> str:
    """How long ago a day was: "today", "yesterday", "12 days ago"."""
    days = days_between(day, today)
    if days <= 0:
        return "today"
    return "yesterday" if days == 1 else f"{days:,} days ago"


def counted(count: int, one: str, many: str = "") -> str:
    """A number with its noun: "1 package", "12 packages"."""
    return f"{count:,} {one if count == 1 else many or one + 's'}"


def tone_of(package: Package, today: date) -> Tone:
    """What the package's condition asks of the person looking at it."""
    condition = package.condition
    if condition in GONE:
        return "quiet"
    if condition in (Condition.SUSPECT, Condition.HELD):
        return "bad"
    if condition == Condition.SOUND:
        return "good"
    return "" if settle_check_due(package.sealed_on) > today else "due"


def is_past(package: Package, today: date) -> bool:
    """Whether the best-by of a package that is still there has gone by."""
    return package.best_by is not None and package.best_by < today


def best_by_cell(package: Package) -> str:
    """The best-by for a cell of a list; a dash when there is none."""
    return package.best_by.isoformat() if package.best_by else "–"


def band_words(projection: StoredProjection) -> str:
    """The best-by with its band: a date is never shown without it."""
    return f"{projection.best_by}, between {projection.low} and {projection.high}"


def left_words(package: Package, units: UnitSystem) -> str:
    """What is still in the package, dry, and how many servings that makes."""
    servings = show_servings(package.servings_left)
    noun = "serving" if servings == "1" else "servings"
    return f"{show_weight(package.left_dg, units)} dry, {servings} {noun}"


def water_words(package: Package) -> str:
    """The water that what is left takes up."""
    from stockroom.domain.water import show_water

    return f"water {show_water(package.left_water_dg)}"


def closure_words(package: Package) -> str:
    """Container and what keeps the oxygen down: "foil pouch 1.5 L · absorber 300 cc"."""
    parts = [package.container]
    if package.absorber_cc:
        parts.append(f"absorber {package.absorber_cc} cc")
    if package.vacuum:
        parts.append("vacuum")
    return " · ".join(parts)


def place_words(package: Package) -> str:
    """Where the package stands."""
    return package.place or NO_PLACE


def walking(package: Package) -> WalkingOrder:
    """Sorts packages as a person walks along the shelves."""
    return walking_order(package.place, package.code)


def names_of(packages: Sequence[Package]) -> str:
    """Which packages an action is about: one by code and food, several by number."""
    if len(packages) == 1:
        return f"{packages[0].code} {packages[0].food}"
    return counted(len(packages), "package")


def caution(key: str) -> Caution:
    """The caution of this key."""
    # The table is long, and the first paint needs none of it.
    from stockroom.domain.caution_table import CAUTIONS

    return next(one for one in CAUTIONS if one.key == key)
