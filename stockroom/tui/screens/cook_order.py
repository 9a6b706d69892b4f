"""What is to be cooked, as it stands on the sheet: for whom, how much, and what was decided."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from stockroom.domain.substitutes import Substitution
from stockroom.domain.whole_packages import WholePackage
from stockroom.services import kitchen
from stockroom.services.kitchen import MOST_PEOPLE
from stockroom.services.results import CookSheet, Done
from stockroom.services.session import Stockroom
from stockroom.services.substitutes import substitutes


@dataclass(frozen=True, slots=True)
class Order:
    """A recipe by its name, and all that a cook may say of it before it is taken."""

    recipe: str
    people: int
    servings: Fraction | None = None
    """How many of what the recipe serves; None for one for each person."""
    whole: bool = False
    """Whether packages are taken whole where little would stay in them."""
    swaps: Mapping[int, int] = field(default_factory=dict[int, int])
    """Food of the recipe → the food that stands in for it."""
    cook_to_dc: int | None = None
    """What it is cooked to this once, tenths of a degree Celsius; None as the recipe says."""

    def more(self, count: int) -> Order:
        """One more or one less: servings where they were typed, else people; the same at an end."""
        if self.servings is not None:
            servings = self.servings + count
            return replace(self, servings=servings) if 0 < servings <= MOST_PEOPLE else self
        people = self.people + count
        return replace(self, people=people) if 1 <= people <= MOST_PEOPLE else self

    def swapped(self, food_id: int, other_id: int | None) -> Order:
        """With another food in place of one of the recipe's; None takes it back."""
        rest = {key: value for key, value in self.swaps.items() if key != food_id}
        return replace(self, swaps=rest if other_id is None else {**rest, food_id: other_id})


@dataclass(frozen=True, slots=True)
class Reading:
    """The sheet of an order, with the packages better taken whole, whether they are or not."""

    sheet: CookSheet
    wholes: tuple[WholePackage, ...]


def read_sheet(room: Stockroom, order: Order) -> Reading:
    """Work the sheet of an order out. Raises what the kitchen raises."""
    sheet = _sheet(room, order, whole=False)
    wholes = sheet.wholes
    return Reading(_sheet(room, order, whole=True) if order.whole and wholes else sheet, wholes)


def _sheet(room: Stockroom, order: Order, *, whole: bool) -> CookSheet:
    return kitchen.cook_sheet(
        room,
        order.recipe,
        order.people,
        servings=order.servings,
        whole=whole,
        swaps=order.swaps,
        cook_to_dc=order.cook_to_dc,
    )


def take(room: Stockroom, order: Order, *, short: bool) -> Done:
    """Take an order off the shelves, in one action. Raises what the kitchen raises."""
    return kitchen.cook_meal(
        room,
        order.recipe,
        order.people,
        servings=order.servings,
        take_short=short,
        whole=order.whole,
        swaps=order.swaps,
        cook_to_dc=order.cook_to_dc,
    )


def stand_ins(room: Stockroom, order: Order) -> tuple[Substitution, ...]:
    """For each food that is short, those that could stand in for it."""
    return substitutes(room, order.recipe, order.people, servings=order.servings, swaps=order.swaps)
