"""The clock of food that has been wetted: how long it may stand out, and until when it keeps cold.

Out of the cold 2 hours, 1 hour in a room above 90 °F (32.2 °C): USDA Food Safety and Inspection
Service, danger zone, 2016 (published); that the clock starts at wetting is a rule chosen for this
program. Chilled within that time it is used by the end of the third day after the day of wetting:
stricter than the 3 to 4 days of the same service, project judgement. Rehydrated egg: at once
(published guides differ, up to 4 days chilled; the strictest is taken).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from stockroom.domain.units import celsius

OUT_OF_THE_COLD = timedelta(hours=2)
OUT_IN_A_HOT_ROOM = timedelta(hours=1)
HOT_ROOM_F = 90
HOT_ROOM_C = float(celsius(HOT_ROOM_F))
CHILLED_DAYS = 3
"""Days after the day of wetting, which is day 0; project judgement."""


@dataclass(frozen=True, slots=True)
class MealCare:
    """How long a wetted dish may stand and keep. The instants are in the zone of `wetted_at`."""

    wetted_at: datetime
    out_until: datetime
    """Discard what stood out of the cold until then."""
    out_until_hot: datetime
    """The same in a room above 90 °F (32.2 °C)."""
    chilled_until: date
    """The last day to eat what was put in the cold in time, that day included."""
    at_once: bool
    """It holds rehydrated egg: eat it now and keep nothing."""


def chilled_until(wetted_on: date) -> date:
    """The last day, included, to eat wetted food kept cold; the day of wetting is day 0."""
    return wetted_on + timedelta(days=CHILLED_DAYS)


def meal_care(wetted_at: datetime, wetted_on: date, *, at_once: bool = False) -> MealCare:
    """The care of a dish wetted at an instant, on the person's own calendar day.

    What has to be eaten at once has no days in the cold: its last day is the day itself.
    """
    until = wetted_on if at_once else chilled_until(wetted_on)
    return care_until(wetted_at, until, at_once=at_once)


def care_until(wetted_at: datetime, until: date, *, at_once: bool) -> MealCare:
    """The care of a dish whose last day is on record."""
    return MealCare(
        wetted_at, wetted_at + OUT_OF_THE_COLD, wetted_at + OUT_IN_A_HOT_ROOM, until, at_once
    )
