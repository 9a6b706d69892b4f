"""The part of the model that belongs to one food: what is used, saved, opened and left open."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from stockroom.domain.menu.choices import Choice
from stockroom.domain.menu.limits import Limits
from stockroom.domain.menu.sheet import Sheet
from stockroom.domain.menu.shelf import FoodShelf, Group

Uses = Sequence[tuple[int, int]]
"""Choices by their number, with the tenths of a gram each uses of the food."""


@dataclass(frozen=True, slots=True)
class GroupColumns:
    """Columns of a group: taken from it and those before it, used up, and packages opened."""

    taken: int | None
    used_up: int | None
    opened: tuple[tuple[int, int], ...]
    """Package ids with their columns."""


@dataclass(frozen=True, slots=True)
class FoodColumns:
    """The columns of a food: use up to each last day, then by group."""

    food_id: int
    used: tuple[tuple[int, int], ...]
    """Last day and column: what is used after the last day before it, up to this one."""
    groups: tuple[GroupColumns, ...]
    offset: float


def add_food(
    sheet: Sheet,
    shelf: FoodShelf,
    uses: Uses,
    every: Sequence[Choice],
    bounds: Limits,
    left_open_points: int,
    *,
    valued: bool,
) -> FoodColumns:
    """Add the columns and rows of a food."""
    standing_dg = sum(each.package.fresh_dg for each in shelf.placed if each.package.opened)
    if not uses or not shelf.placed:
        return FoodColumns(shelf.food_id, (), (), -left_open_points * standing_dg)
    used = _add_use(sheet, shelf, uses, every, left_open_points)
    risky = [group for group in shelf.groups if group.at_risk]
    if not valued:
        groups: tuple[GroupColumns, ...] = ()
    elif left_open_points:
        most = _Most(uses, every, bounds)
        groups = _add_opened(sheet, shelf, used, most, left_open_points)
    else:
        groups = _add_saved(sheet, shelf, risky, used)
    return FoodColumns(shelf.food_id, used, groups, -left_open_points * standing_dg)


def _add_use(
    sheet: Sheet, shelf: FoodShelf, uses: Uses, every: Sequence[Choice], points: int
) -> tuple[tuple[int, int], ...]:
    """Use between last days, and never more than there is for it."""
    ends = sorted({group.last_day for group in shelf.groups})
    terms: list[list[tuple[int, float]]] = [[] for _ in ends]
    for column, fresh_dg in uses:
        terms[bisect_left(ends, every[column].day)].append((column, -fresh_dg))
    used: list[tuple[int, int]] = []
    for end, part in zip(ends, terms, strict=True):
        column = sheet.column(points)
        sheet.row(0, 0, [(column, 1.0), *part])
        used.append((end, column))
    for number, end in enumerate(ends):
        there_dg = sum(group.fresh_dg for group in shelf.groups if group.last_day >= end)
        sheet.row(-inf, there_dg, [(column, 1.0) for _, column in used[number:]])
    return tuple(used)


def _add_saved(
    sheet: Sheet, shelf: FoodShelf, risky: Sequence[Group], used: tuple[tuple[int, int], ...]
) -> tuple[GroupColumns, ...]:
    """One column for what is saved: the least of use up to a group and what is at risk after."""
    if not risky:
        return ()
    at_risk_dg = sum(group.fresh_dg for group in risky)
    saved = sheet.column(shelf.worth, 0, at_risk_dg)
    after_dg = at_risk_dg
    for group in risky:
        after_dg -= group.fresh_dg
        sheet.row(-inf, after_dg, [(saved, 1.0), *_up_to(used, group.last_day, -1.0)])
    return (*(GroupColumns(None, None, ()) for _ in risky[1:]), GroupColumns(saved, None, ()))


def _up_to(
    used: tuple[tuple[int, int], ...], last_day: int, factor: float
) -> list[tuple[int, float]]:
    """The use up to a last day, as terms."""
    return [(column, factor) for end, column in used if end <= last_day]


class _Most:
    """How much of a food a plan can use at most, up to a day: each dish as often as it may be."""

    def __init__(self, uses: Uses, every: Sequence[Choice], bounds: Limits) -> None:
        self._by_day: dict[int, int] = {}
        self._by_dish: dict[int, dict[int, int]] = {}
        self._apart = bounds.apart_days
        self._dates = [day.on.toordinal() for day in bounds.days]
        self._dishes = [sum(span.most for span in day.dishes) for day in bounds.days]
        for column, fresh_dg in uses:
            choice = every[column]
            self._by_day[choice.day] = max(self._by_day.get(choice.day, 0), fresh_dg)
            dish = self._by_dish.setdefault(choice.recipe_id, {})
            dish[choice.day] = max(dish.get(choice.day, 0), fresh_dg)
        self._locked = any(choice.locked for choice in every)

    def up_to(self, last_day: int) -> int:
        """The most that can be used on the days up to that one, it included."""
        days = sum(
            most_dg * self._dishes[day] for day, most_dg in self._by_day.items() if day <= last_day
        )
        if self._locked:
            return days
        dishes = sum(self._of_dish(by_day, last_day) for by_day in self._by_dish.values())
        return min(days, dishes)

    def _of_dish(self, by_day: dict[int, int], last_day: int) -> int:
        """The most of one dish: as often as it fits, each time in its largest helping."""
        days = [day for day in by_day if day <= last_day]
        if not days:
            return 0
        span = self._dates[max(days)] - self._dates[min(days)]
        times = min(span // self._apart + 1, len(days))
        return times * max(by_day[day] for day in days)


def _add_opened(
    sheet: Sheet,
    shelf: FoodShelf,
    used: tuple[tuple[int, int], ...],
    most: _Most,
    points: int,
) -> tuple[GroupColumns, ...]:
    """Taken by group, exactly, and the packages opened for it."""
    found: list[GroupColumns] = []
    before: list[tuple[int, float]] = []
    for number, group in enumerate(shelf.groups):
        up_to = _up_to(used, group.last_day, 1.0)
        most_dg = most.up_to(group.last_day)
        if number == len(shelf.groups) - 1 and not group.at_risk:
            taken, used_up, now = None, None, up_to
        else:
            taken, used_up = _add_taken(sheet, shelf.worth, group, before, up_to, most_dg)
            now = [(taken, 1.0)]
        opened = _add_packages(sheet, group, now, before, most_dg, points)
        found.append(GroupColumns(taken, used_up, opened))
        before = now
    return tuple(found)


def _add_taken(
    sheet: Sheet,
    worth: int,
    group: Group,
    before: list[tuple[int, float]],
    up_to: list[tuple[int, float]],
    most_dg: int,
) -> tuple[int, int]:
    """V of a group at risk: the least of what is there and what is used, no more and no less."""
    taken, used_up = sheet.column(worth), sheet.column(0, 0, 1, whole=True)
    for column, _ in before:
        sheet.cost[column] -= worth
    step = [(taken, 1.0), *((column, -factor) for column, factor in before)]
    less = [(taken, 1.0), *((column, -factor) for column, factor in up_to)]
    sheet.row(-inf, group.fresh_dg, step)
    sheet.row(0, inf, [*step, (used_up, -group.fresh_dg)])
    sheet.row(-inf, 0, less)
    sheet.row(0, inf, [*less, (used_up, max(most_dg, group.fresh_dg))])
    return taken, used_up


def _add_packages(
    sheet: Sheet,
    group: Group,
    now: list[tuple[int, float]],
    before: list[tuple[int, float]],
    most_dg: int,
    points: int,
) -> tuple[tuple[int, int], ...]:
    """A 0-1 column for each unopened package that could be reached, each after the one before."""
    open_dg, reached_dg = 0, 0
    opened: list[tuple[int, int]] = []
    terms: list[tuple[int, float]] = []
    for placed in group.placed:
        package = placed.package
        if package.opened:
            open_dg += package.fresh_dg
        elif reached_dg < most_dg:
            column = sheet.column(-points * package.fresh_dg, 0, 1, whole=True)
            if opened:
                sheet.row(0, inf, [(opened[-1][1], 1.0), (column, -1.0)])
            opened.append((package.package_id, column))
            terms.append((column, package.fresh_dg))
        reached_dg += package.fresh_dg
    less = [(column, -factor) for column, factor in now]
    sheet.row(-open_dg, inf, [*terms, *less, *before])
    return tuple(opened)
