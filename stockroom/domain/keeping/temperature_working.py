"""How a life at a temperature, a mean kinetic temperature and a life used up are reached."""

from __future__ import annotations

from stockroom.domain.keeping.shown import number
from stockroom.domain.keeping.sources import (
    ARRHENIUS,
    LIFE_FRACTIONS,
    MEAN_KINETIC,
    TEMPERATURE_LAW,
)
from stockroom.domain.keeping.temperature import (
    FLOOR_C,
    GAS_CONSTANT,
    HOT_Q10,
    KELVIN,
    KNEE_C,
    MKT_ENERGY_KJ,
    MKT_GAS_CONSTANT,
    REFERENCE_C,
    REFUSE_ABOVE_C,
    Readings,
    life_at,
    life_used,
    mean_kinetic_temperature,
    mean_temperature,
)
from stockroom.domain.working import Given, Trace, Working

_MOST_LISTED = 12
QUALITY_ONLY = "A quality estimate, not safety: follow local codes and licensed guidance."
NOT_FOR = "Not for wet food, melting fat, or freezing and thawing."


def life_working(life_years: float, q10: float, temp_c: float) -> Working:
    """The derivation of a life at a temperature. Raises as `life_at`."""
    trace = Trace("Life at a temperature")
    answer = life_at(life_years, q10, temp_c)
    life = Given(f"life at {REFERENCE_C:g} °C", number(life_years, "years"))
    counted = _counted(trace, temp_c)
    by_ten = Given("Q10", f"{q10:g}")
    reference = Given("temperature of that life", f"{REFERENCE_C:g} °C", TEMPERATURE_LAW)
    if temp_c <= KNEE_C:
        trace.step(
            "life there",
            "{life} x {by_ten}^(({reference} - {counted}) / 10)",
            number(answer, "years"),
            sources=(TEMPERATURE_LAW,),
            life=life, by_ten=by_ten, reference=reference, counted=counted,
        )  # fmt: skip
    else:
        _above_the_knee(trace, answer, life, by_ten, reference, counted, q10)
    trace.caution(QUALITY_ONLY)
    trace.caution(NOT_FOR)
    trace.caution(f"No life is given above {REFUSE_ABOVE_C:g} °C, no credit below {FLOOR_C:g} °C.")
    return trace.finish()


def _counted(trace: Trace, temp_c: float) -> Given:
    """The temperature as it counts."""
    if temp_c >= FLOOR_C:
        return Given("temperature there", f"{temp_c:.4g} °C")
    return trace.note(
        "temperature that counts, no credit being given for colder",
        f"{FLOOR_C:g} °C",
        Given("temperature there", f"{temp_c:.4g} °C"),
        source=TEMPERATURE_LAW,
    )


def _above_the_knee(
    trace: Trace,
    answer: float,
    life: Given,
    by_ten: Given,
    reference: Given,
    counted: Given,
    q10: float,
) -> None:
    """The life where the steeper law holds."""
    trace.step(
        "life there",
        "{life} x {by_ten}^(({reference} - {knee}) / 10) x {hot}^(({knee} - {counted}) / 10)",
        number(answer, "years"),
        sources=(TEMPERATURE_LAW,),
        life=life, by_ten=by_ten, reference=reference, counted=counted,
        knee=Given("where other reactions take over", f"{KNEE_C:g} °C", TEMPERATURE_LAW),
        hot=Given("Q10 above that", f"{max(q10, HOT_Q10):g}", TEMPERATURE_LAW),
    )  # fmt: skip


def kinetic_working(parts: Readings, ea_kj_mol: float = MKT_ENERGY_KJ) -> Working:
    """The derivation of a mean kinetic temperature from (°C, hours). Raises as the figure itself.

    Up to twelve parts are listed one by one.
    """
    trace = Trace("Mean kinetic temperature")
    usual = ea_kj_mol == MKT_ENERGY_KJ
    trace.note("temperatures and their times", _parts_words(parts, "h"), *_listed(parts, "h"))
    trace.step(
        "mean, weighted by time",
        "sum of ({time} x {temperature}) / sum of {time}",
        f"{mean_temperature(parts):.3f} °C",
        time=Given("time", "each time"),
        temperature=Given("temperature", "each temperature"),
    )
    trace.step(
        "mean kinetic temperature",
        "({energy} / {gas}) / -ln(sum of ({time} x exp(-{energy} / ({gas} x {kelvin}))) / sum of"
        " {time}) - {zero}",
        f"{mean_kinetic_temperature(parts, ea_kj_mol):.3f} °C",
        sources=(MEAN_KINETIC,),
        energy=Given("activation energy", f"{ea_kj_mol:g} kJ/mol", MEAN_KINETIC if usual else None),
        gas=Given(
            "gas constant",
            f"{MKT_GAS_CONSTANT if usual else GAS_CONSTANT:g} J/mol/K",
            MEAN_KINETIC if usual else ARRHENIUS,
        ),
        time=Given("time", "each time"),
        kelvin=Given("temperature in kelvin", "each temperature in kelvin"),
        zero=Given("0 °C in kelvin", f"{KELVIN:g} K"),
    )
    trace.caution("It is never below the mean weighted by time.")
    trace.caution("Not for frozen goods.")
    return trace.finish()


def used_working(life_years: float, q10: float, stays: Readings) -> Working:
    """The derivation of a life used up by stays of (°C, months). Raises as `life_used`."""
    trace = Trace("Life used")
    found = life_used(life_years, q10, stays)
    shares = [
        trace.note(
            f"share used by {months:g} months at {temp_c:.4g} °C",
            f"{months / 12 / life_at(life_years, q10, temp_c):.5f}",
            Given("life there", number(life_at(life_years, q10, temp_c), "years")),
            source=TEMPERATURE_LAW,
        )
        for temp_c, months in stays
    ]
    used = trace.step(
        "share used",
        "sum of {shares}",
        f"{found.used_fraction:.5f}",
        sources=(LIFE_FRACTIONS,),
        shares=Given("the shares", " + ".join(one.value_text for one in shares) or "0"),
    )
    trace.step(
        f"what remains at {REFERENCE_C:g} °C",
        "larger(0, 1 - {used}) x {life}",
        number(found.remaining_years_at_21c, "years"),
        used=used,
        life=Given(f"life at {REFERENCE_C:g} °C", number(life_years, "years")),
    )
    trace.caution(QUALITY_ONLY)
    trace.caution(NOT_FOR)
    return trace.finish()


def _listed(parts: Readings, unit: str) -> list[Given]:
    """The parts one by one, when they are few."""
    if len(parts) > _MOST_LISTED:
        return []
    return [Given(f"{time:g} {unit}", f"{temp_c:.4g} °C") for temp_c, time in parts]


def _parts_words(parts: Readings, unit: str) -> str:
    """How many parts there are and what they span."""
    temperatures = [temp_c for temp_c, time in parts if time > 0]
    total = sum(time for _, time in parts)
    return (
        f"{len(parts)} over {total:g} {unit}, from {min(temperatures):.4g} to"
        f" {max(temperatures):.4g} °C"
    )
