"""How figures on record were reached: the workings of packages, lots, runs and dishes.

Each is written from what the figure itself was computed from: the case the model was asked, the
packages that were picked, the weights on record. Nothing here changes the record.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stockroom.domain.conditions import LIVE
from stockroom.domain.cooking_working import cook_workings
from stockroom.domain.drying import TrayWeights
from stockroom.domain.dryness_working import residual_working
from stockroom.domain.keeping.interface import CannotProject, KeepingCase
from stockroom.domain.lot_working import lot_water_working
from stockroom.domain.packing import LotBalance, part_water
from stockroom.domain.records import Food, Lot, Package, Tray
from stockroom.domain.run_working import LoadedTray, expected_water_working, food_water_working
from stockroom.domain.take_working import Origin, Taking, take_working
from stockroom.domain.water_working import water_working
from stockroom.domain.working import Source, Trace, Working
from stockroom.reference.foods import foods as reference_foods
from stockroom.services.bench import run_detail
from stockroom.services.finding import find_lot, find_package
from stockroom.services.keeping import case_of
from stockroom.services.packages import refuse_gone
from stockroom.services.results import CookSheet, WorkingPage
from stockroom.services.session import Stockroom
from stockroom.services.written_recipes import written_recipe
from stockroom.store import food_rows, package_rows, run_rows

_ALIKE = (
    "lot_id",
    "container_key",
    "absorber_cc",
    "vacuum",
    "place_id",
    "sealed_on",
    "opened_on",
    "best_by",
)
_NAMED = 3
"""Codes named in a title; the others are counted."""


def best_by_working(room: Stockroom, case: KeepingCase, title: str = "Best-by") -> Working:
    """The derivation of a best-by, or why there is none and what to do about it."""
    try:
        return replace(room.model.explain(case), title=title)
    except CannotProject as refusal:
        return refused_working(refusal, title)


def refused_working(refusal: CannotProject, title: str) -> Working:
    """A working that says why there is no figure and what to do about it."""
    trace = Trace(title)
    what = f"no {title.split(',')[0].split(' of ')[0].lower()}"
    trace.note(what, str(refusal))
    trace.caution(refusal.hint)
    trace.conclude(f"none: {refusal}")
    return trace.finish()


# A package


def package_working(room: Stockroom, code: str) -> WorkingPage:
    """How the water and the best-by of a package were reached.

    Raises NotFound, BadInput, CodeMistyped.
    """
    package = find_package(room, code)
    return WorkingPage(package.code, tuple(_package_workings(room, package)))


def _package_workings(room: Stockroom, package: Package) -> list[Working]:
    """Its water as packed; its best-by, as long as it stands somewhere."""
    lot = find_lot(room, package.lot_code)
    workings = [
        water_working(
            lot.wet_dg, lot.dry_dg, package.dry_dg, package.water_dg,
            trays=max(1, len(_trays(room, lot))),
        )
    ]  # fmt: skip
    if package.condition in LIVE:
        workings.append(best_by_working(room, case_of(room, package)))
    return workings


def draw_working(room: Stockroom, package: Package, take_dg: int) -> WorkingPage:
    """How the water for so much out of a package is reached. Raises TooMuchTaken, StandsNowhere.

    `package` is as it stands, or stood, before the food is taken.
    """
    refuse_gone(package)
    water_dg = part_water(package.left_dg, package.left_water_dg, 0, take_dg)
    taking = Taking(take_dg, water_dg, package.left_dg, package.left_water_dg)
    water = take_working(_origin(room, package), taking)
    return WorkingPage(package.code, (water, best_by_working(room, case_of(room, package))))


def _origin(room: Stockroom, package: Package) -> Origin:
    """A package with the weights of its lot."""
    lot = find_lot(room, package.lot_code)
    return Origin(
        package.code,
        lot.code,
        lot.wet_dg,
        lot.dry_dg,
        package.dry_dg,
        package.water_dg,
        max(1, len(_trays(room, lot))),
    )


# A lot and a run


def lot_working(room: Stockroom, code: str, package: Package | None = None) -> WorkingPage:
    """How a lot's water and residual moisture were reached, then the figures of its packages.

    With `package` those of that package alone; without, one best-by for packages that are alike.
    Raises NotFound, BadInput.
    """
    lot = find_lot(room, code)
    trays = _trays(room, lot)
    balance = LotBalance(lot.code, lot.wet_dg, lot.dry_dg, lot.packed_dg, lot.lost_dg)
    workings = [
        lot_water_working(balance, lot.packed_water_dg, lot.lost_water_dg, trays),
        moisture_working(room, lot),
    ]
    if package is not None:
        workings += [
            replace(one, title=f"{one.title} of {package.code}")
            for one in _package_workings(room, package)
        ]
    else:
        workings += [
            best_by_working(room, case_of(room, some[0]), f"Best-by of {_codes(some)}")
            for some in _alike(package_rows.packages_of_lot(room.store, lot.lot_id))
        ]
    return WorkingPage(lot.code, tuple(workings))


def made_working(room: Stockroom, lot_code: str, packages: Sequence[Package]) -> WorkingPage:
    """How water and best-by of packages just closed were reached; alike ones share a page."""
    workings: list[Working] = []
    for some in _alike(packages):
        water, *others = _package_workings(room, some[0])
        workings.append(replace(water, title=f"{water.title} of {some[0].code}"))
        workings += [replace(one, title=f"{one.title} of {_codes(some)}") for one in others]
    return WorkingPage(lot_code, tuple(workings))


def _alike(packages: Sequence[Package]) -> list[list[Package]]:
    """Packages that are still there by kind, in the order met: what holds for one holds for all.

    An even split leaves weights that differ by a tenth of a gram; those count as one.
    """
    groups: list[list[Package]] = []
    for one in packages:
        if one.condition in LIVE:
            group = next((some for some in groups if _is_like(some[0], one)), None)
            if group is None:
                groups.append([one])
            else:
                group.append(one)
    return groups


def _is_like(one: Package, other: Package) -> bool:
    """Whether two packages have one working."""
    return abs(one.dry_dg - other.dry_dg) <= 1 and all(
        getattr(one, name) == getattr(other, name) for name in _ALIKE
    )


def moisture_working(room: Stockroom, lot: Lot) -> Working:
    """The residual moisture of a lot, estimated from its weights and its food's composition."""
    food = food_rows.food_by_id(room.store, lot.food_id)
    assert food is not None
    if food.water_cg is None or food.water_cg >= 10_000:
        trace = Trace("Residual moisture")
        trace.note("residual moisture", f"not estimated: the water in {food.name} is not on record")
        trace.caution("Go by the plateau and the break test.")
        trace.conclude("not estimated: the food's composition is not on record")
        return trace.finish()
    return residual_working(
        lot.wet_dg,
        lot.dry_dg,
        food.water_cg / 10_000,
        water_source=_water_source(food),
        trays=max(1, len(_trays(room, lot))),
    )


