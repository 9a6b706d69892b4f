"""The water of a dish in words: for each food and in all, what goes in at first, what waits.

Full restoration of the water is an upper bound: freeze-dried fruit took back up to about 90 % of
it (Journal of Food Engineering 72(1):16-23, 2006; published). The share that is held back is
engineering judgement.
"""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.cooking import CookLine, CookPlan
from stockroom.domain.quantities import UnitSystem, nearest_whole, show_temperature, show_weight
from stockroom.domain.water import show_water
from stockroom.domain.water_share import WaterShare, WaterWay
from stockroom.tui.screens.cook_look import Line, Look

UPPER_BOUND = (
    "All of it is an upper bound. Begin with the first part, wait and taste; add of what is held"
    " back only as much as it wants (engineering judgement)."
)


def water_lines(plan: CookPlan, units: UnitSystem, way: WaterWay) -> list[Line]:
    """The water of each food in its two parts, the sums, and how to begin."""
    taken = [line for line in plan.lines if line.dry_dg]
    if not taken and not plan.cooking_water_dg:
        return []
    lines = [Line("Water to add back", "title")]
    for line in taken:
        lines += _food_lines(line, units, way)
    if plan.water_dg:
        if len(taken) > 1:
            lines += _part_lines("In all", plan.water, way, "title")
        lines.append(Line(UPPER_BOUND, "quiet", 2))
        lines.append(Line(f"Measured at {_degrees(way, units)}.", "quiet", 2))
    if plan.cooking_water_dg:
        water = show_water(plan.cooking_water_dg, cup=way.cup)
        lines.append(Line(f"Cooking water, on top: {water}", indent=2))
    return lines


def _food_lines(line: CookLine, units: UnitSystem, way: WaterWay) -> list[Line]:
    """One food with its dry weight, and its water."""
    name = f"{line.need.food_name} ({show_weight(line.dry_dg, units)} dry)"
    return _part_lines(name, line.water, way, "plain")


def _part_lines(name: str, water: WaterShare, way: WaterWay, look: Look) -> list[Line]:
    """A water in all and in its parts; a part of nothing has no line."""
    lines = [Line(f"{name}: {show_water(water.all_dg, way.at_c, way.cup)}", look, 2)]
    if water.held_dg and water.now_dg:
        lines += [
            Line(f"at first   {show_water(water.now_dg, way.at_c, way.cup)}", indent=4),
            Line(f"hold back  {show_water(water.held_dg, way.at_c, way.cup)}", indent=4),
        ]
    elif water.all_dg:
        text = "all of it at first" if water.now_dg else "all of it held back: add to taste"
        lines.append(Line(text, indent=4))
    return lines


def _degrees(way: WaterWay, units: UnitSystem) -> str:
    """How warm the water is."""
    return show_temperature(nearest_whole(Fraction(way.at_c) * 10), units)
