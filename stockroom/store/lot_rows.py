"""Lots and what was lost of them."""

from __future__ import annotations

from datetime import date
from typing import Any

from stockroom.domain.records import Lot, LotLoss
from stockroom.store.connection import Store
from stockroom.store.rows import day, like_prefix, marks

_LOT = """
    SELECT lot.id, lot.code, lot.run_id, lot.food_id, food.name, food.food_class, lot.preparation,
        lot.made_on, lot.wet_dg, lot.dry_dg, lot_balance.packed_dg, lot_balance.packed_water_dg,
        lot_balance.lost_dg, lot_balance.lost_water_dg,
        (SELECT count(*) FROM package WHERE lot_id = lot.id), food.serving_dg, lot.note,
        lot.dealt_before_dg, lot.dealt_before_water_dg
    FROM lot JOIN food ON food.id = lot.food_id JOIN lot_balance ON lot_balance.lot_id = lot.id"""


def _lot(row: tuple[Any, ...]) -> Lot:
    lot_id, code, run_id, food_id, food, food_class, preparation, made_on, *rest = row
    return Lot(lot_id, code, run_id, food_id, food, food_class, preparation, day(made_on), *rest)


def lots(store: Store, *, count: int) -> list[Lot]:
    """The latest lots first."""
    rows = store.query(f"{_LOT} ORDER BY lot.made_on DESC, lot.id DESC LIMIT ?", (count,))
    return [_lot(row) for row in rows]


def lots_of_run(store: Store, run_id: int) -> list[Lot]:
    """The lots that came out of a run."""
    return [
        _lot(row) for row in store.query(f"{_LOT} WHERE lot.run_id = ? ORDER BY lot.id", (run_id,))
    ]


def latest_lot_id(store: Store) -> int:
    """The highest lot id there is, 0 without any: an upper bound for how many there are."""
    return int(store.value("SELECT ifnull(max(id), 0) FROM lot"))


def lots_to_pack(store: Store) -> list[Lot]:
    """Lots with dry food neither packed nor recorded as lost, the oldest first."""
    rows = store.query(
        f"{_LOT} WHERE lot.dry_dg > lot_balance.packed_dg + lot_balance.lost_dg"
        " ORDER BY lot.made_on, lot.id"
    )
    return [_lot(row) for row in rows]


def lot_by_id(store: Store, lot_id: int) -> Lot | None:
    """One lot, or None."""
    row = store.one(f"{_LOT} WHERE lot.id = ?", (lot_id,))
    return None if row is None else _lot(row)


def lot_by_code(store: Store, code: str) -> Lot | None:
    """The lot of this code, or None."""
    row = store.one(f"{_LOT} WHERE lot.code = ?", (code,))
    return None if row is None else _lot(row)


def lot_codes(store: Store, *, prefix: str = "") -> list[str]:
    """Lot codes that begin with `prefix`."""
    rows = store.query(
        "SELECT code FROM lot WHERE code LIKE ? ESCAPE '!' ORDER BY code", (like_prefix(prefix),)
    )
    return [str(row[0]) for row in rows]


def insert_lot(
    store: Store,
    *,
    code: str,
    run_id: int,
    food_id: int,
    made_on: date,
    preparation: str,
    wet_dg: int,
    dry_dg: int,
) -> int:
    """Add a lot; returns its id."""
    return store.run(
        "INSERT INTO lot (code, run_id, food_id, made_on, preparation, wet_dg, dry_dg)"
        f" VALUES ({marks(7)})",
        (code, run_id, food_id, made_on.isoformat(), preparation, wet_dg, dry_dg),
    )


def set_dried_again(store: Store, lot_id: int, dry_dg: int) -> None:
    """Correct a lot's dry weight after what was left of it was dried again.

    What is accounted for so far keeps its water; the rest is dealt out from there on.
    """
    store.run(
        "UPDATE lot SET dry_dg = ?, (dealt_before_dg, dealt_before_water_dg) ="
        " (SELECT packed_dg + lost_dg, packed_water_dg + lost_water_dg FROM lot_balance"
        " WHERE lot_id = lot.id) WHERE id = ?",
        (dry_dg, lot_id),
    )


def losses_of_lot(store: Store, lot_id: int) -> list[LotLoss]:
    """What of a lot went into no package, in order."""
    rows = store.query(
        "SELECT id, reason, dry_dg, water_dg, on_day, note FROM lot_loss WHERE lot_id = ?"
        " ORDER BY id",
        (lot_id,),
    )
    return [LotLoss(row[0], row[1], row[2], row[3], day(row[4]), row[5]) for row in rows]


def insert_loss(
    store: Store,
    *,
    lot_id: int,
    reason: str,
    dry_dg: int,
    water_dg: int,
    on_day: date,
    note: str,
) -> int:
    """Record dry food of a lot that went into no package; returns the row's id."""
    return store.run(
        "INSERT INTO lot_loss (lot_id, reason, dry_dg, water_dg, on_day, note)"
        f" VALUES ({marks(6)})",
        (lot_id, reason, dry_dg, water_dg, on_day.isoformat(), note),
    )
