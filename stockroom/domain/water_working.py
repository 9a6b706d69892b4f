"""How the water to add to a package is reached: the mass balance of its lot, step by step."""

from __future__ import annotations

from stockroom.domain.drying import refuse_impossible
from stockroom.domain.quantities import grams
from stockroom.domain.units import Cup
from stockroom.domain.water import cups, millilitres, show_water, water_density
from stockroom.domain.water_doubt import WaterPart, add_water_doubt
from stockroom.domain.working import Given, Source, Standing, Trace, Working

MASS_BALANCE = Source(
    "mass_balance",
    "Conservation of mass: what the food lost in drying is the water it can take up again",
    Standing.COMPUTED,
)
UPPER_BOUND = Source(
    "rehydration_bound",
    "Journal of Food Engineering 72(1):16-23, 2006: freeze-dried fruit took back up to about 90 %"
    " of its water",
    Standing.PUBLISHED,
)
DENSITY_TABLE = Source(
    "water_density", "Density of water at normal pressure, table values", Standing.PUBLISHED
)
EXACT_CUP = Source(
    "us_cup", "US cup = 231 in³/16 with 1 in = 2.54 cm: 236.5882365 mL, exact", Standing.COMPUTED
)
LABEL_CUP = Source(
    "label_cup",
    "Label cup 240 mL: 21 CFR 101.9(b)(5)(viii), secondary copy",
    Standing.PUBLISHED,
)
DEALT_OUT = (
    "Dealt out so that all packages and losses of the lot add up to its water exactly, to the"
    " tenth of a gram."
)
UPPER_BOUND_CAUTION = (
    "Full restoration is an upper bound: start with two thirds to three quarters and add to"
    f" taste (engineering judgement; {UPPER_BOUND.words})."
)
_TABLE_C = 20.0


def water_working(
    lot_wet_dg: int,
    lot_dry_dg: int,
    package_dry_dg: int,
    package_water_dg: int,
    *,
    trays: int = 1,
) -> Working:
    """The derivation of a package's water from its lot's two weights.

    All weights are tenths of a gram. `package_water_dg` is the package's share as dealt out at
    packing, at most a tenth of a gram or so from the plain product; `trays` were weighed for the
    lot. Refuses impossible weights.
    """
    refuse_impossible("The lot", lot_wet_dg, lot_dry_dg)
    trace = Trace("Water to add")
    per_dry = add_lot_water(trace, lot_wet_dg, lot_dry_dg)
    share = trace.step(
        "water for this package", "{package} x {per_dry}", f"{grams(package_water_dg):.1f} g",
        package=Given("dry in the package", f"{grams(package_dry_dg):.1f} g"), per_dry=per_dry,
    )  # fmt: skip
    add_volumes(trace, share, package_water_dg)
    add_water_doubt(
        trace, share, [WaterPart("the lot", lot_wet_dg, lot_dry_dg, package_dry_dg, trays)]
    )
    trace.caution(DEALT_OUT)
    trace.caution(UPPER_BOUND_CAUTION)
    trace.conclude(show_water(package_water_dg))
    return trace.finish()


def add_lot_water(trace: Trace, lot_wet_dg: int, lot_dry_dg: int, code: str = "") -> Given:
    """Write the water a lot lost, in all and per gram dry; the latter is returned.

    `code` is the lot's, where more than one is spoken of.
    """
    lot = f"lot {code}" if code else "lot"
    wet = Given(f"{lot} as loaded", f"{grams(lot_wet_dg):.1f} g")
    dry = Given(f"{lot} dry", f"{grams(lot_dry_dg):.1f} g")
    removed_dg = lot_wet_dg - lot_dry_dg
    removed = trace.step(
        f"water removed from {lot}" if code else "water removed",
        "{wet} - {dry}", f"{grams(removed_dg):.1f} g", sources=(MASS_BALANCE,), wet=wet, dry=dry,
    )  # fmt: skip
    return trace.step(
        f"water per gram dry of {lot}" if code else "water per gram dry",
        "{removed} / {dry}", f"{removed_dg / lot_dry_dg:.4f} g/g", removed=removed, dry=dry,
    )  # fmt: skip


def add_volumes(
    trace: Trace, share: Given, water_dg: int, at_c: float = _TABLE_C, cup: Cup = Cup.US
) -> None:
    """Write the same water in millilitres at its temperature, 4 to 100 °C, and in cups."""
    volume_ml = millilitres(water_dg, at_c)
    density = Given(
        f"density of water at {at_c:g} °C", f"{water_density(at_c):.3f} kg/m³", DENSITY_TABLE
    )
    volume = trace.step(
        "volume", "{share} / {density}", f"{volume_ml:.1f} mL", share=share, density=density
    )
    source = EXACT_CUP if cup is Cup.US else LABEL_CUP
    trace.step(
        f"{cup.words} cups", "{volume} / {cup}",
        f"{cups(volume_ml, cup):.2f} {cup.words} cups", volume=volume,
        cup=Given(f"{cup.words} cup", f"{float(cup.volume_ml)} mL", source),
    )  # fmt: skip
