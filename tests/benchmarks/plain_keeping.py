"""The keeping formulas written straight down: no grouping, no memory, no closed forms.

One package at one constant temperature. Every evaluation of the band solves the oxygen equation
by bisection and sums the moisture integral in 400 steps. It was written apart from the program's
model and reads the shipped tables by itself, so it is both the measure of the benchmark and a
second opinion in the tests.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

DATA = Path(__file__).resolve().parents[2] / "stockroom" / "reference" / "data"
ENDS = ("pessimistic", "middle", "optimistic")
Spread = tuple[float, float, float]

DAYS_A_YEAR = 365.25
CAP_DAYS = 25 * DAYS_A_YEAR

# Engineering judgement: water activity when packed, and the band of the Q10.
FIRST_ACTIVITY: Spread = (0.15, 0.10, 0.05)
Q10: Spread = (3.0, 2.0, 1.6)


@dataclass(frozen=True)
class PlainPackage:
    """Grams, millilitres, square metres, cc, inHg, °C; all known."""

    food_class: str
    kind: str
    dry_g: float
    volume_ml: float
    area_m2: float
    absorber_cc: float
    gauge_inhg: float
    residual: float
    temp_c: float
    humidity: float
    measured: bool


@cache
def spreads_of(food_class: str, kind: str) -> Mapping[str, Spread]:
    """The figures of a class in a package as the shipped tables have them, read once."""
    nothing: Spread = (0.0, 0.0, 0.0)
    paths = ("oxygen_transmission", "vapour_transmission", "lid_oxygen", "lid_vapour")
    spreads: dict[str, Spread] = dict.fromkeys(paths, nothing)
    for table, column, wanted in (
        ("class_figures", "food_class", food_class),
        ("barriers", "package_kind", kind),
    ):
        with (DATA / f"{table}.csv").open(encoding="utf-8", newline="") as rows:
            for row in csv.DictReader(rows):
                if row[column] == wanted:
                    pess, mid, opt = (float(row[end]) for end in ENDS)
                    spreads[row["quantity"]] = (pess, mid, opt)
    return spreads


def saturation_kpa(at_c: float) -> float:
    """Vapour pressure over water, kPa (Buck form)."""
    return 0.61121 * math.exp((18.678 - at_c / 234.5) * at_c / (257.14 + at_c))


def gab(activity: float, monolayer: float, c: float, k: float) -> float:
    """Water held at a water activity, g per g dry solids (GAB)."""
    ka = k * activity
    return monolayer * c * ka / ((1 - ka) * (1 - ka + c * ka))


def quality_days(
    free: float, air: float, left: float, reserve: float, ingress: float, dry: float, tau: float
) -> float:
    """Days until time and oxygen together have used up the life, between `air` and `free`.

    Solves t/free + min((left + max(0, ingress t - reserve))/dry, t u)/tau = 1 by bisection, with
    u = tau (1/air - 1/free) so that air alone gives `air`.
    """
    if air >= free:
        return free
    fastest = tau * (1 / air - 1 / free)

    def used(days: float) -> float:
        taken_up = (left + max(0.0, ingress * days - reserve)) / dry
        return days / free + min(taken_up, fastest * days) / tau

    low, high = air, free
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if used(middle) < 1 else (low, middle)
    return high


def warmth(temp_c: float, q10: float) -> float:
    """Life at a temperature over the life at 21 °C."""
    at_c = max(temp_c, 5.0)
    factor = q10 ** ((21.0 - min(at_c, 32.0)) / 10)
    return factor * max(q10, 5.0) ** ((32.0 - at_c) / 10) if at_c > 32.0 else factor


def all_spreads(package: PlainPackage) -> dict[str, Spread]:
    """Every figure with its three values."""
    doubt = 0.0 if package.measured else 3.0
    room = package.humidity
    return {
        **spreads_of(package.food_class, package.kind),
        "q10": Q10,
        "first_activity": FIRST_ACTIVITY,
        "room_humidity": (min(1.0, room + 0.10), room, max(0.0, room - 0.10)),
        "temp_c": (min(45.0, package.temp_c + doubt), package.temp_c, package.temp_c - doubt),
    }


def oxygen_days(value: Mapping[str, float], package: PlainPackage) -> float:
    """Days until time and oxygen have used the quality up."""
    gas = package.volume_ml - package.dry_g / 1.5
    oxygen = 0.2095 * gas * (29.921 - package.gauge_inhg) / 29.921
    factor = warmth(value["temp_c"], value["q10"])
    ingress = value["oxygen_transmission"] * package.area_m2 * 0.2095 + value["lid_oxygen"]
    return quality_days(
        value["life_without_oxygen"] * DAYS_A_YEAR * factor,
        value["life_in_air"] * DAYS_A_YEAR / 12 * factor,
        max(0.0, oxygen - package.absorber_cc),
        max(0.0, package.absorber_cc - oxygen),
        ingress,
        package.dry_g,
        value["oxygen_tolerance"],
    )


def moisture_days(value: Mapping[str, float], package: PlainPackage) -> float:
    """Days until it is no longer crisp."""
    start, stop = value["first_activity"], value["crisp_limit"]
    room = value["room_humidity"]
    if room <= stop:
        return math.inf
    isotherm = (value["gab_monolayer"], value["gab_c"], value["gab_k"])
    permeance = value["vapour_transmission"] / (saturation_kpa(38.0) * 0.90)
    lid = value["lid_vapour"] / 1000 / (saturation_kpa(25.0) * 0.6)
    pressure = saturation_kpa(max(5.0, value["temp_c"]))
    step = (stop - start) / 400
    total = 0.0
    for number in range(400):
        activity = start + (number + 0.5) * step
        rise = gab(activity + step / 2, *isotherm) - gab(activity - step / 2, *isotherm)
        total += rise / (room - activity)
    solids = package.dry_g * (1 - package.residual)
    return solids * total / ((permeance * package.area_m2 + lid) * pressure)


def life_days(value: Mapping[str, float], package: PlainPackage) -> float:
    """The first of quality, crispness and 25 years."""
    return min(oxygen_days(value, package), moisture_days(value, package), CAP_DAYS)


def band_days(package: PlainPackage) -> Spread:
    """Low, middle and high life in days: each figure alone at both ends."""
    spreads = all_spreads(package)
    middle_values = {name: spread[1] for name, spread in spreads.items()}
    middle = life_days(middle_values, package)
    down = up = 0.0
    for name, spread in spreads.items():
        for end in (0, 2):
            if spread[end] == spread[1]:
                continue
            change = math.log(life_days({**middle_values, name: spread[end]}, package) / middle)
            down += change * change if change < 0 else 0.0
            up += change * change if change > 0 else 0.0
    high = min(CAP_DAYS, middle * math.exp(math.sqrt(up)))
    return middle * math.exp(-math.sqrt(down)), middle, high


def all_at_once_days(package: PlainPackage) -> tuple[float, float]:
    """The absurd spread from moving every figure together: for a test that says so."""
    spreads = all_spreads(package)
    low, high = (
        life_days({name: spread[end] for name, spread in spreads.items()}, package)
        for end in (0, 2)
    )
    return low, high
