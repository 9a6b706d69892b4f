"""Recipes for so many people: what to take off the shelf, and how much water to add.

Water to bring dried food back is counted apart from the water a recipe cooks in. All amounts are
whole tenths of a gram or exact fractions. Full restoration is an upper bound: freeze-dried fruit
took back up to about 90 % of its water (Journal of Food Engineering 72(1):16-23, 2006, published).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.packing import ServingMissing
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.rotation import Allocation, Candidate, Pick, allocate_dry, allocate_fresh
from stockroom.domain.water_share import HOLD_BACK_PERCENT, WaterShare, share_water
from stockroom.errors import Refused


class Basis(StrEnum):
    """How a recipe counts a stored food: before drying, dry, in servings or household measures."""

    FRESH = "fresh"
    DRY = "dry"
    SERVINGS = "servings"
    MEASURE = "measure"


class Occasion(StrEnum):
    """What a dish is cooked as; an extra goes beside a main dish or between meals."""

    BREAKFAST = "breakfast"
    MAIN = "main"
    EXTRA = "extra"


class NobodyToCookFor(Refused):
    """A recipe was asked for no people, or says it serves none."""

    def __init__(self, recipe: str, serves: int, people: int | Fraction) -> None:
        """`recipe` is its name, `serves` its own number, `people` what was asked for."""
        super().__init__(
            f"{recipe} serves {serves} and was asked for {people}; both have to be 1 or more.",
            "Give a number of people of 1 or more, and the recipe a number it serves.",
        )


class MeasureMissing(Refused):
    """A food is counted in a household measure that nobody weighed."""

    def __init__(self, food: str, measure: str, known: Sequence[str] = ()) -> None:
        """`measure` is its name ("cup"), `known` are the food's measures on record."""
        others = f" On record for it: {', '.join(known)}." if known else ""
        super().__init__(
            f"“{measure}” of {food} has no weight on record.",
            f"Weigh one {measure} of it and record the weight, or count it in grams or servings."
            f"{others}",
        )


@dataclass(frozen=True, slots=True)
class Measure:
    """One household measure of a food, as the household weighed it, dry or fresh."""

    name: str
    basis: Basis
    """FRESH or DRY: how the food was when it was weighed."""
    weight_dg: int


@dataclass(frozen=True, slots=True)
class StoredNeed:
    """A food from the shelf: tenths of a gram (fresh or dry), servings or household measures.

    `serving_dg` is one serving of the food as eaten; a need in servings cannot do without it, nor
    one in measures without its measure. `hold_back_percent` is None where the dish's own counts.
    """

    food_id: int
    food_name: str
    basis: Basis
    amount: int | Fraction
    serving_dg: int | None = None
    measure: Measure | None = None
    hold_back_percent: int | None = None
    instead_of: str = ""
    """The food it stands in for; "" where the recipe itself names it."""

    def __post_init__(self) -> None:
        if self.basis is Basis.SERVINGS and not (self.serving_dg and self.serving_dg > 0):
            raise ServingMissing()
        if self.basis is Basis.MEASURE and self.measure is None:
            raise MeasureMissing(self.food_name, "measure")

    @property
    def counts_dry(self) -> bool:
        """Whether the need is for dry food; else it is for fresh equivalent."""
        if self.basis is Basis.MEASURE and self.measure is not None:
            return self.measure.basis is Basis.DRY
        return self.basis is Basis.DRY

    @property
    def unit_dg(self) -> int:
        """Tenths of a gram in one of what the need counts: a serving, a measure, or 1."""
        if self.basis is Basis.SERVINGS:
            return self.serving_dg or 0
        if self.basis is Basis.MEASURE and self.measure is not None:
            return self.measure.weight_dg
        return 1

    @property
    def wanted_dg(self) -> int:
        """Tenths of a gram wanted: dry where it counts dry, else fresh equivalent."""
        return nearest_whole(Fraction(self.amount) * self.unit_dg)


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
    hold_back_percent: int = HOLD_BACK_PERCENT


@dataclass(frozen=True, slots=True)
class ScaledRecipe:
    """A recipe for another number of people or servings, its lines in the recipe's order."""

    name: str
    people: int
    factor: Fraction
    cooking_water_dg: int
    lines: tuple[RecipeLine, ...]
    hold_back_percent: int = HOLD_BACK_PERCENT
    servings: Fraction | None = None
    """How many of what the recipe serves; None stands for as many as there are people."""


