"""The water of a dish on paper: by ingredient and in all, what to add at first and hold back."""

from __future__ import annotations

from dataclasses import replace

from stockroom.domain.cooking import CookLine
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.water import millilitres, quarter_cups, show_water
from stockroom.domain.water_share import WaterWay, measure_water
from stockroom.reports.values import (
    COUNT,
    CUPS,
    MILLILITRES,
    TEMPERATURE,
    TEXT,
    WATER,
    WATER_GRAMS,
    WEIGHT,
    Block,
    Column,
    Field,
    Fields,
    Kind,
    Row,
    Table,
    decimal_kind,
)
from stockroom.services.results import CookSheet

AT_FIRST, HOLD_BACK = "at first", "hold back"
UPPER_BOUND = " in all, an upper bound"

_ML = decimal_kind(1)
_CUPS = decimal_kind(2)

_INGREDIENTS = (
    Column("food"),
    Column("instead_of"),
    Column("dry", WEIGHT),
    Column("water", WATER_GRAMS),
    Column("now", WATER_GRAMS),
    Column("held", WATER_GRAMS),
    Column("hold_back_percent", COUNT),
    Column("water_ml", _ML),
    Column("now_ml", _ML),
    Column("held_ml", _ML),
    Column("water_cups", _CUPS),
    Column("now_cups", _CUPS),
    Column("held_cups", _CUPS),
)
"""For programs; people read `_by_ingredient`."""


def water_kind(way: WaterWay) -> Kind:
    """Water in grams, millilitres at its temperature and the household's cup."""

    def to_text(water_dg: int, _units: UnitSystem) -> str:
        return show_water(water_dg, way.at_c, way.cup)

    return replace(WATER, to_text=to_text)


def water_blocks(sheet: CookSheet) -> tuple[Block, ...]:
    """The waters of a dish: in all, then by ingredient where there are several."""
    wetted = [line for line in sheet.plan.lines if line.water_dg]
    rows = tuple(_data_row(line, sheet.way) for line in sheet.plan.lines)
    return (
        Fields((*_words(sheet), *_data(sheet))),
        _by_ingredient(wetted if len(wetted) > 1 else [], sheet.way),
        Table("ingredients", _INGREDIENTS, rows),
    )


def _words(sheet: CookSheet) -> tuple[Field, ...]:
    """The two waters for people, counted apart; the first in its two parts.

    The pot's own water is measured cold.
    """
    plan, kind = sheet.plan, water_kind(sheet.way)
    pot = water_kind(WaterWay(cup=sheet.way.cup))
    share = plan.water
    after = UPPER_BOUND if plan.water_dg else ""
    return (
        Field("water", kind, plan.water_dg, "water to add", after),
        Field("", kind, share.now_dg if share.held_dg else None, AT_FIRST),
        Field("", kind, share.held_dg or None, HOLD_BACK, ", and add it to taste"),
        Field(
            "", TEMPERATURE, sheet.recipe.water_temperature_dc, "water at",
            ", which mL and cups are for",
        ),
        Field("cooking_water", pot, plan.cooking_water_dg),
        Field("", pot, plan.cooking_water_dg or None, "cooking water", " on top of it"),
    )  # fmt: skip


def _data(sheet: CookSheet) -> tuple[Field, ...]:
    """The same for programs."""
    share, way = sheet.plan.water, sheet.way
    measured = measure_water(sheet.plan.water_dg, way)
    return (
        Field("water_now", WATER_GRAMS, share.now_dg),
        Field("water_held", WATER_GRAMS, share.held_dg),
        Field("water_ml", _ML, measured.volume_ml),
        Field("water_cups", _CUPS, measured.cups),
        Field("cup", TEXT, str(way.cup)),
        Field("water_temperature", TEMPERATURE, round(way.at_c * 10)),
    )


def _by_ingredient(lines: list[CookLine], way: WaterWay) -> Table:
    """Each food with its two parts of water, one below the other."""
    columns = (
        Column("", title="food", least=10),
        Column("", title="water"),
        Column("", WATER_GRAMS, "weight"),
        Column("", _millilitres(way), "or"),
        Column("", cups_kind(way), "or about"),
    )
    rows = tuple(row for line in lines for row in _two_rows(line))
    return Table("", columns, rows, "Water by ingredient")


def _two_rows(line: CookLine) -> tuple[Row, ...]:
    """What to add at first, and what to hold back where that is anything."""
    now_dg, held_dg = line.water.now_dg, line.water.held_dg
    parts = ((AT_FIRST, now_dg), (HOLD_BACK, held_dg))
    said = [(words, water_dg) for words, water_dg in parts if water_dg]
    names = (line.need.food_name, *("" for _ in said[1:]))
    return tuple(
        (name, words, water_dg, water_dg, water_dg)
        for name, (words, water_dg) in zip(names, said, strict=True)
    )


def _millilitres(way: WaterWay) -> Kind:
    """Millilitres at the water's temperature."""

    def to_text(water_dg: int, _units: UnitSystem) -> str:
        return f"{millilitres(water_dg, way.at_c):.0f} mL"

    return replace(MILLILITRES, to_text=to_text)


def cups_kind(way: WaterWay) -> Kind:
    """Water in cups of the household's kind, at its temperature."""

    def to_text(water_dg: int, _units: UnitSystem) -> str:
        return quarter_cups(millilitres(water_dg, way.at_c), way.cup)

    return replace(CUPS, to_text=to_text)


def _data_row(line: CookLine, way: WaterWay) -> Row:
    """An ingredient under `_INGREDIENTS`."""
    share = line.water
    measured = [
        measure_water(water_dg, way) for water_dg in (line.water_dg, share.now_dg, share.held_dg)
    ]
    return (
        line.need.food_name,
        line.need.instead_of or None,
        line.dry_dg,
        line.water_dg,
        share.now_dg,
        share.held_dg,
        line.hold_back_percent,
        *(one.volume_ml for one in measured),
        *(one.cups for one in measured),
    )
