"""Draw up data/plain_lives.csv from the class and barrier figures.

    python tests/reference/compute_plain_lives.py

Foil pouches and jars take the life of the class itself: with the oxygen removed its oxygen-free
life, otherwise its life in air. Plastic lets oxygen and moisture through, so its rows are
computed here at 21 °C from

- oxygen: gas = volume - dry/1.5; oxygen = 0.2095 x gas x (29.921 - gauge)/29.921; what the
  absorber leaves, and what comes through the film once its reserve is spent, uses up the life
  (additive damage, uptake limited through the life in air);
- moisture: the GAB isotherm, film permeance from its vapour transmission, time from the first
  water activity to the one at which the food stops being crisp;
- the band: each figure alone at its pessimistic and optimistic value, the logarithms of the
  ratios to the middle life added in squares, low and high apart;
- never above 25 years, and never above the same life in a foil pouch.

The reference package is 150 g dry in 1,500 mL behind 0.12 m2 of film, a 300 cc absorber where
oxygen is removed, 22 inHg for a vacuum bag, room air at 55 % humidity.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

DATA = Path(__file__).resolve().parents[2] / "stockroom" / "reference" / "data"
HEADER = (
    "food_class",
    "package_kind",
    "oxygen_removed",
    "low_months",
    "mid_months",
    "high_months",
    "limited_by",
    "source",
    "standing",
)
ENDS = ("pessimistic", "middle", "optimistic")
Spread = tuple[float, float, float]

DAYS_A_YEAR = 365.25
CAP_DAYS = 25 * DAYS_A_YEAR
STORED_AT_C = 21.0
PLAIN = ("foil_pouch", "jar")
PLASTIC = ("metallised_pouch", "vacuum_bag", "zip_bag")

# Engineering judgement: water activity when packed, humidity of the room.
FIRST_ACTIVITY: Spread = (0.15, 0.10, 0.05)
ROOM_HUMIDITY: Spread = (0.65, 0.55, 0.45)


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


@dataclass(frozen=True)
class Pack:
    """One package: grams, millilitres, square metres, cc and inHg."""

    kind: str
    dry_g: float = 150.0
    volume_ml: float = 1500.0
    area_m2: float = 0.12
    absorber_cc: float = 0.0
    gauge_inhg: float = 0.0
    residual: float = 0.03


@dataclass
class Figures:
    """Every figure the life depends on, each with its spread; isotherm without."""

    spreads: dict[str, Spread] = field(default_factory=dict)

    def at(self, changed: str = "", end: int = 1) -> dict[str, float]:
        """All figures at their middle, but one at another place."""
        return {
            name: spread[end if name == changed else 1] for name, spread in self.spreads.items()
        }


def figures(food_class: str, kind: str) -> Figures:
    """The figures of a class in a package, read from the shipped tables."""
    spreads: dict[str, Spread] = {
        "first_activity": FIRST_ACTIVITY,
        "room_humidity": ROOM_HUMIDITY,
        "oxygen_transmission": (0.0, 0.0, 0.0),
        "vapour_transmission": (0.0, 0.0, 0.0),
        "lid_oxygen": (0.0, 0.0, 0.0),
        "lid_vapour": (0.0, 0.0, 0.0),
    }
    for table, column, wanted in (
        ("class_figures", "food_class", food_class),
        ("barriers", "package_kind", kind),
    ):
        with (DATA / f"{table}.csv").open(encoding="utf-8", newline="") as rows:
            for row in csv.DictReader(rows):
                if row[column] == wanted:
                    pess, mid, opt = (float(row[end]) for end in ENDS)
                    spreads[row["quantity"]] = (pess, mid, opt)
    return Figures(spreads)


def moisture_days(value: Mapping[str, float], pack: Pack) -> float:
    """Days until the food stops being crisp; infinite in a room drier than that."""
    start, stop = value["first_activity"], value["crisp_limit"]
    room = value["room_humidity"]
    if room <= stop:
        return math.inf
    isotherm = (value["gab_monolayer"], value["gab_c"], value["gab_k"])
    permeance = value["vapour_transmission"] / (saturation_kpa(38.0) * 0.90)
    lid = value["lid_vapour"] / 1000 / (saturation_kpa(25.0) * 0.6)
    through = (permeance * pack.area_m2 + lid) * saturation_kpa(STORED_AT_C)
    step = (stop - start) / 400
    total = 0.0
    for number in range(400):
        activity = start + (number + 0.5) * step
        rise = gab(activity + step / 2, *isotherm) - gab(activity - step / 2, *isotherm)
        total += rise / (room - activity)
    return pack.dry_g * (1 - pack.residual) * total / through


def oxygen_days(value: Mapping[str, float], pack: Pack) -> float:
    """Days until time and oxygen have used up the life at 21 °C."""
    gas = pack.volume_ml - pack.dry_g / 1.5
    oxygen = 0.2095 * gas * (29.921 - pack.gauge_inhg) / 29.921
    ingress = value["oxygen_transmission"] * pack.area_m2 * 0.2095 + value["lid_oxygen"]
    return quality_days(
        value["life_without_oxygen"] * DAYS_A_YEAR,
        value["life_in_air"] * DAYS_A_YEAR / 12,
        max(0.0, oxygen - pack.absorber_cc),
        max(0.0, pack.absorber_cc - oxygen),
        ingress,
        pack.dry_g,
        value["oxygen_tolerance"],
    )


def life_days(value: Mapping[str, float], pack: Pack) -> float:
    """The shortest of quality, crispness and 25 years."""
    return min(oxygen_days(value, pack), moisture_days(value, pack), CAP_DAYS)


def band_days(known: Figures, pack: Pack) -> Spread:
    """Low, middle and high life, days."""
    middle = life_days(known.at(), pack)
    down = up = 0.0
    for name in known.spreads:
        for end in (0, 2):
            change = math.log(life_days(known.at(name, end), pack) / middle)
            down += change * change if change < 0 else 0.0
            up += change * change if change > 0 else 0.0
    high = min(CAP_DAYS, middle * math.exp(math.sqrt(up)))
    return middle * math.exp(-math.sqrt(down)), middle, high


def limited_by(known: Figures, pack: Pack) -> str:
    """What ends the middle life first."""
    value = known.at()
    quality, moisture = oxygen_days(value, pack), moisture_days(value, pack)
    if moisture < min(quality, CAP_DAYS):
        return "moisture"
    if quality > CAP_DAYS:
        return "cap"
    return "temperature" if quality >= value["life_without_oxygen"] * DAYS_A_YEAR / 2 else "oxygen"


def reference_pack(kind: str, removed: bool) -> Pack:
    """The package a row of the table stands for."""
    return Pack(
        kind,
        absorber_cc=300.0 if removed else 0.0,
        gauge_inhg=22.0 if kind == "vacuum_bag" else 0.0,
    )


def class_row(food_class: str, kind: str, removed: bool) -> list[str]:
    """A foil pouch or jar: the life of the class itself, in months, cut at 25 years."""
    spreads = figures(food_class, kind).spreads
    in_air = spreads["life_in_air"]
    free = spreads["life_without_oxygen"]
    months = [min(300.0, 12 * years) for years in free] if removed else list(in_air)
    binding = "temperature" if removed else "oxygen"
    shown = [f"{one:g}" for one in months]
    return [
        food_class,
        kind,
        "yes" if removed else "no",
        *shown,
        binding,
        "plain-lives-class",
        "engineering judgement",
    ]


def computed_row(food_class: str, kind: str, removed: bool, ceiling: list[float]) -> list[str]:
    """A plastic package: computed, held at the life in foil, rounded down to 0.01 month."""
    known, pack = figures(food_class, kind), reference_pack(kind, removed)
    days = band_days(known, pack)
    months = [min(one * 12 / DAYS_A_YEAR, top) for one, top in zip(days, ceiling, strict=True)]
    shown = [f"{math.floor(one * 100 + 1e-9) / 100:g}" for one in months]
    return [
        food_class,
        kind,
        "yes" if removed else "no",
        *shown,
        limited_by(known, pack),
        "plain-lives-computed",
        "computed",
    ]


def food_classes() -> list[str]:
    """The classes in the order of the class figures."""
    with (DATA / "class_figures.csv").open(encoding="utf-8", newline="") as rows:
        return list(dict.fromkeys(row["food_class"] for row in csv.DictReader(rows)))


def table() -> Iterator[list[str]]:
    """Every row, each held at the better package before it."""
    for food_class in food_classes():
        for removed in (True, False):
            plain = [class_row(food_class, kind, removed) for kind in PLAIN]
            yield from plain
            ceiling = [float(one) for one in plain[0][3:6]]
            for kind in PLASTIC:
                row = computed_row(food_class, kind, removed, ceiling)
                ceiling = [float(one) for one in row[3:6]]
                yield row


def main(write: Callable[[str], object] = print) -> None:
    """Write the table anew."""
    with (DATA / "plain_lives.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(HEADER)
        writer.writerows(table())
    write(f"wrote {DATA.name}/plain_lives.csv")


if __name__ == "__main__":
    main()
