"""How the water to add to a package is reached: the mass balance of its lot, step by step."""

from __future__ import annotations

from stockroom.domain.drying import refuse_impossible
from stockroom.domain.quantities import grams
from stockroom.domain.units import US_CUP_ML
from stockroom.domain.water import millilitres, us_cups, water_density
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
_TABLE_C = 20.0


def water_working(
    lot_wet_dg: int, lot_dry_dg: int, package_dry_dg: int, package_water_dg: int
) -> Working:
    """The derivation of a package's water from its lot's two weights.

    All weights are tenths of a gram. `package_water_dg` is the package's share as dealt out at
    packing, at most a tenth of a gram or so from the plain product. Refuses impossible weights.
    """
    refuse_impossible("The lot", lot_wet_dg, lot_dry_dg)
    trace = Trace("Water to add")
    wet = Given("lot as loaded", f"{grams(lot_wet_dg):.1f} g")
    dry = Given("lot dry", f"{grams(lot_dry_dg):.1f} g")
    removed_dg = lot_wet_dg - lot_dry_dg
    removed = trace.step(
        "water removed", "{wet} - {dry}", f"{grams(removed_dg):.1f} g",
        sources=(MASS_BALANCE,), wet=wet, dry=dry,
    )  # fmt: skip
    per_dry = trace.step(
        "water per gram dry", "{removed} / {dry}", f"{removed_dg / lot_dry_dg:.4f} g/g",
        removed=removed, dry=dry,
    )  # fmt: skip
    share = trace.step(
        "water for this package", "{package} x {per_dry}", f"{grams(package_water_dg):.1f} g",
        package=Given("dry in the package", f"{grams(package_dry_dg):.1f} g"), per_dry=per_dry,
    )  # fmt: skip
    _volumes(trace, share, package_water_dg)
    trace.caution(
        "Dealt out so that all packages and losses of the lot add up to its water exactly, to"
        " the tenth of a gram."
    )
    trace.caution(
        "Full restoration is an upper bound: start with two thirds to three quarters and add to"
        f" taste (engineering judgement; {UPPER_BOUND.words})."
    )
    return trace.finish()


def _volumes(trace: Trace, share: Given, water_dg: int) -> None:
    """The same water in millilitres and cups."""
    volume_ml = millilitres(water_dg, _TABLE_C)
    density = Given(
        "density of water at 20 °C", f"{water_density(_TABLE_C):.3f} kg/m³", DENSITY_TABLE
    )
    volume = trace.step(
        "volume", "{share} / {density}", f"{volume_ml:.1f} mL", share=share, density=density
    )
    trace.step(
        "US cups", "{volume} / {cup}", f"{us_cups(volume_ml):.2f} US cups",
        volume=volume, cup=Given("US cup", f"{float(US_CUP_ML)} mL", EXACT_CUP),
    )  # fmt: skip
