"""What was weighed and tested, tray by tray: what of it counts, and the gate of each batch.

A batch is the food that is packed as one: the trays of one food become one lot, and each tray of
food dried again is a batch of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stockroom.domain.batch_evidence import Batch, Evidence, TrayRecord
from stockroom.domain.dryness_working import plateau_working
from stockroom.domain.evidence_records import ExtraDrying
from stockroom.domain.gate_evidence import counted_hours, counted_readings
from stockroom.domain.records import Lot, Package, Run, Tray
from stockroom.domain.working import Trace, Working
from stockroom.errors import StockroomError
from stockroom.services.bench import tray_of
from stockroom.services.dryness import (
    evidence_of,
    gate_of_trays,
    trays_behind,
    trays_behind_package,
)
from stockroom.services.finding import find_lot, find_run
from stockroom.services.results import WorkingPage
from stockroom.services.session import Stockroom
from stockroom.store import evidence_rows, run_rows


def run_evidence(room: Stockroom, run_id: int | None = None) -> Evidence:
    """What was weighed and tested in a run, the one open run without a number.

    Raises NotFound, Ambiguous.
    """
    run = find_run(room, run_id)
    return _evidence(room, run, run_rows.trays_of_run(room.store, run.run_id))


def lot_evidence(room: Stockroom, code: str) -> Evidence:
    """The same for the trays a lot's gate goes by: one batch. Raises NotFound."""
    lot = find_lot(room, code)
    return _of_lot(room, lot, trays_behind(room, lot))


def tray_evidence(room: Stockroom, tray_id: int) -> Evidence:
    """The same for one tray, such as one of food dried again."""
    trays = run_rows.trays_by_ids(room.store, [tray_id])
    return _evidence(room, find_run(room, trays[0].run_id), trays)


def packages_evidence(room: Stockroom, packages: Sequence[Package]) -> Evidence:
    """The same for the last drying of food in packages: of the first it is not shown of, if any.

    `packages` are one or more.
    """
    every = [(one, trays_behind_package(room, one)) for one in packages]
    closed = (one for one in every if not gate_of_trays(room, one[1]).open)
    package, trays = next(closed, every[0])
    return _of_lot(room, find_lot(room, package.lot_code), trays)


def _of_lot(room: Stockroom, lot: Lot, trays: Sequence[Tray]) -> Evidence:
    """The evidence of a lot's trays. One that came from a list has none: its gate says so."""
    if trays:
        return _evidence(room, find_run(room, trays[0].run_id), trays)
    batch = Batch(lot.food, (lot.code,), (), gate_of_trays(room, ()))
    return Evidence(find_run(room, lot.run_id), (batch,), ())


def _evidence(room: Stockroom, run: Run, trays: Sequence[Tray]) -> Evidence:
    extra = evidence_rows.extra_dryings_of(room.store, run.run_id)
    waiting = evidence_rows.extra_dryings_waited_for(room.store)
    return Evidence(
        run,
        tuple(_batch(room, group, extra) for group in _groups(trays)),
        tuple(extra),
        next((one for one in waiting if one.run_id == run.run_id), None),
    )


def _groups(trays: Sequence[Tray]) -> list[list[Tray]]:
    """The trays by what is packed as one, in the order of each first tray."""
    groups: dict[tuple[int, int], list[Tray]] = {}
    for tray in sorted(trays, key=lambda tray: tray.position):
        groups.setdefault((tray.food_id, tray.tray_id if tray.again else 0), []).append(tray)
    return list(groups.values())


def _batch(room: Stockroom, trays: Sequence[Tray], extra: Sequence[ExtraDrying]) -> Batch:
    ids = [tray.tray_id for tray in trays]
    weighings = evidence_rows.weighings_of(room.store, ids)
    checks = evidence_rows.checks_of_trays(room.store, ids)
    gate = gate_of_trays(room, trays)
    first = trays[0]
    return Batch(
        first.food,
        first.again or ((first.lot_code,) if first.lot_code else ()),
        tuple(
            TrayRecord(
                tray,
                tuple(one for one in weighings if one.tray_id == tray.tray_id),
                tuple(one for one in checks if one.tray_id == tray.tray_id),
                finding,
                extra[-1].last_weighing_id if extra else 0,
                extra[-1].last_check_id if extra else 0,
            )
            for tray, finding in zip(trays, gate.trays, strict=True)
        ),
        gate,
    )


def tray_working(room: Stockroom, run_id: int, position: int) -> WorkingPage:
    """How the verdicts on a tray's weight and on the gate of its batch were reached.

    Raises NotFound.
    """
    evidence = run_evidence(room, run_id)
    tray = tray_of(room, evidence.run, position)
    batch = evidence.batch_of(tray.tray_id)
    assert batch is not None
    record = next(one for one in batch.trays if one.tray.tray_id == tray.tray_id)
    title = f"Constant weight of tray {position}"
    return WorkingPage(
        f"tray {position} of run {run_id}",
        (replace(_weight_working(room, record), title=title), batch.gate.working),
    )


def batch_working(batch: Batch) -> WorkingPage:
    """How the verdict of a batch's gate was reached."""
    return WorkingPage(batch.food, (batch.gate.working,))


def _weight_working(room: Stockroom, record: TrayRecord) -> Working:
    """The working of constant weight, or why there is no verdict."""
    (evidence,), fence = evidence_of(room, [record.tray])
    readings = counted_readings(evidence, fence)
    try:
        return plateau_working(
            [one.weight_dg for one in readings],
            hours=counted_hours(readings, fence) if readings else None,
            resolution_dg=evidence.resolution_dg,
        )
    except StockroomError as trouble:
        trace = Trace("Constant weight")
        trace.note("verdict", record.finding.reason)
        trace.caution(trouble.hint)
        trace.conclude("not shown")
        return trace.finish()
