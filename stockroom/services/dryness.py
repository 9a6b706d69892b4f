"""What shows that food is dry: several weighings, cold-touch and break tests, and the gate.

Packages without oxygen are packed only when the gate is open, or with a reason in the person's
own words that every such package carries.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.drying import TrayWeights
from stockroom.domain.dryness import ResidualMoisture, lot_residual
from stockroom.domain.evidence_records import ExtraDrying
from stockroom.domain.gate import (
    Fence,
    Gate,
    Missing,
    TrayEvidence,
    fence_of,
    gate,
    tray_evidence,
)
from stockroom.domain.packing import SplitRequest
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.records import Lot, Package, Tray
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import acting
from stockroom.services.bench import RunNotOpen, open_run, tray_of
from stockroom.services.finding import find_lot, find_run
from stockroom.services.names import clean_note
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import evidence_rows, food_rows, queue_rows, run_rows, trace_rows

MOST_EXTRA_HOURS = 1000


class DrynessTest(StrEnum):
    """How food on a tray is tested for dryness by hand."""

    COLD = "cold"
    """Felt for cold or heavy spots: passed where there are none."""
    BREAK = "break"
    """The thickest piece broken: passed where it snaps and its middle is dry."""

    @property
    def words(self) -> str:
        """The test's name."""
        return "cold touch" if self is DrynessTest.COLD else "break test"


class GateClosed(Refused):
    """Dryness is not shown, so nothing is packed without oxygen."""

    def __init__(self, missing: Sequence[Missing]) -> None:
        super().__init__(
            "Not packed without oxygen, because dryness is not shown: "
            + "; ".join(one.words for one in missing)
            + ".",
            f"{missing[0].next_step} Or pack it all the same and say why (--despite).",
        )
        self.missing = tuple(missing)


def record_test(
    room: Stockroom,
    position: int,
    kind: DrynessTest,
    passed: bool,
    *,
    run_id: int | None = None,
    note: str = "",
) -> Done:
    """Record a cold-touch or break test of the food on a tray, also after its run was closed.

    Raises RunNotOpen for an abandoned run, NotFound, BadInput.
    """
    with acting(room, "test") as act:
        run = find_run(room, run_id)
        if run.state == "abandoned":
            raise RunNotOpen(run)
        tray = tray_of(room, run, position)
        evidence_rows.insert_check(
            room.store,
            tray_id=tray.tray_id,
            kind=kind,
            passed=passed,
            on_day=act.today,
            at=room.clock.now(),
            note=clean_note(note),
        )
        act.words = (
            f"{kind.words} of tray {position} of run {run.run_id} ({tray.food}):"
            f" {words_of_test(kind, passed)}"
        )
    return Done(act.words)


def words_of_test(kind: DrynessTest, passed: bool) -> str:
    """What a test found, in words."""
    if kind is DrynessTest.COLD:
        return "no cold spot" if passed else "a cold spot"
    return "snaps" if passed else "does not snap"


def dry_longer(
    room: Stockroom, hours: Fraction, *, run_id: int | None = None, note: str = ""
) -> Done:
    """A few more hours for an open run: the Round reminds of it until something is weighed.

    What was weighed and tested before no longer shows that the food is dry. Raises RunNotOpen,
    BadInput, NotFound.
    """
    tenths = nearest_whole(hours * 10)
    if not 1 <= tenths <= MOST_EXTRA_HOURS * 10:
        raise BadInput("hours", f"{float(hours):g}", f"hours from 0.1 to {MOST_EXTRA_HOURS}")
    with acting(room, "more") as act:
        run = open_run(room, run_id)
        now = room.clock.now()
        due_at = now + timedelta(minutes=6 * tenths)
        evidence_rows.insert_extra_drying(
            room.store,
            run_id=run.run_id,
            hours_tenths=tenths,
            on_day=act.today,
            at=now,
            due_at=due_at,
            note=clean_note(note),
        )
        act.words = f"run {run.run_id} dries {tenths / 10:g} h more, to be weighed and tested again"
    return Done(act.words, made_id=run.run_id)


def waited_for(room: Stockroom) -> tuple[ExtraDrying, ...]:
    """Extra hours of open runs after which nothing was weighed yet, the earliest end first."""
    return tuple(evidence_rows.extra_dryings_waited_for(room.store))


def dryness_of(room: Stockroom, lot_code: str) -> Gate:
    """What shows that a lot is dry, tray by tray, and what is missing. Raises NotFound."""
    return lot_gate(room, find_lot(room, lot_code))