def run_working(room: Stockroom, run_id: int | None = None) -> WorkingPage:
    """How the water to expect of a run's load, and the water each food lost, are reached.

    Without a number, of the one open run. Raises as `run_detail` does.
    """
    detail = run_detail(room, run_id)
    loaded = [_loaded(room, tray) for tray in detail.trays if not tray.again]
    workings: list[Working] = []
    if detail.run.state == "open" and loaded:
        workings.append(expected_water_working(loaded, detail.expected_water_dg))
    for name in dict.fromkeys(one.food for one in loaded):
        working = food_water_working(name, [one for one in loaded if one.food == name])
        workings += [] if working is None else [working]
    return WorkingPage(f"run {detail.run.run_id}", tuple(workings))


def _loaded(room: Stockroom, tray: Tray) -> LoadedTray:
    food = food_rows.food_by_id(room.store, tray.food_id)
    assert food is not None
    return LoadedTray(
        tray.position, tray.food, tray.wet_dg, tray.dry_dg, food.water_cg, _water_source(food)
    )


def _water_source(food: Food) -> Source | None:
    """Where a food's share of water is from; None for the household's own figure."""
    shipped = reference_foods().get(food.reference_key or "")
    return shipped.source if shipped is not None and shipped.water_cg == food.water_cg else None


def _trays(room: Stockroom, lot: Lot) -> tuple[TrayWeights, ...]:
    """The trays a lot came from; none when their weights do not add up to the lot's."""
    trays = tuple(
        TrayWeights(tray.position, tray.wet_dg, tray.dry_dg)
        for tray in run_rows.trays_of_lot(room.store, lot.lot_id)
        if tray.wet_dg is not None and tray.dry_dg is not None
    )
    sums = sum(one.wet_dg for one in trays), sum(one.dry_dg for one in trays)
    return trays if sums == (lot.wet_dg, lot.dry_dg) else ()


# A dish


def cook_working(room: Stockroom, sheet: CookSheet) -> WorkingPage:
    """How the water of each food of a dish, and of all of it, is reached.

    Raises MeasureMissing for a sheet without its written recipe whose measure is gone.
    """
    ids = {pick.candidate.package_id for line in sheet.plan.lines for pick in line.picks}
    packages = package_rows.packages_by_ids(room.store, sorted(ids))
    origins = {one.package_id: _origin(room, one) for one in packages}
    recipe = sheet.written or written_recipe(room, sheet.recipe)
    return WorkingPage(sheet.recipe.name, cook_workings(recipe, sheet.plan, origins, sheet.way))


def _codes(packages: Sequence[Package]) -> str:
    """Codes for a title, the rest counted."""
    shown = ", ".join(one.code for one in packages[:_NAMED])
    more = len(packages) - _NAMED
    return f"{shown} and {more} more" if more > 0 else shown
