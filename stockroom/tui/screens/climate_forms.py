"""The forms of a place's climate: twelve months, humidity, and a logger's file."""

from __future__ import annotations

from pathlib import Path
from typing import TypedDict

from textual import on, work
from textual.message import Message

from stockroom.domain.quantities import UnitSystem, read_temperature, read_whole, show_temperature
from stockroom.errors import BadInput, StockroomError
from stockroom.services.climate import (
    ClimatePage,
    LoggerPreview,
    import_readings,
    preview_readings,
    set_humidity,
    set_months,
)
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.screens.climate_words import MONTHS, preview_lines
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.widgets.fields import DIGITS, ERROR_SIGN, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker

LARGEST_FILE_BYTES = 64_000_000
"""Half a million rows of a hundred signs and more: no logger holds as much."""

READING = "Reading the file …"
_DEGREES = (
    Choice("found", "as the heading says"),
    Choice("C", "°C"),
    Choice("F", "°F"),
)


def months_form(room: Stockroom, page: ClimatePage) -> FormScreen[Done]:
    """Asks for the twelve months on one line."""
    units = room.units
    own = "" if page.readings else " ".join(_bare(one, units) for one in page.climate.monthly_dc)

    def submit(answers: Answers) -> Done:
        return set_months(room, page.place.path, read_months(answers.text("months"), units))

    sign = "°F" if units is UnitSystem.US else "°C"
    hint = "Twelve from January on, or some by name: jan 8 jul 19. Empty: none."
    about = [f"Day and night together, in {sign}. Months not said are drawn between the others."]
    if page.readings:
        about.append("The logger's readings of this place would be taken away.")
    field = Field("months", "Months", own, hint=hint, answers_to=("month", "temperature"))
    return FormScreen(f"Months of {page.place.path}", (field,), submit, about=about)


def read_months(typed: str, units: UnitSystem) -> dict[int, int]:
    """Tenths of a degree C by month from twelve figures, or from names each with a figure.

    Nothing typed is no month at all. Raises BadInput.
    """
    words = typed.replace(";", " ").replace("=", " ").split()
    if not words:
        return {}
    if not words[0][0].isalpha():
        if len(words) != len(MONTHS):
            accepted = "twelve temperatures, or months by name such as jan 8 jul 19"
            raise BadInput("months", typed, accepted)
        return {month: _degrees(month, one, units) for month, one in enumerate(words, start=1)}
    months = [_month(name) for name in words[::2]]
    figures = [*words[1::2], ""]
    return {month: _degrees(month, one, units) for month, one in zip(months, figures, strict=False)}


def _degrees(month: int, typed: str, units: UnitSystem) -> int:
    """A month's temperature; the error names the month."""
    try:
        return read_temperature(typed, units)
    except BadInput as error:
        raise BadInput("months", f"{MONTHS[month - 1]} {typed}".strip(), error.accepted) from error


def _month(name: str) -> int:
    """A month from its name or the beginning of it, three letters at least."""
    begun = name[:3].casefold()
    for number, month in enumerate(MONTHS, start=1):
        if month.casefold() == begun:
            return number
    raise BadInput("months", name, "a month by its first three letters, such as jan")


def _bare(temperature_dc: int, units: UnitSystem) -> str:
    """A temperature without its unit, to be typed over."""
    return show_temperature(temperature_dc, units).split()[0].removesuffix(".0")


def humidity_form(room: Stockroom, page: ClimatePage) -> FormScreen[Done]:
    """Asks how damp the air is."""
    now = page.climate.humidity_percent

    def submit(answers: Answers) -> Done:
        typed = answers.text("humidity").strip().removesuffix("%").strip()
        percent = read_whole(typed, "humidity", 1, 99) if typed else None
        return set_humidity(room, page.place.path, percent)

    value = "" if now is None else str(now)
    hint = "Of the room's air, most of the year. Empty: as the place above it."
    field = Field("humidity", "Humidity", value, unit="%", hint=hint, restrict=DIGITS)
    return FormScreen(f"Humidity of {page.place.path}", (field,), submit)


