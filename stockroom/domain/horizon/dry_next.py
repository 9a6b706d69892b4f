"""What to dry next: the groups that fall furthest short of a target, and when they were dried."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from fractions import Fraction
from typing import NamedTuple

from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.stock import NONE

_USUAL_SHARE = Fraction(1, 10)
"""A month is a usual one from a tenth of a group's lots on (engineering judgement)."""


class GroupTarget(NamedTuple):
    """How many servings of a group the household wants to have."""

    group: FoodGroup
    servings: Fraction


class DriedLot(NamedTuple):
    """A lot that was dried, by the day it was made."""

    food_id: int
    food: str
    group: FoodGroup
    made_on: date
    servings: Fraction


class FoodMonths(NamedTuple):
    """A food of a group, and in which months its lots were dried, January first."""

    food_id: int
    food: str
    lots: tuple[int, ...]

    @property
    def total(self) -> int:
        """Lots in all."""
        return sum(self.lots)


class Gap(NamedTuple):
    """How far one group falls short, and what the record says of drying it."""

    target: GroupTarget
    have: Fraction
    foods: tuple[FoodMonths, ...]
    """What was dried of it before, the most often dried first."""

    @property
    def missing(self) -> Fraction:
        """Servings short of the target; nought where it is met."""
        return max(self.target.servings - self.have, NONE)

    @property
    def missing_share(self) -> Fraction:
        """The same as a share of the target, 0 to 1."""
        return self.missing / self.target.servings if self.target.servings else NONE

    @property
    def lots(self) -> tuple[int, ...]:
        """Lots dried in each month of the year, January first, all years together."""
        return tuple(sum(food.lots[month] for food in self.foods) for month in range(12))

    @property
    def usual_months(self) -> tuple[int, ...]:
        """Months, 1 to 12, with at least a tenth of its lots."""
        total = sum(self.lots)
        return tuple(
            month
            for month, lots in enumerate(self.lots, start=1)
            if lots and lots >= _USUAL_SHARE * total
        )

    def months_away(self, today: date) -> int | None:
        """Months from this one to the next usual one, 0 for now; None: never dried before."""
        return min(((month - today.month) % 12 for month in self.usual_months), default=None)


def dry_next(
    have: Mapping[FoodGroup, Fraction],
    targets: Iterable[GroupTarget],
    lots: Iterable[DriedLot] = (),
) -> tuple[Gap, ...]:
    """The groups that fall short, the largest share of its target missing first.

    Groups of the same share follow by servings missing. Those whose target is met are left out.
    ValueError for two targets of one group, or a target below nought.
    """
    wanted = tuple(targets)
    if len({one.group for one in wanted}) < len(wanted):
        raise ValueError("two targets for one group")
    if any(one.servings < 0 for one in wanted):
        raise ValueError("a target below nought")
    dried: dict[FoodGroup, list[DriedLot]] = {}
    for lot in lots:
        dried.setdefault(lot.group, []).append(lot)
    gaps = (Gap(one, have.get(one.group, NONE), _foods(dried.get(one.group, ()))) for one in wanted)
    return tuple(
        sorted(
            (gap for gap in gaps if gap.missing),
            key=lambda gap: (-gap.missing_share, -gap.missing, gap.target.group),
        )
    )


def _foods(lots: Sequence[DriedLot]) -> tuple[FoodMonths, ...]:
    """The foods of some lots with the months they were dried in."""
    names: dict[int, str] = {}
    months: dict[int, list[int]] = {}
    for lot in lots:
        names[lot.food_id] = lot.food
        months.setdefault(lot.food_id, [0] * 12)[lot.made_on.month - 1] += 1
    found = (FoodMonths(food, names[food], tuple(months[food])) for food in months)
    return tuple(sorted(found, key=lambda one: (-one.total, one.food, one.food_id)))
