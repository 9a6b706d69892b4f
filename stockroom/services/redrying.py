"""The queue for the machine: food found soft or not dry waits its turn, and is dried again.

A held package, or what is left unpacked of a lot, takes its place in the queue and keeps it. On
a tray of a run it is weighed and tested as fresh food is; off the machine, a package's food is
packed anew (`repacking`), a lot's food is packed as before.
"""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.codes import read_code
from stockroom.domain.conditions import Condition, Event, next_condition
from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.quantities import grams
from stockroom.domain.records import Lot, Package
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import Act, acting
from stockroom.services.bench import open_run, record_weight, refuse_tray
from stockroom.services.finding import find_lot, find_package, find_place
from stockroom.services.names import clean_note
from stockroom.services.packages import record_event, refuse_early
from stockroom.services.packing import LotPackedOut, refuse_queued
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import lot_rows, package_rows, queue_rows, run_rows


class NotWaiting(Refused):
    """Nothing of this code waits for the machine."""

    def __init__(self, code: str) -> None:
        super().__init__(
            f"{code} does not wait for the machine.", "Hold it first, or look at the queue."
        )


class OnTheMachine(Refused):
    """The food is on a tray already."""

    def __init__(self, entry: QueueEntry) -> None:
        where = f"tray {entry.tray_position} of run {entry.run_id}"
        super().__init__(f"{entry.code} is on {where} already.", "Take that tray out first.")


class DifferentFood(Refused):
    """One tray takes the packages of one lot, or one lot's food: it is packed as one."""

    def __init__(self) -> None:
        super().__init__(
            "A tray takes packages of one lot only, or the unpacked food of one lot.",
            "Use a tray for each lot.",
        )


def machine_queue(room: Stockroom) -> tuple[QueueEntry, ...]:
    """What waits for the machine, is on it or came off it, first come first served."""
    return tuple(queue_rows.queue(room.store))


def put_on_hold(
    room: Stockroom, act: Act, package: Package, *, place: str | None, why: str
) -> None:
    """Hold a package inside an action: its condition, its place and its turn."""
    refuse_early(package, act.today)
    after = next_condition(Condition(package.condition), Event.HOLD)
    package_rows.set_condition(room.store, package.package_id, after)
    record_event(room, act.today, package, Event.HOLD, after, why)
    queue_rows.insert_entry(
        room.store,
        lot_id=package.lot_id,
        package_id=package.package_id,
        dry_dg=package.left_dg,
        since=act.today,
        reason=why,
    )
    if place is not None:
        _stand_in(room, act, package, place, after)


def _stand_in(
    room: Stockroom, act: Act, package: Package, place: str, condition: Condition
) -> None:
    where = find_place(room, place)
    if where.place_id == package.place_id:
        return
    package_rows.set_place(room.store, package.package_id, where.place_id)
    package_rows.insert_event(
        room.store,
        package_id=package.package_id,
        on_day=act.today,
        event="moved",
        from_condition=condition,
        to_condition=condition,
        from_place_id=package.place_id,
        to_place_id=where.place_id,
    )


def hold_lot(room: Stockroom, code: str, *, why: str = "") -> Done:
    """Put what is left unpacked of a lot in the queue, to be dried again.

    Raises LotPackedOut, WaitsAlready, NotFound.
    """
    with acting(room, "hold") as act:
        lot = find_lot(room, code)
        if lot.left_dg <= 0:
            raise LotPackedOut(lot.code)
        refuse_queued(room, lot)
        queue_rows.insert_entry(
            room.store,
            lot_id=lot.lot_id,
            package_id=None,
            dry_dg=lot.left_dg,
            since=act.today,
            reason=clean_note(why),
        )
        act.words = (
            f"held {grams(lot.left_dg):.1f} g of lot {lot.code} ({lot.food})"
            " until the machine is free"
        )
    return Done(act.words, codes=(lot.code,))


