"""What to bear in mind with a figure for energy: whom it is for and where it gets unsure."""

from __future__ import annotations

from stockroom.domain.energy import USUAL_BMI, EnergyNeed, unusual_bmi
from stockroom.domain.energy_equations import Edition
from stockroom.domain.person import Activity

FOR_WHOM = (
    "An estimate for planning a store: healthy people who keep their weight. It is not for"
    " pregnancy, nursing or illness; follow licensed guidance there."
)
PEOPLE_DIFFER = (
    "People of the same sex, age, size and activity differ by hundreds of kcal; what they ate"
    " before at a steady weight tells more."
)
FROM_MEMORY = (
    "The figures of the 2023 edition are from memory, not confirmed: to compare with, never a"
    " limit."
)
OTHER_LEVELS = (
    "The 2023 edition draws its levels otherwise: sedentary stands for its inactive, which"
    " reaches to a physical activity level of 1.53, the older sedentary to 1.4."
)
BY_AGE_ALONE = (
    "For a child the table goes by sex, age and activity: weight and height are not used."
)
NO_CHILD_PROTEIN = "For a child's protein no figure is at hand."
REFERENCE_PERSON = (
    "For a reference person of that age, to the nearest 200 kcal; weight and height give a figure"
    " of one's own."
)
NO_HIGHER = "The table goes no higher than active: more than 3 miles (4.8 km) of walking a day."


def remarks(need: EnergyNeed) -> tuple[str, ...]:
    """The sentences that belong beside a figure, the most particular first."""
    person = need.person
    said: list[str] = []
    if need.edition is Edition.NEW:
        said += [FROM_MEMORY, OTHER_LEVELS]
    if need.edition is None:
        said.append(REFERENCE_PERSON if person.adult else BY_AGE_ALONE)
        if person.activity is Activity.VERY:
            said.append(NO_HIGHER)
    if not person.adult:
        said.append(NO_CHILD_PROTEIN)
    said += [*_unusual(need), FOR_WHOM, PEOPLE_DIFFER]
    return tuple(said)


def _unusual(need: EnergyNeed) -> tuple[str, ...]:
    """What to say of a body mass index that the equation was not made for."""
    found = unusual_bmi(need)
    if found is None:
        return ()
    low, high = (f"{float(end):g}" for end in USUAL_BMI)
    return (
        f"The 2005 equation was made for a body mass index of {low} to {high}; this one is"
        f" {float(found):.1f}, so the figure is less sure.",
    )
