"""After a meal was taken: how long it may stand out of the cold, and how long it keeps in it."""

from __future__ import annotations

from datetime import date, datetime

from stockroom.domain.wetted import MealCare
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.words import caution, long_day

AT_ONCE = "! It holds rehydrated egg: eat it at once and keep nothing."
CHOSEN = "The days in the cold are a rule chosen for this program."


def care_page(heading: str, care: MealCare) -> ReadScreen:
    """The clock of a dish as a page to read; `heading` names the dish."""
    return ReadScreen(heading, care_lines(care), (caution("clock"),))


def care_lines(care: MealCare) -> list[str]:
    """Until when it may stand out, and until when it is used from the cold."""
    day = care.wetted_at.astimezone().date()
    out = _clock(care.out_until, day)
    lines = [
        f"Out of the cold until {out}, then discard what is left.",
        f"In a room above 32.2 °C (90 °F) until {_clock(care.out_until_hot, day)}.",
    ]
    if care.at_once:
        return [AT_ONCE, *lines]
    until = long_day(care.chilled_until)
    return [*lines, f"Chilled within that time: use by the end of {until}.", CHOSEN]


def _clock(moment: datetime, day: date) -> str:
    """The hour on the clock on the wall; with its weekday where it is another day's."""
    local = moment.astimezone()
    return f"{local:%H:%M}" if local.date() == day else f"{local:%a %H:%M}"
