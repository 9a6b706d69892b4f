"""How a leak rate is reached, step by step."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.leak import (
    AS_GOOD_AS,
    LIMIT_MBAR_L_PER_S,
    STRAIGHT_FROM,
    Leak,
    LeakVerdict,
    PressureRise,
    leak,
)
from stockroom.domain.leak_sources import LEAK_LIMIT, PRESSURE_RISE, TWO_PARTS
from stockroom.domain.units import ATM_KPA, MBAR_KPA
from stockroom.domain.working import Given, Source, Standing, Trace, Working

GAS_AT_ATMOSPHERE = Source(
    "gas-at-atmosphere",
    "Boyle's law: gas at 1 mbar takes up 1/1013.25 of its space at one atmosphere of 101,325 Pa",
    Standing.COMPUTED,
)


def leak_working(rise: PressureRise) -> Working:
    """The derivation of a leak rate; refuses what `leak` refuses."""
    found = leak(rise)
    trace = Trace("Leak rate by pressure rise")
    first = Given("first pressure", f"{_shown(rise.from_mbar)} mbar")
    last = Given("last pressure", f"{_shown(rise.to_mbar)} mbar")
    rate = trace.step(
        "leak rate",
        "{volume} x ({last} - {first}) / {seconds}",
        f"{float(found.mbar_l_per_s):.4g} mbar L/s",
        sources=(PRESSURE_RISE,),
        volume=Given("volume of the chamber", f"{_shown(rise.volume_l)} L"),
        last=last,
        first=first,
        seconds=Given("time between", f"{_shown(rise.seconds)} s"),
    )
    _shape(trace, found, first, last)
    trace.note(
        "verdict",
        f"{found.verdict}: {found.sentence}",
        rate,
        Given("limit, dry and empty", f"{float(LIMIT_MBAR_L_PER_S):g} mbar L/s", LEAK_LIMIT),
        Given("chamber clean, dry and empty", _said(rise.dry_empty)),
        source=LEAK_LIMIT,
    )
    _as_gas(trace, found, rate)
    verdict = "no verdict" if found.verdict is LeakVerdict.NONE else found.verdict.value
    trace.conclude(f"{float(found.mbar_l_per_s):.3g} mbar L/s, {verdict}")
    trace.caution(AS_GOOD_AS)
    trace.caution("A rate within the limit is no proof that food will dry: it rules out one fault.")
    return trace.finish()


def _as_gas(trace: Trace, found: Leak, rate: Given) -> None:
    """The rate as gas at one atmosphere."""
    trace.step(
        "gas let in a minute, at 0 C and one atmosphere",
        "{rate} x 60 s/min x 1000 cm3/L / {atmosphere}",
        f"{float(found.cm3_per_min):.4g} cm3/min",
        sources=(GAS_AT_ATMOSPHERE,),
        rate=rate,
        atmosphere=Given("one atmosphere", f"{float(ATM_KPA / MBAR_KPA):g} mbar"),
    )


def _shape(trace: Trace, found: Leak, first: Given, last: Given) -> None:
    """How the second part rose against the first, where a reading lay in between."""
    between, ratio = found.rise.between, found.second_to_first
    if between is None or ratio is None:
        return
    speed = trace.step(
        "speed of the second part over that of the first",
        "(({last} - {middle}) / {rest}) / (({middle} - {first}) / {part})",
        f"{float(ratio):.3g}",
        last=last,
        middle=Given("pressure in between", f"{_shown(between.mbar)} mbar"),
        rest=Given("time after it", f"{_shown(found.rise.seconds - between.seconds)} s"),
        first=first,
        part=Given("time before it", f"{_shown(between.seconds)} s"),
    )
    trace.note(
        "shape of the rise",
        f"{found.shape}",
        speed,
        Given("straight from", f"{float(STRAIGHT_FROM):g}", TWO_PARTS),
        source=TWO_PARTS,
    )


def _said(dry_empty: bool | None) -> str:
    """What was said of the chamber."""
    if dry_empty is None:
        return "not said"
    return "yes" if dry_empty else "no"


def _shown(value: Fraction) -> str:
    """A reading without needless digits."""
    return f"{float(value):.6g}"
