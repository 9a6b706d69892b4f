"""A small household to plan menus for: peas and apples with dishes of both, some due soon."""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction

from stockroom.domain.conditions import Event
from stockroom.domain.cooking import Basis, Occasion
from stockroom.domain.menu_records import MenuOffer, MenuRequest
from stockroom.domain.menu_wishes import USUAL, MenuWishes
from stockroom.services import kitchen, menu, packages
from stockroom.services.kitchen import LineRequest
from stockroom.services.packages import Amount
from tests.world import APPLE, PEAS, World


def larder(world: World, *, dishes: int = 3) -> tuple[str, ...]:
    """Six pouches of peas and six of apples, main dishes of the one and breakfasts of the other.

    The first pouch of peas is open, so that what is in it is due soon. The codes, peas first.
    """
    peas = world.packed(PEAS, "6xpouch-1500-foil:100,absorber=300", wet_g=6000, dry_g=900)
    apples = world.packed(APPLE, "6xpouch-1500-foil:60,absorber=300", wet_g=4000, dry_g=480)
    packages.draw_package(world.room, peas[0], Amount(dry_dg=200))
    for number in range(dishes):
        kitchen.add_recipe(
            world.room,
            f"Pea dish {number}",
            2,
            [
                LineRequest(food=PEAS, basis=Basis.FRESH, amount=Fraction(300 + 50 * number)),
                LineRequest(item="rice", amount=Fraction(200), unit="g"),
            ],
            cooking_water_dg=5_000,
            cook_to_dc=740,
            fresh_kcal=1_500,
            fresh_protein_dg=400,
        )
        kitchen.add_recipe(
            world.room,
            f"Porridge {number}",
            2,
            [
                LineRequest(food=APPLE, basis=Basis.DRY, amount=Fraction(20 + 5 * number)),
                LineRequest(item="oats", amount=Fraction(200), unit="g"),
                LineRequest(item="salt"),
            ],
            fresh_kcal=1_600,
            fresh_protein_dg=300,
            occasion=Occasion.BREAKFAST,
        )
    return (*peas, *apples)


def asked(world: World, days: int = 3, wishes: MenuWishes = USUAL) -> MenuRequest:
    """So many days from today."""
    return MenuRequest(world.room.today, days, wishes)


def kept(world: World, days: int = 3, wishes: MenuWishes = USUAL) -> MenuOffer:
    """A menu of so many days, planned and kept."""
    offer = menu.plan_menu(world.room, asked(world, days, wishes))
    menu.keep_menu(world.room, offer)
    return offer


def soften(world: World, code: str) -> None:
    """Find a package soft, so that nothing is cooked from it."""
    packages.check_package(world.room, code, Event.SOFT)


def tomorrow(world: World) -> World:
    """The same household a day later."""
    return world.on(world.room.today + timedelta(days=1))
