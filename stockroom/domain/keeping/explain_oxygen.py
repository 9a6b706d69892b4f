"""The working of the oxygen in a package: gas, oxygen, absorber, film and what comes in."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from stockroom.domain.keeping.explained import Explained
from stockroom.domain.keeping.figures import Quantity
from stockroom.domain.keeping.headspace import (
    SEA_LEVEL_THOUSANDTH_INHG,
    SOLID_DENSITY_MG_PER_ML,
    gas_ml,
    oxygen_cc,
)
from stockroom.domain.keeping.interface import KeepingCase, PackageKind
from stockroom.domain.keeping.oxygen import AIR_SHARE, advised_absorbers, ingress_cc_per_day
from stockroom.domain.keeping.package_numbers import AREA_AT_1500_ML_M2, AREA_VOLUME_ML
from stockroom.domain.keeping.shown import computed, middle_of, number
from stockroom.domain.keeping.sources import (
    ABSORBER_ADVICE,
    AIR_INGRESS,
    AIR_OXYGEN,
    FACE_AREA,
    FILM_AREA,
    SEA_LEVEL,
    SOLID_DENSITY,
)
from stockroom.domain.working import Given, Standing, Trace


class OxygenGivens(NamedTuple):
    """Results the life is computed from, ready to be inputs."""

    left: Given
    reserve: Given
    area: Given
    ingress: Given


def explain_oxygen(facts: Explained, trace: Trace) -> OxygenGivens:
    """Write gas, oxygen, absorber, film area and ingress."""
    oxygen_step = _at_closing(facts.case, trace)
    left, reserve = _after_absorber(facts, oxygen_step, trace)
    area = _film(facts, trace)
    return OxygenGivens(left, reserve, area, _ingress(facts, area, trace))


def oxygen_of(case: KeepingCase) -> Fraction:
    """Oxygen in the package at closing, cc."""
    density = case.solid_density_mg_per_ml or SOLID_DENSITY_MG_PER_ML
    gas = gas_ml(case.volume_ml, case.dry_dg, density)
    return oxygen_cc(gas, case.vacuum_tenth_inhg, case.barometer_thousandth_inhg)


def dry_given(case: KeepingCase) -> Given:
    """The dry weight as an input."""
    return Given("dry food", f"{case.dry_dg / 10:.1f} g")


def _at_closing(case: KeepingCase, trace: Trace) -> Given:
    """Gas and oxygen when it was closed."""
    density = case.solid_density_mg_per_ml or SOLID_DENSITY_MG_PER_ML
    known = case.solid_density_mg_per_ml is not None
    gas = trace.step(
        "gas in the package",
        "{volume} - {dry} / {density}",
        number(float(gas_ml(case.volume_ml, case.dry_dg, density)), "mL"),
        volume=Given("volume as closed", f"{case.volume_ml} mL"),
        dry=dry_given(case),
        density=Given(
            "density of the solids", f"{density / 1000:g} g/mL", None if known else SOLID_DENSITY
        ),
    )
    return trace.step(
        "oxygen at closing",
        "{share} x {gas} x ({barometer} - {gauge}) / {atmosphere}",
        number(float(oxygen_of(case)), "cc"),
        share=_air_share(),
        gas=gas,
        barometer=_barometer(case),
        gauge=Given("gauge vacuum", f"{(case.vacuum_tenth_inhg or 0) / 10:g} inHg"),
        atmosphere=Given("one atmosphere", f"{SEA_LEVEL_THOUSANDTH_INHG / 1000:g} inHg", SEA_LEVEL),
    )


def _air_share() -> Given:
    """Oxygen in air as an input."""
    return Given("share of oxygen in air", f"{AIR_SHARE:g}", AIR_OXYGEN)


def _barometer(case: KeepingCase) -> Given:
    """The barometer as an input; sea level where nobody read it."""
    if case.barometer_thousandth_inhg is None:
        return Given(
            "barometer, taken as sea level",
            f"{SEA_LEVEL_THOUSANDTH_INHG / 1000:g} inHg",
            SEA_LEVEL,
            Standing.ENGINEERING_JUDGEMENT,
        )
    return Given("barometer", f"{case.barometer_thousandth_inhg / 1000:g} inHg")


def _after_absorber(facts: Explained, oxygen: Given, trace: Trace) -> tuple[Given, Given]:
    """What the absorber leaves, and what it can still take."""
    package, case = facts.subject.package, facts.case
    nothing = computed("reserve of the absorber", "0 cc")
    if case.absorber_cc == 0:
        left = computed("oxygen left, there being no absorber", oxygen.value_text)
        _advise(facts, oxygen, trace)
        return left, nothing
    absorber = Given("absorber", f"{case.absorber_cc} cc")
    if package.left_cc > 0:
        left = trace.step(
            "oxygen the absorber leaves",
            "{oxygen} - {absorber}",
            number(package.left_cc, "cc"),
            oxygen=oxygen,
            absorber=absorber,
        )
        _advise(facts, oxygen, trace)
        return left, nothing
    reserve = trace.step(
        "reserve of the absorber",
        "{absorber} - {oxygen}",
        number(package.reserve_cc, "cc"),
        absorber=absorber,
        oxygen=oxygen,
    )
    return computed("oxygen left", "0 cc"), reserve


def _advise(facts: Explained, oxygen: Given, trace: Trace) -> None:
    """Write the absorber that would take all the oxygen."""
    chosen = advised_absorbers(oxygen_of(facts.case), facts.known.absorber_sizes_cc)
    shown = " + ".join(str(size) for size in chosen)
    trace.note("absorber that would take all of it", f"{shown} cc", oxygen, source=ABSORBER_ADVICE)


def _film(facts: Explained, trace: Trace) -> Given:
    """The film's area; none for a jar."""
    case, area_m2 = facts.case, facts.subject.package.area_m2
    if case.package_kind is PackageKind.JAR:
        return computed("film area", "0 m²")
    if case.area_mm2 is not None:
        return Given("film area, both faces", number(area_m2, "m²"), FACE_AREA)
    return trace.step(
        "film area, both faces",
        "{base} x ({volume} / {reference})^(2/3)",
        number(area_m2, "m²"),
        sources=(FILM_AREA,),
        base=Given("film of the reference pouch", f"{AREA_AT_1500_ML_M2:g} m²", FILM_AREA),
        volume=Given("volume as closed", f"{case.volume_ml} mL"),
        reference=Given("its volume", f"{AREA_VOLUME_ML} mL", FILM_AREA),
    )


def _ingress(facts: Explained, area: Given, trace: Trace) -> Given:
    """Oxygen coming in each day."""
    middle = facts.inputs.middle
    result = number(
        ingress_cc_per_day(
            middle.oxygen_transmission, facts.subject.package.area_m2, middle.lid_oxygen
        ),
        "cc/day",
    )
    if facts.case.package_kind is PackageKind.JAR:
        lid = middle_of(facts.figure(Quantity.LID_OXYGEN))
        return trace.note("oxygen coming in", result, lid, source=AIR_INGRESS)
    return trace.step(
        "oxygen coming in",
        "{film} x {area} x {share}",
        result,
        sources=(AIR_INGRESS,),
        film=middle_of(facts.figure(Quantity.OXYGEN_TRANSMISSION)),
        area=area,
        share=_air_share(),
    )
