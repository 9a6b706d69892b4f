"""The equations for energy written out: what goes in, the formula in words and in figures."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.energy import USUAL_BMI, EnergyNeed, body_mass_index
from stockroom.domain.energy_equations import (
    COEFFICIENTS_2005,
    EQUATIONS_2005,
    EQUATIONS_2023,
    Edition,
)
from stockroom.domain.energy_sources import (
    ACTIVITY_2005,
    EER_2005,
    EER_2023,
    LEVELS_2005,
    LEVELS_2023,
    MEANT_BY_LEVELS,
    WEIGHT_RANGE_2005,
)
from stockroom.domain.energy_table import WALKING
from stockroom.domain.person import Activity, Person, Sex
from stockroom.domain.working import Given, Source, Trace

LEVEL_WORDS = {
    Edition.OLD: {
        Activity.SEDENTARY: "sedentary: physical activity level 1 to 1.4",
        Activity.LOW: "low active: physical activity level 1.4 to 1.6",
        Activity.ACTIVE: "active: physical activity level 1.6 to 1.9",
        Activity.VERY: "very active: physical activity level 1.9 to 2.5",
    },
    Edition.NEW: {
        Activity.SEDENTARY: "inactive: physical activity level 1 to 1.53",
        Activity.LOW: "low active: physical activity level 1.53 to 1.68",
        Activity.ACTIVE: "active: physical activity level 1.68 to 1.85",
        Activity.VERY: "very active: physical activity level 1.85 to 2.5",
    },
}
"""`LEVELS_2005` and `LEVELS_2023`; the upper end is the lower end of the next."""


def equation_steps(trace: Trace, need: EnergyNeed) -> Given:
    """Write the steps of the equation used and return the energy; ValueError by the table."""
    person = need.person
    if need.edition is None or person.weight_kg is None or person.height_cm is None:
        raise ValueError("the table has no equation")
    trace.note(
        "activity",
        LEVEL_WORDS[need.edition][person.activity],
        Given("activity", person.activity.value),
        *_as_walking(need),
        source=LEVELS_2005 if need.edition is Edition.OLD else LEVELS_2023,
    )
    if need.edition is Edition.NEW:
        return _new_equation(trace, need, person.weight_kg, person.height_cm)
    return _old_equation(trace, need, person.weight_kg, person.height_cm)


def _as_walking(need: EnergyNeed) -> tuple[Given, ...]:
    """The level as the Dietary Guidelines put it; the levels of 2023 are others."""
    if need.edition is Edition.NEW:
        return ()
    return (Given("which is", WALKING[need.person.activity], MEANT_BY_LEVELS),)


def _old_equation(
    trace: Trace, need: EnergyNeed, weight_kg: Fraction, height_cm: Fraction
) -> Given:
    """The equation of 2005, and whether the body mass index is one it was made for."""
    person = need.person
    found = EQUATIONS_2005[person.sex]
    weight = Given("weight", f"{_shown(weight_kg)} kg")
    height = trace.step(
        "height in metres",
        "{height} / 100",
        f"{_shown(height_cm / 100)} m",
        height=Given("height", f"{_shown(height_cm)} cm"),
    )
    energy = trace.step(
        "energy",
        "{constant} - {per_year} x {age} + {activity} x ({per_kg} x {weight} + {per_m} x {height})",
        kcal_words(need.kcal_per_day),
        sources=(EER_2005,),
        constant=_of_equation("constant", found.constant, "kcal", EER_2005, person),
        per_year=_of_equation("kcal per year", found.per_year, "kcal", EER_2005, person),
        age=Given("age", years_words(person.age_years)),
        activity=_coefficient(person),
        per_kg=_of_equation("kcal per kg", found.per_kg, "kcal/kg", EER_2005, person),
        weight=weight,
        per_m=_of_equation("kcal per m", found.per_m, "kcal/m", EER_2005, person),
        height=height,
    )
    low, high = (f"{float(end):g}" for end in USUAL_BMI)
    trace.step(
        "body mass index",
        "{weight} / {height}^2",
        f"{float(body_mass_index(weight_kg, height_cm)):.1f} kg/m²",
        weight=weight,
        height=height,
    )
    trace.note("body mass index the equation is for", f"{low} to {high}", source=WEIGHT_RANGE_2005)
    return energy


def _new_equation(
    trace: Trace, need: EnergyNeed, weight_kg: Fraction, height_cm: Fraction
) -> Given:
    """The equation of 2023 for the person's level of activity."""
    person = need.person
    found = EQUATIONS_2023[person.sex][person.activity]
    return trace.step(
        "energy",
        "{constant} - {per_year} x {age} + {per_cm} x {height} + {per_kg} x {weight}",
        kcal_words(need.kcal_per_day),
        sources=(EER_2023,),
        constant=_of_equation("constant", found.constant, "kcal", EER_2023, person),
        per_year=_of_equation("kcal per year", found.per_year, "kcal", EER_2023, person),
        age=Given("age", years_words(person.age_years)),
        per_cm=_of_equation("kcal per cm", found.per_cm, "kcal/cm", EER_2023, person),
        height=Given("height", f"{_shown(height_cm)} cm"),
        per_kg=_of_equation("kcal per kg", found.per_kg, "kcal/kg", EER_2023, person),
        weight=Given("weight", f"{_shown(weight_kg)} kg"),
    )


def _of_equation(name: str, value: Fraction, unit: str, source: Source, person: Person) -> Given:
    """A printed constant of the equation for this sex."""
    of_whom = "men" if person.sex is Sex.MALE else "women"
    return Given(f"{of_whom}'s {name}", f"{float(value):g} {unit}", source)


def _coefficient(person: Person) -> Given:
    """The activity coefficient of this sex and level."""
    of_whom = "men" if person.sex is Sex.MALE else "women"
    value = COEFFICIENTS_2005[person.sex][person.activity]
    return Given(f"{of_whom}'s activity coefficient", f"{float(value):g}", ACTIVITY_2005)


def kcal_words(kcal: Fraction) -> str:
    """Kilocalories a day; one decimal where needed, so that they can be worked out again."""
    digits = 0 if kcal.denominator == 1 else 1
    return f"{float(kcal):.{digits}f} kcal/day"


def years_words(age_years: Fraction) -> str:
    """An age without needless digits."""
    return f"{float(age_years):g} years"


def _shown(value: Fraction) -> str:
    """A size without needless digits."""
    return f"{float(value):.6g}"
