"""A report taken along: copied, or written to a file after asking where."""

from __future__ import annotations

import re
from pathlib import Path

from textual.app import App

from stockroom.domain.quantities import UnitSystem
from stockroom.errors import StockroomError
from stockroom.reports.values import Report
from stockroom.services.session import Stockroom
from stockroom.services.written_files import FileInTheWay, check_target, path_of, write_file
from stockroom.tui.plaintext import say
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.windows import ChoiceScreen
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice

COPY, WRITE = "copy", "write"
KIND = "list"
TABLE_ENDING = ".csv"
_CHOICES = (
    Choice(COPY, "Copy", "the text goes to the clipboard of the terminal"),
    Choice(WRITE, "Write", "to a file, as text or as a table"),
)


def take_along(app: App[None], room: Stockroom, report: Report, units: UnitSystem) -> None:
    """Ask whether a report is copied or written, and do it."""
    from stockroom.reports.as_text import as_text

    def chosen(way: str | None) -> None:
        if way == COPY:
            app.copy_to_clipboard(as_text(report, units))
            say(app, f"Copied: {report.title}")
        elif way == WRITE:
            app.push_screen(ListFileForm(room, report, units), lambda said: told(app, said))

    app.push_screen(ChoiceScreen("Take it along", [report.title], _CHOICES), chosen)


def told(app: App[None], said: str | None) -> None:
    """Say what was written, if anything was."""
    if said:
        say(app, said)


class ListFileForm(FormScreen[str]):
    """Asks for the file; closes with what was written."""

    def __init__(self, room: Stockroom, report: Report, units: UnitSystem) -> None:
        self.room = room
        self.report = report
        self.units = units
        name = report.title.split()[0].lower()
        hint = f"A name that ends in {TABLE_ENDING} makes a table for a spreadsheet of the list."
        super().__init__(
            "Write to a file",
            (Field("file", "File", f"~/stockroom-{name}.txt", hint=hint),),
            self._written,
            about=(report.title,),
        )

    def _written(self, answers: Answers) -> str:
        """Write it where nothing of another kind stands. Raises as `check_target` does."""
        path = path_of(answers.text("file"))
        content = self._content(path)
        ours = _first_line(content)
        check_target(self.room, path, KIND, is_ours=lambda head: _first_line(head) == ours)
        return self._put(path, content)

    def _put(self, path: Path, content: bytes) -> str:
        write_file(path, content)
        return f"Wrote {path}"

    def _content(self, path: Path) -> bytes:
        """The report as the name asks for it."""
        from stockroom.reports.as_csv import as_csv
        from stockroom.reports.as_text import as_text

        table = self.report.table
        if path.suffix.casefold() == TABLE_ENDING and table is not None:
            return as_csv(table).encode()
        return as_text(self.report, self.units).encode()

    def _refuse(self, error: StockroomError) -> None:
        """Another file in the way is asked about; any other refusal stands in the form."""
        if not isinstance(error, FileInTheWay):
            super()._refuse(error)
            return
        path = Path(error.path)

        def replace(sure: bool | None) -> None:
            if not sure:
                return
            try:
                self.dismiss(self._put(path, self._content(path)))
            except StockroomError as trouble:
                self._refuse(trouble)

        lines = (
            "There is already a file of another kind:",
            str(path),
            "The list would take its place, and what it holds would be lost.",
        )
        self.app.push_screen(ConfirmScreen("Replace this file?", lines), replace)


def _first_line(content: bytes) -> bytes:
    """The first line without its days: by it an earlier file of the same list is known."""
    first, _, _ = content.partition(b"\n")
    return re.sub(rb"[0-9]", b"0", first)
