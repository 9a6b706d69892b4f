"""Dishes for the tests of the Kitchen: plain, raw, of egg, and one the shelves are short of."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.cooking import Basis
from stockroom.domain.foods import Allergen, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.services import foods, recipes
from stockroom.services.kitchen import LineRequest
from tests.tui.screen_text import HARD_NAME
from tests.world import BEEF_RAW, PEAS, World

EGG = "Our scrambled egg"
SOY = "Our soy mash"


def soup(world: World, *, packed: bool = True) -> str:
    """Peas on the shelf, and a soup that wants 200 g of them as fresh for two."""
    code = world.dry_lot(PEAS, 1000, 155)
    if packed:
        world.pack(code, "2xjar-950:60")
    return world.recipe()


def short_soup(world: World) -> str:
    """A soup that is short of peas; two other foods could stand in, one with a new allergen."""
    world.packed(PEAS, "1xpouch-400-foil:10")
    for name, allergens in ((HARD_NAME, ()), (SOY, (Allergen.SOYBEANS,))):
        foods.add_food(world.room, name, like=PEAS, allergens=list(allergens))
        world.packed(name, "1xjar-950:140", wet_g=1000, dry_g=150)
    return world.recipe()


def raw_stew(world: World, cook_to_dc: int | None = None) -> str:
    """A stew of raw beef for two, with fresh milk in it."""
    world.packed(BEEF_RAW, "2xjar-950:100,vacuum", wet_g=900, dry_g=260)
    lines = [LineRequest(food=BEEF_RAW, basis=Basis.FRESH, amount=Fraction(300))]
    recipes.add_recipe(
        world.room, "Stew", 2, lines, cook_to_dc=cook_to_dc, allergens=[Allergen.MILK]
    )
    return "Stew"


def eggs(world: World) -> str:
    """A breakfast of rehydrated egg."""
    foods.add_food(
        world.room,
        EGG,
        food_class=FoodClass.EGG,
        preparation=Preparation.COOKED,
        group=FoodGroup.EGG,
    )
    world.packed(EGG)
    lines = [LineRequest(food=EGG, basis=Basis.FRESH, amount=Fraction(100))]
    return world.recipe("Breakfast", 2, lines)
