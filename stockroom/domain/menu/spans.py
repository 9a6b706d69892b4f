"""Spans of days in which a dish may stand once: the least days between one dish and the next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stockroom.domain.menu.choices import Choice
from stockroom.domain.menu.records import Question


@dataclass(frozen=True, slots=True)
class DishSpan:
    """Some choices of one dish (by their numbers) and how many of them may be taken."""

    most: int
    columns: tuple[int, ...]


def spans(question: Question, every: Sequence[Choice], apart_days: int) -> Iterator[DishSpan]:
    """For each dish, every span of so many days that is not within another, with two choices.

    A dish eaten outside the plan stands in the span too. Locked dishes too near to each other
    are allowed, but nothing beside them.
    """
    dates = [day.on.toordinal() for day in question.days]
    by_dish: dict[int, list[int]] = {}
    for column, choice in enumerate(every):
        by_dish.setdefault(choice.recipe_id, []).append(column)
    eaten: dict[int, list[int]] = {}
    for each in question.eaten:
        eaten.setdefault(each.recipe_id, []).append(each.on.toordinal())
    for recipe_id, columns in by_dish.items():
        stands = [(dates[every[column].day], column) for column in columns]
        before = eaten.get(recipe_id, [])
        taken: tuple[int, ...] = ()
        for start in sorted({day for day, _ in stands} | set(before)):
            within = tuple(c for day, c in stands if start <= day < start + apart_days)
            there = sum(1 for day in before if start <= day < start + apart_days)
            locked = sum(1 for column in within if every[column].locked)
            if there == 0 and (len(within) < 2 or set(within) <= set(taken)):
                continue
            if there == 0:
                taken = within
            if within:
                yield DishSpan(max(1, locked + there) - there, within)
