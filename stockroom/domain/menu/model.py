"""The menu as a linear model with whole numbers.

A 0-1 column stands for each choice (dish, day, helping). What a food's choices use between two
last days of its packages is one column, so a package never needs one of its own:

- Never more than there is, and nothing past its last day: what is used after a last day is at
  most the food of packages with a later one (statement 1 of `shelf`).
- What is saved of a food at risk is the column V with V <= U(j) + G(j + 1) + ... + G(n) for each
  group j from none to all n, U(j) being the use up to the last day of group j. By statement 2 of
  `shelf`, V(n) is the least of these sums, and since more saved is always worth more, the column
  reaches it: a continuous column is exact. Packages of one food and one last day are one amount.
- Only when food left open counts, V(j) gets a column for each group, held to the least of its
  two sums from below too by a 0-1 column ("used up"), and each package that could be reached gets
  a 0-1 column ("opened"), in order; what is left open is what was opened less what was used.

The least days apart are rows over spans of days ("at most one"), which bound fractions far better
than pairs of days. Locked choices are fixed at one.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import inf

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.choices import Choice, choices
from stockroom.domain.menu.limits import NO_LIMIT, Limits, limits
from stockroom.domain.menu.model_food import FoodColumns, add_food
from stockroom.domain.menu.records import Question
from stockroom.domain.menu.sheet import Sheet
from stockroom.domain.menu.shelf import FoodShelf, shelves
from stockroom.domain.menu.spans import spans

OCCASIONS = tuple(Occasion)


@dataclass(frozen=True, slots=True)
class Model:
    """A model to hand to a solver; the first columns are the choices, one each, in order."""

    choices: tuple[Choice, ...]
    foods: tuple[FoodColumns, ...]
    maximise: bool
    offset: float
    cost: array[float]
    low: array[float]
    high: array[float]
    whole: array[int]
    row_low: array[float]
    row_high: array[float]
    starts: array[int]
    index: array[int]
    factor: array[float]

    def chosen(self, values: Sequence[float]) -> tuple[Choice, ...]:
        """The choices a solution takes."""
        return tuple(
            choice for choice, value in zip(self.choices, values, strict=False) if value > 0.5
        )


def build(question: Question) -> Model:
    """The model of a question, to be made as large as it can be."""
    shelf_of = shelves(question)
    every = choices(question, shelf_of)
    sheet = Sheet()
    for choice in every:
        cost = -question.wishes.disliked_points if choice.disliked else 0
        sheet.column(cost, 1 if choice.locked else 0, 1, whole=True)
    bounds = limits(question, every)
    _add_days(sheet, bounds, every)
    _add_plan(sheet, bounds, every)
    _add_apart(sheet, question, bounds, every)
    foods = tuple(add_foods(sheet, question, shelf_of, every, bounds))
    return finished(sheet, every, foods, maximise=True)


def finished(
    sheet: Sheet, every: tuple[Choice, ...], foods: tuple[FoodColumns, ...], *, maximise: bool
) -> Model:
    """The model of a sheet that is written."""
    return Model(
        every,
        foods,
        maximise,
        sum(food.offset for food in foods),
        sheet.cost,
        sheet.low,
        sheet.high,
        sheet.whole,
        sheet.row_low,
        sheet.row_high,
        sheet.starts,
        sheet.index,
        sheet.factor,
    )


def by_day(every: Sequence[Choice], days: int) -> list[list[int]]:
    """The numbers of the choices of each day."""
    found: list[list[int]] = [[] for _ in range(days)]
    for column, choice in enumerate(every):
        found[choice.day].append(column)
    return found


def add_foods(
    sheet: Sheet,
    question: Question,
    shelf_of: Mapping[int, FoodShelf],
    every: Sequence[Choice],
    bounds: Limits,
    *,
    valued: bool = True,
) -> Iterable[FoodColumns]:
    """Rows and columns of each food that is used; without values only what there is counts."""
    uses: dict[int, list[tuple[int, int]]] = {}
    for column, choice in enumerate(every):
        for food_id, fresh_dg in choice.uses:
            uses.setdefault(food_id, []).append((column, fresh_dg))
    points = question.wishes.left_open_points if valued else 0
    for food_id, shelf in shelf_of.items():
        yield add_food(sheet, shelf, uses.get(food_id, []), every, bounds, points, valued=valued)


def _add_days(sheet: Sheet, bounds: Limits, every: Sequence[Choice]) -> None:
    """Energy, protein, water and dishes of each day."""
    for day, columns in zip(bounds.days, by_day(every, len(bounds.days)), strict=True):
        sheet.row(day.kcal.least, day.kcal.most, [(one, every[one].kcal) for one in columns])
        if day.protein_least_dg > 0:
            protein = [(one, every[one].protein_dg) for one in columns]
            sheet.row(day.protein_least_dg, inf, protein)
        if day.water_most_ml < NO_LIMIT:
            sheet.row(-inf, day.water_most_ml, [(one, every[one].water_ml) for one in columns])
        for occasion, span in zip(OCCASIONS, day.dishes, strict=True):
            of_it = [(one, 1.0) for one in columns if every[one].occasion is occasion]
            sheet.row(span.least, span.most, of_it)


def _add_plan(sheet: Sheet, bounds: Limits, every: Sequence[Choice]) -> None:
    """Energy and water of all days together."""
    kcal = [(one, choice.kcal) for one, choice in enumerate(every)]
    sheet.row(bounds.plan_kcal.least, bounds.plan_kcal.most, kcal)
    if bounds.plan_water_most_ml < NO_LIMIT:
        water = [(one, choice.water_ml) for one, choice in enumerate(every)]
        sheet.row(-inf, bounds.plan_water_most_ml, water)


def _add_apart(sheet: Sheet, question: Question, bounds: Limits, every: Sequence[Choice]) -> None:
    """A dish at most once in each span of days."""
    for span in spans(question, every, bounds.apart_days):
        sheet.row(-inf, span.most, [(one, 1.0) for one in span.columns])
