"""Advice before packing: how much to a package, which container, which absorber, vacuum or not.

A package should hold what the household eats at one meal, so that an opened one is finished
(NCHFP, Packaging and Storing Dried Foods: pack in quantities used at once; published).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.foods import FoodGroup
from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.records import Container
from stockroom.domain.working import Source, Standing

BULK = Source(
    "bulk",
    "Loose pieces of freeze-dried food as poured: fruit 0.06-0.12, vegetables 0.08-0.20, meat"
    " 0.15-0.30 g/mL; powders and crumbled dishes more",
    Standing.ENGINEERING_JUDGEMENT,
)
_BULK_MG_PER_ML: Mapping[FoodGroup, int] = {
    FoodGroup.FRUIT: 90,
    FoodGroup.VEGETABLE: 140,
    FoodGroup.HERB: 25,
    FoodGroup.MEAT_RAW: 220,
    FoodGroup.MEAT_COOKED: 220,
    FoodGroup.POULTRY: 220,
    FoodGroup.FISH: 220,
    FoodGroup.EGG: 300,
    FoodGroup.DAIRY: 250,
}
_BULK_ELSE_MG_PER_ML = 250

_POWDERY = frozenset((FoodGroup.EGG, FoodGroup.DAIRY, FoodGroup.SOUP_SAUCE))
_PIECES = frozenset(
    (
        FoodGroup.FRUIT,
        FoodGroup.VEGETABLE,
        FoodGroup.HERB,
        FoodGroup.MEAT_RAW,
        FoodGroup.MEAT_COOKED,
        FoodGroup.POULTRY,
        FoodGroup.FISH,
    )
)
VACUUM_PRACTICE = Source("vacuum_practice", "Common practice", Standing.COMMON_PRACTICE)


@dataclass(frozen=True, slots=True)
class MealSize:
    """What the household eats of a food at one meal."""

    people: int
    serving_dg: int
    dry_dg: int
    """Dry food that comes back to so many servings."""


@dataclass(frozen=True, slots=True)
class Fit:
    """A container for one meal of a lot: how many, and what goes into each.

    `to_a_meal` is above 1 for a container too small for a whole meal. `density_mg_per_ml` is the
    loose weight reckoned with, `own` if learnt from the household's own packages.
    """

    container: Container
    count: int
    each_dg: int
    to_a_meal: int
    density_mg_per_ml: int
    own: bool


def meal_size(people: int, serving_dg: int, wet_dg: int, dry_dg: int) -> MealSize:
    """Dry grams for one meal of the household, at least a tenth of a gram.

    `wet_dg` and `dry_dg` are the lot's, so its own loss of water counts.
    """
    wanted = Fraction(people * serving_dg * dry_dg, wet_dg)
    return MealSize(people, serving_dg, max(1, int(wanted)))


def loose_density(group: FoodGroup | None, fills: Sequence[tuple[int, int]]) -> tuple[int, bool]:
    """mg of dry food per mL as poured: the fullest of the household's own fills, or a default.

    `fills` are (dry tenths of a gram, container mL) of earlier packages of the food. Returns the
    density and whether it is the household's own.
    """
    own = max((dry_dg * 100 // volume_ml for dry_dg, volume_ml in fills), default=0)
    if own:
        return own, True
    return _BULK_MG_PER_ML.get(group or FoodGroup.MEAL, _BULK_ELSE_MG_PER_ML), False


def fit(
    container: Container, left_dg: int, meal: MealSize, density: tuple[int, bool]
) -> Fit | None:
    """How a lot would go into one kind of container, or None when not even a gram fits."""
    mg_per_ml, own = density
    holds_dg = container.volume_ml * mg_per_ml // 100
    if holds_dg < 10:
        return None
    # A leftover smaller than a meal wants a container of its own size.
    wanted_dg = min(meal.dry_dg, max(1, left_dg))
    to_a_meal = max(1, -(-wanted_dg // holds_dg))
    count = max(1, -(-left_dg // min(wanted_dg, holds_dg)))
    return Fit(container, count, left_dg // count, to_a_meal, mg_per_ml, own)


def best_fit(fits: Sequence[Fit]) -> Fit | None:
    """The smallest container that takes a whole meal, else the one with fewest to a meal."""
    whole = [one for one in fits if one.to_a_meal == 1]
    if whole:
        return min(whole, key=lambda one: (one.container.volume_ml, one.container.key))
    return min(fits, key=lambda one: (one.to_a_meal, one.container.volume_ml), default=None)


def vacuum_words(group: FoodGroup | None, kind: PackageKind) -> str:
    """Whether drawing a vacuum suits this food in this package, in a sentence with its standing."""
    if group in _POWDERY:
        return (
            "No vacuum: powder is drawn into the seal and the pump; an absorber takes the oxygen"
            f" without air moving ({VACUUM_PRACTICE.standing.words})."
        )
    if kind is PackageKind.JAR:
        return (
            "Vacuum is possible in a jar built for it, since glass keeps the pressure off the"
            " pieces; it takes most of the air but not all the oxygen, so an absorber still"
            f" decides ({VACUUM_PRACTICE.standing.words})."
        )
    if group in _PIECES:
        return (
            "No vacuum in a pouch or bag: dry pieces are brittle and their edges sharp; pressed"
            f" together they break and pierce the film ({VACUUM_PRACTICE.standing.words})."
        )
    return (
        "Vacuum in a pouch presses the food to crumbs; an absorber does the work without it"
        f" ({VACUUM_PRACTICE.standing.words})."
    )
