"""One plausible use of every service about household measures, drawn by chance."""

from __future__ import annotations

from random import Random

from stockroom.domain.cooking import Basis, Occasion
from stockroom.domain.foods import Allergen
from stockroom.services import foods, measures
from stockroom.services.recipes import RecipeDetails
from stockroom.services.session import Stockroom

NAMES = ("cup", "Scoop", "für Zoë")


def _food(room: Stockroom, pick: Random) -> str:
    own = foods.list_foods(room)
    return pick.choice(own).name if own else "none"


def measure_name(room: Stockroom, pick: Random, food: str) -> tuple[str, str]:
    """A food with a measure of it, if any food has one."""
    every = measures.list_measures(room)
    if not every:
        return food, "cup"
    one = pick.choice(every)
    return one.food, one.name


def details(pick: Random) -> RecipeDetails:
    """What more is said of a recipe, or nothing."""
    if pick.random() < 0.5:
        return {}
    return {
        "hold_back_percent": pick.choice((None, 0, 100)),
        "cook_to_dc": pick.choice((None, 740, 630)),
        "water_temperature_dc": pick.choice((None, 600)),
        "occasion": pick.choice((None, *Occasion)),
        "allergens": pick.choice((None, (), pick.sample(list(Allergen), 2))),
    }


def _set(room: Stockroom, pick: Random) -> object:
    """Sometimes the weight it has, which is refused."""
    return measures.set_measure(
        room,
        _food(room, pick),
        pick.choice(NAMES),
        pick.choice((380, 380, 455)),
        basis=pick.choice((Basis.DRY, Basis.FRESH)),
    )


def _remove(room: Stockroom, pick: Random) -> object:
    food, name = measure_name(room, pick, _food(room, pick))
    return measures.remove_measure(room, food, name)


COOKING_STEPS = {
    "measures.set_measure": _set,
    "measures.remove_measure": _remove,
}
"""Service → a step that uses it."""
