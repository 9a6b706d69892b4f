"""A menu while it is put together: dishes put in and taken out, with its value at hand."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.choices import Choice
from stockroom.domain.menu.limits import Limits
from stockroom.domain.menu.records import Question
from stockroom.domain.menu.shelf import FoodShelf

_PLACE = {occasion: number for number, occasion in enumerate(Occasion)}


class Draft:
    """The choices taken so far. Upper limits and stock always hold; lower ones may not yet."""

    def __init__(self, question: Question, shelf_of: dict[int, FoodShelf], bounds: Limits) -> None:
        days = len(question.days)
        self.bounds = bounds
        self.days: list[list[Choice]] = [[] for _ in range(days)]
        self.kcal = [0] * days
        self.protein_dg = [0] * days
        self.water_ml = [0] * days
        self.dishes = [[0] * len(_PLACE) for _ in range(days)]
        self._shelf_of = shelf_of
        self._left_open_points = question.wishes.left_open_points
        self._disliked_points = question.wishes.disliked_points
        self._dates = [day.on.toordinal() for day in question.days]
        self._used = {food_id: [0] * days for food_id in shelf_of}
        self._worth = {food_id: self._value(food_id) or 0 for food_id in shelf_of}
        self._stands: dict[int, list[tuple[int, bool]]] = {}
        for eaten in question.eaten:
            self._stands.setdefault(eaten.recipe_id, []).append((eaten.on.toordinal(), True))

    def chosen(self) -> tuple[Choice, ...]:
        """All choices taken."""
        return tuple(choice for day in self.days for choice in day)

    def put(self, choice: Choice) -> None:
        """Take a choice."""
        self.days[choice.day].append(choice)
        self._move(choice, 1)
        stand = (self._dates[choice.day], choice.locked)
        self._stands.setdefault(choice.recipe_id, []).append(stand)

    def take_out(self, choice: Choice) -> None:
        """Give a choice back."""
        self.days[choice.day].remove(choice)
        self._move(choice, -1)
        self._stands[choice.recipe_id].remove((self._dates[choice.day], choice.locked))

    def has_room(self, choice: Choice) -> bool:
        """Whether a choice keeps to every upper limit and to the days apart."""
        day, bounds = choice.day, self.bounds
        limits = bounds.days[day]
        place = _PLACE[choice.occasion]
        return (
            self.dishes[day][place] < limits.dishes[place].most
            and self.kcal[day] + choice.kcal <= limits.kcal.most
            and self.water_ml[day] + choice.water_ml <= limits.water_most_ml
            and sum(self.kcal) + choice.kcal <= bounds.plan_kcal.most
            and sum(self.water_ml) + choice.water_ml <= bounds.plan_water_most_ml
            and self._is_apart(choice)
        )

    def gain(self, choice: Choice) -> int | None:
        """What the value rises by with a choice, or None where the store does not cover it."""
        total = -self._disliked_points if choice.disliked else 0
        for food_id, fresh_dg in choice.uses:
            used = self._used[food_id]
            used[choice.day] += fresh_dg
            value = self._value(food_id)
            used[choice.day] -= fresh_dg
            if value is None:
                return None
            total += value - self._worth[food_id]
        return total

    def shortage(self, day: int) -> int:
        """How far a day is below its lower limits; only good to compare days with."""
        limits = self.bounds.days[day]
        missing = sum(
            max(span.least - there, 0)
            for span, there in zip(limits.dishes, self.dishes[day], strict=True)
        )
        return (
            missing * 1_000
            + max(limits.kcal.least - self.kcal[day], 0)
            + max(limits.protein_least_dg - self.protein_dg[day], 0)
        )

    def fits(self) -> bool:
        """Whether the lower limits are kept too."""
        days = range(len(self.days))
        enough = sum(self.kcal) >= self.bounds.plan_kcal.least
        return enough and not any(self.shortage(day) for day in days)

    def _move(self, choice: Choice, by: int) -> None:
        """Count a choice in or out."""
        day = choice.day
        self.kcal[day] += by * choice.kcal
        self.protein_dg[day] += by * choice.protein_dg
        self.water_ml[day] += by * choice.water_ml
        self.dishes[day][_PLACE[choice.occasion]] += by
        for food_id, fresh_dg in choice.uses:
            self._used[food_id][day] += by * fresh_dg
            self._worth[food_id] = self._value(food_id) or 0

    def _is_apart(self, choice: Choice) -> bool:
        """Whether the dish stands on no day too near."""
        on, apart = self._dates[choice.day], self.bounds.apart_days
        return all(abs(on - other) >= apart for other, _ in self._stands.get(choice.recipe_id, ()))

    def _value(self, food_id: int) -> int | None:
        """What a food counts as it is used now, or None where it is used beyond the store."""
        shelf, used = self._shelf_of[food_id], self._used[food_id]
        taken = taken_by_group(shelf, used)
        if taken is None:
            return None
        saved = sum(
            amount for amount, group in zip(taken, shelf.groups, strict=True) if group.at_risk
        )
        value = shelf.worth * saved
        if self._left_open_points:
            value -= self._left_open_points * left_open_dg(shelf, taken)
        return value


def taken_by_group(shelf: FoodShelf, used: Sequence[int]) -> list[int] | None:
    """What each group of packages gives for the use of each day; None: more than there is."""
    total = sum(used)
    if total == 0:
        return [0] * len(shelf.groups)
    ends = [group.last_day for group in shelf.groups]
    if not ends or any(used[ends[-1] + 1 :]):
        return None
    after_dg = sum(group.fresh_dg for group in shelf.groups)
    if total > after_dg:
        return None
    for group, (end, later) in zip(shelf.groups, pairwise([*ends, ends[-1]]), strict=True):
        after_dg -= group.fresh_dg
        if end < later and sum(used[end + 1 :]) > after_dg:
            return None
    taken: list[int] = []
    so_far = 0
    for group in shelf.groups:
        here = min(group.fresh_dg, sum(used[: group.last_day + 1]) - so_far)
        taken.append(here)
        so_far += here
    return taken


def left_open_dg(shelf: FoodShelf, taken: Sequence[int]) -> int:
    """What stays in open packages when so much is taken of each group."""
    total = 0
    for amount, group in zip(taken, shelf.groups, strict=True):
        for placed in group.placed:
            here = min(amount, placed.package.fresh_dg)
            amount -= here
            if here or placed.package.opened:
                total += placed.package.fresh_dg - here
            elif not amount:
                break
    return total