class LoggerForm(FormScreen[Done]):
    """Asks for a logger's file; shows what it would bring before anything is kept."""

    class Read(Message):
        """The file was read: what it holds, or why it cannot be used."""

        def __init__(self, text: str, answer: LoggerPreview | StockroomError) -> None:
            super().__init__()
            self.text = text
            self.answer = answer

    class Kept(Message):
        """The readings are kept, or were refused."""

        def __init__(self, answer: Done | StockroomError) -> None:
            super().__init__()
            self.answer = answer

    def __init__(self, room: Stockroom, path: str) -> None:
        """`path` is the place's."""
        self.room = room
        self.path = path
        self._busy = False
        columns = "Heading or number; empty: found by itself."
        fields = (
            Field("file", "File", hint="Path of the logger's CSV file.", answers_to=("readings",)),
            Field(
                "time", "Time column", hint=columns, answers_to=("time column", "dates", "column")
            ),
            Field("heat", "Temp. column", hint=columns, answers_to=("temperature column",)),
            Picker("degrees", "Degrees", _find_degrees, _DEGREES[0]),
        )
        super().__init__(f"Logger readings for {path}", fields, _never)

    def action_submit(self) -> None:
        """Read the file in a thread; what it holds is shown next."""
        if self._busy:
            return
        answers = self.answers
        unfit = next((field for field in self.fields if field.complaint()), None)
        if unfit is not None:
            unfit.show_error(unfit.complaint())
            unfit.begin()
            return
        self._busy = True
        self._say_below(READING)
        self._read(answers)

    @work(thread=True, exit_on_error=False, group="logger", description="a logger's file")
    def _read(self, answers: Answers) -> None:
        """Read and try the file."""
        text = ""
        try:
            text = read_text(answers.text("file"))
            answer: LoggerPreview | StockroomError = preview_readings(
                self.room, self.path, text, **_said(answers)
            )
        except StockroomError as error:
            answer = error
        self.post_message(self.Read(text, answer))

    @on(Read)
    def _preview(self, message: Read) -> None:
        """Show what the file would bring; a yes keeps it."""
        self._busy = False
        self._say_below("")
        if isinstance(message.answer, StockroomError):
            self._refuse(message.answer)
            return

        def keep(sure: bool | None) -> None:
            if sure:
                self._busy = True
                self._say_below("Keeping the readings …")
                self._keep(message.text, self.answers)

        lines = preview_lines(message.answer, self.room.units)
        self.app.push_screen(ConfirmScreen(f"Keep these readings for {self.path}?", lines), keep)

    @work(thread=True, exit_on_error=False, group="logger", description="keep readings")
    def _keep(self, text: str, answers: Answers) -> None:
        """Write the readings down."""
        try:
            answer: Done | StockroomError = import_readings(
                self.room, self.path, text, **_said(answers)
            )
        except StockroomError as error:
            answer = error
        self.post_message(self.Kept(answer))

    @on(Kept)
    def _finish(self, message: Kept) -> None:
        """Close with what was done, or say why it was refused."""
        self._busy = False
        if isinstance(message.answer, StockroomError):
            self._say_below(f"{ERROR_SIGN} {message.answer.message} {message.answer.hint}".strip())
        else:
            self.dismiss(message.answer)


def read_text(typed: str) -> str:
    """The text of the file a person names. Raises BadInput."""
    accepted = "the path of a CSV file that can be read"
    if not typed.strip():
        raise BadInput("file", typed, accepted)
    try:
        path = Path(typed.strip()).expanduser()
        if path.stat().st_size > LARGEST_FILE_BYTES:
            raise BadInput("file", typed, "a file of 64 MB at most")
        raw = path.read_bytes()
    except (OSError, ValueError, RuntimeError) as error:
        raise BadInput("file", typed, accepted) from error
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("latin-1")  # what loggers that know no UTF-8 write, ° among it


class _Said(TypedDict):
    time_column: str | None
    heat_column: str | None
    fahrenheit: bool | None


def _said(answers: Answers) -> _Said:
    degrees = answers.key("degrees")
    return {
        "time_column": answers.text("time").strip() or None,
        "heat_column": answers.text("heat").strip() or None,
        "fahrenheit": None if degrees in (None, "found") else degrees == "F",
    }


def _find_degrees(letters: str) -> list[Choice]:
    wanted = letters.strip().casefold().lstrip("°")
    return [one for one in _DEGREES if one.label.casefold().lstrip("°").startswith(wanted)]


def _never(answers: Answers) -> Done:
    """The form finishes by the preview alone."""
    raise AssertionError(answers)
