"""What the store would give: against figures worked out by hand, and what is not counted."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.pages import WhyApart
from stockroom.domain.horizon.provision import LeftOut
from stockroom.services import eating_rates, history, places
from stockroom.services.eating_rates import set_group_target, set_rate, set_target
from stockroom.services.foods import change_food
from stockroom.services.provision import cover, targets
from tests.horizon_store import by_hand, stock
from tests.world import BEEF_RAW, PEAS, World

KCAL_A_DAY = 4600
"""Two people who are not listed: (2600 + 2000) / 2 kcal each, the reference man and woman of 36 to
40 years, moderately active (Dietary Guidelines for Americans, Appendix 2)."""


@pytest.fixture
def house(world: World) -> World:
    """Peas, 600 g as loaded in two packages, in a cellar and in a basket of the freezer."""
    places.add_place(world.room, "cellar")
    places.add_place(world.room, "chest", kind=places.PlaceKind.FREEZER)
    places.add_place(world.room, "chest/basket")
    stock(world, [(40, 100)], place="cellar")
    stock(world, [(20, 200)], place="chest/basket")
    return world


def test_energy_protein_and_water(house: World) -> None:
    """Boiled peas have 78 kcal and 5.15 g of protein in 100 g (USDA SR28, 11313)."""
    found = cover(house.room).provision
    assert (found.kcal, found.protein_g) == (6 * 78, 6 * Fraction("5.15"))
    assert found.days_by_energy == Fraction(6 * 78, KCAL_A_DAY)
    assert found.person_days_by_energy == 2 * found.days_by_energy
    # A fifth stayed after drying: 480 g of the 600 were water.
    assert found.rehydration_ml == 480
    (group,) = found.groups
    assert (group.group, group.packages, group.servings) == (FoodGroup.VEGETABLE, 2, 60)


def test_with_the_power_out_the_freezer_is_left_out(house: World) -> None:
    found = cover(house.room, power_out=True).provision
    assert (found.kcal, found.rehydration_ml) == (4 * 78, 320)
    (left,) = found.omitted
    assert (left.why, left.packages, left.servings) == (LeftOut.FREEZER, 1, 20)


def test_food_past_its_best_by_is_left_out(house: World) -> None:
    found = cover(house.later(100).room).provision
    (left,) = found.omitted
    assert (left.why, left.servings, found.kcal) == (LeftOut.PAST, 40, 2 * 78)


@pytest.mark.parametrize(
    ("condition", "why"), [("suspect", WhyApart.SUSPECT), ("held", WhyApart.HELD)]
)
def test_doubtful_food_is_said_apart(house: World, condition: str, why: WhyApart) -> None:
    by_hand(house, f"UPDATE package SET condition = '{condition}' WHERE id = 1")
    page = cover(house.room)
    (apart,) = page.apart
    assert (apart.why, apart.packages, apart.servings) == (why, 1, 40)
    assert page.provision.kcal == 2 * 78


def test_raw_food_counts_only_where_it_can_be_cooked(house: World) -> None:
    stock(house, [(30, 300)], food=BEEF_RAW)
    page = cover(house.room)
    assert [(one.why, one.servings) for one in page.apart] == [(WhyApart.RAW, 30)]
    assert page.provision.kcal == 6 * 78
    too = cover(house.room, raw_too=True)
    assert too.apart == () and too.provision.kcal > page.provision.kcal


def test_what_nobody_knows_is_no_nought(house: World) -> None:
    by_hand(house, "UPDATE food SET energy_tenth_kcal = NULL")
    found = cover(house.room).provision
    assert (found.unknown_kcal_servings, found.kcal) == (60, 0)
    assert found.protein_g == 6 * Fraction("5.15")


def test_the_target_is_the_usual_one_a_set_one_or_one_asked_for(house: World) -> None:
    page = cover(house.room)
    assert (page.target.days, page.target.was_set, page.target.asked) == (14, False, False)
    set_target(house.room, 1)
    page = cover(house.room)
    assert (page.target.days, page.target.was_set) == (1, True)
    assert page.provision.missing_kcal == KCAL_A_DAY - 6 * 78 and not page.provision.target_met
    page = cover(house.room, days=3)
    assert (page.target.days, page.target.asked) == (3, True)
    history.undo(house.room)
    assert cover(house.room).target.days == 14


def test_what_to_dry_next_by_a_set_target(house: World) -> None:
    set_group_target(house.room, FoodGroup.VEGETABLE, Fraction(80))
    (gap,) = cover(house.room).gaps
    assert (gap.target.servings, gap.have, gap.missing) == (80, 60, 20)
    assert gap.usual_months == (11,) and gap.months_away(house.room.today) == 0
    # The power has nothing to do with what is worth drying.
    assert cover(house.room, power_out=True).gaps == (gap,)
    set_group_target(house.room, FoodGroup.VEGETABLE, Fraction(60))
    assert cover(house.room).gaps == ()


def test_what_to_dry_next_by_what_is_eaten(house: World) -> None:
    """Five a day for 14 days are 70 servings; there are 60."""
    set_rate(house.room, PEAS, Fraction(5))
    (gap,) = cover(house.room).gaps
    assert (gap.target.servings, gap.missing) == (70, 10)
    (row,) = targets(house.room).groups
    assert (row.group, row.servings, row.was_set) == (FoodGroup.VEGETABLE, 70, False)
    eating_rates.clear_rate(house.room, PEAS)
    assert cover(house.room).gaps == () and targets(house.room).groups == ()


def test_a_store_with_nothing_in_it(world: World) -> None:
    page = cover(world.room)
    assert page.provision.days == 0 and page.provision.groups == () and page.gaps == ()
    assert page.provision.water.total_ml == 0


def test_servings_follow_the_size_of_a_serving(house: World) -> None:
    change_food(house.room, PEAS, serving_dg=200)
    (group,) = cover(house.room).provision.groups
    assert (group.servings, group.kcal) == (30, 6 * 78)
