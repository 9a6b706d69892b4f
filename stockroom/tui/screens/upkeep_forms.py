"""The forms of the machine: a fault found, a pressure-rise test, how often a check is wanted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.leak import Between, Leak
from stockroom.domain.pressures import read_litres, read_pressure
from stockroom.domain.quantities import read_day, read_whole
from stockroom.domain.upkeep import UpkeepItem
from stockroom.domain.upkeep_intervals import read_interval
from stockroom.services.leak_tests import (
    LONGEST_TEST_S,
    Readings,
    chamber_volume_ml,
    leak_of,
    record_leak_test,
)
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.upkeep import record_check, set_interval
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker

_DAY_HINT = "today, yesterday, -2 or YYYY-MM-DD"
_YES = Choice("yes", "yes", "clean, dry and empty")
_NO = Choice("no", "no", "or not sure: no verdict")


@dataclass(frozen=True, slots=True)
class TestDone:
    """A pressure-rise test as it was recorded, and what it says."""

    done: Done
    leak: Leak


def fault_form(room: Stockroom, item: UpkeepItem) -> FormScreen[Done]:
    """Asks what is wrong with a part, and records it at fault."""

    def submit(answers: Answers) -> Done:
        day = read_day(answers.text("day"), room.today, "day")
        return record_check(
            room, item.check.key, passed=False, note=answers.text("note"), on_day=day
        )

    fields = (
        Field("note", "Fault", hint="In your own words; may stay empty."),
        Field("day", "Found on", "today", hint=_DAY_HINT),
    )
    about = ("It stays on the list until it is checked again and in order.",)
    return FormScreen(f"At fault: {item.check.name}", fields, submit, about=about)


def interval_form(room: Stockroom, item: UpkeepItem) -> FormScreen[Done]:
    """Asks how often a check is wanted on this machine."""
    check = item.check

    def submit(answers: Answers) -> Done:
        return set_interval(room, check.key, read_interval(answers.text("interval")))

    field = Field(
        "interval",
        "How often",
        item.interval.typed,
        hint="Days (30), hours of running (40 h), off, or usual.",
    )
    about = (
        f"Now {item.interval.words}.",
        f"Usual is {check.interval.words}: {check.source.citation} ({check.standing.words}).",
    )
    return FormScreen(f"How often: {check.name}", (field,), submit, about=about)


def leak_test_form(room: Stockroom) -> FormScreen[TestDone]:
    """Asks for the readings of a pressure-rise test."""
    known_ml = chamber_volume_ml(room)
    volume = "" if known_ml is None else f"{known_ml / 1000:g}"

    def submit(answers: Answers) -> TestDone:
        read = _readings(answers)
        day = read_day(answers.text("day"), room.today, "day")
        found = leak_of(room, read)
        return TestDone(record_leak_test(room, read, note=answers.text("note"), on_day=day), found)

    about = (
        "Pump down, shut the pump off, read, wait, read again. A bare pressure is mbar; 300 mTorr,"
        " 300 micron and 30 Pa are taken too.",
    )
    return FormScreen("Leak test by pressure rise", _fields(volume), submit, about=about)


def _fields(volume: str) -> tuple[Field, ...]:
    """The entries of a test."""
    return (
        Field("first", "From", hint="The pressure at first.", answers_to=("first pressure",)),
        Field("last", "To", hint="The pressure at last.", answers_to=("last pressure",)),
        Field("seconds", "Time", "600", unit="s", hint="Ten minutes are 600 s."),
        Field("volume", "Chamber", volume, unit="L", hint="Kept for the next test."),
        Field(
            "between", "Half time", hint="The pressure then; may stay empty. Tells air from damp.",
            answers_to=("pressure in between",),
        ),
        Picker(
            "dry", "Dry, empty", _find_dry, _NO,
            hint="Only a clean, dry and empty chamber gets a verdict.",
        ),
        Field("day", "Done on", "today", hint=_DAY_HINT),
        Field("note", "Note", hint="Anything to remember; may stay empty."),
    )  # fmt: skip


def _readings(answers: Answers) -> Readings:
    """What was typed. Raises BadInput."""
    seconds = read_whole(answers.text("seconds"), "seconds", 1, LONGEST_TEST_S)
    typed = answers.text("between").strip()
    between = None
    if typed:
        between = Between(read_pressure(typed, "pressure in between"), Fraction(seconds, 2))
    volume = answers.text("volume").strip()
    return Readings(
        read_pressure(answers.text("first"), "first pressure"),
        read_pressure(answers.text("last"), "last pressure"),
        Fraction(seconds),
        answers.key("dry") == _YES.key,
        read_litres(volume) if volume else None,
        between,
    )


def _find_dry(letters: str) -> Sequence[Choice]:
    return [one for one in (_YES, _NO) if one.label.startswith(letters.strip().casefold())]
