"""How a figure for energy and protein is reached, step by step, and what would change it."""

from __future__ import annotations

from dataclasses import replace

from stockroom.domain.energy import (
    PROTEIN_G_PER_KG,
    PROTEIN_KCAL_PER_G,
    PROTEIN_SHARES,
    EnergyNeed,
    NoEnergyFigure,
    energy_need,
    protein_weight_kg,
)
from stockroom.domain.energy_equations import Edition
from stockroom.domain.energy_remarks import NO_CHILD_PROTEIN, remarks
from stockroom.domain.energy_sources import (
    ENERGY_TABLE,
    MEANT_BY_LEVELS,
    PROTEIN_ENERGY,
    PROTEIN_PER_KG,
    PROTEIN_SHARE,
    REFERENCE_PEOPLE,
    SAME_LEVELS,
)
from stockroom.domain.energy_steps import equation_steps, kcal_words, years_words
from stockroom.domain.energy_table import COLUMNS, WALKING, row_for
from stockroom.domain.person import Activity, Person
from stockroom.domain.working import Given, Standing, Trace, Working

_LATER_YEARS = 10
_MORE_KG = 5


def energy_working(person: Person, edition: Edition | None = None) -> Working:
    """The derivation of a figure; refuses what `energy_need` refuses."""
    need = energy_need(person, edition)
    trace = Trace("Energy for a day")
    energy = _table_step(trace, need) if need.edition is None else equation_steps(trace, need)
    if need.spread_kcal is not None and need.edition is not None:
        trace.note(
            "standard deviation from person to person",
            f"{need.spread_kcal} kcal/day",
            source=need.edition.spread_source,
        )
    _protein_steps(trace, need, energy)
    trace.note("what would change it", kcal_words(need.kcal_per_day), *_variants(need))
    trace.conclude(f"{float(need.kcal_per_day):.0f} kcal a day ({need.source.standing.words})")
    for text in remarks(need):
        trace.caution(text)
    return trace.finish()


def _table_step(trace: Trace, need: EnergyNeed) -> Given:
    """The row and the column of the table."""
    person = need.person
    _, heading = COLUMNS[person.activity]
    trace.note(
        "column of the table",
        heading,
        Given("activity", person.activity.value),
        Given("which is", WALKING[person.activity], MEANT_BY_LEVELS),
        source=SAME_LEVELS,
    )
    return trace.note(
        "energy",
        kcal_words(need.kcal_per_day),
        Given("sex", person.words),
        Given("age", years_words(person.age_years)),
        Given("row of the table", f"{row_for(person.sex, person.age_years).ages} years"),
        source=ENERGY_TABLE,
    )


def _protein_steps(trace: Trace, need: EnergyNeed, energy: Given) -> None:
    """The allowance by weight and the range by energy; a child has neither."""
    if need.protein is None:
        trace.note("protein", NO_CHILD_PROTEIN)
        return
    own = need.person.weight_kg is not None
    weight = Given(
        "weight" if own else f"weight of the reference {need.person.words}",
        f"{float(protein_weight_kg(need.person)):.4g} kg",
        None if own else REFERENCE_PEOPLE,
    )
    trace.step(
        "protein, recommended allowance",
        "{per_kg} x {weight}",
        f"{float(need.protein.allowance_g):.1f} g/day",
        per_kg=Given("protein per kilogram", f"{float(PROTEIN_G_PER_KG):g} g/kg", PROTEIN_PER_KG),
        weight=weight,
    )
    ends = (need.protein.low_g, need.protein.high_g)
    for name, share, grams in zip(("least", "most"), PROTEIN_SHARES, ends, strict=True):
        trace.step(
            f"protein, {name} of the acceptable range",
            "{energy} x {share} / {per_g}",
            f"{float(grams):.1f} g/day",
            energy=energy,
            share=Given(f"{name} share of energy", f"{float(share):.2f}", PROTEIN_SHARE),
            per_g=Given("energy of protein", f"{PROTEIN_KCAL_PER_G} kcal/g", PROTEIN_ENERGY),
        )


def _variants(need: EnergyNeed) -> list[Given]:
    """The figure for a neighbouring question: age, activity, weight, edition."""
    person = need.person
    later = _LATER_YEARS if person.adult else 1
    asked = [
        (f"{later} years older" if person.adult else "a year older",
         replace(person, age_years=person.age_years + later), need.edition),
        *(
            (f"when {level.words}", replace(person, activity=level), need.edition)
            for level in Activity
            if level is not person.activity
        ),
    ]  # fmt: skip
    if need.edition is not None and person.weight_kg is not None:
        other = Edition.NEW if need.edition is Edition.OLD else Edition.OLD
        heavier = replace(person, weight_kg=person.weight_kg + _MORE_KG)
        asked.append((f"{_MORE_KG} kg heavier", heavier, need.edition))
        asked.append((f"by the equation of {other}", person, other))
        asked.append(
            ("by the table, for the reference person",
             replace(person, weight_kg=None, height_cm=None), None)
        )  # fmt: skip
    return [one for name, who, by in asked if (one := _variant(name, who, by)) is not None]


def _variant(name: str, person: Person, edition: Edition | None) -> Given | None:
    """One neighbouring figure; None where there is none."""
    try:
        found = energy_need(person, edition)
    except NoEnergyFigure:
        return None
    standing = found.source.standing
    if standing is Standing.PUBLISHED and edition is not None:
        standing = Standing.COMPUTED
    return Given(name, kcal_words(found.kcal_per_day), found.source, standing)
