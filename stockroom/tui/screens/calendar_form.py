"""The form that writes the calendar file; another file in its place is asked about first."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from stockroom.domain.quantities import read_whole
from stockroom.services.calendar_feed import STANDARD_DAYS, calendar_feed
from stockroom.services.rechecks import LONGEST_PLAN_DAYS
from stockroom.services.session import Stockroom
from stockroom.services.written_files import path_of, write_file
from stockroom.tui.screens.writing_form import OwnKind, Writing, WritingForm
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers
from stockroom.tui.widgets.picker import Choice, Picker

USUAL_FILE = "~/stockroom.ics"
WRITING = "Writing the calendar …"

_ALARMS = (Choice("no", "no"), Choice("yes", "yes", "at nine, or at its hour"))
_ABOUT = (
    "What is due, day by day, for any calendar.",
    "The next file updates its entries, never doubles them.",
)


@dataclass(frozen=True, slots=True)
class Asked:
    """What a person asked for."""

    path: Path
    days: int
    alarm: bool


class CalendarForm(WritingForm):
    """Asks for the file, how far ahead, and whether entries ring; closes with what was written."""

    def __init__(self, room: Stockroom) -> None:
        fields = (
            Field("file", "File", USUAL_FILE, hint="Where the calendar file goes."),
            Field("days", "Days", str(STANDARD_DAYS), restrict=DIGITS, hint="How many days ahead."),
            Picker("alarm", "Alarms", _find_alarms, _ALARMS[0], hint="Whether each entry rings."),
        )
        writing = Writing("The calendar", WRITING, _asked, _own_kind, self._written)
        super().__init__(room, "Calendar file", fields, writing, about=_ABOUT)

    def _written(self, asked: Asked) -> str:
        """Put the entries together and write them down."""
        from stockroom.reports.calendar_file import calendar_file, left_out_words, written_words

        feed = calendar_feed(self.room, days=asked.days, alarm=asked.alarm)
        if feed.entries:
            write_file(asked.path, calendar_file(feed))
        return " ".join((written_words(feed, str(asked.path)), left_out_words(feed))).strip()


def _own_kind() -> OwnKind:
    from stockroom.reports.calendar_file import KIND, is_our_calendar

    return KIND, is_our_calendar


def _asked(answers: Answers) -> Asked:
    """The answers as they were meant. Raises BadInput."""
    return Asked(
        path_of(answers.text("file")),
        read_whole(answers.text("days"), "days", 1, LONGEST_PLAN_DAYS),
        answers.key("alarm") == "yes",
    )


def _find_alarms(letters: str) -> list[Choice]:
    return [one for one in _ALARMS if one.label.startswith(letters.strip().casefold())]
