"""What a person needs in a day: energy, and the protein that goes with it.

An adult of known size is reckoned by an equation; anybody else by the table of the Dietary
Guidelines, which knows children from two years and the reference man and woman. The 2005 equation
is the one used unless the other is asked for: its coefficients are published, those of 2023 are
from memory and so never more than a figure to compare with.

All of it is for planning a store. It is no advice on what anybody should eat.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.energy_equations import SPREAD_KCAL, Edition, estimated_kcal
from stockroom.domain.energy_sources import ENERGY_TABLE
from stockroom.domain.energy_table import (
    REFERENCE_WEIGHT_KG,
    TABLE_EDITION,
    YOUNGEST_YEARS,
    table_kcal,
)
from stockroom.domain.person import ADULT_YEARS, Person
from stockroom.domain.working import Source
from stockroom.errors import Refused

OLDEST_YEARS = 120
ADULT_KG = (30, 250)
ADULT_CM = (120, 230)
CHILD_KG = (5, 250)
CHILD_CM = (50, 230)
"""`BELIEVED_SIZES`: engineering judgement, both ends included."""

USUAL_BMI = (Fraction(37, 2), Fraction(25))
"""`WEIGHT_RANGE_2005`: kilograms for each square metre of height squared."""

PROTEIN_G_PER_KG = Fraction(8, 10)
"""`PROTEIN_PER_KG`."""
PROTEIN_SHARES = (Fraction(10, 100), Fraction(35, 100))
"""`PROTEIN_SHARE`."""
PROTEIN_KCAL_PER_G = 4
"""`PROTEIN_ENERGY`."""


class NoEnergyFigure(Refused):
    """No equation and no row of the table is for this."""

    def __init__(self, what: str, hint: str) -> None:
        """`what` there is no figure for, and what can be had instead."""
        super().__init__(f"There is no energy figure for {what}.", hint)
        self.what = what


@dataclass(frozen=True, slots=True)
class Protein:
    """Grams of protein a day for an adult: the allowance, and the range by share of energy."""

    allowance_g: Fraction
    low_g: Fraction
    high_g: Fraction


@dataclass(frozen=True, slots=True)
class EnergyNeed:
    """What a person needs in a day, by which figures."""

    person: Person
    kcal_per_day: Fraction
    edition: Edition | None
    """None: by the table."""
    protein: Protein | None
    """None for a child: no figure is at hand."""

    @property
    def source(self) -> Source:
        """Where the figure is from; its standing is that of the figure."""
        return ENERGY_TABLE if self.edition is None else self.edition.source

    @property
    def edition_words(self) -> str:
        """The edition of the equation or of the table."""
        return TABLE_EDITION if self.edition is None else self.edition.value

    @property
    def spread_kcal(self) -> int | None:
        """One standard deviation from person to person; None where only the table is used."""
        return None if self.edition is None else SPREAD_KCAL[self.edition][self.person.sex]


def energy_need(person: Person, edition: Edition | None = None) -> EnergyNeed:
    """Energy and protein of a day; `edition` None is 2005 for an adult of known size.

    Raises NoEnergyFigure below two years, for sizes that are not believed, for a weight without
    a height or the reverse, and for an edition asked for where only the table has a figure.
    """
    _refuse_unfit(person, edition)
    weight_kg, height_cm = person.weight_kg, person.height_cm
    if not person.adult or weight_kg is None or height_cm is None:
        kcal, by = Fraction(table_kcal(person)), None
    else:
        by = edition or Edition.OLD
        kcal = estimated_kcal(
            by, person.sex, person.activity, person.age_years, weight_kg, height_cm
        )
    return EnergyNeed(person, kcal, by, _protein(person, kcal))


def protein(weight_kg: Fraction, kcal_per_day: Fraction | int) -> Protein:
    """Protein of an adult of that weight who eats so much."""
    low, high = PROTEIN_SHARES
    return Protein(
        PROTEIN_G_PER_KG * weight_kg,
        low * kcal_per_day / PROTEIN_KCAL_PER_G,
        high * kcal_per_day / PROTEIN_KCAL_PER_G,
    )


def protein_weight_kg(person: Person) -> Fraction:
    """The weight an adult's protein goes by: their own, else that of the reference person."""
    own = person.weight_kg
    return REFERENCE_WEIGHT_KG[person.sex] if own is None else own


def body_mass_index(weight_kg: Fraction, height_cm: Fraction) -> Fraction:
    """Kilograms over the square of the height in metres."""
    return weight_kg / (height_cm / 100) ** 2


def unusual_bmi(need: EnergyNeed) -> Fraction | None:
    """The body mass index, where it is outside what the 2005 equation was made from."""
    weight_kg, height_cm = need.person.weight_kg, need.person.height_cm
    if need.edition is not Edition.OLD or weight_kg is None or height_cm is None:
        return None
    found = body_mass_index(weight_kg, height_cm)
    return None if USUAL_BMI[0] <= found <= USUAL_BMI[1] else found


def _protein(person: Person, kcal: Fraction) -> Protein | None:
    """The protein of an adult; none for a child."""
    return protein(protein_weight_kg(person), kcal) if person.adult else None


def _refuse_unfit(person: Person, edition: Edition | None) -> None:
    """Refuse an age, a size or an edition there is no figure for."""
    _refuse_age(person.age_years)
    weight_kg, height_cm = person.weight_kg, person.height_cm
    if (weight_kg is None) is not (height_cm is None):
        given, missing = ("height", "weight") if weight_kg is None else ("weight", "height")
        raise NoEnergyFigure(
            f"a {given} without a {missing}", "Give both, or neither for the figure of the table."
        )
    _refuse_size("a body weight", weight_kg, ADULT_KG if person.adult else CHILD_KG, "kg")
    _refuse_size("a height", height_cm, ADULT_CM if person.adult else CHILD_CM, "cm")
    if edition is None:
        return
    if not person.adult:
        raise NoEnergyFigure(
            f"{_years(person.age_years)} in the {edition} edition",
            f"That one begins at {ADULT_YEARS} years here; leave the edition out for the table.",
        )
    if weight_kg is None:
        raise NoEnergyFigure(
            f"a person without weight and height in the {edition} edition",
            "Give weight and height, or leave the edition out for the table.",
        )


def _refuse_age(age_years: Fraction) -> None:
    """Refuse an age before the table, and one nobody reaches."""
    if age_years < YOUNGEST_YEARS:
        raise NoEnergyFigure(
            _years(age_years),
            f"The figures begin at {YOUNGEST_YEARS} years; ask a doctor or midwife what a smaller"
            " child needs.",
        )
    if age_years > OLDEST_YEARS:
        raise NoEnergyFigure(
            _years(age_years), f"Give an age from {YOUNGEST_YEARS} to {OLDEST_YEARS} years."
        )


def _refuse_size(what: str, size: Fraction | None, believed: tuple[int, int], unit: str) -> None:
    """Refuse a weight or height that is taken for a slip of the finger."""
    low, high = believed
    if size is not None and not low <= size <= high:
        raise NoEnergyFigure(
            f"{what} of {float(size):g} {unit}",
            f"Give {low} to {high} {unit}, or neither weight nor height for the figure of the"
            " table.",
        )


def _years(age_years: Fraction) -> str:
    """An age in words."""
    return f"an age of {float(age_years):g} {'year' if age_years == 1 else 'years'}"
