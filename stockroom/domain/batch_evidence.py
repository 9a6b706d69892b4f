"""What was weighed and tested in a run, as it is shown: tray by tray and batch by batch.

A batch is the food that is packed as one: the trays of one food become one lot, and each tray of
food dried again is a batch of its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from stockroom.domain.evidence_records import DrynessCheck, ExtraDrying, Weighing
from stockroom.domain.gate import Gate, TrayFinding
from stockroom.domain.records import Run, Tray


@dataclass(frozen=True, slots=True)
class TrayRecord:
    """One tray with everything weighed and tested on it, and what that says."""

    tray: Tray
    weighings: tuple[Weighing, ...]
    """Every weighing in the order taken, as loaded and dry."""
    checks: tuple[DrynessCheck, ...]
    """Every cold-touch and break test in the order made."""
    finding: TrayFinding
    last_weighing_id: int = 0
    """Weighings up to this one lie before the last extra hours; 0 where there were none."""
    last_check_id: int = 0
    """Tests up to this one lie before the last extra hours."""

    @property
    def dry(self) -> tuple[Weighing, ...]:
        """The dry weighings."""
        return tuple(one for one in self.weighings if one.stage == "dry")

    @property
    def dry_since(self) -> tuple[Weighing, ...]:
        """The dry weighings since the last extra hours."""
        return tuple(one for one in self.dry if one.weighing_id > self.last_weighing_id)

    @property
    def lost_dg(self) -> int | None:
        """What the last dry weighing lost since the one before; None where there is none."""
        losses = [one.net_dg - other.net_dg for one, other in pairwise(self.dry)]
        return losses[-1] if losses else None

    def left_behind(self, kind: str) -> bool:
        """Whether tests of a kind were made, all of them before the last extra hours."""
        made = [one.check_id for one in self.checks if one.kind == kind]
        return bool(made) and max(made) <= self.last_check_id


@dataclass(frozen=True, slots=True)
class Batch:
    """Trays whose food is packed as one, with the gate before packing it without oxygen."""

    food: str
    codes: tuple[str, ...]
    """The lot made of it, or what is dried again on it; none while its run is open."""
    trays: tuple[TrayRecord, ...]
    gate: Gate


@dataclass(frozen=True, slots=True)
class Evidence:
    """What shows that the food of a run, or a part of it, is dry."""

    run: Run
    batches: tuple[Batch, ...]
    extra: tuple[ExtraDrying, ...]
    """A few more hours, in the order begun."""
    waited_for: ExtraDrying | None = None
    """The last of them, as long as the run is open and nothing was weighed since."""

    @property
    def trays(self) -> tuple[TrayRecord, ...]:
        """Every tray, by its position."""
        found = [one for batch in self.batches for one in batch.trays]
        return tuple(sorted(found, key=lambda one: one.tray.position))

    def batch_of(self, tray_id: int) -> Batch | None:
        """The batch a tray belongs to."""
        return next(
            (one for one in self.batches if any(t.tray.tray_id == tray_id for t in one.trays)), None
        )