@dataclass(frozen=True, slots=True)
class CookLine:
    """One stored food of a dish: the packages to take from, and the water for what is taken.

    `shortfall_dg` is what the shelf does not have: dry for a dry need, else fresh equivalent.
    `hold_back_percent` is the share of its water to keep back at first.
    """

    need: StoredNeed
    picks: tuple[Pick, ...]
    dry_dg: int
    water_dg: int
    shortfall_dg: int
    hold_back_percent: int = HOLD_BACK_PERCENT

    @property
    def water(self) -> WaterShare:
        """Its water: to add at first, and to hold back."""
        return share_water(self.water_dg, self.hold_back_percent)

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
    servings: Fraction | None = None
    """How many of what the recipe serves; None stands for as many as there are people."""

    @property
    def short(self) -> tuple[CookLine, ...]:
        """The lines the shelf cannot cover."""
        return tuple(line for line in self.lines if line.shortfall_dg > 0)

    @property
    def water(self) -> WaterShare:
        """The water of all lines: to add at first, and to hold back, each the sum of theirs."""
        shares = [line.water for line in self.lines]
        return WaterShare(sum(one.now_dg for one in shares), sum(one.held_dg for one in shares))

    @property
    def picks(self) -> tuple[Pick, ...]:
        """What is taken, line by line; a package may stand there for two lines."""
        return tuple(pick for line in self.lines for pick in line.picks)

    @property
    def count(self) -> Fraction:
        """What the recipe is multiplied by, before it is divided by what it serves."""
        return Fraction(self.people) if self.servings is None else self.servings


def scale(recipe: Recipe, people: int, servings: Fraction | None = None) -> ScaledRecipe:
    """The recipe for so many people, or for so many of the servings it is written for.

    `servings`, where given, decide the amounts, and `people` are who eats. Servings, measures and
    fresh items scale exactly; weights scale exactly and then go to the nearest tenth of a gram.
    Refuses fewer than one person, and no servings.
    """
    count = Fraction(people) if servings is None else servings
    if people < 1 or recipe.serves < 1 or count <= 0:
        raise NobodyToCookFor(recipe.name, recipe.serves, people if people < 1 else count)
    factor = count / recipe.serves
    return ScaledRecipe(
        recipe.name,
        people,
        factor,
        nearest_whole(recipe.cooking_water_dg * factor),
        tuple(_scaled_line(line, factor) for line in recipe.lines),
        recipe.hold_back_percent,
        servings,
    )


def cook_plan(
    scaled: ScaledRecipe, candidates_by_food: Mapping[int, Sequence[Candidate]]
) -> CookPlan:
    """Picks and water for each stored food, first in first out.

    When two lines want the same food, the second finds what the first left.
    """
    shelf = {food_id: tuple(packages) for food_id, packages in candidates_by_food.items()}
    needs = [need for need in scaled.lines if isinstance(need, StoredNeed)]
    to_come = Counter(need.food_id for need in needs)
    lines: list[CookLine] = []
    for need in needs:
        packages = shelf.get(need.food_id, ())
        found = _allocate(need, packages)
        to_come[need.food_id] -= 1
        if to_come[need.food_id]:
            shelf[need.food_id] = _after(packages, found.picks)
        lines.append(_cook_line(need, found, scaled.hold_back_percent))
    return CookPlan(
        scaled.name,
        scaled.people,
        tuple(lines),
        sum(line.water_dg for line in lines),
        scaled.cooking_water_dg,
        tuple(line for line in scaled.lines if isinstance(line, FreshNeed)),
        scaled.servings,
    )


def _cook_line(need: StoredNeed, found: Allocation, hold_back_percent: int) -> CookLine:
    """A line of the plan; its own share to hold back goes before the dish's."""
    own = need.hold_back_percent
    return CookLine(
        need,
        found.picks,
        found.dry_dg,
        found.water_dg,
        found.shortfall_dg,
        hold_back_percent if own is None else own,
    )


def _scaled_line(line: RecipeLine, factor: Fraction) -> RecipeLine:
    """One line times the factor."""
    if isinstance(line, FreshNeed):
        return line if line.amount is None else replace(line, amount=line.amount * factor)
    if line.basis in (Basis.SERVINGS, Basis.MEASURE):
        return replace(line, amount=line.amount * factor)
    return replace(line, amount=nearest_whole(line.amount * factor))


def _allocate(need: StoredNeed, packages: Sequence[Candidate]) -> Allocation:
    """The packages for one need, in the way the need counts."""
    if need.counts_dry:
        return allocate_dry(packages, need.wanted_dg)
    return allocate_fresh(packages, need.wanted_dg)


def _after(packages: Sequence[Candidate], picks: Sequence[Pick]) -> tuple[Candidate, ...]:
    """The packages as they stand once the picks are taken out."""
    taken = {pick.candidate.package_id: pick for pick in picks}
    return tuple(
        package.after(taken[package.package_id]) if package.package_id in taken else package
        for package in packages
    )
