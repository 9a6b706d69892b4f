"""Questions to plan menus from: small ones by chance, and a plain one."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from hypothesis import strategies as st

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.records import (
    Concession,
    Day,
    DishOption,
    Dislike,
    Eaten,
    Helping,
    Locked,
    MenuFood,
    MenuPackage,
    OccasionWish,
    Question,
    Share,
    Use,
    Wish,
    Wishes,
)

FIRST = date(2026, 12, 1)
"""A Tuesday."""
FOODS = (MenuFood(1, "peas", 800, 1), MenuFood(2, "barley", None, 2), MenuFood(3, "cod", 900, 3))


def day(number: int) -> date:
    """A day of the plan; the first is 0."""
    return FIRST + timedelta(days=number)


def days(count: int, need_kcal: int = 2000, need_protein_dg: int = 500) -> tuple[Day, ...]:
    """So many days in a row."""
    return tuple(Day(day(number), need_kcal, need_protein_dg) for number in range(count))


def package(
    number: int, fresh_dg: int, due: int | None, *, food_id: int = 1, opened: bool = False
) -> MenuPackage:
    """A package; `due` counts days from the first."""
    due_on = None if due is None else day(due)
    return MenuPackage(number, f"P{number}", food_id, fresh_dg, due_on, opened)


def dish(
    number: int,
    uses: Sequence[tuple[int, int]],
    kcal: int | None = 2000,
    *,
    occasion: Occasion = Occasion.MAIN,
    cooks: bool = False,
    why_not: str = "",
) -> DishOption:
    """A dish in one helping."""
    parts = tuple(Use(food_id, fresh_dg) for food_id, fresh_dg in uses)
    helping = Helping(4, kcal, 500, 1000, parts)
    return DishOption(number, f"dish {number}", occasion, (helping,), cooks, why_not)


ONE_MAIN = (OccasionWish(Occasion.MAIN, 1, 1),)
FREE = Wishes(
    occasions=ONE_MAIN,
    energy=Share(0, 1000),
    plan_energy=Share(0, 1000),
    protein_percent=0,
    apart_days=1,
    reach_days=0,
)
"""One main dish a day and nothing else asked for."""


@st.composite
def small_wishes(draw: st.DrawFn, count: int) -> Wishes:
    """Wishes of every kind, loose and tight."""
    most = draw(st.integers(1, 2))
    weekdays = draw(st.sampled_from((None, None, (1, 3), (2,))))
    return Wishes(
        occasions=(
            OccasionWish(Occasion.MAIN, draw(st.integers(0, 1)), most),
            OccasionWish(Occasion.EXTRA, 0, draw(st.integers(0, 1))),
        ),
        energy=Share(draw(st.sampled_from((0, 40, 80))), draw(st.sampled_from((120, 250)))),
        plan_energy=Share(draw(st.sampled_from((0, 60, 95))), draw(st.sampled_from((110, 250)))),
        protein_percent=draw(st.sampled_from((0, 50))),
        apart_days=draw(st.integers(1, 3)),
        cooking_weekdays=weekdays,
        cooking_dates=None if weekdays is None else (day(count - 1),),
        water_ml_a_day=draw(st.sampled_from((None, 1500, 2500))),
        water_ml_in_all=draw(st.sampled_from((None, 4000))),
        dislikes=draw(st.sampled_from(((), (Dislike(food_id=2),), (Dislike(1, hard=True),)))),
        reach_days=draw(st.integers(0, 3)),
        past_due_may_be_eaten=draw(st.booleans()),
        left_open_points=draw(st.sampled_from((0, 1, 2))),
        disliked_points=draw(st.sampled_from((0, 300))),
        concessions=draw(st.sampled_from(((), (Concession(Wish.APART, 1),)))),
    )


@st.composite
def small_options(draw: st.DrawFn) -> tuple[DishOption, ...]:
    """Two to four dishes with one or two helpings."""
    found: list[DishOption] = []
    for number in range(1, draw(st.integers(2, 4)) + 1):
        foods = draw(st.lists(st.integers(1, 3), unique=True, max_size=2))
        amounts = [draw(st.integers(1, 9)) * 50 for _ in foods]
        kcal = draw(st.sampled_from((None, 700, 1000, 1600, 2000)))
        helpings = tuple(
            Helping(
                people,
                None if kcal is None else kcal * people // 4,
                150 * people,
                200 * people,
                tuple(
                    Use(food_id, fresh_dg * people // 4)
                    for food_id, fresh_dg in zip(foods, amounts, strict=True)
                ),
            )
            for people in draw(st.sampled_from(((4,), (4, 6))))
        )
        occasion = draw(st.sampled_from((Occasion.MAIN, Occasion.MAIN, Occasion.EXTRA)))
        why_not = draw(st.sampled_from(("", "", "", "contains milk")))
        found.append(
            DishOption(number, f"dish {number}", occasion, helpings, draw(st.booleans()), why_not)
        )
    return tuple(found)


@st.composite
def questions(draw: st.DrawFn) -> Question:
    """A small question: two or three days, a few dishes, a few packages, now and then a gap."""
    count = draw(st.integers(2, 3))
    plan_days = days(count)
    if draw(st.booleans()):
        plan_days = (*plan_days[:-1], Day(day(count), 2000, 500))
    packages = tuple(
        MenuPackage(
            number,
            f"P{number}",
            draw(st.integers(1, 3)),
            draw(st.integers(1, 8)) * 70,
            draw(st.one_of(st.none(), st.integers(-1, 8).map(day))),
            draw(st.booleans()),
            draw(st.booleans()),
        )
        for number in range(1, draw(st.integers(2, 8)) + 1)
    )
    options = draw(small_options())
    fixed = draw(st.lists(st.sampled_from(plan_days), unique=True, max_size=1))
    locked = tuple(Locked(each.on, 2, options[1].helpings[0].people) for each in fixed)
    eaten = draw(st.sampled_from(((), (Eaten(1, day(-1)),))))
    wishes = draw(small_wishes(count))
    return Question(plan_days, FOODS, packages, options, wishes, locked, eaten)
