"""What the page of a package says, as plain text."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from stockroom.domain.cautions import Caution, chosen
from stockroom.domain.conditions import USABLE, Condition
from stockroom.domain.gate import override_cautions
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import HistoryLine, Package
from stockroom.domain.water import show_water
from stockroom.services.results import PackageDetail
from stockroom.tui.screens.package_story import (
    Story,
    closing_words,
    decision_words,
    doubt_in,
    doubt_words,
    dryness_words,
    look_words,
    origin_words,
    queue_words,
)
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
    "In doubt",
    "Queue",
    "Dryness",
    "Place",
    "In it",
    "Water",
    "Best by",
    "Next look",
    "Allergens",
    "Packed in",
    "Lot",
    "Food of",
    "Went into",
    "Decided",
    "Note",
)
"""Labels of the facts, in the order of `fact_texts`."""
STANDING = ("State", "In doubt", "Queue", "Dryness")
"""The first of them: how it stands, and what comes next."""

NO_STORY = Story()

LAST = "local-codes"
"""The key of the caution that stands last of all."""
_DECIDED = ("soft-discard", "soft-early", "soft-acid", "sisters")
"""What was weighed when it was decided to dry a package again."""
_FOR_A_LOOK = ("never-taste", "spoiled", "sisters")
"""What holds for a package that was not itself found at fault."""

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
    "recall": "recalled",
    "redried": "dried again",
    "repacked": "packed anew",
    "use_now": "given free for use now",
    "draw": "taken",
}
LIMIT_WORDS = {
    "temperature": "warmth limits it",
    "oxygen": "oxygen limits it",
    "moisture": "moisture limits it",
    "cap": "held to the longest life any estimate may give",
    "opened": "it is open, or no longer tight",
}


def fact_texts(
    detail: PackageDetail, units: UnitSystem, today: date, story: Story = NO_STORY
) -> tuple[str, ...]:
    """The facts in the order of FACTS; an empty one is not shown."""
    package = detail.package
    here = package.condition not in GONE
    closing = closing_words(package)
    return (
        _state(package, today),
        doubt_words(story),
        queue_words(detail.queued, story),
        dryness_words(package),
        place_words(package) if here else "",
        _content(package, units) if here else "",
        show_water(package.left_water_dg) if here else "",
        _best_by(detail, today),
        look_words(detail.recheck, story, today),
        _allergens(detail),
        f"{closure_words(package)} · {closing}" if closing else closure_words(package),
        _lot(detail),
        origin_words(package, detail.sources),
        ", ".join(detail.successors),
        decision_words(detail.inspections),
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
    words = f"{band_words(projection)} ({QUALITY_NOT_SAFETY}); {past}{limit}"
    if detail.recheck is None and detail.package.condition in USABLE:
        words += f"; look at it by {projection.recheck_by}"
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
    keys = {one.key for one in _in_doubt(detail)}
    if package.gate_reason:
        keys |= {one.key for one in override_cautions()}
    if package.preparation == "raw":
        keys.add("raw-stays-raw")
    if not keys - {LAST}:
        return []
    found = [one for one in chosen(keys) if one.key not in (LAST, "raw-stays-raw")]
    raw = [caution("raw-stays-raw")] if package.preparation == "raw" else []
    return [*found, *raw, caution(LAST)]


def _in_doubt(detail: PackageDetail) -> Sequence[Caution]:
    """What belongs to the doubt: to a fault of its own, to one held, or to a look at a sister."""
    doubt = doubt_in(detail)
    if detail.package.condition == Condition.HELD:
        waiting = [one for one in detail.cautions if one.key not in _DECIDED]
        return (*waiting, caution("freezer-wait"), caution("redry-to-plateau"))
    if doubt is None or doubt.own_fault:
        return detail.cautions
    return [one for one in detail.cautions if one.key in _FOR_A_LOOK]


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
