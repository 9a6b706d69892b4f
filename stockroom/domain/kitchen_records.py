"""Records of the kitchen that the store hands out: measures of foods, and sums of stock."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FoodMeasure:
    """What one household measure of a food weighs, as the household found on its own scale."""

    measure_id: int
    food_id: int
    food: str
    name: str
    basis: str
    """fresh or dry: how the food was when it was weighed."""
    weight_dg: int


@dataclass(frozen=True, slots=True)
class StockSum:
    """What may be eaten of a food out of lots of one preparation: dry food and its water."""

    food_id: int
    preparation: str
    dry_dg: int
    water_dg: int
