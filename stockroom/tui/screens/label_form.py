"""The form that prints labels into a file: which sheet, from which place on it, and where to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from textual.screen import Screen

from stockroom.domain.labels.sheets import MOST_ACROSS, MOST_DOWN, Sheet
from stockroom.domain.quantities import read_whole
from stockroom.services.label_sheets import find_sheet, list_sheets, usual_sheet
from stockroom.services.labels import bin_labels, labels_of
from stockroom.services.session import Stockroom
from stockroom.services.written_files import path_of, write_file
from stockroom.tui.modal import attempt
from stockroom.tui.plaintext import say
from stockroom.tui.screens.writing_form import OwnKind, Writing, WritingForm
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers
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


class LabelForm(WritingForm):
    """Asks for the sheet, the first free label and the file; closes with what was written."""

    def __init__(self, room: Stockroom, wanted: Wanted) -> None:
        """Raises a StoreTrouble when the sheets cannot be read."""
        self.wanted = wanted
        sheets = tuple(_choice(sheet) for sheet in list_sheets(room))
        fields = (
            Picker("what", "Labels of", _search(_WHAT), _WHAT[wanted.lots]),
            Picker("sheet", "Sheet", _search(sheets), _choice(usual_sheet(room))),
            Field("start", "Start at", "1", restrict=DIGITS, hint="The first free label."),
            Field("file", "File", USUAL_FILE, hint="Print it at actual size."),
        )
        writing = Writing("The labels", PRINTING, self._asked, _own_kind, self._written)
        super().__init__(room, "Print labels", fields, writing, about=(wanted.words,))

    def _asked(self, answers: Answers) -> Asked:
        """The answers as they were meant. Raises BadInput, NotFound."""
        return Asked(
            path_of(answers.text("file")),
            find_sheet(self.room, answers.text("sheet")),
            read_whole(answers.text("start"), "start at", 1, MOST_ACROSS * MOST_DOWN),
            answers.key("what") == "lots",
        )

    def _written(self, asked: Asked) -> str:
        """Put the labels together and write them down."""
        from stockroom.reports.label_sheet import label_pdf
        from stockroom.reports.labels import next_words, printed_words

        find = bin_labels if asked.lots else labels_of
        labels = find(self.room, self.wanted.codes, self.wanted.place)
        made = label_pdf(labels, asked.sheet, self.room.today, start=asked.start)
        write_file(asked.path, made.content)
        return " ".join((printed_words(made, str(asked.path)), *made.findings, next_words(made)))


def _own_kind() -> OwnKind:
    from stockroom.reports.label_sheet import KIND, is_our_label_sheet

    return KIND, is_our_label_sheet


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
