"""Recipes for so many people: what to take off the shelf, and how much water to add.

Water to bring dried food back is counted apart from the water a recipe cooks in. All amounts are
whole tenths of a gram or exact fractions. Full restoration is an upper bound: freeze-dried fruit
took back up to about 90 % of its water (Journal of Food Engineering 72(1):16-23, 2006, published).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.packing import ServingMissing
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.rotation import Allocation, Candidate, Pick, allocate_dry, allocate_fresh
from stockroom.errors import Refused


class Basis(StrEnum):
    """How a recipe counts a stored food: as it was before drying, dry, or in servings."""

    FRESH = "fresh"
    DRY = "dry"
    SERVINGS = "servings"


class NobodyToCookFor(Refused):
    """A recipe was asked for no people, or says it serves none."""

    def __init__(self, recipe: str, serves: int, people: int) -> None:
        """`recipe` is its name, `serves` its own number, `people` what was asked for."""
        super().__init__(
            f"{recipe} serves {serves} and was asked for {people}; both have to be 1 or more.",
            "Give a number of people of 1 or more, and the recipe a number it serves.",
        )


@dataclass(frozen=True, slots=True)
class StoredNeed:
    """A food from the shelf: tenths of a gram (fresh or dry), or servings.

    `serving_dg` is one serving of the food as eaten; a need in servings cannot do without it.
    """

    food_id: int
    food_name: str
    basis: Basis
    amount: int | Fraction
    serving_dg: int | None = None

    def __post_init__(self) -> None:
        if self.basis is Basis.SERVINGS and not (self.serving_dg and self.serving_dg > 0):
            raise ServingMissing()

    @property
    def wanted_dg(self) -> int:
        """Tenths of a gram wanted: dry for a dry need, fresh equivalent for the others."""
        if self.basis is Basis.SERVINGS:
            return nearest_whole(Fraction(self.amount) * (self.serving_dg or 0))
        return nearest_whole(Fraction(self.amount))


@dataclass(frozen=True, slots=True)
class FreshNeed:
    """Something that is not on the shelf: bought, picked, or in the kitchen anyway.

    `amount` is None for "some"; `unit` is the recipe's own word, or None for pieces.
    """

    item: str
    amount: Fraction | None
    unit: str | None


RecipeLine = StoredNeed | FreshNeed


@dataclass(frozen=True, slots=True)
class Recipe:
    """What a dish needs for the people it serves; `cooking_water_dg` is the pot's own water."""

    name: str
    serves: int
    cooking_water_dg: int
    lines: tuple[RecipeLine, ...]


@dataclass(frozen=True, slots=True)
class ScaledRecipe:
    """A recipe for another number of people, its lines in the recipe's order."""

    name: str
    people: int
    factor: Fraction
    cooking_water_dg: int
    lines: tuple[RecipeLine, ...]


@dataclass(frozen=True, slots=True)
class CookLine:
    """One stored food of a dish: the packages to take from, and the water for what is taken.

    `shortfall_dg` is what the shelf does not have: dry for a dry need, else fresh equivalent.
    """

    need: StoredNeed
    picks: tuple[Pick, ...]
    dry_dg: int
    water_dg: int
    shortfall_dg: int

    @property
    def shortfall_servings(self) -> Fraction | None:
        """The shortfall in servings, for a need in servings only."""
        if self.need.basis is not Basis.SERVINGS or not self.need.serving_dg:
            return None
        return Fraction(self.shortfall_dg, self.need.serving_dg)


@dataclass(frozen=True, slots=True)
class CookPlan:
    """Everything for a dish: stored foods with their picks, the waters, and what to buy.

    `water_dg` is the water to add to the dried food in all, the sum of the lines;
    `cooking_water_dg` comes on top of it.
    """

    name: str
    people: int
    lines: tuple[CookLine, ...]
    water_dg: int
    cooking_water_dg: int
    fresh: tuple[FreshNeed, ...]

    @property
    def short(self) -> tuple[CookLine, ...]:
        """The lines the shelf cannot cover."""
        return tuple(line for line in self.lines if line.shortfall_dg > 0)


def scale(recipe: Recipe, people: int) -> ScaledRecipe:
    """The recipe for so many people.

    Servings and fresh items scale exactly; weights scale exactly and then go to the nearest tenth
    of a gram. Refuses fewer than one person.
    """
    if people < 1 or recipe.serves < 1:
        raise NobodyToCookFor(recipe.name, recipe.serves, people)
    factor = Fraction(people, recipe.serves)
    return ScaledRecipe(
        recipe.name,
        people,
        factor,
        nearest_whole(recipe.cooking_water_dg * factor),
        tuple(_scaled_line(line, factor) for line in recipe.lines),
    )


def cook_plan(
    scaled: ScaledRecipe, candidates_by_food: Mapping[int, Sequence[Candidate]]
) -> CookPlan:
    """Picks and water for each stored food, first in first out.

    When two lines want the same food, the second finds what the first left.
    """
    shelf = {food_id: tuple(packages) for food_id, packages in candidates_by_food.items()}
    lines: list[CookLine] = []
    for need in scaled.lines:
        if isinstance(need, FreshNeed):
            continue
        packages = shelf.get(need.food_id, ())
        found = _allocate(need, packages)
        shelf[need.food_id] = _after(packages, found.picks)
        lines.append(CookLine(need, found.picks, found.dry_dg, found.water_dg, found.shortfall_dg))
    return CookPlan(
        scaled.name,
        scaled.people,
        tuple(lines),
        sum(line.water_dg for line in lines),
        scaled.cooking_water_dg,
        tuple(line for line in scaled.lines if isinstance(line, FreshNeed)),
    )


def _scaled_line(line: RecipeLine, factor: Fraction) -> RecipeLine:
    """One line times the factor."""
    if isinstance(line, FreshNeed):
        return line if line.amount is None else replace(line, amount=line.amount * factor)
    if line.basis is Basis.SERVINGS:
        return replace(line, amount=line.amount * factor)
    return replace(line, amount=nearest_whole(line.amount * factor))


def _allocate(need: StoredNeed, packages: Sequence[Candidate]) -> Allocation:
    """The packages for one need, in the way the need counts."""
    if need.basis is Basis.DRY:
        return allocate_dry(packages, need.wanted_dg)
    return allocate_fresh(packages, need.wanted_dg)


def _after(packages: Sequence[Candidate], picks: Sequence[Pick]) -> tuple[Candidate, ...]:
    """The packages as they stand once the picks are taken out."""
    taken = {pick.candidate.package_id: pick for pick in picks}
    return tuple(
        package.after(taken[package.package_id]) if package.package_id in taken else package
        for package in packages
    )
