"""A plan as values of the model's columns: where the solver starts from."""

from __future__ import annotations

from array import array
from collections.abc import Iterable

from stockroom.domain.menu.choices import Choice
from stockroom.domain.menu.model import Model
from stockroom.domain.menu.model_food import FoodColumns
from stockroom.domain.menu.plans import Plan
from stockroom.domain.menu.records import Question
from stockroom.domain.menu.shelf import Group, shelves


def start_values(
    model: Model, question: Question, chosen: Iterable[Choice], plan: Plan
) -> array[float]:
    """The value of every column for a plan that was read from these choices."""
    values = array("d", bytes(8 * len(model.cost)))
    wanted = {(each.day, each.dish, each.people) for each in chosen}
    uses: dict[int, list[tuple[int, int]]] = {}
    for column, choice in enumerate(model.choices):
        if (choice.day, choice.dish, choice.people) in wanted:
            values[column] = 1
            for food_id, fresh_dg in choice.uses:
                uses.setdefault(food_id, []).append((choice.day, fresh_dg))
    taken: dict[int, int] = {}
    for taking in plan.takings:
        taken[taking.package_id] = taken.get(taking.package_id, 0) + taking.fresh_dg
    shelf_of = shelves(question)
    for food in model.foods:
        _set_used(values, food, uses.get(food.food_id, []))
        _set_groups(values, food, shelf_of[food.food_id].groups, taken)
    return values


def _set_used(values: array[float], food: FoodColumns, uses: list[tuple[int, int]]) -> None:
    """Use between last days."""
    before = -1
    for end, column in food.used:
        values[column] = sum(fresh_dg for day, fresh_dg in uses if before < day <= end)
        before = end


def _set_groups(
    values: array[float], food: FoodColumns, groups: tuple[Group, ...], taken: dict[int, int]
) -> None:
    """Taken by group, used up or not, and opened."""
    so_far = 0
    for columns, group in zip(food.groups, groups, strict=False):
        of_it = sum(taken.get(each.package.package_id, 0) for each in group.placed)
        so_far += of_it
        if columns.taken is not None:
            values[columns.taken] = so_far
        if columns.used_up is not None:
            values[columns.used_up] = 1 if of_it == group.fresh_dg else 0
        for package_id, column in columns.opened:
            values[column] = 1 if package_id in taken else 0
