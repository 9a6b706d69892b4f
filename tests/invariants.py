"""What has to be true of any stockroom at any time, checked by reading it through the services.

Each check gives the sentences of what is wrong, so an empty list is a sound record.
"""

from __future__ import annotations

from stockroom.domain.conditions import LIVE
from stockroom.domain.keeping.interface import CannotProject
from stockroom.domain.packing import balance_of
from stockroom.domain.recheck_schedule import recheck_many
from stockroom.domain.records import Package, StoredRecheck
from stockroom.services import packing, redrying, shelves
from stockroom.services.keeping import project_package, surroundings
from stockroom.services.list_importing import TAKEN
from stockroom.services.recheck_refresh import facts_for, recheck_settings
from stockroom.services.results import PackageDetail
from stockroom.services.session import Stockroom
from stockroom.store import projections, recheck_rows


def all_troubles(room: Stockroom) -> list[str]:
    """Everything wrong with the record."""
    return [
        *balance_troubles(room),
        *package_troubles(room),
        *queue_troubles(room),
        *projection_troubles(room),
        *recheck_troubles(room),
    ]


def balance_troubles(room: Stockroom) -> list[str]:
    """Lots whose trays, packages, losses and rest do not add up, in dry food or in water."""
    found: list[str] = []
    for lot in packing.list_lots(room, count=10_000):
        detail = packing.lot_detail(room, lot.code)
        packed = [one for one in detail.packages if one.origin == "packed"]
        dry_dg = sum(one.dry_dg for one in (*packed, *detail.losses))
        water_dg = sum(one.water_dg for one in (*packed, *detail.losses))
        if dry_dg + lot.left_dg != lot.dry_dg or lot.left_dg < 0:
            found.append(f"{lot.code}: {dry_dg} + {lot.left_dg} is not {lot.dry_dg} dry")
        if water_dg + balance_of(lot).left_water_dg != lot.water_removed_dg:
            found.append(f"{lot.code}: water does not add up to {lot.water_removed_dg}")
        if lot.note.startswith(TAKEN):
            continue  # It came from a list: no tray was weighed here.
        weighed = (
            sum(t.wet_dg or 0 for t in detail.trays),
            sum(t.dry_dg or 0 for t in detail.trays),
        )
        if weighed != (lot.wet_dg, lot.dry_dg + detail.driven_off_dg):
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


def queue_troubles(room: Stockroom) -> list[str]:
    """Held packages without a place in the queue, places without what they are for, and amounts."""
    found: list[str] = []
    entries = redrying.machine_queue(room)
    waiting = [entry.code for entry in entries]
    found += [f"{code}: is in the queue twice" for code in waiting if waiting.count(code) > 1]
    every = {one.code: one for one in shelves.find_packages(room, shelves.shelf_filter(room))}
    held = {code for code, package in every.items() if package.condition == "held"}
    of_packages = {entry.code: entry for entry in entries if entry.package_id is not None}
    found += [f"{code}: held and queued differ" for code in sorted(held ^ of_packages.keys())]
    for code, entry in of_packages.items():
        if code in every and every[code].left_dg != entry.dry_dg:
            found.append(f"{code}: {entry.dry_dg} is queued of {every[code].left_dg}")
    for entry in entries:
        left_dg = packing.lot_detail(room, entry.lot_code).lot.left_dg
        if entry.package_id is None and entry.dry_dg != left_dg:
            found.append(f"{entry.code}: {entry.dry_dg} is queued of {left_dg}")
    return found


def recheck_troubles(room: Stockroom) -> list[str]:
    """Sound packages without the recheck their record asks for now; others with any."""
    every = shelves.find_packages(room, shelves.shelf_filter(room, gone=True))
    stored = {one.package_id: _recheck_of(room, one) for one in every}
    wanted = dict.fromkeys(stored) | _rechecks_now(
        room, [one for one in every if one.condition == "sound"]
    )
    return [
        f"{one.code}: is {one.condition}, its recheck {stored[one.package_id]}"
        f" is not {wanted[one.package_id]}"
        for one in every
        if stored[one.package_id] != wanted[one.package_id]
    ]


def _recheck_of(room: Stockroom, package: Package) -> StoredRecheck | None:
    return recheck_rows.recheck_of(room.store, package.package_id)


def _rechecks_now(room: Stockroom, sound: list[Package]) -> dict[int, StoredRecheck]:
    """What the schedule says of these packages by their record as it stands."""
    store, ids = room.store, [one.package_id for one in sound]
    facts = facts_for(
        store,
        surroundings(room),
        sound,
        projections.stays_of(store, ids),
        projections.checks_of(store, ids),
        recheck_rows.looked_at(store, sorted({one.lot_id for one in sound})),
    )
    answers = recheck_many(facts, recheck_settings(store))
    return {
        fact.package_id: StoredRecheck(
            fact.package_id, answer.earliest_on, answer.wanted_on, answer.latest_on, answer.risk
        )
        for fact, answer in zip(facts, answers, strict=True)
    }
