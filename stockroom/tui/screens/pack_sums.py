"""What a packing would make of a lot, before anything is written: for the sum under the form."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.domain.packing import (
    LotBalance,
    Share,
    SplitRequest,
    TooMuchPacked,
    servings_in,
    shares,
)
from stockroom.domain.quantities import UnitSystem, even_split, show_servings, show_weight
from stockroom.domain.water import show_water


@dataclass(frozen=True, slots=True)
class Planned:
    """The packages one line of the form would make, with what each would hold."""

    split: SplitRequest
    shares: tuple[Share, ...]

    @property
    def dry_dg(self) -> int:
        """Dry food in all of them."""
        return sum(share.dry_dg for share in self.shares)


@dataclass(frozen=True, slots=True)
class PackingSum:
    """All planned packages of a heap of dry food, and what would be left of it."""

    whole_dg: int
    """Dry food there is to pack."""
    planned: tuple[Planned, ...]

    @property
    def packed_dg(self) -> int:
        """Dry food these packages would take."""
        return sum(one.dry_dg for one in self.planned)

    @property
    def left_dg(self) -> int:
        """Dry food still to pack after them."""
        return self.whole_dg - self.packed_dg


def packing_sum(balance: LotBalance, splits: Sequence[SplitRequest]) -> PackingSum:
    """Deal what is left out as packing does. Raises TooMuchPacked, EmptyPackage."""
    left_dg = balance.left_dg
    said_dg = sum(split.count * (split.each_dg or 0) for split in splits)
    sharing = sum(split.count for split in splits if split.each_dg is None)
    if said_dg + sharing > left_dg:
        raise TooMuchPacked(balance.code, said_dg + sharing, left_dg)
    rest = iter(even_split(left_dg - said_dg, sharing) if sharing else ())
    weights = [
        [next(rest) if split.each_dg is None else split.each_dg for _ in range(split.count)]
        for split in splits
    ]
    dealt = iter(shares(balance, [weight for part in weights for weight in part]))
    return PackingSum(
        left_dg,
        tuple(
            Planned(split, tuple(next(dealt) for _ in part))
            for split, part in zip(splits, weights, strict=True)
        ),
    )


def planned_text(one: Planned, container: str, serving_dg: int, units: UnitSystem) -> str:
    """What each package of a line would hold. Packages of one line differ by 0.1 g at most."""
    share = one.shares[0]
    servings = show_servings(servings_in(share.dry_dg, share.water_dg, serving_dg))
    each = "each " if one.split.count > 1 else ""
    return (
        f"{one.split.count} × {container}: {each}{show_weight(share.dry_dg, units)} dry,"
        f" {servings} servings, water {show_water(share.water_dg)}"
    )


def left_text(sums: PackingSum, units: UnitSystem) -> str:
    """What would be packed and what would be left."""
    left = f"left {show_weight(sums.left_dg, units)}" if sums.left_dg else "nothing left"
    return f"Packed {show_weight(sums.packed_dg, units)}, {left}"