def run_gate(room: Stockroom, run_id: int | None = None) -> Gate:
    """The same for every tray of a run together."""
    return gate_of_trays(room, run_rows.trays_of_run(room.store, find_run(room, run_id).run_id))


def lot_gate(room: Stockroom, lot: Lot) -> Gate:
    """The gate of a lot: by the trays it came from, or the last one it was dried again on."""
    return gate_of_trays(room, trays_behind(room, lot))


def trays_behind(room: Stockroom, lot: Lot) -> tuple[Tray, ...]:
    """The trays a lot's gate goes by: those it came from, or the last it was dried again on."""
    again = queue_rows.tray_of_redried_lot(room.store, lot.lot_id)
    if again is None:
        return tuple(run_rows.trays_of_lot(room.store, lot.lot_id))
    return tuple(run_rows.trays_by_ids(room.store, [again]))


def first_gate(room: Stockroom, lot: Lot) -> Gate:
    """The gate of a lot by the trays it came from, whatever was dried again since."""
    return gate_of_trays(room, run_rows.trays_of_lot(room.store, lot.lot_id))


def tray_gate(room: Stockroom, tray_id: int) -> Gate:
    """The gate of food that was dried again on a tray."""
    return gate_of_trays(room, run_rows.trays_by_ids(room.store, [tray_id]))


def package_gate(room: Stockroom, package: Package) -> Gate:
    """The gate of a package's food: by the last drying before it was sealed."""
    return gate_of_trays(room, trays_behind_package(room, package))


def trays_behind_package(room: Stockroom, package: Package) -> tuple[Tray, ...]:
    """The trays of the last drying of a package's food before it was sealed."""
    lot = find_lot(room, package.lot_code)
    sealed_on = package.first_sealed_on or package.sealed_on
    again = [
        *trace_rows.trays_lot_dried_again(room.store, lot.lot_id, sealed_on),
        *trace_rows.trays_dried_again(room.store, package.package_id),
    ]
    if again:
        return tuple(run_rows.trays_by_ids(room.store, [again[-1]]))
    return tuple(run_rows.trays_of_lot(room.store, lot.lot_id))


def gate_of_trays(room: Stockroom, trays: Sequence[Tray]) -> Gate:
    """The gate by the record of trays of one run."""
    evidence, fence = evidence_of(room, trays)
    return gate(evidence, residual=_residual(room, trays), fence=fence)


def evidence_of(
    room: Stockroom, trays: Sequence[Tray]
) -> tuple[tuple[TrayEvidence, ...], Fence | None]:
    """What was weighed and tested on trays of one run, and the extra hours that fence it off."""
    ids = [tray.tray_id for tray in trays]
    weighings = evidence_rows.weighings_of(room.store, ids)
    checks = evidence_rows.checks_of_trays(room.store, ids)
    extra = evidence_rows.extra_dryings_of(room.store, trays[0].run_id) if trays else []
    evidence = tuple(
        tray_evidence(
            tray.position,
            [one for one in weighings if one.tray_id == tray.tray_id and one.stage == "dry"],
            [one for one in checks if one.tray_id == tray.tray_id],
            wet_dg=tray.wet_dg,
        )
        for tray in trays
    )
    return evidence, fence_of(extra[-1] if extra else None)


def _residual(room: Stockroom, trays: Sequence[Tray]) -> ResidualMoisture | None:
    """The moisture left by the table's water figure; of food dried again nothing is known."""
    if not trays or len({tray.food_id for tray in trays}) > 1:
        return None
    weights = [
        TrayWeights(tray.position, tray.wet_dg, tray.dry_dg)
        for tray in trays
        if tray.wet_dg is not None and tray.dry_dg is not None and not tray.again
    ]
    food = food_rows.food_by_id(room.store, trays[0].food_id)
    if len(weights) < len(trays) or food is None or food.water_cg is None:
        return None
    return lot_residual(weights, food.water_cg / 10_000)


def pass_gate(found: Gate, splits: Sequence[SplitRequest], despite: str) -> str:
    """The reason low-oxygen packages carry: "" when the gate is open or none is wanted.

    Raises GateClosed when dryness is not shown and nothing was said why it is packed despite it.
    """
    if found.open or not any(split.low_oxygen for split in splits):
        return ""
    reason = clean_note(despite)
    if not reason:
        raise GateClosed(found.missing)
    return reason
