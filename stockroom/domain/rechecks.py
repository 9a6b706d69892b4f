"""When a package is due for its settle check.

About a day after sealing a package is opened or squeezed: still crisp means it was dry through
(common practice, no source; the nearest published idea is conditioning of dried fruit).
"""

from __future__ import annotations

from datetime import date, timedelta

from stockroom.domain.calendar import days_between

SETTLE_DAYS = 1


def settle_check_due(sealed_on: date) -> date:
    """The day of the settle check: the day after sealing (common practice, no source)."""
    return sealed_on + timedelta(days=SETTLE_DAYS)


def settle_overdue_days(sealed_on: date, today: date) -> int:
    """Whole days past the settle check's day: 0 before it and on the day itself."""
    return max(0, days_between(settle_check_due(sealed_on), today))
