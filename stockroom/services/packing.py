"""From a lot to its packages: every tenth of a gram and of water is accounted for."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from enum import StrEnum

from stockroom.domain.cautions import Caution, cautions_for_lot, cautions_for_packing
from stockroom.domain.gate import override_cautions
from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.packing import (
    SplitRequest,
    balance_of,
    shares,
)
from stockroom.domain.quantities import grams
from stockroom.domain.records import Lot
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import Act, acting
from stockroom.services.dryness import lot_gate, pass_gate
from stockroom.services.finding import find_container, find_lot, find_place
from stockroom.services.foods import facts_of
from stockroom.services.keeping import refuse_impossible_packages
from stockroom.services.names import clean_note
from stockroom.services.results import Done, LotDetail
from stockroom.services.sealing import Closing, refuse_odd, seal, split_weights
from stockroom.services.session import Stockroom
from stockroom.store import food_rows, lot_rows, package_rows, queue_rows, run_rows


class LossReason(StrEnum):
    """Why dry food of a lot went into no package."""

    TASTED = "tasted"
    SPILT = "spilt"
    DISCARDED = "discarded"
    UNACCOUNTED = "unaccounted"


class WaitsAlready(Refused):
    """The food has its place in the queue for the machine."""

    def __init__(self, code: str) -> None:
        super().__init__(
            f"{code} is in the queue for the machine.",
            "Dry it again, or take it out of the queue first.",
        )


class LotPackedOut(Refused):
    """Nothing of the lot is left to pack."""

    def __init__(self, code: str) -> None:
        super().__init__(
            f"All of lot {code} is packed or recorded as lost.", "Undo a packing to change it."
        )


def list_lots(room: Stockroom, *, count: int = 200) -> tuple[Lot, ...]:
    """The latest lots first."""
    return tuple(lot_rows.lots(room.store, count=count))


def lots_to_pack(room: Stockroom) -> tuple[Lot, ...]:
    """Lots with something left to pack, the oldest first."""
    return tuple(lot_rows.lots_to_pack(room.store))


def lot_detail(room: Stockroom, code: str) -> LotDetail:
    """A lot with its trays, packages, losses and cautions."""
    lot = find_lot(room, code)
    food = food_rows.food_by_id(room.store, lot.food_id)
    assert food is not None
    return LotDetail(
        lot=lot,
        trays=tuple(run_rows.trays_of_lot(room.store, lot.lot_id)),
        packages=tuple(package_rows.packages_of_lot(room.store, lot.lot_id)),
        losses=tuple(lot_rows.losses_of_lot(room.store, lot.lot_id)),
        cautions=cautions_for_lot(facts_of(food)),
        driven_off_dg=queue_rows.driven_off(room.store, lot.lot_id),
        queued=queue_rows.entry_of_lot(room.store, lot.lot_id),
        gate=lot_gate(room, lot),
    )


def packing_cautions(
    room: Stockroom, lot_code: str, splits: Sequence[SplitRequest], *, despite: bool = False
) -> tuple[Caution, ...]:
    """What to bear in mind before packing a lot so; each caution once.

    `despite` adds what goes with packing without oxygen although dryness is not shown.
    """
    food = food_rows.food_by_id(room.store, find_lot(room, lot_code).food_id)
    assert food is not None
    facts = facts_of(food)
    found: dict[str, Caution] = {}
    for split in splits:
        container = find_container(room, split.container)
        for caution in cautions_for_packing(
            facts.food_class,
            facts.preparation,
            PackageKind(container.package_kind),
            absorber_cc=split.absorber_cc or 0,
            vacuum=split.vacuum,
            fat_of_solids=facts.fat_of_solids,
            sugars_of_solids=facts.sugars_of_solids,
            acid=facts.acid,
        ):
            found.setdefault(caution.key, caution)
    for caution in override_cautions() if despite else ():
        found.setdefault(caution.key, caution)
    return tuple(found.values())


def pack_lot(
    room: Stockroom,
    lot_code: str,
    splits: Sequence[SplitRequest],
    *,
    losses: Sequence[tuple[int | None, LossReason]] = (),
    place: str | None = None,
    sealed_on: date | None = None,
    note: str = "",
    despite: str = "",
) -> Done:
    """Split a lot, or a part of it, into packages; they begin settling.

    A split without grams shares what the others and the losses leave evenly; a loss without
    grams is all that the packages leave. Grams and water of all packages and losses of a lot add
    up to the lot. Where dryness is not shown, packages without oxygen are refused unless
    `despite` gives a reason, which they carry. Raises GateClosed, TooMuchPacked, LotPackedOut,
    WaitsAlready, NotFound, BadInput, and CannotProject for a package that cannot be, such as
    more food than its container holds.
    """
    if not splits:
        raise BadInput("packages", "", "how many of which container, such as 6xpouch-1500-foil:62")
    with acting(room, "pack") as act:
        lot = find_lot(room, lot_code)
        if lot.left_dg == 0:
            raise LotPackedOut(lot.code)
        refuse_queued(room, lot)
        day = sealing_day(lot, sealed_on, room.today)
        where = None if place is None else find_place(room, place).place_id
        said: list[str] = []
        for lost_dg, reason in losses:
            if lost_dg is not None:
                said.append(_lost_words(_lose(room, act, lot, lost_dg, reason, ""), reason))
                lot = find_lot(room, lot.code)
        why = pass_gate(lot_gate(room, lot), splits, despite)
        closing = Closing(day, where, clean_note(note), gate_reason=why)
        codes = _pack(room, lot, splits, closing)
        for lost_dg, reason in losses:
            if lost_dg is None:
                rest_dg = _lose(room, act, find_lot(room, lot.code), None, reason, "")
                said.append(_lost_words(rest_dg, reason))
        left_dg = find_lot(room, lot.code).left_dg
        if left_dg:
            said.append(f"{grams(left_dg):.1f} g left to pack")
        act.words = "; ".join(
            [f"packed lot {lot.code} ({lot.food}) into {packages_words(codes)}", *said]
        )
        cautions = packing_cautions(room, lot.code, splits, despite=bool(why))
    return Done(act.words, cautions, tuple(codes))


def refuse_queued(room: Stockroom, lot: Lot) -> None:
    """Raise WaitsAlready for a lot whose unpacked food waits to be dried again."""
    if queue_rows.entry_of_lot(room.store, lot.lot_id) is not None:
        raise WaitsAlready(lot.code)


def record_loss(
    room: Stockroom, lot_code: str, dry_dg: int | None, reason: LossReason, *, note: str = ""
) -> Done:
    """Record dry food of a lot that goes into no package; None means all that is left.

    Raises TooMuchPacked, LotPackedOut, WaitsAlready, EmptyPackage.
    """
    with acting(room, "loss") as act:
        lot = find_lot(room, lot_code)
        refuse_queued(room, lot)
        lost_dg = _lose(room, act, lot, dry_dg, reason, clean_note(note))
        act.words = f"recorded {grams(lost_dg):.1f} g of lot {lot.code} ({lot.food}) as {reason}"
    return Done(act.words)


def _lose(
    room: Stockroom, act: Act, lot: Lot, dry_dg: int | None, reason: LossReason, note: str
) -> int:
    """Record one loss inside an action; returns its dry weight in dg."""
    if lot.left_dg == 0:
        raise LotPackedOut(lot.code)
    lost_dg = lot.left_dg if dry_dg is None else dry_dg
    (share,) = shares(balance_of(lot), [lost_dg])
    lot_rows.insert_loss(
        room.store,
        lot_id=lot.lot_id,
        reason=reason,
        dry_dg=share.dry_dg,
        water_dg=share.water_dg,
        on_day=act.today,
        note=note,
    )
    return lost_dg


def _lost_words(lost_dg: int, reason: LossReason) -> str:
    return f"{grams(lost_dg):.1f} g {reason}"


def sealing_day(lot: Lot, sealed_on: date | None, today: date) -> date:
    """The day of sealing: today, or a day said since the lot was made. Raises BadInput."""
    day = sealed_on or today
    if not lot.made_on <= day <= today:
        raise BadInput(
            "sealing day",
            day.isoformat(),
            f"a day from {lot.made_on.isoformat()} to {today.isoformat()}",
        )
    return day


def _pack(
    room: Stockroom,
    lot: Lot,
    splits: Sequence[SplitRequest],
    closing: Closing,
) -> list[str]:
    """Seal every package of the splits; returns their codes in order."""
    refuse_odd(splits)
    containers = [find_container(room, split.container) for split in splits]
    weights = split_weights(lot.code, lot.left_dg, splits)
    dealt = iter(shares(balance_of(lot), [dg for part in weights for dg in part]))
    sealed = [
        seal(room, lot, split, container, next(dealt), closing)
        for split, container, part in zip(splits, containers, weights, strict=True)
        for _ in part
    ]
    refuse_impossible_packages(room, [package_id for package_id, _ in sealed])
    return [code for _, code in sealed]


def packages_words(codes: Sequence[str]) -> str:
    """How many packages there are now, and their codes."""
    if len(codes) == 1:
        return f"1 package, {codes[0]}"
    return f"{len(codes)} packages, {codes[0]} to {codes[-1]}"
