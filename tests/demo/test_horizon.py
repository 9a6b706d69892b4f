"""A whole household looking ahead: eaten day by day it comes to what the forecast said."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

from stockroom.domain.horizon.advice import AdviceKind
from stockroom.domain.horizon.pages import FoodHorizon
from stockroom.services.eating_rates import set_rate
from stockroom.services.horizon import horizon
from stockroom.services.packages import move_packages
from stockroom.services.session import Stockroom
from tests.horizon_store import paces, unused_by_eating


def _simulated(room: Stockroom, food: FoodHorizon, days: int, rate: Fraction | None) -> Fraction:
    """What passes when the food is eaten day by day, at its own paces or at a rate."""
    every = [(each.package.servings, each.package.best_by) for each in food.forecast.packages]
    eating = food.how.eating
    own = [] if eating is None else [(one.from_day, one.servings_per_day) for one in eating.paces]
    a_day = paces(room, own if rate is None else [(date.min, rate)], days)
    return unused_by_eating(every, a_day, room.today)


def test_eating_day_by_day_comes_to_what_was_said(demo: Stockroom) -> None:
    """At the present rates the forecast's waste, food by food; at the least rates none."""
    page = horizon(demo, months=24, advise=False)
    known = [food for food in page.foods if food.known]
    assert len(known) > 12 and page.unused_servings > 0
    for food in known:
        said = food.unused_servings
        assert _simulated(demo, food, page.days, None) == said, food.food.name
        least = food.least.servings_per_day
        assert _simulated(demo, food, page.days, least) == 0, food.food.name
        if said:
            # A hair slower and the binding date is missed, where it lies within the forecast.
            slower = least * Fraction(999, 1000)
            binding = food.least.binding_date
            assert binding is not None
            missed = _simulated(demo, food, page.days, slower)
            assert (missed > 0) == (binding <= page.today + timedelta(days=page.days))


def test_a_household_that_follows_the_advice_wastes_nothing(demo: Stockroom) -> None:
    page = horizon(demo, months=24)
    eat = [advice for advice in page.advice if advice.kind is AdviceKind.EAT]
    assert sum((advice.saved_servings for advice in eat), Fraction(0)) == page.unused_servings
    for advice in eat:
        assert advice.servings_per_day is not None
        set_rate(demo, advice.food, advice.servings_per_day)
    after = horizon(demo, months=24)
    assert after.unused_servings == 0 and after.advice == ()
    assert "nothing passes" in after.sentence


def test_a_move_saves_what_was_said(demo: Stockroom) -> None:
    """The packages moved as advised: what passes of their food is less by what was promised."""
    page = horizon(demo, months=12)
    move = next(advice for advice in page.advice if advice.kind is AdviceKind.MOVE)
    before = {food.food.name: food.unused_servings for food in page.foods}
    move_packages(demo, list(move.codes), move.place)
    after = {food.food.name: food.unused_servings for food in horizon(demo, advise=False).foods}
    assert before[move.food] - after[move.food] == move.saved_servings > 0
    assert {food for food in before if before[food] != after[food]} == {move.food}
