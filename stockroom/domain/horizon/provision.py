"""How many days the shelf would feed the household, and with how much water.

By energy and by protein, whichever ends first; what has no figures is counted apart, never as
nought. When the power is out, what stands in the freezer does not count, nor what is held there
to be dried again. For planning a store: no advice on what anybody should eat.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction
from math import floor

from stockroom.domain.energy import EnergyNeed
from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.stock import NONE, StockPackage
from stockroom.domain.planning_water import WaterStore, water_store

POWER_OUT_CAUTION = (
    "Food held in the freezer to be dried again is not dry: once it thaws it is fresh food, to be"
    " cooked and eaten at once or thrown away. Follow local codes and licensed guidance."
)


class LeftOut(StrEnum):
    """Why a package does not count."""

    PAST = "past its best-by (quality estimate, not safety)"
    FREEZER = "in the freezer while the power is out"
    HELD = "held to be dried again while the power is out"


@dataclass(frozen=True, slots=True)
class StoredFood:
    """A package with what all that is left in it gives; None where nobody knows."""

    package: StockPackage
    group: FoodGroup
    kcal: Fraction | None
    protein_g: Fraction | None
    rehydration_ml: Fraction
    """Water that all of it takes up."""
    in_freezer: bool = False
    held: bool = False


@dataclass(frozen=True, slots=True)
class Needs:
    """What the household eats in a day, all together, and for how many days it wants to store.

    ValueError for nobody, no energy, protein below nought or a target below nought.
    """

    people: int
    kcal_per_day: Fraction
    protein_g_per_day: Fraction
    target_days: int
    without_protein_figure: int = 0
    """People, children most of all, whose protein is in no figure at hand."""

    def __post_init__(self) -> None:
        if self.people < 1 or self.kcal_per_day <= 0:
            raise ValueError(f"{self.people} people with {self.kcal_per_day} kcal a day")
        if self.protein_g_per_day < 0 or self.target_days < 0:
            raise ValueError(f"{self.protein_g_per_day} g, {self.target_days} days")


def needs_of(people: Sequence[EnergyNeed], target_days: int) -> Needs:
    """The needs of a household from those of its members. ValueError for nobody."""
    proteins = [one.protein.allowance_g for one in people if one.protein is not None]
    return Needs(
        len(people),
        sum((one.kcal_per_day for one in people), NONE),
        sum(proteins, NONE),
        target_days,
        len(people) - len(proteins),
    )


@dataclass(frozen=True, slots=True)
class GroupStock:
    """What one food group gives."""

    group: FoodGroup
    packages: int
    servings: Fraction
    kcal: Fraction
    protein_g: Fraction


@dataclass(frozen=True, slots=True)
class Omitted:
    """Packages that do not count, for one reason."""

    why: LeftOut
    packages: int
    servings: Fraction


@dataclass(frozen=True, slots=True)
class Provision:
    """What the shelf gives against what the household needs; groups by energy, most first."""

    needs: Needs
    groups: tuple[GroupStock, ...]
    rehydration_ml: Fraction
    omitted: tuple[Omitted, ...]
    unknown_kcal_servings: Fraction
    """Servings that count as food, but whose energy nobody knows: left out of the energy."""
    unknown_protein_servings: Fraction

    @property
    def kcal(self) -> Fraction:
        """Energy of what counts, where known."""
        return sum((one.kcal for one in self.groups), NONE)

    @property
    def protein_g(self) -> Fraction:
        """Protein of what counts, where known."""
        return sum((one.protein_g for one in self.groups), NONE)

    @property
    def days_by_energy(self) -> Fraction:
        """Days it feeds all of them."""
        return self.kcal / self.needs.kcal_per_day

    @property
    def days_by_protein(self) -> Fraction | None:
        """Days its protein lasts; None where no need of protein is known."""
        need = self.needs.protein_g_per_day
        return self.protein_g / need if need else None

    @property
    def days(self) -> Fraction:
        """The shorter of the two."""
        by_protein = self.days_by_protein
        return self.days_by_energy if by_protein is None else min(self.days_by_energy, by_protein)

    @property
    def person_days_by_energy(self) -> Fraction:
        """Days of one average member of the household."""
        return self.days_by_energy * self.needs.people

    @property
    def person_days_by_protein(self) -> Fraction | None:
        """The same by protein."""
        by_protein = self.days_by_protein
        return None if by_protein is None else by_protein * self.needs.people

    @property
    def missing_kcal(self) -> Fraction:
        """Energy short of the target; nought where it is met."""
        return max(self.needs.target_days * self.needs.kcal_per_day - self.kcal, NONE)

    @property
    def missing_protein_g(self) -> Fraction:
        """Protein short of the target; nought where it is met."""
        return max(self.needs.target_days * self.needs.protein_g_per_day - self.protein_g, NONE)

    @property
    def target_met(self) -> bool:
        """Whether it lasts for the target."""
        return not self.missing_kcal and not self.missing_protein_g

    def water_for(self, days: int) -> WaterStore:
        """Water for so many days: for people, and for the food eaten in them, energy deciding.

        In as many days as the food lasts, or more, all of it is rehydrated. ValueError for days
        below nought.
        """
        lasts, people = self.days_by_energy, self.needs.people
        if not days:
            return water_store(people, 0)
        share = min(days / lasts, Fraction(1)) if lasts else Fraction(1)
        return water_store(people, days, self.rehydration_ml * share / (people * days))

    @property
    def water(self) -> WaterStore:
        """Water for the whole days the food lasts by its energy, to rehydrate what they eat."""
        return self.water_for(floor(self.days_by_energy))


def provision(
    stored: Iterable[StoredFood],
    needs: Needs,
    from_day: date,
    *,
    power_out: bool = False,
    past_too: bool = False,
) -> Provision:
    """What the shelf gives; what is best by `from_day` or earlier counts only if `past_too`."""
    counted: list[StoredFood] = []
    omitted: dict[LeftOut, list[StoredFood]] = {}
    for one in stored:
        why = _why_not(one, from_day, power_out, past_too)
        if why is None:
            counted.append(one)
        else:
            omitted.setdefault(why, []).append(one)
    return Provision(
        needs,
        _groups(counted),
        sum((one.rehydration_ml for one in counted), NONE),
        tuple(
            Omitted(why, len(omitted[why]), _servings(omitted[why]))
            for why in LeftOut
            if why in omitted
        ),
        _servings(one for one in counted if one.kcal is None),
        _servings(one for one in counted if one.protein_g is None),
    )


def _why_not(food: StoredFood, from_day: date, power_out: bool, past_too: bool) -> LeftOut | None:
    """Why a package does not count; None: it does."""
    if power_out and food.held:
        return LeftOut.HELD
    if power_out and food.in_freezer:
        return LeftOut.FREEZER
    if food.package.best_by <= from_day and not past_too:
        return LeftOut.PAST
    return None


def _groups(counted: Sequence[StoredFood]) -> tuple[GroupStock, ...]:
    """What each group gives, the most energy first."""
    by_group: dict[FoodGroup, list[StoredFood]] = {}
    for one in counted:
        by_group.setdefault(one.group, []).append(one)
    found = (
        GroupStock(
            group,
            len(some),
            _servings(some),
            sum((one.kcal for one in some if one.kcal is not None), NONE),
            sum((one.protein_g for one in some if one.protein_g is not None), NONE),
        )
        for group, some in by_group.items()
    )
    return tuple(sorted(found, key=lambda one: (-one.kcal, one.group)))


def _servings(some: Iterable[StoredFood]) -> Fraction:
    """Servings in all."""
    return sum((one.package.servings for one in some), NONE)
