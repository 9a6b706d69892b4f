"""What to mind of a dish on paper: packages opened, raw food, allergens, how hot it gets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.safe_cooking import RawCheck
from stockroom.domain.whole_packages import LeftOpen, WholePackage
from stockroom.reports.cook_water import cups_kind
from stockroom.reports.plain import clean
from stockroom.reports.values import (
    COUNT,
    DAY,
    FLAG,
    TEMPERATURE,
    TEXT,
    WATER_GRAMS,
    WEIGHT,
    WORDS,
    Block,
    Column,
    Field,
    Prose,
    Row,
    Table,
)
from stockroom.services.results import CookSheet

LEFT_OPEN_TITLE = "Left open, and the day to use it by"


def whole_table(sheet: CookSheet, *, taken: bool) -> Table:
    """Packages in which too little would stay; once the meal is taken, for programs alone."""
    columns = (
        Column("food", title="food", least=10),
        Column("code", title="package"),
        Column("more", WEIGHT, "more dry"),
        Column("more_water", WATER_GRAMS, "more water"),
        Column("", cups_kind(sheet.way), "or about"),
    )
    if taken:
        columns = tuple(replace(column, title="") for column in columns)
    rows = tuple(_whole_row(sheet, one) for one in sheet.wholes)
    return Table("whole_packages", columns, rows, "Little would stay in these: --whole takes it")


def _whole_row(sheet: CookSheet, one: WholePackage) -> Row:
    food = sheet.plan.lines[one.line].need.food_name
    return food, one.code, one.more_dg, one.more_water_dg, one.more_water_dg


_LEFT_OPEN = (
    Column("food", title="food", least=10),
    Column("code", title="package"),
    Column("left", WEIGHT, "left dry"),
    Column("left_water", WATER_GRAMS, "its water", drop=1),
    Column("use_by", DAY, "use by"),
    Column("why_not"),
)


def left_open(rests: Sequence[LeftOpen]) -> tuple[Block, ...]:
    """What stays in opened packages, and until when; why there is no day where there is none."""
    rows = tuple(
        (one.food, one.code, one.left_dg, one.left_water_dg, one.use_by, one.why_not or None)
        for one in rests
    )
    caption = f"Use by: {QUALITY_NOT_SAFETY}."
    why = tuple(clean(f"{one.code} has no day: {one.why_not}") for one in rests if one.why_not)
    return Table("left_open", _LEFT_OPEN, rows, LEFT_OPEN_TITLE, caption), Prose("", why)


def care_fields(sheet: CookSheet) -> tuple[Field, ...]:
    """What to look at before anybody eats."""
    heat = sheet.heat
    return (
        Field("raw_foods", WORDS, sheet.raw_foods, "raw", ": must be cooked after water is added"),
        *_cooking_step(sheet.raw),
        Field("heat_to", TEMPERATURE, None if heat is None else heat.temperature_dc),
        Field("heat_to_source", TEXT, None if heat is None else heat.source.words),
        Field("", TEXT, None if heat is None else heat.words, "heat it to", ", in the middle"),
        Field(
            "at_once", WORDS, sheet.at_once, "eat at once", ": rehydrated egg; keep nothing of it"
        ),
        Field("unchecked_codes", WORDS, sheet.unchecked, "not checked", ": no settle check yet"),
        Field(
            "past_best_by_codes", WORDS, sheet.past_best_by, "past best-by",
            f" ({QUALITY_NOT_SAFETY})",
        ),
        Field("allergens", WORDS, sheet.allergens, "allergens", missing="none on record"),
        Field(
            "ingredients_unknown", WORDS, sheet.ingredients_unknown, "allergens of",
            ": check what went into them",
        ),
    )  # fmt: skip


def _cooking_step(raw: RawCheck) -> tuple[Field, ...]:
    """What the dish is cooked to, and whether that is enough for its raw food."""
    least, after, missing = raw.least, "", ""
    if least is not None:
        enough = "enough" if raw.passed else "too little"
        after = f", {enough} for its raw food: {least.words}"
        missing = f"no cooking step; its raw food needs {least.words}: say --cook-to"
    return (
        Field("cook_to", TEMPERATURE, raw.cook_to_dc, "cooked to", after, missing),
        Field("raw_cooked_enough", FLAG, raw.passed),
    )


_RAW = (
    Column("food", title="raw food", least=10),
    Column("", title="cook to at least"),
    Column("least", TEMPERATURE),
    Column("least_fahrenheit", COUNT),
    Column("rest_minutes", COUNT),
    Column("source", title="source", least=20, drop=1),
)


def raw_table(raw: RawCheck) -> Table:
    """Raw foods with the least temperature in the middle of each."""
    rows = tuple(
        (
            one.name,
            one.least.words,
            one.least.temperature_dc,
            one.least.fahrenheit,
            one.least.rest_minutes,
            one.least.source.words,
        )
        for one in raw.foods
    )
    return Table("raw", _RAW, rows)
