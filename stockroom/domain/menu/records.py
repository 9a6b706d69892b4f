"""What a menu is asked for: days, stored food, dishes that could be cooked, and the wishes.

All amounts are whole numbers. Food is counted in tenths of a gram of its fresh equivalent (the
dry food and its own water), as `domain.cooking` counts it. Days are dates and both ends of a span
belong to it: a package may be used on its due day, not after it.

What is locked was chosen by the person. It is in every plan, and an upper limit it goes over by
itself (dishes, energy, water, days apart, cooking days, dislikes) is raised to it, no further.
Only stock can stand against it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from itertools import pairwise

from stockroom.domain.cooking import Occasion

MOST_DAYS = 60
"""The longest menu; engineering judgement."""


@dataclass(frozen=True, slots=True)
class Day:
    """A day to plan, with what all who eat on it need together."""

    on: date
    need_kcal: int
    need_protein_dg: int


@dataclass(frozen=True, slots=True)
class MenuFood:
    """A stored food; `worth` is the points a tenth of a gram of it at risk counts when used."""

    food_id: int
    name: str
    kcal_per_kg: int | None = None
    """Of the fresh equivalent; None where it is not known, never nought for that."""
    worth: int = 1


@dataclass(frozen=True, slots=True)
class MenuPackage:
    """A package that could be used.

    `due` is the earlier of best-by and, once opened, the day to use it by; None: no such day.
    `firm` says that it is the day to use an open package by: no wish goes past that.
    """

    package_id: int
    code: str
    food_id: int
    fresh_dg: int
    due: date | None
    opened: bool
    firm: bool = False


@dataclass(frozen=True, slots=True)
class Use:
    """So much of a stored food goes into a dish; each food once in a dish."""

    food_id: int
    fresh_dg: int


@dataclass(frozen=True, slots=True)
class Helping:
    """A dish cooked for so many people: what it gives and what it takes."""

    people: int
    kcal: int | None
    """Of the whole dish; None where it is not known: counted as nought, and said so."""
    protein_dg: int | None
    """As `kcal`."""
    water_ml: int
    """To bring the food back and to cook in."""
    uses: tuple[Use, ...]


@dataclass(frozen=True, slots=True)
class DishOption:
    """A dish that could be planned.

    With `why_not` it never is, unless it is locked: an allergen at the table, raw food that is
    not cooked, no recipe. It stays in the account with that reason. A dish without a recipe has
    a `recipe_id` below nought.
    """

    recipe_id: int
    name: str
    occasion: Occasion
    helpings: tuple[Helping, ...]
    cooks: bool
    why_not: str = ""


@dataclass(frozen=True, slots=True)
class OccasionWish:
    """Dishes of an occasion on each day, at least and at most."""

    occasion: Occasion
    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Share:
    """Percent of the need, at least and at most."""

    least_percent: int
    most_percent: int


@dataclass(frozen=True, slots=True)
class Dislike:
    """A dish, or every dish with a food, that is not liked: never planned if hard, else rarely."""

    recipe_id: int | None = None
    food_id: int | None = None
    hard: bool = False


class Wish(StrEnum):
    """A wish that can be given up in part when nothing fits."""

    ENERGY_LEAST = "energy_least"
    ENERGY_MOST = "energy_most"
    PLAN_ENERGY_LEAST = "plan_energy_least"
    PLAN_ENERGY_MOST = "plan_energy_most"
    PROTEIN = "protein"
    DISHES_LEAST = "dishes_least"
    DISHES_MOST = "dishes_most"
    WATER = "water"
    PLAN_WATER = "plan_water"
    APART = "apart"
    COOKING_DAY = "cooking_day"
    DISLIKE = "dislike"


@dataclass(frozen=True, slots=True)
class Concession:
    """A wish given up in part.

    `amount` is how far a limit is moved: kcal, tenths of a gram of protein, dishes, mL; for
    APART the days that are given up; for COOKING_DAY and DISLIKE it says nothing. `on` is the
    day, None for the whole plan; `recipe_id` the dish of a dislike.
    """

    wish: Wish
    amount: int = 0
    on: date | None = None
    occasion: Occasion | None = None
    recipe_id: int | None = None


USUAL_OCCASIONS = (
    OccasionWish(Occasion.BREAKFAST, 1, 1),
    OccasionWish(Occasion.MAIN, 1, 2),
    OccasionWish(Occasion.EXTRA, 0, 2),
)
"""Engineering judgement."""


@dataclass(frozen=True, slots=True)
class Wishes:
    """How the menu should be; the defaults are engineering judgement."""

    occasions: tuple[OccasionWish, ...] = USUAL_OCCASIONS
    """An occasion that is not among them is not planned."""
    energy: Share = Share(85, 120)
    """On each day."""
    plan_energy: Share = Share(95, 110)
    """Over all days together."""
    protein_percent: int = 80
    """Of the need, on each day at least."""
    apart_days: int = 3
    """A dish comes again so many days later at the earliest; 1 is the next day."""
    cooking_weekdays: tuple[int, ...] | None = None
    """0 is Monday. With both None every day is a cooking day."""
    cooking_dates: tuple[date, ...] | None = None
    water_ml_a_day: int | None = None
    water_ml_in_all: int | None = None
    dislikes: tuple[Dislike, ...] = ()
    people: tuple[int, ...] = ()
    """Helpings that may be cooked, by the number of people; empty: all there are."""
    reach_days: int = 30
    """Food due up to so many days after the plan counts as at risk."""
    past_due_may_be_eaten: bool = False
    """Past best-by, a quality estimate; never past the day to use an open package by."""
    left_open_points: int = 0
    """Points off for each tenth of a gram in open packages at the end."""
    disliked_points: int = 2_000
    """Points off for each dish that is not liked."""
    concessions: tuple[Concession, ...] = ()
    """What was given up so that something fits."""

    def is_cooking_day(self, on: date) -> bool:
        """Whether dishes may be cooked on that day, before concessions."""
        if self.cooking_weekdays is None and self.cooking_dates is None:
            return True
        weekdays, dates = self.cooking_weekdays or (), self.cooking_dates or ()
        return on.weekday() in weekdays or on in dates


@dataclass(frozen=True, slots=True)
class Locked:
    """A dish that stays as it is on its day."""

    on: date
    recipe_id: int
    people: int


@dataclass(frozen=True, slots=True)
class Eaten:
    """A dish eaten or fixed on a day outside the plan: kept apart from the same dish in it."""

    recipe_id: int
    on: date


@dataclass(frozen=True, slots=True)
class Question:
    """Everything a plan is made from. ValueError where the parts do not fit each other.

    Packages of a food stand in the order they are used in: part-used first, then first in first
    out.
    """

    days: tuple[Day, ...]
    foods: tuple[MenuFood, ...]
    packages: tuple[MenuPackage, ...]
    options: tuple[DishOption, ...]
    wishes: Wishes
    locked: tuple[Locked, ...] = ()
    eaten: tuple[Eaten, ...] = ()

    def __post_init__(self) -> None:
        _refuse_days(self.days)
        _refuse_twice("food", [food.food_id for food in self.foods])
        _refuse_twice("package", [package.package_id for package in self.packages])
        _refuse_twice("dish", [option.recipe_id for option in self.options])
        _refuse_twice("locked dish", [(each.on, each.recipe_id) for each in self.locked])
        _refuse_foods(self)
        _refuse_locked(self)

    @property
    def last_day(self) -> date:
        """The last day of the plan."""
        return self.days[-1].on


def _refuse_days(days: tuple[Day, ...]) -> None:
    """Refuse no days, too many, or days out of order."""
    if not 1 <= len(days) <= MOST_DAYS:
        raise ValueError(f"{len(days)} days; 1 to {MOST_DAYS} can be planned")
    for before, after in pairwise(days):
        if before.on >= after.on:
            raise ValueError(f"{after.on} after {before.on}")
    if any(day.need_kcal < 0 or day.need_protein_dg < 0 for day in days):
        raise ValueError("a need below nought")


def _refuse_twice(what: str, keys: Sequence[object]) -> None:
    """Refuse a key that stands twice."""
    if len(set(keys)) < len(keys):
        raise ValueError(f"a {what} stands twice")


def _refuse_foods(question: Question) -> None:
    """Refuse packages and dishes of unknown food, empty packages, and double or empty uses."""
    known = {food.food_id for food in question.foods}
    for package in question.packages:
        if package.food_id not in known or package.fresh_dg < 1:
            raise ValueError(f"package {package.code}")
    for option in question.options:
        for helping in option.helpings:
            used = [use.food_id for use in helping.uses]
            if len(set(used)) < len(used) or not known.issuperset(used):
                raise ValueError(f"the foods of {option.name}")
            if min((use.fresh_dg for use in helping.uses), default=1) < 1 or helping.people < 1:
                raise ValueError(f"the amounts of {option.name}")
            if min(helping.kcal or 0, helping.protein_dg or 0, helping.water_ml) < 0:
                raise ValueError(f"the amounts of {option.name}")


def _refuse_locked(question: Question) -> None:
    """Refuse a locked dish on no day of the plan, or in no helping there is."""
    days = {day.on for day in question.days}
    there = {
        (option.recipe_id, each.people) for option in question.options for each in option.helpings
    }
    for locked in question.locked:
        if locked.on not in days or (locked.recipe_id, locked.people) not in there:
            raise ValueError(f"dish {locked.recipe_id} locked on {locked.on}")
