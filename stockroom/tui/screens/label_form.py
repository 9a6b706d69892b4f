"""The form that prints labels into a file: which sheet, from which place on it, and where to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from textual import on, work
from textual.message import Message
from textual.screen import Screen

from stockroom.domain.labels.sheets import MOST_ACROSS, MOST_DOWN, Sheet
from stockroom.domain.quantities import read_whole
from stockroom.errors import StockroomError
from stockroom.services.label_sheets import find_sheet, list_sheets, usual_sheet
from stockroom.services.labels import bin_labels, labels_of
from stockroom.services.session import Stockroom
from stockroom.services.written_files import (
    FileInTheWay,
    FileUnwritable,
    StoreInTheWay,
    check_target,
    path_of,
    write_file,
)
from stockroom.tui.modal import attempt
from stockroom.tui.plaintext import say
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker, Search

USUAL_FILE = "~/labels.pdf"
PRINTING = "Setting the labels …"

_WHAT = (
    Choice("packages", "packages", "one for each"),
    Choice("lots", "lots", "one for each bin"),
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What labels are for: codes of packages or lots, or a place; and how that is said."""

    words: str
    codes: tuple[str, ...] = ()
    place: str | None = None
    lots: bool = False
    """Whether the form offers labels of lots first."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a person asked for."""

    path: Path
    sheet: Sheet
    start: int
    lots: bool


class LabelForm(FormScreen[str]):
    """Asks for the sheet, the first free label and the file; closes with what was written."""

    class Written(Message):
        """The file is written, or why it is not."""

        def __init__(self, answer: str | StockroomError) -> None:
            super().__init__()
            self.answer = answer

    def __init__(self, room: Stockroom, wanted: Wanted) -> None:
        """Raises a StoreTrouble when the sheets cannot be read."""
        self.room = room
        self.wanted = wanted
        self._busy = False
        sheets = tuple(_choice(sheet) for sheet in list_sheets(room))
        fields = (
            Picker("what", "Labels of", _search(_WHAT), _WHAT[wanted.lots]),
            Picker("sheet", "Sheet", _search(sheets), _choice(usual_sheet(room))),
            Field("start", "Start at", "1", restrict=DIGITS, hint="The first free label."),
            Field("file", "File", USUAL_FILE, hint="Print it at actual size."),
        )
        super().__init__("Print labels", fields, _never, about=(wanted.words,))

    def action_submit(self) -> None:
        """Write the file, after asking where it would take the place of another."""
        if self._busy or self.stop_at_unfit():
            return
        try:
            asked = self._asked(self.answers)
            if self._may_be_written(asked):
                self._begin(asked)
            else:
                self._ask_to_replace(asked)
        except StockroomError as error:
            self._say_why(error)

    def _asked(self, answers: Answers) -> Asked:
        """The answers as they were meant. Raises BadInput, NotFound."""
        return Asked(
            path_of(answers.text("file")),
            find_sheet(self.room, answers.text("sheet")),
            read_whole(answers.text("start"), "start at", 1, MOST_ACROSS * MOST_DOWN),
            answers.key("what") == "lots",
        )

    def _say_why(self, error: StockroomError) -> None:
        """Show a refusal; what is wrong with the file stands beside it."""
        if isinstance(error, FileUnwritable | StoreInTheWay):
            self.fields[-1].show_error(f"{error.message} {error.hint}")
            self.fields[-1].begin()
        else:
            self._refuse(error)

    def _may_be_written(self, asked: Asked) -> bool:
        """Whether nothing of another kind is there. Raises StoreInTheWay, FileUnwritable."""
        from stockroom.reports.label_sheet import KIND, is_our_label_sheet

        try:
            check_target(self.room, asked.path, KIND, is_ours=is_our_label_sheet)
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
            "The labels would take its place, and what it holds would be lost.",
        )
        self.app.push_screen(ConfirmScreen("Replace this file?", lines), go_on)

    def _begin(self, asked: Asked) -> None:
        self._busy = True
        self._say_below(PRINTING)
        self._write(asked)

    @work(thread=True, exit_on_error=False, group="labels", description="the labels' file")
    def _write(self, asked: Asked) -> None:
        """Put the labels together and write them down."""
        from stockroom.reports.label_sheet import label_pdf
        from stockroom.reports.labels import next_words, printed_words

        answer: str | StockroomError
        try:
            find = bin_labels if asked.lots else labels_of
            labels = find(self.room, self.wanted.codes, self.wanted.place)
            made = label_pdf(labels, asked.sheet, self.room.today, start=asked.start)
            write_file(asked.path, made.content)
            said = (printed_words(made, str(asked.path)), *made.findings, next_words(made))
            answer = " ".join(said)
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


def open_labels(screen: Screen[Any], room: Stockroom, wanted: Wanted) -> None:
    """Ask how labels are to be printed, and tell what was written."""

    def told(said: str | None) -> None:
        if said is not None:
            say(screen.app, said)

    form = attempt(screen.app, LabelForm, room, wanted)
    if form is not None:
        screen.app.push_screen(form, told)


def _choice(sheet: Sheet) -> Choice:
    return Choice(sheet.name, sheet.name, f"{sheet.places} a page")


def _search(choices: Sequence[Choice]) -> Search:
    """What holds the letters, in the order of the list."""

    def find(letters: str) -> list[Choice]:
        wanted = _folded(letters)
        return [one for one in choices if wanted in _folded(one.label)]

    return find


def _folded(text: str) -> str:
    return "".join(text.casefold().replace("×", "x").split())


def _never(answers: Answers) -> str:
    """The form finishes by the file alone."""
    raise AssertionError(answers)
