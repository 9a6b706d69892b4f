"""One ordinary use of every service about the people of the household."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.foods import Allergen
from stockroom.domain.member_records import Figures
from stockroom.domain.person import Activity, Sex
from stockroom.services import foods, people
from stockroom.services.people import Told
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from tests.services.case import Case
from tests.world import APPLE, PEAS, World


def some_foods(world: World) -> None:
    """Two foods of the household's own."""
    for name in (PEAS, APPLE):
        foods.add_food(world.room, name, like=name)


def add_zoe(room: Stockroom, name: str = "Zoë") -> Done:
    """A woman of 30 whose energy is a check value of the equation."""
    return people.add_member(
        room,
        name,
        sex=Sex.FEMALE,
        age_years=Fraction(30),
        activity=Activity.LOW,
        told=Told(
            body_weight_dg=650_000,
            height_mm=1650,
            allergens=[Allergen.FISH, Allergen.MILK],
            dislikes=[PEAS],
        ),
    )


def zoe(world: World) -> None:
    """Zoë is listed."""
    some_foods(world)
    add_zoe(world.room)


PEOPLE_CASES: dict[str, Case] = {
    "people.add_member": Case(some_foods, add_zoe),
    "people.change_member": Case(
        zoe,
        lambda room: people.change_member(
            room,
            "zoë",
            Told(
                age_years=Fraction(31),
                figures=Figures.NEW,
                allergens=[Allergen.FISH, Allergen.SESAME],
                dislikes=[APPLE],
            ),
            new_name="Zoë the elder",
        ),
    ),
    "people.remove_member": Case(zoe, lambda room: people.remove_member(room, "Zoë")),
}
"""Service → a use of it."""
