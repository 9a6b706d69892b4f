"""The people through the services: what is kept, how figures are chosen, what it comes to."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from stockroom.domain.foods import Allergen
from stockroom.domain.member_records import Figures
from stockroom.domain.person import Activity, Sex
from stockroom.services import foods, people
from stockroom.services.history import undo
from stockroom.services.household import change_household
from stockroom.services.people import Told
from tests.services.cases_people import add_zoe, some_foods, zoe
from tests.world import APPLE, PEAS, TODAY, World

SIZED = Told(body_weight_dg=650_000, height_mm=1650)


def add(world: World, name: str, sex: str, age: float, told: Told | None = None) -> None:
    people.add_member(
        world.room,
        name,
        sex=Sex(sex),
        age_years=Fraction(age),
        activity=Activity.LOW,
        told=told or Told(),
    )


def test_what_was_told_is_kept(world: World) -> None:
    zoe(world)
    (one,) = people.list_members(world.room)
    assert (one.name, one.sex, one.age_tenths, one.age_on) == ("Zoë", Sex.FEMALE, 300, TODAY)
    assert (one.body_weight_dg, one.height_mm, one.activity) == (650_000, 1650, Activity.LOW)
    assert (one.figures, one.allergens) == (Figures.OLD, (Allergen.FISH, Allergen.MILK))
    assert [disliked.food for disliked in one.dislikes] == [PEAS]
    assert people.find_member(world.room, " ZO") == one


def test_the_need_of_a_family(world: World) -> None:
    """2600 + 2000 + 1600 + 2200 kcal (Dietary Guidelines for Americans, Appendix 2)."""
    change_household(world.room, people=4)
    for name, sex, age in (("a", "M", 40), ("b", "F", 38), ("c", "F", 9), ("d", "M", 13)):
        add(world, name, sex, age)
    assert people.household_need(world.room).kcal_per_day == 8400
    people.remove_member(world.room, "d")
    need = people.household_need(world.room)
    # The average adult in place of the boy: (2600 + 2000) / 2.
    assert (need.kcal_per_day, need.others) == (6200 + 2300, 1)
    undo(world.room)
    assert people.household_need(world.room).kcal_per_day == 8400


def test_the_number_of_people_alone(world: World) -> None:
    need = people.household_need(world.room)
    assert (need.members, need.people, need.kcal_per_day) == ((), 2, 4600)


def test_the_equation_and_its_other_edition(world: World) -> None:
    """EER of 2005, woman of 30, 65 kg, 1.65 m, low active: 2169.756 kcal (computed by hand)."""
    add(world, "Zoë", "F", 30, SIZED)
    change_household(world.room, people=1)
    assert people.household_need(world.room).kcal_per_day == Fraction("2169.756")
    people.change_member(world.room, "zoë", Told(figures=Figures.NEW))
    # 575.77 - 7.01 x 30 + 6.60 x 165 + 12.14 x 65
    assert people.household_need(world.room).kcal_per_day == Fraction("2243.57")
    people.change_member(world.room, "zoë", Told(figures=Figures.TABLE))
    assert people.household_need(world.room).kcal_per_day == 2000


def test_figures_follow_what_is_known_unless_chosen(world: World) -> None:
    add(world, "Ann", "F", 30)

    def now() -> Figures:
        return people.find_member(world.room, "Ann").figures

    assert now() is Figures.TABLE
    people.change_member(world.room, "Ann", SIZED)
    assert now() is Figures.OLD
    people.change_member(world.room, "Ann", Told(figures=Figures.NEW))
    people.change_member(world.room, "Ann", Told(activity=Activity.VERY))
    assert now() is Figures.NEW
    people.change_member(world.room, "Ann", Told(figures=Figures.TABLE))
    people.change_member(world.room, "Ann", Told(age_years=Fraction(31)))
    assert now() is Figures.TABLE
    people.change_member(world.room, "Ann", Told(figures=Figures.OLD))
    people.change_member(world.room, "Ann", Told(no_size=True))
    assert now() is Figures.TABLE
    assert people.find_member(world.room, "Ann").body_weight_dg is None


def test_a_child_with_a_size_who_grew_up(world: World) -> None:
    add(world, "Cy", "M", 17, SIZED)
    later = world.on(date(2029, 1, 1))
    assert people.household_need(later.room).members[0].need.edition is None
    people.change_member(later.room, "Cy", Told(height_mm=1800))
    grown = people.find_member(later.room, "Cy")
    assert (grown.figures, grown.body_weight_dg) == (Figures.OLD, 650_000)


def test_an_age_told_anew_counts_from_that_day(world: World) -> None:
    add(world, "Cy", "M", 8.75)
    later = world.on(date(2027, 11, 25))
    assert people.household_need(later.room).members[0].age_years == 9
    people.change_member(later.room, "Cy", Told(age_years=Fraction(10)))
    one = people.find_member(later.room, "Cy")
    assert (one.age_tenths, one.age_on) == (100, date(2027, 11, 25))


def test_who_must_not_get_what(world: World) -> None:
    some_foods(world)
    add_zoe(world.room)
    add(world, "Bo", "M", 40, Told(allergens=[Allergen.MILK, Allergen.MILK], dislikes=[APPLE]))
    avoid = people.eaters_avoid(world.room)
    assert [(one.allergen, one.who) for one in avoid.allergens] == [
        (Allergen.MILK, ("Zoë", "Bo")),
        (Allergen.FISH, ("Zoë",)),
    ]
    ids = {food.name: food.food_id for food in foods.list_foods(world.room)}
    assert [(one.food_id, one.who) for one in avoid.foods] == [
        (ids[APPLE], ("Bo",)),
        (ids[PEAS], ("Zoë",)),
    ]
    people.change_member(world.room, "Zoë", Told(allergens=[], dislikes=[]))
    avoid = people.eaters_avoid(world.room)
    assert [one.allergen for one in avoid.allergens] == [Allergen.MILK]
    assert [one.food for one in avoid.foods] == [APPLE]


def test_a_dislike_follows_its_food_to_another_name(world: World) -> None:
    zoe(world)
    foods.change_food(world.room, PEAS, new_name="Garden peas")
    assert [one.food for one in people.eaters_avoid(world.room).foods] == ["Garden peas"]


def test_cautions_stand_beside_a_new_person(world: World) -> None:
    some_foods(world)
    done = add_zoe(world.room)
    keys = [one.key for one in done.cautions]
    assert keys == ["honey", "weak-immunity", "local-codes"]


def test_the_working_ends_at_the_need(world: World) -> None:
    zoe(world)
    page = people.need_working(world.room)
    assert page.workings[0].conclusion == "4470 kcal and 103 g of protein for 2 people"
    assert len(page.workings) == 2
