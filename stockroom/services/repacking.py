"""Packing food anew that was in a package before: dried again, or still crisp when its seal went.

The old packages end; the new ones are packages of the same lot. What was spent of the food's
quality stays spent. Drying again makes its moisture new; packing anew without drying does not,
so such a package keeps only as long as an opened one closed again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from math import ceil

from stockroom.domain.conditions import Condition, Event, next_condition
from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.faults import Finding, soft_since, standing_faults
from stockroom.domain.gate import Gate
from stockroom.domain.keeping.events import seal_lost_on
from stockroom.domain.keeping.interface import CannotProject
from stockroom.domain.packing import Share, SplitRequest
from stockroom.domain.quantities import nearest_whole, share_of
from stockroom.domain.records import Lot, Package
from stockroom.domain.soft_outcome import Outcome
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import Act, acting
from stockroom.services.deciding import DecideFirst
from stockroom.services.dryness import package_gate, pass_gate, tray_gate
from stockroom.services.finding import find_container, find_lot, find_package, find_place
from stockroom.services.keeping import case_of, refuse_impossible_packages
from stockroom.services.names import clean_note
from stockroom.services.packages import record_event, refuse_early
from stockroom.services.packing import packages_words, packing_cautions
from stockroom.services.redrying import DifferentFood, NotWaiting
from stockroom.services.results import Done
from stockroom.services.sealing import Closing, refuse_odd, seal, split_weights
from stockroom.services.session import Stockroom
from stockroom.store import package_rows, projections, queue_rows

_MILLION = 1_000_000


class NotDriedYet(Refused):
    """Food that is held has to be dried first."""

    def __init__(self, entry: QueueEntry) -> None:
        where = (
            f"is on tray {entry.tray_position} of run {entry.run_id}"
            if entry.state == "loaded"
            else "waits for the machine"
        )
        super().__init__(
            f"{entry.code} {where}; it is packed anew once it has been dried.",
            "Load it on a tray, dry it, weigh it, and close the run first.",
        )


class WentSoft(Refused):
    """Food that went soft is dried again or thrown away, never just packed anew."""

    def __init__(self, package: Package) -> None:
        super().__init__(
            f"{package.code} was found soft; soft food is not packed anew as it is.",
            "Check it again, or decide what becomes of it.",
        )


@dataclass(frozen=True, slots=True)
class Heap:
    """Food of packages that is packed anew together, as it lies there now."""

    lot: Lot
    packages: tuple[Package, ...]
    """Every package it was in: of held ones all that were dried on the same tray."""
    total: Share
    """Dry food there is, and the water it takes up."""
    dried: QueueEntry | None = None
    """Where it was dried again; None where it is packed as it is."""
    gate: Gate | None = None
    """Whether it is shown to be dry, or was when it was packed before."""
    exposed_on: date | None = None
    """The day room air got in, where it is packed as it is."""


def heap_of(room: Stockroom, codes: Sequence[str]) -> Heap:
    """What packing these packages anew would take; changes nothing.

    Raises what `repack_packages` raises of packages that cannot be packed anew.
    """
    if not codes:
        raise BadInput("packages", "", "one or more package codes")
    packages = _together(room, codes)
    lot = find_lot(room, packages[0].lot_code)
    if packages[0].condition != Condition.HELD:
        closing, total = _as_it_is(room, room.today, packages)
        gate = _gate_before(room, packages)
        return Heap(lot, tuple(packages), total, gate=gate, exposed_on=closing.exposed_on)
    entry = _dried_entry(room, packages[0])
    assert entry.tray_id is not None
    gate = tray_gate(room, entry.tray_id)
    return Heap(lot, tuple(packages), _off_the_tray(packages, entry), entry, gate)


def repack_packages(
    room: Stockroom,
    codes: Sequence[str],
    splits: Sequence[SplitRequest],
    *,
    place: str | None = None,
    note: str = "",
    despite: str = "",
) -> Done:
    """Pack the food of packages anew, as new packages of their lot.

    Held packages come off a tray of a closed run: every package dried on that tray goes into the
    new ones. Others go as they are, if they did not go soft; a suspect one by a decision. Without
    oxygen, the last drying of either has to be shown to be enough, or `despite` says why they are
    packed so all the same. A split without grams shares what the others leave. Raises NotDriedYet,
    WentSoft, DecideFirst, DifferentFood, GateClosed, NotAllowed, NotSealedYet, TooMuchPacked,
    NotFound, BadInput, CannotProject.
    """
    if not codes or not splits:
        raise BadInput("packages", "", "one or more package codes and what they go into")
    with acting(room, "repack") as act:
        refuse_odd(splits)
        packages = _together(room, codes)
        lot = find_lot(room, packages[0].lot_code)
        held = packages[0].condition == Condition.HELD
        where = None if place is None else find_place(room, place).place_id
        if held:
            closing, total = _redried(room, act, packages, splits, despite)
        else:
            closing, total = _as_it_is(room, act.today, packages)
            why = pass_gate(_gate_before(room, packages), splits, despite)
            closing = replace(closing, gate_reason=why)
        closing = replace(closing, place_id=where, note=clean_note(note))
        made = _seal_all(room, lot, splits, closing, total)
        _end(room, act, packages, [package_id for package_id, _ in made])
        new = [code for _, code in made]
        old = ", ".join(package.code for package in packages)
        how = "dried again" if held else "as it was"
        act.words = f"packed {old} ({lot.food}) anew, {how}, into {packages_words(new)}"
        cautions = packing_cautions(room, lot.code, splits, despite=bool(closing.gate_reason))
    return Done(act.words, cautions, tuple(new))


def _together(room: Stockroom, codes: Sequence[str]) -> list[Package]:
    """The packages of these codes, all of one lot and all held or none; each once.

    Of held packages every one that was dried on the same tray is taken: their food is one heap.
    """
    found = [find_package(room, code) for code in codes]
    packages = list({package.package_id: package for package in found}.values())
    if len({(one.lot_id, one.condition == Condition.HELD) for one in packages}) > 1:
        raise DifferentFood
    if packages[0].condition != Condition.HELD:
        for package in packages:
            next_condition(Condition(package.condition), Event.REPACKED)
        return packages
    trays = {_dried_entry(room, package).tray_id: None for package in packages}
    if len(trays) > 1:
        raise DifferentFood
    (tray_id,) = trays
    assert tray_id is not None
    on_tray = [
        entry.package_id
        for entry in queue_rows.entries_on_tray(room.store, tray_id)
        if entry.package_id is not None
    ]
    heap = package_rows.packages_by_ids(room.store, on_tray)
    for package in heap:
        refuse_early(package, room.today)
    return heap


def _dried_entry(room: Stockroom, package: Package) -> QueueEntry:
    """The place of a held package in the queue, dried. Or NotDriedYet, NotWaiting."""
    entry = queue_rows.entry_of_package(room.store, package.package_id)
    if entry is None:
        raise NotWaiting(package.code)
    if entry.state != "dried":
        raise NotDriedYet(entry)
    return entry


def _redried(
    room: Stockroom,
    act: Act,
    packages: Sequence[Package],
    splits: Sequence[SplitRequest],
    despite: str,
) -> tuple[Closing, Share]:
    """What food off the machine carries over, and how much of it there is."""
    entry = _dried_entry(room, packages[0])
    assert entry.tray_id is not None
    closing = Closing(
        day=act.today,
        place_id=None,
        gate_reason=pass_gate(tray_gate(room, entry.tray_id), splits, despite),
        origin="redried",
        first_sealed_on=_first_sealed(packages),
        life_before_millionths=_quality_spent(room, packages, act.today),
    )
    return closing, _off_the_tray(packages, entry)


def _off_the_tray(packages: Sequence[Package], entry: QueueEntry) -> Share:
    """Dry food that came off the machine, and the water that belongs to it."""
    assert entry.dried_dg is not None
    left_dg = sum(package.left_dg for package in packages)
    water_dg = sum(package.left_water_dg for package in packages)
    # Crumbs left behind take their water with them; moisture taken up gives none.
    water_dg = nearest_whole(water_dg * min(Fraction(1), Fraction(entry.dried_dg, left_dg)))
    return Share(entry.dried_dg, water_dg)


def _as_it_is(room: Stockroom, today: date, packages: Sequence[Package]) -> tuple[Closing, Share]:
    """What food that still snaps carries over, and how much of it there is."""
    findings = projections.checks_of(room.store, [package.package_id for package in packages])
    exposed: list[date] = []
    for package in packages:
        refuse_early(package, today)
        found = findings[package.package_id]
        _refuse_doubtful(room, package, found)
        lost_on = seal_lost_on(package.sealed_on, found)
        days = (package.exposed_on, package.opened_on, lost_on, today)
        exposed.append(min(day for day in days if day is not None))
    closing = Closing(
        day=today,
        place_id=None,
        origin="repacked",
        first_sealed_on=_first_sealed(packages),
        exposed_on=min(exposed),
    )
    left_dg = sum(package.left_dg for package in packages)
    return closing, Share(left_dg, sum(package.left_water_dg for package in packages))


def _gate_before(room: Stockroom, packages: Sequence[Package]) -> Gate:
    """The gate of food packed as it is: a closed one, where one of the packages has that."""
    gates = [package_gate(room, package) for package in packages]
    return next((gate for gate in gates if not gate.open), gates[0])


def _refuse_doubtful(room: Stockroom, package: Package, findings: Sequence[Finding]) -> None:
    """Refuse food that went soft, and a suspect package nobody decided to pack anew."""
    if soft_since(findings) is not None:
        raise WentSoft(package)
    if package.condition == Condition.SUSPECT:
        decided = queue_rows.inspections_of(room.store, package.package_id)
        faults = standing_faults(findings)
        if not (decided and faults and decided[-1].outcome == Outcome.REPACK):
            raise DecideFirst(package)


def _first_sealed(packages: Sequence[Package]) -> date:
    return min(package.first_sealed_on or package.sealed_on for package in packages)


def _quality_spent(room: Stockroom, packages: Sequence[Package], today: date) -> int | None:
    """The largest share of quality spent among the packages, millionths; None if not known.

    Rounded up: what is dried again never comes out better than what was not.
    """
    try:
        spent = max(_spent(room, package, today) for package in packages)
    except CannotProject:
        return None
    return ceil(min(Fraction(1), spent) * _MILLION)


def _spent(room: Stockroom, package: Package, today: date) -> Fraction:
    """The share of quality a package has spent, what was spent before included.

    Asked as of food dried again today: moisture and the short time of an opened package end with
    drying, the quality that went meanwhile, in air since it was open, does not come back.
    """
    case = case_of(room, package)
    before, since = case.life_used_before_redrying, case.redried_on
    if before is None or since is None:
        before, since = Fraction(0), case.sealed_on
    ended = replace(case, sealed_on=since, redried_on=today, life_used_before_redrying=None)
    (used,) = room.model.life_used(ended, [float((today - since).days)])
    return before + Fraction(used.middle)


def _seal_all(
    room: Stockroom,
    lot: Lot,
    splits: Sequence[SplitRequest],
    closing: Closing,
    total: Share,
) -> list[tuple[int, str]]:
    """Seal the new packages; their ids and codes in order."""
    weights = split_weights(lot.code, total.dry_dg, splits)
    containers = [find_container(room, split.container) for split in splits]
    made: list[tuple[int, str]] = []
    position = 0
    for split, container, part in zip(splits, containers, weights, strict=True):
        for weight in part:
            water_dg = share_of(total.water_dg, total.dry_dg, position, weight)
            made.append(seal(room, lot, split, container, Share(weight, water_dg), closing))
            position += weight
    refuse_impossible_packages(room, [package_id for package_id, _ in made])
    return made


def _end(room: Stockroom, act: Act, packages: Sequence[Package], made_ids: Sequence[int]) -> None:
    """End the old packages: emptied into the new ones, out of the queue."""
    for package in packages:
        condition = Condition(package.condition)
        event = Event.REDRIED if condition is Condition.HELD else Event.REPACKED
        after = next_condition(condition, event)
        package_rows.insert_draw(
            room.store,
            package_id=package.package_id,
            meal_id=None,
            on_day=act.today,
            dry_dg=package.left_dg,
            water_dg=package.left_water_dg,
            note="",
            purpose="again",
        )
        package_rows.set_condition(
            room.store,
            package.package_id,
            after,
            gone_on=act.today,
            taken_dg=package.dry_dg,
        )
        record_event(room, act.today, package, event, after, "")
        entry = queue_rows.entry_of_package(room.store, package.package_id)
        if entry is not None:
            queue_rows.end_entry(room.store, entry.entry_id, ended_on=act.today, ending="packed")
        for made_id in made_ids:
            queue_rows.insert_source(room.store, made_id, package.package_id)
