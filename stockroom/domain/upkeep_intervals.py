"""How often a check of the machine is wanted: in words, and read from what a person types."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from stockroom.domain.quantities import unreadable

LONGEST_DAYS = 3_660
LONGEST_HOURS = 20_000
"""Ten years and two years of running between two checks at most: engineering judgement, to catch
slips."""

_ACCEPTED = (
    f"days from 1 to {LONGEST_DAYS} such as 30, hours of running such as 40 h, “off” to leave the"
    " check out, or “usual” for the table's own"
)
_TYPED = re.compile(r"([0-9]{1,6}) ?(d|days?|h|hours?)?", re.ASCII)


class Every(StrEnum):
    """What a check goes by."""

    LOAD = "load"
    RUN = "run"
    HOURS = "hours"
    DAYS = "days"


@dataclass(frozen=True, slots=True)
class Interval:
    """How often: every `count` days or hours; every load or run (count 1). 0 is never."""

    every: Every
    count: int

    @property
    def is_off(self) -> bool:
        """Whether the check is not wanted."""
        return self.count == 0

    @property
    def words(self) -> str:
        """Such as "every load", "every 30 days" or "every 10 h of running"."""
        if self.is_off:
            return "left out"
        if self.every is Every.HOURS:
            return f"every {self.count} h of running"
        if self.every is Every.DAYS:
            return "every day" if self.count == 1 else f"every {self.count} days"
        return f"every {self.every}"

    @property
    def typed(self) -> str:
        """What a person would type for it; "" for loads and runs, which are not typed."""
        if self.is_off:
            return "off"
        if self.every is Every.HOURS:
            return f"{self.count} h"
        return f"{self.count} days" if self.every is Every.DAYS else ""


OFF = Interval(Every.DAYS, 0)
"""A household without such a part (a pump without oil, say) leaves the check out."""


def read_interval(text: str, what: str = "interval") -> Interval | None:
    """The interval meant by "30", "30 days", "40 h" or "off"; None for "usual", the table's own.

    Raises BadInput for anything else.
    """
    typed = " ".join(text.casefold().split())
    if typed == "usual":
        return None
    if typed == "off":
        return OFF
    parts = _TYPED.fullmatch(typed)
    if parts is None:
        raise unreadable(what, text, _ACCEPTED)
    every = Every.HOURS if (parts[2] or "d").startswith("h") else Every.DAYS
    found = Interval(every, int(parts[1]))
    if not 1 <= found.count <= longest(every):
        raise unreadable(what, text, _ACCEPTED)
    return found


def longest(every: Every) -> int:
    """The most that is believed of days or hours; 1 for loads and runs, which are not counted."""
    if every is Every.HOURS:
        return LONGEST_HOURS
    return LONGEST_DAYS if every is Every.DAYS else 1
