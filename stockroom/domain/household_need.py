"""What the household needs in a day, and what its people must not or would rather not get.

Each person by their own figures; whoever is not listed counts as an average adult. Planning
figures for a store: no advice on what anybody should eat.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.domain.child_protein import CHILD_PROTEIN, child_protein_g
from stockroom.domain.energy import OLDEST_YEARS, PROTEIN_G_PER_KG, EnergyNeed, energy_need
from stockroom.domain.energy_remarks import (
    BY_AGE_ALONE,
    FOR_WHOM,
    NO_CHILD_PROTEIN,
    PEOPLE_DIFFER,
    remarks,
)
from stockroom.domain.energy_sources import PROTEIN_PER_KG
from stockroom.domain.energy_table import REFERENCE_WEIGHT_KG, people_kcal
from stockroom.domain.foods import Allergen
from stockroom.domain.member_records import Figures, Member
from stockroom.domain.person import Person
from stockroom.domain.working import Source, Standing

PLANNING_ONLY = "Planning figures for a store: no advice on what anybody should eat."

AVERAGE_ADULT = Source(
    "average-adult",
    "Who is not listed counts as an average adult: the middle of the reference man and woman of"
    " 36 to 40 years, moderately active, by the table of the Dietary Guidelines for Americans,"
    " 2020-2025",
    Standing.ENGINEERING_JUDGEMENT,
)
AVERAGE_KCAL = Fraction(people_kcal(1))
"""`AVERAGE_ADULT`: kilocalories a day."""
AVERAGE_WEIGHT_KG = sum(REFERENCE_WEIGHT_KG.values(), Fraction()) / len(REFERENCE_WEIGHT_KG)
"""`AVERAGE_ADULT`: the middle of 154 lb and 126 lb."""
AVERAGE_PROTEIN_G = PROTEIN_G_PER_KG * AVERAGE_WEIGHT_KG
"""`AVERAGE_ADULT`: grams a day, by `PROTEIN_PER_KG`."""

_SAID_OF_ALL = (FOR_WHOM, PEOPLE_DIFFER, BY_AGE_ALONE, NO_CHILD_PROTEIN)
"""Remarks that hold for everybody, or that the figures here answer."""


@dataclass(frozen=True, slots=True)
class MemberNeed:
    """One person's energy and protein for a day, as counted."""

    member: Member
    age_years: int
    need: EnergyNeed

    @property
    def kcal_per_day(self) -> Fraction:
        """Energy, exact."""
        return self.need.kcal_per_day

    @property
    def protein_g(self) -> Fraction:
        """Protein: an adult's allowance by weight, a child's by age."""
        if self.need.protein is not None:
            return self.need.protein.allowance_g
        return child_protein_g(self.member.sex, self.age_years)

    @property
    def protein_source(self) -> Source:
        """Where the protein figure is from."""
        return CHILD_PROTEIN if self.need.protein is None else PROTEIN_PER_KG

    @property
    def remarks(self) -> tuple[str, ...]:
        """What to bear in mind with this very figure, each under the name."""
        return tuple(
            f"{self.member.name}: {text[:1].lower()}{text[1:]}"
            for text in remarks(self.need)
            if text not in _SAID_OF_ALL
        )


@dataclass(frozen=True, slots=True)
class HouseholdNeed:
    """The need of all who eat from the stockroom for one day."""

    on_day: date
    members: tuple[MemberNeed, ...]
    people: int
    """The number of people the household has set."""

    @property
    def others(self) -> int:
        """People who are not listed; none when more are listed than the household has set."""
        return max(0, self.people - len(self.members))

    @property
    def counted(self) -> int:
        """How many people the need is for."""
        return len(self.members) + self.others

    @property
    def kcal_per_day(self) -> Fraction:
        """Energy of all for a day, exact."""
        return sum((one.kcal_per_day for one in self.members), self.others * AVERAGE_KCAL)

    @property
    def protein_g(self) -> Fraction:
        """Protein of all for a day, exact."""
        return sum((one.protein_g for one in self.members), self.others * AVERAGE_PROTEIN_G)

    @property
    def others_words(self) -> str:
        """How those who are not listed count; "" when there are none."""
        if not self.others:
            return ""
        who = (
            "1 more person is not listed and counts as an average adult"
            if self.others == 1
            else f"{self.others} more people are not listed and count as average adults"
        )
        return (
            f"{who}: {float(AVERAGE_KCAL):.0f} kcal and {float(AVERAGE_PROTEIN_G):.0f} g of"
            f" protein a day each ({AVERAGE_ADULT.standing.words})."
        )

    @property
    def more_than_set(self) -> str:
        """That more people are listed than the household has set; "" when it is not so."""
        if len(self.members) <= self.people:
            return ""
        return (
            f"{len(self.members)} people are listed and the household is set to {self.people}:"
            " those listed count."
        )


