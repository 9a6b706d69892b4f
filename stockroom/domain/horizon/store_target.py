"""How long the household wants its store to last, as it says it."""

from __future__ import annotations

import re
from fractions import Fraction

from stockroom.domain.horizon.household_eating import Per
from stockroom.domain.planning_water import GOOD_DAYS
from stockroom.domain.quantities import nearest_whole, unreadable

USUAL_TARGET_DAYS = GOOD_DAYS
"""Where nothing was said: two weeks, as for water (FEMA 477, `planning_water.STORED_WATER`)."""
MOST_TARGET_DAYS = 3_653
"""Ten years: nobody plans a store for longer (engineering judgement)."""
_TARGET = re.compile(r"([0-9]{1,5})\s*(?:(day|week|month|year)s?)?", re.ASCII | re.IGNORECASE)
_ACCEPTED = "a length of time such as 14 days, 2 weeks, 6 months or 1 year, up to ten years"


def read_target_days(text: str) -> int:
    """Days of "14", "14 days", "2 weeks", "6 months" or "1 year". Raises BadInput."""
    found = _TARGET.fullmatch(text.strip())
    if found is None:
        raise unreadable("target", text, _ACCEPTED)
    per = Per((found[2] or Per.DAY).lower())
    days = nearest_whole(int(found[1]) * per.days)
    if not 1 <= days <= MOST_TARGET_DAYS:
        raise unreadable("target", text, _ACCEPTED)
    return days


def servings_for(days: int, servings_per_day: Fraction) -> Fraction:
    """What is eaten in so many days."""
    return days * servings_per_day
