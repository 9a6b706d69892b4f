"""A calendar as a file of RFC 5545 (published), and what to say of it once it is written.

The file has no METHOD, so it is a plain set of entries that any calendar takes in; a METHOD would
ask for an organizer with an address (RFC 5546, 3.2.1). Days are whole and free (TRANSP), times are
in UTC: the end of some hours of drying is one instant, wherever the calendar is looked at.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import Protocol, TypeVar, cast

from stockroom.domain.calendar_entries import PRODUCT, CalendarEntry
from stockroom.reports.plain import clean
from stockroom.reports.values import COUNT, DAY, TEXT, Field, Fields, Prose, Report, document
from stockroom.services.results import CalendarFeed

Value = str | int | date | timedelta
"""The value of a property, as Python has it."""

Part = TypeVar("Part")

KIND = "calendar"

ALARM_AFTER = timedelta(hours=9)
"""An alarm for a whole day rings at nine: engineering judgement."""

LOOK_AGAIN = timedelta(minutes=15)
"""The length of an entry with a time of day, so that a calendar has something to draw."""

_BEGINNING = b"BEGIN:VCALENDAR"


def is_our_calendar(head: bytes) -> bool:
    """Whether a file that begins so is a calendar this program wrote."""
    return head.startswith(_BEGINNING) and f"PRODID:{PRODUCT}\r\n".encode() in head


def calendar_file(feed: CalendarFeed) -> bytes:
    """The whole file in UTF-8. ValueError for a feed without entries, which no file may have."""
    from icalendar import Alarm, Calendar, Event

    if not feed.entries:
        raise ValueError("a calendar file holds one entry at least (RFC 5545, 3.6)")
    calendar = _filled(Calendar(), _heading(feed))
    for entry in feed.entries:
        event = _filled(Event(), _properties(entry))
        if feed.alarm and not entry.cancelled:
            event.add_component(_filled(Alarm(), _ringing(entry)))
        calendar.add_component(event)
    return calendar.to_ical()


class _Takes(Protocol):
    """What a part of a calendar does with a property; the library leaves the value's type open."""

    def add(self, name: str, value: Value) -> None:
        """Give it a property."""
        ...


def _filled(part: Part, properties: Iterable[tuple[str, Value]]) -> Part:
    """The part with all its properties; the library folds and escapes them."""
    for name, value in properties:
        cast(_Takes, part).add(name, value)
    return part


def _heading(feed: CalendarFeed) -> Iterator[tuple[str, Value]]:
    """The calendar's own properties; NAME is of RFC 7986, most programs read the other one."""
    from icalendar import vText

    # The library escapes nothing in properties of which it does not know that they are text.
    name = vText(f"stockroom, {clean(feed.household)}" if feed.household else "stockroom")
    yield "prodid", PRODUCT
    yield "version", "2.0"
    yield "calscale", "GREGORIAN"
    yield "name", name
    yield "x-wr-calname", name


def _properties(entry: CalendarEntry) -> Iterator[tuple[str, Value]]:
    """One entry."""
    yield "uid", entry.uid
    yield "sequence", entry.sequence
    yield "dtstamp", entry.revised_at
    yield "last-modified", entry.revised_at
    yield "dtstart", entry.at or entry.on_day
    if entry.at is not None:
        yield "duration", LOOK_AGAIN
    yield "summary", clean(entry.summary)
    yield "description", "\n".join(map(clean, entry.lines))
    yield "status", "CANCELLED" if entry.cancelled else "CONFIRMED"
    yield "transp", "TRANSPARENT"


def _ringing(entry: CalendarEntry) -> Iterator[tuple[str, Value]]:
    """An alarm at the time of day, or at nine."""
    yield "action", "DISPLAY"
    yield "description", clean(entry.summary)
    yield "trigger", timedelta(0) if entry.at is not None else ALARM_AFTER


def written_words(feed: CalendarFeed, path: str) -> str:
    """What was written where, in one sentence; `path` is "" when there was nothing to write."""
    until = feed.until.isoformat()
    if not feed.entries:
        return f"Nothing is due up to {until}: no file was written."
    changes = [
        f"{count} {word}"
        for count, word in (
            (feed.new, "new"),
            (feed.changed, "changed"),
            (feed.cancelled, "taken back"),
        )
        if count
    ]
    said = ", ".join(changes) or "nothing has changed since the last file"
    many = "1 entry" if len(feed.entries) == 1 else f"{len(feed.entries)} entries"
    return f"Wrote {many} up to {until} to {clean(path)}: {said}."


def left_out_words(feed: CalendarFeed) -> str:
    """What no calendar can say, in one sentence; "" when there is nothing."""
    count = feed.without_best_by
    if not count:
        return ""
    many = "1 package has" if count == 1 else f"{count} packages have"
    return f"{many} no best-by and so no day here; the Round names them first."


def written_report(feed: CalendarFeed, path: str) -> Report:
    """The same for people and for programs."""
    return document(
        "",
        (
            Prose("", (written_words(feed, path),)),
            Fields(
                (
                    Field("file", TEXT, path if feed.entries else None),
                    Field("from", DAY, feed.today),
                    Field("until", DAY, feed.until),
                    Field("entries", COUNT, len(feed.entries)),
                    Field("new", COUNT, feed.new),
                    Field("changed", COUNT, feed.changed),
                    Field("cancelled", COUNT, feed.cancelled),
                    Field("without_best_by", COUNT, feed.without_best_by),
                )
            ),
        ),
    )