@dataclass(frozen=True, slots=True)
class AvoidedAllergen:
    """An allergen that somebody must not get."""

    allergen: Allergen
    who: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AvoidedFood:
    """A food that somebody would rather not eat."""

    food_id: int
    food: str
    who: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class EatersAvoid:
    """What some of the people must not get, and what they would rather not eat."""

    allergens: tuple[AvoidedAllergen, ...] = ()
    foods: tuple[AvoidedFood, ...] = ()

    def allergic_to(self, allergens: Iterable[Allergen]) -> tuple[AvoidedAllergen, ...]:
        """Those of the allergens in a dish that somebody must not get."""
        inside = frozenset(allergens)
        return tuple(one for one in self.allergens if one.allergen in inside)

    def disliked(self, food_ids: Iterable[int]) -> tuple[AvoidedFood, ...]:
        """Those of the foods in a dish that somebody would rather not eat."""
        inside = frozenset(food_ids)
        return tuple(one for one in self.foods if one.food_id in inside)


def person_on(member: Member, on_day: date) -> Person:
    """The person as reckoned on a day, with the size told; an age above 120 counts as 120."""
    years = min(member.age_years(on_day), OLDEST_YEARS)
    return Person(member.sex, Fraction(years), member.activity, member.weight_kg, member.height_cm)


def member_need(member: Member, on_day: date) -> MemberNeed:
    """A member's need on a day, by the figures chosen for them.

    By the table the reference person of that sex and age is meant, whatever size was told.
    Raises NoEnergyFigure where those figures have none.
    """
    person = reckoned_person(member, on_day)
    need = energy_need(person, member.figures.edition)
    return MemberNeed(member, int(person.age_years), need)


def reckoned_person(member: Member, on_day: date) -> Person:
    """The person the figures are asked for: without a size where the table speaks."""
    person = person_on(member, on_day)
    if member.figures is Figures.TABLE:
        return Person(person.sex, person.age_years, person.activity)
    return person


def usual_figures(person: Person) -> Figures:
    """The figures for who chose none: the equations of 2005 for an adult of known size."""
    known = person.weight_kg is not None and person.height_cm is not None
    return Figures.OLD if person.adult and known else Figures.TABLE


def need_of_household(members: Sequence[Member], people: int, on_day: date) -> HouseholdNeed:
    """The need of all for a day; `people` is the number the household has set."""
    return HouseholdNeed(on_day, tuple(member_need(one, on_day) for one in members), people)


def what_to_avoid(members: Sequence[Member]) -> EatersAvoid:
    """The allergens in the order of the law's list, the disliked foods by name; who beside each."""
    foods = {one.food_id: one.food for member in members for one in member.dislikes}
    return EatersAvoid(
        tuple(
            AvoidedAllergen(allergen, who)
            for allergen in Allergen
            if (who := tuple(one.name for one in members if allergen in one.allergens))
        ),
        tuple(
            AvoidedFood(food_id, food, _who_dislikes(members, food_id))
            for food_id, food in sorted(foods.items(), key=lambda one: one[1].casefold())
        ),
    )


def _who_dislikes(members: Sequence[Member], food_id: int) -> tuple[str, ...]:
    """The names of those who would rather not eat a food."""
    return tuple(
        member.name for member in members if any(one.food_id == food_id for one in member.dislikes)
    )
