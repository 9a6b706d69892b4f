"""Protein of children for a day, where the allowance of adults by body weight does not hold."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.person import ADULT_YEARS, Sex
from stockroom.domain.working import Source, Standing

CHILD_PROTEIN = Source(
    "dri-protein-children",
    "Scientific Report of the 2015 Dietary Guidelines Advisory Committee, Appendix E-3.1.A4:"
    " recommended dietary allowance of protein from 1 year 13 g a day, from 4 years 19, from 9"
    " years 34, from 14 years 46 for girls and 52 for boys (secondary copy)",
    Standing.PUBLISHED,
)

_GRAMS = (
    (14, {Sex.FEMALE: 46, Sex.MALE: 52}),
    (9, {Sex.FEMALE: 34, Sex.MALE: 34}),
    (4, {Sex.FEMALE: 19, Sex.MALE: 19}),
    (1, {Sex.FEMALE: 13, Sex.MALE: 13}),
)
"""`CHILD_PROTEIN`: from which birthday on, and grams a day; the oldest first."""


def child_protein_g(sex: Sex, age_years: Fraction | int) -> Fraction:
    """Grams of protein a day, from the first birthday to the day before the nineteenth.

    ValueError outside of that.
    """
    for from_years, by_sex in _GRAMS:
        if from_years <= age_years < ADULT_YEARS:
            return Fraction(by_sex[sex])
    raise ValueError(f"no allowance of a child at {age_years} years")
