"""What the Round says in words: the day in one line, and what to do with a line of it."""

from __future__ import annotations

from stockroom.domain.conditions import Event
from stockroom.domain.doubts import Doubt
from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.looking import how_to_look
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import Lot, Package, Run
from stockroom.services.results import Done, RoundPage
from stockroom.tui.screens.round_lines import Now, weigh_at
from stockroom.tui.screens.round_rows import CHECKS, Kind, Task
from stockroom.tui.words import (
    caution,
    counted,
    is_past,
    left_words,
    place_words,
    water_words,
)

BEGIN = (
    "Nothing on record yet. Press 3 for the Bench: start a run, load and weigh its trays, close"
    " it, and pack the lots. Press 2 for the Shelves to name your places. What wants doing then"
    " shows here."
)
NOTHING = "Nothing wants doing today. Press 2 for the Shelves, 3 for the Bench, 4 for the Kitchen."

_NEXT: dict[Kind, str] = {
    "doubt": "Do not eat from it until it is decided. v says what becomes of it.",
    "opened": "Opened packages come first: room air is in. x takes food out.",
    "use": "The earliest best-by of what may be eaten. x takes food out.",
    "pack": "Dry food left to pack: Enter goes to the Bench.",
    "run": "A run that is not closed: Enter goes to the Bench.",
}
_DOUBTS = {
    Doubt.SISTER: "A sister went soft: do not eat from it before you looked at this very one.",
    Doubt.RECALL: "Called back: do not eat from it before you looked at this very one.",
    Doubt.REPACK: "It snaps, its barrier is lost: Enter, then p packs it anew.",
    Doubt.UNSAID: "In doubt: do not eat from it before you looked at this very one.",
}
_TURNS = {
    "waiting": "Waits in the freezer. Enter loads it on a tray of an open run.",
    "loaded": "It is being dried again. Enter goes to its run.",
    "dried": "Off the machine: Enter packs it anew.",
}


def summary(page: RoundPage, upkeep: int) -> str:
    """The day in one line; `upkeep` counts the machine's checks that are due."""
    parts = [
        f"{len(page.suspect):,} in doubt",
        counted(len(page.settle), "settle check"),
        counted(len(page.recheck), "recheck"),
        f"{len(page.queue):,} waiting",
        f"{len(page.packable):,} to pack",
        f"{len(page.opened):,} opened",
        f"{upkeep:,} upkeep",
    ]
    return " · ".join(part for part in parts if not part.startswith("0 ")) or "All quiet"


def found_words(package: Package, finding: Event, done: Done) -> str:
    """What a look recorded, short enough for one line: a bad finding says what comes next."""
    if finding is Event.CRISP:
        return f"✓ {done.words} · u undoes"
    sisters = len(done.codes) - 1
    more = f", {counted(sisters, 'sister')} in doubt" if sisters else ""
    return f"✓ {package.code} {finding}{more} · v decides, u undoes"


def task_lines(task: Task | None, now: Now) -> list[str]:
    """How to look or what to do next, and what is in the package."""
    if task is None:
        return []
    record = task.record
    if isinstance(record, Package):
        return _package_lines(task, record, now)
    if isinstance(record, Lot):
        return [_NEXT["pack"]]
    if isinstance(record, Run):
        return _run_lines(task, now)
    if isinstance(record, QueueEntry):
        return _queue_lines(record, now.units)
    return [record.check.look, record.reason]


def _package_lines(task: Task, package: Package, now: Now) -> list[str]:
    lines = [_first(task, package), _inside(task, package, now.units)]
    if task.look is not None and task.doubt is None:
        look = task.look
        lines.append(f"Wanted since {look.wanted_on}, at the latest {look.latest_on}. w says why.")
    if task.kind in ("opened", "use") and is_past(package, now.today):
        from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY

        lines.append(f"Past its best-by ({QUALITY_NOT_SAFETY}).")
    if package.preparation == "raw" and task.kind in ("opened", "use"):
        lines.append(caution("raw-stays-raw").text)
    return lines


def _first(task: Task, package: Package) -> str:
    """What to do with a package: how to look at it, or what comes next."""
    how = how_to_look(package.package_kind, package.container_key)
    if task.kind in CHECKS:
        return f"A sister went soft. {how}" if task.doubt else how
    if task.doubt is not None and task.doubt in _DOUBTS:
        said = _DOUBTS[task.doubt]
        return said if task.doubt is Doubt.REPACK else f"{said} {how}"
    return _NEXT[task.kind]


def _run_lines(task: Task, now: Now) -> list[str]:
    """That a run is open, or dries a few hours more."""
    if task.extra is None:
        return [_NEXT["run"]]
    due_at = task.extra.due_at.astimezone()
    hours = f"{task.extra.hours_tenths / 10:g} h"
    day = "" if due_at.date() == now.today else f" on {due_at.date()}"
    return [
        f"Dries {hours} more: weigh and test again at {weigh_at(due_at, now.today)}{day}.",
        "What was weighed and tested before shows nothing any more. Enter goes to the Bench.",
    ]


def _queue_lines(entry: QueueEntry, units: UnitSystem) -> list[str]:
    """What comes next for food in the queue, and why it is there."""
    about = [entry.food, f"{show_weight(entry.dry_dg, units)} dry", f"since {entry.since}"]
    return [_TURNS[entry.state], " · ".join([*about, *([entry.reason] if entry.reason else [])])]


def _inside(task: Task, package: Package, units: UnitSystem) -> str:
    """What and where it is; with the water where the food is about to be eaten."""
    parts = [package.food, place_words(package), package.container, left_words(package, units)]
    if task.kind in ("opened", "use"):
        parts.append(water_words(package))
    return " · ".join(parts)
