"""How the water of a lot is reached: what its trays lost, and where that water belongs now."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.drying import LotTotals, TrayWeights, refuse_impossible
from stockroom.domain.packing import LotBalance
from stockroom.domain.quantities import grams
from stockroom.domain.water import show_water
from stockroom.domain.water_doubt import WaterPart, add_water_doubt
from stockroom.domain.water_working import (
    DEALT_OUT,
    MASS_BALANCE,
    UPPER_BOUND_CAUTION,
    add_volumes,
)
from stockroom.domain.working import Given, Trace, Working


def lot_water_working(
    balance: LotBalance, packed_water_dg: int, lost_water_dg: int, trays: Sequence[TrayWeights]
) -> Working:
    """The derivation of a lot's water: removed, per gram dry, and the share of what is left.

    `packed_water_dg` and `lost_water_dg` are what was dealt out so far; `trays` are the lot's,
    or none where they are not on record. Refuses impossible weights.
    """
    refuse_impossible(f"Lot {balance.code}", balance.wet_dg, balance.dry_dg)
    totals = LotTotals(balance.wet_dg, balance.dry_dg)
    trace = Trace("Water of the lot")
    wet = _sum(
        trace, "lot as loaded", balance.wet_dg, [(one.position, one.wet_dg) for one in trays]
    )
    dry = _sum(trace, "lot dry", balance.dry_dg, [(one.position, one.dry_dg) for one in trays])
    removed = trace.step(
        "water removed", "{wet} - {dry}", _grams(totals.water_removed_dg),
        sources=(MASS_BALANCE,), wet=wet, dry=dry,
    )  # fmt: skip
    trace.step(
        "in percent of the loaded weight", "100 x {removed} / {wet}",
        f"{totals.removed_percent:.1f} %", removed=removed, wet=wet,
    )  # fmt: skip
    per_dry = trace.step(
        "water per gram dry", "{removed} / {dry}", f"{float(totals.water_per_dry):.4f} g/g",
        removed=removed, dry=dry,
    )  # fmt: skip
    add_volumes(trace, removed, totals.water_removed_dg)
    _left(trace, balance, removed, packed_water_dg, lost_water_dg, per_dry)
    part = WaterPart("the lot", balance.wet_dg, balance.dry_dg, balance.dry_dg, max(1, len(trays)))
    add_water_doubt(trace, removed, [part])
    trace.caution(DEALT_OUT)
    trace.caution(UPPER_BOUND_CAUTION)
    trace.conclude(f"{_grams(totals.water_removed_dg)} removed; {_left_words(balance)}")
    return trace.finish()


def _sum(trace: Trace, what: str, total_dg: int, weights: Sequence[tuple[int, int]]) -> Given:
    """A weight of the lot: that of its one tray, or the sum over several, which is written."""
    if len(weights) < 2:
        return Given(what, _grams(total_dg))
    parts = [Given(f"tray {position}", _grams(weight_dg)) for position, weight_dg in weights]
    return trace.total(f"{what}, all trays", parts, _grams(total_dg))


def _left(
    trace: Trace,
    balance: LotBalance,
    removed: Given,
    packed_water_dg: int,
    lost_water_dg: int,
    per_dry: Given,
) -> None:
    """Write what of the water belongs to packages, to losses and to what is left."""
    if packed_water_dg + lost_water_dg == 0:
        return
    packed = trace.note(
        "water of the packages",
        _grams(packed_water_dg),
        Given("dry in packages", _grams(balance.packed_dg)),
        per_dry,
    )
    lost = trace.note(
        "water of the losses",
        _grams(lost_water_dg),
        Given("dry lost", _grams(balance.lost_dg)),
        per_dry,
    )
    trace.step(
        "water for what is left to pack", "{removed} - {packed} - {lost}",
        _grams(balance.left_water_dg), removed=removed, packed=packed, lost=lost,
    )  # fmt: skip


def _left_words(balance: LotBalance) -> str:
    """The water of what is left, in words."""
    if not balance.left_dg:
        return "nothing left to pack"
    return f"for what is left to pack {show_water(balance.left_water_dg)}"


def _grams(weight_dg: int) -> str:
    return f"{grams(weight_dg):.1f} g"
