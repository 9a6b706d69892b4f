"""What projecting a whole store costs: run by `python -m tests.benchmarks.keeping`.

100,000 packages the way a busy household or a shared machine packs them: lots of 6 to 10 equal
packages, ten lots to a food, several containers and places, sealed over two years, some moved.
Set against the plain formula in a straight Python loop over packages, which is timed on an even
sample of the same packages, since all of them would take the better part of an hour. Then the same
for a store on disk, read, computed and written by the service that a change of settings runs. The
last line says whether the aim is met by the model, and by the service with all its reading and
writing.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

from stockroom.domain.keeping.full_model import FullModel
from stockroom.domain.keeping.interface import FoodClass, KeepingCase, PackageKind, Stay
from stockroom.reference.keeping_figures import keeping_figures
from stockroom.services.keeping import case_of, refresh_everything
from stockroom.services.session import Stockroom
from stockroom.store.package_rows import packages_by_ids
from stockroom.store.projections import live_package_ids
from stockroom.store.writing import write
from tests.benchmarks.full_store import full_store
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


def in_model() -> Ratio:
    """The model alone against the plain loop."""
    cases = shelf_of(PACKAGES)
    sample = [plainly(case) for case in cases[:: len(cases) // SAMPLE]]
    model = FullModel(keeping_figures())
    many = repeat("project_many, all of them", lambda: model.project_many(cases), TIMES)
    timed = repeat("plain loop", lambda: [band_days(one) for one in sample], TIMES)
    ratio = Ratio("plain loop over project_many", _scaled(timed, len(cases), len(sample)), many)
    print(f"{len(cases)} packages, {len(set(cases))} distinct among them\n")
    return ratio


def stored(path: Path) -> Stockroom:
    """A store of so many packages in 27 bins, each sealed there on the day of its lot."""
    room = full_store(path, PACKAGES)
    with write(room.store):
        # No action of anybody: the journal's entry for it is the last one made with the store.
        room.store.run(
            "INSERT INTO package_event (package_id, on_day, event, to_condition, to_location_id)"
            " SELECT id, sealed_on, 'sealed', 'settling', location_id FROM package"
        )
    return room


def in_store() -> Ratio:
    """Every projection of a store read, computed and written, against the plain loop."""
    with tempfile.TemporaryDirectory() as folder:
        room = stored(Path(folder) / "stockroom.db")
        ids = live_package_ids(room.store)
        some = packages_by_ids(room.store, ids[:: len(ids) // SAMPLE])
        sample = [plainly(case_of(room, package)) for package in some]
        whole = repeat("refresh_everything, all of them", lambda: refresh_everything(room), TIMES)
        room.close()
    timed = repeat("plain loop", lambda: [band_days(one) for one in sample], TIMES)
    ratio = Ratio(
        "plain loop over refresh_everything", _scaled(timed, len(ids), len(sample)), whole
    )
    print(f"{len(ids)} packages in a store: {len(ids) / whole.median_ms * 1000:.0f} in a second\n")
    return ratio


def _scaled(timed: Timing, count: int, sample: int) -> Timing:
    return Timing(
        f"plain loop, {sample} timed, scaled to all",
        tuple(time_ms * count / sample for time_ms in timed.times_ms),
    )


def main() -> int:
    """Measure, print, and return 0 when the aim is met."""
    met = True
    for measure in (in_model, in_store):
        ratio = measure()
        print("\n".join((*timings_table((ratio.bottom, ratio.top)), "", *ratios_table((ratio,)))))
        print()
        met = met and ratio.value >= AIM
    print(f"aim, at least {AIM:g}: {'met' if met else 'missed'}")
    return 0 if met else 1


if __name__ == "__main__":
    sys.exit(main())
