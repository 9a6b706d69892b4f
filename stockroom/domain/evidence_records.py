"""What the store hands out about dryness, the queue for the machine and soft packages.

Weights are tenths of a gram (`_dg`), days calendar dates. `None` means not known, never zero.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class Weighing:
    """One weighing of a tray. `stage` is wet (as loaded) or dry."""

    weighing_id: int
    tray_id: int
    stage: str
    net_dg: int
    hours_tenths: int | None
    """Hours of drying at that reading, tenths, where the person said so."""
    on_day: date
    at: datetime


@dataclass(frozen=True, slots=True)
class DrynessCheck:
    """One test of the food on a tray. `kind` is cold (felt for cold spots) or break."""

    check_id: int
    tray_id: int
    kind: str
    passed: bool
    on_day: date
    at: datetime
    note: str


@dataclass(frozen=True, slots=True)
class ExtraDrying:
    """A few more hours for a run: what was weighed and tested before shows nothing any more."""

    extra_id: int
    run_id: int
    hours_tenths: int
    on_day: date
    due_at: datetime
    last_weighing_id: int
    last_check_id: int
    note: str


@dataclass(frozen=True, slots=True)
class QueueEntry:
    """Food that waits for the machine or is on it: a held package, or food of a lot.

    `state` is waiting, loaded (on a tray of an open run) or dried (off the machine, to be packed).
    """

    entry_id: int
    lot_id: int
    lot_code: str
    package_id: int | None
    package_code: str
    food: str
    dry_dg: int
    since: date
    reason: str
    state: str
    run_id: int | None
    tray_id: int | None
    tray_position: int | None
    dried_dg: int | None
    """Weight off the tray, where it was weighed dry."""
    place: str

    @property
    def code(self) -> str:
        """The package's code, or that of the lot."""
        return self.package_code or self.lot_code


@dataclass(frozen=True, slots=True)
class Inspection:
    """What was decided of a doubtful package, with the answers it rests on as JSON."""

    inspection_id: int
    package_id: int
    on_day: date
    answers: str
    outcome: str
    rule: str
    reason: str
    use_by: date | None
    """The last day food to be used now may be used, where the rule names one."""
    note: str
