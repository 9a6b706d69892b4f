"""Packages: a list of them, and one with its history."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import Package, StoredProjection
from stockroom.reports.history import history_blocks
from stockroom.reports.parts import (
    QUALITY_CAPTION,
    caution_blocks,
    counted,
    limit_words,
    package_table,
    prepared,
    spoken,
)
from stockroom.reports.plain import clean_lines
from stockroom.reports.values import (
    ABSORBER,
    COUNT,
    CUPS,
    DAY,
    FLAG,
    MILLILITRES,
    SERVINGS,
    TEXT,
    VOLUME,
    WATER,
    WATER_GRAMS,
    WEIGHT,
    WORDS,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Table,
    document,
    listing,
)
from stockroom.services.results import PackageDetail


def package_list(packages: Sequence[Package]) -> Report:
    """Packages in the order given."""
    return listing(package_table(packages, empty="No packages."))


_MADE = (
    Column("code", title="code"),
    Column("container", title="container", least=10, drop=2),
    Column("dry", WEIGHT, "dry"),
    Column("water", WATER_GRAMS, "water"),
    Column("", MILLILITRES, "or", drop=1),
    Column("", CUPS, "or about"),
    Column("servings", SERVINGS, "servings"),
    Column("best_by", DAY, "best-by"),
)


def made_list(packages: Sequence[Package]) -> Report:
    """Packages just sealed, with what to write on each."""
    rows = tuple(
        (
            one.code,
            one.container,
            one.dry_dg,
            one.water_dg,
            one.water_dg,
            one.water_dg,
            one.servings_left,
            one.best_by,
        )
        for one in packages
    )
    return listing(Table("packages", _MADE, rows, caption=QUALITY_CAPTION))


def drawn_report(before: Package, after: PackageDetail) -> Report:
    """What was taken from a package and what stays in it."""
    package = after.package
    left = package.left_dg or None
    return document(
        "",
        (
            Fields(
                (
                    Field("taken", WEIGHT, package.taken_dg - before.taken_dg, "taken dry"),
                    Field(
                        "water",
                        WATER,
                        package.taken_water_dg - before.taken_water_dg,
                        "water to add",
                        ", an upper bound",
                    ),
                    Field("", TEXT, prepared(package.preparation), "made from"),
                    Field("allergens", WORDS, after.allergens, "allergens"),
                    Field("left", WEIGHT, left, "left dry", missing="nothing"),
                    Field("servings_left", SERVINGS, left and package.servings_left, "servings"),
                )
            ),
            Prose("", ("Follow local codes and licensed guidance.",)),
        ),
    )


def package_report(detail: PackageDetail, units: UnitSystem) -> Report:
    """One package: what is in it, how long it may keep, what happened to it."""
    package = detail.package
    blocks: tuple[Block, ...] = (
        Fields((*_what(package), *_left(package, units), *_keeping(detail))),
        Prose("", clean_lines(package.note), "Note"),
        *caution_blocks(detail.cautions),
        *history_blocks(detail.history, units),
    )
    return document(f"Package {package.code} · {package.food}", blocks)


def _what(package: Package) -> tuple[Field, ...]:
    """Code, food, container and place."""
    return (
        Field("code", TEXT, package.code, "code"),
        Field("food", TEXT, package.food, "food", f" ({spoken(package.food_class)})"),
        Field("food_class", TEXT, package.food_class),
        Field("preparation", TEXT, package.preparation),
        Field("", TEXT, prepared(package.preparation), "made from"),
        Field("lot", TEXT, package.lot_code, "lot"),
        Field("condition", TEXT, package.condition, "condition"),
        Field("place", TEXT, package.place, "place", missing="in no place yet"),
        Field("container", TEXT, package.container, "container", _closed(package)),
        Field("container_key", TEXT, package.container_key),
        Field("volume", VOLUME, package.volume_ml),
        Field("absorber", ABSORBER, package.absorber_cc),
        Field("vacuum", FLAG, package.vacuum),
    )


def _closed(package: Package) -> str:
    """How the oxygen was kept out."""
    parts = [f", absorber {package.absorber_cc} cc" if package.absorber_cc else ", no absorber"]
    if package.vacuum:
        read = package.vacuum_tenth_inhg
        parts.append(" and vacuum" + (f" of {read / 10:.1f} inHg" if read else ""))
    return "".join(parts)


def _left(package: Package, units: UnitSystem) -> tuple[Field, ...]:
    """What is left in it, and the water for that."""
    part = package.taken_dg > 0
    packed = f" of {show_weight(package.dry_dg, units)} packed" if part else ""
    return (
        Field("dry_left", WEIGHT, package.left_dg, "dry left", packed),
        Field("water_left", WATER, package.left_water_dg, "water to add"),
        Field(
            "servings_left",
            SERVINGS,
            package.servings_left,
            "servings",
            f" of {show_weight(package.serving_dg, units)} as eaten",
        ),
        Field("dry", WEIGHT, package.dry_dg),
        Field("water", WATER, package.water_dg),
        Field("serving", WEIGHT, package.serving_dg),
    )


def _keeping(detail: PackageDetail) -> tuple[Field, ...]:
    """Its dates, its best-by with the band, and its allergens."""
    package, projection = detail.package, detail.projection
    gone = "used up on" if package.condition == "used" else "discarded on"
    return (
        Field("made_on", DAY, package.made_on, "made on"),
        Field("sealed_on", DAY, package.sealed_on, "sealed on"),
        Field("opened_on", DAY, package.opened_on, "opened on"),
        Field("gone_on", DAY, package.gone_on, gone),
        *_best_by(projection, detail.no_best_by),
        Field("allergens", WORDS, detail.allergens, "allergens", missing="none on record"),
        Field("ingredients_unknown", FLAG, detail.ingredients_unknown),
        Field(
            "",
            TEXT,
            "check what went into it for allergens" if detail.ingredients_unknown else None,
            "ingredients",
        ),
        Field("sisters", COUNT, detail.sisters),
        Field("", TEXT, _sisters(detail.sisters), "sisters"),
        Field("note", TEXT, package.note),
    )


def _best_by(projection: StoredProjection | None, why_not: str) -> tuple[Field, ...]:
    """The best-by with its band and what it is worth, or why there is none.

    Packages that are gone have neither.
    """
    if projection is None:
        said = f"none: {why_not}" if why_not else None
        return (
            Field("best_by", DAY, None),
            Field("no_best_by_because", TEXT, why_not),
            Field("", TEXT, said, "best-by", f" (a best-by is a {QUALITY_NOT_SAFETY})"),
        )
    band = (
        f", between {projection.low.isoformat()} and {projection.high.isoformat()}"
        f" ({QUALITY_NOT_SAFETY})"
    )
    return (
        Field("best_by", DAY, projection.best_by, "best-by", band),
        Field("best_by_is", TEXT, QUALITY_NOT_SAFETY),
        Field("best_by_low", DAY, projection.low),
        Field("best_by_high", DAY, projection.high),
        Field("limited_by", TEXT, projection.limited_by),
        Field("no_best_by_because", TEXT, ""),
        Field("", TEXT, limit_words(projection.limited_by), "limited by"),
        Field("model", TEXT, projection.model),
        Field("recheck_by", DAY, projection.recheck_by, "recheck by"),
        Field("discard_by", DAY, projection.discard_by, "discard by", ", when it may be damp"),
    )


def _sisters(count: int) -> str:
    """How many other packages of the lot there are, in words."""
    if count == 0:
        return "no other package of its lot left"
    return f"{counted(count, 'other package')} of its lot left"
