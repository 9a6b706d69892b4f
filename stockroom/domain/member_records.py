"""The people who eat from the stockroom, as the store hands them out.

Body weights are tenths of a gram, heights millimetres, ages tenths of a year as told on a day.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction

from dateutil.relativedelta import relativedelta

from stockroom.domain.energy_equations import Edition
from stockroom.domain.energy_table import TABLE_EDITION
from stockroom.domain.foods import Allergen
from stockroom.domain.person import Activity, Sex


class Figures(StrEnum):
    """By which figures a person's energy is reckoned; the value names their edition."""

    OLD = Edition.OLD.value
    NEW = Edition.NEW.value
    TABLE = TABLE_EDITION

    @property
    def edition(self) -> Edition | None:
        """The edition of the equation; None for the table."""
        return None if self is Figures.TABLE else Edition(self.value)

    @property
    def word(self) -> str:
        """As it is typed: 2005, 2023 or table."""
        return "table" if self is Figures.TABLE else self.value

    @property
    def words(self) -> str:
        """As it reads in a list."""
        return f"{'table' if self is Figures.TABLE else 'equation'} {self.value}"


@dataclass(frozen=True, slots=True)
class Disliked:
    """A food of the household's own that somebody would rather not eat."""

    food_id: int
    food: str


@dataclass(frozen=True, slots=True)
class Member:
    """One person of the household. A birthday is not asked: the age is as told on `age_on`."""

    member_id: int
    name: str
    sex: Sex
    age_tenths: int
    age_on: date
    activity: Activity
    figures: Figures
    body_weight_dg: int | None = None
    height_mm: int | None = None
    allergens: tuple[Allergen, ...] = ()
    dislikes: tuple[Disliked, ...] = ()

    @property
    def weight_kg(self) -> Fraction | None:
        """Body weight in kilograms; None where nobody said."""
        return None if self.body_weight_dg is None else Fraction(self.body_weight_dg, 10_000)

    @property
    def height_cm(self) -> Fraction | None:
        """Height in centimetres; None where nobody said."""
        return None if self.height_mm is None else Fraction(self.height_mm, 10)

    @property
    def size_known(self) -> bool:
        """Whether both weight and height were told."""
        return self.body_weight_dg is not None and self.height_mm is not None

    def age_years(self, on_day: date) -> int:
        """Completed years on a day: the age told and the years since, the day itself included.

        Who was 41 is 42 from the same day of the next year on. On a day before the telling the
        age is the one told.
        """
        told = Fraction(self.age_tenths, 10)
        return int(told + _years_between(self.age_on, max(self.age_on, on_day)))


def _years_between(first: date, last: date) -> Fraction:
    """Years from one day to a later one, the last of them in days of that year."""
    whole = relativedelta(last, first).years
    began, ends = (first + relativedelta(years=whole + more) for more in (0, 1))
    return whole + Fraction((last - began).days, (ends - began).days)
