"""One ordinary use of every service about household measures."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.cooking import Basis
from stockroom.services import measures
from stockroom.services.kitchen import LineRequest
from tests.services.case import Case
from tests.world import PEAS, World


def peas_packed(world: World) -> None:
    """26329A01 and 02 of peas."""
    world.packed(PEAS, "2xpouch-400-foil:40,absorber=100")


def measured(world: World) -> None:
    """The same, with a cup of the peas weighed and a soup that counts in it."""
    peas_packed(world)
    measures.set_measure(world.room, PEAS, "cup", 380)
    cups = LineRequest(food=PEAS, basis=Basis.MEASURE, amount=Fraction(3, 2), unit="cup")
    world.recipe("Cup soup", lines=[cups])


COOKING_CASES: dict[str, Case] = {
    "measures.set_measure": Case(
        peas_packed,
        lambda room: measures.set_measure(room, PEAS, "Zoë's scoop", 455, basis=Basis.FRESH),
    ),
    "measures.remove_measure": Case(
        measured, lambda room: measures.remove_measure(room, PEAS, "cup")
    ),
}
