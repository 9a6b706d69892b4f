"""What wants doing today, as sections of rows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal
from zlib import crc32

from stockroom.domain.doubts import Doubt
from stockroom.domain.evidence_records import ExtraDrying, QueueEntry
from stockroom.domain.records import Lot, Package, Run, StoredRecheck
from stockroom.services.results import RoundPage
from stockroom.tui.words import walking

if TYPE_CHECKING:
    from stockroom.domain.upkeep import UpkeepItem

Kind = Literal["doubt", "settle", "recheck", "run", "queue", "pack", "opened", "use", "upkeep"]
"""What a line of the Round asks for."""

KINDS: tuple[Kind, ...] = (
    "doubt",
    "settle",
    "recheck",
    "run",
    "queue",
    "pack",
    "opened",
    "use",
    "upkeep",
)
"""In the order shown: doubt first, then the shelf, the machine, the kitchen."""
CHECKS: tuple[Kind, ...] = ("settle", "recheck")
"""Where one key records what was found."""

_NUMBERS: dict[Kind, int] = {kind: number for number, kind in enumerate(KINDS)}
_SPAN = 1 << 32
"""Rows of each kind have keys of their own: a package may stand in two sections."""
_LAST = 1 << 31
RISK_STEP = 100
"""Packages whose risk differs by less stand in the order of the shelves."""


def row_key(kind: Kind, record_id: int) -> int:
    """The key of a line: its kind and the id of its record."""
    return _NUMBERS[kind] * _SPAN + record_id


def kind_of(key: int) -> Kind:
    """What the line of this key asks for."""
    return KINDS[key // _SPAN]


@dataclass(frozen=True, slots=True)
class Task:
    """One line of the Round: what it asks for and the record it is about."""

    kind: Kind
    record: Package | Lot | Run | QueueEntry | UpkeepItem
    doubt: Doubt | None = None
    """Why the package is doubtful, where it is."""
    look: StoredRecheck | None = None
    """When it is to be looked at, in a recheck."""
    turn: int = 0
    """Its place in the queue for the machine, from 1 on."""
    extra: ExtraDrying | None = None
    """The hours a run dries longer, until something is weighed."""


def tasks_of(
    page: RoundPage,
    upkeep: Sequence[UpkeepItem] = (),
    before: Mapping[int, Task] | None = None,
) -> dict[int, Task]:
    """Every line of the page by its key, in the order shown.

    `before` are the lines shown so far. A package listed for a look that has turned doubtful
    because of a sister keeps its line there: whoever goes along the shelf finds it in its turn.
    """
    doubts = dict(zip((one.package_id for one in page.suspect), page.doubts, strict=True))
    kept = _kept(page.suspect, doubts, before or {})
    in_turn = {key: place for place, key in enumerate(before or {})}
    tasks: dict[int, Task] = {}
    for kind, listed in _lists(page, upkeep, doubts, kept):
        of_kind = {row_key(kind, _id_of(task)): task for task in listed}
        late = {key: task for key, task in kept.items() if task.kind == kind}
        if late:
            of_kind |= late
            of_kind = dict(sorted(of_kind.items(), key=lambda one: in_turn.get(one[0], _LAST)))
        tasks |= of_kind
    return tasks


def _lists(
    page: RoundPage,
    upkeep: Sequence[UpkeepItem],
    doubts: Mapping[int, Doubt],
    kept: Mapping[int, Task],
) -> Iterable[tuple[Kind, Iterable[Task]]]:
    """The lines of each kind in their order."""
    looks = {one.package_id: one for one in page.looks}
    extra = {one.run_id: one for one in page.reminders}
    return (
        ("doubt", _doubtful(page, doubts, kept)),
        ("settle", [Task("settle", one) for one in sorted(page.settle, key=walking)]),
        ("recheck", [Task("recheck", one, look=looks[one.package_id]) for one in _by_risk(page)]),
        ("run", [Task("run", one, extra=extra.get(one.run_id)) for one in page.open_runs]),
        ("queue", [Task("queue", one, turn=turn) for turn, one in enumerate(page.queue, 1)]),
        ("pack", [Task("pack", one) for one in page.packable]),
        ("opened", [Task("opened", one) for one in page.opened]),
        ("use", [Task("use", one) for one in page.use_first]),
        ("upkeep", [Task("upkeep", one) for one in upkeep]),
    )


def _kept(
    suspect: Sequence[Package], doubts: Mapping[int, Doubt], before: Mapping[int, Task]
) -> dict[int, Task]:
    """Lines of the looks listed before whose package a sister has made doubtful since."""
    found: dict[int, Task] = {}
    for package in suspect:
        for kind in CHECKS:
            key = row_key(kind, package.package_id)
            if key in before and doubts[package.package_id] is Doubt.SISTER:
                found[key] = Task(kind, package, Doubt.SISTER, before[key].look)
    return found


def _doubtful(page: RoundPage, doubts: Mapping[int, Doubt], kept: Mapping[int, Task]) -> list[Task]:
    """Doubtful packages: those to be decided on first, then those to be looked at.

    Held ones wait in the queue; one that is in no queue stands here, not to be forgotten.
    """
    elsewhere = {_id_of(task) for task in kept.values()}
    queued = {entry.package_id for entry in page.queue}
    tasks = [
        Task("doubt", one, doubts[one.package_id])
        for one in sorted(page.suspect, key=walking)
        if one.package_id not in elsewhere
    ]
    tasks.sort(key=lambda task: task.doubt is None or not task.doubt.own_fault)
    held = [one for one in page.held if one.package_id not in queued]
    return tasks + [Task("doubt", one) for one in sorted(held, key=walking)]


def _by_risk(page: RoundPage) -> list[Package]:
    """Rechecks by risk, those at about the same one as a person walks along."""
    risks = {one.package_id: one.risk for one in page.looks}
    return sorted(
        page.recheck,
        key=lambda one: (-(risks[one.package_id] // RISK_STEP), walking(one)),
    )


def _id_of(task: Task) -> int:
    """The id of a task's record; a check of the machine has a name, of which a number is made."""
    record = task.record
    if isinstance(record, Package):
        return record.package_id
    if isinstance(record, Lot):
        return record.lot_id
    if isinstance(record, Run):
        return record.run_id
    if isinstance(record, QueueEntry):
        return record.entry_id
    return crc32(record.check.key.encode())
