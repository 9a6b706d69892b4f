"""What the store hands out about the machine: checks done, and pressure-rise tests.

Volumes are millilitres, pressures thousandths of a millibar (`_microbar`), times seconds.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class EquipmentCheck:
    """One check as it was done. `task` is the key of the check."""

    check_id: int
    task: str
    on_day: date
    passed: bool
    note: str


@dataclass(frozen=True, slots=True)
class EquipmentReading:
    """One rise of the pressure in the closed chamber.

    A test with a reading in between is kept as two of them, the second of which begins where the
    first ended.
    """

    reading_id: int
    on_day: date
    volume_ml: int
    from_microbar: int
    to_microbar: int
    seconds: int
    dry_empty: bool
    note: str

    @property
    def rises(self) -> bool:
        """Whether the pressure rose at all."""
        return self.to_microbar > self.from_microbar

    def goes_on_from(self, before: EquipmentReading) -> bool:
        """Whether this is the second part of a test whose first part is `before`."""
        return (
            self.reading_id == before.reading_id + 1
            and before.rises
            and self.from_microbar == before.to_microbar <= self.to_microbar
            and (self.on_day, self.volume_ml) == (before.on_day, before.volume_ml)
            and self.dry_empty == before.dry_empty
            and self.note == before.note
        )
