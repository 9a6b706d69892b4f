"""A form that writes a file: another kind of file in its place is asked about first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol

from textual import on, work
from textual.message import Message

from stockroom.errors import StockroomError
from stockroom.services.session import Stockroom
from stockroom.services.written_files import (
    FileInTheWay,
    FileUnwritable,
    StoreInTheWay,
    check_target,
)
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen

OwnKind = tuple[str, Callable[[bytes], bool]]
"""A kind of file in words, and whether the beginning of a file is of this kind."""


class Asked(Protocol):
    """What a person asked for; where it is to be written at least."""

    @property
    def path(self) -> Path:
        """The file."""
        ...


@dataclass(frozen=True, slots=True)
class Writing:
    """How the answers become a file. What reads and writes it is imported when it is called."""

    subject: str
    """What would take the place of another file: "The calendar"."""
    busy: str
    """Said while it is written."""
    read: Callable[[Answers], Any]
    """The answers as they were meant. Raises BadInput, NotFound."""
    own_kind: Callable[[], OwnKind]
    """The kind it writes: an earlier one is written over unasked."""
    write: Callable[[Any], str]
    """Writes it, in a thread; what was written. Raises any StockroomError."""


class WritingForm(FormScreen[str]):
    """Closes with what was written. The field named "file" holds where to."""

    class Written(Message):
        """The file is written, or why it is not."""

        def __init__(self, answer: str | StockroomError) -> None:
            super().__init__()
            self.answer = answer

    def __init__(
        self,
        room: Stockroom,
        title: str,
        fields: Sequence[Field],
        writing: Writing,
        *,
        about: Sequence[str],
    ) -> None:
        """`about` stands above the fields."""
        self.room = room
        self._writing = writing
        self._busy = False
        super().__init__(title, fields, _never, about=about)

    def action_submit(self) -> None:
        """Write the file, after asking where it would take the place of another."""
        if self._busy or self.stop_at_unfit():
            return
        try:
            asked = self._writing.read(self.answers)
            if self._may_be_written(asked):
                self._begin(asked)
            else:
                self._ask_to_replace(asked)
        except StockroomError as error:
            self._say_why(error)

    def _say_why(self, error: StockroomError) -> None:
        """Show a refusal; what is wrong with the file stands beside it."""
        if isinstance(error, FileUnwritable | StoreInTheWay):
            place = next(field for field in self.fields if field.name == "file")
            place.show_error(f"{error.message} {error.hint}")
            place.begin()
        else:
            self._refuse(error)

    def _may_be_written(self, asked: Asked) -> bool:
        """Whether nothing of another kind is there. Raises StoreInTheWay, FileUnwritable."""
        kind, is_ours = self._writing.own_kind()
        try:
            check_target(self.room, asked.path, kind, is_ours=is_ours)
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
            f"{self._writing.subject} would take its place, and what it holds would be lost.",
        )
        self.app.push_screen(ConfirmScreen("Replace this file?", lines), go_on)

    def _begin(self, asked: Asked) -> None:
        self._busy = True
        self._say_below(self._writing.busy)
        self._write(asked)

    @work(thread=True, exit_on_error=False, group="writing", description="the file")
    def _write(self, asked: Asked) -> None:
        """Put it together and write it down."""
        try:
            answer: str | StockroomError = self._writing.write(asked)
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


def _never(answers: Answers) -> str:
    """The form finishes by the file alone."""
    raise AssertionError(answers)
