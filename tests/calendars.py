"""A calendar program that takes in one file after another, as the standard has it.

Of two revisions of one UID the higher SEQUENCE wins, and at the same SEQUENCE the later DTSTAMP
(RFC 5546, 2.1.5; published). Cancelled entries are struck out.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from stockroom.domain.calendar_entries import CalendarEntry


@dataclass(slots=True)
class Calendar:
    """What the program holds, by UID."""

    held: dict[str, CalendarEntry] = field(default_factory=dict[str, CalendarEntry])

    def take_in(self, entries: Iterable[CalendarEntry]) -> None:
        """Take in a file. Fails where it names an entry twice, or changes one unsaid."""
        every = list(entries)
        assert len({one.uid for one in every}) == len(every), "an entry stands there twice"
        for one in every:
            held = self.held.get(one.uid)
            if held is None or (one.sequence, one.revised_at) >= (held.sequence, held.revised_at):
                if held is not None and one.sequence == held.sequence:
                    assert one == held, "a change without a new SEQUENCE"
                self.held[one.uid] = one

    def shown(self, first: date, last: date) -> dict[str, tuple[date, str]]:
        """What stands in it from one day to another: UID → day and summary."""
        return {
            uid: (one.on_day, one.summary)
            for uid, one in self.held.items()
            if not one.cancelled and first <= one.on_day <= last
        }
