"""What a calendar file says, and how the next file takes it up again instead of doubling it.

The rules are those of RFC 5545 and RFC 5546 (published): an entry keeps its UID for good, and
every change of what it says raises its SEQUENCE; the file has no METHOD, so DTSTAMP is the instant
of the last change. An entry that no longer holds is said once more as cancelled, in every file
until its day has passed. No UID is ever forgotten: one that comes back goes on counting.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import StrEnum

PRODUCT = "-//stockroom//calendar//EN"
"""Names the program that wrote a file (RFC 5545, PRODID); by it a file is known as our own."""

CANCELLED_LINE = "Taken back by stockroom: it is done, or due on another day."


class EntryKind(StrEnum):
    """What an entry is about; the first word of its UID."""

    SETTLE = "settle"
    RECHECK = "recheck"
    USE_FIRST = "use-first"
    DRYING = "drying"
    UPKEEP = "upkeep"


@dataclass(frozen=True, slots=True)
class Wanted:
    """One thing the calendar should say now.

    `key` names it within its kind for good: a day, a lot, a run or a check of the machine. `at` is
    an instant in UTC for what has a time of day; without it the entry is for the whole day.
    """

    kind: EntryKind
    key: str
    on_day: date
    summary: str
    lines: tuple[str, ...]
    at: datetime | None = None

    def uid(self, store_name: str) -> str:
        """Its name, for good and all over the world. `.invalid` is nobody's (RFC 2606)."""
        return f"{self.kind}-{self.key}@{store_name}.stockroom.invalid"

    def digest(self, alarm: bool) -> str:
        """A fingerprint of all it says, to tell whether anything has changed."""
        at = None if self.at is None else self.at.isoformat()
        said = [self.on_day.isoformat(), at, self.summary, *self.lines, alarm]
        return hashlib.sha256(json.dumps(said).encode()).hexdigest()


@dataclass(frozen=True, slots=True)
class Remembered:
    """What the last file said under one UID. `revised_at` is the instant of its last change."""

    uid: str
    sequence: int
    digest: str
    on_day: date
    summary: str
    revised_at: datetime
    cancelled: bool


@dataclass(frozen=True, slots=True)
class CalendarEntry:
    """One entry as a file has it; `at` is in UTC, None for a whole day."""

    uid: str
    sequence: int
    revised_at: datetime
    on_day: date
    at: datetime | None
    summary: str
    lines: tuple[str, ...]
    cancelled: bool


@dataclass(frozen=True, slots=True)
class Revision:
    """The entries of the next file, and what has to be remembered anew of it."""

    entries: tuple[CalendarEntry, ...]
    remember: tuple[Remembered, ...]
    """What is new or has changed; everything else stays as it is on record."""
    new: int
    changed: int
    cancelled: int
    """Entries taken back for the first time in this file."""


@dataclass(frozen=True, slots=True)
class FileTerms:
    """What holds for a whole file: the store's name, its days, the instant, and alarms or none."""

    store_name: str
    today: date
    until: date
    now: datetime
    alarm: bool = False


def revise(
    wanted: Iterable[Wanted], remembered: Sequence[Remembered], terms: FileTerms
) -> Revision:
    """The next file, from what is wanted now and what the last one said.

    What was said for today or a later day up to `until`, both included, and is not wanted now is
    taken back. What was said for after `until` is left alone, so that a file for fewer days takes
    nothing back. ValueError when two wanted entries have the same name.
    """
    known = {one.uid: one for one in remembered}
    entries: list[CalendarEntry] = []
    remember: list[Remembered] = []
    seen: set[str] = set()
    for one in wanted:
        uid = one.uid(terms.store_name)
        if uid in seen:
            raise ValueError(f"two calendar entries of one name: {uid}")
        seen.add(uid)
        now = _said_now(one, uid, known.get(uid), terms)
        if now is not known.get(uid):
            remember.append(now)
        entries.append(_entry(one, now))
    new = sum(one.uid not in known for one in remember)
    changed = len(remember) - new
    gone, gone_anew = _taken_back([one for one in remembered if one.uid not in seen], terms)
    every = sorted([*entries, *gone], key=lambda one: (one.on_day, one.uid))
    return Revision(tuple(every), (*remember, *gone_anew), new, changed, len(gone_anew))


def _said_now(one: Wanted, uid: str, known: Remembered | None, terms: FileTerms) -> Remembered:
    """What is remembered of a wanted entry: the same record when nothing about it has changed."""
    digest = one.digest(terms.alarm)
    if known is None:
        return Remembered(uid, 0, digest, one.on_day, one.summary, terms.now, cancelled=False)
    if known.digest == digest and not known.cancelled:
        return known
    return replace(
        _raised(known, terms.now),
        digest=digest,
        on_day=one.on_day,
        summary=one.summary,
        cancelled=False,
    )


def _raised(known: Remembered, now: datetime) -> Remembered:
    """One revision on; its instant never goes back, even where a clock does."""
    return replace(known, sequence=known.sequence + 1, revised_at=max(now, known.revised_at))


def _entry(one: Wanted, now: Remembered) -> CalendarEntry:
    return CalendarEntry(
        now.uid,
        now.sequence,
        now.revised_at,
        one.on_day,
        one.at,
        one.summary,
        one.lines,
        cancelled=False,
    )


def _taken_back(
    unwanted: Iterable[Remembered], terms: FileTerms
) -> tuple[list[CalendarEntry], list[Remembered]]:
    """The cancelled entries of the file, and what has to be remembered of those just cancelled."""
    entries: list[CalendarEntry] = []
    anew: list[Remembered] = []
    for known in unwanted:
        if not terms.today <= known.on_day <= terms.until:
            continue
        now = known
        if not known.cancelled:
            now = replace(_raised(known, terms.now), cancelled=True)
            anew.append(now)
        entries.append(
            CalendarEntry(
                now.uid,
                now.sequence,
                now.revised_at,
                now.on_day,
                None,
                f"No longer due: {now.summary}",
                (CANCELLED_LINE,),
                cancelled=True,
            )
        )
    return entries, anew
