"""The rows the plain table is read from, and the band of lives they give."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.keeping.dates import show_life
from stockroom.domain.keeping.interface import FoodClass, LimitedBy, PackageKind
from stockroom.domain.working import Source, Standing


@dataclass(frozen=True, slots=True)
class Band:
    """One quantity at its low, middle and high value."""

    low: Fraction
    mid: Fraction
    high: Fraction

    def joined(self, other: Band, choose: Callable[[Fraction, Fraction], Fraction]) -> Band:
        """The two bands joined value by value, by `min`, `max` or any other choice."""
        return Band(
            choose(self.low, other.low),
            choose(self.mid, other.mid),
            choose(self.high, other.high),
        )

    def shorter_of(self, other: Band) -> Band:
        """The lower value at each place."""
        return self.joined(other, min)

    def longer_of(self, other: Band) -> Band:
        """The higher value at each place."""
        return self.joined(other, max)

    @property
    def values(self) -> tuple[Fraction, Fraction, Fraction]:
        """Low, middle and high, in that order."""
        return self.low, self.mid, self.high

    @property
    def life(self) -> str:
        """The band read as months of life, in words."""
        return f"{show_life(self.low)} - {show_life(self.mid)} - {show_life(self.high)}"


@dataclass(frozen=True, slots=True)
class PlainLife:
    """One row: a food class in a kind of package, with or without its oxygen, at 21 °C."""

    food_class: FoodClass
    package_kind: PackageKind
    oxygen_removed: bool
    months: Band
    limited_by: LimitedBy
    """What ended the life where the row was drawn up."""
    source: Source
    standing: Standing


@dataclass(frozen=True, slots=True)
class Tolerance:
    """The oxygen a food class takes up before it is past choosing, cc per gram of dry food."""

    food_class: FoodClass
    cc_per_g: Band
    source: Source
    standing: Standing


@dataclass(frozen=True, slots=True)
class OpenedLife:
    """How long an opened package stays good, in days from the opening."""

    low_days: int
    mid_days: int
    high_days: int
    source: Source
    standing: Standing

    @property
    def days(self) -> tuple[int, int, int]:
        """Low, middle and high, in that order."""
        return self.low_days, self.mid_days, self.high_days


@dataclass(frozen=True, slots=True)
class PlainLives:
    """Everything the plain table knows; complete for every class and kind of package."""

    rows: tuple[PlainLife, ...]
    tolerances: tuple[Tolerance, ...]
    opened: OpenedLife
    reclosed: OpenedLife
    """Closed airtight again with a fresh absorber."""
