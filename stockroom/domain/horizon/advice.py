"""What would keep food from passing its best-by, ranked by how much of it is saved.

Each piece of advice is reckoned alone, by the forecast with that one thing done: two of them on
one food do not add up. A move or a repacking saves only what would be eaten until the end of the
forecast or still keeps then. Saved is told in servings and in grams of fresh equivalent, by which
foods are ranked against each other.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum
from fractions import Fraction
from math import ceil

from stockroom.domain.horizon.eating import FoodEating, steady
from stockroom.domain.horizon.eating_rate import Due, least_rate
from stockroom.domain.horizon.forecast import Fate, FoodForecast, forecast
from stockroom.domain.horizon.household_eating import after_plan
from stockroom.domain.horizon.pace import rhythm
from stockroom.domain.horizon.planned import PlannedUse
from stockroom.domain.horizon.shelves import Frame, shelves_of
from stockroom.domain.horizon.stock import StockPackage
from stockroom.domain.working import Source, Standing

ADVICE_RANKED = Source(
    "advice-ranked",
    "Advice is ranked by the fresh weight it keeps from passing its best-by; of equal ones what"
    " is least work goes first: eating it, cooking it, moving it, repacking it, giving it away",
    Standing.ENGINEERING_JUDGEMENT,
)


class AdviceKind(StrEnum):
    """What can be done, the least work first (`ADVICE_RANKED`)."""

    EAT = "eat"
    COOK = "cook"
    MOVE = "move"
    REPACK = "repack"
    GIVE = "give"


@dataclass(frozen=True, slots=True)
class Advice:
    """One thing to do about one food, and what it saves."""

    kind: AdviceKind
    food_id: int
    food: str
    serving_dg: int
    saved_servings: Fraction
    words: str
    codes: tuple[str, ...] = ()
    before: date | None = None
    """The day by which it has to be done, or at latest begun."""
    servings_per_day: Fraction | None = None
    place: str = ""
    recipe: str = ""

    @property
    def saved_dg(self) -> Fraction:
        """The same in tenths of a gram of fresh equivalent."""
        return self.saved_servings * self.serving_dg


@dataclass(frozen=True, slots=True)
class FoodCase:
    """One food as it was forecast, to be forecast again with one thing changed."""

    food_id: int
    name: str
    serving_dg: int
    packages: tuple[StockPackage, ...]
    eating: FoodEating | None
    planned: tuple[PlannedUse, ...]
    from_day: date
    days: int
    now: FoodForecast
    plan_ends: date | None = None
    """Its last planned day: until then it is eaten as planned (`PLAN_STANDS`)."""

    @property
    def unused_servings(self) -> Fraction:
        """What passes its best-by as things stand."""
        return self.now.unused_servings

    def unused_if(
        self,
        *,
        packages: Sequence[StockPackage] | None = None,
        planned: Sequence[PlannedUse] = (),
        eating: FoodEating | None = None,
    ) -> Fraction:
        """What would pass with other packages, with more on the menu, or eaten otherwise."""
        pace = self.eating if eating is None else eating
        found = forecast(
            self.packages if packages is None else packages,
            () if pace is None else (pace,),
            self.from_day,
            days=self.days,
            planned=(*self.planned, *planned),
        )
        return found.unused_servings


def ranked(advice: Iterable[Advice]) -> tuple[Advice, ...]:
    """What saves most fresh weight first; what saves nothing is left out."""
    order = tuple(AdviceKind)
    return tuple(
        sorted(
            (one for one in advice if one.saved_servings > 0),
            key=lambda one: (-one.saved_dg, order.index(one.kind), one.food.casefold(), one.words),
        )
    )


def eat_more(case: FoodCase) -> Advice:
    """Eat the food at its least steady rate: by Jackson, nothing passes then.

    Where it is on the menu, that is the least rate for what the menu leaves, from the day after
    the last planned one; what is best by before then it cannot save.
    """
    beat = rhythm(_least_beside_plan(case))
    eating = after_plan(steady(case.food_id, beat.servings_per_day), case.plan_ends)
    return Advice(
        AdviceKind.EAT,
        case.food_id,
        case.name,
        case.serving_dg,
        case.unused_servings - case.unused_if(eating=eating),
        f"eat {beat.words} {'from now on' if case.plan_ends is None else 'beside the menu'}",
        before=_first_loss(case),
        servings_per_day=beat.servings_per_day,
    )


def cook_it(case: FoodCase, recipe: str, servings: Fraction) -> Advice | None:
    """Cook a recipe that takes so many servings, often enough before the first loss.

    None where the first loss is too near or nothing is lost.
    """
    first = _first_loss(case)
    if first is None or servings <= 0:
        return None
    days = (first - case.from_day).days
    times = min(ceil(case.unused_servings / servings), days)
    if times < 1:
        return None
    uses = [
        PlannedUse(case.food_id, case.from_day + timedelta(days=days * at // times), servings)
        for at in range(times)
    ]
    saved = case.unused_servings - case.unused_if(planned=uses)
    often = "once" if times == 1 else "twice" if times == 2 else f"{times} times"
    return Advice(
        AdviceKind.COOK,
        case.food_id,
        case.name,
        case.serving_dg,
        saved,
        f"put on the menu {often}: {recipe}",
        before=first,
        recipe=recipe,
    )


def keep_longer(
    case: FoodCase,
    kind: AdviceKind,
    words: str,
    best_by: Mapping[int, date],
    *,
    place: str = "",
) -> Advice:
    """Packages moved or repacked, by number in the store, with the best-by they would have."""
    changed = [
        replace(one, best_by=best_by[one.package_id]) if one.package_id in best_by else one
        for one in case.packages
    ]
    concerned = [one for one in case.packages if one.package_id in best_by]
    return Advice(
        kind,
        case.food_id,
        case.name,
        case.serving_dg,
        case.unused_servings - case.unused_if(packages=changed),
        words,
        tuple(one.code for one in concerned),
        min((one.best_by for one in concerned), default=None),
        place=place,
    )


def give_away(case: FoodCase) -> Advice | None:
    """Give away unopened packages that would pass unused; None where there are none."""
    given = [
        one.package
        for one in case.now.packages
        if one.fate is Fate.UNUSED and not one.package.opened
    ]
    if not given:
        return None
    before = min(one.best_by for one in given)
    gone = {one.package_id for one in given}
    left = [one for one in case.packages if one.package_id not in gone]
    many = "it" if len(given) == 1 else f"these {len(given)}"
    return Advice(
        AdviceKind.GIVE,
        case.food_id,
        case.name,
        case.serving_dg,
        case.unused_servings - case.unused_if(packages=left),
        f"give {many} away",
        tuple(one.code for one in given),
        before,
    )


def best_of(advice: Iterable[Advice]) -> Advice | None:
    """The one that saves most, the first of those that save as much; None of none."""
    found = [one for one in advice if one.saved_servings > 0]
    return max(found, key=lambda one: one.saved_servings, default=None)


def _least_beside_plan(case: FoodCase) -> Fraction:
    """The least rate for what the menu leaves, from the first day it is eaten beside it."""
    frame = Frame(case.from_day, case.days, count_best_by_day=False)
    (shelf,) = shelves_of(case.packages, (), case.planned, frame)
    dues = [
        Due(Fraction(left, shelf.setting.parts), one.best_by)
        for one, left in zip(shelf.packages, shelf.setting.left, strict=True)
    ]
    start = case.from_day if case.plan_ends is None else case.plan_ends + timedelta(days=1)
    return least_rate(dues, start).servings_per_day


def _first_loss(case: FoodCase) -> date | None:
    """The first best-by that comes with something left."""
    return None if case.now.shortfall is None else case.now.shortfall.best_by
