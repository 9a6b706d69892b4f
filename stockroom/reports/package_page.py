"""One package: what is in it, how long it may keep, what was decided, what happened to it."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.caution_table import Caution
from stockroom.domain.conditions import LIVE
from stockroom.domain.gate import override_cautions, override_words
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.rechecks import settle_check_due
from stockroom.domain.records import Package, StoredProjection
from stockroom.reports.deciding import decision_blocks
from stockroom.reports.history import history_blocks
from stockroom.reports.parts import (
    caution_blocks,
    counted,
    limit_words,
    prepared,
    spoken,
)
from stockroom.reports.plain import clean_lines
from stockroom.reports.rechecks import recheck_data, recheck_words
from stockroom.reports.redrying import queued_data, queued_words
from stockroom.reports.values import (
    ABSORBER,
    COUNT,
    DAY,
    FLAG,
    SERVINGS,
    TEXT,
    VOLUME,
    WATER,
    WEIGHT,
    WORDS,
    Block,
    Data,
    Field,
    Fields,
    Prose,
    Report,
    document,
)
from stockroom.services.results import PackageDetail


def package_report(detail: PackageDetail, units: UnitSystem, reasons: Sequence[str] = ()) -> Report:
    """One package: what is in it, how long it may keep, what happened to it.

    `reasons` say why it is looked at again when it is.
    """
    package = detail.package
    blocks: tuple[Block, ...] = (
        Fields((*_what(package), *_left(package, units), *_keeping(detail), *_kin(detail))),
        Prose("", clean_lines(package.note), "Note"),
        Prose("", tuple(reasons), "Why it is looked at again then", "- "),
        Data("recheck", recheck_data(detail.recheck, reasons)),
        Data("queued", queued_data(detail.queued)),
        *decision_blocks(detail.inspections),
        *caution_blocks(_cautions(detail)),
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
        Field("absorber_packet", TEXT, package.absorber_packet),
        Field("", TEXT, package.absorber_packet or None, "its packet"),
        Field("container_box", TEXT, package.container_box),
        Field("", TEXT, package.container_box or None, "its box"),
        Field("tray", COUNT, package.tray_position, "from tray"),
        Field("gate_reason", TEXT, package.gate_reason),
        Field("", TEXT, _despite(package), "although"),
    )


def _despite(package: Package) -> str | None:
    """That it was packed although dryness was not shown, and why; None when it was shown."""
    return override_words(package.gate_reason) if package.gate_reason else None


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
        Field("recheck_by", DAY, projection.recheck_by),
        Field("discard_by", DAY, projection.discard_by, "discard by", ", when it may be damp"),
    )


def _kin(detail: PackageDetail) -> tuple[Field, ...]:
    """When it is looked at again, where it waits, and what its food comes from and went into."""
    package, recheck, queued = detail.package, detail.recheck, detail.queued
    first = package.first_sealed_on
    settle = settle_check_due(package.sealed_on) if package.condition == "settling" else None
    return (
        Field("", DAY, settle, "settle check"),
        Field("", TEXT, recheck and recheck_words(recheck), "look again"),
        Field("", TEXT, queued and queued_words(queued), "in the queue"),
        Field("origin", TEXT, package.origin),
        Field("", TEXT, _ORIGINS.get(package.origin), "packed"),
        Field("first_sealed_on", DAY, first, "first sealed"),
        Field("exposed_on", DAY, package.exposed_on, "open to air", " before it was packed anew"),
        Field("sources", WORDS, detail.sources),
        Field("", WORDS, detail.sources or None, "food out of"),
        Field("successors", WORDS, detail.successors),
        Field("", WORDS, detail.successors or None, "went into"),
    )


_ORIGINS = {"redried": "anew, dried again", "repacked": "anew, as it was"}


def _cautions(detail: PackageDetail) -> tuple[Caution, ...]:
    """Those of a doubtful package, and of one packed although dryness was not shown."""
    live = detail.package.condition in LIVE
    return (*detail.cautions, *(override_cautions() if detail.package.gate_reason and live else ()))


def _sisters(count: int) -> str:
    """How many other packages of the lot there are, in words."""
    if count == 0:
        return "no other package of its lot left"
    return f"{counted(count, 'other package')} of its lot left"
