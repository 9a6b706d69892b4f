"""The wishes as numbers for each day: what the quick plan and the model keep to.

Shares of a need go to whole kcal and tenths of a gram so that the share is kept: up for an at
least, down for an at most. Concessions are counted in, and an upper limit is raised to what the
locked dishes alone come to.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.choices import Choice
from stockroom.domain.menu.records import Question, Share, Wish

NO_LIMIT = 10**12
"""More than any amount a household could plan."""


@dataclass(frozen=True, slots=True)
class Span:
    """From least to most, both allowed."""

    least: int
    most: int


@dataclass(frozen=True, slots=True)
class DayLimits:
    """What the dishes of one day have to keep to; spans of dishes in the order of Occasion."""

    on: date
    kcal: Span
    protein_least_dg: int
    water_most_ml: int
    dishes: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class Limits:
    """What a plan has to keep to."""

    days: tuple[DayLimits, ...]
    plan_kcal: Span
    plan_water_most_ml: int
    apart_days: int


def limits(question: Question, every: Sequence[Choice]) -> Limits:
    """The limits of a question; of `every` choice the locked ones raise the upper limits."""
    wishes = question.wishes
    need = sum(day.need_kcal for day in question.days)
    locked = [choice for choice in every if choice.locked]
    by_day = [[each for each in locked if each.day == day] for day in range(len(question.days))]
    plan = _span(wishes.plan_energy, need)
    in_all = NO_LIMIT if wishes.water_ml_in_all is None else wishes.water_ml_in_all
    return Limits(
        tuple(_day(question, day, by_day[day]) for day in range(len(question.days))),
        Span(
            plan.least - given(question, Wish.PLAN_ENERGY_LEAST),
            max(
                plan.most + given(question, Wish.PLAN_ENERGY_MOST),
                sum(each.kcal for each in locked),
            ),
        ),
        max(in_all + given(question, Wish.PLAN_WATER), sum(each.water_ml for each in locked)),
        max(wishes.apart_days - given(question, Wish.APART), 1),
    )


def given(
    question: Question, wish: Wish, on: date | None = None, occasion: Occasion | None = None
) -> int:
    """How far a wish was given up, by the concessions."""
    return sum(
        each.amount
        for each in question.wishes.concessions
        if each.wish is wish and each.on == on and each.occasion is occasion
    )


def _day(question: Question, number: int, locked: list[Choice]) -> DayLimits:
    """The limits of one day."""
    day, wishes = question.days[number], question.wishes
    kcal = _span(wishes.energy, day.need_kcal)
    protein = _span(Share(wishes.protein_percent, 100), day.need_protein_dg).least
    water = NO_LIMIT if wishes.water_ml_a_day is None else wishes.water_ml_a_day
    return DayLimits(
        day.on,
        Span(
            kcal.least - given(question, Wish.ENERGY_LEAST, day.on),
            max(
                kcal.most + given(question, Wish.ENERGY_MOST, day.on),
                sum(each.kcal for each in locked),
            ),
        ),
        protein - given(question, Wish.PROTEIN, day.on),
        max(water + given(question, Wish.WATER, day.on), sum(each.water_ml for each in locked)),
        tuple(_dishes(question, day.on, occasion, locked) for occasion in Occasion),
    )


def _dishes(question: Question, on: date, occasion: Occasion, locked: list[Choice]) -> Span:
    """Dishes of an occasion on a day."""
    wanted = [each for each in question.wishes.occasions if each.occasion is occasion]
    least = max((each.least for each in wanted), default=0)
    most = min((each.most for each in wanted), default=0)
    return Span(
        least - given(question, Wish.DISHES_LEAST, on, occasion),
        max(
            most + given(question, Wish.DISHES_MOST, on, occasion),
            sum(1 for each in locked if each.occasion is occasion),
        ),
    )


def _span(share: Share, need: int) -> Span:
    """A share of a need in whole numbers, kept on both sides."""
    return Span(-(-need * share.least_percent // 100), need * share.most_percent // 100)
