"""What to give up so that a menu fits, told from a plan that breaks the wishes: parts and words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.choices import Choice
from stockroom.domain.menu.limits import DayLimits, Limits, limits
from stockroom.domain.menu.records import Concession, Question, Wish


def concessions_for(
    question: Question, every: Sequence[Choice], chosen: Sequence[Choice]
) -> tuple[Concession, ...]:
    """How far these choices are from the wishes, as what would have to be given up for them."""
    bounds, asked = limits(question, every), limits(question, ())
    return (
        *_of_days(question, bounds, asked, chosen),
        *_of_plan(bounds, asked, chosen),
        *_of_gates(question, chosen),
        *_of_apart(question, bounds, chosen),
    )


def conceded(question: Question, concessions: Sequence[Concession]) -> Question:
    """The question with these given up, beside what was given up before."""
    wishes = question.wishes
    return replace(
        question, wishes=replace(wishes, concessions=(*wishes.concessions, *concessions))
    )


def words_for(question: Question, concessions: Sequence[Concession]) -> tuple[str, ...]:
    """What is given up, one sentence for each kind of wish."""
    found: list[str] = []
    for wish in Wish:
        of_it = [each for each in concessions if each.wish is wish]
        if of_it:
            found.append(_WORDS[wish](question, of_it))
    return tuple(found)


def _beyond(
    wish: Wish, amount: int, on: date | None = None, occasion: Occasion | None = None
) -> Iterator[Concession]:
    """A concession, if there is anything to give up."""
    if amount > 0:
        yield Concession(wish, amount, on, occasion)


def _over(
    wish: Wish,
    amount: int,
    most: int,
    asked: int,
    on: date | None = None,
    occasion: Occasion | None = None,
) -> Iterator[Concession]:
    """A concession for what is over `most`, an upper limit that locked dishes may have raised.

    It counts from the limit as `asked`: giving up moves that one, and raising comes after.
    """
    if amount > most:
        yield from _beyond(wish, amount - asked, on, occasion)


def _of_days(
    question: Question, bounds: Limits, asked: Limits, chosen: Sequence[Choice]
) -> Iterator[Concession]:
    """What is given up on single days."""
    for number, (day, wished) in enumerate(zip(bounds.days, asked.days, strict=True)):
        dishes = [each for each in chosen if each.day == number]
        on = question.days[number].on
        kcal = sum(each.kcal for each in dishes)
        yield from _beyond(Wish.ENERGY_LEAST, day.kcal.least - kcal, on)
        yield from _over(Wish.ENERGY_MOST, kcal, day.kcal.most, wished.kcal.most, on)
        protein_dg = sum(each.protein_dg for each in dishes)
        yield from _beyond(Wish.PROTEIN, day.protein_least_dg - protein_dg, on)
        water_ml = sum(each.water_ml for each in dishes)
        yield from _over(Wish.WATER, water_ml, day.water_most_ml, wished.water_most_ml, on)
        yield from _of_occasions(day, wished, on, dishes)


def _of_occasions(
    day: DayLimits, asked: DayLimits, on: date, dishes: Sequence[Choice]
) -> Iterator[Concession]:
    """Dishes too few or too many of an occasion."""
    for occasion, span, wished in zip(Occasion, day.dishes, asked.dishes, strict=True):
        there = sum(1 for each in dishes if each.occasion is occasion)
        yield from _beyond(Wish.DISHES_LEAST, span.least - there, on, occasion)
        yield from _over(Wish.DISHES_MOST, there, span.most, wished.most, on, occasion)


def _of_plan(bounds: Limits, asked: Limits, chosen: Sequence[Choice]) -> Iterator[Concession]:
    """What is given up over all days."""
    kcal = sum(each.kcal for each in chosen)
    yield from _beyond(Wish.PLAN_ENERGY_LEAST, bounds.plan_kcal.least - kcal)
    yield from _over(Wish.PLAN_ENERGY_MOST, kcal, bounds.plan_kcal.most, asked.plan_kcal.most)
    water_ml = sum(each.water_ml for each in chosen)
    yield from _over(Wish.PLAN_WATER, water_ml, bounds.plan_water_most_ml, asked.plan_water_most_ml)


def _of_gates(question: Question, chosen: Sequence[Choice]) -> Iterator[Concession]:
    """Cooking on other days, and dishes that are not liked."""
    cooking = sorted({each.day for each in chosen if Wish.COOKING_DAY in each.needs})
    for day in cooking:
        yield Concession(Wish.COOKING_DAY, on=question.days[day].on)
    for recipe_id in sorted({each.recipe_id for each in chosen if Wish.DISLIKE in each.needs}):
        yield Concession(Wish.DISLIKE, recipe_id=recipe_id)


def _of_apart(question: Question, bounds: Limits, chosen: Sequence[Choice]) -> Iterator[Concession]:
    """The days the least distance between the same dish is below the wish."""
    stands = [(each.recipe_id, question.days[each.day].on, each.locked) for each in chosen]
    stands += [(each.recipe_id, each.on, True) for each in question.eaten]
    nearest = bounds.apart_days
    for number, (recipe_id, on, fixed) in enumerate(stands):
        for other_id, other_on, other_fixed in stands[:number]:
            if recipe_id == other_id and not (fixed and other_fixed):
                nearest = min(nearest, abs((on - other_on).days))
    yield from _beyond(Wish.APART, bounds.apart_days - nearest)


def _days(concessions: Sequence[Concession]) -> str:
    """How many days are touched."""
    count = len({each.on for each in concessions})
    return "1 day" if count == 1 else f"{count} days"


def _percent(question: Question, concessions: Sequence[Concession]) -> int:
    """The most a day gives up, in percent of its energy need, rounded up."""
    need = {day.on: day.need_kcal for day in question.days}
    return max(-(-each.amount * 100 // max(need[each.on], 1)) for each in concessions if each.on)


def _energy_least(question: Question, given: Sequence[Concession]) -> str:
    return f"Plan less energy on {_days(given)}, by {_percent(question, given)} % at most."


def _energy_most(question: Question, given: Sequence[Concession]) -> str:
    return f"Plan more energy on {_days(given)}, by {_percent(question, given)} % at most."


def _plan_energy_least(question: Question, given: Sequence[Concession]) -> str:
    return f"Plan {given[0].amount} kcal less over all days together."


def _plan_energy_most(question: Question, given: Sequence[Concession]) -> str:
    return f"Plan {given[0].amount} kcal more over all days together."


def _protein(question: Question, given: Sequence[Concession]) -> str:
    most_dg = max(each.amount for each in given)
    return f"Plan less protein on {_days(given)}, by {most_dg // 10 + 1} g at most."


def _dishes_least(question: Question, given: Sequence[Concession]) -> str:
    return f"Plan fewer {_occasions(given)} dishes on {_days(given)}."


def _dishes_most(question: Question, given: Sequence[Concession]) -> str:
    return f"Allow more {_occasions(given)} dishes on {_days(given)}."


def _water(question: Question, given: Sequence[Concession]) -> str:
    most_ml = max(each.amount for each in given)
    return f"Have {most_ml} mL more water at hand, on {_days(given)}."


def _plan_water(question: Question, given: Sequence[Concession]) -> str:
    return f"Have {given[0].amount} mL more water at hand in all."


def _apart(question: Question, given: Sequence[Concession]) -> str:
    before = sum(each.amount for each in question.wishes.concessions if each.wish is Wish.APART)
    wanted = question.wishes.apart_days - before
    left = wanted - given[0].amount
    days = "1 day" if left == 1 else f"{left} days"
    return f"Allow the same dish again after {days} instead of {wanted}."


def _cooking(question: Question, given: Sequence[Concession]) -> str:
    days = ", ".join(each.on.isoformat() for each in given if each.on)
    return f"Cook on {days} too."


def _dislike(question: Question, given: Sequence[Concession]) -> str:
    names = {option.recipe_id: option.name for option in question.options}
    dishes = ", ".join(names[each.recipe_id] for each in given if each.recipe_id is not None)
    return f"Allow {dishes}, though not liked."


def _occasions(given: Sequence[Concession]) -> str:
    """The occasions that are touched."""
    return " and ".join(
        occasion.value for occasion in Occasion if any(each.occasion is occasion for each in given)
    )


_WORDS = {
    Wish.ENERGY_LEAST: _energy_least,
    Wish.ENERGY_MOST: _energy_most,
    Wish.PLAN_ENERGY_LEAST: _plan_energy_least,
    Wish.PLAN_ENERGY_MOST: _plan_energy_most,
    Wish.PROTEIN: _protein,
    Wish.DISHES_LEAST: _dishes_least,
    Wish.DISHES_MOST: _dishes_most,
    Wish.WATER: _water,
    Wish.PLAN_WATER: _plan_water,
    Wish.APART: _apart,
    Wish.COOKING_DAY: _cooking,
    Wish.DISLIKE: _dislike,
}
