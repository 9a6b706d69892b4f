"""Water to add back: grams, millilitres and cups.

Grams are the stored truth. A cup is always named, because the US cup (236.5882365 mL) and the
label cup (240 mL) differ by 1.4 %.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from stockroom.domain.drying import refuse_impossible
from stockroom.domain.packing import part_water
from stockroom.domain.quantities import UnitSystem, grams, show_weight
from stockroom.domain.units import LABEL_CUP_ML, US_CUP_ML, Cup
from stockroom.errors import Refused

# Degrees Celsius and kg/m3, water at normal pressure; published table values.
WATER_DENSITY: tuple[tuple[float, float], ...] = (
    (4.0, 999.972),
    (20.0, 998.207),
    (25.0, 997.047),
    (40.0, 992.2),
    (60.0, 983.2),
    (80.0, 971.8),
    (100.0, 958.4),
)

_QUARTERS = ("", "¼", "½", "¾")
_SMALLEST_IN_CUPS = 1 / 4
_SMALLEST_IN_TABLESPOONS = 1 / 4


class WaterTemperatureOutside(Refused):
    """The density table does not reach this temperature."""

    def __init__(self, at_c: float) -> None:
        """`at_c` is the water's temperature in degrees Celsius."""
        low, high = WATER_DENSITY[0][0], WATER_DENSITY[-1][0]
        super().__init__(
            f"Water's density is known here from {low:.0f} to {high:.0f} °C, not at {at_c:g} °C.",
            f"Give a temperature from {low:.0f} to {high:.0f} °C.",
        )


class UseAboveDry(Refused):
    """More dry food was to be used than there is."""

    def __init__(self, use_dg: int, dry_dg: int) -> None:
        """Both weights are dry food."""
        super().__init__(
            f"{grams(use_dg):.1f} g cannot be used out of {grams(dry_dg):.1f} g of dry food.",
            "Use the dry weight or less.",
        )


@dataclass(frozen=True, slots=True)
class WaterFigures:
    """What drying took out, and what to add back to the part that is used.

    The volume is at 20 °C; `water_per_dry` is grams of water for each gram of dry food.
    """

    water_removed_dg: int
    water_per_dry: Fraction
    use_dg: int
    water_to_add_dg: int
    water_to_add_ml: float
    us_cups: float
    label_cups: float


def water_density(at_c: float) -> float:
    """Density of water in kg/m3 at 4 to 100 °C, on straight lines between the table's rows."""
    if not WATER_DENSITY[0][0] <= at_c <= WATER_DENSITY[-1][0]:
        raise WaterTemperatureOutside(at_c)
    above = min(bisect_right(WATER_DENSITY, at_c, key=_row_c), len(WATER_DENSITY) - 1)
    low_c, low = WATER_DENSITY[above - 1]
    high_c, high = WATER_DENSITY[above]
    return low + (high - low) * (at_c - low_c) / (high_c - low_c)


def millilitres(water_dg: int, at_c: float = 20.0) -> float:
    """Volume in mL of water weighed in tenths of a gram, at its own temperature."""
    return grams(water_dg) / water_density(at_c) * 1000


def us_cups(volume_ml: float) -> float:
    """US cups of 236.5882365 mL."""
    return volume_ml / float(US_CUP_ML)


def label_cups(volume_ml: float) -> float:
    """Label cups of 240 mL (21 CFR 101.9(b)(5)(viii), published, secondary copy)."""
    return volume_ml / LABEL_CUP_ML


def water_figures(wet_dg: int, dry_dg: int, use_dg: int | None = None) -> WaterFigures:
    """Water removed, and water to add to `use_dg` of the dry food (all of it when None).

    Refuses dry above wet, no dry food, and more used than there is.
    """
    refuse_impossible("The food", wet_dg, dry_dg)
    used_dg = dry_dg if use_dg is None else use_dg
    if not 0 <= used_dg <= dry_dg:
        raise UseAboveDry(used_dg, dry_dg)
    water_dg = wet_dg - dry_dg
    add_dg = part_water(dry_dg, water_dg, 0, used_dg)
    volume_ml = millilitres(add_dg)
    return WaterFigures(
        water_removed_dg=water_dg,
        water_per_dry=Fraction(water_dg, dry_dg),
        use_dg=used_dg,
        water_to_add_dg=add_dg,
        water_to_add_ml=volume_ml,
        us_cups=us_cups(volume_ml),
        label_cups=label_cups(volume_ml),
    )


def show_water(water_dg: int, at_c: float = 20.0, cup: Cup = Cup.US) -> str:
    """Water in grams, millilitres and measures: "338.0 g · 339 mL · about 1½ US cups".

    The volume is at the water's temperature, 4 to 100 °C. Raises WaterTemperatureOutside.
    """
    if water_dg <= 0:
        return "no water to add"
    volume_ml = millilitres(water_dg, at_c)
    weight = show_weight(water_dg, UnitSystem.METRIC)
    if volume_ml < 1:
        return f"{weight} · under 1 mL"
    return f"{weight} · {volume_ml:.0f} mL · about {quarter_cups(volume_ml, cup)}"


def cups(volume_ml: float, cup: Cup) -> float:
    """Cups of the named kind."""
    return volume_ml / float(cup.volume_ml)


def quarter_cups(volume_ml: float, cup: Cup = Cup.US) -> str:
    """Cups to the nearest quarter, named: "1½ US cups", "1½ label cups".

    Under a quarter of a cup: tablespoons of the same kind to the nearest half, and under a
    quarter of a tablespoon: teaspoons, a quarter at least.
    """
    count = cups(volume_ml, cup)
    if count >= _SMALLEST_IN_CUPS:
        return _counted(floor(count * 4 + 0.5), f"{cup.words} cup")
    tablespoons = volume_ml / float(cup.tablespoon_ml)
    if tablespoons >= _SMALLEST_IN_TABLESPOONS:
        return _counted(floor(tablespoons * 2 + 0.5) * 2, f"{cup.words} tablespoon")
    teaspoons = volume_ml / float(cup.teaspoon_ml)
    return _counted(max(floor(teaspoons * 4 + 0.5), 1), f"{cup.words} teaspoon")


def _counted(quarters: int, measure: str) -> str:
    """A number of quarters with the measure's name, plural above one."""
    ones, rest = divmod(quarters, 4)
    return f"{ones or ''}{_QUARTERS[rest]} {measure}{'s' if quarters > 4 else ''}"


def _row_c(row: tuple[float, float]) -> float:
    """A density row's temperature."""
    return row[0]
