"""Energy and protein of a person for a day, without a store."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.energy import EnergyNeed, body_mass_index
from stockroom.domain.energy_equations import Edition
from stockroom.domain.energy_remarks import remarks
from stockroom.domain.energy_sources import (
    PROTEIN_ENERGY,
    PROTEIN_PER_KG,
    PROTEIN_SHARE,
    REFERENCE_PEOPLE,
)
from stockroom.domain.energy_table import WALKING
from stockroom.domain.working import Source
from stockroom.reports.values import (
    COUNT,
    TEXT,
    Field,
    Fields,
    Prose,
    Report,
    decimal_kind,
    document,
)

_WHOLE, _TENTH = decimal_kind(0), decimal_kind(1)


def energy_result(need: EnergyNeed) -> Report:
    """What a person needs in a day, by which figures and how far they can be trusted."""
    return document(
        "Energy for a day",
        (
            Fields((*_who(need), *_energy(need), *_protein(need))),
            Prose("remarks", remarks(need), "Bear in mind", "- "),
            Prose("", tuple(f"{one.words}." for one in _sources(need))),
        ),
    )


def _who(need: EnergyNeed) -> tuple[Field, ...]:
    """Whose need it is."""
    person = need.person
    return (
        Field("", TEXT, person.words, "person", f", {float(person.age_years):g} years"),
        Field("sex", TEXT, person.sex.value),
        Field("age_years", _WHOLE, person.age_years),
        Field("weight_kg", _TENTH, person.weight_kg, "weight", _used(need, " kg")),
        Field("height_cm", _TENTH, person.height_cm, "height", _used(need, " cm")),
        Field("activity", TEXT, person.activity.value, "activity", _walking(need)),
    )


def _walking(need: EnergyNeed) -> str:
    """What the level means; the levels of 2023 are others."""
    return "" if need.edition is Edition.NEW else f": {WALKING[need.person.activity]}"


def _used(need: EnergyNeed, unit: str) -> str:
    """The unit of a size, and that it is not used where the table alone speaks."""
    return unit if need.edition is not None else f"{unit}, not used"


def _energy(need: EnergyNeed) -> tuple[Field, ...]:
    """The energy with its standing, and the spread from person to person."""
    standing = need.source.standing.words
    kind = "table" if need.edition is None else "equation"
    spread_standing = "" if need.edition is None else need.edition.spread_source.standing.words
    return (
        Field("kcal_per_day", _WHOLE, need.kcal_per_day, "energy", f" kcal a day ({standing})"),
        Field("", TEXT, kind, "figures", f", edition {need.edition_words}"),
        Field("basis", TEXT, kind),
        Field("edition", TEXT, need.edition_words),
        Field("standing", TEXT, standing),
        Field(
            "spread_kcal", COUNT, need.spread_kcal, "give or take",
            f" kcal from person to person, one standard deviation ({spread_standing})",
        ),
        Field("body_mass_index", _TENTH, _bmi(need), "body mass index", " kg/m²"),
    )  # fmt: skip


def _bmi(need: EnergyNeed) -> Fraction | None:
    """The body mass index of an adult of known size."""
    weight_kg, height_cm = need.person.weight_kg, need.person.height_cm
    if not need.person.adult or weight_kg is None or height_cm is None:
        return None
    return body_mass_index(weight_kg, height_cm)


def _protein(need: EnergyNeed) -> tuple[Field, ...]:
    """The protein of an adult."""
    found = need.protein
    allowance = None if found is None else found.allowance_g
    low = None if found is None else found.low_g
    high = None if found is None else found.high_g
    return (
        Field(
            "protein_g", _WHOLE, allowance, "protein", " g a day, 0.8 g for a kilogram",
            missing="no figure at hand for a child",
        ),
        Field("protein_low_g", _WHOLE, low, "between", " g"),
        Field("protein_high_g", _WHOLE, high, "and", " g, 10 to 35 % of the energy"),
    )  # fmt: skip


def _sources(need: EnergyNeed) -> tuple[Source, ...]:
    """The publications behind the figures shown."""
    found = [need.source]
    if need.edition is not None:
        found.append(need.edition.spread_source)
    elif need.person.adult:
        found.append(REFERENCE_PEOPLE)
    if need.protein is not None:
        found += [PROTEIN_PER_KG, PROTEIN_SHARE, PROTEIN_ENERGY]
    return tuple(found)
