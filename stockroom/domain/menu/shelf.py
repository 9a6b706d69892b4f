"""The stored food of a plan: which package comes next, until when, and what is at risk.

The order within a food. Packages at risk (due by the end of the plan and its reach) go first, in
the order of the last day they can be used; of the same last day the part-used ones first, then by
due day, then first in first out. The others follow part-used first, then first in first out as
they were given. So the plan is first in first out wherever nothing would go to waste by it, and
earliest due first where something would (Jackson 1955, published).

On each day a dish takes from the packages that may still be used, in this order. Since the order
never puts a later last day before an earlier one, two things hold, which the model rests on:

1. Uses on the days can be met exactly if, for each last day, what is used after it is no more
   than the food of packages with a later last day. (Uses after it have nothing else to draw on;
   and taking the earliest last day first never spends a package that something later needed
   while another would have done.)
2. Let groups 1, 2, ... be packages of the same last day, in order, G their food, U(j) all use up
   to the last day of group j, and V(j) what is taken from groups 1 to j. Then
   V(j) = min(V(j - 1) + G(j), U(j)). For V(j) is at most both. If group j is used up, it is the
   first. If something stays in group j, then until its last day nothing was taken from a later
   group, so all use up to then came from groups 1 to j: it is the second.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from stockroom.domain.menu.records import MenuPackage, Question


@dataclass(frozen=True, slots=True)
class Placed:
    """A package in its place; `last_day` is the number of the last day that may use it."""

    package: MenuPackage
    last_day: int
    at_risk: bool


@dataclass(frozen=True, slots=True)
class Group:
    """Packages of a food with the same last day and risk, in order, as one amount."""

    last_day: int
    at_risk: bool
    fresh_dg: int
    placed: tuple[Placed, ...]


@dataclass(frozen=True, slots=True)
class FoodShelf:
    """One food of a plan: its packages in the order they are used, and their groups."""

    food_id: int
    worth: int
    placed: tuple[Placed, ...]
    groups: tuple[Group, ...]

    def usable_dg(self, day: int) -> int:
        """What may be used on that day if nothing was used before."""
        return sum(group.fresh_dg for group in self.groups if group.last_day >= day)


def shelves(question: Question) -> dict[int, FoodShelf]:
    """Every food with its usable packages, by the food's id.

    Packages due before the first day are left out, unless they may be eaten past it.
    """
    by_food: dict[int, list[Placed]] = {food.food_id: [] for food in question.foods}
    for package in question.packages:
        placed = place(question, package)
        if placed.last_day >= 0:
            by_food[package.food_id].append(placed)
    return {
        food.food_id: _shelf(food.food_id, food.worth, by_food[food.food_id])
        for food in question.foods
    }


def place(question: Question, package: MenuPackage) -> Placed:
    """A package with its last day (-1: before the plan) and whether it is at risk."""
    count = len(question.days)
    if package.due is None:
        return Placed(package, count - 1, False)
    reach = question.last_day + timedelta(days=question.wishes.reach_days)
    at_risk = package.due <= reach
    past_due = question.wishes.past_due_may_be_eaten and not package.firm
    if past_due or package.due >= question.last_day:
        return Placed(package, count - 1, at_risk)
    last_day = sum(1 for day in question.days if day.on <= package.due) - 1
    return Placed(package, last_day, at_risk)


def _shelf(food_id: int, worth: int, found: list[Placed]) -> FoodShelf:
    """The packages in order with their groups."""
    risky = sorted((each for each in found if each.at_risk), key=_risk_order)
    rest = sorted((each for each in found if not each.at_risk), key=_part_used_first)
    placed = (*risky, *rest)
    groups: list[Group] = []
    start = 0
    for end in range(1, len(placed) + 1):
        if end == len(placed) or _kind(placed[end]) != _kind(placed[start]):
            part = placed[start:end]
            amount_dg = sum(each.package.fresh_dg for each in part)
            groups.append(Group(part[0].last_day, part[0].at_risk, amount_dg, part))
            start = end
    return FoodShelf(food_id, worth, placed, tuple(groups))


def _kind(placed: Placed) -> tuple[int, bool]:
    """What the packages of a group have in common."""
    return placed.last_day, placed.at_risk


def _risk_order(placed: Placed) -> tuple[int, bool, int]:
    """Last day, part-used first, due day; sorting keeps first in first out among equals."""
    due = placed.package.due
    return placed.last_day, not placed.package.opened, 0 if due is None else due.toordinal()


def _part_used_first(placed: Placed) -> bool:
    """Part-used first; sorting keeps first in first out among equals."""
    return not placed.package.opened
