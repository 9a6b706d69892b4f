"""The calendar file, read back by the library that wrote it, by another, and byte by byte.

The rules it is held to stand in RFC 5545 (published): 3.1 lines of 75 octets at most, each ended
by CRLF; 3.6 one component at least; 3.6.1 UID, DTSTAMP and DTSTART once in every entry; 3.8.2.7
TRANSP; 3.8.6 alarms; 3.8.7.2 DTSTAMP in UTC.
"""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
import vobject
from hypothesis import given, settings
from hypothesis import strategies as st
from icalendar import Calendar as Library

from stockroom.domain.calendar_entries import CalendarEntry
from stockroom.reports.as_json import as_json
from stockroom.reports.calendar_file import (
    calendar_file,
    is_our_calendar,
    left_out_words,
    written_report,
    written_words,
)
from stockroom.reports.plain import clean
from stockroom.services.results import CalendarFeed

TODAY = date(2026, 11, 25)
REVISED = datetime(2026, 11, 20, 6, 30, 5, tzinfo=UTC)
AWKWARD = 'Peas; "green", [soft] \\n back\\slash, 冷凍 ☃ 100 %: ende;'


def entry(**changes: Any) -> CalendarEntry:
    """A recheck in three days."""
    given_values: dict[str, Any] = {
        "uid": "recheck-20261128@a1b2.stockroom.invalid",
        "sequence": 4,
        "revised_at": REVISED,
        "on_day": date(2026, 11, 28),
        "at": None,
        "summary": "Recheck 2 packages",
        "lines": ("cellar", "- peas: 26329A01E, 26329A02C", "", "Never taste."),
        "cancelled": False,
    }
    return CalendarEntry(**(given_values | changes))


def feed(*entries: CalendarEntry, **changes: Any) -> CalendarFeed:
    """A file of these entries."""
    given_values: dict[str, Any] = {
        "household": "",
        "today": TODAY,
        "until": TODAY + timedelta(days=90),
        "alarm": False,
        "entries": entries,
        "new": len(entries),
        "changed": 0,
        "cancelled": 0,
        "without_best_by": 0,
    }
    return CalendarFeed(**(given_values | changes))


def events(content: bytes) -> list[Any]:
    """The entries as the other library reads them."""
    return list(vobject.readOne(content.decode()).contents.get("vevent", []))


TIMED = datetime(2026, 11, 26, 1, 30, tzinfo=UTC)
ENTRIES = (
    entry(),
    entry(uid="drying-run-7@a1b2.stockroom.invalid", on_day=TIMED.date(), at=TIMED, sequence=0),
    entry(uid="settle-20261126@a1b2.stockroom.invalid", cancelled=True, sequence=1),
    entry(uid="use-first-26329A@a1b2.stockroom.invalid", summary=AWKWARD, lines=(AWKWARD,) * 9),
)


def test_both_libraries_read_back_what_was_said() -> None:
    content = calendar_file(feed(*ENTRIES))
    for read in (list(Library.from_ical(content).walk("VEVENT")), events(content)):
        assert len(read) == len(ENTRIES)
    for said, theirs in zip(ENTRIES, events(content), strict=True):
        assert theirs.uid.value == said.uid
        assert int(theirs.sequence.value) == said.sequence
        assert theirs.dtstamp.value == theirs.last_modified.value == REVISED
        assert theirs.dtstart.value == (said.at or said.on_day)
        assert theirs.summary.value == said.summary
        assert theirs.description.value == "\n".join(said.lines)
        assert theirs.status.value == ("CANCELLED" if said.cancelled else "CONFIRMED")
        assert theirs.transp.value == "TRANSPARENT"


def test_whole_days_are_dates_and_times_are_utc() -> None:
    lines = calendar_file(feed(*ENTRIES)).decode().split("\r\n")
    assert "DTSTART;VALUE=DATE:20261128" in lines
    assert "DTSTART:20261126T013000Z" in lines and "DURATION:PT15M" in lines
    assert lines.count("DTSTAMP:20261120T063005Z") == len(ENTRIES)
    assert not any(line.startswith(("METHOD", "ORGANIZER", "ATTENDEE")) for line in lines)
    assert lines[0] == "BEGIN:VCALENDAR" and lines[-2:] == ["END:VCALENDAR", ""]
    assert {"VERSION:2.0", "PRODID:-//stockroom//calendar//EN"} <= set(lines)


