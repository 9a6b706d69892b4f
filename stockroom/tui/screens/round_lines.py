"""The lines of the Round as they are drawn: sections, and the cells of every kind of line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from stockroom.domain.doubts import Doubt
from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.rechecks import settle_overdue_days
from stockroom.domain.records import Lot, Package, Run
from stockroom.tui.screens.round_rows import KINDS, RISK_STEP, Kind, Task
from stockroom.tui.screens.sections import Section
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.words import NO_PLACE, counted, days_ago, is_past, place_words, tone_of

COLUMNS = (
    Column("Code", 10, look="main"),
    Column("Food", 14, weight=1),
    Column("Why", 15, look="tone"),
    Column("Place", 10, weight=2, keep="end", look="quiet"),
)

_HEADINGS: dict[Kind, tuple[str, str]] = {
    "doubt": ("In doubt", "v decides · c s l d look again"),
    "settle": ("Settle check", "c crisp · s soft · l leak · d damaged"),
    "recheck": ("Recheck", "c s l d · worst risk first"),
    "run": ("On the machine", "Enter: to the Bench"),
    "queue": ("Waiting for the machine", "Enter: what is next"),
    "pack": ("To pack", "Enter: to the Bench"),
    "opened": ("Opened", "use soon"),
    "use": ("Use first", "x takes it off the book"),
    "upkeep": ("Upkeep", "Enter: to the machine's checks"),
}

DOUBT_WORDS = {
    Doubt.SOFT: "soft: decide",
    Doubt.LEAK: "leak: decide",
    Doubt.DAMAGED: "damaged: decide",
    Doubt.REPACK: "pack it anew",
    Doubt.SISTER: "sister soft",
    Doubt.RECALL: "called back",
    Doubt.UNSAID: "suspect",
}
"""Why a package is doubtful, and what it asks for."""
AT_FAULT = "at fault"
"""How a check of the machine stands whose part is to be put right."""


@dataclass(frozen=True, slots=True)
class Now:
    """What the lines are drawn by: the day, the moment and the household's units."""

    today: date
    moment: datetime
    units: UnitSystem


def sections_of(tasks: Mapping[int, Task], now: Now, later: int = 0) -> list[Section]:
    """The lines as sections; `later` rechecks are overdue and left for the days to come."""
    rows: dict[Kind, list[Row]] = {kind: [] for kind in KINDS}
    for key, task in tasks.items():
        rows[task.kind].append(_row(key, task, now))
    return [_section(kind, rows[kind], later) for kind in KINDS]


def _section(kind: Kind, rows: Sequence[Row], later: int) -> Section:
    title, aside = _HEADINGS[kind]
    if kind == "recheck" and later:
        aside = f"{later:,} more on later days"
    return Section(f"{title} · {len(rows):,}", aside, tuple(rows))


def _row(key: int, task: Task, now: Now) -> Row:
    """A line of the table."""
    record = task.record
    if isinstance(record, Package):
        return _package_row(key, task, record, now.today)
    if isinstance(record, Lot):
        why = f"{show_weight(record.left_dg, now.units)} left"
        return Row(key, (record.code, record.food, why, f"made {record.made_on}"), "due")
    if isinstance(record, Run):
        return _run_row(key, task, record, now)
    if isinstance(record, QueueEntry):
        cells = (record.code, record.food, _turn(task, record), record.place or NO_PLACE)
        return Row(key, cells, "due" if record.state == "dried" else "")
    faulty = record.state == AT_FAULT
    why = AT_FAULT if faulty else _due(record.overdue_days)
    cells = ("machine", record.check.name, why, record.interval.words)
    return Row(key, cells, "bad" if faulty else "due")


def _package_row(key: int, task: Task, package: Package, today: date) -> Row:
    cells = (package.code, package.food, _why(task, package, today), place_words(package))
    tone: Tone = "bad" if is_past(package, today) else tone_of(package, today)
    return Row(key, cells, "due" if task.kind == "recheck" and tone == "good" else tone)


def _why(task: Task, package: Package, today: date) -> str:
    """Why a package stands where it does, in a few words."""
    if task.doubt is not None:
        return DOUBT_WORDS[task.doubt]
    if task.kind == "settle":
        return _due(settle_overdue_days(package.sealed_on, today))
    if task.look is not None:
        return f"risk {task.look.risk // RISK_STEP} of 10"
    if task.kind == "opened":
        return days_ago(package.opened_on or package.sealed_on, today)
    return _best_by(package, today) if task.kind == "use" else package.condition


def _due(overdue_days: int) -> str:
    return f"due {counted(overdue_days, 'day')} ago" if overdue_days else "due today"


def _best_by(package: Package, today: date) -> str:
    if package.best_by is None:
        return "no best-by"
    return f"past {package.best_by}" if is_past(package, today) else f"by {package.best_by}"


def _run_row(key: int, task: Task, run: Run, now: Now) -> Row:
    """A run on the machine: its trays, or when to weigh again after a few more hours."""
    what = run.foods or "nothing loaded yet"
    why, tone = counted(run.trays, "tray"), "due"
    if task.extra is not None:
        due_at = task.extra.due_at.astimezone()
        ready = due_at <= now.moment
        why = "weigh now" if ready else f"weigh {weigh_at(due_at, now.today)}"
        tone = "bad" if ready else "due"
    return Row(key, (f"run {run.run_id}", what, why, f"started {run.started_on}"), tone)


def weigh_at(due_at: datetime, today: date) -> str:
    """The hour of a moment, on the clock on the wall; with its weekday where it is not today."""
    return f"{due_at:%H:%M}" if due_at.date() == today else f"{due_at:%a %H:%M}"


def _turn(task: Task, entry: QueueEntry) -> str:
    """Its place in the queue, and how far it has come."""
    states = {
        "waiting": "waiting",
        "loaded": f"on tray {entry.tray_position}",
        "dried": "dried",
    }
    return f"{task.turn} · {states[entry.state]}"
