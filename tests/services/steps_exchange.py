"""Taking in a list made by chance; some hold what cannot be and are refused."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from random import Random

from stockroom.domain.conditions import Condition
from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.services import list_importing
from stockroom.services.list_importing import ListWishes
from stockroom.services.list_names import ANY_FOOD, SaidFood
from stockroom.services.session import Stockroom
from tests.world import APPLE, PEAS

FOODS = (PEAS, APPLE, "Leek soup", "für Zoë", "Nobody's dish")


def _line(room: Stockroom, pick: Random) -> str:
    made = room.today - timedelta(days=pick.randrange(300, 303))
    sealed = made + timedelta(days=pick.randrange(3))
    return "\t".join(
        (
            pick.choice(FOODS),
            str(pick.randrange(20, 90)),
            pick.choice(("", str(pick.randrange(300)))),
            pick.choice(("pouch-400-foil", "jar-950", "bag-zip-1000")),
            pick.choice(("", "100 cc")),
            sealed.isoformat(),
            made.isoformat(),
            pick.choice(("", "attic", "attic/shelf")),
            str(pick.randrange(1, 4)),
        )
    )


def _take(room: Stockroom, pick: Random) -> object:
    """Without water for a food nobody knows it of, and without places, it is refused."""
    lines = [_line(room, pick) for _ in range(pick.randrange(1, 5))]
    text = "\n".join(("food\tdry g\twater g\tbag\toa\tsealed\tmade\tshelf\tqty", *lines))
    wishes = ListWishes(
        "by chance.tsv",
        foods={ANY_FOOD: SaidFood(FoodClass.MEAL, Preparation.COOKED)},
        add_places=pick.random() < 0.8,
        condition=pick.choice((Condition.SETTLING, Condition.SOUND)),
    )
    return list_importing.take_list(room, text, wishes)


EXCHANGE_STEPS: dict[str, Callable[[Stockroom, Random], object]] = {
    "list_importing.take_list": _take
}
