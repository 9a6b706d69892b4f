"""How a residual moisture and a verdict on constant weight are reached, step by step."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.dryness import (
    COVERAGE,
    GUARDED_ACCEPTANCE,
    LIMIT,
    NO_PROOF,
    PROPAGATION,
    SCALE_DG,
    SCALE_DIGIT,
    TABLE_WATER,
    U_WATER_FROM_TABLE,
    ResidualMoisture,
    dry_weight_for,
    residual_moisture,
)
from stockroom.domain.keeping.sources import MOISTURE_CEILING
from stockroom.domain.plateau import NOT_ENOUGH, PLATEAU_RULE, Hours, plateau
from stockroom.domain.quantities import grams
from stockroom.domain.water_working import MASS_BALANCE
from stockroom.domain.working import Given, Source, Standing, Trace, Working


def residual_working(
    wet_dg: int,
    dry_dg: int,
    water_fraction: float,
    *,
    u_water: float = U_WATER_FROM_TABLE,
    resolution_dg: int = SCALE_DG,
    water_source: Source | None = None,
    trays: int = 1,
) -> Working:
    """The derivation of a residual moisture; `water_source` is where its water figure is from.

    Both weights are sums over `trays`. Refuses what `residual_moisture` refuses.
    """
    found = residual_moisture(
        wet_dg, dry_dg, water_fraction, u_water=u_water, resolution_dg=resolution_dg, trays=trays
    )
    trace = Trace("Residual moisture")
    residual = trace.step(
        "residual moisture, wet basis",
        "1 - {wet} x (1 - {water}) / {dry}",
        f"{found.residual:.4f}",
        sources=(MASS_BALANCE,),
        wet=Given("food as loaded", f"{grams(wet_dg):.1f} g"),
        water=Given("its water fraction", f"{water_fraction:g}", water_source),
        dry=Given("food dry", f"{grams(dry_dg):.1f} g"),
    )
    digit = f"good to {grams(resolution_dg):g} g" + (f" on each of {trays} trays" * (trays > 1))
    expanded = _uncertainty(trace, found, u_water, digit)
    trace.note(
        "verdict",
        f"{found.verdict.value}: {found.sentence}",
        residual,
        expanded,
        Given("limit", f"{LIMIT:.2f}", MOISTURE_CEILING),
        source=GUARDED_ACCEPTANCE,
    )
    trace.note("what would change it", _changes(wet_dg, dry_dg, water_fraction), residual)
    trace.conclude(
        f"{100 * found.residual:.1f} %, between {100 * found.low:.1f} and {100 * found.high:.1f} %:"
        f" {found.verdict.value} ({NO_PROOF[:1].lower()}{NO_PROOF[1:].rstrip('.')})"
    )
    trace.caution(NO_PROOF)
    trace.caution("10 % is the ceiling for a low-oxygen pack, not the target: 1 to 4 % is.")
    trace.caution("Follow local codes and licensed guidance.")
    return trace.finish()


def _changes(wet_dg: int, dry_dg: int, water_fraction: float) -> str:
    """What would move the estimate: its inputs one at a time, and the weight at the limit."""
    wet_g, dry_g = grams(wet_dg), grams(dry_dg)
    solids = 1 - water_fraction
    at_limit = dry_weight_for(wet_dg, water_fraction, LIMIT)
    beside = "less" if at_limit < dry_g else "more"
    return (
        f"the water fraction 0.01 higher: {wet_g / dry_g:+.1f} percentage points;"
        f" 1 g more dry: {100 * wet_g * solids / dry_g**2:+.2f};"
        f" 1 g more as loaded: {-100 * solids / dry_g:+.2f};"
        f" at {at_limit:.1f} g dry, {abs(at_limit - dry_g):.1f} g {beside}, it would be"
        f" {100 * LIMIT:.0f} %"
    )


def _uncertainty(trace: Trace, found: ResidualMoisture, u_water: float, digit: str) -> Given:
    """The components of the uncertainty and their sum."""
    parts = found.components
    combined = trace.step(
        "standard uncertainty",
        "({water}^2 + {dry}^2 + {wet}^2)^(1/2)",
        f"{parts.combined:.6f}",
        sources=(PROPAGATION,),
        water=Given(
            f"from the water fraction, good to {u_water:g}",
            f"{parts.water_fraction:.6f}",
            TABLE_WATER,
            Standing.COMPUTED,
        ),
        dry=_weighed("dry", parts.dry, digit),
        wet=_weighed("loaded", parts.wet, digit),
    )
    trace.note(
        "what the uncertainty is made of",
        f"{100 * parts.water_share:.1f} % of its square is the water figure's",
        combined,
    )
    return trace.step(
        "uncertainty, expanded",
        "{factor} x {combined}",
        f"{found.expanded:.4f}",
        factor=Given("coverage", f"{COVERAGE}", PROPAGATION),
        combined=combined,
    )


def _weighed(which: str, component: float, digit: str) -> Given:
    """The part of one weight; `digit` says how good it is."""
    return Given(
        f"from the {which} weight, {digit}",
        f"{component:.6f}",
        SCALE_DIGIT,
        Standing.COMPUTED,
    )


def plateau_working(
    weights_dg: Sequence[int], *, hours: Hours | None = None, resolution_dg: int = SCALE_DG
) -> Working:
    """The derivation of a verdict on constant weight; refuses what `plateau` refuses."""
    found = plateau(weights_dg, hours=hours, resolution_dg=resolution_dg)
    trace = Trace("Constant weight")
    trace.note(
        "losses between readings, and in percent of the last weight",
        ", ".join(
            f"{loss:.1f} g ({percent:.3f} %)"
            for loss, percent in zip(found.losses_g, found.losses_percent, strict=True)
        ),
        *(
            Given(f"reading {position}", f"{grams(weight):.1f} g")
            for position, weight in enumerate(weights_dg, start=1)
        ),
    )
    trace.note(
        "constant weight",
        f"{'yes' if found.reached else 'no'}: {found.reason}",
        Given("one digit of the scale", f"{grams(resolution_dg):g} g"),
        source=PLATEAU_RULE,
    )
    trace.caution(NOT_ENOUGH)
    return trace.finish()
