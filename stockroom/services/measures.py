"""Household measures of a food: what one cup or one scoop of it weighs, by the household's scale.

Never from water's density: dry food in a cup is mostly air.
"""

from __future__ import annotations

from stockroom.domain.cooking import Basis
from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.domain.quantities import grams
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.services.acting import acting
from stockroom.services.finding import find_food
from stockroom.services.names import clean_name
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import measure_rows

MOST_WEIGHT_DG = 1_000_000


class SameMeasure(Refused):
    """The measure has that weight already."""

    def __init__(self, name: str, food: str) -> None:
        super().__init__(
            f"“{name}” of {food} has that weight already.", "Give the weight your scale shows."
        )


def list_measures(room: Stockroom, food: str | None = None) -> tuple[FoodMeasure, ...]:
    """The measures of a food by name, or of all foods. Raises NotFound, BadInput."""
    if food is None:
        return tuple(measure_rows.all_measures(room.store))
    return tuple(measure_rows.measures_of_food(room.store, find_food(room, food).food_id))


def set_measure(
    room: Stockroom, food: str, name: str, weight_dg: int, *, basis: Basis = Basis.DRY
) -> Done:
    """Record what one measure of a food weighs, dry or as it was fresh; a known one is changed.

    Raises SameMeasure, NotFound or BadInput.
    """
    chosen = clean_name(name, "measure")
    if basis not in (Basis.DRY, Basis.FRESH):
        raise BadInput("basis", str(basis), "fresh or dry")
    if not 1 <= weight_dg <= MOST_WEIGHT_DG:
        raise BadInput("weight", f"{grams(weight_dg):g} g", "a weight from 0.1 g to 100 kg")
    with acting(room, "measure") as act:
        found = find_food(room, food)
        known = measure_rows.measure_by_name(room.store, found.food_id, chosen)
        if known is None:
            measure_rows.insert_measure(room.store, found.food_id, chosen, basis, weight_dg)
        elif (known.basis, known.weight_dg) == (basis, weight_dg):
            raise SameMeasure(known.name, found.name)
        else:
            measure_rows.update_measure(room.store, known.measure_id, basis, weight_dg)
        shown = chosen if known is None else known.name
        act.words = f"set one {shown} of {found.name} to {grams(weight_dg):.1f} g {basis}"
    return Done(act.words)


def remove_measure(room: Stockroom, food: str, name: str) -> Done:
    """Forget what a measure of a food weighs; recipes that count in it are named.

    Raises NotFound or BadInput.
    """
    with acting(room, "measure") as act:
        found = find_food(room, food)
        known = measure_rows.measure_by_name(room.store, found.food_id, clean_name(name, "measure"))
        if known is None:
            names = [one.name for one in measure_rows.measures_of_food(room.store, found.food_id)]
            raise NotFound("measure", f"{name.strip()} of {found.name}", tuple(names))
        counting = measure_rows.recipes_counting_in(room.store, found.food_id, known.name)
        measure_rows.delete_measure(room.store, known.measure_id)
        act.words = f"removed the measure {known.name} of {found.name}"
        if counting:
            act.words += f"; still counted in by {', '.join(counting)}"
    return Done(act.words)