def test_without_alarms_nothing_rings_and_with_them_what_still_holds() -> None:
    assert b"VALARM" not in calendar_file(feed(*ENTRIES))
    rung = events(calendar_file(feed(*ENTRIES, alarm=True)))
    alarms = {one.uid.value.split("-")[0]: one.contents.get("valarm") for one in rung}
    assert alarms["settle"] is None, "what was taken back does not ring"
    (whole_day,) = alarms["recheck"]
    assert whole_day.trigger.value == timedelta(hours=9)
    (timed,) = alarms["drying"]
    assert timed.trigger.value == timedelta(0)
    assert timed.action.value == "DISPLAY" and timed.description.value


def test_the_calendar_has_the_name_of_the_household() -> None:
    content = calendar_file(feed(entry(), household="Mill; house\x1b"))
    read = vobject.readOne(content.decode())
    assert read.x_wr_calname.value == "stockroom, Mill; house␛"
    assert b"X-WR-CALNAME:stockroom\r\n" in calendar_file(feed(entry()))


def test_the_same_feed_is_the_same_file() -> None:
    assert calendar_file(feed(*ENTRIES)) == calendar_file(feed(*ENTRIES))


def test_a_file_without_entries_is_none() -> None:
    with pytest.raises(ValueError, match="one entry at least"):
        calendar_file(feed())


TYPED = st.text(st.characters(codec="utf-8"), max_size=200)


@given(TYPED, st.lists(TYPED, max_size=5))
@settings(max_examples=150, deadline=None)
def test_whatever_people_type_the_lines_are_whole_and_read_back(
    summary: str, lines: list[str]
) -> None:
    content = calendar_file(feed(entry(summary=f"x{summary}", lines=tuple(lines))))
    for line in content.split(b"\r\n"):
        assert len(line) <= 75
        line.decode()  # no character is broken in two
        assert not re.search(rb"[\x00-\x08\x0a-\x1f\x7f]", line)
    # Unfolded and unescaped by hand, after RFC 5545, 3.1 and 3.3.11.
    text = content.decode().replace("\r\n ", "")
    (said,) = re.findall(r"^SUMMARY:(.*)\r$", text, re.MULTILINE)
    unescaped = re.sub(r"\\(.)", lambda found: {"n": "\n"}.get(found[1], found[1]), said)
    assert unescaped == clean(f"x{summary}")
    (event,) = Library.from_ical(content).walk("VEVENT")
    assert str(event["SUMMARY"]) == unescaped
    assert len(events(content)) == 1


def test_a_file_of_ours_is_known_by_its_beginning() -> None:
    content = calendar_file(feed(*ENTRIES))
    assert is_our_calendar(content)
    assert is_our_calendar(content[:4096])
    other = content.replace(b"-//stockroom//calendar//EN", b"-//somebody//else//EN")
    for head in (b"", b"dear reader", other, b"x" + content):
        assert not is_our_calendar(head)


def test_what_was_written_is_told_in_a_sentence() -> None:
    plain = feed(entry(), new=0)
    assert written_words(plain, "due.ics") == (
        "Wrote 1 entry up to 2027-02-23 to due.ics: nothing has changed since the last file."
    )
    several = feed(*ENTRIES, new=2, changed=1, cancelled=1)
    assert written_words(several, "a\x1b.ics") == (
        "Wrote 4 entries up to 2027-02-23 to a␛.ics: 2 new, 1 changed, 1 taken back."
    )
    assert written_words(feed(), "due.ics") == (
        "Nothing is due up to 2027-02-23: no file was written."
    )


@pytest.mark.parametrize(
    ("count", "words"), [(0, ""), (1, "1 package has no best-by"), (3, "3 packages have no")]
)
def test_what_has_no_day_is_said(count: int, words: str) -> None:
    said = left_out_words(feed(without_best_by=count))
    assert said.startswith(words) and bool(said) == bool(count)


def test_the_report_says_the_same_to_a_program() -> None:
    import json

    said = json.loads(as_json(written_report(feed(*ENTRIES, changed=1), "due.ics")))
    assert said == {
        "file": "due.ics",
        "from": "2026-11-25",
        "until": "2027-02-23",
        "entries": 4,
        "new": 4,
        "changed": 1,
        "cancelled": 0,
        "without_best_by": 0,
    }
    assert json.loads(as_json(written_report(feed(), "due.ics")))["file"] is None
