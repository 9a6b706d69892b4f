"""Which dish could be cooked on which day for how many: what a plan chooses from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.plans import Excluded
from stockroom.domain.menu.records import DishOption, Helping, Question, Wish
from stockroom.domain.menu.shelf import FoodShelf


@dataclass(frozen=True, slots=True)
class Choice:
    """A dish for so many people on a day, by the number of the day and of the dish.

    `needs` are the wishes that have to be given up for it (none, outside a search for what to
    give up). What is not known of energy and protein is nought here.
    """

    day: int
    dish: int
    recipe_id: int
    people: int
    occasion: Occasion
    kcal: int
    protein_dg: int
    water_ml: int
    uses: tuple[tuple[int, int], ...]
    """Food and tenths of a gram of fresh equivalent."""
    disliked: bool
    locked: bool
    needs: tuple[Wish, ...] = ()


@dataclass(frozen=True, slots=True)
class _Dish:
    """A dish with what the wishes say of it."""

    number: int
    option: DishOption
    helpings: tuple[Helping, ...]
    disliked: bool
    needs: tuple[Wish, ...]


def choices(
    question: Question, shelf_of: dict[int, FoodShelf], *, loosened: bool = False
) -> tuple[Choice, ...]:
    """All there is to choose from, by day, then dish, then helping.

    A dish locked on a day is there in the locked helping alone. `loosened` adds what cooking days
    and hard dislikes forbid, each with the wishes it `needs`.
    """
    locked = {(each.on, each.recipe_id): each.people for each in question.locked}
    dishes = [_dish(question, number) for number in range(len(question.options))]
    cooking = [may_cook(question, day.on) for day in question.days]
    found: list[Choice] = []
    for day in range(len(question.days)):
        for dish in dishes:
            people = locked.get((question.days[day].on, dish.option.recipe_id))
            if people is not None:
                found += [
                    _choice(day, dish, each, (), locked=True)
                    for each in dish.option.helpings
                    if each.people == people
                ]
            elif not dish.option.why_not:
                needs = _needs(dish, cooking[day])
                if loosened or not needs:
                    found += [
                        _choice(day, dish, each, needs, locked=False)
                        for each in dish.helpings
                        if _in_stock(each, shelf_of, day)
                    ]
    return tuple(found)


def may_cook(question: Question, on: date) -> bool:
    """Whether a day is a cooking day, concessions counted."""
    return question.wishes.is_cooking_day(on) or any(
        each.wish is Wish.COOKING_DAY and each.on == on for each in question.wishes.concessions
    )


def excluded(question: Question, shelf_of: dict[int, FoodShelf]) -> tuple[Excluded, ...]:
    """The dishes that cannot be planned on any day, each with its reason."""
    found: list[Excluded] = []
    for number, option in enumerate(question.options):
        why = option.why_not or _why_never(question, _dish(question, number), shelf_of)
        if why:
            found.append(Excluded(option.recipe_id, option.name, why))
    return tuple(found)


def _why_never(question: Question, dish: _Dish, shelf_of: dict[int, FoodShelf]) -> str:
    """Why a dish fits no day, or nothing."""
    if dish.needs:
        return "not liked"
    if not dish.helpings:
        return "in none of the helpings asked for"
    if dish.option.cooks and not any(may_cook(question, day.on) for day in question.days):
        return "has to be cooked, and no day is a cooking day"
    if any(_in_stock(each, shelf_of, 0) for each in dish.helpings):
        return ""
    names = {food.food_id: food.name for food in question.foods}
    least = min(dish.helpings, key=lambda each: each.people)
    missing = [
        names[use.food_id]
        for use in least.uses
        if use.fresh_dg > shelf_of[use.food_id].usable_dg(0)
    ]
    return f"not enough {' and '.join(missing)}" if missing else "not enough in the store"


def _dish(question: Question, number: int) -> _Dish:
    """A dish with what the wishes say of it."""
    option, wishes = question.options[number], question.wishes
    foods = {use.food_id for each in option.helpings for use in each.uses}
    about = [
        each
        for each in wishes.dislikes
        if each.recipe_id == option.recipe_id or each.food_id in foods
    ]
    given_up = any(
        each.wish is Wish.DISLIKE and each.recipe_id == option.recipe_id
        for each in wishes.concessions
    )
    forbidden = any(each.hard for each in about) and not given_up
    helpings = tuple(
        each for each in option.helpings if not wishes.people or each.people in wishes.people
    )
    return _Dish(number, option, helpings, bool(about), (Wish.DISLIKE,) if forbidden else ())


def _needs(dish: _Dish, cooking: bool) -> tuple[Wish, ...]:
    """The wishes to give up for a dish on a day."""
    if dish.option.cooks and not cooking:
        return (*dish.needs, Wish.COOKING_DAY)
    return dish.needs


def _in_stock(helping: Helping, shelf_of: dict[int, FoodShelf], day: int) -> bool:
    """Whether the store could cover a helping on that day if it were the only one."""
    return all(use.fresh_dg <= shelf_of[use.food_id].usable_dg(day) for use in helping.uses)


def _choice(
    day: int, dish: _Dish, helping: Helping, needs: tuple[Wish, ...], *, locked: bool
) -> Choice:
    """One choice."""
    return Choice(
        day,
        dish.number,
        dish.option.recipe_id,
        helping.people,
        dish.option.occasion,
        helping.kcal or 0,
        helping.protein_dg or 0,
        helping.water_ml,
        tuple((use.food_id, use.fresh_dg) for use in helping.uses),
        dish.disliked,
        locked,
        needs,
    )
