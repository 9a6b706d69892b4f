"""Provision against the planning figures, what to dry next, and what was eaten other years."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction
from statistics import stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.energy import energy_need
from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.dry_next import DriedLot, GroupTarget, dry_next
from stockroom.domain.horizon.odds import EATING_SPREAD_SHARE
from stockroom.domain.horizon.past_eating import (
    PastDraw,
    eating_patterns,
    paces_of,
    relative_spread,
)
from stockroom.domain.horizon.provision import LeftOut, Needs, StoredFood, needs_of, provision
from stockroom.domain.person import Activity, Person, Sex
from tests.domain.horizon_cases import START, day, package

FOUR = Needs(4, Fraction(8400), Fraction(200), 14)


def food(
    package_id: int,
    group: FoodGroup = FoodGroup.MEAL,
    *,
    best: int = 400,
    kcal: int | None = 8400,
    protein: int | None = 200,
    water_ml: int = 6000,
    freezer: bool = False,
    held: bool = False,
) -> StoredFood:
    """A package of ten servings with what it gives."""
    return StoredFood(
        package(package_id, best, 10),
        group,
        None if kcal is None else Fraction(kcal),
        None if protein is None else Fraction(protein),
        Fraction(water_ml),
        freezer,
        held,
    )


def test_four_people_for_a_fortnight() -> None:
    # Dietary Guidelines for Americans, moderately active: 2600 + 2000 + 1600 + 2200 = 8400 kcal a
    # day, 117,600 in 14 days. FEMA's gallon: 56 US gallons = 211.98 L; 1.5 L each to rehydrate:
    # 84 L = 22.2 gallons.
    people = [
        energy_need(Person(sex, Fraction(age), Activity.LOW))
        for sex, age in ((Sex.MALE, 40), (Sex.FEMALE, 38), (Sex.FEMALE, 9), (Sex.MALE, 13))
    ]
    needs = needs_of(people, 14)
    assert (needs.people, needs.kcal_per_day, needs.without_protein_figure) == (4, 8400, 2)
    found = provision([food(number) for number in range(14)], needs, START)
    assert found.kcal == 117_600
    assert (found.days_by_energy, found.person_days_by_energy) == (14, 56)
    assert not found.missing_kcal and found.target_met
    assert float(found.water.stored_ml) / 1000 == pytest.approx(211.98, abs=0.005)
    assert found.water.rehydration_ml == 84_000
    assert float(found.water.rehydration_ml) / 3785.411784 == pytest.approx(22.2, abs=0.05)
    assert found.water.days == 14


def test_energy_and_protein_each_have_their_days_and_the_shorter_counts() -> None:
    found = provision([food(1, protein=100), food(2, protein=100)], FOUR, START)
    assert (found.days_by_energy, found.days_by_protein, found.days) == (2, 1, 1)
    assert (found.person_days_by_energy, found.person_days_by_protein) == (8, 4)
    assert (found.missing_kcal, found.missing_protein_g) == (12 * 8400, 13 * 200)
    assert not found.target_met
    none = provision([food(1)], Needs(1, Fraction(2000), Fraction(0), 1), START)
    assert (none.days_by_protein, none.person_days_by_protein) == (None, None)
    assert none.days == none.days_by_energy == Fraction(42, 10)


def test_groups_add_up_with_the_most_energy_first() -> None:
    shelf = [
        food(1, FoodGroup.FRUIT, kcal=500, protein=5),
        food(2, FoodGroup.MEAL),
        food(3, FoodGroup.FRUIT, kcal=600, protein=6),
    ]
    found = provision(shelf, FOUR, START)
    assert [(one.group, one.packages, one.servings, one.kcal) for one in found.groups] == [
        (FoodGroup.MEAL, 1, 10, 8400), (FoodGroup.FRUIT, 2, 20, 1100),
    ]  # fmt: skip
    assert (found.kcal, found.protein_g) == (9500, 211)


def test_without_power_the_freezer_does_not_count() -> None:
    shelf = [food(1), food(2, freezer=True), food(3, freezer=True, held=True), food(4, best=0)]
    lit = provision(shelf, FOUR, START)
    assert (lit.days, [(one.why, one.packages) for one in lit.omitted]) == (3, [(LeftOut.PAST, 1)])
    dark = provision(shelf, FOUR, START, power_out=True)
    assert dark.days == 1
    assert [(one.why, one.packages, one.servings) for one in dark.omitted] == [
        (LeftOut.PAST, 1, 10), (LeftOut.FREEZER, 1, 10), (LeftOut.HELD, 1, 10),
    ]  # fmt: skip
    assert dark.rehydration_ml == 6000
    assert provision(shelf, FOUR, START, past_too=True).days == 4
    assert "not safety" in LeftOut.PAST


def test_what_nobody_knows_is_counted_apart() -> None:
    found = provision([food(1), food(2, kcal=None, protein=None)], FOUR, START)
    assert (found.days, found.unknown_kcal_servings, found.unknown_protein_servings) == (1, 10, 10)
    # It is food all the same, and takes up its water.
    assert found.rehydration_ml == 12_000
    assert found.groups[0].servings == 20


@pytest.mark.parametrize(
    ("days", "stored_days", "rehydration_ml"),
    [(0, 0, 0), (1, 1, 6000), (2, 2, 12000), (9, 9, 12000)],
)
def test_water_goes_with_the_food_that_is_eaten(
    days: int, stored_days: int, rehydration_ml: int
) -> None:
    found = provision([food(1), food(2)], FOUR, START).water_for(days)
    assert found.stored_ml == provision([], FOUR, START).water_for(stored_days).stored_ml
    assert found.rehydration_ml == rehydration_ml


def test_an_empty_shelf_feeds_nobody() -> None:
    found = provision([], FOUR, START)
    assert (found.days, found.groups, found.water.total_ml) == (0, (), 0)
    assert found.missing_kcal == 14 * 8400


@pytest.mark.parametrize(
    "values", [(0, 2000, 50, 3), (2, 0, 50, 3), (2, 2000, -1, 3), (2, 2000, 50, -1)]
)
def test_needs_that_are_none(values: tuple[int, int, int, int]) -> None:
    people, kcal, protein, days = values
    with pytest.raises(ValueError, match=r"\d"):
        Needs(people, Fraction(kcal), Fraction(protein), days)


def lot(food_id: int, name: str, group: FoodGroup, made: str) -> DriedLot:
    """A lot of ten servings."""
    return DriedLot(food_id, name, group, date.fromisoformat(made), Fraction(10))


FRUIT, VEGETABLE, GRAIN = FoodGroup.FRUIT, FoodGroup.VEGETABLE, FoodGroup.GRAIN_COOKED
TARGETS = (
    GroupTarget(FRUIT, Fraction(100)),
    GroupTarget(VEGETABLE, Fraction(200)),
    GroupTarget(GRAIN, Fraction(50)),
)
LOTS = (
    lot(1, "apple slices", FRUIT, "2024-09-10"),
    lot(1, "apple slices", FRUIT, "2025-10-02"),
    lot(2, "blackberries", FRUIT, "2025-09-01"),
    lot(3, "peas", VEGETABLE, "2025-07-01"),
)


def test_the_largest_share_missing_comes_first() -> None:
    have = {FRUIT: Fraction(60), VEGETABLE: Fraction(130), GRAIN: Fraction(60)}
    first, second = dry_next(have, TARGETS, LOTS)
    assert (first.target.group, first.missing, first.missing_share) == (FRUIT, 40, Fraction(2, 5))
    assert (second.target.group, second.missing) == (VEGETABLE, 70)
    assert [(one.food, one.total) for one in first.foods] == [
        ("apple slices", 2), ("blackberries", 1),
    ]  # fmt: skip
    assert first.lots == (0, 0, 0, 0, 0, 0, 0, 0, 2, 1, 0, 0)
    assert first.usual_months == (9, 10)
    assert [first.months_away(date(2026, month, 5)) for month in (3, 9, 10, 11)] == [6, 0, 0, 10]


def test_a_group_never_dried_has_no_month() -> None:
    (gap,) = dry_next({}, [GroupTarget(GRAIN, Fraction(5))], LOTS)
    assert (gap.have, gap.usual_months, gap.months_away(START)) == (0, (), None)
    assert dry_next({}, [GroupTarget(GRAIN, Fraction(0))]) == ()


def test_a_rare_month_is_not_a_usual_one() -> None:
    lots = [lot(1, "peas", VEGETABLE, "2025-07-01")] * 10 + [
        lot(1, "peas", VEGETABLE, "2025-01-01")
    ]
    (gap,) = dry_next({}, [TARGETS[1]], lots)
    assert gap.usual_months == (7,)


def test_targets_that_are_none() -> None:
    with pytest.raises(ValueError, match="two targets"):
        dry_next({}, [TARGETS[0]] * 2)
    with pytest.raises(ValueError, match="below nought"):
        dry_next({}, [GroupTarget(FRUIT, Fraction(-1))])


def test_the_pattern_of_a_year() -> None:
    # Two servings every other day of July, one on 1 January, none else.
    draws = [PastDraw(1, date(2025, 7, number), Fraction(2)) for number in range(1, 32, 2)]
    draws += [
        PastDraw(1, date(2025, 1, 1), Fraction(1)),
        PastDraw(1, date(2026, 1, 1), Fraction(9)),
    ]
    (found,) = eating_patterns(draws, date(2025, 1, 1), date(2025, 12, 31))
    july, january = found.months[6], found.months[0]
    assert (july.days, july.servings, january.servings) == (31, 32, 1)
    assert july.servings_per_day == Fraction(32, 31)
    # Sample standard deviation of the 31 days, by the standard library.
    assert july.daily_spread == pytest.approx(stdev([2.0, 0.0] * 15 + [2.0]))
    assert found.year.days == 365 and found.year.servings == 33
    assert [one.days for one in found.seasons] == [90, 92, 92, 91]
    assert found.months[3].servings_per_day == 0


def test_a_short_record_is_spoken_for_by_a_longer_one() -> None:
    # From 21 May to 30 June: 11 days of May are too few, 41 of spring and summer are not.
    first, last = date(2025, 5, 21), date(2025, 6, 30)
    draws = [PastDraw(1, date(2025, 6, 3), Fraction(30)), PastDraw(1, first, Fraction(11))]
    (found,) = eating_patterns(draws, first, last)
    assert found.speaks_for(6).servings_per_day == 1
    assert found.speaks_for(5) == found.year
    assert found.speaks_for(12).servings_per_day == Fraction(1)
    (summer,) = eating_patterns(draws, date(2025, 5, 25), date(2025, 7, 15))
    # July has 15 days on record; June and July have 45 together.
    assert summer.speaks_for(7).days == 45 and summer.speaks_for(6).days == 30


def test_the_pattern_becomes_paces() -> None:
    draws = [PastDraw(4, date(2025, month, 1), Fraction(month)) for month in range(1, 13)]
    (found,) = eating_patterns(draws, date(2025, 1, 1), date(2025, 12, 31))
    eating = paces_of(found, date(2026, 11, 25), 60)
    assert eating.food_id == 4
    assert [(one.from_day, one.servings_per_day) for one in eating.paces] == [
        (date(2026, 11, 25), Fraction(11, 30)),
        (date(2026, 12, 1), Fraction(12, 31)),
        (date(2027, 1, 1), Fraction(1, 31)),
    ]


@given(st.lists(st.tuples(st.integers(0, 364), st.fractions(0, 6)), max_size=20))
def test_a_year_of_the_pattern_eats_what_was_eaten(days: list[tuple[int, Fraction]]) -> None:
    first = date(2025, 1, 1)
    draws = [PastDraw(1, first + timedelta(days=number), amount) for number, amount in days]
    for pattern in eating_patterns(draws, first, date(2025, 12, 31)):
        paces = paces_of(pattern, date(2026, 1, 1), 365).paces
        ends = [*(pace.from_day for pace in paces[1:]), date(2027, 1, 1)]
        eaten = sum(
            (pace.servings_per_day * (end - pace.from_day).days
             for pace, end in zip(paces, ends, strict=True)), Fraction(0)
        )  # fmt: skip
        assert eaten == sum((draw.servings for draw in draws), Fraction(0))


def test_spread_by_chance_and_by_year_add_by_squares() -> None:
    draws = [PastDraw(1, day(number), Fraction(2)) for number in range(0, 100, 2)]
    (found,) = eating_patterns(draws, day(0), day(99))
    by_chance = stdev([2.0, 0.0] * 50) / 1.0
    assert relative_spread(found, 4) == pytest.approx(
        (by_chance**2 / 4 + EATING_SPREAD_SHARE**2) ** 0.5
    )
    (single,) = eating_patterns([PastDraw(1, day(0), Fraction(1))], day(0), day(0))
    assert single.year.daily_spread is None
    assert relative_spread(single, 10) == EATING_SPREAD_SHARE


def test_a_record_runs_forward() -> None:
    with pytest.raises(ValueError, match="a record from"):
        eating_patterns([], day(1), day(0))
    assert eating_patterns([PastDraw(1, day(5), Fraction(1))], day(0), day(1)) == ()
