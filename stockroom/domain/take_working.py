"""How the water for a part taken out of a package is reached."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.domain.packing import TooMuchTaken
from stockroom.domain.quantities import grams
from stockroom.domain.water import show_water
from stockroom.domain.water_doubt import WaterPart, add_water_doubt
from stockroom.domain.water_working import (
    DEALT_OUT,
    UPPER_BOUND_CAUTION,
    add_lot_water,
    add_volumes,
)
from stockroom.domain.working import Given, Trace, Working


@dataclass(frozen=True, slots=True)
class Origin:
    """A package with the lot it came out of: whole weights, tenths of a gram."""

    code: str
    lot: str
    lot_wet_dg: int
    lot_dry_dg: int
    dry_dg: int
    water_dg: int
    trays: int = 1
    """How many trays were weighed for the lot."""

    def part(self, take_dg: int) -> WaterPart:
        """So much of it, for the uncertainty of its water."""
        return WaterPart(f"lot {self.lot}", self.lot_wet_dg, self.lot_dry_dg, take_dg, self.trays)


@dataclass(frozen=True, slots=True)
class Taking:
    """So much dry food out of a package, and its water; `left_dg` was in it before."""

    take_dg: int
    water_dg: int
    left_dg: int
    left_water_dg: int


def take_working(origin: Origin, taking: Taking) -> Working:
    """The derivation of the water for one part. Raises TooMuchTaken for more than is left."""
    if taking.take_dg > taking.left_dg:
        raise TooMuchTaken(taking.take_dg, taking.left_dg)
    trace = Trace("Water for what is taken")
    water = add_takings(trace, ((origin, taking),))[0]
    add_volumes(trace, water, taking.water_dg)
    add_water_doubt(trace, water, [origin.part(taking.take_dg)])
    trace.caution(DEALT_OUT)
    trace.caution(UPPER_BOUND_CAUTION)
    trace.conclude(show_water(taking.water_dg))
    return trace.finish()


def add_takings(
    trace: Trace, takings: Sequence[tuple[Origin, Taking]], taken: Sequence[Given] = ()
) -> list[Given]:
    """Write the water of each part, the ratio of each lot once; returns the waters in order.

    `taken` are the dry weights in the same order, where earlier steps gave them.
    """
    per_dry: dict[str, Given] = {}
    waters: list[Given] = []
    for at, (origin, taking) in enumerate(takings):
        if origin.lot not in per_dry:
            per_dry[origin.lot] = add_lot_water(
                trace, origin.lot_wet_dg, origin.lot_dry_dg, origin.lot
            )
        take = Given(f"dry out of {origin.code}", _grams(taking.take_dg))
        take = taken[at] if taken else take
        waters.append(_water(trace, origin, taking, per_dry[origin.lot], take))
    return waters


def _water(trace: Trace, origin: Origin, taking: Taking, per_dry: Given, take: Given) -> Given:
    """The water of one part: the package's share of the lot, then the part's share of it."""
    whole = trace.step(
        f"water of package {origin.code}", "{package} x {per_dry}", _grams(origin.water_dg),
        package=Given("dry packed in it", _grams(origin.dry_dg)), per_dry=per_dry,
    )  # fmt: skip
    if taking.take_dg == origin.dry_dg:
        return whole
    left, water = Given("dry packed in it", _grams(origin.dry_dg)), whole
    before_dg = origin.dry_dg - taking.left_dg
    if before_dg:
        left = Given("dry left in it", _grams(taking.left_dg))
        water = trace.step(
            f"water left with {origin.code}", "{water} - {before}", _grams(taking.left_water_dg),
            water=whole,
            before=Given(
                f"water of the {_grams(before_dg)} taken before",
                _grams(origin.water_dg - taking.left_water_dg),
            ),
        )  # fmt: skip
        if taking.take_dg == taking.left_dg:
            return water
    return trace.step(
        f"water for {take.value_text} of {origin.code}", "{water} x {take} / {left}",
        _grams(taking.water_dg), water=water, take=take, left=left,
    )  # fmt: skip


def _grams(weight_dg: int) -> str:
    return f"{grams(weight_dg):.1f} g"
