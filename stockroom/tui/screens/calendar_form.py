"""The form that writes the calendar file; another file in its place is asked about first."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from textual import on, work
from textual.message import Message

from stockroom.domain.quantities import read_whole
from stockroom.errors import StockroomError
from stockroom.services.calendar_feed import STANDARD_DAYS, calendar_feed
from stockroom.services.rechecks import LONGEST_PLAN_DAYS
from stockroom.services.session import Stockroom
from stockroom.services.written_files import (
    FileInTheWay,
    FileUnwritable,
    StoreInTheWay,
    check_target,
    path_of,
    write_file,
)
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
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


class CalendarForm(FormScreen[str]):
    """Asks for the file, how far ahead, and whether entries ring; closes with what was written."""

    class Written(Message):
        """The file is written, or why it is not."""

        def __init__(self, answer: str | StockroomError) -> None:
            super().__init__()
            self.answer = answer

    def __init__(self, room: Stockroom) -> None:
        self.room = room
        self._busy = False
        fields = (
            Field("file", "File", USUAL_FILE, hint="Where the calendar file goes."),
            Field("days", "Days", str(STANDARD_DAYS), restrict=DIGITS, hint="How many days ahead."),
            Picker("alarm", "Alarms", _find_alarms, _ALARMS[0], hint="Whether each entry rings."),
        )
        super().__init__("Calendar file", fields, _never, about=_ABOUT)

    def action_submit(self) -> None:
        """Write the file, after asking where it would take the place of another."""
        if self._busy:
            return
        unfit = next((field for field in self.fields if field.complaint()), None)
        if unfit is not None:
            unfit.show_error(unfit.complaint())
            unfit.begin()
            return
        try:
            asked = _asked(self.answers)
            if self._may_be_written(asked):
                self._begin(asked)
            else:
                self._ask_to_replace(asked)
        except StockroomError as error:
            self._say_why(error)

    def _say_why(self, error: StockroomError) -> None:
        """Show a refusal; what is wrong with the file stands beside it."""
        if isinstance(error, FileUnwritable | StoreInTheWay):
            self.fields[0].show_error(f"{error.message} {error.hint}")
            self.fields[0].begin()
        else:
            self._refuse(error)

    def _may_be_written(self, asked: Asked) -> bool:
        """Whether nothing of another kind is there. Raises StoreInTheWay, FileUnwritable."""
        from stockroom.reports.calendar_file import KIND, is_our_calendar

        try:
            check_target(self.room, asked.path, KIND, is_ours=is_our_calendar)
        except FileInTheWay:
            return False
        return True

    def _ask_to_replace(self, asked: Asked) -> None:
        """Another file is there: replace it only when told to."""

        def go_on(sure: bool | None) -> None:
            if sure:
                self._begin(asked)

        lines = (
            "There is already a file of another kind:",
            str(asked.path),
            "The calendar would take its place, and what it holds would be lost.",
        )
        self.app.push_screen(ConfirmScreen("Replace this file?", lines), go_on)

    def _begin(self, asked: Asked) -> None:
        self._busy = True
        self._say_below(WRITING)
        self._write(asked)

    @work(thread=True, exit_on_error=False, group="calendar", description="the calendar file")
    def _write(self, asked: Asked) -> None:
        """Put the entries together and write them down."""
        from stockroom.reports.calendar_file import calendar_file, left_out_words, written_words

        try:
            feed = calendar_feed(self.room, days=asked.days, alarm=asked.alarm)
            if feed.entries:
                write_file(asked.path, calendar_file(feed))
            said = (written_words(feed, str(asked.path)), left_out_words(feed))
            answer: str | StockroomError = " ".join(said).strip()
        except StockroomError as error:
            answer = error
        self.post_message(self.Written(answer))

    @on(Written)
    def _finish(self, message: Written) -> None:
        """Close with what was written, or say why it was not."""
        self._busy = False
        self._say_below("")
        if isinstance(message.answer, StockroomError):
            self._say_why(message.answer)
        else:
            self.dismiss(message.answer)


def _asked(answers: Answers) -> Asked:
    """The answers as they were meant. Raises BadInput."""
    return Asked(
        path_of(answers.text("file")),
        read_whole(answers.text("days"), "days", 1, LONGEST_PLAN_DAYS),
        answers.key("alarm") == "yes",
    )


def _find_alarms(letters: str) -> list[Choice]:
    return [one for one in _ALARMS if one.label.startswith(letters.strip().casefold())]


def _never(answers: Answers) -> str:
    """The form finishes by the file alone."""
    raise AssertionError(answers)
