"""Foods in stock that could stand in for one that is short.

Alike is a food of the same group (the shelf it belongs to) or of the same food class (how it
keeps, and so what it is made of): those of both go first, then those of the same group, then of
the same class. It is prepared as safely or more so, and there is enough of it. What brings a new
allergen goes last and is marked. The order is engineering judgement.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.cooking import CookLine, StoredNeed
from stockroom.domain.foods import Allergen, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.quantities import nearest_whole

_SAFETY = (Preparation.RAW, Preparation.COOKED, Preparation.READY)
"""Each may stand in for those before it: what is ready needs no care that the raw would get."""


@dataclass(frozen=True, slots=True)
class KnownFood:
    """As much of a food as choosing a stand-in needs."""

    food_id: int
    name: str
    group: FoodGroup
    food_class: FoodClass
    preparation: Preparation
    """Of a food in stock: that of its least safely prepared lot."""
    allergens: tuple[Allergen, ...] = ()
    check_ingredients: bool = False
    """Whether its allergens depend on what went into it."""


@dataclass(frozen=True, slots=True)
class Stocked:
    """A food with what may be eaten of it, dry food and its water."""

    food: KnownFood
    dry_dg: int
    water_dg: int

    @property
    def fresh_dg(self) -> int:
        """The fresh equivalent of all of it."""
        return self.dry_dg + self.water_dg


@dataclass(frozen=True, slots=True)
class StandIn:
    """A food that could stand in, and how far it is like the one that is short."""

    food: KnownFood
    same_group: bool
    same_class: bool
    new_allergens: tuple[Allergen, ...]
    """Allergens the dish does not have without it."""


@dataclass(frozen=True, slots=True)
class Substitute:
    """A food that could stand in: so much of it, dry, and the water for it."""

    food_id: int
    food: str
    preparation: str
    same_group: bool
    same_class: bool
    new_allergens: tuple[str, ...]
    check_ingredients: bool
    dry_dg: int
    water_dg: int


@dataclass(frozen=True, slots=True)
class Substitution:
    """A food of a dish that is short, with those that could stand in, the best first."""

    food_id: int
    """The recipe's own food: the key of a swap."""
    food: str
    line: CookLine
    options: tuple[Substitute, ...]


def fresh_equivalent(need: StoredNeed, water_cg: int | None) -> int | None:
    """What a line wants as fresh equivalent, tenths of a gram; None where it cannot be told.

    A need for dry food is turned by the water of the food as loaded, in hundredths of a gram per
    100 g.
    """
    if not need.counts_dry:
        return need.wanted_dg
    if water_cg is None or water_cg >= 10_000:
        return None
    return nearest_whole(Fraction(need.wanted_dg * 10_000, 10_000 - water_cg))


def stand_ins(
    wanted: KnownFood,
    wanted_fresh_dg: int,
    stock: Iterable[Stocked],
    dish_allergens: Sequence[Allergen],
) -> tuple[StandIn, ...]:
    """Foods that could stand in for so much of a food, the best first, then by name."""
    found = [
        _stand_in(wanted, one.food, dish_allergens)
        for one in stock
        if one.food.food_id != wanted.food_id
        and one.fresh_dg >= wanted_fresh_dg
        and as_safe(one.food.preparation, wanted.preparation)
    ]
    alike = [one for one in found if one.same_group or one.same_class]
    return tuple(sorted(alike, key=_rank))


def as_safe(preparation: Preparation, wanted: Preparation) -> bool:
    """Whether food so prepared may take the place of food prepared as wanted."""
    return _SAFETY.index(preparation) >= _SAFETY.index(wanted)


def least_safe(preparations: Iterable[Preparation]) -> Preparation:
    """The preparation that asks for most care; at least one is given."""
    return min(preparations, key=_SAFETY.index)


def _stand_in(wanted: KnownFood, food: KnownFood, dish_allergens: Sequence[Allergen]) -> StandIn:
    """A food beside the one it could stand in for."""
    return StandIn(
        food,
        food.group is wanted.group,
        food.food_class is wanted.food_class,
        tuple(one for one in food.allergens if one not in dish_allergens),
    )


def _rank(one: StandIn) -> tuple[bool, bool, bool, bool, str]:
    """No new allergen first, then the same group, the same class, ingredients known, the name."""
    return (
        bool(one.new_allergens),
        not one.same_group,
        not one.same_class,
        one.food.check_ingredients,
        one.food.name.casefold(),
    )
