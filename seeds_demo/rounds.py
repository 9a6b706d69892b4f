"""The rechecks: on every day set aside somebody squeezes what the schedule asks for.

What was found otherwise stands in data/diary.csv and comes before it on its day, so everything
that is still on the list then was crisp.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from seeds_demo.steps import Part, Step
from stockroom.domain.conditions import Event
from stockroom.services.packages import check_package
from stockroom.services.rechecks import change_schedule, rechecks_today
from stockroom.services.session import Stockroom

WEDNESDAY, SATURDAY = 2, 5
MOST_A_DAY = 8
_WHO = {WEDNESDAY: "cook", SATURDAY: "warden"}


def agree_on_days(room: Stockroom) -> None:
    """The days the hut sets aside for looking at packages, and how many at most."""
    change_schedule(room, set_aside=_WHO, most_a_day=MOST_A_DAY)


def round_steps(first: date, last: date) -> Iterator[Step]:
    """The rounds after the first day and before the last, whose own is still to be made."""
    for days in range(1, (last - first).days):
        day = first + timedelta(days=days)
        if day.weekday() in _WHO:
            yield Step(day, Part.ROUND, _WHO[day.weekday()], _squeeze)


def _squeeze(room: Stockroom) -> None:
    for package in rechecks_today(room).packages:
        check_package(room, package.code, Event.CRISP)
