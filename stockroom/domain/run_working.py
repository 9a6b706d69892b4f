"""How the water of a run is reached: what its load should hold, and what each food lost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from stockroom.domain.drying import LotTotals
from stockroom.domain.dryness import PROPAGATION, TABLE_WATER, U_WATER_FROM_TABLE
from stockroom.domain.quantities import grams
from stockroom.domain.water_doubt import WaterPart, add_water_doubt
from stockroom.domain.water_working import MASS_BALANCE
from stockroom.domain.working import Given, Source, Standing, Trace, Working

PRIOR_NOT_PROOF = "Composition is a prior, never proof of dryness."


@dataclass(frozen=True, slots=True)
class LoadedTray:
    """One tray of a run as far as it is weighed, net, with its food's share of water."""

    position: int
    food: str
    wet_dg: int | None
    dry_dg: int | None
    water_cg: int | None
    """Hundredths of a gram of water in 100 g of the food as loaded; None when not known."""
    water_source: Source | None
    """Where that share is from; None for the household's own figure."""


def expected_water_working(trays: Sequence[LoadedTray], expected_dg: int | None) -> Working:
    """The derivation of the water a load should hold, `expected_dg`, from its composition."""
    trace = Trace("Water to expect")
    lacking = [one for one in trays if one.wet_dg is None or one.water_cg is None]
    if expected_dg is None or lacking or not trays:
        what = ", ".join(f"tray {one.position}, {one.food}" for one in lacking) or "a tray"
        trace.note("water to expect", f"not known until weight and food of {what} are")
        trace.conclude("not known yet")
        return trace.finish()
    template: list[str] = []
    inputs: dict[str, Given] = {}
    for one in trays:
        template.append(f"{{wet_{one.position}}} x {{share_{one.position}}}")
        inputs[f"wet_{one.position}"] = Given(f"tray {one.position}", _grams(one.wet_dg or 0))
        inputs[f"share_{one.position}"] = Given(
            f"water fraction of {one.food}", f"{(one.water_cg or 0) / 10_000:g}", one.water_source
        )
    trace.step("water to expect", " + ".join(template), _grams(expected_dg), sources=(), **inputs)
    _expected_doubt(trace, trays)
    trace.caution(PRIOR_NOT_PROOF)
    trace.conclude(_grams(expected_dg))
    return trace.finish()


def _expected_doubt(trace: Trace, trays: Sequence[LoadedTray]) -> None:
    """Write how sure the expected water is: each food's share of water is good to so much."""
    loaded_dg: dict[str, int] = {}
    for one in trays:
        loaded_dg[one.food] = loaded_dg.get(one.food, 0) + (one.wet_dg or 0)
    parts_g = {food: grams(weight) * U_WATER_FROM_TABLE for food, weight in loaded_dg.items()}
    total_g = sqrt(sum(part**2 for part in parts_g.values()))
    combined = trace.step(
        f"standard uncertainty, each water fraction good to {U_WATER_FROM_TABLE:g}",
        f"({' + '.join(f'{{part_{at}}}^2' for at in range(len(parts_g)))})^(1/2)",
        f"{total_g:.1f} g",
        sources=(PROPAGATION,),
        **{
            f"part_{at}": Given(f"from {food}", f"{part:.1f} g", TABLE_WATER, Standing.COMPUTED)
            for at, (food, part) in enumerate(parts_g.items())
        },
    )
    trace.note(
        "what would change it",
        "; ".join(
            f"the water fraction of {food} 0.01 higher: {grams(weight) / 100:.1f} g more"
            for food, weight in loaded_dg.items()
        ),
        combined,
    )


def food_water_working(food: str, trays: Sequence[LoadedTray]) -> Working | None:
    """The derivation of the water one food lost; None until all its trays are weighed twice."""
    wet = [one.wet_dg for one in trays if one.wet_dg is not None]
    dry = [one.dry_dg for one in trays if one.dry_dg is not None]
    if len(wet) != len(trays) or len(dry) != len(trays) or not trays or not sum(dry):
        return None
    totals = LotTotals(sum(wet), sum(dry))
    trace = Trace(f"Water out of {food}")
    loaded = _sum(trace, "loaded", trays, wet)
    dried = _sum(trace, "dry", trays, dry)
    removed = trace.step(
        "water removed", "{loaded} - {dried}", _grams(totals.water_removed_dg),
        sources=(MASS_BALANCE,), loaded=loaded, dried=dried,
    )  # fmt: skip
    trace.step(
        "in percent of the loaded weight", "100 x {removed} / {loaded}",
        f"{totals.removed_percent:.1f} %", removed=removed, loaded=loaded,
    )  # fmt: skip
    trace.step(
        "water per gram dry", "{removed} / {dried}", f"{float(totals.water_per_dry):.4f} g/g",
        removed=removed, dried=dried,
    )  # fmt: skip
    part = WaterPart("the food", totals.wet_dg, totals.dry_dg, totals.dry_dg, len(trays))
    add_water_doubt(trace, removed, [part])
    trace.conclude(f"{_grams(totals.water_removed_dg)} removed")
    return trace.finish()


def _sum(trace: Trace, what: str, trays: Sequence[LoadedTray], weights_dg: Sequence[int]) -> Given:
    """The weight of several trays, or of the one."""
    if len(trays) == 1:
        return Given(f"tray {trays[0].position}, {what}", _grams(weights_dg[0]))
    parts = [
        Given(f"tray {one.position}", _grams(weight))
        for one, weight in zip(trays, weights_dg, strict=True)
    ]
    return trace.total(f"{what}, all trays of it", parts, _grams(sum(weights_dg)))


def _grams(weight_dg: int) -> str:
    return f"{grams(weight_dg):.1f} g"
