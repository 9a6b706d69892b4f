"""The working of the moisture life: vapour coming in until the food is no longer crisp."""

from __future__ import annotations

from math import inf

from stockroom.domain.keeping.dates import show_life
from stockroom.domain.keeping.explain_oxygen import dry_given
from stockroom.domain.keeping.explained import Explained
from stockroom.domain.keeping.figures import Quantity
from stockroom.domain.keeping.history import Climate
from stockroom.domain.keeping.interface import KeepingCase, PackageKind
from stockroom.domain.keeping.life import (
    moisture_end,
    moisture_life,
    piece_c,
    piece_humidity,
)
from stockroom.domain.keeping.moisture import (
    DISCARD_ACTIVITY,
    LID_C,
    LID_HUMIDITY_DIFFERENCE,
    TRANSMISSION_C,
    TRANSMISSION_HUMIDITY,
    driving_kpa,
    package_permeance,
    saturation_kpa,
    uptake_integral,
)
from stockroom.domain.keeping.shown import computed, days, middle_of, number, past_or_days
from stockroom.domain.keeping.sources import (
    COUNTERS,
    LIFE_FRACTIONS,
    PERMEANCE,
    ROOM_HUMIDITY,
    SATURATION,
    VAPOUR_UPTAKE,
)
from stockroom.domain.keeping.sources import DISCARD_ACTIVITY as DISCARD_SOURCE
from stockroom.domain.keeping.temperature import FLOOR_C
from stockroom.domain.working import Given, Trace

DRY_ROOM = "never: the room is drier than the limit"


def explain_moisture(facts: Explained, area: Given, trace: Trace) -> Given:
    """Write the moisture life where it ends, and the day it ends; returns that day."""
    middle, subject = facts.inputs.middle, facts.subject
    reached = moisture_end(middle, subject, middle.crisp_limit)
    climate = reached.piece.climate
    life = _life(facts, climate, area, trace)
    _discard(facts, trace)
    if reached.piece.start == 0 or life.value_text == DRY_ROOM:
        return computed("crispness ends after", life.value_text)
    return trace.step(
        "crispness ends after",
        "{before} + (1 - {used}) x {life}",
        past_or_days(reached.day),
        sources=(LIFE_FRACTIONS, COUNTERS),
        before=computed("days before this place or month", days(reached.piece.start)),
        used=computed("share of the uptake since it was last dried", f"{reached.used_before:.4g}"),
        life=life,
    )


def _life(facts: Explained, climate: Climate, area: Given, trace: Trace) -> Given:
    """The moisture life in one climate."""
    middle, subject = facts.inputs.middle, facts.subject
    integral = _integral(facts, climate, trace)
    life = moisture_life(middle, subject, climate, middle.crisp_limit)
    if life == inf:
        return trace.note("moisture life there", DRY_ROOM, integral)
    return trace.step(
        "moisture life there",
        "{solids} / ({permeance} x {pressure}) x {integral}",
        days(life),
        sources=(VAPOUR_UPTAKE,),
        solids=_solids(facts, trace),
        permeance=_permeance(facts, area, trace),
        pressure=_pressure(facts, climate, trace),
        integral=integral,
    )


def _integral(facts: Explained, climate: Climate, trace: Trace) -> Given:
    """The integral of the isotherm's slope over the drop of humidity."""
    middle, own = facts.inputs.middle, facts.inputs.own
    isotherm = own.isotherm
    humidity = piece_humidity(middle, climate)
    value = uptake_integral(isotherm, middle.first_activity, middle.crisp_limit, humidity)
    shape = f"m0 {isotherm.monolayer:g}, C {isotherm.c:g}, K {isotherm.k:g}"
    return trace.note(
        "uptake over the drop in humidity",
        "without end" if value == inf else number(value, "g/g"),
        Given("isotherm (GAB)", shape, own.isotherm_source, own.isotherm_standing),
        middle_of(facts.figure(Quantity.FIRST_ACTIVITY)),
        middle_of(facts.figure(Quantity.CRISP_LIMIT)),
        _humidity(facts.case, climate, humidity),
        source=VAPOUR_UPTAKE,
    )


def _humidity(case: KeepingCase, climate: Climate, humidity: float) -> Given:
    """The room's humidity as an input, with its source where nobody gave one."""
    given = any(
        stay.relative_humidity is not None and float(stay.relative_humidity) == climate.humidity
        for stay in case.stays
    )
    return Given("humidity of the room", f"{humidity:.4g}", None if given else ROOM_HUMIDITY)


def _solids(facts: Explained, trace: Trace) -> Given:
    """The dry solids: dry food less the moisture left in it."""
    case = facts.case
    if case.residual_moisture is None:
        moisture = middle_of(facts.known.residual_moisture)
    else:
        moisture = Given("residual moisture", f"{float(case.residual_moisture):.4g}")
    return trace.step(
        "dry solids",
        "{dry} x (1 - {moisture})",
        number(facts.subject.package.solids_g, "g"),
        dry=dry_given(case),
        moisture=moisture,
    )


def _permeance(facts: Explained, area: Given, trace: Trace) -> Given:
    """What the package lets through for each kPa."""
    middle = facts.inputs.middle
    result = number(
        package_permeance(
            middle.vapour_transmission, facts.subject.package.area_m2, middle.lid_vapour
        ),
        "g/(day kPa)",
    )
    if facts.case.package_kind is PackageKind.JAR:
        return trace.step(
            "vapour through the lid for each kPa",
            "{lid} / 1000 / ({pressure} x {difference})",
            result,
            lid=middle_of(facts.figure(Quantity.LID_VAPOUR)),
            pressure=_saturation(LID_C),
            difference=Given(
                "humidity difference of the figure", f"{LID_HUMIDITY_DIFFERENCE:g}", PERMEANCE
            ),
        )
    return trace.step(
        "vapour through the film for each kPa",
        "{film} / ({pressure} x {humidity}) x {area}",
        result,
        sources=(PERMEANCE,),
        film=middle_of(facts.figure(Quantity.VAPOUR_TRANSMISSION)),
        pressure=_saturation(TRANSMISSION_C),
        humidity=Given("humidity of the figure", f"{TRANSMISSION_HUMIDITY:g}", PERMEANCE),
        area=area,
    )


def _saturation(at_c: float) -> Given:
    """A saturation pressure as an input."""
    return Given(
        f"saturation pressure at {at_c:g} °C", f"{saturation_kpa(at_c):.5g} kPa", SATURATION
    )


def _pressure(facts: Explained, climate: Climate, trace: Trace) -> Given:
    """Saturation pressure of the place."""
    at_c = max(piece_c(facts.inputs.middle, climate), FLOOR_C)
    return trace.step(
        "saturation pressure there",
        "0.61121 kPa x exp((18.678 - {at} / 234.5) x {at} / (257.14 + {at}))",
        f"{driving_kpa(at_c):.5g} kPa",
        sources=(SATURATION,),
        at=Given("temperature there", f"{at_c:.1f} °C"),
    )


def _discard(facts: Explained, trace: Trace) -> None:
    """Write when the food may have become moist enough that it has to go."""
    after = facts.outcome.discard_days
    if facts.subject.history.open_from < inf:
        shown = "not known for an opened or leaking package: pliable or damp, it has to go"
    elif after == inf:
        shown = "never, in air this dry"
    else:
        shown = f"after about {show_life(after / 30.4375)}: then it has to go"
    trace.note(
        "when it could reach the moisture microbes need",
        shown,
        Given("water activity", f"{DISCARD_ACTIVITY:.2f}", DISCARD_SOURCE),
    )
