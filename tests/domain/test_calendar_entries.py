"""A calendar that takes in one file after another shows what is due, each thing once."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.calendar_entries import (
    EntryKind,
    FileTerms,
    Remembered,
    Revision,
    Wanted,
    revise,
)
from tests.calendars import Calendar

TODAY = date(2026, 11, 25)
NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)
TERMS = FileTerms("a1", TODAY, TODAY + timedelta(days=90), NOW)


def wanted(day: date = TODAY, summary: str = "Recheck 3 packages", key: str = "x") -> Wanted:
    """One entry."""
    return Wanted(EntryKind.RECHECK, key, day, summary, ("cellar", "- peas: 26329A01E"))


def remembered_after(before: list[Remembered], revision: Revision) -> list[Remembered]:
    """What is on record once a file is written."""
    now = {one.uid: one for one in before} | {one.uid: one for one in revision.remember}
    return list(now.values())


def test_the_first_file_begins_to_count_at_nought() -> None:
    revision = revise([wanted()], [], TERMS)
    (entry,) = revision.entries
    assert entry.uid == "recheck-x@a1.stockroom.invalid"
    assert (entry.sequence, entry.revised_at, entry.cancelled) == (0, NOW, False)
    assert (revision.new, revision.changed, revision.cancelled) == (1, 0, 0)


def test_what_has_not_changed_is_said_again_word_for_word() -> None:
    first = revise([wanted()], [], TERMS)
    later = replace(TERMS, now=NOW + timedelta(hours=5))
    second = revise([wanted()], list(first.remember), later)
    assert second.entries == first.entries
    assert second.remember == ()
    assert (second.new, second.changed, second.cancelled) == (0, 0, 0)


@pytest.mark.parametrize(
    "other",
    [
        wanted(TODAY + timedelta(days=1)),
        wanted(summary="Recheck 2 packages"),
        replace(wanted(), lines=("loft", "- peas: 26329A01E")),
        replace(wanted(), at=NOW),
    ],
    ids=["day", "summary", "lines", "hour"],
)
def test_every_change_is_a_new_revision(other: Wanted) -> None:
    first = revise([wanted()], [], TERMS)
    now = NOW + timedelta(days=1)
    second = revise([other], list(first.remember), replace(TERMS, now=now))
    (entry,) = second.entries
    assert (entry.uid, entry.sequence, entry.revised_at) == (first.entries[0].uid, 1, now)
    assert (second.new, second.changed, second.cancelled) == (0, 1, 0)


def test_an_alarm_is_a_change_too() -> None:
    first = revise([wanted()], [], TERMS)
    second = revise([wanted()], list(first.remember), replace(TERMS, alarm=True))
    assert second.entries[0].sequence == 1


def test_lines_cannot_slip_into_the_summary_unseen() -> None:
    one = Wanted(EntryKind.UPKEEP, "oil", TODAY, "a", ("b",))
    other = Wanted(EntryKind.UPKEEP, "oil", TODAY, "a\nb", ())
    assert one.digest(False) != other.digest(False)


def test_what_is_gone_is_taken_back_until_its_day_has_passed() -> None:
    day = TODAY + timedelta(days=3)
    said = list(revise([wanted(day)], [], TERMS).remember)
    gone = revise([], said, TERMS)
    (entry,) = gone.entries
    assert (entry.cancelled, entry.sequence, entry.on_day) == (True, 1, day)
    assert entry.summary == "No longer due: Recheck 3 packages"
    assert gone.cancelled == 1
    said = remembered_after(said, gone)
    for days in range(6):
        terms = replace(TERMS, today=TODAY + timedelta(days=days), now=NOW + timedelta(days=days))
        again = revise([], said, terms)
        assert again.remember == ()
        assert again.entries == (gone.entries if days <= 3 else ())


def test_what_comes_back_goes_on_counting_even_after_its_day() -> None:
    said = list(revise([wanted()], [], TERMS).remember)
    said = remembered_after(said, revise([], said, TERMS))
    a_month_on = replace(TERMS, today=TODAY + timedelta(days=30), now=NOW + timedelta(days=30))
    back = revise([wanted(TODAY + timedelta(days=40))], said, a_month_on)
    (entry,) = back.entries
    assert (entry.sequence, entry.cancelled) == (2, False)


def test_a_file_for_fewer_days_takes_nothing_back() -> None:
    said = list(revise([wanted(TODAY + timedelta(days=60))], [], TERMS).remember)
    short = replace(TERMS, until=TODAY + timedelta(days=59))
    assert revise([], said, short).entries == ()
    on_the_day = replace(TERMS, until=TODAY + timedelta(days=60))
    assert revise([], said, on_the_day).cancelled == 1


def test_a_clock_that_went_back_does_not_take_the_instant_back() -> None:
    said = list(revise([wanted()], [], TERMS).remember)
    earlier = replace(TERMS, now=NOW - timedelta(days=400))
    (entry,) = revise([wanted(summary="other")], said, earlier).entries
    assert (entry.sequence, entry.revised_at) == (1, NOW)


def test_two_entries_of_one_name_are_a_defect() -> None:
    with pytest.raises(ValueError, match="two calendar entries"):
        revise([wanted(), wanted(summary="other")], [], TERMS)


KEYS = st.sampled_from("abcde")
DUE = st.dictionaries(KEYS, st.tuples(st.integers(0, 45), st.sampled_from("xyz")), max_size=5)
EXPORTS = st.lists(
    st.tuples(st.integers(0, 20), st.integers(1, 40), st.booleans(), DUE), min_size=1, max_size=8
)


@given(EXPORTS)
@settings(max_examples=200, deadline=None)
def test_a_calendar_shows_what_is_due_after_any_files(
    exports: list[tuple[int, int, bool, dict[str, tuple[int, str]]]],
) -> None:
    """Days pass, things come, change, move and go; the horizon and the alarms change."""
    calendar = Calendar()
    said: list[Remembered] = []
    today, now = TODAY, NOW
    for days_on, horizon, alarm, due in exports:
        today, now = today + timedelta(days=days_on), now + timedelta(days=days_on, seconds=1)
        terms = FileTerms("a1", today, today + timedelta(days=horizon), now, alarm)
        asked = [
            wanted(today + timedelta(days=wait), summary, key)
            for key, (wait, summary) in due.items()
        ]
        revision = revise(asked, said, terms)
        said = remembered_after(said, revision)
        calendar.take_in(revision.entries)
        assert calendar.shown(today, terms.until) == {
            one.uid("a1"): (one.on_day, one.summary) for one in asked if one.on_day <= terms.until
        }
        # The same file once more says the same.
        again = revise(asked, said, replace(terms, now=now + timedelta(hours=1)))
        assert again.entries == revision.entries and again.remember == ()
    assert len({one.uid for one in said}) == len(said)
