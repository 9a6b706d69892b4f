"""Recipes scaled, picked and wetted."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.cooking import (
    Basis,
    FreshNeed,
    Measure,
    MeasureMissing,
    NobodyToCookFor,
    Recipe,
    ScaledRecipe,
    StoredNeed,
    cook_plan,
    scale,
)
from stockroom.domain.packing import ServingMissing
from stockroom.domain.rotation import Candidate

PEAS, STEW = 1, 2


def package(package_id: int, food_id: int, dry_dg: int, water_dg: int, made: int = 0) -> Candidate:
    """An unopened package made so many days after the first."""
    made_on = date(2026, 3, 1) + timedelta(days=made)
    return Candidate(
        package_id,
        f"26060A{package_id:02d}",
        food_id,
        made_on,
        date(2030, 1, 1),
        False,
        dry_dg,
        water_dg,
    )


SOUP = Recipe(
    "pea soup",
    serves=4,
    cooking_water_dg=10_000,
    lines=(
        StoredNeed(PEAS, "peas", Basis.FRESH, 5_000),
        FreshNeed("onion", Fraction(2), None),
        StoredNeed(STEW, "stew", Basis.SERVINGS, Fraction(1), serving_dg=2_500),
        FreshNeed("salt", None, None),
        StoredNeed(PEAS, "peas, ground", Basis.DRY, 101),
    ),
)


def test_scaling_up_by_half() -> None:
    assert scale(SOUP, 6) == ScaledRecipe(
        "pea soup",
        6,
        Fraction(3, 2),
        15_000,
        (
            StoredNeed(PEAS, "peas", Basis.FRESH, 7_500),
            FreshNeed("onion", Fraction(3), None),
            StoredNeed(STEW, "stew", Basis.SERVINGS, Fraction(3, 2), serving_dg=2_500),
            FreshNeed("salt", None, None),
            StoredNeed(PEAS, "peas, ground", Basis.DRY, 152),
        ),
    )


def test_scaling_for_the_people_it_serves_changes_nothing() -> None:
    assert scale(SOUP, 4).lines == SOUP.lines


@given(people=st.integers(1, 60), serves=st.integers(1, 12), amount=st.integers(0, 50_000))
def test_scaling_is_exact_and_rounds_weights_once(people: int, serves: int, amount: int) -> None:
    recipe = Recipe(
        "dish",
        serves,
        amount,
        (
            StoredNeed(PEAS, "peas", Basis.DRY, amount),
            StoredNeed(PEAS, "peas", Basis.SERVINGS, Fraction(amount, 7), 2_000),
            FreshNeed("milk", Fraction(amount, 3), "mL"),
        ),
    )
    scaled = scale(recipe, people)
    exact = Fraction(amount * people, serves)
    dry, servings, milk = scaled.lines
    assert isinstance(dry, StoredNeed)
    assert isinstance(servings, StoredNeed)
    assert isinstance(milk, FreshNeed)
    assert isinstance(dry.amount, int)
    assert abs(dry.amount - exact) <= Fraction(1, 2)
    assert abs(scaled.cooking_water_dg - exact) <= Fraction(1, 2)
    assert servings.amount == Fraction(amount, 7) * people / serves
    assert milk.amount == Fraction(amount, 3) * people / serves


@pytest.mark.parametrize(("serves", "people"), [(4, 0), (4, -1), (0, 4)])
def test_cooking_for_nobody_is_refused(serves: int, people: int) -> None:
    with pytest.raises(NobodyToCookFor) as caught:
        scale(Recipe("pea soup", serves, 0, ()), people)
    assert "pea soup" in caught.value.message


def test_a_need_in_servings_needs_the_serving_weight() -> None:
    for serving_dg in (None, 0, -5):
        with pytest.raises(ServingMissing):
            StoredNeed(STEW, "stew", Basis.SERVINGS, Fraction(1), serving_dg)


def test_what_a_need_wants() -> None:
    assert StoredNeed(STEW, "stew", Basis.SERVINGS, Fraction(3, 2), 2_500).wanted_dg == 3_750
    assert StoredNeed(STEW, "stew", Basis.SERVINGS, Fraction(1, 3), 2_500).wanted_dg == 833
    assert StoredNeed(STEW, "stew", Basis.FRESH, 3_750, 2_500).wanted_dg == 3_750
    assert StoredNeed(STEW, "stew", Basis.DRY, 77).wanted_dg == 77


# B4's ratio (62 g dry with 338 g water, computed) for the peas; one part to three for the stew.
SHELF = {
    PEAS: (package(1, PEAS, 620, 3_380), package(2, PEAS, 620, 3_380, made=1)),
    STEW: (package(3, STEW, 1_000, 3_000),),
}


def test_a_plan_line_by_line() -> None:
    plan = cook_plan(scale(SOUP, 4), SHELF)
    peas, stew, ground = plan.lines
    assert [(p.candidate.package_id, p.take_dg, p.water_dg) for p in peas.picks] == [
        (1, 620, 3_380),
        (2, 155, 845),
    ]
    assert (peas.dry_dg, peas.water_dg, peas.shortfall_dg) == (775, 4_225, 0)
    assert [(p.candidate.package_id, p.take_dg, p.water_dg) for p in stew.picks] == [
        (3, 625, 1_875)
    ]
    assert [p.candidate.package_id for p in ground.picks] == [2]
    assert (ground.dry_dg, ground.need.food_name) == (101, "peas, ground")
    assert (plan.name, plan.people) == ("pea soup", 4)
    assert plan.water_dg == 4_225 + 1_875 + ground.water_dg
    assert plan.cooking_water_dg == 10_000
    assert [need.item for need in plan.fresh] == ["onion", "salt"]
    assert plan.short == ()


def test_the_second_line_finds_what_the_first_left_opened() -> None:
    plan = cook_plan(scale(SOUP, 4), SHELF)
    (ground,) = plan.lines[2].picks
    assert ground.candidate.available_dg == 620 - 155
    assert ground.candidate.water_dg == 3_380 - 845
    assert not ground.opens
    assert plan.lines[0].picks[0].opens


def test_a_shortfall_is_named_in_the_need_s_own_unit() -> None:
    plan = cook_plan(scale(SOUP, 8), {PEAS: SHELF[PEAS]})
    peas, stew, ground = plan.lines
    assert (peas.dry_dg, peas.shortfall_dg, peas.shortfall_servings) == (1_240, 2_000, None)
    assert (stew.picks, stew.shortfall_dg, stew.shortfall_servings) == ((), 5_000, Fraction(2))
    assert (ground.picks, ground.shortfall_dg) == ((), 202)
    assert plan.short == plan.lines
    assert plan.water_dg == 6_760


def test_a_tenth_of_a_gram_short_is_short() -> None:
    recipe = Recipe("stew", 1, 0, (StoredNeed(STEW, "stew", Basis.DRY, 1_001),))
    assert [line.shortfall_dg for line in cook_plan(scale(recipe, 1), SHELF).short] == [1]


needs = st.builds(
    StoredNeed,
    food_id=st.sampled_from([PEAS, STEW]),
    food_name=st.just("food"),
    basis=st.sampled_from(Basis),
    amount=st.integers(0, 6_000),
    serving_dg=st.just(1),
    measure=st.sampled_from([Measure("spoon", Basis.DRY, 1), Measure("spoon", Basis.FRESH, 1)]),
    hold_back_percent=st.one_of(st.none(), st.integers(0, 100)),
)
packages = st.lists(
    st.tuples(st.integers(1, 900), st.integers(0, 5_000), st.integers(0, 3)), max_size=6
)


@given(lines=st.lists(needs, max_size=6), peas=packages, stew=packages)
def test_no_plan_takes_more_than_the_shelf_or_loses_water(
    lines: list[StoredNeed],
    peas: list[tuple[int, int, int]],
    stew: list[tuple[int, int, int]],
) -> None:
    shelf = {
        food_id: [
            package(100 * food_id + n, food_id, dry, water, made)
            for n, (dry, water, made) in enumerate(rows)
        ]
        for food_id, rows in ((PEAS, peas), (STEW, stew))
    }
    plan = cook_plan(ScaledRecipe("dish", 1, Fraction(1), 7, tuple(lines)), shelf)
    assert plan.cooking_water_dg == 7
    assert plan.water_dg == sum(line.water_dg for line in plan.lines) == plan.water.all_dg
    picks = [pick for line in plan.lines for pick in line.picks]
    for each in shelf[PEAS] + shelf[STEW]:
        mine = [pick for pick in picks if pick.candidate.package_id == each.package_id]
        dry_dg, water_dg = sum(p.take_dg for p in mine), sum(p.water_dg for p in mine)
        assert dry_dg <= each.available_dg
        assert water_dg <= each.water_dg
        assert (water_dg == each.water_dg) if dry_dg == each.available_dg else True
        assert all(pick.candidate.food_id == each.food_id for pick in mine)
        assert sum(pick.opens for pick in mine) == (1 if mine else 0)
    for line in plan.lines:
        got = line.dry_dg if line.need.counts_dry else line.dry_dg + line.water_dg
        assert line.water.now_dg + line.water.held_dg == line.water_dg
        assert got + line.shortfall_dg >= line.need.wanted_dg
        assert line.dry_dg == sum(pick.take_dg for pick in line.picks)
        assert all(pick.candidate.food_id == line.need.food_id for pick in line.picks)


# Household measures, servings, and water held back


def test_a_measure_counts_dry_or_fresh_as_it_was_weighed() -> None:
    cup = Measure("cup", Basis.DRY, 380)
    need = StoredNeed(PEAS, "peas", Basis.MEASURE, Fraction(3, 2), measure=cup)
    assert (need.wanted_dg, need.counts_dry) == (570, True)
    fresh = StoredNeed(
        PEAS, "peas", Basis.MEASURE, Fraction(3, 2), measure=Measure("cup", Basis.FRESH, 1_450)
    )
    assert (fresh.wanted_dg, fresh.counts_dry) == (2_175, False)
    (line,) = cook_plan(scale(Recipe("mash", 2, 0, (need,)), 3), SHELF).lines
    assert (line.dry_dg, line.need.amount) == (855, Fraction(9, 4))


def test_a_measure_nobody_weighed_is_refused() -> None:
    with pytest.raises(MeasureMissing):
        StoredNeed(PEAS, "peas", Basis.MEASURE, Fraction(1))


def test_servings_decide_the_amounts_and_people_who_eats() -> None:
    scaled = scale(SOUP, 3, Fraction(5, 2))
    assert (scaled.people, scaled.factor, scaled.servings) == (3, Fraction(5, 8), Fraction(5, 2))
    assert scaled.cooking_water_dg == 6_250
    assert cook_plan(scaled, SHELF).count == Fraction(5, 2)
    assert cook_plan(scale(SOUP, 3), SHELF).count == 3
    for servings in (Fraction(0), Fraction(-1, 2)):
        with pytest.raises(NobodyToCookFor):
            scale(SOUP, 3, servings)


def test_a_line_s_own_share_goes_before_the_dish_s() -> None:
    lines = (
        StoredNeed(PEAS, "peas", Basis.DRY, 620, hold_back_percent=0),
        StoredNeed(STEW, "stew", Basis.DRY, 1_000),
    )
    plan = cook_plan(scale(Recipe("dish", 1, 0, lines, hold_back_percent=25), 1), SHELF)
    peas, stew = plan.lines
    assert (peas.water.now_dg, peas.water.held_dg) == (3_380, 0)
    assert (stew.water.now_dg, stew.water.held_dg) == (2_250, 750)
    assert (plan.water.now_dg, plan.water.held_dg) == (5_630, 750)


def test_without_a_word_three_tenths_of_the_water_are_held_back() -> None:
    plan = cook_plan(scale(SOUP, 4), SHELF)
    assert [line.hold_back_percent for line in plan.lines] == [30, 30, 30]
