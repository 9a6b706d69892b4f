"""How the household's need for a day is reached: the sum first, then each person's own figure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from stockroom.domain.energy_remarks import FOR_WHOM, NO_CHILD_PROTEIN, PEOPLE_DIFFER
from stockroom.domain.energy_sources import PROTEIN_PER_KG
from stockroom.domain.energy_steps import kcal_words
from stockroom.domain.energy_working import energy_working
from stockroom.domain.household_need import (
    AVERAGE_ADULT,
    AVERAGE_KCAL,
    AVERAGE_PROTEIN_G,
    PLANNING_ONLY,
    HouseholdNeed,
    MemberNeed,
    reckoned_person,
)
from stockroom.domain.working import Given, Step, Trace, Working


def household_working(need: HouseholdNeed) -> tuple[Working, ...]:
    """The working of the total, and one for each person listed, in their order."""
    return (_total(need), *(member_working(one, need) for one in need.members))


def member_working(one: MemberNeed, need: HouseholdNeed) -> Working:
    """One person's figure, under their name; a child's protein is that of their age."""
    person = reckoned_person(one.member, need.on_day)
    found = energy_working(person, one.member.figures.edition)
    steps = found.steps
    if one.need.protein is None:
        kept = [step for step in steps if step.result != NO_CHILD_PROTEIN]
        protein = _child_protein(one)
        last = len(kept) - 1
        steps = (*kept[:last], protein, *kept[last:])
    return replace(
        found,
        title=f"Energy and protein of {one.member.name} for a day",
        steps=steps,
        cautions=tuple(text for text in found.cautions if text != NO_CHILD_PROTEIN),
    )


def _child_protein(one: MemberNeed) -> Step:
    """The step for a child's protein."""
    age = Given("age", f"{one.age_years} years")
    source = one.protein_source
    return Step("protein, recommended allowance", "", "", _grams(one.protein_g), (source,), (age,))


def _total(need: HouseholdNeed) -> Working:
    """Energy and protein of all, from the figure of each."""
    trace = Trace("Energy and protein of the household for a day")
    kcal = [_energy(trace, one) for one in need.members]
    protein = [_protein(trace, one) for one in need.members]
    if need.others:
        kcal.append(_others(trace, need, "energy", AVERAGE_KCAL, kcal_words))
        protein.append(_others(trace, need, "protein", AVERAGE_PROTEIN_G, _grams))
    for title, parts, result in (
        ("energy of all", kcal, kcal_words(need.kcal_per_day)),
        ("protein of all", protein, _grams(need.protein_g)),
    ):
        trace.total(title, parts, result)
    trace.conclude(
        f"{float(need.kcal_per_day):.0f} kcal and {float(need.protein_g):.0f} g of protein"
        f" for {need.counted} {'person' if need.counted == 1 else 'people'}"
    )
    for text in (need.others_words, need.more_than_set, PLANNING_ONLY, FOR_WHOM, PEOPLE_DIFFER):
        if text:
            trace.caution(text)
    return trace.finish()


def _energy(trace: Trace, one: MemberNeed) -> Given:
    """A person's energy as a part of the sum."""
    return trace.note(
        f"energy of {one.member.name}",
        kcal_words(one.kcal_per_day),
        Given("age", f"{one.age_years} years"),
        Given("figures", one.member.figures.words, one.need.source),
    )


def _protein(trace: Trace, one: MemberNeed) -> Given:
    """A person's protein as a part of the sum."""
    return trace.note(
        f"protein of {one.member.name}", _grams(one.protein_g), source=one.protein_source
    )


def _others(
    trace: Trace,
    need: HouseholdNeed,
    what: str,
    each: Fraction,
    show: Callable[[Fraction], str],
) -> Given:
    """What those who are not listed add to the sum."""
    average = Given(f"{what} of an average adult", show(each), AVERAGE_ADULT)
    sources = (PROTEIN_PER_KG,) if what == "protein" else ()
    return trace.step(
        f"{what} of those not listed",
        "{others} x {average}",
        show(need.others * each),
        sources=sources,
        others=Given("people not listed", str(need.others)),
        average=average,
    )


def _grams(grams: Fraction) -> str:
    """Protein of a day to a tenth of a gram."""
    return f"{float(grams):.1f} g/day"
