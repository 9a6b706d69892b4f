"""How much to a package and which container: nothing overfilled, nothing of the lot left over."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from stockroom.domain.foods import FoodGroup
from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.packing_advice import (
    Fit,
    MealSize,
    best_fit,
    fit,
    loose_density,
    meal_size,
    vacuum_words,
)
from stockroom.domain.quantities import even_split
from stockroom.domain.records import Container
from stockroom.domain.working import Standing


def jar(volume_ml: int, key: str = "jar") -> Container:
    """A jar of that volume."""
    return Container(1, key, key, "jar", volume_ml, None, None)


def test_a_meal_is_the_servings_of_the_household_dried_by_the_lots_own_loss() -> None:
    """Four servings of 85 g from a lot of 1,000 g that came to 155 g: 340 x 0.155 = 52.7 g."""
    assert meal_size(4, 850, 10_000, 1_550) == MealSize(4, 850, 527)
    assert meal_size(1, 1, 90_000, 1).dry_dg == 1
    assert meal_size(3, 900, 5_000, 5_000).dry_dg == 2_700


@settings(max_examples=150, deadline=None)
@given(
    people=st.integers(1, 500),
    serving_dg=st.integers(1, 10_000),
    wet_dg=st.integers(1, 200_000),
    share=st.fractions(0, 1),
)
def test_a_meal_comes_back_to_no_more_than_the_servings(
    people: int, serving_dg: int, wet_dg: int, share: Fraction
) -> None:
    dry_dg = max(1, int(wet_dg * share))
    meal = meal_size(people, serving_dg, wet_dg, dry_dg)
    back = Fraction(meal.dry_dg * wet_dg, dry_dg)
    wanted = people * serving_dg
    assert meal.dry_dg >= 1
    assert back <= wanted or meal.dry_dg == 1
    assert back > wanted - Fraction(wet_dg, dry_dg)


def test_the_fullest_package_of_the_household_tells_how_loosely_a_food_lies() -> None:
    assert loose_density(FoodGroup.FRUIT, [(400, 475), (300, 1_500), (620, 475)]) == (130, True)
    assert loose_density(FoodGroup.FRUIT, [(0, 475)]) == loose_density(FoodGroup.FRUIT, [])


@pytest.mark.parametrize("group", [*FoodGroup, None])
def test_every_group_has_a_loose_weight_a_household_could_pour(group: FoodGroup | None) -> None:
    """Freeze-dried pieces and powders as poured: tens to a few hundred mg per mL, far below the
    1,500 mg/mL of the solids themselves."""
    density, own = loose_density(group, [])
    assert not own
    assert 10 <= density <= 500


FITS = {
    "volume_ml": st.integers(1, 20_000),
    "left_dg": st.integers(1, 200_000),
    "meal_dg": st.integers(1, 50_000),
    "density": st.integers(10, 600),
}


@settings(max_examples=300, deadline=None)
@given(**FITS)
def test_nothing_is_overfilled_and_the_whole_lot_goes_in(
    volume_ml: int, left_dg: int, meal_dg: int, density: int
) -> None:
    found = fit(jar(volume_ml), left_dg, MealSize(2, 850, meal_dg), (density, False))
    holds_mg = volume_ml * density
    if found is None:
        assert holds_mg < 1_000, "a gram would have fitted"
        return
    # As it is then packed: the rest of the lot shared evenly over so many.
    shares = even_split(left_dg, found.count)
    assert sum(shares) == left_dg
    assert min(shares) >= 1
    assert max(shares) * 100 <= holds_mg
    assert max(shares) <= meal_dg, "an opened package is finished at one meal"
    assert found.each_dg == min(shares)
    # No more packages than that takes.
    assert found.count == 1 or left_dg > (found.count - 1) * min(meal_dg, holds_mg // 100)


@settings(max_examples=200, deadline=None)
@given(**FITS)
def test_a_whole_meal_goes_into_one_package_where_it_fits(
    volume_ml: int, left_dg: int, meal_dg: int, density: int
) -> None:
    found = fit(jar(volume_ml), left_dg, MealSize(2, 850, meal_dg), (density, True))
    assume(found is not None)
    assert found is not None
    holds_dg = volume_ml * density // 100
    wanted_dg = min(meal_dg, left_dg)
    assert (found.to_a_meal == 1) == (wanted_dg <= holds_dg)
    assert (found.to_a_meal - 1) * holds_dg < wanted_dg <= found.to_a_meal * holds_dg
    assert (found.density_mg_per_ml, found.own) == (density, True)


@settings(max_examples=200, deadline=None)
@given(
    volumes=st.lists(st.integers(1, 5_000), max_size=6),
    left_dg=st.integers(1, 50_000),
    meal_dg=st.integers(1, 5_000),
)
def test_the_best_is_the_smallest_that_takes_a_meal(
    volumes: list[int], left_dg: int, meal_dg: int
) -> None:
    found = [
        one
        for one in (
            fit(jar(volume, f"jar-{volume}"), left_dg, MealSize(2, 850, meal_dg), (140, False))
            for volume in volumes
        )
        if one is not None
    ]
    best = best_fit(found)
    if not found:
        assert best is None
        return
    assert best is not None
    whole = [one.container.volume_ml for one in found if one.to_a_meal == 1]
    if whole:
        assert (best.to_a_meal, best.container.volume_ml) == (1, min(whole))
    else:
        assert best.to_a_meal == min(one.to_a_meal for one in found)
    assert best_fit(list(reversed(found))) == best


def test_of_two_that_take_a_meal_the_smaller_is_advised() -> None:
    """62 g of strawberries at 0.09 g/mL need 689 mL."""
    meal = MealSize(4, 1_400, 620)
    fits = [
        fit(jar(volume, f"jar-{volume}"), 1_240, meal, (90, False)) for volume in (475, 950, 1_900)
    ]
    best = best_fit([one for one in fits if one is not None])
    assert best == Fit(jar(950, "jar-950"), 2, 620, 1, 90, False)


@pytest.mark.parametrize(
    ("group", "kind", "said"),
    [
        (FoodGroup.EGG, PackageKind.JAR, "powder is drawn into the seal"),
        (FoodGroup.DAIRY, PackageKind.FOIL_POUCH, "powder is drawn into the seal"),
        (FoodGroup.FRUIT, PackageKind.JAR, "in a jar built for it"),
        (FoodGroup.FRUIT, PackageKind.FOIL_POUCH, "break and pierce the film"),
        (FoodGroup.MEAL, PackageKind.VACUUM_BAG, "presses the food to crumbs"),
        (None, PackageKind.FOIL_POUCH, "presses the food to crumbs"),
    ],
)
def test_whether_vacuum_suits_is_said_with_its_standing(
    group: FoodGroup | None, kind: PackageKind, said: str
) -> None:
    words = vacuum_words(group, kind)
    assert said in words
    assert Standing.COMMON_PRACTICE.words in words


def test_vacuum_is_never_said_to_replace_an_absorber() -> None:
    for group in (*FoodGroup, None):
        for kind in PackageKind:
            assert "absorber" in vacuum_words(group, kind) or "No vacuum" in vacuum_words(
                group, kind
            )
