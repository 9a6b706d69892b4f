"""How much of the water to add at first, and how much to hold back until the food has been tasted.

Full restoration is an upper bound (freeze-dried fruit took back up to about 90 % of its water,
Journal of Food Engineering 72(1):16-23, 2006, published), so one starts with two thirds to three
quarters of it and adds to taste: 30 % held back, engineering judgement.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.quantities import nearest_whole
from stockroom.domain.units import Cup
from stockroom.domain.water import cups, millilitres
from stockroom.domain.working import Source, Standing

HOLD_BACK_PERCENT = 30
"""Share of the water held back where a recipe says nothing; engineering judgement."""

WATER_C = 20.0
"""How warm the water is taken to be where a recipe says nothing; engineering judgement."""

HOLD_BACK = Source(
    "hold-back",
    "Full restoration is an upper bound: start with two thirds to three quarters of the water",
    Standing.ENGINEERING_JUDGEMENT,
)


@dataclass(frozen=True, slots=True)
class WaterShare:
    """Water in two parts, tenths of a gram: together they are all of it, exactly."""

    now_dg: int
    """To add at first."""
    held_dg: int
    """To hold back, and add to taste."""

    @property
    def all_dg(self) -> int:
        """Both together."""
        return self.now_dg + self.held_dg


@dataclass(frozen=True, slots=True)
class WaterWay:
    """How water is measured: its temperature in degrees Celsius, and which cup is meant."""

    at_c: float = WATER_C
    cup: Cup = Cup.US


@dataclass(frozen=True, slots=True)
class WaterMeasure:
    """One amount of water as it is weighed and as it is measured."""

    water_dg: int
    volume_ml: float
    """At the water's own temperature."""
    cups: float
    cup: Cup


def share_water(water_dg: int, hold_back_percent: int = HOLD_BACK_PERCENT) -> WaterShare:
    """Water in two parts; the part held back goes to the nearest tenth of a gram, a tie to even."""
    held_dg = nearest_whole(Fraction(water_dg * hold_back_percent, 100))
    return WaterShare(water_dg - held_dg, held_dg)


def measure_water(water_dg: int, way: WaterWay) -> WaterMeasure:
    """Water in grams, millilitres and cups at 4 to 100 °C. Raises WaterTemperatureOutside."""
    volume_ml = millilitres(water_dg, way.at_c)
    return WaterMeasure(water_dg, volume_ml, cups(volume_ml, way.cup), way.cup)
