"""The menu's model when nothing fits: every wish may be broken, at a price.

It looks for the fewest and lightest wishes to give up, not for a good plan. Stock, due days,
reasons against a dish and locked dishes stay. The prices are engineering judgement; they set what
is asked of a household first: a percent of energy or protein costs 1, so that a dish more (5) or
fewer (20), another day of cooking (10) or a dish that is not liked (15) is asked for only when it
spares as many percent; and each kind of wish touched costs 10 once.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.choices import Choice, choices
from stockroom.domain.menu.limits import NO_LIMIT, DayLimits, Limits, Span, limits
from stockroom.domain.menu.model import Model, add_foods, by_day, finished
from stockroom.domain.menu.records import Question, Wish
from stockroom.domain.menu.sheet import Sheet
from stockroom.domain.menu.shelf import shelves
from stockroom.domain.menu.spans import spans

KIND_COST = 10.0
PERCENT_COST = 1.0
PLAN_PERCENT_COST = 2.0
WATER_PERCENT_COST = 2.0
DISH_MORE_COST = 5.0
DISH_FEWER_COST = 20.0
APART_COST = 6.0
COOKING_COST = 10.0
DISLIKE_COST = 15.0

Terms = list[tuple[int, float]]


def build_elastic(question: Question) -> Model:
    """The model that gives up as little as it can, to be made as small as it can be."""
    shelf_of = shelves(question)
    every = choices(question, shelf_of, loosened=True)
    bounds = limits(question, every)
    sheet = Sheet()
    for choice in every:
        sheet.column(0, 1 if choice.locked else 0, 1, whole=True)
    prices = _Prices(sheet)
    for number, columns in enumerate(by_day(every, len(bounds.days))):
        _add_day(prices, question, number, bounds.days[number], columns, every)
    _add_plan(prices, bounds, every)
    _add_gates(prices, every)
    _add_apart(prices, question, bounds, every)
    foods = tuple(add_foods(sheet, question, shelf_of, every, bounds, valued=False))
    return finished(sheet, every, foods, maximise=False)


class _Prices:
    """Columns for what is given up; each kind of wish has a 0-1 column of its own."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self._kinds: dict[Wish, int] = {}

    def column(self, wish: Wish, cost: float, most: float, *, whole: bool = False) -> int:
        """A column from nought to `most` that is nought unless the kind of wish is touched."""
        if wish not in self._kinds:
            self._kinds[wish] = self.sheet.column(KIND_COST, 0, 1, whole=True)
        column = self.sheet.column(cost, 0, most, whole=whole)
        self.sheet.row(-inf, 0, [(column, 1.0), (self._kinds[wish], -most)])
        return column

    def span(
        self, span: Span, wishes: tuple[Wish, Wish], costs: tuple[float, float], terms: Terms
    ) -> None:
        """A row from least to most; either end may be moved, at its cost for each unit."""
        able = sum(factor * self.sheet.high[column] for column, factor in terms)
        if span.least > 0:
            down = self.column(wishes[0], costs[0], span.least)
            self.sheet.row(span.least, inf, [*terms, (down, 1.0)])
        if span.most < min(able, NO_LIMIT):
            up = self.column(wishes[1], costs[1], able - span.most)
            self.sheet.row(-inf, span.most, [*terms, (up, -1.0)])


def _add_day(
    prices: _Prices,
    question: Question,
    number: int,
    day: DayLimits,
    columns: Sequence[int],
    every: Sequence[Choice],
) -> None:
    """Energy, protein, water and dishes of a day."""
    need = question.days[number]
    kcal = PERCENT_COST * 100 / max(need.need_kcal, 1)
    prices.span(
        day.kcal,
        (Wish.ENERGY_LEAST, Wish.ENERGY_MOST),
        (kcal, kcal),
        [(one, float(every[one].kcal)) for one in columns],
    )
    prices.span(
        Span(day.protein_least_dg, NO_LIMIT),
        (Wish.PROTEIN, Wish.PROTEIN),
        (PERCENT_COST * 100 / max(need.need_protein_dg, 1), 0),
        [(one, float(every[one].protein_dg)) for one in columns],
    )
    prices.span(
        Span(0, day.water_most_ml),
        (Wish.WATER, Wish.WATER),
        (0, WATER_PERCENT_COST * 100 / max(day.water_most_ml, 1)),
        [(one, float(every[one].water_ml)) for one in columns],
    )
    for occasion, span in zip(Occasion, day.dishes, strict=True):
        prices.span(
            span,
            (Wish.DISHES_LEAST, Wish.DISHES_MOST),
            (DISH_FEWER_COST, DISH_MORE_COST),
            [(one, 1.0) for one in columns if every[one].occasion is occasion],
        )


def _add_plan(prices: _Prices, bounds: Limits, every: Sequence[Choice]) -> None:
    """Energy and water of all days together."""
    cost = PLAN_PERCENT_COST * 100 / max(bounds.plan_kcal.least, 1)
    prices.span(
        bounds.plan_kcal,
        (Wish.PLAN_ENERGY_LEAST, Wish.PLAN_ENERGY_MOST),
        (cost, cost),
        [(one, float(choice.kcal)) for one, choice in enumerate(every)],
    )
    prices.span(
        Span(0, bounds.plan_water_most_ml),
        (Wish.PLAN_WATER, Wish.PLAN_WATER),
        (0, WATER_PERCENT_COST * 100 / max(bounds.plan_water_most_ml, 1)),
        [(one, float(choice.water_ml)) for one, choice in enumerate(every)],
    )


def _add_gates(prices: _Prices, every: Sequence[Choice]) -> None:
    """Dishes on a day without cooking, by the day, and dishes not liked, by the dish."""
    gates: dict[tuple[Wish, int], int] = {}
    costs = {Wish.COOKING_DAY: COOKING_COST, Wish.DISLIKE: DISLIKE_COST}
    for column, choice in enumerate(every):
        for wish in choice.needs:
            key = (wish, choice.day if wish is Wish.COOKING_DAY else choice.recipe_id)
            if key not in gates:
                gates[key] = prices.column(wish, costs[wish], 1, whole=True)
            prices.sheet.row(-inf, 0, [(column, 1.0), (gates[key], -1.0)])


def _add_apart(
    prices: _Prices, question: Question, bounds: Limits, every: Sequence[Choice]
) -> None:
    """A dish at most once in a span; shorter spans hold when longer ones are given up."""
    for span in spans(question, every, 1):
        prices.sheet.row(-inf, span.most, [(one, 1.0) for one in span.columns])
    before: int | None = None
    for days in range(bounds.apart_days, 1, -1):
        given = prices.column(Wish.APART, APART_COST, 1, whole=True)
        if before is not None:
            prices.sheet.row(0, inf, [(before, 1.0), (given, -1.0)])
        before = given
        for span in spans(question, every, days):
            terms: Terms = [(one, 1.0) for one in span.columns]
            prices.sheet.row(-inf, span.most, [*terms, (given, float(-days))])
