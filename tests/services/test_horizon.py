"""The forecast over a store: eating, waste, the menu, what is said apart, and what it costs."""

from __future__ import annotations

import sqlite3
from fractions import Fraction
from pathlib import Path

import pytest

from stockroom.domain.horizon.advice import AdviceKind
from stockroom.domain.horizon.forecast import Fate
from stockroom.domain.horizon.household_eating import Basis
from stockroom.domain.horizon.pages import FoodHorizon, HorizonPage, WhyApart
from stockroom.services import packages
from stockroom.services.eating_rates import set_rate
from stockroom.services.horizon import horizon, horizon_odds, least_rate_workings, rotation
from stockroom.services.packages import Amount
from tests.horizon_store import CHECK_STOCK, by_hand, day, plan_dish, set_best_by, stock
from tests.workings import check_figures
from tests.world import APPLE, BEEF_RAW, PEAS, World, copied_world


def one(page: HorizonPage, food: str = PEAS) -> FoodHorizon:
    """A food of the page."""
    return next(each for each in page.foods if each.food.name == food)


def eaten(world: World, a_day: Fraction | str, food: str = PEAS) -> HorizonPage:
    """The forecast of half a year with a food eaten at a steady rate."""
    set_rate(world.room, food, Fraction(a_day))
    return horizon(world.room, months=6, advise=False)


# Waste and the least rate, against figures worked out by hand


@pytest.mark.parametrize(
    ("a_day", "unused"), [("6/5", 0), ("2", 0), ("11/10", 3), ("1", 6), ("0", 60)]
)
def test_what_passes_at_a_rate(world: World, a_day: str, unused: int) -> None:
    """By day 30, 36 servings are due: at 1.1 a day 33 are eaten then, at 1 a day 30."""
    stock(world, CHECK_STOCK)
    page = eaten(world, a_day)
    assert page.unused_servings == unused
    least = one(page).least
    assert (least.servings_per_day, least.binding_date) == (Fraction(6, 5), day(30))
    assert ("nothing passes" in page.sentence) == (unused == 0)


def test_when_each_package_is_used_and_the_food_runs_out(world: World) -> None:
    first, second, third = stock(world, CHECK_STOCK)
    food = one(eaten(world, "2"))
    days = {each.package.code: (each.from_day, each.to_day) for each in food.forecast.packages}
    assert days == {
        first: (day(0), day(2)),
        second: (day(3), day(17)),
        third: (day(18), day(29)),
    }
    assert food.runs_out_on == day(29) and food.servings == 60


def test_the_sentence_names_the_first_loss(world: World) -> None:
    codes = stock(world, CHECK_STOCK)
    sentence = eaten(world, "1").sentence
    assert f"6 servings on {day(30)}" in sentence and codes[1] in sentence and PEAS in sentence


def test_nobody_said(world: World) -> None:
    """A food dried today has no record: nothing is said of its waste, only of its least rate."""
    stock(world, CHECK_STOCK)
    page = horizon(world.room)
    food = one(page)
    assert food.how.basis is Basis.NOBODY and page.nobody_said == (food,)
    assert (page.unused_servings, food.unused, food.runs_out_on) == (0, (), None)
    assert "Nobody said" in page.sentence and page.advice == ()
    assert food.least.servings_per_day == Fraction(6, 5)
    assert horizon_odds(world.room, rounds=2).foods == ()


def test_the_record_speaks_where_no_rate_is_set(world: World) -> None:
    """36 servings eaten in 90 days are 2/5 a day; a set rate goes before them."""
    (code,) = stock(world, [(200, 700)])
    for days in (30, 60, 89):
        packages.draw_package(world.later(days).room, code, Amount(servings=Fraction(12)))
    later = world.later(90)
    how = one(horizon(later.room, advise=False)).how
    assert (how.basis, how.servings_per_day) == (Basis.RECORD, Fraction(36, 90))
    assert how.spread > 0.25
    assert one(eaten(later, "3/7")).how.basis is Basis.SET