def leave_queue(room: Stockroom, code: str) -> Done:
    """Take a lot's unpacked food out of the queue: it does not need drying again after all.

    A held package leaves the queue when it is packed anew or discarded. Raises NotWaiting,
    OnTheMachine, NotFound.
    """
    with acting(room, "hold") as act:
        lot = find_lot(room, code)
        entry = queue_rows.entry_of_lot(room.store, lot.lot_id)
        if entry is None:
            raise NotWaiting(lot.code)
        if entry.state != "waiting":
            raise OnTheMachine(entry)
        queue_rows.end_entry(room.store, entry.entry_id, ended_on=act.today, ending="dropped")
        act.words = f"took lot {lot.code} ({lot.food}) out of the queue for the machine"
    return Done(act.words, codes=(lot.code,))


def load_again(
    room: Stockroom,
    position: int,
    codes: Sequence[str],
    *,
    gross_dg: int | None = None,
    tare_dg: int = 0,
    run_id: int | None = None,
) -> Done:
    """Put food from the queue on a tray of an open run: packages of one lot, or a lot's food.

    Food that came off the machine not dry enough goes on again, all that lay on its tray. Raises
    NotWaiting, OnTheMachine, DifferentFood, TrayTaken, RunNotOpen, NotFound, BadInput.
    """
    if not codes:
        raise BadInput("codes", "", "the code of a held package, or of a lot in the queue")
    with acting(room, "load") as act:
        run = open_run(room, run_id)
        refuse_tray(room, run, position)
        entries, lot = _waiting(room, codes)
        tray_id = run_rows.insert_tray(
            room.store, run_id=run.run_id, position=position, food_id=lot.food_id
        )
        for entry in entries:
            queue_rows.set_tray(room.store, _turn_of(room, act, entry), tray_id)
        which = ", ".join(entry.code for entry in entries)
        act.words = f"loaded {which} ({lot.food}) again on tray {position} of run {run.run_id}"
        if gross_dg is not None:
            record_weight(room, act, tray_id, "wet", position, gross_dg, tare_dg)
            act.words += f", {grams(gross_dg - tare_dg):.1f} g"
    return Done(act.words, codes=tuple(entry.code for entry in entries), made_id=tray_id)


def _waiting(room: Stockroom, codes: Sequence[str]) -> tuple[list[QueueEntry], Lot]:
    """The entries of these codes, all of one lot, and the lot."""
    found = [_entry(room, code) for code in codes]
    entries = list({entry.entry_id: entry for entry in found}.values())
    of_packages = {entry.package_id is not None for entry in entries}
    if len({entry.lot_id for entry in entries}) > 1 or len(of_packages) > 1:
        raise DifferentFood
    for entry in entries:
        if entry.state == "loaded":
            raise OnTheMachine(entry)
    entries = _with_heaps(room, entries)
    lot = lot_rows.lot_by_id(room.store, entries[0].lot_id)
    assert lot is not None
    return entries, lot


def _with_heaps(room: Stockroom, entries: Sequence[QueueEntry]) -> list[QueueEntry]:
    """These entries, each dried one with all that lay on its tray: they are one heap."""
    found: dict[int, QueueEntry] = {}
    for entry in entries:
        heap = (
            [entry]
            if entry.tray_id is None
            else queue_rows.entries_on_tray(room.store, entry.tray_id)
        )
        found.update((one.entry_id, one) for one in heap)
    return list(found.values())


def _turn_of(room: Stockroom, act: Act, entry: QueueEntry) -> int:
    """The row of the queue to put on a tray: a new one where it was on a tray before."""
    if entry.tray_id is None:
        return entry.entry_id
    queue_rows.end_entry(room.store, entry.entry_id, ended_on=act.today, ending="dried")
    return queue_rows.insert_entry(
        room.store,
        lot_id=entry.lot_id,
        package_id=entry.package_id,
        dry_dg=entry.dry_dg,
        since=entry.since,
        reason=entry.reason,
    )


def _entry(room: Stockroom, code: str) -> QueueEntry:
    """The place of a typed code in the queue. Or NotWaiting, NotFound, BadInput."""
    if read_code(code).kind == "lot":
        lot = find_lot(room, code)
        found, name = queue_rows.entry_of_lot(room.store, lot.lot_id), lot.code
    else:
        package = find_package(room, code)
        found, name = queue_rows.entry_of_package(room.store, package.package_id), package.code
    if found is None:
        raise NotWaiting(name)
    return found
