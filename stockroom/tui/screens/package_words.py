"""What the page of a package says, as plain text."""

from __future__ import annotations

from datetime import date

from stockroom.domain.cautions import Caution
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import HistoryLine, Package
from stockroom.domain.water import show_water
from stockroom.services.results import PackageDetail
from stockroom.tui.words import (
    GONE,
    band_words,
    caution,
    closure_words,
    counted,
    days_ago,
    is_past,
    left_words,
    place_words,
)

FACTS = (
    "State",
    "Place",
    "In it",
    "Water",
    "Best by",
    "Allergens",
    "Packed in",
    "Lot",
    "Note",
)
"""Labels of the facts, in the order of `fact_texts`."""

_EVENTS = {
    "sealed": "sealed",
    "moved": "moved",
    "crisp": "checked: crisp",
    "soft": "checked: soft",
    "leak": "checked: leak",
    "damaged": "checked: damaged",
    "sister_soft": "a sister went soft",
    "hold": "held in the freezer",
    "open": "opened",
    "use_up": "used up",
    "discard": "discarded",
    "redried": "dried again",
    "draw": "taken",
}
LIMIT_WORDS = {
    "temperature": "warmth limits it",
    "oxygen": "oxygen limits it",
    "moisture": "moisture limits it",
    "cap": "held to the longest life any estimate may give",
    "opened": "it is open, or no longer tight",
}


def fact_texts(detail: PackageDetail, units: UnitSystem, today: date) -> tuple[str, ...]:
    """The facts in the order of FACTS; an empty one is not shown."""
    package = detail.package
    here = package.condition not in GONE
    return (
        _state(package, today),
        place_words(package) if here else "",
        _content(package, units) if here else "",
        show_water(package.left_water_dg) if here else "",
        _best_by(detail, today),
        _allergens(detail),
        closure_words(package),
        _lot(detail),
        package.note,
    )


def _state(package: Package, today: date) -> str:
    """The condition and the day it dates from."""
    words = [
        package.condition,
        f"sealed {package.sealed_on} ({days_ago(package.sealed_on, today)})",
    ]
    if package.opened_on is not None:
        words.append(f"opened {package.opened_on} ({days_ago(package.opened_on, today)})")
    if package.gone_on is not None:
        words.append(f"gone {package.gone_on}")
    return " · ".join(words)


def _content(package: Package, units: UnitSystem) -> str:
    """What is still in it, and out of how much."""
    left = left_words(package, units)
    return f"{left}, of {show_weight(package.dry_dg, units)}" if package.taken_dg else left


def _best_by(detail: PackageDetail, today: date) -> str:
    """The best-by with its band, what limits it, and what it is not; or why there is none."""
    projection = detail.projection
    if projection is None:
        return f"none is given: {detail.no_best_by}" if detail.no_best_by else ""
    past = "past its best-by; " if is_past(detail.package, today) else ""
    limit = LIMIT_WORDS.get(projection.limited_by, projection.limited_by)
    words = (
        f"{band_words(projection)} ({QUALITY_NOT_SAFETY}); {past}{limit};"
        f" look at it by {projection.recheck_by}"
    )
    if projection.discard_by is not None:
        words += f"; by {projection.discard_by} it may be too moist to keep: discard it then"
    return words


def _allergens(detail: PackageDetail) -> str:
    """The allergens on record, and whether there may be more."""
    known = ", ".join(one.replace("_", " ") for one in detail.allergens)
    if detail.ingredients_unknown:
        return f"{known or 'not known'}; check what went into it"
    return known or "none of the nine major ones on record"


def _lot(detail: PackageDetail) -> str:
    """Where it comes from, how it was prepared, and how many sisters stand beside it."""
    package = detail.package
    sisters = counted(detail.sisters, "sister") if detail.sisters else "no sisters"
    return (
        f"{package.lot_code}, {package.preparation}, made {package.made_on};"
        f" {sisters} on the shelves"
    )


def cautions_now(detail: PackageDetail) -> list[Caution]:
    """The cautions that apply now; none for a package that is gone."""
    package = detail.package
    if package.condition in GONE:
        return []
    found = [one for one in detail.cautions if one.key != "local-codes"]
    if package.preparation == "raw":
        found.append(caution("raw-stays-raw"))
    return [*found, caution("local-codes")] if found else []


def history_words(line: HistoryLine, units: UnitSystem) -> str:
    """One thing that happened, on one line."""
    parts = [_EVENTS.get(line.event, line.event)]
    if line.dry_dg is not None:
        parts.append(f"{show_weight(line.dry_dg, units)} dry")
        parts.append(f"water {show_weight(line.water_dg or 0, units)}")
    if line.meal:
        parts.append(f"for {line.meal}")
    if line.to_place:
        parts.append(f"to {line.to_place}")
    if line.condition and line.event not in ("moved", "discard", "use_up"):
        parts.append(f"now {line.condition}")
    if line.note:
        parts.append(line.note)
    return f"{line.on_day}  {', '.join(parts)}"
