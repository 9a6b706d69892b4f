"""Closing packages: the part that packing a lot and packing food anew have in common."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from stockroom.domain.codes import package_code
from stockroom.domain.packing import (
    LARGEST_ABSORBER_CC,
    MOST_PACKAGES_AT_ONCE,
    MOST_TRAYS,
    Share,
    SplitRequest,
    TooMuchPacked,
)
from stockroom.domain.quantities import even_split
from stockroom.domain.records import Container, Lot
from stockroom.errors import BadInput
from stockroom.services.session import Stockroom
from stockroom.store import package_rows
from stockroom.store.package_rows import NewPackage


def refuse_odd(splits: Sequence[SplitRequest]) -> None:
    """Refuse a number of packages, an absorber or a tray there cannot be. Raises BadInput."""
    for split in splits:
        for what, value, low, high in (
            ("number of packages", split.count, 1, MOST_PACKAGES_AT_ONCE),
            ("absorber", split.absorber_cc or 0, 0, LARGEST_ABSORBER_CC),
            ("tray", 1 if split.tray_position is None else split.tray_position, 1, MOST_TRAYS),
        ):
            if not low <= value <= high:
                raise BadInput(what, str(value), f"a whole number from {low} to {high}")


def split_weights(code: str, left_dg: int, splits: Sequence[SplitRequest]) -> list[tuple[int, ...]]:
    """Dry weight of each package of each split, in order, out of so much. Or TooMuchPacked."""
    said_dg = sum(split.count * split.each_dg for split in splits if split.each_dg is not None)
    sharing = sum(split.count for split in splits if split.each_dg is None)
    rest_dg = left_dg - said_dg
    if rest_dg < sharing or (rest_dg < 0):
        raise TooMuchPacked(code, said_dg + sharing, left_dg)
    rest = iter(even_split(rest_dg, sharing)) if sharing else iter(())
    return [
        (split.each_dg,) * split.count
        if split.each_dg is not None
        else tuple(next(rest) for _ in range(split.count))
        for split in splits
    ]


@dataclass(frozen=True, slots=True)
class Closing:
    """What all packages of one packing share: the day, the place and what goes on the record."""

    day: date
    place_id: int | None
    note: str = ""
    gate_reason: str = ""
    origin: str = "packed"
    first_sealed_on: date | None = None
    exposed_on: date | None = None
    life_before_millionths: int | None = None


def seal(
    room: Stockroom,
    lot: Lot,
    split: SplitRequest,
    container: Container,
    share: Share,
    closing: Closing,
) -> tuple[int, str]:
    """Record one package inside an action; returns its id and code."""
    number = package_rows.next_number(room.store, lot.lot_id)
    code = package_code(lot.code, number)
    package_id = package_rows.insert_package(
        room.store,
        NewPackage(
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
            sealed_on=closing.day,
            place_id=closing.place_id,
            note=closing.note,
            absorber_packet=split.absorber_packet if split.absorber_cc else "",
            container_box=split.container_box,
            tray_position=split.tray_position,
            gate_reason=closing.gate_reason if split.low_oxygen else "",
            origin=closing.origin,
            first_sealed_on=closing.first_sealed_on,
            exposed_on=closing.exposed_on,
            life_before_millionths=closing.life_before_millionths,
        ),
    )
    package_rows.insert_event(
        room.store,
        package_id=package_id,
        on_day=closing.day,
        event="sealed",
        from_condition=None,
        to_condition="settling",
        to_place_id=closing.place_id,
    )
    return package_id, code
