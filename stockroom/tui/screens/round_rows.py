"""What wants doing today, as sections of rows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.rechecks import settle_overdue_days
from stockroom.domain.records import Lot, Package, Run
from stockroom.services.results import RoundPage
from stockroom.tui.screens.sections import Section
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.words import counted, days_ago, is_past, place_words, tone_of

Kind = Literal["settle", "doubt", "opened", "use", "pack", "run"]
"""What a line of the Round asks for."""

COLUMNS = (
    Column("Code", 10, look="main"),
    Column("Food", 14, weight=1),
    Column("Why", 15, look="tone"),
    Column("Place", 10, weight=2, keep="end", look="quiet"),
)

_KINDS: tuple[Kind, ...] = ("settle", "doubt", "opened", "use", "pack", "run")
_SPAN = 1 << 32
"""Rows of each kind have keys of their own: a package may stand in two sections."""


def row_key(kind: Kind, record_id: int) -> int:
    """The key of a line: its kind and the id of its record."""
    return _KINDS.index(kind) * _SPAN + record_id


def kind_of(key: int) -> Kind:
    """What the line of this key asks for."""
    return _KINDS[key // _SPAN]


@dataclass(frozen=True, slots=True)
class Task:
    """One line of the Round: what it asks for and the record it is about."""

    kind: Kind
    record: Package | Lot | Run


def tasks_of(page: RoundPage) -> dict[int, Task]:
    """Every line of the page by its key, in the order shown."""
    of_packages: tuple[tuple[Kind, Sequence[Package]], ...] = (
        ("settle", sorted(page.settle, key=_shelf_order)),
        ("doubt", sorted((*page.suspect, *page.held), key=_shelf_order)),
        ("opened", page.opened),
        ("use", page.use_first),
    )
    tasks: dict[int, Task] = {}
    for kind, packages in of_packages:
        tasks.update((row_key(kind, one.package_id), Task(kind, one)) for one in packages)
    tasks.update((row_key("pack", lot.lot_id), Task("pack", lot)) for lot in page.to_pack)
    tasks.update((row_key("run", run.run_id), Task("run", run)) for run in page.open_runs)
    return tasks


def _shelf_order(package: Package) -> tuple[list[str], str]:
    """Place by place, as a person walks along; packages without a place first."""
    return package.place.casefold().split("/"), package.code


def sections_of(page: RoundPage, tasks: dict[int, Task], units: UnitSystem) -> list[Section]:
    """The page as sections, the most pressing first."""
    rows: dict[Kind, list[Row]] = {kind: [] for kind in _KINDS}
    for key, task in tasks.items():
        rows[task.kind].append(_row(key, task, page.today, units))
    return [_section(kind, rows[kind]) for kind in _KINDS]


_HEADINGS: dict[Kind, tuple[str, str]] = {
    "settle": ("Settle check", "c crisp · s soft · l leak · d damaged"),
    "doubt": ("In doubt", "c s l d look again · D discard"),
    "opened": ("Opened", "use soon"),
    "use": ("Use first", "x takes it off the book"),
    "pack": ("To pack", "Enter: to the Bench"),
    "run": ("On the machine", "Enter: to the Bench"),
}


def _section(kind: Kind, rows: Sequence[Row]) -> Section:
    title, aside = _HEADINGS[kind]
    return Section(f"{title} · {len(rows):,}", aside, tuple(rows))


def _row(key: int, task: Task, today: date, units: UnitSystem) -> Row:
    """A line of the table."""
    record = task.record
    if isinstance(record, Lot):
        why = f"{show_weight(record.left_dg, units)} left"
        return Row(key, (record.code, record.food, why, f"made {record.made_on}"), "due")
    if isinstance(record, Run):
        what = record.foods or "nothing loaded yet"
        why = counted(record.trays, "tray")
        return Row(key, (f"run {record.run_id}", what, why, f"started {record.started_on}"), "due")
    cells = (record.code, record.food, _WHY[task.kind](record, today), place_words(record))
    tone = "bad" if is_past(record, today) else tone_of(record, today)
    return Row(key, cells, tone)


def _why_settle(package: Package, today: date) -> str:
    overdue = settle_overdue_days(package.sealed_on, today)
    return f"due {counted(overdue, 'day')} ago" if overdue else "due today"


def _why_opened(package: Package, today: date) -> str:
    return days_ago(package.opened_on or package.sealed_on, today)


def _why_use(package: Package, today: date) -> str:
    if package.best_by is None:
        return "no best-by"
    return f"past {package.best_by}" if is_past(package, today) else f"by {package.best_by}"


_WHY: dict[Kind, Callable[[Package, date], str]] = {
    "settle": _why_settle,
    "doubt": lambda package, today: package.condition,
    "opened": _why_opened,
    "use": _why_use,
}
