"""One ordinary use of taking a list in."""

from __future__ import annotations

from stockroom.domain.conditions import Condition
from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.services import list_importing
from stockroom.services.list_importing import ListWishes
from stockroom.services.list_names import SaidFood
from tests.services.case import Case
from tests.world import PEAS, World

LIST = f"""\
Food;Dry weight (g);Wet weight (g);Container;Absorber;Vacuum;Sealed on;Made on;Place;Count;Note;Code
{PEAS};62,5;400;pouch-1500-foil;300 cc;;05.01.2026;04.01.2026;cellar/rack 2;2;für Zoë;A-1
{PEAS.upper()};60;380;pouch-1500-foil;300;yes;06.01.2026;04.01.2026;cellar;;;A-2
Leek soup;80;500;jar-950;;;06.01.2026;;;;;
"""
"""Three packages of peas in one lot, one jar of soup; a food and a place that are not there."""

WISHES = ListWishes(
    "larder.csv",
    foods={"leek soup": SaidFood(FoodClass.MEAL, Preparation.COOKED)},
    add_places=True,
    condition=Condition.SOUND,
)


def with_cellar(world: World) -> None:
    """A cellar, which the list names."""
    world.places("cellar")


EXCHANGE_CASES: dict[str, Case] = {
    "list_importing.take_list": Case(
        with_cellar, lambda room: list_importing.take_list(room, LIST, WISHES)
    ),
}
