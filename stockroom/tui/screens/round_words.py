"""What the Round says in words: the day in one line, and what to do with a line of it."""

from __future__ import annotations

from datetime import date

from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Package
from stockroom.services.results import RoundPage
from stockroom.tui.screens.round_rows import Kind, Task
from stockroom.tui.words import (
    caution,
    counted,
    how_to_check,
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
    "doubt": "Do not eat from it until it is decided. c, s, l, d: look again; D discards.",
    "opened": "Opened packages come first: room air is in. x takes food out.",
    "use": "The earliest best-by of what may be eaten. x takes food out.",
    "pack": "Dry food left to pack: Enter goes to the Bench.",
    "run": "A run that is not closed: Enter goes to the Bench.",
}


def summary(page: RoundPage) -> str:
    """The day in one line."""
    parts = [
        counted(len(page.settle), "settle check"),
        f"{len(page.suspect) + len(page.held):,} in doubt",
        f"{len(page.opened):,} opened",
        f"{len(page.to_pack):,} to pack",
    ]
    return " · ".join(part for part in parts if not part.startswith("0 ")) or "All quiet"


def task_lines(task: Task | None, units: UnitSystem, today: date) -> list[str]:
    """How to check or what to do next, and what is in the package."""
    if task is None:
        return []
    record = task.record
    if not isinstance(record, Package):
        return [_NEXT[task.kind]]
    first = how_to_check(record) if task.kind == "settle" else _NEXT[task.kind]
    lines = [first, _inside(task, record, units)]
    if task.kind in ("opened", "use") and is_past(record, today):
        from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY

        lines.append(f"Past its best-by ({QUALITY_NOT_SAFETY}).")
    if record.preparation == "raw" and task.kind in ("opened", "use"):
        lines.append(caution("raw-stays-raw").text)
    return lines


def _inside(task: Task, package: Package, units: UnitSystem) -> str:
    """What and where it is; with the water where the food is about to be eaten."""
    parts = [package.food, place_words(package), package.container, left_words(package, units)]
    if task.kind in ("opened", "use"):
        parts.append(water_words(package))
    return " · ".join(parts)