def test_what_was_taken_to_be_packed_anew_is_not_eating(world: World) -> None:
    (code,) = stock(world, [(200, 700)])
    packages.draw_package(world.later(30).room, code, Amount(servings=Fraction(12)))
    by_hand(world, "UPDATE draw SET purpose = 'test'")
    assert one(horizon(world.later(90).room)).how.basis is Basis.NOBODY


def test_food_that_may_not_be_eaten_is_said_apart(world: World) -> None:
    suspect, held, _, good, undated = stock(world, [(1, 50), (2, 50), (4, -3), (8, 50), (9, 50)])
    for code, condition in ((suspect, "suspect"), (held, "held")):
        by_hand(world, "UPDATE package SET condition = ? WHERE code = ?", condition, code)
    by_hand(
        world,
        "UPDATE projection SET best_by = NULL, low = NULL, high = NULL, recheck_by = NULL,"
        " limited_by = NULL, refused = 'too hot' WHERE package_id ="
        " (SELECT id FROM package WHERE code = ?)",
        undated,
    )
    page = eaten(world, "0")
    assert [(each.why, each.packages, each.servings) for each in page.apart] == [
        (WhyApart.SUSPECT, 1, 1),
        (WhyApart.HELD, 1, 2),
        (WhyApart.UNDATED, 1, 9),
    ]
    assert (page.past_servings, page.unused_servings, one(page).servings) == (4, 8, 8)
    assert [each.package.code for each in one(page).unused] == [good]


# The menu


def test_planned_dishes_come_first_and_stand_for_the_rate(world: World) -> None:
    """Two dishes of 200 g for 2 people are 20 servings each; then 2 a day from day 9 on."""
    (code,) = stock(world, [(60, 90)])
    world.recipe()
    plan_dish(world, "Pea soup", (4, 8), people=2)
    page = eaten(world, "2")
    assert (page.planned.dishes, page.planned.servings) == (2, 40)
    (package,) = one(page).forecast.packages
    assert package.package.code == code
    assert (package.from_day, package.to_day) == (day(4), day(18))


def test_eating_beside_the_menu_begins_after_it(world: World) -> None:
    """Of 30 servings due by day 30 a dish takes 20 on day 9: ten are left for the 20 days after."""
    stock(world, [(30, 30)])
    world.recipe()
    plan_dish(world, "Pea soup", (9,), people=2)
    set_rate(world.room, PEAS, Fraction(0))
    page = horizon(world.room)
    eat = next(advice for advice in page.advice if advice.kind is AdviceKind.EAT)
    assert (page.unused_servings, eat.saved_servings) == (10, 10)
    assert (eat.words, eat.servings_per_day) == (
        "eat 1 every 2 days beside the menu",
        Fraction(1, 2),
    )
    assert eaten(world, "1/2").unused_servings == 0
    assert eaten(world, "49/100").unused_servings > 0


def test_a_cooked_dish_is_past(world: World) -> None:
    stock(world, [(60, 90)])
    world.recipe()
    plan_dish(world, "Pea soup", (4,), people=2, cooked=True)
    assert horizon(world.room).planned.dishes == 0


def test_a_dish_too_many_is_said(world: World) -> None:
    stock(world, [(30, 90)])
    world.recipe()
    plan_dish(world, "Pea soup", (4, 8), people=2)
    ((food, miss),) = eaten(world, "0").planned.unserved
    assert (food.name, miss.use.on_day, miss.missing_servings) == (PEAS, day(8), 10)


# The rotation


