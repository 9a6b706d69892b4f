"""Meals that were cooked, and the measures recipes count in."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.domain.records import Meal
from stockroom.domain.wetted import HOT_ROOM_C, HOT_ROOM_F
from stockroom.reports.values import (
    COUNT,
    DAY,
    FLAG,
    MOMENT,
    WATER_GRAMS,
    WEIGHT,
    Column,
    Report,
    Row,
    Table,
    listing,
)

HOT_ROOM = f"{HOT_ROOM_C:.1f} °C ({HOT_ROOM_F} °F)"
"""The room in which wetted food may stand half as long, in both scales."""

EAT_BY_CAPTION = (
    "Eat by: the last day for what was put in the cold within 2 hours of wetting, 1 hour in a room"
    f" above {HOT_ROOM}."
)

_MEALS = (
    Column("cooked_on", DAY, "date"),
    Column("dish", title="dish", least=12),
    Column("people", COUNT, "people"),
    Column("rehydration_water", WATER_GRAMS, "water", drop=2),
    Column("eat_by", DAY, "eat by"),
    Column("at_once", FLAG, "at once", drop=1),
    Column("cooking_water", WATER_GRAMS),
    Column("wetted_at", MOMENT),
    Column("meal", COUNT),
)


def meal_list(meals: Sequence[Meal]) -> Report:
    """The latest meals, each with what water was added to its dried food and the last day."""
    rows = tuple(_meal_row(one) for one in meals)
    return listing(
        Table("meals", _MEALS, rows, caption=EAT_BY_CAPTION, empty="No meals cooked yet.")
    )


def _meal_row(one: Meal) -> Row:
    return (
        one.on_day,
        one.name,
        one.people,
        one.rehydration_water_dg,
        one.eat_by,
        None if one.eat_by is None else one.eat_by == one.on_day,
        one.cooking_water_dg,
        one.wetted_at,
        one.meal_id,
    )


_MEASURES = (
    Column("food", title="food", least=12),
    Column("measure", title="measure", least=8),
    Column("weight", WEIGHT, "weighs"),
    Column("basis", title="weighed"),
)


def measure_list(measures: Sequence[FoodMeasure]) -> Report:
    """What the household's measures of its foods weigh."""
    rows = tuple((one.food, one.name, one.weight_dg, one.basis) for one in measures)
    empty = "No measures yet: weigh a cup of a food, then stockroom food measure FOOD cup WEIGHT."
    return listing(Table("measures", _MEASURES, rows, empty=empty))
