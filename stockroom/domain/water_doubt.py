"""How sure a water to add is, what makes it unsure and what would change it.

Water for a part of a lot is W = take x (wet - dry) / dry. Each weight is taken as good to one
digit of the scale (rectangular, standard uncertainty digit / square root of 3), and the parts are
put together to first order, JCGM 100:2008, 5.1.2 (published). All weights are tenths of a gram.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt

from stockroom.domain.dryness import COVERAGE, PROPAGATION, SCALE_DG, SCALE_DIGIT
from stockroom.domain.quantities import grams
from stockroom.domain.working import Given, Standing, Trace


@dataclass(frozen=True, slots=True)
class WaterPart:
    """Dry food of one lot whose water is counted: the lot's two weights, and what is taken."""

    lot: str
    """What the lot is called: "the lot", or "lot 26329A" where there are several."""
    lot_wet_dg: int
    lot_dry_dg: int
    take_dg: int
    trays: int = 1
    """How many trays were weighed for each of the lot's weights."""


@dataclass(frozen=True, slots=True)
class WaterDoubt:
    """What one weighing does to a water: grams for each gram it is off, and its uncertainty."""

    what: str
    grams_per_gram: float
    """Water gained (lost, below zero) when the weight is one gram higher."""
    uncertainty_g: float
    """Standard uncertainty of the water from this weighing alone."""


def water_doubts(
    parts: Sequence[WaterPart], resolution_dg: int = SCALE_DG
) -> tuple[WaterDoubt, ...]:
    """What each weighing adds to the uncertainty of the water of `parts`, lot by lot."""
    lots = {part.lot: part for part in parts}
    return tuple(
        doubt
        for part in lots.values()
        for doubt in _of_lot(part, [one.take_dg for one in parts if one.lot == part.lot],
                             grams(resolution_dg) / sqrt(3))
    )  # fmt: skip


def combined_g(doubts: Sequence[WaterDoubt]) -> float:
    """The standard uncertainty of the water, grams: the root of the sum of squares."""
    return sqrt(sum(doubt.uncertainty_g**2 for doubt in doubts))


def _of_lot(part: WaterPart, takes_dg: Sequence[int], u_reading_g: float) -> Iterator[WaterDoubt]:
    """The weighings of one lot: loaded, dry, and what was taken of it."""
    taken = sum(takes_dg) / part.lot_dry_dg
    per_dry = part.lot_wet_dg / part.lot_dry_dg
    u_lot_g = u_reading_g * sqrt(part.trays)
    yield WaterDoubt(f"{part.lot} as loaded", taken, taken * u_lot_g)
    if sum(takes_dg) == part.lot_dry_dg and len(takes_dg) == 1:
        # All of it: what is taken is the dry weight itself, and W = wet - dry.
        yield WaterDoubt(f"{part.lot} dry", -1.0, u_lot_g)
        return
    yield WaterDoubt(f"{part.lot} dry", -taken * per_dry, taken * per_dry * u_lot_g)
    slope = per_dry - 1
    yield WaterDoubt(
        f"what is taken of {part.lot}",
        slope,
        slope * u_reading_g * sqrt(len(takes_dg)),
    )


def add_water_doubt(
    trace: Trace, water: Given, parts: Sequence[WaterPart], resolution_dg: int = SCALE_DG
) -> None:
    """Write the uncertainty of `water`, each weighing's share of it, and what would change it."""
    doubts = water_doubts(parts, resolution_dg)
    total = combined_g(doubts)
    if total <= 0:
        return
    combined = trace.step(
        f"standard uncertainty of the water, each weight good to {grams(resolution_dg):g} g",
        f"({' + '.join(f'{{part_{at}}}^2' for at in range(len(doubts)))})^(1/2)",
        _amount(total),
        sources=(PROPAGATION,),
        **{f"part_{at}": _given(doubt) for at, doubt in enumerate(doubts)},
    )
    trace.note(
        "what the uncertainty is made of",
        "; ".join(
            f"{doubt.what} {100 * doubt.uncertainty_g**2 / total**2:.0f} %" for doubt in doubts
        ),
        combined,
    )
    trace.step(
        "so the water is good to",
        "{factor} x {combined}",
        _amount(COVERAGE * total),
        factor=Given("coverage", f"{COVERAGE}", PROPAGATION),
        combined=combined,
    )
    trace.note(
        "what would change it",
        "; ".join(f"{doubt.what} 1 g heavier: {_change(doubt)}" for doubt in doubts),
        water,
    )


def _given(doubt: WaterDoubt) -> Given:
    """One weighing's part as an input."""
    return Given(f"from {doubt.what}", _amount(doubt.uncertainty_g), SCALE_DIGIT, Standing.COMPUTED)


def _change(doubt: WaterDoubt) -> str:
    """What one gram more on the scale does to the water."""
    word = "more" if doubt.grams_per_gram > 0 else "less"
    return f"{_amount(abs(doubt.grams_per_gram))} {word}"


def _amount(value_g: float) -> str:
    """Grams with three figures."""
    return f"{value_g:.3g} g" if value_g < 100 else f"{value_g:.0f} g"
