"""The words of calendar entries: what is due, place by place, how to look, what to bear in mind.

An entry is read on a telephone, away from the program, so it carries its own cautions.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

from stockroom.domain.calendar_entries import EntryKind, Wanted
from stockroom.domain.cautions import chosen
from stockroom.domain.conditions import Condition
from stockroom.domain.evidence_records import ExtraDrying
from stockroom.domain.foods import Preparation
from stockroom.domain.looking import SEAMED_CAN, how_to_look
from stockroom.domain.machine_cautions import cautions_beside
from stockroom.domain.records import Package
from stockroom.domain.upkeep import UpkeepItem

NEAR_DAYS = 30
"""Packages of a lot within a month of its first best-by are named with it: engineering judgement,
since best-by dates of one lot differ by where its packages stood."""

NO_PLACE = "no place yet"
_FOUND = (
    "Soft, leaking or damaged: do not eat from it. Record what you find, and stockroom says what"
    " to do."
)


def settle_entry(day: date, packages: Sequence[Package]) -> Wanted:
    """The settle checks of one day; `packages` in the order to go by within a place."""
    return _looks(EntryKind.SETTLE, "Settle check of", day, packages)


def recheck_entry(day: date, packages: Sequence[Package]) -> Wanted:
    """The rechecks of one day."""
    return _looks(EntryKind.RECHECK, "Recheck", day, packages)


def _looks(kind: EntryKind, what: str, day: date, packages: Sequence[Package]) -> Wanted:
    lines = (
        *_by_place(packages),
        "",
        "How to look:",
        *_ways_to_look(packages),
        "",
        _FOUND,
        *_cautions("never-taste", "spoiled"),
    )
    summary = f"{what} {_counted(len(packages), 'package')}"
    return Wanted(kind, f"{day:%Y%m%d}", day, summary, lines)


def near_the_first(first: date, best_by: date) -> bool:
    """Whether a best-by of a lot is named with its first one."""
    return best_by <= first + timedelta(days=NEAR_DAYS)


def use_first_entry(packages: Sequence[Package], keeping_longer: int) -> Wanted:
    """The best-by of one lot: `packages` by best-by, the first one's day is the entry's.

    All of them have a best-by. `keeping_longer` counts the packages of the lot not named.
    """
    first = packages[0]
    assert first.best_by is not None
    lines = [
        f"Best-by {first.best_by.isoformat()}, a quality estimate, not safety.",
        "",
        *_by_place(packages),
    ]
    if keeping_longer:
        keep = "keeps" if keeping_longer == 1 else "keep"
        lines.append(f"{_counted(keeping_longer, 'more package')} of this lot {keep} longer.")
    raw = ("raw-stays-raw",) if first.preparation == Preparation.RAW else ()
    lines += ["", _FOUND, *_cautions("never-taste", "spoiled", *raw)]
    many = _counted(len(packages), "package")
    summary = f"Use first: {first.food} {first.lot_code}, {many}"
    return Wanted(EntryKind.USE_FIRST, first.lot_code, first.best_by, summary, tuple(lines))


def drying_entry(extra: ExtraDrying) -> Wanted:
    """The end of a few more hours of drying, at its hour."""
    lines = [
        f"{extra.hours_tenths / 10:g} h more were begun on {extra.on_day.isoformat()}.",
        "What was weighed and tested before no longer shows that the food is dry: weigh each tray,"
        " feel for cold spots, break a thick piece.",
    ]
    if extra.note:
        lines.append(extra.note)
    lines += _cautions("never-taste")
    return Wanted(
        EntryKind.DRYING,
        f"run-{extra.run_id}",
        extra.due_at.date(),
        f"Run {extra.run_id}: weigh and test again",
        tuple(lines),
        extra.due_at,
    )


def upkeep_entry(item: UpkeepItem, today: date) -> Wanted | None:
    """A check of the machine on the day it is due, on `today` when that has gone by.

    None where no day can be said: what goes by loads, or by hours that are not run yet.
    """
    if item.by_the_run or (item.due_on is None and not item.wanted):
        return None
    due_on = today if item.due_on is None or item.wanted else item.due_on
    lines = (
        item.check.look,
        f"Wanted {item.interval.words}. {item.reason}",
        *(one.text for one in cautions_beside(item.check.key)),
    )
    summary = f"Upkeep: {item.check.name}"
    return Wanted(EntryKind.UPKEEP, item.check.key.replace("_", "-"), due_on, summary, lines)


def _by_place(packages: Sequence[Package]) -> Iterator[str]:
    """Place by place in the order of the shelves, the foods there with their codes."""
    places = sorted({one.place for one in packages}, key=lambda path: path.casefold().split("/"))
    for place in places:
        yield place or NO_PLACE
        here = [one for one in packages if one.place == place]
        for food in dict.fromkeys(one.food for one in here):
            yield f"- {food}: {', '.join(_code(one) for one in here if one.food == food)}"


def _code(package: Package) -> str:
    """A code, with what has to be known before the package is opened."""
    if package.condition == Condition.OPENED:
        return f"{package.code} (open)"
    return package.code


def _ways_to_look(packages: Iterable[Package]) -> Iterator[str]:
    """How to look at each kind of container among the packages."""
    ways: defaultdict[str, set[str]] = defaultdict(set)
    for one in packages:
        kind = "can" if one.container_key.startswith(SEAMED_CAN) else one.package_kind
        ways[how_to_look(one.package_kind, one.container_key)].add(kind.replace("_", " "))
    for kinds, way in sorted((", ".join(sorted(kinds)), way) for way, kinds in ways.items()):
        yield f"- {kinds}: {way}"


def _cautions(*keys: str) -> list[str]:
    """The texts of these cautions, closed by the line that defers to local codes."""
    return [one.text for one in chosen(keys)]


def _counted(count: int, noun: str) -> str:
    """A number with its noun: "1 package", "12 packages"."""
    return f"{count:,} {noun}{'' if count == 1 else 's'}"
