"""What would become of a best-by elsewhere or packed otherwise, and which change gains most.

A move counts from today: what the package has been through stays. Another container or absorber
means that the food is dried again to plateau and repacked today: moisture starts anew, the damage
done stays. Every date is a quality estimate, not safety.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from stockroom.domain.conditions import LIVE
from stockroom.domain.keeping.interface import (
    CannotProject,
    KeepingCase,
    PackageKind,
    Projection,
)
from stockroom.domain.keeping.oxygen import absorber_figures
from stockroom.domain.records import Container, Package, Place
from stockroom.errors import Refused
from stockroom.reference.containers import absorber_sizes
from stockroom.services.finding import find_lot, find_package
from stockroom.services.keeping import Surroundings, keeping_case, stay_at, surroundings
from stockroom.services.packages import refuse_gone
from stockroom.services.results import Choice, Gain, WhatIfPage
from stockroom.store import food_rows, package_rows, place_rows
from stockroom.store.projections import checks_of, live_package_ids, stays_of

if TYPE_CHECKING:
    from stockroom.services.session import Stockroom

VACUUM_TENTH_INHG = 220
"""A gauge vacuum a household pump reaches, 22 inHg (engineering judgement)."""

LEAST_GAIN_DAYS = 60
"""Advice that gains less is not worth the walk (engineering judgement)."""

_REPACK_INTO = (PackageKind.JAR, PackageKind.FOIL_POUCH)
_BATCH = 200


class NothingOnShelf(Refused):
    """A lot of which no package is left cannot be kept otherwise."""

    def __init__(self, code: str) -> None:
        super().__init__(
            f"Lot {code} has no package on the shelves.",
            f"Look at it with stockroom lot show {code}; what is left to pack: stockroom advise.",
        )
        self.code = code


def what_if(room: Stockroom, code: str) -> WhatIfPage:
    """A package in every other climate the household has, and repacked in other ways.

    Raises NotFound, BadInput, CodeMistyped, StandsNowhere.
    """
    package = find_package(room, code)
    refuse_gone(package)
    around = surroundings(room)
    case = _cases(room, around, [package])[0]
    options = [*_moves(room, around, package, case), *_repacks(room, package, case)]
    now, *found = _answers(room, [(_as_it_is(), case), *options])
    choices = [replace(one, gain_days=_days(now, one)) for one in found]
    return WhatIfPage(package, now, tuple(sorted(choices, key=lambda one: -one.gain_days)))


def what_if_lot(room: Stockroom, code: str) -> tuple[WhatIfPage, ...]:
    """The same for each kind of package a lot has on the shelves; alike ones share a page.

    Raises NotFound, BadInput, NothingOnShelf.
    """
    lot = find_lot(room, code)
    groups: dict[tuple[object, ...], list[Package]] = {}
    for one in package_rows.packages_of_lot(room.store, lot.lot_id):
        if one.condition in LIVE:
            alike = (one.container_key, one.absorber_cc, one.vacuum, one.place_id, one.best_by)
            groups.setdefault(alike, []).append(one)
    if not groups:
        raise NothingOnShelf(lot.code)
    return tuple(
        replace(what_if(room, alike[0].code), alike=tuple(one.code for one in alike))
        for alike in groups.values()
    )


def gains(
    room: Stockroom,
    *,
    most: int = 20,
    progress: Callable[[int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> tuple[Gain, ...]:
    """The moves and repackings that gain the store the most, ranked by servings times days.

    Packages alike are advised together; open and doubtful ones are left out.
    """
    around = surroundings(room)
    groups = _groups(room)
    found: list[Gain] = []
    for number, packages in enumerate(groups):
        if cancelled is not None and cancelled():
            break
        found.extend(_gains_of(room, around, packages))
        if progress is not None and number % 10 == 0:
            progress(number, len(groups))
    return tuple(sorted(found, key=lambda gain: -gain.serving_days)[:most])


def _gains_of(room: Stockroom, around: Surroundings, packages: list[Package]) -> list[Gain]:
    case = _cases(room, around, packages[:1])[0]
    package = packages[0]
    options = [*_moves(room, around, package, case), *_repacks(room, package, case)]
    now, *found = _answers(room, [(_as_it_is(), case), *options])
    servings = sum((one.servings_left for one in packages), Fraction(0))
    best: dict[str, Choice] = {}
    for choice in (replace(one, gain_days=_days(now, one)) for one in found):
        other = best.get(choice.kind)
        if other is None or choice.gain_days > other.gain_days:
            best[choice.kind] = choice
    return [
        Gain(tuple(packages), choice, servings, now)
        for choice in best.values()
        if choice.gain_days >= LEAST_GAIN_DAYS
    ]


def _groups(room: Stockroom) -> list[list[Package]]:
    """Live, sealed packages alike in all the model sees, together."""
    groups: dict[tuple[object, ...], list[Package]] = {}
    ids = live_package_ids(room.store)
    for start in range(0, len(ids), _BATCH):
        for one in package_rows.packages_by_ids(room.store, ids[start : start + _BATCH]):
            if one.condition not in ("settling", "sound"):
                continue
            alike = (one.lot_id, one.container_key, one.absorber_cc, one.vacuum, one.place_id)
            # The best-by tells apart those that stood elsewhere before, or hold more or less.
            groups.setdefault((*alike, one.sealed_on, one.best_by), []).append(one)
    return list(groups.values())


def _cases(room: Stockroom, around: Surroundings, packages: Sequence[Package]) -> list[KeepingCase]:
    ids = [package.package_id for package in packages]
    stays, checks = stays_of(room.store, ids), checks_of(room.store, ids)
    return [
        keeping_case(one, around, stays[one.package_id], checks[one.package_id]) for one in packages
    ]


def _as_it_is() -> Choice:
    return Choice("now", "left as it is", None, None, None, "", 0)


def _moves(
    room: Stockroom, around: Surroundings, package: Package, case: KeepingCase
) -> list[tuple[Choice, KeepingCase]]:
    """The package moved today to each place with a climate of its own."""
    here = _climate_key(around, package.place_id)
    seen = {here}
    options: list[tuple[Choice, KeepingCase]] = []
    for place in place_rows.all_places(room.store):
        key = _climate_key(around, place.place_id)
        if key in seen or key[:2] == (None, ()):
            continue
        seen.add(key)
        options.append(_move(room, around, place, case))
    return options


def _move(
    room: Stockroom, around: Surroundings, place: Place, case: KeepingCase
) -> tuple[Choice, KeepingCase]:
    choice = replace(_as_it_is(), kind="move", words=f"moved to {place.path}", place=place.path)
    stays = tuple(one for one in case.stays if one.from_day < room.today)
    return choice, replace(case, stays=(*stays, stay_at(room.today, place.place_id, around)))


def _climate_key(
    around: Surroundings, place_id: int | None
) -> tuple[int | None, tuple[int, ...], int | None]:
    climate = None if place_id is None else around.climates.get(place_id)
    if climate is None:
        return None, (), None
    return climate.temperature_dc, climate.monthly_dc, climate.humidity_percent


def _repacks(
    room: Stockroom, package: Package, case: KeepingCase
) -> list[tuple[Choice, KeepingCase]]:
    """The food dried again and closed anew: the same container with the absorber it needs, the
    nearest jar and foil pouch, and the same container under vacuum alone."""
    sizes = tuple(one.size_cc for one in absorber_sizes())
    containers = food_rows.all_containers(room.store)
    own = next(one for one in containers if one.key == package.container_key)
    wanted = [own, *(_nearest(containers, kind, package) for kind in _REPACK_INTO)]
    options: list[tuple[Choice, KeepingCase]] = []
    for container in dict.fromkeys(one for one in wanted if one is not None):
        options.extend(_repack(room, package, case, container, sizes))
    if not package.vacuum:
        options.append(_under_vacuum(room, case, own))
    return options


def _repack(
    room: Stockroom,
    package: Package,
    case: KeepingCase,
    container: Container,
    sizes: tuple[int, ...],
) -> list[tuple[Choice, KeepingCase]]:
    try:
        absorber_cc = absorber_figures(
            container.volume_ml,
            package.dry_dg,
            sizes,
            barometer_thousandth_inhg=case.barometer_thousandth_inhg,
        ).absorber_cc
    except CannotProject:
        return []
    if container.key == package.container_key and absorber_cc == package.absorber_cc:
        return []
    choice = replace(
        _as_it_is(),
        kind="repack",
        words=f"dried again and repacked: {container.name}, {absorber_cc} cc absorber",
        container_key=container.key,
        absorber_cc=absorber_cc,
    )
    return [(choice, _closed_anew(room, case, container, absorber_cc, None))]


def _under_vacuum(
    room: Stockroom, case: KeepingCase, container: Container
) -> tuple[Choice, KeepingCase]:
    choice = replace(
        _as_it_is(),
        kind="repack",
        words=f"dried again and repacked: {container.name}, vacuum 22 inHg, no absorber",
        container_key=container.key,
        vacuum=True,
    )
    return choice, _closed_anew(room, case, container, 0, VACUUM_TENTH_INHG)


def _closed_anew(
    room: Stockroom,
    case: KeepingCase,
    container: Container,
    absorber_cc: int,
    vacuum_tenth_inhg: int | None,
) -> KeepingCase:
    sides = container.width_mm, container.height_mm
    area_mm2 = None if sides[0] is None or sides[1] is None else 2 * sides[0] * sides[1]
    return replace(
        case,
        package_kind=PackageKind(container.package_kind),
        volume_ml=container.volume_ml,
        area_mm2=area_mm2,
        absorber_cc=absorber_cc,
        vacuum_tenth_inhg=vacuum_tenth_inhg,
        opened_on=None,
        seal_lost_on=None,
        redried_on=None if case.sealed_on == room.today else room.today,
    )


def _nearest(
    containers: Sequence[Container], kind: PackageKind, package: Package
) -> Container | None:
    """The container of a kind nearest in volume that is not smaller, else the largest."""
    of_kind = sorted(
        (one for one in containers if one.package_kind == kind), key=lambda one: one.volume_ml
    )
    large = [one for one in of_kind if one.volume_ml >= package.volume_ml]
    return large[0] if large else (of_kind[-1] if of_kind else None)


def _answers(room: Stockroom, options: Sequence[tuple[Choice, KeepingCase]]) -> list[Choice]:
    return [_answer(room, choice, case) for choice, case in options]


def _answer(room: Stockroom, choice: Choice, case: KeepingCase) -> Choice:
    try:
        found: Projection = room.model.project(case)
    except CannotProject as refusal:
        return replace(choice, why_not=str(refusal), case=case)
    return replace(
        choice,
        case=case,
        best_by=found.best_by,
        low=found.low,
        high=found.high,
        limited_by=found.limited_by,
    )


def _days(now: Choice, then: Choice) -> int:
    if now.best_by is None or then.best_by is None:
        return 0
    return (then.best_by - now.best_by).days
