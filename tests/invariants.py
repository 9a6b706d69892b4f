"""What has to be true of any stockroom at any time, checked by reading it through the services.

Each check gives the sentences of what is wrong, so an empty list is a sound record.
"""

from __future__ import annotations

from stockroom.domain.conditions import LIVE
from stockroom.domain.keeping.interface import CannotProject
from stockroom.domain.packing import LotBalance
from stockroom.domain.records import Lot, Package
from stockroom.services import packing, shelves
from stockroom.services.keeping import project_package
from stockroom.services.results import PackageDetail
from stockroom.services.session import Stockroom


def all_troubles(room: Stockroom) -> list[str]:
    """Everything wrong with the record."""
    return [*balance_troubles(room), *package_troubles(room), *projection_troubles(room)]


def balance_troubles(room: Stockroom) -> list[str]:
    """Lots whose trays, packages, losses and rest do not add up, in dry food or in water."""
    found: list[str] = []
    for lot in packing.list_lots(room, count=10_000):
        detail = packing.lot_detail(room, lot.code)
        dry_dg = sum(one.dry_dg for one in (*detail.packages, *detail.losses))
        water_dg = sum(one.water_dg for one in (*detail.packages, *detail.losses))
        if dry_dg + lot.left_dg != lot.dry_dg or lot.left_dg < 0:
            found.append(f"{lot.code}: {dry_dg} + {lot.left_dg} is not {lot.dry_dg} dry")
        if water_dg + _balance(lot).left_water_dg != lot.water_removed_dg:
            found.append(f"{lot.code}: water does not add up to {lot.water_removed_dg}")
        weighed = (
            sum(t.wet_dg or 0 for t in detail.trays),
            sum(t.dry_dg or 0 for t in detail.trays),
        )
        if weighed != (lot.wet_dg, lot.dry_dg):
            found.append(f"{lot.code}: its trays weigh {weighed}")
    return found


def package_troubles(room: Stockroom) -> list[str]:
    """Packages whose draws do not add up, or whose condition does not fit what is in them."""
    found: list[str] = []
    for package in shelves.find_packages(room, shelves.shelf_filter(room, gone=True)):
        history = shelves.package_detail(room, package.code).history
        drawn = [line for line in history if line.event == "draw"]
        if sum(line.dry_dg or 0 for line in drawn) != package.taken_dg:
            found.append(f"{package.code}: its draws are not what was taken")
        if sum(line.water_dg or 0 for line in drawn) != package.taken_water_dg:
            found.append(f"{package.code}: the water of its draws is not what was taken")
        if package.left_dg == 0 and package.taken_water_dg != package.water_dg:
            found.append(f"{package.code}: is empty but has water over")
        if not 0 <= package.left_dg <= package.dry_dg or package.left_water_dg < 0:
            found.append(f"{package.code}: more was taken than there was")
        if (package.condition == "used") != (package.left_dg == 0):
            found.append(f"{package.code}: is {package.condition} with {package.left_dg} left")
        if history[-1].condition not in ("", package.condition):
            found.append(f"{package.code}: its history ends otherwise")
    return found


def projection_troubles(room: Stockroom) -> list[str]:
    """Live packages without the projection the model gives now; gone ones with any."""
    found: list[str] = []
    for package in shelves.find_packages(room, shelves.shelf_filter(room, gone=True)):
        detail = shelves.package_detail(room, package.code)
        if package.condition not in LIVE:
            if detail.projection or detail.no_best_by or package.best_by is not None:
                found.append(f"{package.code}: is {package.condition} and has a best-by")
            continue
        if not detail.projection and not detail.no_best_by:
            found.append(f"{package.code}: has no projection")
        elif _as_stored(detail) != _as_now(room, package):
            found.append(f"{package.code}: its projection is stale")
    return found


def _as_stored(detail: PackageDetail) -> tuple[object, ...]:
    kept = detail.projection
    if kept is None:
        return (detail.no_best_by,)
    days = (kept.best_by, kept.low, kept.high, kept.recheck_by, kept.discard_by)
    return (*days, kept.limited_by, kept.model)


def _as_now(room: Stockroom, package: Package) -> tuple[object, ...]:
    """What the model says of the package today, its refusal in its own words."""
    try:
        now = project_package(room, package)
    except CannotProject as refusal:
        return (str(refusal),)
    days = (now.best_by, now.low, now.high, now.recheck_by, now.discard_by)
    return (*days, now.limited_by, now.model)


def _balance(lot: Lot) -> LotBalance:
    return LotBalance(lot.code, lot.wet_dg, lot.dry_dg, lot.packed_dg, lot.lost_dg)
