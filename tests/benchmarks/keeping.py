"""What projecting a whole store costs: run by `python -m tests.benchmarks.keeping`.

100,000 packages the way a busy household or a shared machine packs them: lots of 6 to 10 equal
packages, ten lots to a food, several containers and places, sealed over two years, some moved.
Set against the plain formula in a straight Python loop over packages, which is timed on an even
sample of the same packages, since all of them would take the better part of an hour. The last
line says whether the aim is met.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import date, timedelta
from fractions import Fraction
from random import Random

from stockroom.domain.keeping.full_model import FullModel
from stockroom.domain.keeping.interface import FoodClass, KeepingCase, PackageKind, Stay
from stockroom.reference.keeping_figures import keeping_figures
from tests.benchmarks.measure import Ratio, Timing, ratios_table, repeat, timings_table
from tests.benchmarks.plain_keeping import PlainPackage, band_days

PACKAGES = 100_000
SAMPLE = 200
TIMES = 3
LOTS_A_FOOD = 10
AIM = 20.0
"""The least the plain loop may take, over the model."""

FIRST_DAY = date(2024, 10, 1)
SEASON_DAYS = 730
# Tenths of a degree: a cupboard, a cellar, a loft, a freezer, a warm kitchen.
PLACES_DC = (180, 90, 160, -180, 240)
# Kind, volume, film, absorber and vacuum, as the demo's household packs.
CLOSURES = (
    (PackageKind.FOIL_POUCH, 946, None, 200, None),
    (PackageKind.FOIL_POUCH, 1500, 120_000, 300, None),
    (PackageKind.FOIL_POUCH, 3785, None, 1000, None),
    (PackageKind.METALLISED_POUCH, 946, None, 200, None),
    (PackageKind.VACUUM_BAG, 1500, 120_000, 0, 220),
    (PackageKind.ZIP_BAG, 1000, None, 0, None),
    (PackageKind.JAR, 475, None, 100, None),
    (PackageKind.JAR, 946, None, 0, 220),
    (PackageKind.JAR, 1900, None, 500, None),
)


def lot_cases(chance: Random, food_class: FoodClass) -> Iterator[KeepingCase]:
    """The packages of one lot: equal ones, and one moved on later or none."""
    kind, volume_ml, area_mm2, absorber_cc, vacuum = chance.choice(CLOSURES)
    sealed_on = FIRST_DAY + timedelta(days=chance.randrange(SEASON_DAYS))
    stays = [Stay(sealed_on, chance.choice(PLACES_DC))]
    if chance.random() < 0.2:
        moved_on = sealed_on + timedelta(days=chance.randrange(1, 200))
        stays.append(Stay(moved_on, chance.choice(PLACES_DC)))
    dry_dg = chance.randrange(300, volume_ml * 2)
    for _ in range(chance.randrange(6, 11)):
        yield KeepingCase(
            food_class=food_class,
            fat_of_solids=Fraction(3, 100),
            package_kind=kind,
            dry_dg=dry_dg,
            volume_ml=volume_ml,
            area_mm2=area_mm2,
            absorber_cc=absorber_cc,
            vacuum_tenth_inhg=vacuum,
            residual_moisture=None,
            sealed_on=sealed_on,
            stays=tuple(Stay(one.from_day, one.temperature_dc) for one in stays),
        )


def shelf_of(count: int, seed: int = 26329) -> list[KeepingCase]:
    """So many packages, the same at every call, no two of them the same object."""
    chance = Random(seed)
    classes = list(FoodClass)
    cases: list[KeepingCase] = []
    while len(cases) < count:
        food_class = chance.choice(classes)
        for _ in range(LOTS_A_FOOD):
            cases.extend(lot_cases(chance, food_class))
    return cases[:count]


def plainly(case: KeepingCase) -> PlainPackage:
    """The same package for the plain formula, which knows its first place only."""
    first = case.stays[0].temperature_dc
    assert first is not None
    area_m2 = 0.12 * (case.volume_ml / 1500) ** (2 / 3)
    if case.area_mm2 is not None:
        area_m2 = case.area_mm2 / 1_000_000
    return PlainPackage(
        case.food_class.value,
        case.package_kind.value,
        case.dry_dg / 10,
        case.volume_ml,
        0.0 if case.package_kind is PackageKind.JAR else area_m2,
        case.absorber_cc,
        (case.vacuum_tenth_inhg or 0) / 10,
        0.03,
        first / 10,
        0.55,
        measured=False,
    )


def main() -> int:
    """Measure, print, and return 0 when the aim is met."""
    cases = shelf_of(PACKAGES)
    sample = [plainly(case) for case in cases[:: len(cases) // SAMPLE]]
    model = FullModel(keeping_figures())
    many = repeat("project_many, all of them", lambda: model.project_many(cases), TIMES)
    timed = repeat("plain loop", lambda: [band_days(one) for one in sample], TIMES)
    scale = len(cases) / len(sample)
    plain = Timing(
        f"plain loop, {len(sample)} timed, scaled to all",
        tuple(time_ms * scale for time_ms in timed.times_ms),
    )
    ratio = Ratio("plain loop over project_many", plain, many)
    print(f"{len(cases)} packages, {len(set(cases))} distinct among them\n")
    print("\n".join((*timings_table((many, plain)), "", *ratios_table((ratio,)), "")))
    met = ratio.value >= AIM
    print(f"aim, at least {AIM:g}: {'met' if met else 'missed'}")
    return 0 if met else 1


if __name__ == "__main__":
    sys.exit(main())
