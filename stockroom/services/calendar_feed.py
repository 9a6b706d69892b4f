"""The calendar: what is due on which day, under names that stay, ready to be written as a file.

Writing what the file says into the store is bookkeeping, as with the projections: it is not
journalled and undo does not reach it, because a file that was given out stays given out.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from uuid import uuid4

from stockroom.domain.calendar_entries import (
    EntryKind,
    FileTerms,
    Remembered,
    Revision,
    Wanted,
    revise,
)
from stockroom.domain.calendar_words import (
    drying_entry,
    near_the_first,
    recheck_entry,
    settle_entry,
    upkeep_entry,
    use_first_entry,
)
from stockroom.domain.conditions import USABLE, Condition
from stockroom.domain.rechecks import settle_check_due
from stockroom.domain.records import Package
from stockroom.errors import BadInput
from stockroom.services.rechecks import LONGEST_PLAN_DAYS, recheck_plan
from stockroom.services.results import CalendarFeed
from stockroom.services.session import Stockroom
from stockroom.services.upkeep import upkeep_now
from stockroom.store import calendar_rows, evidence_rows, package_rows
from stockroom.store.writing import write

STANDARD_DAYS = 90
"""A season ahead: engineering judgement."""

_TRIES = 3
"""How often a file is put together without holding other programs up."""

_AT_ONCE = 500
"""Packages asked for at a time: below SQLite's parameter limit on every build."""


def calendar_feed(
    room: Stockroom, *, days: int = STANDARD_DAYS, alarm: bool = False
) -> CalendarFeed:
    """What the next calendar file says for today and so many days more; the store remembers it.

    Asked twice, the answer is the same, entry for entry, as long as nothing has changed. `alarm`
    has each entry ring. Raises BadInput for days out of 1 to ten years, and a StoreTrouble for a
    store that cannot be written.
    """
    if not 1 <= days <= LONGEST_PLAN_DAYS:
        accepted = f"a whole number of days from 1 to {LONGEST_PLAN_DAYS}"
        raise BadInput("days", str(days), accepted)
    until = room.today + timedelta(days=days)
    for _ in range(_TRIES):
        seen = room.version_seen()
        draft = _draft(room, until, alarm)
        with write(room.store):
            if room.version_seen() == seen:
                return _kept(room, *draft)
    with write(room.store):
        # Others write without a pause: now they wait.
        return _kept(room, *_draft(room, until, alarm))


def _draft(room: Stockroom, until: date, alarm: bool) -> tuple[FileTerms, Revision]:
    """The next file as the record stands; in a large one this takes longer than a lock may."""
    said = calendar_rows.remembered(room.store)
    now = room.clock.now().replace(microsecond=0)
    terms = FileTerms(_store_name(said), room.today, until, now, alarm)
    return terms, revise(_wanted(room, terms, said), said, terms)


def _kept(room: Stockroom, terms: FileTerms, revision: Revision) -> CalendarFeed:
    """Remember what the file says, inside `write()`."""
    calendar_rows.save_remembered(room.store, revision.remember)
    return CalendarFeed(
        household=room.household.name,
        today=terms.today,
        until=terms.until,
        alarm=terms.alarm,
        entries=revision.entries,
        new=revision.new,
        changed=revision.changed,
        cancelled=revision.cancelled,
        without_best_by=calendar_rows.count_without_best_by(room.store, USABLE),
    )


def _store_name(said: Sequence[Remembered]) -> str:
    """The name every UID of this store ends with, drawn by chance for the first file.

    It is read back from the UIDs given out, so that there is no second place to disagree with
    them, and no action whose undo would have the next file double every entry.
    """
    if not said:
        return uuid4().hex
    return said[0].uid.partition("@")[2].partition(".")[0]


def _wanted(room: Stockroom, terms: FileTerms, said: Iterable[Remembered]) -> Iterator[Wanted]:
    """Everything the calendar should say, each thing once."""
    known = {one.uid for one in said if not one.cancelled and one.on_day >= terms.today}
    yield from _settle_checks(room, terms.until)
    yield from _rechecks(room, terms.until)
    yield from _use_first(room, terms, known)
    for extra in evidence_rows.extra_dryings_waited_for(room.store):
        yield drying_entry(extra)
    for item in upkeep_now(room):
        entry = upkeep_entry(item, room.today)
        if entry and (entry.on_day <= terms.until or entry.uid(terms.store_name) in known):
            yield entry


def _settle_checks(room: Stockroom, until: date) -> Iterator[Wanted]:
    """Settle checks by day; those overdue are due today."""
    due: defaultdict[date, list[Package]] = defaultdict(list)
    for package in package_rows.packages_in_condition(room.store, Condition.SETTLING):
        due[max(room.today, settle_check_due(package.sealed_on))].append(package)
    for day in sorted(due):
        if day <= until:
            yield settle_entry(day, sorted(due[day], key=lambda one: one.package_id))


def _rechecks(room: Stockroom, until: date) -> Iterator[Wanted]:
    """Rechecks by day, the worst risk first, if each is made on its day."""
    due: defaultdict[date, list[int]] = defaultdict(list)
    for planned in recheck_plan(room, until):
        due[planned.on_day].append(planned.package_id)
    packages = _packages(room, [one for ids in due.values() for one in ids])
    for day in sorted(due):
        yield recheck_entry(day, [packages[one] for one in due[day]])


def _use_first(room: Stockroom, terms: FileTerms, known: Collection[str]) -> Iterator[Wanted]:
    """The next best-by of each lot up to `until`, and wherever one that is known has moved to."""
    lots = [
        lot
        for lot in calendar_rows.first_best_bys(room.store, room.today, USABLE)
        if lot.first <= terms.until or _use_first_uid(lot.lot_code, lot.first, terms) in known
    ]
    ids = [lot.lot_id for lot in lots]
    best_bys = calendar_rows.best_bys_of(room.store, ids, room.today, USABLE)
    near = {
        lot.lot_id: [one for one, day in best_bys[lot.lot_id] if near_the_first(lot.first, day)]
        for lot in lots
    }
    packages = _packages(room, [one for some in near.values() for one in some])
    for lot_id, some in near.items():
        longer = len(best_bys[lot_id]) - len(some)
        yield use_first_entry([packages[one] for one in some], longer)


def _use_first_uid(lot_code: str, day: date, terms: FileTerms) -> str:
    """The UID of a lot's best-by, before its words are put together."""
    return Wanted(EntryKind.USE_FIRST, lot_code, day, "", ()).uid(terms.store_name)


def _packages(room: Stockroom, ids: Sequence[int]) -> Mapping[int, Package]:
    """These packages by their ids."""
    found: dict[int, Package] = {}
    for start in range(0, len(ids), _AT_ONCE):
        some = package_rows.packages_by_ids(room.store, ids[start : start + _AT_ONCE])
        found |= {one.package_id: one for one in some}
    return found
