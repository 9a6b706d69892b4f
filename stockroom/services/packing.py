"""From a lot to its packages: every tenth of a gram and of water is accounted for."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from enum import StrEnum

from stockroom.domain.cautions import Caution, cautions_for_lot, cautions_for_packing
from stockroom.domain.codes import package_code
from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.packing import (
    LARGEST_ABSORBER_CC,
    MOST_PACKAGES_AT_ONCE,
    LotBalance,
    Share,
    SplitRequest,
    TooMuchPacked,
    shares,
)
from stockroom.domain.quantities import even_split, grams
from stockroom.domain.records import Container, Lot
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import Act, acting
from stockroom.services.finding import find_container, find_lot, find_place
from stockroom.services.foods import facts_of
from stockroom.services.keeping import refuse_impossible_packages
from stockroom.services.names import clean_note
from stockroom.services.results import Done, LotDetail
from stockroom.services.session import Stockroom
from stockroom.store import food_rows, lot_rows, package_rows, run_rows


class LossReason(StrEnum):
    """Why dry food of a lot went into no package."""

    TASTED = "tasted"
    SPILT = "spilt"
    DISCARDED = "discarded"
    UNACCOUNTED = "unaccounted"


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
    )


def packing_cautions(
    room: Stockroom, lot_code: str, splits: Sequence[SplitRequest]
) -> tuple[Caution, ...]:
    """What to bear in mind before packing a lot so; each caution once."""
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
) -> Done:
    """Split a lot, or a part of it, into packages; they begin settling.

    A split without grams shares what the others and the losses leave evenly; a loss without
    grams is all that the packages leave. Grams and water of all packages and losses of a lot add
    up to the lot. Raises TooMuchPacked, LotPackedOut, NotFound, BadInput, and CannotProject for
    a package that cannot be, such as more food than its container holds.
    """
    if not splits:
        raise BadInput("packages", "", "how many of which container, such as 6xpouch-1500-foil:62")
    with acting(room, "pack") as act:
        lot = find_lot(room, lot_code)
        if lot.left_dg == 0:
            raise LotPackedOut(lot.code)
        day = _sealing_day(lot, sealed_on, room.today)
        where = None if place is None else find_place(room, place).place_id
        said: list[str] = []
        for lost_dg, reason in losses:
            if lost_dg is not None:
                said.append(_lost_words(_lose(room, act, lot, lost_dg, reason, ""), reason))
                lot = find_lot(room, lot.code)
        codes = _pack(room, lot, splits, day, where, clean_note(note))
        for lost_dg, reason in losses:
            if lost_dg is None:
                rest_dg = _lose(room, act, find_lot(room, lot.code), None, reason, "")
                said.append(_lost_words(rest_dg, reason))
        left_dg = find_lot(room, lot.code).left_dg
        if left_dg:
            said.append(f"{grams(left_dg):.1f} g left to pack")
        act.words = "; ".join(
            [f"packed lot {lot.code} ({lot.food}) into {_packages_words(codes)}", *said]
        )
        cautions = packing_cautions(room, lot.code, splits)
    return Done(act.words, cautions, tuple(codes))


def record_loss(
    room: Stockroom, lot_code: str, dry_dg: int | None, reason: LossReason, *, note: str = ""
) -> Done:
    """Record dry food of a lot that goes into no package; None means all that is left.

    Raises TooMuchPacked, LotPackedOut, EmptyPackage.
    """
    with acting(room, "loss") as act:
        lot = find_lot(room, lot_code)
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
    (share,) = shares(_balance(lot), [lost_dg])
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


def _sealing_day(lot: Lot, sealed_on: date | None, today: date) -> date:
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
    day: date,
    place_id: int | None,
    note: str,
) -> list[str]:
    """Seal every package of the splits; returns their codes in order."""
    for split in splits:
        _refuse_odd(split)
    containers = [find_container(room, split.container) for split in splits]
    weights = _weights(lot, splits)
    dealt = iter(shares(_balance(lot), [dg for part in weights for dg in part]))
    sealed = [
        _seal(room, lot, split, container, next(dealt), day, place_id, note)
        for split, container, part in zip(splits, containers, weights, strict=True)
        for _ in part
    ]
    refuse_impossible_packages(room, [package_id for package_id, _ in sealed])
    return [code for _, code in sealed]


def _refuse_odd(split: SplitRequest) -> None:
    for what, value, low, high in (
        ("number of packages", split.count, 1, MOST_PACKAGES_AT_ONCE),
        ("absorber", split.absorber_cc or 0, 0, LARGEST_ABSORBER_CC),
    ):
        if not low <= value <= high:
            raise BadInput(what, str(value), f"a whole number from {low} to {high}")


def _balance(lot: Lot) -> LotBalance:
    return LotBalance(lot.code, lot.wet_dg, lot.dry_dg, lot.packed_dg, lot.lost_dg)


def _weights(lot: Lot, splits: Sequence[SplitRequest]) -> list[tuple[int, ...]]:
    """Dry weight of each package of each split, in order."""
    said_dg = sum(split.count * split.each_dg for split in splits if split.each_dg is not None)
    sharing = sum(split.count for split in splits if split.each_dg is None)
    rest_dg = lot.left_dg - said_dg
    if rest_dg < sharing or (rest_dg < 0):
        raise TooMuchPacked(lot.code, said_dg + sharing, lot.left_dg)
    rest = iter(even_split(rest_dg, sharing)) if sharing else iter(())
    return [
        (split.each_dg,) * split.count
        if split.each_dg is not None
        else tuple(next(rest) for _ in range(split.count))
        for split in splits
    ]


def _seal(
    room: Stockroom,
    lot: Lot,
    split: SplitRequest,
    container: Container,
    share: Share,
    day: date,
    place_id: int | None,
    note: str,
) -> tuple[int, str]:
    """Record one package; returns its id and code."""
    number = package_rows.next_number(room.store, lot.lot_id)
    code = package_code(lot.code, number)
    package_id = package_rows.insert_package(
        room.store,
        code=code,
        lot_id=lot.lot_id,
        food_id=lot.food_id,
        number=number,
        container_id=container.container_id,
        absorber_cc=split.absorber_cc or 0,
        vacuum=split.vacuum,
        vacuum_tenth_inhg=split.vacuum_tenth_inhg if split.vacuum else None,
        dry_dg=share.dry_dg,
        water_dg=share.water_dg,
        sealed_on=day,
        place_id=place_id,
        note=note,
    )
    package_rows.insert_event(
        room.store,
        package_id=package_id,
        on_day=day,
        event="sealed",
        from_condition=None,
        to_condition="settling",
        to_place_id=place_id,
    )
    return package_id, code


def _packages_words(codes: Sequence[str]) -> str:
    if len(codes) == 1:
        return f"1 package, {codes[0]}"
    return f"{len(codes)} packages, {codes[0]} to {codes[-1]}"
