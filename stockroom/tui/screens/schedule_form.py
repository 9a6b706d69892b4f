"""The form for how often packages are looked at, on which days and how many a day."""

from __future__ import annotations

from stockroom.domain.quantities import read_whole
from stockroom.domain.recheck_facts import EVERY_DAY, LONGEST_DAYS, MOST_LOOKS
from stockroom.errors import BadInput
from stockroom.services.rechecks import WEEKDAYS, change_schedule, schedule
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.screens.household import NothingChanged
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers, FormScreen

ALL_DAYS = "every day"
_NAMES = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_SHORTEST = 2
"""Letters that tell every weekday from the others."""
_ABOUT = (
    "After the settle check, and sooner for what is at greater risk. The usual numbers are"
    " engineering judgement: change them as suits you.",
)


def schedule_form(room: Stockroom) -> FormScreen[Done]:
    """Asks for the days between looks, the weekdays set aside and the most a day."""
    now = schedule(room)

    def submit(answers: Answers) -> Done:
        first, second, later = (_days(answers, name) for name in ("first", "second", "later"))
        most = read_whole(answers.text("most"), "most a day", 1, MOST_LOOKS)
        days = read_weekdays(answers.text("weekdays"))
        if (first, second, later, days, most) == (
            now.first_days,
            now.second_days,
            now.later_days,
            now.set_aside,
            now.most_a_day,
        ):
            raise NothingChanged
        return change_schedule(
            room,
            first_days=first,
            second_days=second,
            later_days=later,
            set_aside=days,
            most_a_day=most,
        )

    fields = (
        _number("first", "First look", now.first_days, "days", "After the settle check."),
        _number("second", "Second look", now.second_days, "days", "After the first."),
        _number("later", "Then every", now.later_days, "days", "As long as it is kept."),
        Field(
            "weekdays",
            "Weekdays",
            weekday_words(now.set_aside),
            hint=f"Such as Sat, or Wed Sat; or {ALL_DAYS}. What cannot wait comes on any day.",
            answers_to=("days",),
        ),
        _number("most", "Most a day", now.most_a_day, "packages", "The worst risk first."),
    )
    return FormScreen("How often packages are looked at", fields, submit, about=_ABOUT)


def _number(name: str, label: str, value: int, unit: str, hint: str) -> Field:
    return Field(name, label, str(value), restrict=DIGITS, unit=unit, hint=hint)


def _days(answers: Answers, name: str) -> int:
    """A number of days typed. Raises BadInput."""
    names = {"first": "first look", "second": "second look", "later": "then every"}
    return read_whole(answers.text(name), names[name], 1, LONGEST_DAYS)


def weekday_words(days: frozenset[int]) -> str:
    """Weekdays as they are typed."""
    return ALL_DAYS if days == EVERY_DAY else " ".join(WEEKDAYS[day] for day in sorted(days))


def read_weekdays(typed: str) -> frozenset[int]:
    """Weekdays by their names or the beginnings of them, or every day. Raises BadInput."""
    text = typed.strip().casefold()
    if text in (ALL_DAYS, "all", "every"):
        return EVERY_DAY
    words = text.replace(",", " ").split()
    days = [_weekday(word) for word in words]
    if not words or None in days:
        raise BadInput("weekdays", typed, f"weekdays such as Wed Sat, or {ALL_DAYS}")
    return frozenset(day for day in days if day is not None)


def _weekday(word: str) -> int | None:
    if len(word) < _SHORTEST:
        return None
    return next((day for day, name in enumerate(_NAMES) if name.startswith(word)), None)