def test_the_round_is_walked_place_by_place(world: World) -> None:
    world.places("cellar", "cellar/bin 2", "cellar/bin 10", "attic")
    codes = [
        stock(world, [(14, 20 + number)], place=place)[0]
        for number, place in enumerate(("cellar/bin 10", "cellar/bin 2", "attic"))
    ]
    late = stock(world, [(30, 300)], place="attic")[0]
    set_rate(world.room, PEAS, Fraction(2))
    page = rotation(world.room, months=1)
    # 2 a day for 30 days: the three, then the fourth from day 21 on.
    assert [(stop.place, stop.package.code) for stop in page.stops] == [
        ("attic", codes[2]),
        ("attic", late),
        ("cellar/bin 2", codes[1]),
        ("cellar/bin 10", codes[0]),
    ]
    assert [stop.fate for stop in page.stops] == [Fate.USED, Fate.LEFT, Fate.USED, Fate.USED]
    (order,) = page.orders
    assert not order.order.differs


def test_where_the_orders_differ_it_says_why(world: World) -> None:
    (pouch,) = stock(world, [(10, 900)])
    (jar,) = stock(world.later(30), [(10, 0)], container="jar-950")
    set_best_by(world, jar, 200)
    (order,) = rotation(world.later(30).room).orders
    assert [package.code for package in order.order.by_age] == [pouch, jar]
    assert [package.code for package in order.order.by_best_by] == [jar, pouch]
    assert "older foil pouch outlasts the younger jar" in order.order.overtaken[0].reason


def test_a_best_by_brings_a_package_nobody_speaks_of(world: World) -> None:
    soon, _, past = stock(world, [(5, 20), (5, 200), (5, -1)])
    page = rotation(world.room)
    assert [stop.package.code for stop in page.stops] == [soon]
    assert [stop.package.code for stop in page.past] == [past]
    assert not page.stops[0].known


def test_raw_food_is_marked(world: World) -> None:
    stock(world, [(5, 20)], food=BEEF_RAW)
    assert rotation(world.room).stops[0].raw
    assert len(one(horizon(world.room), BEEF_RAW).raw) == 1


# The odds and the working


def test_the_same_seed_gives_the_same_odds(world: World) -> None:
    stock(world, CHECK_STOCK)
    set_rate(world.room, PEAS, Fraction(1))
    first, again = (horizon_odds(world.room, rounds=20, seed=7) for _ in range(2))
    assert first == again and first.rounds == 20
    assert first != horizon_odds(world.room, rounds=20, seed=8)
    (food,) = first.foods
    assert all(0 <= each.chance <= 1 for each in food.packages)


def test_the_odds_are_told_and_can_be_stopped(world: World) -> None:
    stock(world, CHECK_STOCK)
    set_rate(world.room, PEAS, Fraction(1))
    told: list[tuple[int, int]] = []
    odds = horizon_odds(
        world.room,
        rounds=9,
        progress=lambda done, of: told.append((done, of)),
        cancelled=lambda: len(told) >= 3,
    )
    assert told == [(1, 9), (2, 9), (3, 9)] and odds.stopped and odds.rounds == 3


def test_the_least_rate_shows_its_working(world: World) -> None:
    stock(world, CHECK_STOCK)
    (working,) = least_rate_workings(horizon(world.room))
    assert working.title == f"Least eating rate of {PEAS}"
    assert "1.2 (6/5) servings a day" in working.conclusion
    assert check_figures(working) >= 1


# What it costs


class Counting(sqlite3.Connection):
    """A connection that counts the statements it is asked."""

    asked = 0

    def execute(self, *words: object) -> sqlite3.Cursor:  # type: ignore[override]
        """Count and do it."""
        type(self).asked += 1
        return super().execute(*words)  # type: ignore[arg-type]


def _statements(world: World, path: Path) -> int:
    """The statements of a forecast and a rotation."""
    counted = copied_world(world.path, path, factory=Counting)
    Counting.asked = 0
    horizon(counted.room, advise=False)
    rotation(counted.room)
    counted.room.close()
    return Counting.asked


def test_a_larger_store_is_read_in_as_many_statements(world: World, tmp_path: Path) -> None:
    stock(world, CHECK_STOCK)
    small = _statements(world, tmp_path / "small.db")
    for food in (PEAS, APPLE, BEEF_RAW):
        stock(world, [(2, 30 + number) for number in range(20)], food=food)
    assert _statements(world, tmp_path / "large.db") == small <= 20
