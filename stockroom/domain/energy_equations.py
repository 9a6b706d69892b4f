"""Estimated energy requirement of adults, kcal a day, by the two editions there are.

Edition 2005 (Institute of Medicine, 2002/2005; published): height in metres, and the activity
as a coefficient that differs between men and women. One printed footnote gives the women's
coefficients for everybody; a man reckoned with those comes out 19 kcal too high at 1.80 m, low
active, and the table he stands in shows it.

Edition 2023 (National Academies; from memory, confirm before showing as a limit): height in
centimetres, and an equation of its own for each level of activity.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.energy_sources import EER_2005, EER_2023, SPREAD_2005, SPREAD_2023
from stockroom.domain.person import Activity, Sex
from stockroom.domain.working import Source


class Edition(StrEnum):
    """The report an equation is from."""

    OLD = "2005"
    NEW = "2023"

    @property
    def source(self) -> Source:
        """Where its coefficients stand."""
        return EER_2005 if self is Edition.OLD else EER_2023

    @property
    def spread_source(self) -> Source:
        """Where the spread between people stands."""
        return SPREAD_2005 if self is Edition.OLD else SPREAD_2023


@dataclass(frozen=True, slots=True)
class Equation2005:
    """constant - per_year x age + activity x (per_kg x weight + per_m x height)."""

    constant: Fraction
    per_year: Fraction
    per_kg: Fraction
    per_m: Fraction
    """Kilocalories for each metre of height."""

    def kcal(
        self, age_years: Fraction, weight_kg: Fraction, height_cm: Fraction, coefficient: Fraction
    ) -> Fraction:
        """Kilocalories a day; `coefficient` is that of the person's sex and activity."""
        size = self.per_kg * weight_kg + self.per_m * height_cm / 100
        return self.constant - self.per_year * age_years + coefficient * size


@dataclass(frozen=True, slots=True)
class Equation2023:
    """constant - per_year x age + per_cm x height + per_kg x weight."""

    constant: Fraction
    per_year: Fraction
    per_cm: Fraction
    """Kilocalories for each centimetre of height."""
    per_kg: Fraction

    def kcal(self, age_years: Fraction, weight_kg: Fraction, height_cm: Fraction) -> Fraction:
        """Kilocalories a day."""
        size = self.per_cm * height_cm + self.per_kg * weight_kg
        return self.constant - self.per_year * age_years + size


def _old(constant: str, per_year: str, per_kg: str, per_m: str) -> Equation2005:
    """An equation of 2005, from its printed digits."""
    return Equation2005(Fraction(constant), Fraction(per_year), Fraction(per_kg), Fraction(per_m))


def _levels(*coefficients: str) -> dict[Activity, Fraction]:
    """The four coefficients by level, the least activity first."""
    return dict(zip(Activity, map(Fraction, coefficients), strict=True))


def _new(per_year: str, *levels: tuple[str, str, str]) -> dict[Activity, Equation2023]:
    """The four equations of 2023 by level: constant, per centimetre, per kilogram."""
    found: dict[Activity, Equation2023] = {}
    for activity, (constant, per_cm, per_kg) in zip(Activity, levels, strict=True):
        found[activity] = Equation2023(
            Fraction(constant), Fraction(per_year), Fraction(per_cm), Fraction(per_kg)
        )
    return found


EQUATIONS_2005 = {
    Sex.MALE: _old("662", "9.53", "15.91", "539.6"),
    Sex.FEMALE: _old("354", "6.91", "9.36", "726"),
}
"""`EER_2005`: published."""

COEFFICIENTS_2005 = {
    Sex.MALE: _levels("1", "1.11", "1.25", "1.48"),
    Sex.FEMALE: _levels("1", "1.12", "1.27", "1.45"),
}
"""`ACTIVITY_2005`: published; not those of women for everybody."""

EQUATIONS_2023 = {
    Sex.MALE: _new(
        "10.83",
        ("753.07", "6.50", "14.10"),
        ("581.47", "8.30", "14.94"),
        ("1004.82", "6.52", "15.91"),
        ("-517.88", "15.61", "19.11"),
    ),
    Sex.FEMALE: _new(
        "7.01",
        ("584.90", "5.72", "11.71"),
        ("575.77", "6.60", "12.14"),
        ("710.25", "6.54", "12.34"),
        ("511.83", "9.07", "12.56"),
    ),
}
"""`EER_2023`: from memory; sedentary is what that report calls inactive."""

SPREAD_KCAL = {
    Edition.OLD: {Sex.MALE: 199, Sex.FEMALE: 162},
    Edition.NEW: {Sex.MALE: 339, Sex.FEMALE: 246},
}
"""`SPREAD_2005` (from memory) and `SPREAD_2023`: one standard deviation between people."""


def estimated_kcal(
    edition: Edition,
    sex: Sex,
    activity: Activity,
    age_years: Fraction,
    weight_kg: Fraction,
    height_cm: Fraction,
) -> Fraction:
    """Kilocalories a day of an adult, exactly as the equation gives them."""
    if edition is Edition.OLD:
        coefficient = COEFFICIENTS_2005[sex][activity]
        return EQUATIONS_2005[sex].kcal(age_years, weight_kg, height_cm, coefficient)
    return EQUATIONS_2023[sex][activity].kcal(age_years, weight_kg, height_cm)
