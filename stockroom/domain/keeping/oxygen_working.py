"""How the absorber for a package is reached, step by step, without a best-by."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from stockroom.domain.keeping.absorber_doubt import Closure, add_absorber_doubt
from stockroom.domain.keeping.headspace import (
    SEA_LEVEL_THOUSANDTH_INHG,
    SOLID_DENSITY_MG_PER_ML,
)
from stockroom.domain.keeping.oxygen import ABSORBER_MARGIN, AIR_SHARE, AbsorberFigures
from stockroom.domain.keeping.shown import number
from stockroom.domain.keeping.sources import (
    ABSORBER_ADVICE,
    AIR_OXYGEN,
    MOISTURE_CEILING,
    SEA_LEVEL,
    SOLID_DENSITY,
)
from stockroom.domain.working import Given, Source, Standing, Trace, Working

STOCK_SIZES = Source(
    "stock-sizes", "Stock sizes of oxygen absorbers as they are sold", Standing.COMMON_PRACTICE
)
RATING = Source(
    "absorber-rating",
    "An absorber takes what is printed on it, no more and no less",
    Standing.ENGINEERING_JUDGEMENT,
)
DENSE_GOODS = (
    "The rule of one 300 cc absorber to a US gallon was made for dense goods (Utah State"
    " University Extension; published): freeze-dried pieces are mostly pores, and pores hold air."
)


def absorber_working(
    figures: AbsorberFigures,
    volume_ml: int,
    dry_dg: int,
    sizes_cc: Sequence[int],
    *,
    density_mg_per_ml: int | None = None,
    vacuum_tenth_inhg: int | None = None,
    barometer_thousandth_inhg: int | None = None,
    given_cc: int | None = None,
) -> Working:
    """The derivation of `figures`, which were computed from the same arguments.

    `given_cc` is the absorber asked about; None when one was to be advised.
    """
    trace = Trace("Absorber")
    gas = _gas(trace, figures, volume_ml, dry_dg, density_mg_per_ml)
    oxygen = _oxygen(trace, figures, gas, vacuum_tenth_inhg, barometer_thousandth_inhg)
    absorber = (
        _advised(trace, figures, oxygen, sizes_cc)
        if given_cc is None
        else Given("absorber", f"{given_cc} cc", RATING)
    )
    left = _after(trace, figures, oxygen, absorber)
    trace.step(
        "oxygen afterwards, in percent of one atmosphere",
        "100 x {left} / {gas}",
        number(figures.oxygen_percent_after, "%"),
        left=left,
        gas=gas,
    )
    closure = Closure(
        volume_ml, dry_dg, density_mg_per_ml, vacuum_tenth_inhg, barometer_thousandth_inhg
    )
    advised = given_cc is None
    add_absorber_doubt(trace, closure, oxygen, figures.absorbers, sizes_cc, advised=advised)
    trace.conclude(_concluded(figures, advised=advised))
    trace.caution(DENSE_GOODS)
    trace.caution("No desiccant beside an absorber: it needs a little moisture to work.")
    trace.caution(f"Only for dry food. {MOISTURE_CEILING.words}.")
    trace.caution("Follow local codes and licensed guidance.")
    return trace.finish()


def _concluded(figures: AbsorberFigures, *, advised: bool) -> str:
    """What it comes to: the size, or what the size asked about leaves."""
    chosen = " + ".join(str(one) for one in figures.absorbers)
    if advised:
        return f"{chosen} cc"
    left = number(figures.residual_oxygen_cc, "cc")
    return f"{chosen} cc leaves {left} of {number(figures.oxygen_cc, 'cc')} of oxygen"


def _gas(
    trace: Trace, figures: AbsorberFigures, volume_ml: int, dry_dg: int, density: int | None
) -> Given:
    """Gas in the package."""
    shown = f"{(density or SOLID_DENSITY_MG_PER_ML) / 1000:g} g/mL"
    return trace.step(
        "gas in the package",
        "{volume} - {dry} / {density}",
        number(figures.gas_ml, "mL"),
        volume=Given("volume as closed", f"{volume_ml} mL"),
        dry=Given("dry food", f"{dry_dg / 10:.1f} g"),
        density=Given("density of the solids", shown, None if density else SOLID_DENSITY),
    )


def _oxygen(
    trace: Trace,
    figures: AbsorberFigures,
    gas: Given,
    vacuum_tenth_inhg: int | None,
    barometer_thousandth_inhg: int | None,
) -> Given:
    """Oxygen at closing."""
    sea_level = f"{SEA_LEVEL_THOUSANDTH_INHG / 1000:g} inHg"
    barometer = (
        Given("barometer, taken as sea level", sea_level, SEA_LEVEL, Standing.ENGINEERING_JUDGEMENT)
        if barometer_thousandth_inhg is None
        else Given("barometer", f"{barometer_thousandth_inhg / 1000:g} inHg")
    )
    return trace.step(
        "oxygen at closing",
        "{share} x {gas} x ({barometer} - {gauge}) / {atmosphere}",
        number(figures.oxygen_cc, "cc"),
        share=Given("share of oxygen in air", f"{AIR_SHARE:g}", AIR_OXYGEN),
        gas=gas,
        barometer=barometer,
        gauge=Given("gauge vacuum", f"{(vacuum_tenth_inhg or 0) / 10:g} inHg"),
        atmosphere=Given("one atmosphere", sea_level, SEA_LEVEL),
    )


def _advised(
    trace: Trace, figures: AbsorberFigures, oxygen: Given, sizes_cc: Sequence[int]
) -> Given:
    """The oxygen with its margin, then the next stock size."""
    wanted = trace.step(
        "absorber wanted",
        "{margin} x {oxygen}",
        number(float(ABSORBER_MARGIN * Fraction(figures.oxygen_cc)), "cc"),
        margin=Given("margin for handling and age", f"{float(ABSORBER_MARGIN):g}", ABSORBER_ADVICE),
        oxygen=oxygen,
    )
    sizes = ", ".join(str(one) for one in sizes_cc)
    chosen = " + ".join(str(one) for one in figures.absorbers)
    return trace.note(
        "next stock size",
        f"{chosen} cc",
        wanted,
        Given("stock sizes", f"{sizes} cc", STOCK_SIZES),
        source=ABSORBER_ADVICE,
    )


def _after(trace: Trace, figures: AbsorberFigures, oxygen: Given, absorber: Given) -> Given:
    """What the absorber leaves and what it can still take."""
    left = trace.step(
        "oxygen left",
        "larger(0, {oxygen} - {absorber})",
        number(figures.residual_oxygen_cc, "cc"),
        oxygen=oxygen,
        absorber=absorber,
    )
    trace.step(
        "reserve of the absorber",
        "larger(0, {absorber} - {oxygen})",
        number(figures.reserve_cc, "cc"),
        absorber=absorber,
        oxygen=oxygen,
    )
    return left
