"""Pieces that several reports share: cautions, the columns of a package, plain words."""

from __future__ import annotations

from collections.abc import Iterable

from stockroom.domain.caution_table import CAUTIONS, Caution
from stockroom.domain.keeping.interface import LimitedBy
from stockroom.domain.records import Package
from stockroom.reports.values import (
    ABSORBER,
    COUNT,
    DAY,
    FLAG,
    SERVINGS,
    VOLUME,
    WATER,
    WEIGHT,
    Block,
    Column,
    Data,
    Json,
    Prose,
    Row,
    Table,
)

QUALITY_CAPTION = "Best-by is a quality estimate, not safety."
"""Stands above every list that has a best-by column."""

_PLACES = {one.key: place for place, one in enumerate(CAUTIONS)}


def caution_blocks(cautions: Iterable[Caution]) -> tuple[Block, ...]:
    """Cautions with source and standing: sentences in text, objects in JSON."""
    cautions = in_order(cautions)
    return (
        Prose("", caution_lines(cautions), "Bear in mind", "- "),
        Data("cautions", caution_data(cautions)),
    )


def caution_data(cautions: Iterable[Caution]) -> Json:
    """Cautions for JSON."""
    return [
        {
            "key": one.key,
            "text": one.text,
            "source": one.source.citation,
            "standing": one.standing.words,
        }
        for one in cautions
    ]


def caution_lines(cautions: Iterable[Caution]) -> tuple[str, ...]:
    """Each caution once, in a line with its source and standing."""
    return tuple(one.words for one in in_order(cautions))


def in_order(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """Cautions once each, the gravest first and the line that defers to local codes last."""
    return tuple(sorted(dict.fromkeys(cautions), key=lambda one: _PLACES.get(one.key, 0)))


_LIMITS: dict[str, str] = {
    LimitedBy.TEMPERATURE: "time at its temperature",
    LimitedBy.CAP: "the longest life any estimate may give",
    LimitedBy.OPENED: "being opened, or no longer tight",
}


def limit_words(limited_by: str) -> str:
    """What ends a life first, in words."""
    return _LIMITS.get(limited_by, str(limited_by))


def prepared(preparation: str) -> str:
    """What was done to a food before it was dried, in words."""
    if preparation == "raw":
        return "raw: must be cooked after water is added"
    return "cooked food" if preparation == "cooked" else "food ready to eat"


PACKAGE_COLUMNS = (
    Column("code", title="code"),
    Column("food", title="food", least=12),
    Column("servings_left", SERVINGS, "servings", drop=1),
    Column("dry_left", WEIGHT, "dry left", drop=2),
    Column("condition", title="condition"),
    Column("best_by", DAY, "best-by"),
    Column("place", title="place", least=10),
    Column("water_left", WATER, "water to add", drop=3),
    Column("lot"),
    Column("food_class"),
    Column("preparation"),
    Column("container"),
    Column("container_key"),
    Column("volume", VOLUME),
    Column("absorber", ABSORBER),
    Column("vacuum", FLAG),
    Column("dry", WEIGHT),
    Column("water", WATER),
    Column("made_on", DAY),
    Column("sealed_on", DAY),
    Column("opened_on", DAY),
    Column("gone_on", DAY),
    Column("note"),
    Column("absorber_packet"),
    Column("container_box"),
    Column("tray", COUNT),
    Column("origin"),
    Column("gate_reason"),
)


def package_row(one: Package) -> Row:
    """A package under `PACKAGE_COLUMNS`."""
    return (
        one.code,
        one.food,
        one.servings_left,
        one.left_dg,
        one.condition,
        one.best_by,
        one.place,
        one.left_water_dg,
        one.lot_code,
        one.food_class,
        one.preparation,
        one.container,
        one.container_key,
        one.volume_ml,
        one.absorber_cc,
        one.vacuum,
        one.dry_dg,
        one.water_dg,
        one.made_on,
        one.sealed_on,
        one.opened_on,
        one.gone_on,
        one.note,
        one.absorber_packet,
        one.container_box,
        one.tray_position,
        one.origin,
        one.gate_reason,
    )


def package_table(
    packages: Iterable[Package], *, key: str = "packages", title: str = "", empty: str = ""
) -> Table:
    """Packages as a table; the heading line says what a best-by is."""
    return Table(
        key,
        PACKAGE_COLUMNS,
        tuple(package_row(one) for one in packages),
        title,
        caption=QUALITY_CAPTION,
        empty=empty,
    )


def counted(count: int, word: str) -> str:
    """A count with its word in the right number: "1 package", "2 packages"."""
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def spoken(key: str) -> str:
    """A key as a word: "lean_meat" is "lean meat"."""
    return key.replace("_", " ")
