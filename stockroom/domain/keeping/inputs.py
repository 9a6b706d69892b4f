"""The figures that bear on one package, put together from the tables: class, fat, barrier, room.

A fatty food is held back figure by figure: the lower of its own class and of the class its fat
puts it in, for both lives and for the oxygen it tolerates. Isotherm and crispness stay its own.
"""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.keeping.figures import (
    NOTHING,
    VARIED,
    BarrierFigures,
    ClassFigures,
    Figure,
    KeepingFigures,
    Quantity,
    Spread,
)
from stockroom.domain.keeping.life import MONTH_DAYS, YEAR_DAYS, Values
from stockroom.domain.keeping.moisture import Isotherm


@dataclass(frozen=True, slots=True)
class Inputs:
    """The figures of one package, and their spreads in the units and order of `Values`."""

    figures: tuple[Figure | None, ...]
    """None where the package has no such path; in the order of `VARIED`."""
    spreads: tuple[Spread, ...]
    middle: Values
    isotherm: Isotherm
    own: ClassFigures
    by_fat: ClassFigures

    def figure(self, quantity: Quantity) -> Figure | None:
        """The figure of a quantity."""
        return self.figures[ORDER[quantity]]


ORDER = {quantity: place for place, quantity in enumerate(VARIED)}


def inputs_of(
    known: KeepingFigures,
    own: ClassFigures,
    by_fat: ClassFigures,
    barrier: BarrierFigures,
    *,
    reclosed: bool,
) -> Inputs:
    """Put the figures together; `by_fat` is `own` for a food that is not fatty."""
    found: dict[Quantity, Figure | None] = {
        Quantity.LIFE_WITHOUT_OXYGEN: _held(own.life_without_oxygen, by_fat.life_without_oxygen),
        Quantity.LIFE_IN_AIR: _held(own.life_in_air, by_fat.life_in_air),
        Quantity.Q10: known.q10,
        Quantity.OXYGEN_TOLERANCE: _held(own.oxygen_tolerance, by_fat.oxygen_tolerance),
        Quantity.OXYGEN_TRANSMISSION: barrier.oxygen_transmission,
        Quantity.VAPOUR_TRANSMISSION: barrier.vapour_transmission,
        Quantity.LID_OXYGEN: barrier.lid_oxygen,
        Quantity.LID_VAPOUR: barrier.lid_vapour,
        Quantity.ROOM_HUMIDITY: known.room_humidity,
        Quantity.FIRST_ACTIVITY: known.first_activity,
        Quantity.CRISP_LIMIT: own.crisp_limit,
        Quantity.STATED_TEMPERATURE: known.stated_temperature,
        Quantity.OPENED_LIFE: known.reclosed if reclosed else known.opened,
    }
    figures = tuple(found[quantity] for quantity in VARIED)
    spreads = tuple(
        _in_use(quantity, figure) for quantity, figure in zip(VARIED, figures, strict=True)
    )
    middle = Values(*(spread.middle for spread in spreads))
    return Inputs(figures, spreads, middle, own.isotherm, own, by_fat)


def _held(own: Figure, other: Figure) -> Figure:
    """The own figure, or the other's row with the lower of both values at each place."""
    held = own.spread.lower_of(other.spread)
    if held == own.spread:
        return own
    return Figure(other.quantity, held, other.unit, other.source, other.standing, other.anchor)


def _in_use(quantity: Quantity, figure: Figure | None) -> Spread:
    """A figure's spread in the units of `Values`."""
    if figure is None:
        return NOTHING
    if quantity is Quantity.LIFE_WITHOUT_OXYGEN:
        return figure.spread.times(YEAR_DAYS)
    if quantity is Quantity.LIFE_IN_AIR:
        return figure.spread.times(MONTH_DAYS)
    if quantity is Quantity.ROOM_HUMIDITY:
        return figure.spread.less(figure.spread.middle)
    return figure.spread
