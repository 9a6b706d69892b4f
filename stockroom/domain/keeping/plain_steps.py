"""The steps of the plain table that compute something, each writing its own working."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.keeping.fat import class_by_fat as held_class
from stockroom.domain.keeping.fat import fat_caution, fat_words
from stockroom.domain.keeping.headspace import (
    SOLID_DENSITY_MG_PER_ML,
    gas_ml,
    oxygen_cc,
    oxygen_left_cc,
)
from stockroom.domain.keeping.interface import FoodClass, KeepingCase
from stockroom.domain.keeping.plain_lives import Band, Tolerance
from stockroom.domain.keeping.sources import (
    AIR_OXYGEN,
    FAT_OF_SOLIDS,
    OXYGEN_LEFT,
    SEA_LEVEL,
    SOLID_DENSITY,
)
from stockroom.domain.working import Given, Standing, Trace


def class_by_fat(case: KeepingCase, trace: Trace) -> FoodClass:
    """The class whose lives hold it back: its own, or a fatty one by the fat of its solids."""
    fat = case.fat_of_solids
    if fat is None:
        trace.note("fat of the dry solids", "not known, so the class alone decides")
    else:
        given = Given("fat of the dry solids", f"{float(fat * 100):.1f} %")
        trace.note("fat", fat_words(fat), given, source=FAT_OF_SOLIDS)
    caution = fat_caution(fat)
    if caution is not None:
        trace.caution(caution)
    return held_class(case.food_class, fat)


def share_kept(case: KeepingCase, tolerance: Tolerance, trace: Trace) -> Band:
    """Share of the oxygen-free life the absorber saves, 0 to 1: 1 where it takes all oxygen.

    Raises TooMuchForContainer or VacuumBeyondBarometer for figures that cannot be.
    """
    left, left_given = _oxygen_left(case, trace)
    per_gram = left * 10 / case.dry_dg
    if left == 0:
        return Band(Fraction(1), Fraction(1), Fraction(1))
    limits = tolerance.cc_per_g
    kept = Band(*(max(Fraction(0), 1 - per_gram / limit) for limit in limits.values))
    trace.step(
        "share of the oxygen-free life kept",
        "1 - {left} / {dry} / {tolerance}",
        f"{float(kept.mid * 100):.0f} %, and never less than the life in air",
        sources=(OXYGEN_LEFT,),
        left=left_given,
        dry=_dry(case),
        tolerance=Given(
            "oxygen this food tolerates",
            f"{float(limits.mid):.2f} cc/g",
            tolerance.source,
            tolerance.standing,
        ),
    )
    trace.caution(
        "The absorber is too small for the gas in this package: a larger one keeps it longer."
    )
    return kept


def _oxygen_left(case: KeepingCase, trace: Trace) -> tuple[Fraction, Given]:
    """Oxygen the absorbers leave in the package, cc, and the same as a step's result."""
    density = case.solid_density_mg_per_ml or SOLID_DENSITY_MG_PER_ML
    gas = gas_ml(case.volume_ml, case.dry_dg, density)
    oxygen = oxygen_cc(gas, case.vacuum_tenth_inhg, case.barometer_thousandth_inhg)
    left = oxygen_left_cc(oxygen, case.absorber_cc)
    gas_step = trace.step(
        "gas in the package",
        "{volume} - {dry} / {density}",
        f"{float(gas):.0f} mL",
        volume=Given("volume", f"{case.volume_ml} mL"),
        dry=_dry(case),
        density=Given("solid density", f"{density / 1000:.2f} g/mL", SOLID_DENSITY),
    )
    oxygen_step = trace.step(
        "oxygen at closing",
        "{share} x {gas} x ({barometer} - {gauge}) / {atmosphere}",
        f"{float(oxygen):.1f} cc",
        share=Given("share of oxygen in air", "0.2095", AIR_OXYGEN),
        gas=gas_step,
        barometer=_barometer(case),
        gauge=Given("gauge vacuum", f"{(case.vacuum_tenth_inhg or 0) / 10:.1f} inHg"),
        atmosphere=Given("one atmosphere", "29.921 inHg", SEA_LEVEL),
    )
    left_step = trace.step(
        "oxygen the absorber leaves",
        "{oxygen} - {absorber}, not below nothing",
        f"{float(left):.1f} cc",
        oxygen=oxygen_step,
        absorber=Given("absorber", f"{case.absorber_cc} cc"),
    )
    return left, left_step


def _dry(case: KeepingCase) -> Given:
    """The dry weight as an input."""
    return Given("dry food", f"{case.dry_dg / 10:.1f} g")


def _barometer(case: KeepingCase) -> Given:
    """The barometer as an input; sea level where nobody read it."""
    if case.barometer_thousandth_inhg is None:
        return Given(
            "barometer, taken as sea level",
            "29.921 inHg",
            SEA_LEVEL,
            Standing.ENGINEERING_JUDGEMENT,
        )
    return Given("barometer", f"{case.barometer_thousandth_inhg / 1000:.3f} inHg")
