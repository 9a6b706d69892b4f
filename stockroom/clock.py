"""The only place that reads the system's date and time."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Protocol


class Clock(Protocol):
    """What a service needs to know about now."""

    def today(self) -> date:
        """The person's own calendar day."""
        ...

    def now(self) -> datetime:
        """This instant in UTC, for the journal."""
        ...


@dataclass(frozen=True, slots=True)
class SystemClock:
    """The machine's clock; `day` replaces the calendar day when a person asks what-if."""

    day: date | None = None

    def today(self) -> date:
        """The day asked for with --today, or the machine's local day."""
        return self.day or date.today()

    def now(self) -> datetime:
        """The machine's instant in UTC."""
        return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class FixedClock:
    """A clock that stands still: for the demo store and for tests."""

    day: date

    def today(self) -> date:
        """The fixed day."""
        return self.day

    def now(self) -> datetime:
        """Noon UTC of the fixed day."""
        return datetime(self.day.year, self.day.month, self.day.day, 12, tzinfo=UTC)
